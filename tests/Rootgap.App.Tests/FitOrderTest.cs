using System.Globalization;
using Rootgap.App.Tests.Harness;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Sheets;

namespace Rootgap.App.Tests;

/// <summary>Cards follow the order that is really taken, and the final check answers to what is typed.</summary>
public class FitOrderTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task A_joint_tacked_out_of_turn_changes_the_cards_of_the_rest()
    {
        var packet = Pages.Sample();
        var spool = packet.Fabrication.Spools.MaxBy(s => s.Joints.Count(j => j.IsWeld))!;
        var fit = new FitJoints(packet.Fabrication).OfSpool(spool);
        var planned = FitWork.Cards(fit, FitOrder.Of(fit));
        var words = new FitWords(Units.Millimetres, id => Wording.NameOf(packet.Fabrication, id));
        string Held(FitCard card) => words.Named(card.Step.Joint.Held, card.Step.Joint.HeldSide);
        // Of all joints that could be tacked first, one that makes a later one's held side another, and which.
        var (first, later, then) = (
            from weld in Enumerable.Range(0, fit.Welds.Count)
            where fit.Welds[weld].Id != planned[0].Step.Weld.Id
            let cards = FitWork.Cards(fit, FitOrder.Of(fit, [new(weld)], andTheRest: true))
            from card in cards.Skip(1)
            let before = planned.Single(p => p.Step.Weld.Id == card.Step.Weld.Id)
            where Held(before) != Held(card)
            select (fit.Welds[weld].Id, before, card)).First();

        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open($"fit/{later.Step.Weld.Id}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("h2.hold")).ToContainTextAsync("Hold " + Held(later) + ",", new() { Timeout = 60_000 });
        await tablet.Turn($"fit/{first}/{Pages.Drawing}");
        await page.Locator("#step-tacked").ClickAsync();
        await Assertions.Expect(page.Locator("#step-tacked")).ToHaveAttributeAsync("data-done", "true");
        await Assertions.Expect(page.Locator(".what b")).ToContainTextAsync("Joint 1 of");
        await tablet.Turn($"fit/{then.Step.Weld.Id}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("h2.hold")).ToContainTextAsync("Hold " + Held(then) + ",");
    }

    [Fact]
    public async Task The_final_check_says_of_what_is_typed_where_the_ends_are_and_keeps_it()
    {
        var packet = Pages.Sample();
        var spool = packet.Fabrication.Spools[0];
        var check = FinalCheck.Welded(new FitJoints(packet.Fabrication).OfSpool(spool));
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open($"spool/{spool.Name}/{Pages.Drawing}");
        await page.Locator("#final-check").ClickAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Final check of spool");
        await Assertions.Expect(page.Locator("input.read")).ToHaveCountAsync(check.Targets.Count);
        for (var i = 0; i < check.Targets.Count; i++)
        {
            var target = check.Targets[i];
            var value = target.Reading.IsAngle ? Angles.ToDegrees(target.Value) : target.Value;
            await page.Locator($"#end-reading-{i}").FillAsync(value.ToString("0.0", CultureInfo.InvariantCulture));
            await page.Locator($"#end-reading-{i}").BlurAsync();
        }

        await Assertions.Expect(page.Locator("#final-verdict .verdict b")).ToHaveTextAsync("within");
        await page.Locator("#end-reading-0").FillAsync((check.Targets[0].Value + 40).ToString("0.0", CultureInfo.InvariantCulture));
        await page.Locator("#end-reading-0").BlurAsync();
        await Assertions.Expect(page.Locator("#final-verdict .verdict b")).ToHaveTextAsync("not within");
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, "final.png"), FullPage = true });
        await tablet.CloseTab();
        page = await tablet.Open($"final/{spool.Name}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("#final-verdict .verdict b")).ToHaveTextAsync("not within", new() { Timeout = 60_000 });
    }
}
