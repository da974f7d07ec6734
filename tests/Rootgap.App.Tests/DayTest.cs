using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>The first page: what can be made now, what is held and why, and finding a drawing among many.</summary>
public class DayTest(Chromium chromium) : BrowserTest(chromium)
{
    [Fact]
    public async Task The_day_says_what_can_be_made_and_a_word_finds_a_drawing_a_weld_and_a_heat()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open();
        var f = Pages.Sample().Fabrication;
        // Nothing is cut yet: every piece of every whole drawing is work, and the cut is the only kind of it that the drawing offers.
        await Assertions.Expect(page.Locator("#now-cut")).ToBeVisibleAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(page.Locator("#looking")).ToHaveCountAsync(0, new() { Timeout = 60_000 });
        Assert.True(int.Parse(await page.Locator("#now-cut .count").InnerTextAsync(), System.Globalization.CultureInfo.InvariantCulture) >= f.Cuts.Count);
        await Assertions.Expect(page.Locator("#find")).ToBeFocusedAsync();

        // By its number, by a weld that it has; Enter opens the first.
        await page.Keyboard.TypeAsync("CHW-201");
        await Assertions.Expect(page.Locator(".drawing-line")).ToHaveCountAsync(1);
        await page.Locator("#find").FillAsync(f.Cuts[0].Piece);
        await Assertions.Expect(page.Locator(".drawing-line").Filter(new() { HasText = "CHW-201" })).ToHaveCountAsync(1);
        await page.Locator("#find").FillAsync("CHW-201");
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForFunctionAsync("path => location.pathname === '/drawing/' + path", Pages.Drawing);

        // A piece that is cut with its heat: its work is gone from the list, the day goes on there, and the heat is found.
        await tablet.Turn($"spool/{Pages.Spool}/{Pages.Drawing}");
        await server.Post([new
        {
            id = Guid.NewGuid().ToString(), fact = "piece-cut", who = "RH", when = DateTimeOffset.UtcNow, drawing = "CHW-201", revision = f.Route.Drawing.Revision, piece = f.Cuts[0].Piece, heat = "H7714",
        }]);
        await Assertions.Expect(page.Locator($"#cut-{f.Cuts[0].Piece}")).ToHaveAttributeAsync("aria-pressed", "true", new() { Timeout = 60_000 });
        await tablet.Turn("");
        await Assertions.Expect(page.Locator("#go-on")).ToContainTextAsync(f.Cuts[0].Piece);
        await page.Locator("#find").FillAsync("h7714");
        await Assertions.Expect(page.Locator(".heat")).ToContainTextAsync("CHW-201 " + f.Cuts[0].Piece);
    }

    [Fact]
    public async Task A_file_whose_name_the_job_knows_is_asked_about_and_never_written_over()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await tablet.AllSent();
        var text = Pages.Text(Pages.Drawing);
        var other = text.Replace("{go: up, by: 900, to: elbow}", "{go: up, by: 950, to: elbow}", StringComparison.Ordinal);
        Assert.NotEqual(text, other);
        await Bring(text);
        await Bring(other);
        // The same content again asks nothing.
        await Assertions.Expect(page.Locator(".known")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".known")).ToContainTextAsync("They differ in one place.");
        await page.Locator("[data-answer='leave']").ClickAsync();
        await Assertions.Expect(page.Locator(".known")).ToHaveCountAsync(0);
        Assert.Single(Versions(await server.Facts(), Pages.Drawing));

        await Bring(other);
        await page.Locator("[data-answer='beside']").ClickAsync();
        await tablet.AllSent();
        await Until(async () => Versions(await server.Facts(), Pages.Drawing.Replace(".yaml", "-2.yaml", StringComparison.Ordinal)).Count == 1);
        Assert.Single(Versions(await server.Facts(), Pages.Drawing));

        await Bring(other);
        await page.Locator("[data-answer='new']").ClickAsync();
        await Until(async () => Versions(await server.Facts(), Pages.Drawing).Count == 2);

        Task Bring(string content) => page.Locator("input[type=file]").First.SetInputFilesAsync(new Microsoft.Playwright.FilePayload { Name = Pages.Drawing, MimeType = "application/yaml", Buffer = System.Text.Encoding.UTF8.GetBytes(content) });
    }

    private static List<System.Text.Json.JsonElement> Versions(IReadOnlyList<System.Text.Json.JsonElement> facts, string path) =>
        [.. facts.Where(f => f.GetProperty("fact").GetString() == "file" && f.GetProperty("path").GetString() == path)];

    private static async Task Until(Func<Task<bool>> isSo)
    {
        for (var i = 0; i < 150 && !await isSo(); i++)
            await Task.Delay(200);
        Assert.True(await isSo());
    }
}
