using System.Net;
using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>
/// Pictures and papers go after the facts that speak of them: an entry is small and never waits for its picture. Each goes in parts, and one that broke off goes on where the server has it.
/// </summary>
public sealed partial class Sync
{
    private const int PartBytes = 256 << 10;
    private const int MostAsked = 100;

    // Of 8 parts, with some that went astray.
    private const int MostTries = 30;

    // Whether none is left to send.
    private async Task<bool> SendContents(string at)
    {
        while (await job.UnsentContents(MostAsked) is { Length: > 0 } waiting)
        {
            using var answer = await server.Post(at + "attachments/lacking", JsonSerializer.Serialize(new { sha256 = waiting }));
            if (answer.IsRefused)
            {
                Trouble = answer.Said;
                return false;
            }

            var lacking = answer.Root.GetProperty("lacking").EnumerateArray().ToDictionary(l => l.GetProperty("sha256").GetString()!, l => l.GetProperty("have").GetInt32(), StringComparer.Ordinal);
            string[] here = [.. answer.Root.GetProperty("here").EnumerateArray().Select(s => s.GetString()!)];
            await job.ContentsSent(here);
            await job.ContentsUnasked([.. waiting.Where(w => !lacking.ContainsKey(w) && !here.Contains(w, StringComparer.Ordinal))]);
            foreach (var (sha256, have) in lacking)
            {
                if (!await SendContent(at, sha256, have))
                    return false;
                await CountAsync();
                Changed?.Invoke();
            }
        }

        return true;
    }

    private async Task<bool> SendContent(string at, string sha256, int have)
    {
        if (await job.Content(sha256) is not { } content)
            return true;
        have = have < content.Length ? have : 0;
        var isAnew = false;
        for (var tries = 0; tries < MostTries; tries++)
        {
            var part = content.AsMemory(have, Math.Min(PartBytes, content.Length - have));
            using var answer = await server.Put(FormattableString.Invariant($"{at}attachments/{sha256}?at={have}&of={content.Length}"), part);
            switch (answer.Status)
            {
                case HttpStatusCode.OK when answer.Root.GetProperty("whole").GetBoolean():
                    await job.ContentsSent([sha256]);
                    return true;
                // More than there is was sent by somebody as something else: anew.
                case HttpStatusCode.OK or HttpStatusCode.Conflict:
                    have = answer.Root.GetProperty("have").GetInt32() is var there && there < content.Length ? there : 0;
                    break;
                // What somebody else sent before was something else.
                case HttpStatusCode.UnprocessableEntity when !isAnew:
                    (have, isAnew) = (0, true);
                    break;
                case HttpStatusCode.UnprocessableEntity or HttpStatusCode.NotFound or HttpStatusCode.RequestEntityTooLarge:
                    await job.ContentsUnasked([sha256]);
                    Trouble = answer.Said;
                    return true;
                default:
                    Trouble = answer.Said;
                    return false;
            }
        }

        return false;
    }

    /// <summary>Pictures and papers that facts of the shop speak of and it does not have: name, length, and how much of it is there.</summary>
    public async Task<IReadOnlyList<(string Name, int Bytes, int Have)>> Lacking()
    {
        try
        {
            using var answer = await server.Get($"jobs/{job.Id}/attachments/lacking");
            return answer.IsRefused ? [] : [.. answer.Root.GetProperty("lacking").EnumerateArray().Select(l => (l.GetProperty("name").GetString()!, l.GetProperty("bytes").GetInt32(), l.GetProperty("have").GetInt32()))];
        }
        catch (Exception e) when (ShopServer.IsAway(e))
        {
            return [];
        }
    }

    /// <summary>A picture or paper: as this browser has it; else the server is asked, and it is kept here. Null where neither has it.</summary>
    public async Task<byte[]?> Content(Attachment of)
    {
        if (await job.Content(of.Sha256) is { } here)
            return here;
        try
        {
            if (await server.GetBytes($"jobs/{job.Id}/attachments/{of.Sha256}") is not { } content || Attachment.DigestOf(content) != of.Sha256)
                return null;
            await job.TakeContent(of.Sha256, content);
            return content;
        }
        catch (Exception e) when (ShopServer.IsAway(e))
        {
            return null;
        }
    }
}
