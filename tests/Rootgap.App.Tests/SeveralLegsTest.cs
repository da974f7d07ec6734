using Rootgap.App.Tests.Harness;
using Rootgap.Drawings;

namespace Rootgap.App.Tests;

/// <summary>Several legs at once: repeated, mirrored, kept as a template, inserted elsewhere; each one step.</summary>
public class SeveralLegsTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task Legs_are_mirrored_repeated_kept_as_a_template_and_inserted_and_each_is_one_step_back()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        var text = DrawingText.Of(Pages.Text(Pages.Drawing), Pages.Drawing);
        var legs = text.Runs[0].Legs.Count;
        await page.Locator("[id='cell-runs[0].legs[2]-by']").ClickAsync();
        await page.Locator("[id='row-runs[0].legs[2]'] [data-act=stretch]").ClickAsync();
        // The next leg that is gone to is the other end.
        await page.Locator("[id='cell-runs[0].legs[4]-go']").ClickAsync();
        await Assertions.Expect(page.Locator("#stretch-first")).ToHaveValueAsync("2");
        await Assertions.Expect(page.Locator("#stretch-last")).ToHaveValueAsync("4");

        await page.Locator("#stretch-mirror-up").ClickAsync();
        await Says(new Stretch(0, 2, 4).Mirror(text, "up"));
        await Back();
        await page.Locator("#stretch-repeat").ClickAsync();
        var repeated = new Stretch(0, 2, 4).Repeat(text);
        await Says(repeated);
        await Assertions.Expect(page.Locator("#stretch-says")).ToContainTextAsync(repeated.Says.Count > 0 ? repeated.Says[0] : "");
        await Assertions.Expect(page.Locator("#stretch-first")).ToHaveValueAsync("5");
        await Back();

        // Written from its other end: the last leg comes first, and the drawing still closes where its branches say.
        await page.Locator("#stretch-reverse").ClickAsync();
        await Assertions.Expect(page.Locator("#stretch-says")).ToContainTextAsync("the same");
        await Assertions.Expect(page.Locator("[id='cell-runs[0].legs[0]-by']")).ToHaveValueAsync(text.Runs[0].Legs[^1]["by"]);
        await Assertions.Expect(page.Locator("#check b")).ToContainTextAsync("can be built");
        await Back();

        await page.Locator("#stretch-first").SelectOptionAsync("0");
        await page.Locator("#stretch-last").SelectOptionAsync("1");
        await page.Locator("#template-name").FillAsync("Pump discharge");
        await page.Locator("#template-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#stretch-says")).ToContainTextAsync("Kept: Pump discharge");
        await tablet.AllSent();
        Assert.Contains("of:", await File.ReadAllTextAsync(Path.Combine(server.Folder, "templates", "pump-discharge.yaml"), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        // In another drawing it goes behind a leg.
        const string Other = "sea-water.yaml";
        var other = DrawingText.Of(Pages.Text(Other), Other);
        await tablet.Turn("drawing/" + Other);
        await page.Locator("[id='cell-runs[0].legs[2]-by']").ClickAsync();
        await page.Locator("[id='row-runs[0].legs[2]'] [data-act=stretch]").ClickAsync();
        await page.Locator("#insert-what").SelectOptionAsync(new SelectOptionValue { Label = "Pump discharge" });
        await page.Locator("#insert-it").ClickAsync();
        await Assertions.Expect(page.Locator("[id^='row-runs[0].legs']")).ToHaveCountAsync(other.Runs[0].Legs.Count + 2);
        await Assertions.Expect(page.Locator("#stretch-says")).ToContainTextAsync("Its size was");

        async Task Says(StretchDone done)
        {
            await Assertions.Expect(page.Locator("[id^='row-runs[0].legs']")).ToHaveCountAsync(done.Text.Runs[0].Legs.Count);
            for (var i = 2; i < 8; i++)
                await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{i}]-go']")).ToHaveValueAsync(done.Text.Runs[0].Legs[i]["go"]);
        }

        async Task Back()
        {
            await page.Locator(".draw-tools [data-act=undo]").ClickAsync();
            await Assertions.Expect(page.Locator("[id^='row-runs[0].legs']")).ToHaveCountAsync(legs);
            for (var i = 2; i < 6; i++)
                await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{i}]-go']")).ToHaveValueAsync(text.Runs[0].Legs[i]["go"]);
        }
    }
}
