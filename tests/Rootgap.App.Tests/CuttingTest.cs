using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>At the saw with a tablet: what is ticked, spoiled, bent or taken instead is known to the next plan.</summary>
public partial class CuttingTest(Chromium chromium) : BrowserTest(chromium)
{
    [GeneratedRegex("^Bar .*$")]
    private static partial Regex AnyBar();

    [Fact]
    public async Task What_is_told_at_the_saw_changes_the_next_plan()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open("cutting");
        await page.Locator("#rack").SelectOptionAsync("rack.yaml");
        await Plan(page);

        // Of the first bar with several pieces one is cut; a bar with a number of its own is bent; on a third another bar is taken.
        var bars = page.GetByRole(AriaRole.Region, new() { NameRegex = AnyBar() });
        var first = bars.Filter(new() { Has = page.Locator("li:nth-child(3)") }).First;
        var name = (await first.Locator("h4").InnerTextAsync())["Bar ".Length..];
        var (cut, spoiled) = (await NameOf(first, 0), await NameOf(first, 1));
        await first.Locator("input[type=checkbox]").First.CheckAsync();
        await Assertions.Expect(first.Locator(".tag").First).ToContainTextAsync("1 of");
        await first.Locator("li").Nth(1).GetByRole(AriaRole.Button, new() { Name = "Spoiled" }).ClickAsync();
        await Assertions.Expect(first.Locator("li").Nth(1)).ToContainTextAsync("spoiled");
        await Assertions.Expect(first.Locator("li").Nth(1).Locator("input")).ToBeDisabledAsync();
        await Assertions.Expect(page.Locator("#overtaken")).ToContainTextAsync($"{spoiled} was spoiled");

        var bent = bars.Filter(new() { HasText = "from the rack" }).Filter(new() { HasNot = page.GetByRole(AriaRole.Heading, new() { Name = $"Bar {name}", Exact = true }) }).Last;
        var lost = (await bent.Locator("h4").InnerTextAsync())["Bar ".Length..];
        await bent.Locator("summary").ClickAsync();
        await bent.GetByLabel("What is wrong with it").FillAsync("bent in the yard");
        await bent.GetByRole(AriaRole.Button, new() { Name = "It is of no use" }).ClickAsync();
        await Assertions.Expect(bent).ToContainTextAsync("bent in the yard");
        await Assertions.Expect(page.Locator("#overtaken")).ToContainTextAsync($"bar {lost} is of no use");

        await Plan(page);
        await Assertions.Expect(page.Locator("#overtaken")).ToHaveCountAsync(0);
        await Assertions.Expect(bars.GetByRole(AriaRole.Heading, new() { Name = $"Bar {lost}", Exact = true })).ToHaveCountAsync(0);
        Assert.DoesNotContain(cut, await All(page), StringComparer.Ordinal);
        Assert.Contains(spoiled, await All(page), StringComparer.Ordinal);

        // The command line knows it, too: it reads the same records.
        await tablet.AllSent();
        var (exit, said, plan) = await Cut(server);
        Assert.True(exit is 0 or 1 or 2, said);
        Assert.Contains("From the job's records: 1 of 2 cuts count.", said, StringComparison.Ordinal);
        Assert.DoesNotContain(cut, Pieces(plan), StringComparer.Ordinal);
        Assert.Contains(spoiled, Pieces(plan), StringComparer.Ordinal);
        Assert.DoesNotContain($"\"bar\":\"{lost}\",\"source\"", plan, StringComparison.Ordinal);
        Assert.Equal(3, (await server.Facts()).Count(f => f.GetProperty("fact").GetString() is "piece-cut" or "bar"));
    }

    [Fact]
    public async Task The_pieces_that_were_cut_from_another_bar_are_on_that_bar()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, width: 800, height: 1180);
        var page = await tablet.Open("cutting");
        await page.Locator("#rack").SelectOptionAsync("rack.yaml");
        await Plan(page);
        var bar = page.GetByRole(AriaRole.Region, new() { NameRegex = AnyBar() }).Filter(new() { HasText = "to buy" }).First;
        await bar.Locator("input[type=checkbox]").First.CheckAsync();
        await bar.Locator("summary").ClickAsync();
        var others = bar.Locator("select option:not([value=''])");
        var taken = (await others.First.GetAttributeAsync("value"))!;
        await bar.Locator("select").SelectOptionAsync(taken);
        await bar.GetByRole(AriaRole.Button, new() { Name = $"Its pieces are cut from {taken}" }).ClickAsync();
        await Assertions.Expect(bar).ToContainTextAsync($"Cut from bar {taken} in its place");
        await tablet.AllSent();
        var facts = await server.Facts();
        Assert.Equal(taken, facts.Last(f => f.GetProperty("fact").GetString() == "piece-cut").GetProperty("from").GetProperty("bar").GetString());
        Assert.Single(facts, f => f.GetProperty("fact").GetString() == "withdrawn");
        // It is there again when the page is opened anew.
        await tablet.Go("cutting");
        await Assertions.Expect(page.GetByText($"Cut from bar {taken} in its place")).ToHaveCountAsync(1);
    }

    private static async Task Plan(IPage page)
    {
        await page.Locator("#make-plan").ClickAsync();
        await page.Locator("#make-plan:enabled").WaitForAsync(new() { Timeout = 90_000 });
        await page.Locator("#sum").WaitForAsync();
    }

    private static async Task<string> NameOf(ILocator bar, int row) => Named(await bar.Locator("li").Nth(row).Locator(".which").InnerTextAsync());

    private static async Task<IReadOnlyList<string>> All(IPage page) => [.. (await page.Locator("ol.pieces .which").AllInnerTextsAsync()).Select(Named)];

    // A row of a bar shows its number, the mark and the drawing.
    private static string Named(string row) => row.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries) is [_, var mark, var drawing] ? $"{drawing} {mark}" : row;

    private static List<string> Pieces(string plan)
    {
        using var json = System.Text.Json.JsonDocument.Parse(plan);
        return [.. from g in json.RootElement.GetProperty("groups").EnumerateArray()
                   from b in g.GetProperty("bars").EnumerateArray()
                   from p in b.GetProperty("pieces").EnumerateArray()
                   select $"{p.GetProperty("drawing").GetString()} {p.GetProperty("piece").GetString()}"];
    }

    private static async Task<(int Exit, string Error, string Out)> Cut(JobServer server)
    {
        // The command line as it was built beside these tests: ./rootgap would compile it ahead of time once more.
        var built = new DirectoryInfo(AppContext.BaseDirectory);
        var program = Repository.At(Path.Combine("src", "Rootgap.Cli", "bin", built.Parent!.Name, built.Name, "Rootgap.Cli"));
        using var command = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo(program, ["cut", server.Folder, "--stock", Path.Combine(server.Folder, "rack.yaml"), "--json"])
        { RedirectStandardError = true, RedirectStandardOutput = true })!;
        var wrong = command.StandardError.ReadToEndAsync();
        var output = await command.StandardOutput.ReadToEndAsync();
        await command.WaitForExitAsync();
        return (command.ExitCode, await wrong, output);
    }
}
