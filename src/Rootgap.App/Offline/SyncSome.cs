using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>A file that the shop has.</summary>
/// <param name="Number">The number that the drawing gives itself; empty where it gives none, null where the file is no drawing.</param>
public sealed record ShopFile(string Path, string? Number);

/// <summary>Of a big job a device has what it needs: lists and racks, people, and the drawings that somebody brought to it, with what was done on them.</summary>
public sealed partial class Sync
{
    /// <summary>A job with more facts than this is not read as a whole by a device that is new to it.</summary>
    private const int BigJob = 5000;

    private static readonly TimeSpan LookAnew = TimeSpan.FromMinutes(1);

    private DateTimeOffset looked;

    /// <summary>The drawings of the shop that are not on this device, where it has not all.</summary>
    public IReadOnlyList<ShopFile> Elsewhere { get; private set; } = [];

    /// <summary>Brings drawings to this device, and what was done on them.</summary>
    public async Task Bring(params IReadOnlyList<string> paths)
    {
        await turn.WaitAsync();
        try
        {
            await BringAsync($"jobs/{job.Id}/", paths);
            await job.SetBrought([.. (job.Brought ?? []).Union(paths, StringComparer.Ordinal)]);
            Elsewhere = [.. Elsewhere.Where(f => !paths.Contains(f.Path, StringComparer.Ordinal))];
            job.Taken();
        }
        catch (Exception e) when (ShopServer.IsAway(e))
        {
            IsThere = false;
        }
        finally
        {
            turn.Release();
        }

        Changed?.Invoke();
    }

    /// <summary>Brings all of the job, with all versions.</summary>
    public async Task BringAll()
    {
        await turn.WaitAsync();
        try
        {
            await job.SetBrought(null);
            Elsewhere = [];
            HasAgreed = false;
        }
        finally
        {
            turn.Release();
        }

        await Once();
    }

    private async Task<ShopServer.Answer> Read(string at, LocalJob.Cursor read)
    {
        var digest = read.Seq > 0 && read.Digest.Length == 0 ? null : read.Digest;
        if (job.Brought is null)
            return await server.Get(FormattableString.Invariant($"{at}facts?after={read.Seq}{(digest is null ? "" : "&digest=" + digest)}"));
        if (LookAnew < LocalJob.Now - looked)
            await Look(at);
        return await server.Post(at + "facts/about", digest is null ? JsonSerializer.Serialize(new { after = read.Seq, about = job.Wanted }) : JsonSerializer.Serialize(new { after = read.Seq, digest, about = job.Wanted }));
    }

    // What is about no drawing, lists and racks; from then on, what comes about these and about the drawings that are brought.
    private async Task Begin(string at, string store)
    {
        await Look(at);
        var beside = Elsewhere.Where(f => f.Number is null).ToList();
        var end = await TakeAbout(at, ["", .. beside.Select(f => f.Path)]);
        await job.SetBrought([.. beside.Select(f => f.Path)]);
        await job.Take([], end with { Store = store });
        Elsewhere = [.. Elsewhere.Where(f => f.Number is not null)];
    }

    private async Task Look(string at)
    {
        using var answer = await server.Get(at + "files");
        if (answer.IsRefused)
            return;
        looked = LocalJob.Now;
        var here = job.Record.Files.Keys.Concat(job.Brought ?? []).ToHashSet(StringComparer.Ordinal);
        Elsewhere = [.. from f in answer.Root.GetProperty("files").EnumerateArray()
            let file = new ShopFile(f.GetProperty("path").GetString()!, f.TryGetProperty("number", out var number) ? number.GetString() : null)
            where !here.Contains(file.Path)
            select file];
    }

    private async Task BringAsync(string at, IReadOnlyList<string> paths)
    {
        using var answer = await server.Get(at + "files");
        if (answer.IsRefused)
            throw new HttpRequestException(answer.Said);
        var wanted = paths.ToHashSet(StringComparer.Ordinal);
        // With all versions: what was done is about the one that lay there then.
        List<string> about = ["", .. paths];
        foreach (var file in answer.Root.GetProperty("files").EnumerateArray())
        {
            if (wanted.Contains(file.GetProperty("path").GetString()!) && file.TryGetProperty("number", out var number) && number.GetString() is { Length: > 0 } called)
                about.Add(called);
        }

        await TakeAbout(at, about);
    }

    private async Task TakeSome(string at, IEnumerable<string> wanted)
    {
        foreach (var ids in wanted.Chunk(MostMissing))
        {
            using var answer = await server.Post(at + "facts/some", JsonSerializer.Serialize(new { ids }));
            if (answer.IsRefused)
                throw new HttpRequestException(answer.Said);
            await job.Take(Facts(answer.Root), null);
        }
    }

    private async Task<LocalJob.Cursor> TakeAbout(string at, IReadOnlyList<string> about)
    {
        var after = 0L;
        while (true)
        {
            using var answer = await server.Post(at + "facts/about", JsonSerializer.Serialize(new { after, about }));
            if (answer.IsRefused)
                throw new HttpRequestException(answer.Said);
            await job.Take(Facts(answer.Root), null);
            after = answer.Root.GetProperty("next").GetInt64();
            if (!answer.Root.GetProperty("more").GetBoolean())
                return new(after, answer.Root.GetProperty("digest").GetString()!, "");
        }
    }
}
