using System.Net;
using System.Text;
using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>Facts go out in batches; one that stops its batch is found by sending fewer, and set aside with the server's reason.</summary>
public sealed partial class Sync
{
    private const int Batch = 200;
    private const int BatchCharacters = 4_000_000;

    private async Task<bool> Send(string at)
    {
        var most = Batch;
        while (true)
        {
            var waiting = await job.Unsent(most);
            if (waiting.Length == 0)
                break;
            var body = new StringBuilder("{\"facts\":[");
            var count = 0;
            foreach (var json in waiting)
            {
                if (count > 0 && body.Length + json.Length > BatchCharacters)
                    break;
                body.Append(count++ > 0 ? "," : "").Append(json);
            }

            body.Append("]}");
            using var answer = await server.Post(at + "facts", body.ToString());
            // The body as a whole was not taken: one of its facts is to blame, and is found by sending fewer.
            if (answer.Status is HttpStatusCode.BadRequest or HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.UnprocessableEntity)
            {
                if (count > 1)
                {
                    most = Math.Max(1, count / 2);
                    continue;
                }

                await job.Refuse([new(IdOf(waiting[0]), answer.Said)]);
                most = Batch;
                continue;
            }

            if (answer.IsRefused)
            {
                Trouble = answer.Said;
                return false;
            }

            var root = answer.Root;
            string[] done = [.. Ids(root, "kept"), .. Ids(root, "already")];
            await job.Sent(done);
            List<LocalJob.Refused> refused = [];
            foreach (var not in root.GetProperty("refused").EnumerateArray())
            {
                if (not.GetProperty("id").GetString() is { } id)
                    refused.Add(new(id, Why(not.GetProperty("why").GetString()!)));
            }

            // A fact whose very id cannot be read is none of those that are named: it is what is left when it is sent alone.
            if (done.Length + refused.Count == 0)
            {
                if (count > 1)
                {
                    most = 1;
                    continue;
                }

                refused.Add(new(IdOf(waiting[0]), root.GetProperty("refused") is { ValueKind: JsonValueKind.Array } list && list.GetArrayLength() > 0 ? Why(list[0].GetProperty("why").GetString()!) : "The server did not say why."));
            }

            if (refused.Count > 0)
                await job.Refuse(refused);
            most = Batch;
            await CountAsync();
            Changed?.Invoke();
        }

        Trouble = "";
        return true;
    }

    private async Task CountAsync()
    {
        var (facts, refused, papers) = await job.Count();
        (Waiting, WaitingPapers, NotTaken) = (facts + papers, papers, refused);
    }

    // The place in what was sent is of no use to a reader here.
    private static string Why(string said) => said.StartsWith("facts[", StringComparison.Ordinal) && said.IndexOf("]: ", StringComparison.Ordinal) is > 0 and var end ? char.ToUpperInvariant(said[end + 3]) + said[(end + 4)..] : said;

    private static string IdOf(string json)
    {
        using var document = JsonDocument.Parse(json, FactJson.Deep);
        return document.RootElement.GetProperty("id").GetString()!;
    }

    private static IEnumerable<string> Ids(JsonElement root, string key) =>
        root.TryGetProperty(key, out var list) ? list.EnumerateArray().Select(e => e.GetString()!) : [];
}
