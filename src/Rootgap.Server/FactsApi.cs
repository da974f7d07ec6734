using System.Globalization;
using System.Reflection;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>The job and its facts.</summary>
internal static class FactsApi
{
    private const int MostFacts = 5000;

    private static readonly string Version = typeof(FactsApi).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";

    public static void Map(WebApplication app)
    {
        app.MapGet("/api/job", Job);
        app.MapGet("/api/facts", (HttpContext c) => Safely(c, Get));
        app.MapPost("/api/facts", (HttpContext c) => Safely(c, Post));
        app.Map("/api/{**rest}", (HttpContext c) => Answer.Refuse(c, StatusCodes.Status404NotFound, "There is nothing at this address.", "See docs/app.md for the addresses."));
    }

    private static Task Job(HttpContext context, FactStore store, Serving serving) => Answer.Json(context, json =>
    {
        json.WriteStartObject();
        json.WriteString("job", store.Job);
        json.WriteString("name", serving.Name);
        json.WriteString("version", Version);
        json.WriteEndObject();
    });

    private static async Task Get(HttpContext context, FactStore store, JobFolder folder)
    {
        var after = 0L;
        if (context.Request.Query["after"] is { Count: > 0 } text && (!long.TryParse(text.ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out after)))
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, $"after=\"{text}\" is not a number.", "Give the number that stood in next, or 0.");
            return;
        }

        await folder.TrySyncAsync();
        var page = await store.ReadAsync(after, cancel: context.RequestAborted);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteStartArray("facts");
            foreach (var fact in page.Facts)
            {
                json.WriteStartObject();
                json.WriteNumber("seq", fact.Seq);
                json.WritePropertyName("fact");
                json.WriteRawValue(fact.Json, skipInputValidation: true);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("next", page.Next);
            json.WriteBoolean("more", page.More);
            json.WriteEndObject();
        });
    }

    private static async Task Post(HttpContext context, FactStore store, JobFolder folder)
    {
        // A form of another page cannot send this type without asking first.
        if (!context.Request.HasJsonContentType())
        {
            await Answer.Refuse(context, StatusCodes.Status415UnsupportedMediaType, "Facts are sent as JSON.", "Set Content-Type to application/json.");
            return;
        }

        using var document = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        if (document.RootElement.ValueKind != JsonValueKind.Object || !document.RootElement.TryGetProperty("facts", out var list) || list.ValueKind != JsonValueKind.Array)
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, "line 1, column 1: there is no list of facts.", "Send {\"facts\": [...]}.");
            return;
        }

        if (MostFacts < list.GetArrayLength())
        {
            await Answer.Refuse(context, StatusCodes.Status413PayloadTooLarge, $"{list.GetArrayLength()} facts at once are too many: the limit is {MostFacts}.", "Send them in several parts.");
            return;
        }

        List<Fact> facts = [];
        List<(string? Id, string Why)> refused = [];
        var i = 0;
        foreach (var element in list.EnumerateArray())
        {
            var where = string.Create(CultureInfo.InvariantCulture, $"facts[{i++}]: ");
            var (fact, wrong) = FactJson.Read(element);
            if (fact is null)
                refused.Add((IdOf(element), where + wrong));
            else if (fact is FileSaved file && folder.WhyNot(file.Path) is { } why)
                refused.Add((fact.Id, $"{where}path \"{file.Path}\": {why}"));
            else
                facts.Add(fact);
        }

        // Not cut off when the caller goes away: what was begun is either kept or not.
        var keeping = await store.KeepAsync(facts, DateTimeOffset.UtcNow, CancellationToken.None);
        if (keeping.Kept.Count > 0 && facts.Exists(f => f is FileSaved or Withdrawn))
            await folder.TrySyncAsync();
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            Write(json, "kept", keeping.Kept);
            Write(json, "already", keeping.Already);
            json.WriteStartArray("refused");
            foreach (var (id, why) in refused.Concat(keeping.Refused.Select(r => ((string?)r.Id, r.Why))))
            {
                json.WriteStartObject();
                json.WriteString("id", id);
                json.WriteString("why", why);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    private static void Write(Utf8JsonWriter json, string key, IReadOnlyList<string> ids)
    {
        json.WriteStartArray(key);
        foreach (var id in ids)
            json.WriteStringValue(id);
        json.WriteEndArray();
    }

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

    private static async Task Safely(HttpContext context, Func<HttpContext, FactStore, JobFolder, Task> work)
    {
        try
        {
            await work(context, context.RequestServices.GetRequiredService<FactStore>(), context.RequestServices.GetRequiredService<JobFolder>());
        }
        catch (JsonException e)
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, FactJson.NotJson(e), "Send {\"facts\": [...]} as JSON. Nothing of it was kept.");
        }
        catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            await Answer.Refuse(context, e.StatusCode, "This is too large: at most 16 MB are taken at once, and a file has at most 4 MB.", "Send it in several parts. Nothing of it was kept.");
        }
        catch (BadHttpRequestException e)
        {
            await Answer.Refuse(context, e.StatusCode, "The request could not be read: " + e.Message, "Send it again. Nothing of it was kept.");
        }
        catch (StoreException e)
        {
            await Answer.Refuse(context, e.Kind is StoreTrouble.Full or StoreTrouble.ReadOnly ? StatusCodes.Status507InsufficientStorage : StatusCodes.Status503ServiceUnavailable, e.Message, e.Remedy);
        }
    }
}
