using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Rootgap.App.Tests.Harness;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Bench.Live;

/// <summary>
/// From a key to the new isometric and findings on the screen, in the published app in headless Chromium, with the drawing of 40 legs; beside it the engine's
/// own time for the same changes on this machine. Aim: a median under 60 ms on two cores.
/// </summary>
internal static class KeystrokeInBrowser
{
    private const string File = "hot-water.yaml";

    /// <summary>Keystrokes that warm it up: what a browser and a runtime learn while the first rows are typed.</summary>
    private const int Warming = 20;

    private static readonly string[] Distances = ["1510", "1620", "1730", "1840", "1950", "2060"];

    public static async Task Run()
    {
        var text = await System.IO.File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, File));
        var legs = DrawingText.Of(text, File).Runs.SelectMany(r => r.Legs).Where(l => l["by"].Length > 0 && l["by"].All(char.IsAsciiDigit)).Select(l => l.Path).ToList();
        var (browser, painted) = await InBrowser(text, legs);
        var native = Native(text, legs);
        var (shown, engine) = (Median(browser), Median(native));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{browser.Count} keystrokes in a drawing of 40 legs, after {Warming} that warm it up"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"from the key to its next paint (W3C Event Timing, in steps of 8 ms): median {Median(painted):0} ms, 9 of 10 under {painted.Order().ElementAt(painted.Count * 9 / 10):0} ms"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"from the key to the frame after that paint: median {shown:0.0} ms, 9 of 10 under {browser.Order().ElementAt(browser.Count * 9 / 10):0.0} ms (aim: median under 60 ms)"));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"the engine alone on this machine: median {engine:0.0} ms; the browser takes {shown / engine:0.0} times as long, screen and all"));
    }

    private static async Task<(List<double> Shown, List<double> Painted)> InBrowser(string text, List<string> legs)
    {
        await using var server = await JobServer.Start(sample: null);
        await System.IO.File.WriteAllTextAsync(Path.Combine(server.Folder, File), text);
        using var driver = await Playwright.CreateAsync();
        await using var browser = await driver.Chromium.LaunchAsync(new() { ExecutablePath = "/usr/bin/chromium", Args = ["--no-sandbox"] });
        var page = await browser.NewPageAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
        await page.GotoAsync(new Uri(server.Address, "drawing/" + File).ToString());
        await page.Locator(".pane-picture svg").WaitForAsync(new() { Timeout = 60_000 });
        await page.EvaluateAsync("""
            () => {
              window.keys = [];
              window.painted = [];
              new PerformanceObserver(list => {
                for (const entry of list.getEntries()) if (entry.name === 'keydown') window.painted.push(entry.duration);
              }).observe({ type: 'event', durationThreshold: 16 });
              let from = 0;
              document.addEventListener('keydown', () => { from = performance.now(); }, true);
              new MutationObserver(() => {
                if (!from) return;
                const since = from;
                from = 0;
                // Two frames on, the first is on the screen.
                requestAnimationFrame(() => requestAnimationFrame(() => window.keys.push(performance.now() - since)));
              }).observe(document.querySelector('.pane-picture'), { childList: true });
            }
            """);
        var typed = 0;
        foreach (var (leg, i) in legs.Select((l, i) => (l, i)))
        {
            await page.Locator($"[id='cell-{leg}-by']").FocusAsync();
            foreach (var digit in Distances[i % Distances.Length])
            {
                await page.Keyboard.PressAsync(digit.ToString());
                await page.WaitForFunctionAsync("count => window.keys.length === count", ++typed);
            }
        }

        var all = await page.EvaluateAsync<double[]>("() => window.keys");
        // An entry comes a moment after its paint. Events under 16 ms have none; a keystroke here takes longer.
        await page.WaitForFunctionAsync("count => window.painted.length >= count", all.Length);
        var painted = await page.EvaluateAsync<double[]>("() => window.painted");
        return ([.. all.Skip(Warming)], [.. painted.Skip(Warming)]);
    }

    private static List<double> Native(string text, List<string> legs)
    {
        var drawing = DrawingText.Of(text, File);
        var took = new List<double>();
        var pane = new PaneIsometric();
        foreach (var (leg, i) in legs.Select((l, i) => (l, i)))
        {
            for (var digits = 1; digits <= 4; digits++)
            {
                var since = Stopwatch.GetTimestamp();
                drawing = drawing.Set(leg, "by", Distances[i % Distances.Length][..digits]);
                if (drawing.Read().Partial is { } partial)
                    _ = pane.Svg(Packet.Of(partial).Fabrication, Effort.Live, 160, 130, 1);
                took.Add(Stopwatch.GetElapsedTime(since).TotalMilliseconds);
            }
        }

        return [.. took.Skip(Warming)];
    }

    private static double Median(List<double> of) => of.Order().ElementAt(of.Count / 2);
}
