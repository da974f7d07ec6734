using System.Text.Encodings.Web;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>What is answered.</summary>
internal static class Answer
{
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static Task Refuse(HttpContext context, int status, string error, string remedy)
    {
        context.Response.StatusCode = status;
        return Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteString("error", error);
            json.WriteString("remedy", remedy);
            json.WriteEndObject();
        });
    }

    public static async Task Json(HttpContext context, Action<Utf8JsonWriter> write)
    {
        context.Response.ContentType = "application/json; charset=utf-8";
        var json = new Utf8JsonWriter(context.Response.BodyWriter, Plain);
        await using (json)
            write(json);
    }

    /// <summary>Does what is asked of a job; what goes wrong is answered with what to do.</summary>
    public static async Task Safely(HttpContext context, Func<HttpContext, ServedJob, Task> work)
    {
        try
        {
            if (Guard.JobOf(context) is { } job)
                await work(context, job);
            else
                await Refuse(context, StatusCodes.Status404NotFound, "This server has no such job.", "GET /api/jobs tells which it has.");
        }
        catch (JsonException e)
        {
            await Refuse(context, StatusCodes.Status400BadRequest, FactJson.NotJson(e), "Send {\"facts\": [...]} as JSON. What stood before this place may be kept; sent again it counts once.");
        }
        catch (FactBody.NoFactsException)
        {
            await Refuse(context, StatusCodes.Status400BadRequest, "line 1, column 1: there is no list of facts.", "Send {\"facts\": [...]}.");
        }
        catch (BadHttpRequestException e) when (e.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            await Refuse(context, e.StatusCode, "This is too large: at most 16 MB of facts are taken at once, a file has at most 4 MB, a picture 2 MB, a list 1 MB.", "Send it in several parts. What was kept of it counts once.");
        }
        catch (BadHttpRequestException e)
        {
            await Refuse(context, e.StatusCode, "The request could not be read: " + e.Message, "Send it again. What was kept of it counts once.");
        }
        // A chunk whose size overflows, or a caller that is gone in the middle.
        catch (IOException e) when (!context.Response.HasStarted)
        {
            await Refuse(context, StatusCodes.Status400BadRequest, "The request could not be read: " + e.Message, "Send it again. What was kept of it counts once.");
        }
        catch (StoreException e)
        {
            await Refuse(context, e.Kind is StoreTrouble.Full or StoreTrouble.ReadOnly ? StatusCodes.Status507InsufficientStorage : StatusCodes.Status503ServiceUnavailable, e.Message, e.Remedy);
        }
    }
}
