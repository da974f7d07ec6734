using System.Text.Json;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>What is put on record in the forms: who made which pass, certificates, pressure tests, notes, each with its pictures, and without a network too.</summary>
public class PaperFormsTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static readonly string Weld = Pages.Sample().Fabrication.Route.Joints.First(j => j.Kind == Rootgap.Routes.JointKind.Butt).Id;

    // The smallest picture: a white dot (PNG specification, its own signature and chunks).
    private static readonly byte[] Dot = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR4nGP4////fwAJ+wP9KobjigAAAABJRU5ErkJggg==");

    private static readonly byte[] Paper = "%PDF-1.4\n%%EOF\n"u8.ToArray();

    [Fact]
    public async Task Who_made_which_pass_is_kept_offline_with_its_picture_and_a_slip_is_taken_back()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 390, 844, who: "Ann");
        var page = await tablet.Open($"fit/{Weld}/{Pages.Drawing}");
        await tablet.IsKept();
        await tablet.AllSent();
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await page.Locator("#step-tacked").ClickAsync();
        await page.Locator("#passes summary").ClickAsync();
        await page.Locator("#pass-root").FillAsync("K12");
        await page.Locator("#pass-fill").FillAsync("K7, K12");
        await page.Locator("#pass-cap").FillAsync("K7");
        await page.Locator("#filler").FillAsync("F-88");
        await page.Locator("#preheat").FillAsync("warm");
        await page.Locator("#welded-at").SelectOptionAsync("site");
        await page.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(page.Locator("#steps-told")).ToContainTextAsync("\"warm\" is no temperature");
        await page.Locator("#preheat").FillAsync("95");
        await page.Locator("#step-papers").SetInputFilesAsync(new FilePayload { Name = "cap.png", MimeType = "image/png", Buffer = Dot });
        await page.GetByText("cap.png").First.WaitForAsync();
        await page.Locator("#step-welded").ClickAsync();
        await Assertions.Expect(page.Locator(".steps")).ToContainTextAsync("root and fill by K12, fill and cap by K7");
        await Assertions.Expect(page.Locator("#weld-papers")).ToContainTextAsync("welded by K12 + K7");

        await page.Locator("#record-seen").ClickAsync();
        await page.Locator("#record-gap").FillAsync("3,1");
        await page.Locator("#record-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#weld-papers")).ToContainTextAsync("gap 3.1");
        await page.Locator("#weld-papers").GetByText("Take back").First.ClickAsync();
        await page.Locator("#ask-why").FillAsync("wrong joint");
        await page.Locator("#ask-why-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#weld-papers")).Not.ToContainTextAsync("gap 3.1");
        await Shot(page, "passes");

        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        var welded = Assert.Single(await server.Facts(), f => Is(f, "joint-step") && f.GetProperty("step").GetString() == "welded");
        Assert.Equal(["K12: root fill", "K7: fill cap"], welded.GetProperty("passes").EnumerateArray().Select(p => $"{p.GetProperty("welder").GetString()}: {string.Join(' ', p.GetProperty("made").EnumerateArray().Select(m => m.GetString()))}").Order(StringComparer.Ordinal));
        Assert.Equal(("F-88", 95.0, "site"), (welded.GetProperty("filler").GetString(), welded.GetProperty("preheat").GetDouble(), welded.GetProperty("at").GetString()));
        Assert.False(welded.TryGetProperty("welder", out _));
        using var answer = await server.Get("api/attachments/" + Assert.Single(welded.GetProperty("attached").EnumerateArray()).GetProperty("sha256").GetString());
        Assert.Equal(Dot, await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_certificate_a_test_and_a_note_are_put_on_record_on_the_work_page()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1180, 820, who: "Ines");
        var page = await tablet.Open("work");
        await tablet.IsKept();
        await tablet.AllSent();
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);

        await page.Locator("#work-certificates > summary").ClickAsync();
        await page.Locator("#certificate-new").ClickAsync();
        await page.Locator("#certificate-heat").FillAsync("H1");
        await page.Locator("#certificate-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-certificates [role=alert]")).ToContainTextAsync("write both");
        await page.Locator("#certificate-number").FillAsync("C-771");
        await page.Locator("#certificate-size").FillAsync("six");
        await page.Locator("#certificate-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-certificates [role=alert]")).ToContainTextAsync("no nominal size");
        await page.Locator("#certificate-size").FillAsync("6");
        await page.Locator("#certificate-papers").SetInputFilesAsync(new FilePayload { Name = "mill.pdf", MimeType = "application/pdf", Buffer = Paper });
        await page.GetByText("mill.pdf").First.WaitForAsync();
        await page.Locator("#certificate-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-certificates")).ToContainTextAsync("heat H1: certificate C-771, NPS 6");

        var number = Pages.Sample().Drawing.Number;
        await page.Locator("#work-tests > summary").ClickAsync();
        await page.Locator($"#test-{number}").ClickAsync();
        await Assertions.Expect(page.Locator("#test-cautions")).ToContainTextAsync("Test blinds are counted in and counted out");
        await page.Locator("#test-bar").FillAsync("15");
        await page.Locator("#test-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-tests [role=alert]")).ToContainTextAsync("Choose the result");
        await page.Locator("#test-result").SelectOptionAsync("passed");
        await page.Locator("#test-from").FillAsync("2026-11-25T10:00");
        await page.Locator("#test-to").FillAsync("2026-11-25T10:30");
        await page.Locator("#test-gauges").FillAsync("G1, G2");
        await page.Locator("#test-keep").ClickAsync();
        // Nothing is welded: whoever tests it all the same takes that on.
        await Assertions.Expect(page.Locator("dialog[open]")).ToContainTextAsync("not welded");
        await page.Locator("#ask-despite").FillAsync("shown here only");
        await page.Locator("#ask-despite-by").FillAsync("Bo");
        await page.Locator("#ask-despite-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-tests")).ToContainTextAsync("passed, water, 15 bar, 30 min, gauges G1, G2");

        await page.Locator("#work-books > summary").ClickAsync();
        await page.Locator("#line-note").ClickAsync();
        await page.Locator("#line-note-line").SelectOptionAsync(new SelectOptionValue { Label = number });
        await page.Locator("#line-note-part").SelectOptionAsync("Heat treatment");
        await page.Locator("#line-note-text").FillAsync("none asked for by the client");
        await page.Locator("#line-note-keep").ClickAsync();
        await Assertions.Expect(page.Locator("#work-books")).ToContainTextAsync("Heat treatment: none asked for by the client");
        await Shot(page, "work-forms");

        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        var facts = await server.Facts();
        var certificate = Assert.Single(facts, f => Is(f, "certificate"));
        Assert.Equal("mill.pdf", Assert.Single(certificate.GetProperty("attached").EnumerateArray()).GetProperty("name").GetString());
        var tested = Assert.Single(facts, f => Is(f, "tested"));
        Assert.Equal((number, 15.0, true), (tested.GetProperty("drawing").GetString(), tested.GetProperty("bar").GetDouble(), tested.GetProperty("passed").GetBoolean()));
        Assert.NotEmpty(tested.GetProperty("version").EnumerateArray());
        Assert.Equal("Heat treatment: none asked for by the client", Assert.Single(facts, f => Is(f, "note")).GetProperty("note").GetString());
    }

    private static bool Is(JsonElement fact, string kind) => fact.GetProperty("fact").GetString() == kind;

    private static async Task Shot(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { Length: > 0 } folder)
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }
}
