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
    private const int BigJob = 2000;

    /// <summary>How many drawings the shop has, where this device has not all of the job; 0 until the shop was asked.</summary>
    public int InShop { get; private set; }

    /// <summary>Drawings of the shop whose number or path holds a text and that are not on this device; null where the shop does not answer.</summary>
    public async Task<IReadOnlyList<ShopFile>?> Find(string text, int most)
    {
        try
        {
            var here = job.Record.Files.Keys.Concat(job.Brought ?? []).ToHashSet(StringComparer.Ordinal);
            using var answer = await server.Get(FormattableString.Invariant($"jobs/{job.Id}/files?find={Uri.EscapeDataString(text.Trim())}&most={most + here.Count}"));
            if (answer.IsRefused)
                return null;
            InShop = answer.Root.GetProperty("drawings").GetInt32();
            return [.. Listed(answer.Root).Where(f => !here.Contains(f.Path)).Take(most)];
        }
        catch (Exception e) when (ShopServer.IsAway(e))
        {
            return null;
        }
    }

    /// <summary>Brings drawings to this device, and what was done on them.</summary>
    public async Task Bring(params IReadOnlyList<ShopFile> files)
    {
        await turn.WaitAsync();
        try
        {
            // With all versions: what was done is about the one that lay there then.
            await TakeAbout($"jobs/{job.Id}/", ["", .. files.Select(f => f.Path), .. files.Select(f => f.Number).OfType<string>().Where(n => n.Length > 0)]);
            await job.SetBrought([.. (job.Brought ?? []).Union(files.Select(f => f.Path), StringComparer.Ordinal)]);
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
        return await server.Post(at + "facts/about", digest is null ? JsonSerializer.Serialize(new { after = read.Seq, about = job.Wanted }) : JsonSerializer.Serialize(new { after = read.Seq, digest, about = job.Wanted }));
    }

    // What is about no drawing, lists and racks; from then on, what comes about these and about the drawings that are brought.
    private async Task Begin(string at, string store)
    {
        List<string> beside;
        using (var answer = await server.Get(at + "files?beside=1"))
        {
            if (answer.IsRefused)
                throw new HttpRequestException(answer.Said);
            InShop = answer.Root.GetProperty("drawings").GetInt32();
            beside = [.. Listed(answer.Root).Select(f => f.Path)];
        }

        var end = await TakeAbout(at, ["", .. beside]);
        await job.SetBrought(beside);
        await job.Take([], end with { Store = store });
    }

    private static IEnumerable<ShopFile> Listed(JsonElement root) =>
        root.GetProperty("files").EnumerateArray().Select(f => new ShopFile(f.GetProperty("path").GetString()!, f.TryGetProperty("number", out var number) ? number.GetString() : null));

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
