using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>One person's way from an empty job to a checked weld and a new revision, as it is gone on a phone, a tablet and a desk, with the network gone in its middle.</summary>
public partial class PersonsPathTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    /// <summary>What is under 12 px (and not put away at 0) or smaller than a finger on what is shown. Links within a sentence are no targets of their own (WCAG 2.2, 2.5.8, exception "inline").</summary>
    private const string Small = """
        () => {
          const found = [];
          const seen = e => { const b = e.getBoundingClientRect(); const s = getComputedStyle(e); return b.width > 1 && b.height > 1 && s.visibility !== 'hidden' && !e.closest('.unseen, svg, [inert]'); };
          const name = e => `${e.tagName.toLowerCase()}#${e.id}.${e.className} "${(e.textContent || e.value || '').trim().slice(0, 24)}"`;
          for (const e of document.querySelectorAll('button, a.button, select, summary, input:not([type=checkbox]):not([type=file]), [role=tab]')) {
            const b = e.getBoundingClientRect();
            if (seen(e) && b.width > 1 && b.height > 1 && (b.height < 43.5 || b.width < 43.5)) found.push(`${name(e)} is ${b.width.toFixed(0)} x ${b.height.toFixed(0)}`);
          }
          const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          while (words.nextNode()) {
            const e = words.currentNode.parentElement;
            if (words.currentNode.data.trim() && seen(e) && !e.closest('noscript, script, style, option') && parseFloat(getComputedStyle(e).fontSize) > 0 && parseFloat(getComputedStyle(e).fontSize) < 12) found.push(`${name(e)} is written at ${getComputedStyle(e).fontSize}`);
          }
          return [...new Set(found)];
        }
        """;

    [Theory]
    [InlineData(390, 844)]
    [InlineData(1024, 768)]
    [InlineData(1440, 900)]
    public async Task From_an_empty_job_to_a_checked_weld_and_a_new_revision(int width, int height)
    {
        var server = await Serve(sample: null);
        var tablet = await NewTablet(server, width, height, who: "Ann");
        var page = await tablet.Open();
        await tablet.IsKept();
        List<string> small = [];

        // A drawing, begun with the network there and gone on without it.
        await page.Locator("#new-drawing").ClickAsync();
        await page.Keyboard.TypeAsync("LINE-9");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#cell-line-size")).ToBeFocusedAsync();
        foreach (var value in new[] { "6", "40", "150" })
        {
            await page.Keyboard.TypeAsync(value);
            await page.Keyboard.PressAsync("Enter");
        }

        var legs = new[] { "n2600e↵", "u900vc↵", "u900e↵", "n1500t⇥e4↵" };
        await Write(legs, 0);
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await Write(["n900r4↵", "n1600eff↵", "u800f↵"], legs.Length);
        await page.Locator("[id='cell-runs[0].legs[3]-to']").FocusAsync();
        await page.Keyboard.PressAsync("Control+b");
        await Assertions.Expect(page.Locator("[id='cell-runs[1].legs[0]-go']")).ToHaveValueAsync("east");
        await Keys("⇥900f↵");
        await Assertions.Expect(page.Locator("[id='row-runs[0].legs[4]'] .tail")).ToContainTextAsync("to 4");
        await Assertions.Expect(page.Locator("[id='row-runs[0].legs[5]'] .tail")).ToContainTextAsync("final-fit");
        await Assertions.Expect(page.Locator("#check b")).ToContainTextAsync("can be built");
        await Look("drawing");
        if (width >= 900)
        {
            var high = (await page.Locator("#rows-side").BoundingBoxAsync())!.Height;
            Assert.True(high >= height / 2.0, FormattableString.Invariant($"The rows have {high:0} px of {height}."));
        }

        var file = Uri.UnescapeDataString(new Uri(page.Url).AbsolutePath)["/drawing/".Length..];
        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();

        // The list, pasted as a spreadsheet gives it.
        await tablet.Turn("materials/" + file);
        await page.Locator("#paste").ClickAsync();
        await page.Locator("#pasted").FillAsync("item\twhat\tsize\tschedule\tmaterial\tquantity\n1\tpipe\t6\t40\tA106-B\t12 m\n2\telbow 90 LR\t6\t40\tA234-WPB\t3\n");
        await page.Locator("#take-pasted").ClickAsync();
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("elbow 90 LR".Split(' ')[0]);
        await Look("materials");

        // The saw, the stands.
        await tablet.Turn("spools/" + file);
        await Look("spools");
        await tablet.Turn("spool/1/" + file);
        var cut = page.Locator("[id^='cut-1-']").First;
        var piece = (await cut.GetAttributeAsync("id"))!["cut-".Length..];
        await page.Locator($"#heat-{piece}").FillAsync("H1");
        await cut.ClickAsync();
        await Assertions.Expect(page.Locator($"#cut-{piece}")).ToHaveAttributeAsync("aria-pressed", "true");
        await Look("spool");
        var weld = (await page.Locator("[id^='joint-W']").First.GetAttributeAsync("id"))!["joint-".Length..];
        await tablet.Turn($"fit/{weld}/{file}");
        var read = page.Locator("input.read").First;
        var aim = double.Parse(Number().Match(await page.Locator($"[id='{(await read.GetAttributeAsync("id"))!.Replace("reading-", "target-", StringComparison.Ordinal)}']").InnerTextAsync()).ValueSpan, CultureInfo.InvariantCulture);
        await read.FocusAsync();
        await page.Keyboard.TypeAsync(aim.ToString("0.0", CultureInfo.InvariantCulture));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#verdict .verdict")).ToBeVisibleAsync();
        await Look("fit");
        foreach (var step in new[] { "fitted", "tacked", "welded", "checked" })
        {
            if (await page.Locator("#pad-shut").IsVisibleAsync())
                await page.Locator("#pad-shut").ClickAsync();
            if (step == "welded")
                await page.Locator("#welder").FillAsync("RH");
            await page.Locator("#step-" + step).ClickAsync();
            var same = page.Locator("#all-the-same");
            await page.WaitForFunctionAsync("step => document.querySelector('#all-the-same, #steps-told') || document.querySelector('#step-' + step)?.dataset.done || document.querySelector('#step-' + step)?.textContent.includes('Another')", step);
            if (await same.IsVisibleAsync())
                await same.ClickAsync();
            await Assertions.Expect(page.Locator(step == "welded" ? "#step-welded" : $"#step-{step}[data-done]")).ToContainTextAsync(step == "welded" ? "Another welder" : "✓");
        }

        // The office sends a new revision; what was done stays.
        await tablet.Turn("versions/" + file);
        await Look("versions");
        await page.Locator("#new-revision").ClickAsync();
        await page.Locator("#revision").FillAsync("1");
        await page.Locator(".naming button[type=submit]").ClickAsync();
        await Assertions.Expect(page.Locator("#open-head")).ToContainTextAsync("rev 1", new() { Timeout = 30_000 });
        await tablet.Turn("changes/" + file);
        await Look("changes");
        await tablet.Turn("");
        await Assertions.Expect(page.Locator("body")).ToContainTextAsync("LINE-9");
        await Look("the day");
        await tablet.AllSent();
        Assert.Equal(4, (await server.Facts()).Count(f => f.GetProperty("fact").GetString() == "joint-step"));
        Assert.True(small.Count == 0, string.Join('\n', small));

        async Task Write(string[] rows, int from)
        {
            for (var i = 0; i < rows.Length; i++)
            {
                await Assertions.Expect(page.Locator($"[id='cell-runs[0].legs[{from + i}]-go']")).ToBeFocusedAsync();
                await Keys(rows[i]);
            }
        }

        async Task Keys(string keys)
        {
            foreach (var key in keys)
                await page.Keyboard.PressAsync(key switch { '↵' => "Enter", '⇥' => "Tab", _ => key.ToString() });
        }

        async Task Look(string at) => small.AddRange((await page.EvaluateAsync<string[]>(Small)).Select(s => $"{at}: {s}"));
    }

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();
}
