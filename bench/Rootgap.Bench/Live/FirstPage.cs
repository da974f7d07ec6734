using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Rootgap.App.Tests.Harness;

namespace Rootgap.Bench.Live;

/// <summary>
/// From opening the address to the list of drawings on the screen, in the published app in headless Chromium, with a job of so many drawings that the browser has already:
/// the second opening of a tablet's day. Beside it an empty page from the same server, for the machine's own share. Aim: 200 under 1 s, 5,000 under 3 s.
/// The list shows at once as it was last left, and a drawing can be tapped in it; the page itself follows.
/// Up to 500, also until each drawing was looked at for the first time, and how long the page stood still meanwhile.
/// </summary>
internal static class FirstPage
{
    private const int Times = 5;

    /// <summary>Up to so many it is waited until each was looked at.</summary>
    private const int AllLookedAt = 500;

    public static async Task Run(int drawings)
    {
        await using var server = await JobServer.Start(sample: null);
        var text = await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "hot-water.yaml"));
        for (var i = 0; i < drawings; i++)
        {
            var number = string.Create(CultureInfo.InvariantCulture, $"HW-{i + 1:0000}");
            await File.WriteAllTextAsync(Path.Combine(server.Folder, number + ".yaml"), string.Join('\n', text.Split('\n').Select(l => l.StartsWith("drawing:", StringComparison.Ordinal) ? "drawing: " + number : l)));
        }

        await server.Kill();
        await server.Again();
        using var driver = await Playwright.CreateAsync();
        await using var browser = await driver.Chromium.LaunchAsync(new() { ExecutablePath = Environment.GetEnvironmentVariable("ROOTGAP_CHROMIUM") ?? "/usr/bin/chromium", Args = ["--no-sandbox"] });
        var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1024, Height = 768 } });
        var page = await context.NewPageAsync();
        var first = Stopwatch.GetTimestamp();
        await page.GotoAsync(server.Address.ToString());
        await page.Locator(".drawing-line, #in-the-shop li").First.WaitForAsync(new() { Timeout = 600_000 });
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{drawings} drawings, the very first opening, program and records fetched: {Stopwatch.GetElapsedTime(first).TotalSeconds:0.0} s to the first row"));
        // How long a tap may wait (W3C Long Tasks).
        await page.EvaluateAsync("() => { window.stops = []; new PerformanceObserver(list => { for (const entry of list.getEntries()) window.stops.push(entry.duration); }).observe({ type: 'longtask' }); }");
        await page.Locator(".sync").Filter(new() { HasText = "All sent" }).WaitForAsync(new() { Timeout = 600_000 });
        if (drawings <= AllLookedAt)
        {
            await page.Locator("#now-cut").WaitForAsync(new() { Timeout = 600_000 });
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{drawings} drawings, the very first opening: {Stopwatch.GetElapsedTime(first).TotalSeconds:0.0} s to the first work that can be done"));
            await page.Locator("#looking").WaitForAsync(new() { State = WaitForSelectorState.Detached, Timeout = 600_000 });
            var stops = await page.EvaluateAsync<double[]>("() => window.stops");
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{drawings} drawings, the very first opening: {Stopwatch.GetElapsedTime(first).TotalSeconds:0.0} s until each is looked at; the page stood still {stops.Count(s => s > 200)} times for more than 200 ms since its first row, at most {stops.DefaultIfEmpty().Max():0} ms"));
        }

        await page.WaitForFunctionAsync("async () => { await navigator.serviceWorker.ready; return navigator.serviceWorker.controller !== null; }");
        List<double> empty = [], list = [], seen = [];
        for (var i = 0; i < Times; i++)
        {
            empty.Add(await Timed(page, new Uri(server.Address, "manifest.webmanifest").ToString(), "body"));
            list.Add(await Timed(page, server.Address.ToString(), "#app:not(.behind) :is(.drawing-line, #in-the-shop li)"));
            // Kept once the page has come to rest.
            await page.WaitForFunctionAsync("() => localStorage.getItem('rootgap-as-it-was') !== null");
            seen.Add(await Timed(page, server.Address.ToString(), "#as-it-was :is(.drawing-line, #in-the-shop li)"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{drawings} drawings, opened again: median {Median(seen):0.00} s to the first row as it stood (aim: {(drawings > 1000 ? 3 : 1)} s), {Median(list):0.00} s until the page itself is there; an empty page: median {Median(empty):0.00} s"));
    }

    private static async Task<double> Timed(IPage page, string address, string until)
    {
        var since = Stopwatch.GetTimestamp();
        await page.GotoAsync(address, new() { WaitUntil = WaitUntilState.Commit });
        await page.Locator(until).First.WaitForAsync(new() { Timeout = 120_000 });
        return Stopwatch.GetElapsedTime(since).TotalSeconds;
    }

    private static double Median(List<double> of) => of.Order().ElementAt(of.Count / 2);
}
