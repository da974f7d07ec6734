namespace Rootgap.Server;

/// <summary>Looks into the job's folder every few seconds. Polling sees what is changed over the network too, where notices of changes get lost.</summary>
internal sealed class FolderWatch(JobFolder folder) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(3);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
                await folder.TrySyncAsync();
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }
    }
}
