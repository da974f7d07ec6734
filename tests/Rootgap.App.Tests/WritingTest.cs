using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Writing a drawing with few keys and few taps, and what stays on the screen meanwhile.</summary>
public class WritingTest(Chromium chromium) : BrowserTest(chromium)
{
    private static readonly (int Width, int Height)[] Sizes = [(360, 740), (1024, 768), (1440, 900)];

    /// <summary>A leg, the keys that write it (Tab is ⇥, Enter ↵), how many they may be, and what then stands in its fields.</summary>
    private static readonly (string Keys, int Most, (string Key, string Value)[] Fields)[] Legs =
    [
        ("n2600e↵", 7, [("go", "north"), ("by", "2600"), ("to", "elbow")]),
        ("u700vc↵", 10, [("go", "up"), ("by", "700"), ("to", "valve")]),
        ("u900e↵", 7, [("go", "up"), ("by", "900"), ("to", "elbow")]),
        ("n1500t⇥e4↵", 10, [("go", "north"), ("by", "1500"), ("to", "tee")]),
        ("n2600eff↵", 10, [("go", "north"), ("by", "2600"), ("to", "elbow")]),
    ];

    [Fact]
    public async Task A_first_drawing_is_led_into_and_each_kind_of_leg_takes_few_keys()
    {
        var server = await Serve(sample: null);
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open();
        await page.Locator("#new-drawing").ClickAsync();
        await Assertions.Expect(page.Locator("#new-number")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("KEYS-1");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#cell-line-size")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("#guide")).ToContainTextAsync("What size is the pipe?");
        foreach (var (value, next) in new[] { ("6", "How thick is its wall?"), ("40", "Which class are its flanges?"), ("150", "Which way does the pipe leave?") })
        {
            await page.Keyboard.TypeAsync(value);
            await page.Keyboard.PressAsync("Enter");
            await Assertions.Expect(page.Locator("#guide")).ToContainTextAsync(next);
        }

        for (var i = 0; i < Legs.Length; i++)
        {
            var (keys, most, fields) = Legs[i];
            Assert.InRange(keys.Length, 1, most);
            await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{i}]-go']")).ToBeFocusedAsync();
            foreach (var key in keys)
                await page.Keyboard.PressAsync(key switch { '↵' => "Enter", '⇥' => "Tab", _ => key.ToString() });
            foreach (var (field, value) in fields)
                await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{i}]-{field}']")).ToHaveValueAsync(value);
        }

        await Assertions.Expect(page.Locator("[id='row-runs[0].legs[1]'] .tail")).ToContainTextAsync("check");
        await Assertions.Expect(page.Locator("[id='row-runs[0].legs[3]'] .tail")).ToContainTextAsync("4 east");
        await Assertions.Expect(page.Locator("[id='row-runs[0].legs[4]'] .tail")).ToContainTextAsync("final-fit");

        // The branch is begun where it leaves, and needs no name of anybody's making.
        await page.Locator("[id='cell-runs[0].legs[3]-to']").FocusAsync();
        await page.Keyboard.PressAsync("Control+b");
        await Assertions.Expect(page.Locator("[id='cell-runs[1].legs[0]-go']")).ToBeFocusedAsync();
        await Assertions.Expect(page.Locator("[id='cell-runs[1].legs[0]-go']")).ToHaveValueAsync("east");
    }

    [Fact]
    public async Task A_device_that_is_slow_to_answer_takes_no_letter_from_a_word()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await page.Locator("[id='cell-runs[0].legs[2]-to']").FocusAsync();
        await page.EvaluateAsync("() => document.addEventListener('input', () => { const until = performance.now() + 3000; while (performance.now() < until); }, { once: true })");
        await page.Keyboard.PressAsync("v");
        await page.Keyboard.PressAsync("c");
        await Assertions.Expect(page.Locator("[id='cell-runs[0].legs[2]-kind']")).ToHaveValueAsync("check");
        await Assertions.Expect(page.Locator("[id='cell-runs[0].legs[2]-to']")).ToHaveValueAsync("valve");
    }

    [Fact]
    public async Task What_is_doubted_of_the_head_is_seen_while_it_is_folded()
    {
        var server = await Serve();
        await server.Write(Pages.Drawing, Pages.Text(Pages.Drawing).Replace("fluid: chilled fresh water", "lining: rubber 5 mm, fluid: chilled fresh water", StringComparison.Ordinal));
        var tablet = await NewTablet(server, 360, 740);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await Assertions.Expect(page.Locator("#open-head")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#whole .finding").Filter(new() { HasText = "lined (rubber 5 mm)" })).ToBeVisibleAsync();
        await page.Locator("#open-head").ClickAsync();
        await Assertions.Expect(page.Locator(".finding").Filter(new() { HasText = "lined (rubber 5 mm)" })).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task A_half_written_row_does_not_shout_and_tells_when_it_is_left()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await page.Locator(".finding").First.WaitForAsync();
        var before = await page.Locator(".finding").CountAsync();
        var row = page.Locator("[id='row-runs[0].legs[2]']");
        await page.Locator("[id='cell-runs[0].legs[2]-by']").FocusAsync();
        // 9 mm is no place for an elbow: the figure that is still to be written is no news.
        await page.Keyboard.TypeAsync("9");
        Assert.Equal(0, await row.Locator(".finding").CountAsync());
        // Of other rows it tells what the figure changes: three places that the drawing states are missed now.
        Assert.InRange(await page.Locator(".finding").CountAsync(), 0, before + 3);
        Assert.Equal(await page.Locator(".finding.stop").CountAsync(), await page.Locator(".finding.stop").Filter(new() { HasText = "The legs end" }).CountAsync());
        await page.Locator("[id='cell-runs[0].legs[5]-by']").FocusAsync();
        await Assertions.Expect(page.Locator(".finding.stop").First).ToBeVisibleAsync();
    }

    [Fact]
    public async Task From_the_drawing_itself_a_leg_is_added_where_the_line_ends_and_words_are_large_enough()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        foreach (var (width, height) in Sizes)
        {
            await page.SetViewportSizeAsync(width, height);
            // Its own layout for each pane, a moment after the pane has its size: no word under 12 px.
            await page.WaitForFunctionAsync("""
                () => { const svg = document.querySelector('.pane-picture svg'); if (!svg) return false; const scale = svg.getScreenCTM().a; const texts = [...svg.querySelectorAll('text')]; return texts.length > 3 && Math.min(...texts.map(t => parseFloat(t.getAttribute('font-size')) * scale)) >= 12; }
                """, null, new() { Timeout = 60_000 });
        }

        await page.SetViewportSizeAsync(1024, 768);
        await page.Locator("[id='cell-runs[0].legs[2]-by']").FocusAsync();
        var high = (await page.Locator("#rows-side").BoundingBoxAsync())!.Height;
        Assert.True(high >= 384, FormattableString.Invariant($"The rows have {high:0} px of 768."));

        // The last leg of the first run ends in an elbow now: the line goes on from there.
        var last = await page.Locator("[id^='row-runs[0].legs']").CountAsync() - 1;
        await page.Locator($"[id='cell-runs[0].legs[{last}]-to']").FocusAsync();
        await page.Keyboard.TypeAsync("e");
        await page.Locator("main.page").FocusAsync();
        var dot = page.Locator($".goes-on[data-row='runs[0].legs[{last}]'] path").Last;
        await dot.WaitForAsync(new() { State = Microsoft.Playwright.WaitForSelectorState.Attached });
        var arm = page.Locator(".arm[data-way='up']");
        for (var tries = 0; tries < 20 && !await arm.IsVisibleAsync(); tries++)
        {
            // The picture is laid out once more when nobody types: the place is looked for anew.
            if (await dot.BoundingBoxAsync() is { } box)
                await page.Mouse.ClickAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
            await Task.Delay(300, TestContext.Current.CancellationToken);
        }

        await arm.ClickAsync();
        await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{last + 1}]-go']")).ToHaveValueAsync("up");
        await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{last + 1}]-by']")).ToBeFocusedAsync();
    }

    [Fact]
    public async Task A_drawing_that_is_left_before_its_keys_are_heard_fails_nowhere()
    {
        var tablet = await NewTablet(await Serve(), 1024, 768);
        var page = await tablet.Open("settings");
        var fetched = new TaskCompletionSource();
        await page.RouteAsync("**/js/editor.js", async route =>
        {
            await fetched.Task;
            await route.ContinueAsync();
        });
        var asked = page.WaitForRequestAsync("**/js/editor.js");
        await page.EvaluateAsync("path => Blazor.navigateTo(path)", "drawing/" + Pages.Drawing);
        await asked;
        await tablet.Turn("settings");
        var heard = page.WaitForResponseAsync("**/js/editor.js");
        fetched.SetResult();
        await heard;
        // What would fail in the page fails in a moment: the next page stands, and its faults are seen at the end of the test.
        await tablet.Turn("drawing/" + Pages.Drawing);
        await page.Locator(".write-row").First.WaitForAsync();
    }
}
