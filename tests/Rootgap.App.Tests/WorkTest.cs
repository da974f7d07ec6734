using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>The papers in the app: a step waits for its word, a weld is repaired under a number of its own, and the foreman's page has all of it.</summary>
public class WorkTest(Chromium chromium) : BrowserTest(chromium)
{
    private static readonly string Weld = Pages.Sample().Fabrication.Route.Joints.First(j => j.Kind == Rootgap.Routes.JointKind.Butt).Id;

    [Fact]
    public async Task A_step_waits_for_its_word_or_is_kept_as_a_deviation_and_the_foreman_sees_what_comes_next()
    {
        var server = await Serve();
        await server.Write("shop.yaml", Pages.Text("shop.yaml") + "\nhold points: [{before: welded, needs: fit-up seen}]\n");
        var tablet = await NewTablet(server, 1440, 900, who: "Ann");
        var page = await tablet.Open($"fit/{Weld}/{Pages.Drawing}");
        await page.Locator("#step-tacked").ClickAsync();
        await tablet.Turn("work");
        await Assertions.Expect(page.Locator("#work-held")).ToContainTextAsync($"{Weld}: its fit-up is not seen", new() { Timeout = 30_000 });
        await Assertions.Expect(page.Locator("#work-today")).ToContainTextAsync("Cut");
        await Shot(page, "work");

        await tablet.Turn($"fit/{Weld}/{Pages.Drawing}");
        await page.Locator("#welder").FillAsync("K12");
        await page.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(page.Locator("dialog[open]")).ToContainTextAsync($"{Weld}: its fit-up is not seen");
        await Shot(page, "deviation");
        await page.Locator("#ask-despite-leave").ClickAsync();
        await Assertions.Expect(page.Locator("#step-welded")).Not.ToHaveAttributeAsync("data-done", "true");

        await page.Locator("#step-welded").ClickAsync();
        await page.Locator("#ask-despite").FillAsync("night shift");
        await page.Locator("#ask-despite-by").FillAsync("Bo");
        await page.Locator("#ask-despite-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#weld-papers")).ToContainTextAsync("welded by K12");

        await page.Locator("#record-examined").ClickAsync();
        await page.Locator("#record-method").SelectOptionAsync("Radiography");
        await page.Locator("#record-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#weld-papers [role=alert]")).ToContainTextAsync("Choose the result");
        await page.Locator("#record-result").SelectOptionAsync("rejected");
        await page.Locator("#record-report").FillAsync("RT-1");
        await page.Locator("#record-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#weld-papers")).ToContainTextAsync("radiography: rejected, report RT-1");
        await page.Locator("#record-repair").ClickAsync();
        await page.Locator("#record-why").FillAsync("pores");
        await page.Locator("#record-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#steps-title")).ToContainTextAsync($"{Weld} R1");
        await Assertions.Expect(page.Locator("#weld-papers")).ToContainTextAsync("to be repaired: pores");
        await Shot(page, "weld-papers");
        await tablet.AllSent();
        var welded = (await server.Facts()).Single(f => f.GetProperty("fact").GetString() == "joint-step" && f.GetProperty("step").GetString() == "welded");
        Assert.Equal("Bo", welded.GetProperty("deviation").GetProperty("by").GetString());

        await tablet.Turn("work");
        await Assertions.Expect(page.Locator("#work-progress")).ToContainTextAsync("K12");
        // What is next stands open, the rest says in its head what is in it.
        await Assertions.Expect(page.Locator("#work-today")).ToHaveAttributeAsync("open", "");
        await Assertions.Expect(page.Locator("#work-held")).Not.ToHaveAttributeAsync("open", "");
        await Assertions.Expect(page.Locator("#work-progress > summary")).ToContainTextAsync("welds");
        await page.Locator("#work-books > summary").ClickAsync();
        var book = page.WaitForDownloadAsync();
        await page.Locator("button[id^='book-']").First.ClickAsync();
        Assert.EndsWith(".pdf", (await book).SuggestedFilename, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_welders_list_is_read_shows_who_may_weld_what_and_doubts_a_stamp_that_is_not_on_it()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 390, 844, who: "Ines");
        var page = await tablet.Open("work");
        await page.Locator("#work-welders > summary").ClickAsync();
        await page.Locator("#welders-file").SetInputFilesAsync(Sheet("stamp,name,procedures,until\nK12,Kim,WPS-1 WPS-2,2099-12-31\nK14,Lee,WPS-2,tomorrow\n"));
        await Assertions.Expect(page.Locator("#welders-file-wrong")).ToContainTextAsync("row 3: until: \"tomorrow\" is no date");
        Assert.DoesNotContain(await server.Facts(), f => f.GetProperty("fact").GetString() == "welder");
        await page.Locator("#welders-file").SetInputFilesAsync(Sheet("stamp,name,procedures,until\nK12,Kim,WPS-1 WPS-2,2099-12-31\nK14,Lee,WPS-2,2020-01-31\n"));
        await Assertions.Expect(page.Locator("#welders-file-told")).ToContainTextAsync("2 rows");
        await Assertions.Expect(page.Locator("#work-welders > summary")).ToContainTextAsync("2 welders, 1 past their date");
        await Assertions.Expect(page.Locator("#welders-by-procedure")).ToContainTextAsync("WPS-2 K12");
        await Shot(page, "welders");
        // The same list again adds nothing.
        await page.Locator("#welders-file").SetInputFilesAsync(Sheet("stamp,name,procedures,until\nK12,Kim,WPS-1 WPS-2,2099-12-31\n"));
        await Assertions.Expect(page.Locator("#welders-file-told")).ToContainTextAsync("0 of 1 rows");

        await tablet.Turn($"fit/{Weld}/{Pages.Drawing}");
        await page.Locator("#welder").FillAsync("K99");
        await page.Locator("#procedure").FillAsync("WPS-1");
        await page.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(page.Locator("#asked-welded")).ToContainTextAsync("K99 is on no welders' list");
        await page.Locator("#welder").FillAsync("K14");
        // The answer to one question is no answer to the next.
        await page.Locator("#welder").PressAsync("Tab");
        await page.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(page.Locator("#asked-welded")).ToContainTextAsync("K14 is qualified until 2020-01-31");
        await tablet.AllSent();
        Assert.Equal(2, (await server.Facts()).Count(f => f.GetProperty("fact").GetString() == "welder"));

        static FilePayload Sheet(string text) => new() { Name = "welders.csv", MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(text) };
    }

    // The sample's rack: remnant R3 of NPS 4, 1275 mm, heat 80112.
    [Fact]
    public async Task A_cut_that_is_ticked_at_its_spool_takes_its_bar_and_the_bars_heat_along()
    {
        var server = await Serve();
        var cut = Pages.Sample().Fabrication.Cuts.First(c => c.Pipe.Size.ToString() == "4" && c.SawLength < 1200);
        var tablet = await NewTablet(server, 390, 844, who: "Sam");
        var page = await tablet.Open($"spool/{cut.Spool}/{Pages.Drawing}");
        await page.Locator("article.piece", new() { Has = page.Locator($"#cut-{cut.Piece}") }).Locator("details.from-bar > summary").ClickAsync();
        await page.Locator($"#bar-{cut.Piece}").SelectOptionAsync("R3");
        await Assertions.Expect(page.Locator($"#heat-{cut.Piece}")).ToHaveValueAsync("80112");
        await Shot(page, "from-bar");
        await page.Locator($"#cut-{cut.Piece}").ClickAsync();
        await Assertions.Expect(page.Locator($"#cut-{cut.Piece}")).ToHaveAttributeAsync("aria-pressed", "true");
        await tablet.AllSent();
        var fact = (await server.Facts()).Single(f => f.GetProperty("fact").GetString() == "piece-cut");
        Assert.Equal("80112", fact.GetProperty("heat").GetString());
        Assert.Equal(("rack.yaml", "R3"), (fact.GetProperty("from").GetProperty("stock").GetString(), fact.GetProperty("from").GetProperty("bar").GetString()));
        Assert.Equal(cut.SawLength, fact.GetProperty("from").GetProperty("to").GetDouble(), 0.1);
    }

    // Cautions stand at the place: cleanliness for oxygen and purge at stainless welds beside the joint's steps, what the mass leaves out beside the spool's.
    [Fact]
    public async Task What_the_fluid_and_the_metal_ask_for_stands_beside_the_joint_and_the_spool()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 390, 844, who: "Ann");
        var page = await tablet.Open("fit/W1/oxygen.yaml");
        await Assertions.Expect(page.Locator("#joint-cautions")).ToContainTextAsync("Oxygen: oil, grease and dust burn in it", new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator("#joint-cautions")).ToContainTextAsync("dams are counted in and counted out");
        await tablet.Turn("spool/OXY-A/oxygen.yaml");
        await Assertions.Expect(page.Locator("#spool-cautions")).ToContainTextAsync("Left out of the mass", new() { Timeout = 30_000 });
        await Assertions.Expect(page.Locator("#spool-cautions")).ToContainTextAsync("Oxygen");
    }

    [Fact]
    public async Task A_spool_is_released_when_nothing_is_missing_or_what_is_missing_is_named_and_taken_on()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 390, 844, who: "Ann");
        var spool = Pages.Sample().Fabrication.Spools[0].Name;
        var page = await tablet.Open($"spool/{spool}/{Pages.Drawing}");
        await Assertions.Expect(page.Locator("#release-missing")).ToContainTextAsync("not welded");
        await page.Locator("#release").ClickAsync();
        await Assertions.Expect(page.Locator("dialog[open]")).ToContainTextAsync("not welded");
        await page.Locator("#ask-despite").FillAsync("finished at site");
        await page.Locator("#ask-despite-by").FillAsync("Bo");
        await Shot(page, "release");
        await page.Locator("#ask-despite-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#spool-papers")).ToContainTextAsync("Bo took on");
    }

    private static async Task Shot(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }
}
