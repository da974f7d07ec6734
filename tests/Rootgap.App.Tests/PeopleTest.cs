using System.Globalization;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>
/// Whoever works with it: gloves, sun, night, a phone, a wall screen, a keyboard alone, a screen reader. Every page is looked at in every size and light.
/// With <c>ROOTGAP_SHOTS=FOLDER</c> the screens are also written there as pictures, to be looked at.
/// </summary>
public class PeopleTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static readonly (string Name, int Width, int Height)[] Sizes = [("phone", 360, 740), ("tablet", 820, 1180), ("desk", 1440, 900), ("wall", 2560, 1440)];

    // WCAG 2.2, 2.5.5 (AAA): 44 by 44 CSS pixels. A tick box is pressed by its label; what is not on screen cannot be pressed.
    private const string Small = """
        () => {
          const found = [];
          for (const e of document.querySelectorAll('button, a.button, nav a, header a, summary, input, select, textarea, label.button, label.tick, [role=button], [role=tab]')) {
            if (e.classList.contains('unseen') || e.type === 'hidden' || e.disabled) continue;
            if (!e.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
            let box = e.getBoundingClientRect();
            if ((e.type === 'checkbox' || e.type === 'radio') && e.closest('label')) box = e.closest('label').getBoundingClientRect();
            if (box.width < 43.9 || box.height < 43.9) found.push(`${Math.round(box.width)}x${Math.round(box.height)} ${e.outerHTML.slice(0, 140)}`);
          }
          return found;
        }
        """;

    private const string Wide = """
        () => {
          const most = document.documentElement.clientWidth;
          if (document.documentElement.scrollWidth <= most && document.body.scrollWidth <= most) return [];
          const inside = e => { for (let p = e.parentElement; p && p !== document.body; p = p.parentElement) if (/auto|scroll|hidden|clip/.test(getComputedStyle(p).overflowX)) return true; return false; };
          const found = [...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > most + 1 && !inside(e)).map(e => e.outerHTML.slice(0, 140));
          return [`${document.documentElement.scrollWidth} wide in ${most}`, ...found.slice(0, 5)];
        }
        """;

    [Fact]
    public async Task Every_page_is_fit_for_fingers_eyes_and_screen_readers_in_every_size_and_light()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        var shots = Environment.GetEnvironmentVariable("ROOTGAP_SHOTS");
        var wrong = new List<string>();
        foreach (var place in Pages.All)
        {
            await tablet.Turn(place.Path);
            await page.GetByText(place.Says).First.WaitForAsync();
            foreach (var (name, width, height) in Sizes)
            {
                await page.SetViewportSizeAsync(width, height);
                foreach (var dark in new[] { false, true })
                {
                    var light = dark ? "dark" : "light";
                    await page.EmulateMediaAsync(new() { ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light });
                    if (shots is not null)
                        await page.ScreenshotAsync(new() { Path = Path.Combine(shots, $"{place.Name}-{name}-{light}.png"), FullPage = false });
                    // Names and contrast: names are the same in both lights, contrast at every width but for what folds away, so the narrowest in the one light and a wide one in the other.
                    if ((name, dark) is ("phone", false) or ("desk", true))
                    {
                        var axe = await page.RunAxe();
                        wrong.AddRange(axe.Violations.Where(v => v.Impact is "serious" or "critical")
                            .Select(v => $"{place.Name} {name} {light}: {v.Impact} {v.Id}: {v.Help}\n    " + string.Join("\n    ", v.Nodes.Take(4).Select(n => n.Html + " " + string.Join("; ", n.Any.Select(a => a.Message))))));
                    }
                }

                if (name is "phone" or "tablet")
                    wrong.AddRange((await page.EvaluateAsync<string[]>(Small)).Select(s => $"{place.Name} {name}: too small to touch: {s}"));
                wrong.AddRange((await page.EvaluateAsync<string[]>(Wide)).Select(s => $"{place.Name} {name}: wider than the screen: {s}"));
            }

            await page.SetViewportSizeAsync(1180, 820);
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    // Every control that can be used, in the order in which Tab should come to it; controls inside one widget (a table with arrow keys) have one stop.
    private const string Controls = """
        () => {
          let n = 0;
          const found = [];
          for (const e of document.querySelectorAll('a[href], button, input, select, textarea, summary, [tabindex]')) {
            if (e.disabled || e.tabIndex < 0 || e.type === 'hidden' || !e.checkVisibility({ visibilityProperty: true })) continue;
            e.dataset.stop = ++n;
            found.push(`${n}: ${e.outerHTML.slice(0, 120)}`);
          }
          return found;
        }
        """;

    private const string Focused = """
        () => {
          const e = document.activeElement;
          if (!e || e === document.body) return ['', true];
          const seen = x => { const s = getComputedStyle(x); return (s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2) || s.boxShadow !== 'none'; };
          const box = e.getBoundingClientRect();
          const shown = seen(e) || (e.closest('label') !== null && seen(e.closest('label')));
          return [e.dataset.stop ?? '', shown];
        }
        """;

    [Fact]
    public async Task Tab_reaches_every_control_and_shows_where_it_is()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        var wrong = new List<string>();
        foreach (var place in Pages.All)
        {
            await tablet.Turn(place.Path);
            await page.GetByText(place.Says).First.WaitForAsync();
            var controls = await page.EvaluateAsync<string[]>(Controls);
            Assert.NotEmpty(controls);
            var reached = new HashSet<string>(StringComparer.Ordinal);
            await page.EvaluateAsync("() => { document.activeElement?.blur(); getSelection().removeAllRanges(); document.body.tabIndex = -1; document.body.focus(); document.body.removeAttribute('tabindex'); }");
            // A field that the cursor is in may bring buttons of its own, so there are more stops than were counted.
            for (var i = 0; i < controls.Length + 100 && reached.Count < controls.Length; i++)
            {
                await page.Keyboard.PressAsync("Tab");
                var at = (await page.EvaluateAsync<System.Text.Json.JsonElement>(Focused))!;
                var stop = at[0].GetString()!;
                if (stop.Length == 0)
                    continue;
                if (reached.Add(stop) && !at[1].GetBoolean())
                    wrong.Add($"{place.Name}: focus cannot be seen on {controls[int.Parse(stop, CultureInfo.InvariantCulture) - 1]}");
            }

            wrong.AddRange(controls.Where(c => !reached.Contains(c[..c.IndexOf(':', StringComparison.Ordinal)])).Select(c => $"{place.Name}: Tab does not reach {c}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public async Task Nothing_jumps_about_while_a_page_loads()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        await tablet.Open();
        await tablet.IsKept();
        var wrong = new List<string>();
        foreach (var place in Pages.All)
        {
            await tablet.Go(place.Path);
            await tablet.Page.GetByText(place.Says).First.WaitForAsync();
            var (sum, what) = await tablet.Shifts(typing: true);
            if (sum >= 0.1)     // web.dev, Cumulative Layout Shift: up to 0.1 is good
                wrong.Add(string.Create(CultureInfo.InvariantCulture, $"{place.Name}: {sum:0.000}\n{what}"));
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }
}
