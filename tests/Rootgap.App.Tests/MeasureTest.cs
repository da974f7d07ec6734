using Rootgap.App.Tests.Harness;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.App.Tests;

/// <summary>Two taps on the drawing, and how far it is between them.</summary>
public class MeasureTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task Two_taps_on_the_isometric_say_how_far_it_is_between_the_ends_of_two_legs()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        var places = MeasuredWay.Places(Pages.Sample().Fabrication.Route).ToList();
        await page.Locator("#measure").ClickAsync();
        await Assertions.Expect(page.Locator("#measured")).ToContainTextAsync("Tap the first place");
        await Tap("runs[0].legs[0]");
        await Assertions.Expect(page.Locator("#measured")).ToContainTextAsync("tap the second place");
        await Tap("runs[0].legs[2]");
        MeasuredPlace At(string row) => places.First(p => p.Row == row);
        await Assertions.Expect(page.Locator("#measured")).ToHaveTextAsync(new MeasuredWay(At("runs[0].legs[0]"), At("runs[0].legs[2]")).Say(Units.Millimetres) + ".");
        await page.Locator("#measure").ClickAsync();
        await Assertions.Expect(page.Locator("#measured")).ToHaveCountAsync(0);

        Task Tap(string row) => page.Locator($"[id='cell-{row}-go']").ClickAsync();
    }
}
