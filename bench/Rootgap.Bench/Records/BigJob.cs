using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;
using Rootgap.App.Tests.Harness;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Bench.Records;

/// <summary>
/// A big job: so many drawings, so many facts. How long the server takes to start, what memory it needs with fifty clients that read everything at once, and how long a tablet
/// that was never here takes to open it. Aims: under 300 MB, under 3 s.
/// </summary>
internal static class BigJob
{
    private const int Clients = 50;

    public static async Task Run(int drawings, int count)
    {
        await using var server = await JobServer.Start(sample: null);
        await server.Kill();
        await Fill(server.Folder, drawings, count);
        var watch = Stopwatch.StartNew();
        await server.Again();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{drawings} drawings, {count} facts: the server answers after {watch.Elapsed.TotalSeconds:0.0} s, {server.Memory() >> 20} MB at most until then"));

        watch.Restart();
        var read = await Task.WhenAll(Enumerable.Range(0, Clients).Select(_ => server.Facts()).ToList().Select(async t => (await t).Count));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Clients} clients read {read.Sum()} facts in {watch.Elapsed.TotalSeconds:0.0} s; the server took {server.Memory() >> 20} MB at most (aim: 300 MB)"));

        using var driver = await Playwright.CreateAsync();
        await using var browser = await driver.Chromium.LaunchAsync(new() { ExecutablePath = "/usr/bin/chromium", Args = ["--no-sandbox"] });
        var page = await (await browser.NewContextAsync()).NewPageAsync();
        page.SetDefaultTimeout(600_000);
        // Once without the job, so that the program itself is there: it is fetched once for all jobs.
        await page.GotoAsync(new Uri(server.Address, "enrol").ToString(), new() { WaitUntil = WaitUntilState.NetworkIdle });
        await page.EvaluateAsync("() => new Promise(done => { const asked = indexedDB.deleteDatabase('rootgap'); asked.onsuccess = asked.onerror = asked.onblocked = done; })");
        watch.Restart();
        await page.GotoAsync(server.Address.ToString());
        await page.Locator("main.page h1").First.WaitForAsync();
        var stands = watch.Elapsed;
        await page.Locator(".sync").Filter(new() { HasText = "All sent" }).WaitForAsync();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"a tablet that was never here: the page stands after {stands.TotalSeconds:0.0} s, all that it needs is there after {watch.Elapsed.TotalSeconds:0.0} s (aim: 3 s)"));
        watch.Restart();
        await page.ReloadAsync();
        await page.Locator(".sync").Filter(new() { HasText = "All sent" }).WaitForAsync();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"opened again: {watch.Elapsed.TotalSeconds:0.0} s"));
    }

    private static async Task Fill(string folder, int drawings, int count)
    {
        await using var archive = await Archive.OpenFileAsync(Path.Combine(folder, ".rootgap", "records.db"));
        var store = await archive.OpenJobAsync((await archive.JobsAsync())[0].Id);
        var text = await File.ReadAllTextAsync(Repository.At("samples", "hatchery", "chilled-supply.yaml"));
        var when = new DateTimeOffset(2026, 3, 1, 7, 0, 0, TimeSpan.Zero);
        List<Fact> batch = [];
        for (var i = 0; i < drawings + count; i++)
        {
            var n = i < drawings ? i : i % drawings;
            var number = string.Create(CultureInfo.InvariantCulture, $"BIG-{n:d4}");
            batch.Add(i < drawings
                ? FileSaved.OfText(Guid.CreateVersion7().ToString(), "office", when, number + ".yaml", text.Replace("CHW-201", number, StringComparison.Ordinal))
                : new PieceCut(Guid.CreateVersion7().ToString(), "Jo", when.AddSeconds(i), new(number, "3"), string.Create(CultureInfo.InvariantCulture, $"{(i % 7) + 1}-A"), "H 4711"));
            if (batch.Count == 5000 || i == drawings + count - 1)
            {
                await store.KeepAsync(batch, when.AddSeconds(i));
                batch.Clear();
            }
        }
    }
}
