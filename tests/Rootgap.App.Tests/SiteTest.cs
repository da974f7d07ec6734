using Rootgap.App.Tests.Harness;
using Rootgap.Site.Forecasting;
using Rootgap.Site.Splitting;

namespace Rootgap.App.Tests;

/// <summary>Planning for the site in the browser, with no server within reach: split, forecast and the order of erection against what the engine says on this machine.</summary>
public class SiteTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task A_split_is_planned_pinned_and_put_into_the_drawing_with_no_server()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await tablet.IsKept();
        await tablet.AllSent();
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await tablet.Turn("split/" + Pages.Drawing);
        await page.Locator("#plan-split").ClickAsync();
        await page.Locator("#plan-1").WaitForAsync(new() { Timeout = 60_000 });
        var here = Split.Of(Pages.Sample().Fabrication, new(Free: true)).Plans[0];
        Assert.Contains(here.Cost.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture), await page.Locator("#plan-1").InnerTextAsync(), StringComparison.Ordinal);
        // Pinned by a tap: field, then final fit.
        await page.Locator("[data-place=W11] .touch").ClickAsync();
        await page.Locator("[data-place=W11] .touch").ClickAsync();
        await page.Locator("#plan-split").ClickAsync();
        await page.GetByText("W11 final-fit").WaitForAsync(new() { Timeout = 60_000 });
        await page.Locator("#write-split").ClickAsync();
        await page.WaitForFunctionAsync("() => location.pathname.includes('/drawing/')");
        await tablet.Stands();
        // The draft has the mark, and says so beside its row as anything that is typed.
        var draft = await page.EvaluateAsync<string>("""
            async () => {
              const answer = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
              const db = await answer(indexedDB.open('rootgap'));
              const all = await answer(db.transaction('drafts').objectStore('drafts').getAll());
              db.close();
              return all.map(d => d.text).join('\n');
            }
            """);
        Assert.Contains("by: 1300, to: elbow, end: final-fit", draft, StringComparison.Ordinal);
        Assert.Contains("# E-4's nozzle, as surveyed", draft, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_forecast_is_the_engines_and_steps_are_ticked_with_who_and_when()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open("forecast/" + Pages.Drawing);
        await page.Locator(".chance").First.WaitForAsync(new() { Timeout = 60_000 });
        var here = Forecast.Of(Pages.Sample().Fabrication, new(Draws: 1000));
        foreach (var closing in here.Closings)
        {
            var told = await page.Locator($"[data-joint={closing.Opening.Joint.Id}]").InnerTextAsync();
            foreach (var line in ForecastWords.Of(closing).Skip(1))
                Assert.Contains(line.Trim(), told, StringComparison.Ordinal);
        }

        await page.GetByRole(AriaRole.Link, new() { Name = "Order", Exact = true }).ClickAsync();
        await page.Locator("#erect").ClickAsync();
        await page.GetByText("Put up").WaitForAsync();
        await page.Locator("#step-title").Filter(new() { HasText = "Step 2" }).WaitForAsync();
        await tablet.AllSent();
        var fact = Assert.Single(await tablet.Facts(), f => f.Kind == "erection");
        Assert.Equal("RH", fact.Fact.GetProperty("who").GetString());
        Assert.Equal("spool 1", fact.Fact.GetProperty("step").GetString());
    }
}
