[assembly: AssemblyFixture(typeof(Rootgap.App.Tests.Harness.Chromium))]

namespace Rootgap.App.Tests.Harness;

/// <summary>The one browser of a test run. Each test opens contexts of its own in it, as each person has a tablet of their own.</summary>
public sealed class Chromium : IAsyncLifetime
{
    /// <summary>How long what a page is to show is waited for, ms.</summary>
    private const float Patience = 60_000;

    /// <summary>Debian's Chromium, first the build that has no window: the same engine with a fifth less work for each tablet.</summary>
    private static readonly string[] Programs = ["/usr/bin/chromium-headless-shell", "/usr/bin/chromium"];

    private IPlaywright? driver;
    private IBrowser? browser;

    public IBrowser Browser => browser!;

    public async ValueTask InitializeAsync()
    {
        driver = await Playwright.CreateAsync();
        // A page that is slow on a busy machine is no fault: how long is the bench's matter.
        Assertions.SetDefaultExpectTimeout(Patience);
        browser = await driver.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("ROOTGAP_CHROMIUM") ?? Array.Find(Programs, File.Exists) ?? Programs[0],
            Args = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.CloseAsync();
        driver?.Dispose();
    }
}
