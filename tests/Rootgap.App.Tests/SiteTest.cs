using Rootgap.App.Tests.Harness;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;
using Rootgap.Site.Forecasting;
using Rootgap.Site.Splitting;
using Rootgap.Site.Surveys;

namespace Rootgap.App.Tests;

/// <summary>The site's pages against what the engine works out on this machine: planner at the desk, erector with the network gone.</summary>
public class SiteTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static Packet Line { get; } = Pages.Sample();

    /// <summary>Taps a place where it stands on the picture; it fails where anything else lies on top.</summary>
    private static async Task Tap(IPage page, string place)
    {
        await page.Locator($"[data-place='{place}'] > g").ClickAsync();
        await Assertions.Expect(page.Locator("#chosen-place")).ToContainTextAsync(place + ",");
    }

    [Fact]
    public async Task A_planner_pins_and_forbids_on_the_isometric_weighs_and_puts_the_plan_into_the_drawing()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open("split/" + Pages.Drawing);
        await page.Locator(".places").WaitForAsync();
        // Every place is met where it stands, however near the next one is.
        foreach (var place in Split.PlacesIn(Line.Fabrication, Line.Drawing.Shop.Split).Where(p => p.Size.Inches > 1))
            await Tap(page, place.Name);
        await page.Locator("#plan-split").ClickAsync();
        var rules = Line.Drawing.Shop.Split;
        var first = Split.Of(Line.Fabrication, new(Free: true) { Rules = rules }).Plans[0];
        await Assertions.Expect(page.Locator("#plan-1")).ToHaveTextAsync(FormattableString.Invariant($"Plan 1: {first.Cost:0.##}"), new() { Timeout = 60_000 });

        var (banned, pinned) = (first.Marks[0].Place.Name, "W12");
        Assert.DoesNotContain(first.Marks, m => m.Place.Name == pinned);
        await Tap(page, banned);
        await page.Locator("#wish-Never").ClickAsync();
        await Tap(page, pinned);
        await page.Locator("#wish-FinalFit").ClickAsync();
        await page.GetByLabel("Field weld, each inch").FillAsync("1.5");
        await page.GetByLabel("Field weld, each inch").BlurAsync();
        await page.Locator("#plan-split").ClickAsync();
        var second = Split.Of(Line.Fabrication, new(true, new Dictionary<string, WeldPlace>(StringComparer.Ordinal) { [pinned] = WeldPlace.FinalFit }, new HashSet<string>(StringComparer.Ordinal) { banned }) { Rules = rules with { Field = 1.5 } }).Plans[0];
        Assert.NotEqual(first.Cost, second.Cost);
        await Assertions.Expect(page.Locator("#plan-1")).ToHaveTextAsync(FormattableString.Invariant($"Plan 1: {second.Cost:0.##}"), new() { Timeout = 60_000 });
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { } shots)
            await page.ScreenshotAsync(new() { Path = Path.Combine(shots, "split-planned.png"), FullPage = true });
        await page.Locator("#write-split").ClickAsync();
        await page.WaitForURLAsync("**/drawing/" + Pages.Drawing);
        var wanted = SplitWriting.Write(DrawingText.Of(Pages.Text(Pages.Drawing), Pages.Drawing), Line.Drawing, second, takeOut: true).Text;
        await page.Locator("#view-text").ClickAsync();
        await Assertions.Expect(page.Locator("#cell--text")).ToHaveValueAsync(wanted.ReplaceLineEndings("\n"));
    }

    [Fact]
    public async Task The_forecast_on_the_tablet_is_that_of_the_engine()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open("forecast/" + Pages.Drawing);
        foreach (var asWelded in new[] { false, true })
        {
            if (asWelded)
                await page.Locator("#as-welded").CheckAsync();
            foreach (var closing in Forecast.Of(Line.Fabrication, new(asWelded, ForecastAsked.CloseDraws)).Closings)
            {
                var card = page.Locator($"[data-joint='{closing.Opening.Joint.Id}']");
                await Assertions.Expect(card).ToContainTextAsync(FormattableString.Invariant($"extra {closing.Extra:0}, needed {closing.ExtraNeeded:0}"), new() { Timeout = 60_000 });
                await Assertions.Expect(card).ToContainTextAsync(FormattableString.Invariant($"closes in {100 * closing.Closes!.Value:0.#} of 100"));
            }
        }
    }

    [Fact]
    public async Task An_erector_reads_and_closes_with_the_network_gone()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 820, 1180);
        var page = await tablet.Open("survey/" + Pages.Drawing);
        await tablet.IsKept();
        await tablet.AllSent();
        await tablet.Context.SetOfflineAsync(true);
        var line = SiteLine.Of(Line.Fabrication);
        await page.Locator("#conditions").ClickAsync();
        foreach (var made in new[] { "B1", "W11" })
            await page.Locator("#state-" + made).SelectOptionAsync("made");
        await page.Locator("#out-W15").FillAsync("0");
        var held = line.BodyOf("spool 3")!.Index;
        await page.Locator($"#held-{held}").CheckAsync();
        var moved = line.BodyOf("spool 5")!.Index;
        await page.Locator($"#may-{moved}-2").FillAsync("12");
        await page.Locator("#keep-conditions").ClickAsync();
        await page.Locator("#weld-W15").ClickAsync();

        // Three readings, each as a fitter types it, each with what it did.
        string[] rows = ["{gap: 3, at: W15, mm: 4.1}", "{gap: 9, at: W15, mm: 4.4}", "{hi-lo: 12, at: W15, mm: 0.8}"];
        await page.GetByText("Another reading").ClickAsync();
        var before = await page.Locator("#verdicts").InnerTextAsync();
        foreach (var (kind, clock, value) in new[] { ("gap", "3", "4,1"), ("gap", "9", "4.4"), ("hi-lo", "12", "0.8") })
        {
            await page.Locator("#another-kind").SelectOptionAsync(kind);
            await page.Locator("#another-joint").SelectOptionAsync("W15");
            await page.Locator("#another-clock").FillAsync(clock);
            await page.Locator("#another-value").FillAsync(value);
            await page.Locator("#another-value").BlurAsync();
            await page.Locator("#another-keep").ClickAsync();
            await Assertions.Expect(page.Locator("#told")).ToContainTextAsync("Kept.");
            await Assertions.Expect(page.Locator("#verdicts")).Not.ToHaveTextAsync(before, new() { UseInnerText = true });
            before = await page.Locator("#verdicts").InnerTextAsync();
        }

        // Nothing that is no reading is kept, and it is said why.
        await page.Locator("#another-clock").FillAsync("25");
        await page.Locator("#another-value").FillAsync("1");
        await page.Locator("#another-value").BlurAsync();
        await page.Locator("#another-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#told")).ToContainTextAsync("25");

        var survey = SurveyReading.Read(line, "survey.yaml", System.Text.Encoding.UTF8.GetBytes(
            $"survey: as typed\nmade: [B1, W11]\nstands out: {{W15: 0}}\nheld: [spool 3]\nmay move: {{spool 5: {{up: 12}}}}\nreadings:\n  - {string.Join("\n  - ", rows)}\n"));
        Assert.Empty(survey.Errors);
        var closure = LineClosing.Of(line, survey.Survey).Closing!.Closures.First(c => c.Joint.Id == "W15");
        async Task Shows() => Assert.Equal(closure.Opening.Round.Select(mm => Measure.LengthText.Millimetres(mm, 1)), (await page.Locator("#sixteen b").AllInnerTextsAsync()).Select(t => t.Trim()));
        await Shows();
        var facts = await tablet.Facts();
        Assert.Equal(3, facts.Count(f => f.Kind == "survey-reading" && f.IsUnsent && f.Fact.GetProperty("who").GetString() == "RH"));
        var head = facts.Single(f => f.Kind == "survey-set").Fact.GetProperty("head").GetString()!;
        Assert.Contains("held: [spool 3]", head, StringComparison.Ordinal);
        Assert.Contains("spool 5: {up: 12}", head, StringComparison.Ordinal);

        // The tab is gone, the network too; what was typed is there.
        await tablet.CloseTab();
        page = await tablet.Open("survey/" + Pages.Drawing);
        await page.Locator("#weld-W15").ClickAsync();
        await Shows();
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { } shots)
            await page.ScreenshotAsync(new() { Path = Path.Combine(shots, "survey-read.png"), FullPage = true });
        var sheet = await page.RunAndWaitForDownloadAsync(() => page.Locator("#save-closing").ClickAsync());
        using var paper = UglyToad.PdfPig.PdfDocument.Open(await File.ReadAllBytesAsync(await sheet.PathAsync(), Xunit.TestContext.Current.CancellationToken));
        Assert.Contains(paper.GetPages().SelectMany(p => p.GetWords()), w => w.Text == "W15");
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        Assert.Equal(3, (await server.Facts()).Count(f => f.GetProperty("fact").GetString() == "survey-reading"));
    }

    [Fact]
    public async Task Steps_are_ticked_with_who_and_when_and_the_other_tablet_sees_them()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 820, 1180);
        var page = await tablet.Open("order/" + Pages.Drawing);
        await tablet.IsKept();
        var steps = ErectionOrder.Of(SiteLine.Of(Line.Fabrication));
        await Assertions.Expect(page.Locator(".steps li")).ToHaveCountAsync(steps.Count);
        await tablet.Context.SetOfflineAsync(true);
        for (var i = 0; i < 2; i++)
        {
            await Assertions.Expect(page.Locator("#step-title")).ToContainTextAsync($"Step {i + 1} of {steps.Count}: {char.ToUpperInvariant(steps[i].Name[0])}{steps[i].Name[1..]}");
            await page.Locator("#erect").ClickAsync();
        }

        await Assertions.Expect(page.Locator("#step-title")).ToContainTextAsync($"Step 3 of {steps.Count}");
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        var other = await NewTablet(server, who: "Ann");
        var there = await other.Open("order/" + Pages.Drawing);
        await Assertions.Expect(there.Locator("#step-1")).ToContainTextAsync("✓");
        await there.Locator("#step-1").ClickAsync();
        await Assertions.Expect(there.Locator(".fact").First).ToContainTextAsync("RH");
        await Assertions.Expect(there.Locator("#step-3")).Not.ToContainTextAsync("✓");
    }
}
