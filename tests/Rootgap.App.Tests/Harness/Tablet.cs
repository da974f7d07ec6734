using System.Globalization;
using System.Text.Json;

namespace Rootgap.App.Tests.Harness;

/// <summary>A fact as a browser keeps it.</summary>
public sealed record KeptFact(string Id, JsonElement Fact, bool IsUnsent)
{
    public string Kind => Fact.GetProperty("fact").GetString()!;
}

/// <summary>One person's tablet: a browser context of its own, with the tab that is open.</summary>
public sealed class Tablet
{
    private static readonly string Watching = """
        window.shifts = [];
        new PerformanceObserver(list => { for (const e of list.getEntries()) window.shifts.push({ value: e.value, typed: e.hadRecentInput, what: e.sources.map(s => s.node?.outerHTML?.slice(0, 90) ?? '').join(' | ') }); })
          .observe({ type: 'layout-shift', buffered: true });
        """;

    /// <summary>How long a page may take to do what is waited for, ms.</summary>
    private const float Patience = 90_000;

    /// <summary>How many times slower a page's processor is made to be: a test that reads too early on a busy machine fails here with <c>ROOTGAP_SLOW=4</c>.</summary>
    private static readonly int Slowness = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_SLOW"), CultureInfo.InvariantCulture, out var times) ? times : 1;

    private readonly List<string> faults = [];
    private readonly Uri address;

    private Tablet(IBrowserContext context, Uri address) => (Context, this.address) = (context, address);

    public IBrowserContext Context { get; }

    /// <summary>The tab that is open.</summary>
    public IPage Page { get; private set; } = null!;

    /// <summary>What failed in its pages without being said: thrown and not caught.</summary>
    public IReadOnlyList<string> Faults
    {
        get
        {
            lock (faults)
                return [.. faults];
        }
    }

    public static async Task<Tablet> Of(IBrowser browser, Uri address, int width = 1180, int height = 820, string who = "RH", bool worksAlone = true)
    {
        var context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, BaseURL = address.ToString(), AcceptDownloads = true, ReducedMotion = ReducedMotion.Reduce, ServiceWorkers = worksAlone ? ServiceWorkerPolicy.Allow : ServiceWorkerPolicy.Block });
        // The app starts in two seconds on a quiet machine, and in many more where other tests run beside: how long is the bench's matter.
        context.SetDefaultTimeout(Patience);
        await context.AddInitScriptAsync(Watching);
        if (who.Length > 0)
            await context.AddInitScriptAsync($"try {{ if (!localStorage.getItem('rootgap-who')) localStorage.setItem('rootgap-who', {JsonSerializer.Serialize(who)}); }} catch {{ }}");
        await context.Tracing.StartAsync(new() { Screenshots = false, Snapshots = false, Sources = false });
        var tablet = new Tablet(context, address);
        context.Page += (_, page) => tablet.Hear(page);
        return tablet;
    }

    /// <summary>Opens an address in a new tab, and waits until its page stands there.</summary>
    public async Task<IPage> Open(string path = "")
    {
        Page = await Context.NewPageAsync();
        if (Slowness > 1)
            await (await Context.NewCDPSessionAsync(Page)).SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = Slowness });
        await Go(path);
        return Page;
    }

    /// <summary>Goes to an address in the open tab as a person types one: everything is loaded anew.</summary>
    public async Task Go(string path)
    {
        await Page.GotoAsync(new Uri(address, path).ToString());
        await Stands();
    }

    /// <summary>Goes to a page inside the app, without loading it anew.</summary>
    public async Task Turn(string path)
    {
        await Page.EvaluateAsync("path => Blazor.navigateTo(path)", path);
        await Page.WaitForFunctionAsync("path => location.pathname + location.search === new URL(path, document.baseURI).pathname", path);
        await Stands();
    }

    /// <summary>Waits until the page has its heading and nothing on it is still at work.</summary>
    public async Task Stands()
    {
        await Page.Locator("main.page h1").First.WaitForAsync();
        await Page.WaitForFunctionAsync("() => !document.querySelector('[aria-busy=\"true\"]')");
    }

    /// <summary>Waits until the browser holds all that it needs to work alone.</summary>
    public async Task IsKept() => await Page.WaitForFunctionAsync("async () => { await navigator.serviceWorker.ready; return navigator.serviceWorker.controller !== null; }");

    /// <summary>Waits until the browser holds these, too, which it fetches when the page is at rest: asked for, they are kept at once.</summary>
    /// <param name="paths">Files of the app, such as <c>js/help.json</c>.</param>
    public async Task HasLater(params string[] paths)
    {
        await IsKept();
        await Page.EvaluateAsync("async () => { (await navigator.serviceWorker.ready).active.postMessage('rest'); }");
        foreach (var path in paths)
        {
            while (!await Page.EvaluateAsync<bool>("async path => (await caches.match(new URL(path, document.baseURI).href)) !== undefined", path))
                await Task.Delay(100);
        }
    }

    /// <summary>Closes the tab, as a thumb does it: nothing is asked.</summary>
    public async Task CloseTab() => await Page.CloseAsync();

    /// <summary>Waits until nothing waits to be sent.</summary>
    public async Task AllSent() => await Page.Locator(".sync").Filter(new() { HasText = "All sent" }).WaitForAsync(new() { Timeout = 60_000 });

    /// <summary>All facts in the browser's own database.</summary>
    public async Task<IReadOnlyList<KeptFact>> Facts()
    {
        var json = await Page.EvaluateAsync<string>("""
            async () => {
              const answer = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
              const db = await answer(indexedDB.open('rootgap'));
              const all = await answer(db.transaction('facts').objectStore('facts').getAll());
              db.close();
              return JSON.stringify(all.map(f => ({ id: f.id, fact: JSON.parse(f.json), unsent: !!f.unsent })));
            }
            """);
        using var document = JsonDocument.Parse(json);
        return [.. document.RootElement.EnumerateArray().Select(f => new KeptFact(f.GetProperty("id").GetString()!, f.GetProperty("fact").Clone(), f.GetProperty("unsent").GetBoolean()))];
    }

    /// <summary>How far things jumped about since the page was loaded: the sum of the browser's own layout-shift scores, with what jumped.</summary>
    /// <param name="typing">Also what jumped just after a key or a tap, which the browser's usual sum leaves out.</param>
    public async Task<(double Sum, string What)> Shifts(bool typing)
    {
        var json = await Page.EvaluateAsync<string>("() => JSON.stringify(window.shifts)");
        using var document = JsonDocument.Parse(json);
        var entries = document.RootElement.EnumerateArray().Where(e => typing || !e.GetProperty("typed").GetBoolean()).ToList();
        return (entries.Sum(e => e.GetProperty("value").GetDouble()),
            string.Join('\n', entries.Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.GetProperty("value").GetDouble():0.0000} {e.GetProperty("what").GetString()}"))));
    }

    /// <summary>What a person needs who reads why a test failed: the screen, the trace, what the pages said.</summary>
    public async Task Leave(string name)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(name)!);
        for (var i = 0; i < Context.Pages.Count; i++)
        {
            try
            {
                await Context.Pages[i].ScreenshotAsync(new() { Path = string.Create(CultureInfo.InvariantCulture, $"{name}-{i + 1}.png"), Timeout = 5_000 });
                await File.WriteAllTextAsync(string.Create(CultureInfo.InvariantCulture, $"{name}-{i + 1}.html"), await Context.Pages[i].ContentAsync());
            }
            catch (Exception e) when (e is PlaywrightException or TimeoutException)
            {
                // The page is gone; the rest is still worth having.
            }
        }

        await Context.Tracing.StopAsync(new() { Path = name + ".trace.zip" });
        await File.WriteAllLinesAsync(name + ".log", Faults);
    }

    private void Hear(IPage page)
    {
        page.PageError += (_, e) => Note("thrown: " + e);
        page.Console += (_, e) =>
        {
            // A server that is not there is a normal state, though the browser logs it as an error.
            if (e.Type == "error" && !e.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
                Note("said: " + e.Text);
        };
    }

    private void Note(string fault)
    {
        lock (faults)
            faults.Add(fault);
    }
}
