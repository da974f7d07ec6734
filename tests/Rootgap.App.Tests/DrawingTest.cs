using System.Buffers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;
using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.App.Tests;

/// <summary>Writing a drawing: keys, undo, and the row's parts in the isometric and the model.</summary>
public partial class DrawingTest(Chromium chromium) : BrowserTest(chromium)
{
    [Theory]
    [InlineData("chilled-supply.yaml")]     // the demo's first, with a rolling offset, a tee's branch and small bore
    [InlineData("pump-suction.yaml")]       // feet and inches
    public async Task A_drawing_typed_from_nothing_by_keyboard_alone_means_the_same_as_the_sample(string sample)
    {
        var wanted = DrawingText.Of(Pages.Text(sample), sample);
        var number = wanted.Top["drawing"];
        var server = await Serve(sample: null);
        // The shop's rules and the bought list are not part of writing the drawing.
        foreach (var beside in new[] { wanted.ShopFile, wanted.MaterialsFile }.OfType<string>())
            await server.Write(beside, Pages.Text(beside));
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open();
        var keys = new Keys(page);

        await keys.TabTo("new-drawing");
        await page.Keyboard.PressAsync("Enter");
        await keys.TabTo("new-number");
        await page.Keyboard.TypeAsync(number);
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForFunctionAsync("() => location.pathname.startsWith('/drawing/')");
        await tablet.Stands();
        var path = Uri.UnescapeDataString(new Uri(page.Url).AbsolutePath)["/drawing/".Length..];

        // The cursor stands in the pipe's size: a first drawing needs nothing else to be drawn.
        await Assertions.Expect(page.Locator("#cell-line-size")).ToBeFocusedAsync();
        await keys.TabTo("open-head");
        await page.Keyboard.PressAsync("Enter");
        await keys.TabTo("cell--drawing");
        await keys.Fill("", wanted.Top, ["drawing"]);
        await keys.Enter("line");
        await keys.Fill("line", wanted.Line);
        await keys.Enter("service");
        await keys.Fill("service", wanted.Service);
        foreach (var run in wanted.Runs)
        {
            var at = $"runs[{run.Index}]";
            if (run.Index > 0)
            {
                // The run before has ended; its last Enter led to the ways to go on.
                await keys.TabTo("add-run-" + run.Start["from"]);
                await page.Keyboard.PressAsync("Enter");
                // The branch has its first leg; its name and start stand above that.
                await page.Keyboard.PressAsync("ArrowUp");
                await page.Keyboard.PressAsync("ArrowUp");
            }
            else
            {
                await keys.Enter(at);
            }

            await keys.Fill(at, run.Row);
            await keys.Enter(at + ".start");
            await keys.Fill(at + ".start", run.Start, run.Start["from"].Length > 0 ? ["from"] : []);
            foreach (var leg in run.Legs)
            {
                await keys.Enter(leg.Path);
                await keys.Fill(leg.Path, leg);
            }

            await page.Keyboard.PressAsync("Enter");
        }

        // The list that stands in the drawing itself: written as text, as the table of it is pasted (see below) and not typed.
        if (wanted.Materials.Count > 0)
        {
            await keys.TabTo("view-text");
            await page.Keyboard.PressAsync("Enter");
            await keys.TabTo("cell--text");
            await page.Keyboard.PressAsync("Control+End");
            await page.Keyboard.InsertTextAsync(Block(Pages.Text(sample), "materials:"));
        }

        var expected = Meaning(wanted.Text, sample);
        var file = Path.Combine(server.Folder, path);
        // Left alone, what was typed becomes a version by itself, and the server writes it into the job's folder.
        var written = await Until(() => File.Exists(file) ? File.ReadAllText(file) : "", text => Meaning(text, sample) == expected);
        Assert.Equal(expected, Meaning(written, sample));
        await Assertions.Expect(page.Locator("#check b")).ToContainTextAsync("can be built");
    }

    [Fact]
    public async Task Thirty_changes_undone_give_the_first_text_and_redone_the_last_byte_for_byte()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        var first = await TextOf(page);
        Assert.Equal(Pages.Text(Pages.Drawing), first);
        var chance = new Random(30);        // any other number would do; this one makes a failure come again
        for (var i = 0; i < 30; i++)
        {
            var legs = await page.Locator("[id^='row-runs['][id*='.legs[']").EvaluateAllAsync<string[]>("rows => rows.map(r => r.dataset.row)");
            var leg = legs[chance.Next(legs.Length)];
            await Cell(page, leg, chance.Next(4) == 0 ? "go" : "by").FocusAsync();
            switch (chance.Next(7))
            {
                case 0:
                    await page.Keyboard.PressAsync("Control+Enter");
                    break;
                case 1 when legs.Length > 8:
                    await page.Keyboard.PressAsync("Control+Delete");
                    break;
                case 2:
                    await page.Keyboard.PressAsync("Control+ArrowDown");
                    break;
                case 3:
                    await page.Keyboard.PressAsync("Control+ArrowUp");
                    break;
                case 4:
                    await page.Keyboard.PressAsync("Control+d");
                    break;
                case 5:
                    if (await page.Locator("#open-head").IsVisibleAsync())
                        await page.Locator("#open-head").ClickAsync();
                    await Cell(page, "", "title").FocusAsync();
                    await page.Keyboard.TypeAsync(FormattableString.Invariant($"Title {i}: # and 'signs' \"of\" {{YAML}}"));
                    break;
                default:
                    await Cell(page, leg, "by").FocusAsync();
                    await page.Keyboard.TypeAsync(FormattableString.Invariant($"{chance.Next(100, 5000)}"));
                    break;
            }
        }

        await page.Locator("main.page").FocusAsync();
        var last = await TextOf(page);
        Assert.NotEqual(first, last);
        Assert.Equal(first, await All(page, "undo"));
        Assert.Equal(last, await All(page, "redo"));
        Assert.Equal(first, await All(page, "undo"));
    }

    /// <summary>Where a part stands. The picture is put in anew when it is laid out again, and what was in it before has no place any more.</summary>
    private static async Task<LocatorBoundingBoxResult> BoxOf(ILocator part)
    {
        for (var tries = 0; ; tries++)
        {
            await part.WaitForAsync(new() { State = WaitForSelectorState.Attached });
            if (await part.BoundingBoxAsync() is { } box)
                return box;
            Assert.True(tries < 50, "The part never stands anywhere.");
            await Task.Delay(100);
        }
    }

    /// <summary>Waits until the picture has its last places: it is laid out once for the eye and once more when nobody types.</summary>
    private static async Task Settled(IPage page)
    {
        var before = "";
        for (var still = 0; still < 4;)
        {
            var now = await page.Locator(".pane-picture").InnerHTMLAsync();
            still = now == before && now.Length > 0 ? still + 1 : 0;
            before = now;
            await Task.Delay(250);
        }
    }

    [Fact]
    public async Task A_part_tapped_in_the_isometric_or_the_model_chooses_its_row_and_a_row_its_parts()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        var drawn = page.Locator(".pane-picture svg");
        await drawn.WaitForAsync();
        await Settled(page);
        foreach (var row in new[] { "runs[0].legs[2]", "runs[1].legs[0]", "runs[0].legs[7]" })
        {
            var part = page.Locator($".pane-picture [data-row='{row}']").First;
            var box = await BoxOf(part);
            await page.Mouse.ClickAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
            await page.Locator(".chosen-row").WaitForAsync();
            // Where two parts cover each other, the finger means one of them: the row that is chosen has its parts marked.
            var chosen = await page.Locator(".chosen-row").GetAttributeAsync("data-row");
            var under = await page.EvaluateAsync<string[]>("([x, y]) => document.elementsFromPoint(x, y).map(e => e.closest('[data-row]')?.dataset.row ?? '')", new double[] { box.X + (box.Width / 2), box.Y + (box.Height / 2) });
            Assert.Contains(chosen, under.Append(row));
            await page.Locator($".pane-picture .chosen[data-row='{chosen}']").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        }

        await Cell(page, "runs[0].legs[4]", "by").FocusAsync();
        await page.Locator(".pane-picture .chosen[data-row='runs[0].legs[4]']").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        Assert.Equal(0, await page.Locator(".pane-picture .chosen:not([data-row='runs[0].legs[4]'])").CountAsync());

        await page.Locator("#view-model").ClickAsync();
        var model = page.Locator(".pane-frame.model");
        await page.Locator(".pane-frame.model[data-parts] canvas").WaitForAsync();
        var f = Pages.Sample().Fabrication;
        Assert.Equal(f.Route.Components.Count + f.Cuts.Count, int.Parse((await model.GetAttributeAsync("data-parts"))!, System.Globalization.CultureInfo.InvariantCulture));
        // Tapped all over: wherever there is steel, a row is chosen that the drawing has.
        var frame = (await model.BoundingBoxAsync())!;
        var rows = new HashSet<string>(StringComparer.Ordinal);
        for (var y = 1; y < 12; y++)
        {
            for (var x = 1; x < 12; x++)
                await page.Mouse.ClickAsync(frame.X + (frame.Width * x / 12), frame.Y + (frame.Height * y / 12));
            if (await page.Locator(".chosen-row").GetAttributeAsync("data-row") is { } row)
                rows.Add(row);
        }

        Assert.True(rows.Count > 1, "The model was tapped in 121 places, and hardly any of it chose a row: " + string.Join(", ", rows));
    }

    [Fact]
    public async Task A_finding_stands_at_its_row_and_one_tap_takes_its_remedy()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await Cell(page, "runs[0].legs[2]", "to").FocusAsync();
        // A word misspelt in the text: the row says so, with the right word to tap.
        await page.Locator("#view-text").ClickAsync();
        var text = await page.Locator("#cell--text").InputValueAsync();
        await page.Locator("#cell--text").FillAsync(text.Replace("{go: up, by: 900, to: elbow}", "{go: up, by: 900, to: elbwo}", StringComparison.Ordinal));
        var mend = page.Locator("[id='row-runs[0].legs[2]'] .mend");
        await mend.First.ClickAsync();
        await Assertions.Expect(page.Locator("#cell--text")).ToHaveValueAsync(text);
    }

    [Fact]
    public async Task Nothing_jumps_about_while_a_drawing_is_typed()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await page.Locator(".pane-picture svg").WaitForAsync();
        await Cell(page, "runs[0].legs[3]", "by").FocusAsync();
        await page.EvaluateAsync("() => { window.shifts.length = 0; }");
        await page.Keyboard.TypeAsync("9001");
        await page.Locator("[id='row-runs[0].legs[3]']").WaitForAsync();
        await page.EvaluateAsync("() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))");
        var (sum, what) = await tablet.Shifts(typing: false);
        Assert.True(sum < 0.1, what);     // web.dev, Cumulative Layout Shift: up to 0.1 is good
    }

    private static ILocator Cell(IPage page, string row, string key) => page.Locator($"[id='cell-{row}-{key}']");

    /// <summary>The drawing as it stands in the text view.</summary>
    private static async Task<string> TextOf(IPage page)
    {
        await page.Locator("#view-text").ClickAsync();
        var text = await page.Locator("#cell--text").InputValueAsync();
        await page.Locator("#view-isometric").ClickAsync();
        return text;
    }

    /// <summary>Undoes or redoes until nothing is left.</summary>
    private static async Task<string> All(IPage page, string act)
    {
        for (var i = 0; i < 200 && await page.Locator($".draw-tools [data-act='{act}']:not([aria-disabled='true'])").CountAsync() > 0; i++)
            await page.Locator($".draw-tools [data-act='{act}']").ClickAsync();
        return await TextOf(page);
    }

    private static async Task<string> Until(Func<string> look, Func<string, bool> isRight)
    {
        var text = "";
        for (var i = 0; i < 150; i++)
        {
            text = look();
            if (isRight(text))
                break;
            await Task.Delay(100);
        }

        return text;
    }

    /// <summary>A top-level block of a file with what is indented under it.</summary>
    private static string Block(string text, string key)
    {
        var lines = text.Split('\n');
        var from = Array.IndexOf(lines, key);
        return string.Join('\n', lines.Skip(from).TakeWhile((l, i) => i == 0 || l.StartsWith(' '))) + "\n";
    }

    /// <summary>What the engine makes of a text, without where in the file it stands: packet.json, formatted.</summary>
    private static string Meaning(string text, string file)
    {
        var reading = DrawingReader.Read(text, file, beside => File.ReadAllBytes(Repository.At("samples", "hatchery", beside)));
        if (reading.Errors.Count > 0 || reading.Drawing is null)
            return text + "\n" + string.Join('\n', reading.Errors.Select(e => e.Message));
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, PacketJson.Writing))
            PacketJson.Write(json, Packet.Of(reading.Drawing));
        var packet = JsonNode.Parse(buffer.WrittenSpan)!;
        Bare(packet);
        return packet.ToJsonString(new() { WriteIndented = true });
    }

    private static void Bare(JsonNode? node)
    {
        if (node is JsonObject o)
        {
            foreach (var key in new[] { "line", "column", "file" })
            {
                if (o[key] is JsonValue)
                    o.Remove(key);
            }
        }

        IEnumerable<JsonNode?> inner = node switch { JsonObject map => map.Select(p => p.Value), JsonArray list => list, _ => [] };
        foreach (var part in inner)
            Bare(part);
    }

    /// <summary>Two hands on a keyboard, and nothing else.</summary>
    private sealed partial class Keys(IPage page)
    {
        private Task<string> At() => page.EvaluateAsync<string>("() => document.activeElement?.id ?? ''");

        /// <summary>Tab until the cursor is there.</summary>
        public async Task TabTo(string id)
        {
            for (var i = 0; i < 400; i++)
            {
                if (await At() == id)
                    return;
                await page.Keyboard.PressAsync("Tab");
            }

            Assert.Fail($"Tab does not lead to {id}.");
        }

        /// <summary>Enter: the next row.</summary>
        public async Task Enter(string row)
        {
            await page.Keyboard.PressAsync("Enter");
            var at = await At();
            Assert.True(at.StartsWith($"cell-{row}-", StringComparison.Ordinal), $"Enter leads to \"{at}\" and not into the row \"{row}\".");
        }

        /// <summary>Types the cells of a row in which the cursor is, in the order in which the page has them.</summary>
        public async Task Fill(string row, WrittenRow wanted, params string[] thereAlready)
        {
            var left = wanted.Cells.Where(c => c.Value.Length > 0 && !thereAlready.Contains(c.Key, StringComparer.Ordinal)).ToDictionary(StringComparer.Ordinal);
            while (left.Count > 0)
            {
                // A field that shows: Tab leads there. One that does not: F2 asks for it by its name.
                var shown = await page.Locator($"[id='row-{row}'] input[data-key]").EvaluateAllAsync<string[]>("cells => cells.map(c => c.dataset.key)");
                var key = shown.FirstOrDefault(left.ContainsKey);
                if (key is null)
                {
                    key = left.Keys.First();
                    await page.Keyboard.PressAsync("F2");
                    await page.Keyboard.TypeAsync(key);
                    await page.Keyboard.PressAsync("Enter");
                }
                else
                {
                    // Back to the row's beginning if it lies before.
                    var here = await At();
                    var steps = Array.IndexOf(shown, key) - Array.FindIndex(shown, k => Id(row, k) == here);
                    for (; steps > 0; steps--)
                        await page.Keyboard.PressAsync("Tab");
                    for (; steps < 0; steps++)
                        await page.Keyboard.PressAsync("Shift+Tab");
                }

                Assert.Equal(Id(row, key), await At());
                await page.Keyboard.TypeAsync(Typed(key, left[key]));
                left.Remove(key);
            }
        }

        private static string Id(string row, string key) => $"cell-{row}-{key.Replace(' ', '-')}";

        /// <summary>As a person types it: N for north, E600 U600 for a vector or a place.</summary>
        private static string Typed(string key, string value) => key is "go" or "at" ? Word().Replace(value, m => m.Value[..1].ToUpperInvariant()) : value;

        [GeneratedRegex("(?:north|south|east|west|up|down) ?")]
        private static partial Regex Word();
    }
}
