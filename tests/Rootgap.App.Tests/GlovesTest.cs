using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Larger type and targets, for a hand in a glove.</summary>
public class GlovesTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task For_gloves_type_and_targets_grow_on_every_page_stay_so_after_a_reload_and_no_page_runs_over_its_side()
    {
        var tablet = await NewTablet(await Serve(), 360, 740);
        var page = await tablet.Open();
        await tablet.Turn("settings");
        var bare = await Height();
        Assert.InRange(bare, 44, 63);
        var type = await Type();
        await page.Locator("#hand-glove").ClickAsync();
        await Assertions.Expect(page.Locator("#hand-glove")).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.True(await Height() >= 64);
        Assert.Equal(type * 1.15, await Type(), 0.01);
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#hand-glove")).ToHaveAttributeAsync("aria-pressed", "true", new() { Timeout = 60_000 });
        Assert.Equal(type * 1.15, await Type(), 0.01);
        foreach (var shown in Pages.All)
        {
            await tablet.Turn(shown.Path);
            await page.GetByText(shown.Says).First.WaitForAsync();
            var over = await page.EvaluateAsync<double>("() => document.documentElement.scrollWidth - innerWidth");
            Assert.True(over <= 0, $"{shown.Path} is {over} px wider than the screen");
        }

        await tablet.Turn("settings");
        await page.Locator("#hand-bare").ClickAsync();
        await Assertions.Expect(page.Locator("#hand-bare")).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.Equal(bare, await Height());

        async Task<double> Height() => (await page.Locator("#hand-glove").BoundingBoxAsync())!.Height;

        Task<double> Type() => page.EvaluateAsync<double>("() => parseFloat(getComputedStyle(document.querySelector('h1')).fontSize)");
    }
}
