namespace Rootgap.App.Tests.Harness;

/// <summary>A test with servers and tablets of its own. What is left of a failed one lies in <c>TestResults</c> beside the solution.</summary>
/// <param name="worksAlone">Whether its tablets keep the app for when the network is gone, which costs each a second load of it.</param>
public abstract class BrowserTest(Chromium chromium, bool worksAlone = false) : IAsyncLifetime
{
    private readonly List<JobServer> servers = [];
    private readonly List<Tablet> tablets = [];

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    /// <summary>Serves a copy of a sample job.</summary>
    protected async Task<JobServer> Serve(string? sample = "hatchery", params string[] more)
    {
        var server = await JobServer.Start(sample, more);
        servers.Add(server);
        return server;
    }

    /// <summary>A tablet that has not been here before.</summary>
    protected Task<Tablet> NewTablet(JobServer server, int width = 1180, int height = 820, string who = "RH") => NewTablet(server.Address, width, height, who);

    protected async Task<Tablet> NewTablet(Uri address, int width = 1180, int height = 820, string who = "RH")
    {
        var tablet = await Tablet.Of(chromium.Browser, address, width, height, who, worksAlone);
        tablets.Add(tablet);
        return tablet;
    }

    public async ValueTask DisposeAsync()
    {
        GC.SuppressFinalize(this);
        var test = Xunit.TestContext.Current;
        var failed = test.TestState?.Result == TestResult.Failed;
        var faults = tablets.SelectMany(t => t.Faults).ToList();
        if (failed || faults.Count > 0)
        {
            var name = new string([.. (test.Test?.TestDisplayName ?? GetType().Name).Select(c => char.IsLetterOrDigit(c) || c is '.' or '_' ? c : '-')]);
            for (var i = 0; i < tablets.Count; i++)
                await tablets[i].Leave(Repository.At("TestResults", FormattableString.Invariant($"{name}-{i + 1}")));
            foreach (var server in servers)
                await File.WriteAllTextAsync(Repository.At("TestResults", name + ".server.log"), server.Said);
        }

        foreach (var tablet in tablets)
            await tablet.Context.CloseAsync();
        foreach (var server in servers)
            await server.DisposeAsync();
        if (!failed)
            Assert.True(faults.Count == 0, "Failed in the page without a word to the person: " + string.Join('\n', faults));
    }
}
