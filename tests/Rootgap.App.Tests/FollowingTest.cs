using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>What was done stays with its steel while drawings change: the editor says what a change spoils before it is saved, a revision is taken over in one page.</summary>
public class FollowingTest(Chromium chromium) : BrowserTest(chromium)
{
    private const string By = "[id='cell-runs[0].legs[2]-by']";

    /// <summary>The piece of the third leg, 900 long from work point to work point, and the weld behind it.</summary>
    private static readonly Rootgap.Fabricating.Cut Piece = Pages.Sample().Fabrication.Cuts.Single(c => c.Pipe is { Run: 0, FirstLeg: 2 });

    private static readonly string Weld = Pages.Sample().Fabrication.Route.Joints.Last(j => j.Between.Contains(Piece.Pipe.Id) && j is { Run: 0, Leg: 2 }).Id;

    [Fact]
    public async Task The_editor_says_what_a_change_spoils_and_saves_it_only_when_told_to()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900, who: "Ann");
        var page = await tablet.Open($"spool/{Piece.Spool}/{Pages.Drawing}");
        await page.Locator($"#cut-{Piece.Piece}").ClickAsync();
        await Assertions.Expect(page.Locator($"#cut-{Piece.Piece}")).ToHaveAttributeAsync("aria-pressed", "true");
        await Sent(tablet);
        var cut = (await server.Facts()).Single(f => f.GetProperty("fact").GetString() == "piece-cut");
        var saved = (await server.Facts()).Where(f => f.GetProperty("fact").GetString() == "file").ToList();
        var versions = cut.GetProperty("version").EnumerateArray().Select(v => v.GetString()!).ToList();
        Assert.Equal([Pages.Drawing, "shop.yaml"], versions.Select(v => saved.Single(f => f.GetProperty("id").GetString() == v).GetProperty("path").GetString()));

        await tablet.Turn("drawing/" + Pages.Drawing);
        await page.Locator(By).FillAsync("950");
        var effects = page.Locator("#effects");
        await Assertions.Expect(effects).ToContainTextAsync($"{Piece.Piece} cut", new() { Timeout = 30_000 });
        await Assertions.Expect(effects).ToContainTextAsync("spoiled");
        await Shot(page, "effects");
        // Nothing is saved, and the shop goes on by what is.
        await tablet.Turn($"spool/{Piece.Spool}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("#being-written")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator($"#cut-{Piece.Piece}")).ToHaveAttributeAsync("aria-pressed", "true");
        Assert.Equal(saved.Count, (await server.Facts()).Count(f => f.GetProperty("fact").GetString() == "file"));

        await tablet.Turn("drawing/" + Pages.Drawing);
        await page.Locator("#save-effects").ClickAsync();
        await effects.WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await tablet.Turn($"spool/{Piece.Spool}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("#marked")).ToContainTextAsync("Spoiled");
        await Assertions.Expect(page.Locator("#marked")).ToContainTextAsync($"was on {Piece.Piece} of revision 2");
        await Assertions.Expect(page.Locator($"#cut-{Piece.Piece}")).ToHaveAttributeAsync("aria-pressed", "false");
        await Shot(page, "marked");
        // Entered anew it is settled.
        await page.Locator($"#cut-{Piece.Piece}").ClickAsync();
        await page.Locator("#marked").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await tablet.Turn("versions/" + Pages.Drawing);
        await Assertions.Expect(page.Locator("#version-2")).ToContainTextAsync($"{Piece.Piece} 50.0 mm longer");
        await page.Locator("#look-1").ClickAsync();
        await Shot(page, "versions");
        // Brought back, the first piece fits again; the second is as it was drawn no more.
        await page.Locator("#bring-back-1").ClickAsync();
        await Assertions.Expect(page.Locator("#version-3")).ToContainTextAsync("now");
        await tablet.Turn($"spool/{Piece.Spool}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator($"#cut-{Piece.Piece}")).ToHaveAttributeAsync("aria-pressed", "true");
    }

    [Fact]
    public async Task A_revision_is_taken_over_in_one_page_and_what_is_held_is_freed_by_a_second_person()
    {
        var server = await Serve();
        var (ann, bo) = (await NewTablet(server, 1440, 900, who: "Ann"), await NewTablet(server, 1440, 900, who: "Bo"));
        var page = await ann.Open($"spool/{Piece.Spool}/{Pages.Drawing}");
        await page.Locator($"#cut-{Piece.Piece}").ClickAsync();
        await ann.Turn($"fit/{Weld}/{Pages.Drawing}");
        await page.Locator("#step-tacked").ClickAsync();
        await ann.Turn($"spool/1/{Pages.Drawing}");
        await page.Locator("[id^='cut-1-']").First.ClickAsync();
        await Sent(ann);

        await server.Write(Pages.Drawing, Pages.Text(Pages.Drawing).Replace("revision: 2", "revision: 3", StringComparison.Ordinal).Replace("{go: up, by: 900, to: elbow}", "{go: up, by: 860, to: elbow}", StringComparison.Ordinal));
        await ann.Turn("");
        await page.Locator(".held").Filter(new() { HasText = "revision 3 is not taken to the shop yet" }).ClickAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("revision 2 to 3");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("this makes it 504.4");
        // On the drawing itself: what is cut and too long is red, with what comes off.
        await Assertions.Expect(page.Locator($".isometric [id='{Piece.Piece}'].trim")).ToHaveCountAsync(1, new() { Timeout = 30_000 });
        await Assertions.Expect(page.Locator($".isometric [id='{Piece.Piece}-label']")).ToContainTextAsync("trim 40.0");
        await Shot(page, "revision");
        await page.Locator("#take-revision").ClickAsync();
        await Assertions.Expect(page.Locator("#held")).ToContainTextAsync(Weld);
        // Not by the one who took it.
        await Assertions.Expect(page.Locator("[id^='holds-']").First).ToBeDisabledAsync();
        await Shot(page, "held");
        await Sent(ann);

        var other = await bo.Open($"fit/{Weld}/{Pages.Drawing}");
        await Assertions.Expect(other.Locator("#steps-held")).ToContainTextAsync("A second person", new() { Timeout = 30_000 });
        await Assertions.Expect(other.Locator("#step-welded")).ToBeDisabledAsync();
        await other.Locator("[id^='holds-']").First.ClickAsync();
        await other.Locator("#steps-held").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await Assertions.Expect(other.Locator("#step-tacked")).ToHaveAttributeAsync("data-done", "true");
        await Assertions.Expect(other.Locator("#step-welded")).ToBeEnabledAsync();
    }

    [Fact]
    public async Task A_new_revision_is_begun_as_a_step_and_laid_beside_the_old_one_on_the_drawing()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768, who: "Ann");
        var page = await tablet.Open("versions/" + Pages.Drawing);
        await page.Locator("#new-revision").ClickAsync();
        await Assertions.Expect(page.Locator("#revision")).ToHaveValueAsync("3");
        // The same number again is no new revision.
        await page.Locator("#revision").FillAsync("2");
        await page.Locator(".naming button[type=submit]").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("is revision 2 already");
        await page.Locator("#revision").FillAsync("3");
        await page.Locator(".naming button[type=submit]").ClickAsync();
        await Assertions.Expect(page.Locator("#open-head")).ToContainTextAsync("rev 3", new() { Timeout = 30_000 });
        await tablet.Turn("versions/" + Pages.Drawing);
        await Assertions.Expect(page.Locator("#version-2")).ToContainTextAsync("revision 2 to 3", new() { Timeout = 30_000 });
        await Shot(page, "new-revision");
        await tablet.Turn("changes/" + Pages.Drawing);
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("revision 2 to 3");
        await Assertions.Expect(page.Locator("#lead")).ToContainTextAsync("Nothing that was done is touched.");
    }

    [Fact]
    public async Task Two_files_with_one_number_and_revision_stop_both()
    {
        var server = await Serve();
        await server.Write("copy.yaml", Pages.Text(Pages.Drawing));
        var tablet = await NewTablet(server);
        var page = await tablet.Open("spools/copy.yaml");
        await Assertions.Expect(page.Locator("#not-for-fabrication")).ToContainTextAsync("CHW-201 revision 2 is also in chilled-supply.yaml", new() { Timeout = 60_000 });
        await tablet.Turn("");
        await Assertions.Expect(page.Locator(".drawing-line").Filter(new() { HasTextRegex = new Regex("CHW-201") }).Filter(new() { HasText = "1 stop" })).ToHaveCountAsync(2);
    }

    /// <summary>Waits until the browser's own database holds nothing that is not sent; the lamp may still say so of what was before.</summary>
    private static async Task Sent(Tablet tablet)
    {
        while ((await tablet.Facts()).Any(f => f.IsUnsent))
            await Task.Delay(100, TestContext.Current.CancellationToken);
    }

    /// <summary>A picture for whoever wants to look at the page, where ROOTGAP_SHOTS names a folder.</summary>
    private static async Task Shot(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }
}
