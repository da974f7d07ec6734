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
    public async Task The_list_shows_as_it_was_while_the_program_starts_and_what_is_tapped_in_it_opens()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await Assertions.Expect(page.Locator(".drawing-line").Filter(new() { HasText = "CHW-201" })).ToBeVisibleAsync();
        await tablet.AllSent();
        await page.WaitForFunctionAsync("() => localStorage.getItem('rootgap-as-it-was')?.includes('CHW-201')");

        // The program does not come: the list stands there all the same, and says of when it is.
        var program = new TaskCompletionSource();
        await page.RouteAsync("**/blazor.webassembly*.js", async route =>
        {
            await program.Task;
            await route.ContinueAsync();
        });
        await page.GotoAsync(server.Address.ToString(), new() { WaitUntil = WaitUntilState.Commit });
        var line = page.Locator("#as-it-was .drawing-line").Filter(new() { HasText = "CHW-201" });
        await Assertions.Expect(line).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#as-it-was .sync")).ToContainTextAsync("As it stood");
        await line.Locator("a.whole").ClickAsync();
        await Assertions.Expect(line.Locator("a.wanted")).ToHaveCountAsync(1);
        Assert.Equal("/", await page.EvaluateAsync<string>("() => location.pathname"));

        program.SetResult();
        await page.WaitForFunctionAsync("path => location.pathname === '/drawing/' + path", Pages.Drawing);
        await Assertions.Expect(page.Locator("#as-it-was")).ToHaveCountAsync(0);

        // Without a tap the page itself takes the picture's place, with its rows and what they do.
        await tablet.Turn("");
        await page.WaitForFunctionAsync("() => localStorage.getItem('rootgap-as-it-was')?.includes('CHW-201')");
        await tablet.Go("");
        await Assertions.Expect(page.Locator("#as-it-was")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator(".drawing-line").Filter(new() { HasText = "CHW-201" })).ToBeVisibleAsync();
        await page.Locator("#find").FillAsync("no such word");
        await Assertions.Expect(page.Locator(".drawing-line")).ToHaveCountAsync(0);
        await page.Locator("#find").FillAsync("");

        // Of another job nothing is shown, nor on another page.
        await page.EvaluateAsync("() => localStorage.setItem('rootgap-as-it-was', localStorage.getItem('rootgap-as-it-was').replace(/\"job\":\"[^\"]*\"/, '\"job\":\"another\"'))");
        await page.GotoAsync(server.Address.ToString(), new() { WaitUntil = WaitUntilState.Commit });
        await page.Locator("#app > *").First.WaitForAsync();
        await Assertions.Expect(page.Locator("#as-it-was")).ToHaveCountAsync(0);
        await tablet.Stands();
        await page.WaitForFunctionAsync("() => !localStorage.getItem('rootgap-as-it-was').includes('another')");
        await page.GotoAsync(new Uri(server.Address, "settings").ToString(), new() { WaitUntil = WaitUntilState.Commit });
        await page.Locator("#app > *").First.WaitForAsync();
        await Assertions.Expect(page.Locator("#as-it-was")).ToHaveCountAsync(0);
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

    [Fact]
    public async Task A_list_that_comes_to_the_job_does_not_have_its_drawings_worked_out_anew()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        await tablet.Context.AddInitScriptAsync("""
            window.looking = [];
            new MutationObserver(() => {
              const says = document.getElementById('looking')?.textContent;
              if (says) window.looking.push(says);
            }).observe(document, { childList: true, subtree: true, characterData: true });
            """);
        var page = await tablet.Open();
        await tablet.AllSent();
        await AllLookedAt(Pages.Drawing);
        var before = await Kept();
        await Bring("other-rack.yaml", "bars:\n  - {id: B77, material: A106-B, size: 6 in, schedule: 40, length: 3000}\n");
        await Assertions.Expect(page.Locator(".others")).ToContainTextAsync("other-rack.yaml");
        const string alike = "another-line.yaml";
        await Bring(alike, Pages.Text(Pages.Drawing).Replace("CHW-201", "CHW-299", StringComparison.Ordinal));
        await AllLookedAt(alike);
        var after = await Kept();
        Assert.All(before, kept => Assert.Equal(kept.Value, after[kept.Key]));
        // What is left was never said to be more than there is.
        Assert.All(await page.EvaluateAsync<string[]>("() => window.looking"), says =>
        {
            var words = says.Split(' ');
            Assert.InRange(int.Parse(words[0], System.Globalization.CultureInfo.InvariantCulture), 0, int.Parse(words[2], System.Globalization.CultureInfo.InvariantCulture));
        });

        Task Bring(string name, string content) => page.Locator("input[type=file]").First.SetInputFilesAsync(new Microsoft.Playwright.FilePayload { Name = name, MimeType = "application/yaml", Buffer = System.Text.Encoding.UTF8.GetBytes(content) });

        async Task AllLookedAt(string path)
        {
            // The page's own opening makes the database.
            await Assertions.Expect(page.Locator("#now-cut")).ToBeVisibleAsync(new() { Timeout = 90_000 });
            await Until(async () => (await Kept()).ContainsKey(path));
            await Assertions.Expect(page.Locator("#looking")).ToHaveCountAsync(0, new() { Timeout = 90_000 });
        }

        // What each result that the browser keeps was made of.
        async Task<Dictionary<string, string>> Kept() => (await page.EvaluateAsync<string[]>("""
            () => new Promise((done, failed) => {
              const asked = indexedDB.open('rootgap-glances', 1);
              asked.onerror = failed;
              asked.onsuccess = () => {
                const all = asked.result.transaction('glances').objectStore('glances').getAll();
                all.onerror = failed;
                all.onsuccess = () => { asked.result.close(); done(all.result.map(kept => kept.path + '\t' + JSON.parse(kept.json).Key)); };
              };
            })
            """)).Select(line => line.Split('\t')).ToDictionary(parts => parts[0], parts => parts[1], StringComparer.Ordinal);
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
