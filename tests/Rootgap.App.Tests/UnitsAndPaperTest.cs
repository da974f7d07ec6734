using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;
using UglyToad.PdfPig;

namespace Rootgap.App.Tests;

/// <summary>Feet and inches at any time, and paper.</summary>
public partial class UnitsAndPaperTest(Chromium chromium) : BrowserTest(chromium)
{
    private const string Text = "() => { const m = document.querySelector('main').cloneNode(true); for (const e of m.querySelectorAll('svg, .unseen')) e.remove(); return m.textContent.replace(/\\s+/g, ' '); }";

    [Fact]
    public async Task The_units_are_switched_everywhere_at_once_and_back()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        foreach (var path in new[] { $"spool/{Pages.Spool}/{Pages.Drawing}", Pages.Fit })
        {
            await tablet.Turn(path);
            var metric = await Words(tablet);
            Assert.DoesNotMatch(FeetInches(), metric);
            await page.Locator("#units").ClickAsync();
            await Assertions.Expect(page.Locator("#units")).ToContainTextAsync("ft-in");
            var imperial = await Words(tablet);
            Assert.Matches(FeetInches(), imperial);
            Assert.DoesNotMatch(Millimetres(), imperial);
            await page.Locator("#units").ClickAsync();
            await Assertions.Expect(page.Locator("#units")).ToContainTextAsync("mm");
            Assert.Equal(metric, await Words(tablet));
        }
    }

    [Theory]
    [InlineData(390)]
    [InlineData(1180)]
    public async Task A_leg_s_length_in_feet_and_sixteenths_is_seen_whole(int width)
    {
        var server = await Serve();
        // The longest that a pipe of the stock has.
        const string Longest = "19'-11 13/16";
        await server.Write("pump-suction.yaml", Pages.Text("pump-suction.yaml").Replace("4'-3 1/2", Longest, StringComparison.Ordinal));
        var tablet = await NewTablet(server, width, 820);
        var page = await tablet.Open("drawing/pump-suction.yaml");
        var lengths = page.Locator(".line .by input");
        await Assertions.Expect(lengths.First).ToHaveValueAsync(new Regex("\\d"));
        Assert.Contains(await lengths.EvaluateAllAsync<string[]>("all => all.map(i => i.value)"), l => l.StartsWith(Longest, StringComparison.Ordinal));
        // Nor are the direction and the fitting beside it cut.
        Assert.Empty(await page.Locator(".line input").EvaluateAllAsync<string[]>("all => all.filter(i => i.offsetParent && i.scrollWidth > i.clientWidth).map(i => `${i.value}: ${i.scrollWidth} of ${i.clientWidth}`)"));
    }

    [Fact]
    public async Task A_drawing_in_inches_is_shown_and_read_in_inches_until_another_is_chosen()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open("survey/pump-suction.yaml");
        await Assertions.Expect(page.Locator("#units")).ToContainTextAsync("ft-in");
        await Assertions.Expect(page.Locator("#verdicts")).ToContainTextAsync("cut off 3 15/16\"");
        var reading = page.Locator("#next-0");
        await reading.FillAsync("4'-6 1/2");
        await reading.PressAsync("Enter");
        // 54.5 inches; the survey's row is in millimetres.
        await Assertions.Expect(page.GetByText("1384.3").First).ToBeVisibleAsync();
        await page.Locator("#units").ClickAsync();
        await Assertions.Expect(page.Locator("#verdicts")).ToContainTextAsync(CutOff());
        // The picture with its figures, too.
        await Assertions.Expect(page.Locator("#stands + .drawing")).ToContainTextAsync(CutOff());
        await tablet.Turn("survey/" + Pages.Drawing);
        await Assertions.Expect(page.Locator("#units")).ToContainTextAsync("mm");
    }

    [Fact]
    public async Task A_spools_sheet_goes_to_paper_a_page_each_and_the_page_itself_stays_away()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        // A browser without a screen has no dialogue; what would go to the printer is looked at as a PDF.
        await tablet.Context.AddInitScriptAsync("window.print = () => { window.printed = document.querySelectorAll('.print-page').length; };");
        var page = await tablet.Open($"spool/{Pages.Spool}/{Pages.Drawing}");
        await page.Locator("#print-sheet:not([disabled])").ClickAsync();
        await page.WaitForFunctionAsync("() => window.printed > 0");
        var sheets = await page.EvaluateAsync<int>("() => window.printed");
        using var paper = PdfDocument.Open(await page.PdfAsync(new() { Format = "A4", Landscape = true, PrintBackground = true }));
        Assert.Equal(sheets, paper.NumberOfPages);
        var words = paper.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text).ToList();
        Assert.Contains("CHW-201", words);
        Assert.DoesNotContain("Settings", words);
        await page.EvaluateAsync("() => dispatchEvent(new Event('afterprint'))");
        await page.Locator(".print-only").WaitForAsync(new() { State = WaitForSelectorState.Detached });
    }

    /// <summary>What stands on the page when it is no more at work, without drawings: those are in the drawing's own units.</summary>
    private static async Task<string> Words(Tablet tablet)
    {
        await tablet.Stands();
        return await tablet.Page.EvaluateAsync<string>(Text);
    }

    [GeneratedRegex(@"\d'-|\d+/(16|8|4|2)""")]
    private static partial Regex FeetInches();

    [GeneratedRegex(@"cut off \d+\.\d")]
    private static partial Regex CutOff();

    [GeneratedRegex(@"\d ?mm\b")]
    private static partial Regex Millimetres();
}
