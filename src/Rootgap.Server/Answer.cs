using System.Text.Encodings.Web;
using System.Text.Json;

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
}
