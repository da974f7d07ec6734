namespace Rootgap.Server;

/// <summary>Looks into the jobs' folders every few seconds. Polling sees what is changed over the network too, where notices of changes get lost.</summary>
internal sealed class FolderWatch(ServedJobs jobs) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(3);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
            {
                foreach (var job in jobs.Open)
                {
                    while (job.Folder is { } folder && await folder.TrySyncAsync() && !stoppingToken.IsCancellationRequested)
                    {
                        // More is to be written out.
                    }
                }
            }
        }
        catch (OperationCanceledException)
        {
            // Stopped.
        }
    }
}
