using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server.Tests;

/// <summary>`rootgap job backup`, `restore` and `rescue`, killed at any moment: what is there afterwards is the old or the new, or the next command brings it about. With <c>ROOTGAP_CASES=n</c> n times each.</summary>
public class JobCommandsKilledTest
{
    private const int Count = 3000;

    private static readonly int Cases = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), CultureInfo.InvariantCulture, out var n) ? n : 2;

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private static async Task<string> Fill(JobOnDisk job)
    {
        Directory.CreateDirectory(job.At(".rootgap"));
        await using var archive = await Archive.OpenFileAsync(job.At(".rootgap/records.db"), Cancel);
        var store = await archive.BeginJobAsync("job", cancel: Cancel);
        await store.KeepAsync([.. Enumerable.Range(0, Count).Select(_ => Facts.Cut())], Facts.Noon, Cancel);
        ServedJob.Note(job.At(".rootgap"), store.Job.Id);
        return store.Job.Id;
    }

    private static async Task<long> CountOf(string file)
    {
        await using var archive = await Archive.OpenFileAsync(file, Cancel);
        return await archive.JobsAsync(Cancel) is [var job] ? (await (await archive.OpenJobAsync(job.Id, Cancel)).HeadAsync(Cancel)).Seq : 0;
    }

    // Killed after some share of the time that it takes.
    private static async Task Kill(string arguments, TimeSpan after)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Rootgap.Server.dll"), .. arguments.Split(' ')]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        await Task.Delay(after, Cancel);
        process.Kill();
        await process.WaitForExitAsync(Cancel);
        SqliteConnection.ClearAllPools();
    }

    [Fact]
    public async Task A_killed_backup_is_none_or_all_of_it()
    {
        using var job = new JobOnDisk();
        await Fill(job);
        var watch = Stopwatch.StartNew();
        Assert.Equal(0, (await ServerProgram.Command($"job backup {job.Path} --out {job.At("first.db")}")).Code);
        var took = watch.Elapsed;
        var chance = new Random(9);
        for (var i = 0; i < Cases; i++)
        {
            await Kill($"job backup {job.Path} --out {job.At("b.db")}", took * (0.3 + (0.7 * chance.NextDouble())));
            if (File.Exists(job.At("b.db")))
                Assert.Equal(Count, await CountOf(job.At("b.db")));
            else
                Assert.Equal(0, (await ServerProgram.Command($"job backup {job.Path} --out {job.At("b.db")}")).Code);
            Assert.Equal(Count, await CountOf(job.At("b.db")));
            Assert.Equal(Count, await CountOf(job.At(".rootgap/records.db")));
            File.Delete(job.At("b.db"));
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData(" --anew")]
    public async Task A_killed_restore_leaves_the_old_records_or_the_new(string how)
    {
        using var job = new JobOnDisk();
        await Fill(job);
        Assert.Equal(0, (await ServerProgram.Command($"job backup {job.Path} --out {job.At("b.db")}")).Code);
        var chance = new Random(10);
        for (var i = 0; i < Cases; i++)
        {
            using var other = new JobOnDisk();
            var watch = Stopwatch.StartNew();
            Assert.Equal(0, (await ServerProgram.Command($"job restore {job.At("b.db")} {other.Path}")).Code);
            var took = watch.Elapsed;
            if (how.Length == 0)
                Directory.Delete(other.At(".rootgap"), recursive: true);
            await Kill($"job restore {job.At("b.db")} {other.Path}{how}", took * (0.3 + (0.7 * chance.NextDouble())));
            if (File.Exists(other.At(".rootgap/records.db")))
                Assert.Equal(Count, await CountOf(other.At(".rootgap/records.db")));
            Assert.Equal(0, (await ServerProgram.Command($"job restore {job.At("b.db")} {other.Path}")).Code);
            Assert.Equal(Count, await CountOf(other.At(".rootgap/records.db")));
        }
    }

    [Fact]
    public async Task A_killed_rescue_leaves_the_damaged_records_or_the_saved_ones()
    {
        using var job = new JobOnDisk();
        await Fill(job);
        var chance = new Random(11);
        for (var i = 0; i < Cases; i++)
        {
            await Kill($"job rescue {job.Path}", TimeSpan.FromMilliseconds(300 + chance.Next(1500)));
            Assert.Equal(0, (await ServerProgram.Command($"job rescue {job.Path}")).Code);
            Assert.Equal(Count, await CountOf(job.At(".rootgap/records.db")));
        }
    }

    [Fact]
    public async Task A_rescue_that_was_stopped_between_putting_aside_and_putting_in_place_is_finished_by_the_server()
    {
        using var job = new JobOnDisk();
        var id = await Fill(job);
        SqliteConnection.ClearAllPools();
        File.Move(job.At(".rootgap/records.db"), job.At(".rootgap/records-new.db"));
        await using (var served = await Served.Of(job))
        {
            Assert.Equal(id, served.Job.Id);
            Assert.Equal(Count, (await served.All()).Count);
        }

        // The old ones were partly put aside: they stay there, under one number.
        SqliteConnection.ClearAllPools();
        File.Copy(job.At(".rootgap/records.db"), job.At(".rootgap/records-new.db"));
        File.WriteAllText(job.At(".rootgap/records-aside-1.db-wal"), "of the old ones");
        await using (var served = await Served.Of(job))
            Assert.Equal(Count, (await served.All()).Count);
        Assert.True(File.Exists(job.At(".rootgap/records-aside-1.db")));
        Assert.False(File.Exists(job.At(".rootgap/records-new.db")));
    }
}
