using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Nothing that was entered is lost, and nothing is there twice: server killed, network gone, tab closed, two people, full disk.</summary>
public partial class KeepingTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    [Fact]
    public async Task Readings_outlive_a_killed_server_a_lost_network_and_a_closed_tab_on_both_sides_once()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open(Pages.Fit);
        await tablet.IsKept();
        var wanted = new Dictionary<string, double>(StringComparer.Ordinal);
        await Read(page, wanted, 0);
        await Read(page, wanted, 1);
        await tablet.AllSent();
        Assert.Equal(2, Readings(await server.Facts()).Count);

        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await Read(page, wanted, 2);
        // In the middle of the next one: typed, not yet confirmed, when the tab goes.
        var half = page.Locator("input.read").Nth(3);
        var typed = (await Aim(page, 3) + 0.5).ToString("0.0", CultureInfo.InvariantCulture);
        await half.FocusAsync();
        await page.Keyboard.TypeAsync(typed);
        await page.Locator(".typed").First.WaitForAsync();
        await tablet.CloseTab();

        page = await tablet.Open(Pages.Fit);
        for (var i = 0; i < 3; i++)
            await Assertions.Expect(page.Locator("input.read").Nth(i)).ToHaveValueAsync(new Regex(@"\d"));
        await Assertions.Expect(page.Locator("input.read").Nth(3)).ToHaveValueAsync(typed);
        await page.Locator("input.read").Nth(3).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Signed(page, 3);
        wanted[await Key(page, 3)] = double.Parse(typed, CultureInfo.InvariantCulture);
        await Read(page, wanted, 4);
        Assert.Equal(3, (await tablet.Facts()).Count(f => f.IsUnsent));
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("3 kept here");

        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        var (there, here) = (await server.Facts(), await tablet.Facts());
        Assert.Equal(there.Select(Id).Order(StringComparer.Ordinal), here.Select(f => f.Id).Order(StringComparer.Ordinal));
        Assert.Equal(there.Count, there.Select(Id).Distinct(StringComparer.Ordinal).Count());
        var taken = Readings(there);
        Assert.Equal(5, taken.Count);
        // Each with its value: the same five numbers, whatever they are called.
        Assert.Equal(wanted.Values.Order(), taken.Select(r => r.GetProperty("readings")[0]).Select(Value).Order());
        Assert.Equal(taken.Select(t => t.GetRawText()).Order(StringComparer.Ordinal), Readings([.. here.Select(f => f.Fact)]).Select(t => t.GetRawText()).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Two_peoples_readings_of_one_joint_are_both_kept_and_shown_on_both_tablets()
    {
        var server = await Serve();
        Tablet[] tablets = [await NewTablet(server, who: "Ruth"), await NewTablet(server, who: "Miro")];
        var seen = new List<double>();
        foreach (var tablet in tablets)
        {
            var page = await tablet.Open(Pages.Fit);
            await tablet.IsKept();
            await tablet.AllSent();
            await tablet.Context.SetOfflineAsync(true);
            var value = Math.Round(await Aim(page, 0) + (0.2 * (seen.Count + 1)), 1);
            await page.Locator("input.read").First.FocusAsync();
            await page.Keyboard.TypeAsync(value.ToString("0.0", CultureInfo.InvariantCulture));
            await page.Keyboard.PressAsync("Enter");
            await Signed(page, 0);
            seen.Add(value);
        }

        foreach (var tablet in tablets)
        {
            await tablet.Context.SetOfflineAsync(false);
            await tablet.AllSent();
        }

        foreach (var tablet in tablets)
        {
            var taken = tablet.Page.Locator(".after");
            foreach (var (who, value) in new[] { "Ruth", "Miro" }.Zip(seen))
            {
                await Assertions.Expect(taken).ToContainTextAsync(who, new() { Timeout = 60_000 });
                await Assertions.Expect(taken).ToContainTextAsync(value.ToString("0.0", CultureInfo.InvariantCulture));
            }

            Assert.Equal(2, Readings([.. (await tablet.Facts()).Select(f => f.Fact)]).Count);
        }

        Assert.Equal(seen.Order(), Readings(await server.Facts()).Select(r => Value(r.GetProperty("readings")[0])).Order());
    }

    [Fact]
    public async Task Two_changes_of_one_version_of_a_drawing_are_both_kept_and_offered()
    {
        var server = await Serve();
        Tablet[] tablets = [await NewTablet(server, 1440, 900, who: "Ruth"), await NewTablet(server, 1440, 900, who: "Miro")];
        string[] by = ["910", "920"];
        for (var i = 0; i < 2; i++)
        {
            var page = await tablets[i].Open("drawing/" + Pages.Drawing);
            await tablets[i].IsKept();
            await tablets[i].AllSent();
            await tablets[i].Context.SetOfflineAsync(true);
            await page.Locator("[id='cell-runs[0].legs[2]-by']").FillAsync(by[i]);
            // Left alone it becomes a version.
            await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("1 kept here", new() { Timeout = 30_000 });
        }

        foreach (var tablet in tablets)
            await tablet.Context.SetOfflineAsync(false);
        foreach (var tablet in tablets)
        {
            await tablet.AllSent();
            var torn = tablet.Page.Locator(".torn");
            await Assertions.Expect(torn).ToContainTextAsync("Ruth", new() { Timeout = 60_000 });
            await Assertions.Expect(torn).ToContainTextAsync("Miro");
        }

        var versions = (await server.Facts()).Where(f => f.GetProperty("fact").GetString() == "file" && f.GetProperty("path").GetString() == Pages.Drawing).ToList();
        Assert.Equal(3, versions.Count);
        Assert.Single(versions.Skip(1).Select(v => v.GetProperty("base").GetString()).Distinct(StringComparer.Ordinal));

        // One is gone on with: then both see one version again, and it is in the folder.
        await tablets[0].Page.Locator(".torn li").Filter(new() { HasText = "Miro" }).GetByText("Go on with this one").ClickAsync();
        foreach (var tablet in tablets)
        {
            await tablet.Page.Locator(".torn").WaitForAsync(new() { State = WaitForSelectorState.Detached, Timeout = 60_000 });
            await Assertions.Expect(tablet.Page.Locator("[id='cell-runs[0].legs[2]-by']")).ToHaveValueAsync("920");
        }

        await tablets[0].AllSent();
        Assert.Contains("920", await File.ReadAllTextAsync(Path.Combine(server.Folder, Pages.Drawing), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_full_disk_on_the_server_is_said_and_what_was_entered_goes_later()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "The limit on the size of files is set with prlimit.");
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open($"spool/{Pages.Spool}/{Pages.Drawing}");
        await tablet.AllSent();
        var before = (await server.Facts()).Count;
        await server.LimitFiles("1024");
        await page.Locator("[id^='cut-']").First.ClickAsync();
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("1 kept here: The disk", new() { Timeout = 30_000 });
        Assert.Single(await tablet.Facts(), f => f.IsUnsent);

        await server.LimitFiles("unlimited");
        await tablet.AllSent();
        var facts = await server.Facts();
        Assert.Equal(before + 1, facts.Count);
        Assert.Single(facts, f => f.GetProperty("fact").GetString() == "piece-cut");
    }

    [Fact]
    public async Task Without_the_shops_token_the_app_says_the_servers_words_and_with_it_the_job_opens()
    {
        var server = await Serve("hatchery", "--shop-network");
        var stranger = await NewTablet(server);
        var page = await stranger.Open();
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("This device has not shown the job's token.");
        Assert.Equal(0, await page.GetByText("CHW-201").CountAsync());

        var token = (await File.ReadAllTextAsync(Path.Combine(server.Folder, ".rootgap", "token"), TestContext.Current.CancellationToken)).Trim();
        var known = await NewTablet(server);
        page = await known.Open("#token=" + token);
        await page.GetByText("CHW-201").First.WaitForAsync();
        await known.AllSent();
        Assert.DoesNotContain(token, page.Url, StringComparison.Ordinal);
    }

    /// <summary>Reads a value at the joint as a fitter does, with the keyboard, and waits until it is kept.</summary>
    private static async Task Read(IPage page, Dictionary<string, double> wanted, int row)
    {
        var value = Math.Round(await Aim(page, row) + 0.3, 1);
        await page.Locator("input.read").Nth(row).FocusAsync();
        await page.Keyboard.TypeAsync(value.ToString("0.0", CultureInfo.InvariantCulture));
        await page.Keyboard.PressAsync("Enter");
        await Signed(page, row);
        wanted[await Key(page, row)] = value;
    }

    private static async Task<string> Key(IPage page, int row) => (await page.Locator("input.read").Nth(row).GetAttributeAsync("id"))!;

    /// <summary>A reading that is a fact has its verdict beside it.</summary>
    private static async Task Signed(IPage page, int row) => await page.Locator($"[id='{(await Key(page, row)).Replace("reading-", "sign-", StringComparison.Ordinal)}'] b").WaitForAsync();

    private static async Task<double> Aim(IPage page, int row)
    {
        var text = await page.Locator($"[id='{(await Key(page, row)).Replace("reading-", "target-", StringComparison.Ordinal)}']").InnerTextAsync();
        return double.Parse(Number().Match(text).ValueSpan, CultureInfo.InvariantCulture);
    }

    private static List<JsonElement> Readings(IEnumerable<JsonElement> facts) => [.. facts.Where(f => f.GetProperty("fact").GetString() == "readings")];

    private static string Id(JsonElement fact) => fact.GetProperty("id").GetString()!;

    private static double Value(JsonElement reading) => new[] { "mm", "deg", "along", "across" }.Where(u => reading.TryGetProperty(u, out _)).Select(u => Math.Round(reading.GetProperty(u).GetDouble(), 6)).First();

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
