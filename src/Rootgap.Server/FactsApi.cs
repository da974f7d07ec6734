using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>The jobs and their facts. A server for one job answers at <c>/api/...</c> as well as at <c>/api/jobs/ID/...</c>.</summary>
internal static class FactsApi
{
    private const int MostFacts = 5000;
    private const int MostIds = 500;
    private const int MostAbout = 2000;

    /// <summary>Facts that are kept in one go, and their characters: so much of a body is held at a time.</summary>
    private const int Batch = 200;
    private const int BatchBytes = 1 << 20;

    private static readonly string Version = typeof(FactsApi).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";

    // Pages being read and written at a time: each may hold some MB.
    private static readonly SemaphoreSlim Pages = new(8);

    public static void Map(WebApplication app)
    {
        app.MapGet("/api/jobs", Jobs);
        foreach (var at in new[] { "/api", "/api/jobs/{job}" })
        {
            app.MapGet(at + "/job", (HttpContext c) => Answer.Safely(c, Job));
            app.MapGet(at + "/facts", (HttpContext c) => Answer.Safely(c, Get));
            app.MapGet(at + "/facts/ids", (HttpContext c) => Answer.Safely(c, Ids));
            app.MapGet(at + "/files", (HttpContext c) => Answer.Safely(c, Files));
            app.MapPost(at + "/facts/about", (HttpContext c) => Answer.Safely(c, About));
            app.MapPost(at + "/facts/some", (HttpContext c) => Answer.Safely(c, Some));
            app.MapPost(at + "/facts", (HttpContext c) => Answer.Safely(c, Post));
        }

        app.Map("/api/{**rest}", (HttpContext c) => Answer.Refuse(c, StatusCodes.Status404NotFound, "There is nothing at this address.", "See docs/app.md for the addresses."));
    }

    // Those that the caller may see.
    private static async Task Jobs(HttpContext context, ServedJobs jobs, Guard guard)
    {
        await jobs.LookAsync();
        List<ServedJob> open = [];
        foreach (var job in jobs.Open)
        {
            if (await guard.LetsInAsync(context, job))
                open.Add(job);
        }

        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteStartArray("jobs");
            foreach (var job in open)
            {
                json.WriteStartObject();
                json.WriteString("job", job.Id);
                json.WriteString("name", job.Name);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    private static async Task Job(HttpContext context, ServedJob job)
    {
        var head = await job.Store.HeadAsync(context.RequestAborted);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteString("job", job.Id);
            json.WriteString("name", job.Name);
            json.WriteString("store", job.Store.Job.Store);
            json.WriteString("version", Version);
            json.WriteString("now", Written(DateTimeOffset.UtcNow));
            json.WriteNumber("head", head.Seq);
            json.WriteString("digest", head.Digest);
            json.WriteStartArray("troubles");
            foreach (var (path, why) in job.Folder?.Troubles ?? [])
            {
                json.WriteStartObject();
                json.WriteString("path", path);
                json.WriteString("why", why);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    private static async Task<(long After, bool IsRight)> AfterAsync(HttpContext context)
    {
        var after = 0L;
        if (context.Request.Query["after"] is not { Count: > 0 } text || long.TryParse(text.ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out after))
            return (after, true);
        await Answer.Refuse(context, StatusCodes.Status400BadRequest, $"after=\"{text}\" is not a number.", "Give the number that stood in next, or 0.");
        return (0, false);
    }

    private static async Task Get(HttpContext context, ServedJob job)
    {
        var (after, isRight) = await AfterAsync(context);
        if (!isRight)
            return;
        var about = context.Request.Query["about"];
        await GiveAsync(context, job, after, context.Request.Query["digest"] is { Count: > 0 } digest ? digest.ToString() : null, about.Count > 0 ? [.. about.Select(a => a ?? "")] : null);
    }

    // What a device wants that has some of a job's drawings: more names than an address holds.
    private static async Task About(HttpContext context, ServedJob job)
    {
        using var document = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        var root = document.RootElement;
        if (root.ValueKind != JsonValueKind.Object || !root.TryGetProperty("about", out var about) || about.ValueKind != JsonValueKind.Array || about.GetArrayLength() is 0 or > MostAbout || about.EnumerateArray().Any(e => e.ValueKind != JsonValueKind.String)
            || !root.TryGetProperty("after", out var after) || after.ValueKind != JsonValueKind.Number || !after.TryGetInt64(out var number))
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, "It is not said what is wanted.", $"Send {{\"after\": 0, \"about\": [...]}}, at most {MostAbout} names.");
            return;
        }

        await GiveAsync(context, job, number, root.TryGetProperty("digest", out var digest) ? digest.GetString() : null, [.. about.EnumerateArray().Select(e => e.GetString()!)]);
    }

    private static async Task GiveAsync(HttpContext context, ServedJob job, long after, string? digest, IReadOnlyList<string>? about)
    {
        if (digest is not null && !await job.Store.AgreesAsync(after, digest, context.RequestAborted))
        {
            await Answer.Refuse(context, StatusCodes.Status409Conflict, "These records are not those that were read up to here: they were put back from a backup, or begun anew.", "Compare with facts/ids, send what is missing here, and go on from its end.");
            return;
        }

        await Pages.WaitAsync(context.RequestAborted);
        try
        {
            var page = await job.Store.ReadAsync(after, about is not null ? new(About: about) : null, cancel: context.RequestAborted);
            await Answer.Json(context, json =>
            {
                json.WriteStartObject();
                Write(json, page.Facts);
                json.WriteNumber("next", page.Next);
                json.WriteString("digest", page.Digest);
                json.WriteBoolean("more", page.More);
                json.WriteEndObject();
            });
        }
        finally
        {
            Pages.Release();
        }
    }

    // All files that are there; with beside=1 those that are no drawings, with find=TEXT the drawings whose number or path holds it: a job may have more than a tablet should read.
    private static async Task Files(HttpContext context, ServedJob job)
    {
        await job.Files.LearnAsync();
        var query = context.Request.Query;
        var (isBeside, find) = (query.ContainsKey("beside"), query.TryGetValue("find", out var text) ? text.ToString().Trim() : null);
        var most = int.TryParse(query["most"].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out var m) ? m : int.MaxValue;
        var drawings = 0;
        List<(string Path, string? Number, IReadOnlyList<string> Heads)> files = [];
        foreach (var file in job.Files.Newest())
        {
            drawings += file.Number is null ? 0 : 1;
            var isWanted = find is not null ? file.Number is not null && (file.Number.Contains(find, StringComparison.OrdinalIgnoreCase) || file.Path.Contains(find, StringComparison.OrdinalIgnoreCase)) : !isBeside || file.Number is null;
            if (isWanted && files.Count < most)
                files.Add(file);
        }

        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteNumber("drawings", drawings);
            json.WriteStartArray("files");
            foreach (var (path, number, heads) in files)
            {
                json.WriteStartObject();
                json.WriteString("path", path);
                if (number is not null)
                    json.WriteString("number", number);
                Write(json, "ids", heads);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    private static async Task Ids(HttpContext context, ServedJob job)
    {
        var (after, isRight) = await AfterAsync(context);
        if (!isRight)
            return;
        var page = await job.Store.IdsAsync(after, cancel: context.RequestAborted);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteStartArray("ids");
            foreach (var (seq, received, id) in page.Ids)
            {
                json.WriteStartArray();
                json.WriteNumberValue(seq);
                json.WriteStringValue(Written(received));
                json.WriteStringValue(id);
                json.WriteEndArray();
            }

            json.WriteEndArray();
            json.WriteNumber("next", page.Next);
            json.WriteString("digest", page.Digest);
            json.WriteBoolean("more", page.More);
            json.WriteEndObject();
        });
    }

    private static async Task Some(HttpContext context, ServedJob job)
    {
        using var document = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        if (document.RootElement.ValueKind != JsonValueKind.Object || !document.RootElement.TryGetProperty("ids", out var list) || list.ValueKind != JsonValueKind.Array || MostIds < list.GetArrayLength()
            || list.EnumerateArray().Any(e => e.ValueKind != JsonValueKind.String))
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, "There is no list of ids.", $"Send {{\"ids\": [...]}}, at most {MostIds} at once.");
            return;
        }

        var facts = await job.Store.SomeAsync([.. list.EnumerateArray().Select(e => e.GetString()!)], context.RequestAborted);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            Write(json, facts);
            json.WriteEndObject();
        });
    }

    private static async Task Post(HttpContext context, ServedJob job)
    {
        // A form of another page cannot send this type without asking first.
        if (!context.Request.HasJsonContentType())
        {
            await Answer.Refuse(context, StatusCodes.Status415UnsupportedMediaType, "Facts are sent as JSON.", "Set Content-Type to application/json.");
            return;
        }

        await job.Files.LearnAsync();
        await job.People.LearnAsync();
        List<string> kept = [];
        List<string> already = [];
        List<(string? Id, string Why)> refused = [];
        List<Fact> batch = [];
        var changed = new HashSet<string>(StringComparer.Ordinal);
        var isWithdrawn = false;
        var (count, bytes) = (0, 0L);
        try
        {
            await foreach (var document in FactBody.ReadAsync(context.Request.BodyReader, context.RequestAborted))
            {
                using (document)
                {
                    if (count == MostFacts)
                    {
                        await KeepAsync();
                        await Answer.Refuse(context, StatusCodes.Status413PayloadTooLarge, $"More than {MostFacts} facts at once are too many. The first {MostFacts} were looked at.", "Send them in several parts; what was kept counts once.");
                        return;
                    }

                    var where = string.Create(CultureInfo.InvariantCulture, $"facts[{count++}]: ");
                    var (fact, wrong) = FactJson.Take(document.RootElement, DateTimeOffset.UtcNow);
                    if (fact is null)
                        refused.Add((IdOf(document.RootElement), where + wrong));
                    else if (fact is FileSaved file && (job.Folder?.WhyNot(file.Path) ?? job.Files.WhyNot(file.Path)) is { } why)
                        refused.Add((fact.Id, $"{where}path \"{file.Path}\": {why}"));
                    else if (await job.People.WhyNotAsync(fact) is { } unsigned)
                        refused.Add((fact.Id, where + unsigned));
                    else if (fact is PersonNamed && !job.People.Roster.IsOn && !PeopleApi.IsHere(context))
                        refused.Add((fact.Id, where + "The first person of a job is named at the server: rootgap job person FOLDER --name NAME --may fit,people"));
                    else
                        batch.Add(fact);
                    // What follows is looked at by what this one says.
                    if (fact is PersonNamed or Revoked && batch.Contains(fact))
                    {
                        await KeepAsync();
                        await job.People.LearnAsync();
                    }

                    if (fact is FileSaved saved && batch.Contains(fact))
                        job.Files.Expect(saved.Path);
                    bytes += fact is FileSaved { Content: { } content } ? content.Length : 500;
                }

                if (batch.Count == Batch || BatchBytes < bytes)
                    await KeepAsync();
            }
        }
        finally
        {
            await KeepAsync();
            if (job.Folder is { } folder && (changed.Count > 0 || isWithdrawn))
                await folder.TrySyncAsync(isWithdrawn ? null : changed);
        }

        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            Write(json, "kept", kept);
            Write(json, "already", already);
            json.WriteStartArray("refused");
            foreach (var (id, why) in refused)
            {
                json.WriteStartObject();
                json.WriteString("id", id);
                json.WriteString("why", why);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });

        async Task KeepAsync()
        {
            if (batch.Count == 0)
                return;
            // Not cut off when the caller goes away: what was begun is either kept or not.
            var keeping = await job.Store.KeepAsync(batch, DateTimeOffset.UtcNow, CancellationToken.None);
            kept.AddRange(keeping.Kept);
            already.AddRange(keeping.Already);
            refused.AddRange(keeping.Refused.Select(r => ((string?)r.Id, r.Why)));
            if (keeping.Kept.Count > 0)
            {
                changed.UnionWith(batch.OfType<FileSaved>().Select(f => f.Path));
                isWithdrawn |= batch.Exists(f => f is Withdrawn);
            }

            batch.Clear();
            bytes = 0;
        }
    }

    private static void Write(Utf8JsonWriter json, IReadOnlyList<KeptFact> facts)
    {
        json.WriteStartArray("facts");
        foreach (var fact in facts)
        {
            json.WriteStartObject();
            json.WriteNumber("seq", fact.Seq);
            json.WriteString("kept", Written(fact.Received));
            json.WritePropertyName("fact");
            json.WriteRawValue(fact.Json, skipInputValidation: true);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, string key, IReadOnlyList<string> ids)
    {
        json.WriteStartArray(key);
        foreach (var id in ids)
            json.WriteStringValue(id);
        json.WriteEndArray();
    }

    private static string Written(DateTimeOffset time) => time.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static string? IdOf(JsonElement element)
    {
        try
        {
            return element.ValueKind == JsonValueKind.Object && element.TryGetProperty("id", out var id) && id.ValueKind == JsonValueKind.String ? id.GetString() : null;
        }
        catch (InvalidOperationException)
        {
            return null;
        }
    }
}
