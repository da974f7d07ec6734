using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>At the stands: what is read and what it means stand on the screen together, and what can hardly be is asked about.</summary>
public partial class StandsTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task On_a_phone_the_reading_the_pad_and_the_verdict_are_on_the_screen_together_and_a_slip_of_the_point_is_asked_about()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 360, 740);
        var page = await tablet.Open(Pages.Fit);
        var first = page.Locator("input.read").First;
        var aim = await Aim(page, first);
        await first.FocusAsync();
        // The point left out: ten times what is asked for.
        await page.Keyboard.TypeAsync((aim * 10).ToString("0", CultureInfo.InvariantCulture));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#doubt")).ToContainTextAsync(aim.ToString("0.0", CultureInfo.InvariantCulture));
        Assert.DoesNotContain(await tablet.Facts(), f => f.Kind == "readings");
        await page.Locator("#doubt-meant").ClickAsync();
        await Assertions.Expect(first).ToHaveValueAsync(new Regex("^" + Regex.Escape(aim.ToString("0.0", CultureInfo.InvariantCulture))));
        await Assertions.Expect(page.Locator("#verdict .verdict")).ToBeVisibleAsync();
        foreach (var part in new[] { ".typing", "#verdict .verdict", "#pad-next" })
        {
            var box = (await page.Locator(part).First.BoundingBoxAsync())!;
            Assert.True(box.Y >= 0 && box.Y + box.Height <= 740, FormattableString.Invariant($"{part} stands from {box.Y:0} to {box.Y + box.Height:0} of 740"));
        }
    }

    [Fact]
    public async Task Nobodys_good_reading_takes_anothers_warning_away_and_a_weld_without_a_stamp_is_asked_about()
    {
        var server = await Serve();
        Tablet[] tablets = [await NewTablet(server, who: "Ruth"), await NewTablet(server, who: "Miro")];
        var offs = new[] { 4.0, 0.0 };
        for (var i = 0; i < 2; i++)
        {
            var page = await tablets[i].Open(Pages.Fit);
            var first = page.Locator("input.read").First;
            var aim = await Aim(page, first);
            await first.FocusAsync();
            await page.Keyboard.TypeAsync((aim + offs[i]).ToString("0.0", CultureInfo.InvariantCulture));
            await page.Keyboard.PressAsync("Enter");
            await Assertions.Expect(page.Locator("#verdict .verdict")).ToBeVisibleAsync();
            await tablets[i].AllSent();
        }

        var other = tablets[1].Page;
        await Assertions.Expect(other.Locator("#steps-warning")).ToContainTextAsync("Ruth", new() { Timeout = 30_000 });
        await Assertions.Expect(other.Locator("#others-warning")).ToContainTextAsync("Ruth");

        await other.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(other.Locator("#asked-welded")).ToContainTextAsync("not down as tacked");
        await Assertions.Expect(other.Locator("#asked-welded")).ToContainTextAsync("no welder's stamp");
        Assert.DoesNotContain(await tablets[1].Facts(), f => f.Kind == "joint-step");
        await other.Locator("#all-the-same").ClickAsync();
        await Assertions.Expect(other.Locator("#step-welded")).ToContainTextAsync("Another welder");
        Assert.Single(await tablets[1].Facts(), f => f.Kind == "joint-step");
    }

    [Fact]
    public async Task A_second_heat_of_one_part_is_asked_about_and_two_peoples_two_heats_are_told()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, who: "Ruth");
        var f = Pages.Sample().Fabrication;
        var (spool, part) = f.Spools.SelectMany(s => s.Components.Select(c => (s.Name, c.Id))).First();
        var page = await tablet.Open($"spool/{spool}/{Pages.Drawing}");
        var field = page.Locator($"#heat-{part}");
        await field.FillAsync("H100");
        await field.PressAsync("Enter");
        await tablet.AllSent();
        await field.FillAsync("H200");
        await field.PressAsync("Enter");
        var asked = page.Locator($"#heat-asked-{part}");
        await Assertions.Expect(asked).ToContainTextAsync("H100");
        Assert.Single(await tablet.Facts(), k => k.Kind == "heat");
        await asked.GetByText("It stays H100").ClickAsync();
        await Assertions.Expect(field).ToHaveValueAsync("H100");
        Assert.Single(await tablet.Facts(), k => k.Kind == "heat");

        var piece = f.Cuts[0].Piece;
        await server.Post([.. new[] { "H7", "H8" }.Select((heat, i) => (object)new
        {
            id = Guid.NewGuid().ToString(), fact = "piece-cut", who = i == 0 ? "Ruth" : "Miro", when = DateTimeOffset.UtcNow.AddSeconds(i), drawing = "CHW-201", revision = f.Route.Drawing.Revision, piece, heat,
        })]);
        await tablet.Turn($"spool/{f.Spools.First(s => s.Cuts.Any(c => c.Piece == piece)).Name}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator($"#two-heats-{piece}")).ToContainTextAsync("H8 (Miro)", new() { Timeout = 60_000 });
    }

    private static async Task<double> Aim(IPage page, ILocator field)
    {
        var text = await page.Locator($"[id='{(await field.GetAttributeAsync("id"))!.Replace("reading-", "target-", StringComparison.Ordinal)}']").InnerTextAsync();
        return double.Parse(Number().Match(text).ValueSpan, CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
