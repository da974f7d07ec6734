using System.Globalization;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>Pictures and papers that facts speak of, each under the digest of its content.</summary>
internal static class AttachmentsApi
{
    private const int MostAsked = 500;

    // Contents being read or written at a time: each has up to 2 MB in memory, and once more while it is put together.
    private static readonly SemaphoreSlim Contents = new(8);

    public static void Map(WebApplication app)
    {
        foreach (var at in new[] { "/api", "/api/jobs/{job}" })
        {
            app.MapGet(at + "/attachments/lacking", (HttpContext c) => FactsApi.Safely(c, (context, job) => Lacking(context, job, null)));
            app.MapPost(at + "/attachments/lacking", (HttpContext c) => FactsApi.Safely(c, LackingOf));
            app.MapGet(at + "/attachments/{sha256}", (HttpContext c) => FactsApi.Safely(c, Get));
            app.MapPut(at + "/attachments/{sha256}", (HttpContext c) => FactsApi.Safely(c, Put));
        }
    }

    private static async Task LackingOf(HttpContext context, ServedJob job)
    {
        using var document = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        if (document.RootElement.ValueKind != JsonValueKind.Object || !document.RootElement.TryGetProperty("sha256", out var list) || list.ValueKind != JsonValueKind.Array || MostAsked < list.GetArrayLength()
            || list.EnumerateArray().Any(e => e.ValueKind != JsonValueKind.String || !Attachment.IsDigest(e.GetString())))
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, "There is no list of digests.", $"Send {{\"sha256\": [...]}}, at most {MostAsked} at once.");
            return;
        }

        await Lacking(context, job, [.. list.EnumerateArray().Select(e => e.GetString()!)]);
    }

    private static async Task Lacking(HttpContext context, ServedJob job, IReadOnlyList<string>? among)
    {
        var lacking = await job.Store.Attachments.LackingAsync(among, cancel: context.RequestAborted);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteStartArray("lacking");
            foreach (var one in lacking)
            {
                json.WriteStartObject();
                json.WriteString("sha256", one.Sha256);
                json.WriteString("name", one.Name);
                json.WriteNumber("bytes", one.Bytes);
                json.WriteNumber("have", one.Have);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }

    private static async Task Get(HttpContext context, ServedJob job)
    {
        if (await DigestAsync(context) is not { } sha256)
            return;
        await Contents.WaitAsync(context.RequestAborted);
        try
        {
            if (await job.Store.Attachments.ReadAsync(sha256, context.RequestAborted) is not { } content)
            {
                await Answer.Refuse(context, StatusCodes.Status404NotFound, "This picture or paper is not here.", "It comes when the device that has it is in the network.");
                return;
            }

            // Somebody else's paper is never a page of ours.
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; sandbox";
            context.Response.ContentType = Attachment.TypeOf(content) ?? "application/octet-stream";
            context.Response.ContentLength = content.Length;
            await context.Response.Body.WriteAsync(content, context.RequestAborted);
        }
        finally
        {
            Contents.Release();
        }
    }

    // A part of a content, or all of it: ?at=FIRST BYTE&of=LENGTH OF THE WHOLE.
    private static async Task Put(HttpContext context, ServedJob job)
    {
        if (await DigestAsync(context) is not { } sha256)
            return;
        var (at, of) = (Number(context, "at"), Number(context, "of"));
        if (at is null || of is not (> 0 and <= Attachment.Largest) || of <= at)
        {
            await Answer.Refuse(context, of > Attachment.Largest ? StatusCodes.Status413PayloadTooLarge : StatusCodes.Status400BadRequest, "It is not said which part this is, or the whole is larger than 2 MB.", "Send ?at=0&of=LENGTH, with at most 2097152 bytes.");
            return;
        }

        // Weighed before it is read.
        if (of - at < context.Request.ContentLength)
        {
            await Answer.Refuse(context, StatusCodes.Status413PayloadTooLarge, "More is sent than the whole has.", "Say the length of the whole in of=.");
            return;
        }

        if (await job.Store.Attachments.LackingAsync([sha256], cancel: context.RequestAborted) is not [var lacking])
        {
            var isHere = await job.Store.Attachments.ReadAsync(sha256, context.RequestAborted) is not null;
            await Became(context, isHere ? PartTaken.Whole : PartTaken.Unasked, of.Value);
            return;
        }

        if (at != 0 && at != lacking.Have)
        {
            await Became(context, PartTaken.Elsewhere, lacking.Have);
            return;
        }

        await Contents.WaitAsync(context.RequestAborted);
        try
        {
            if (await ReadAsync(context, of.Value - at.Value) is not { } part)
            {
                await Answer.Refuse(context, StatusCodes.Status413PayloadTooLarge, "More is sent than the whole has.", "Say the length of the whole in of=.");
                return;
            }

            if (at == 0 && part.Length == of && Attachment.WhyNot(part) is { } why)
            {
                await Answer.Refuse(context, StatusCodes.Status422UnprocessableEntity, why, "Attach another file.");
                return;
            }

            // Not cut off when the caller goes away: what has come is of use.
            var (became, have) = await job.Store.Attachments.TakeAsync(sha256, at.Value, of.Value, part, CancellationToken.None);
            await Became(context, became, have);
        }
        finally
        {
            Contents.Release();
        }
    }

    // Null where more comes than was said.
    private static async Task<byte[]?> ReadAsync(HttpContext context, int most)
    {
        var buffer = new byte[most + 1];
        var length = 0;
        try
        {
            while (length < buffer.Length && await context.Request.Body.ReadAsync(buffer.AsMemory(length), context.RequestAborted) is > 0 and var read)
                length += read;
        }
        // What came before it broke off is kept, and need not come again.
        catch (Exception e) when (e is IOException or OperationCanceledException && length > 0)
        {
        }

        return length > most ? null : buffer[..length];
    }

    private static Task Became(HttpContext context, PartTaken became, int have)
    {
        switch (became)
        {
            case PartTaken.Unasked:
                return Answer.Refuse(context, StatusCodes.Status404NotFound, "No fact that is kept here speaks of this picture or paper.", "Send the fact first.");
            case PartTaken.Wrong:
                return Answer.Refuse(context, StatusCodes.Status422UnprocessableEntity, "This is not what its digest says, or no picture (JPEG, PNG, WebP) and no PDF.", "Send it anew from its beginning.");
            default:
                if (became == PartTaken.Elsewhere)
                    context.Response.StatusCode = StatusCodes.Status409Conflict;
                return Answer.Json(context, json =>
                {
                    json.WriteStartObject();
                    json.WriteNumber("have", have);
                    json.WriteBoolean("whole", became == PartTaken.Whole);
                    json.WriteEndObject();
                });
        }
    }

    private static async Task<string?> DigestAsync(HttpContext context)
    {
        var shown = context.Request.RouteValues["sha256"] as string;
        if (Attachment.IsDigest(shown))
            return shown;
        await Answer.Refuse(context, StatusCodes.Status404NotFound, "This is no SHA-256 in lower case.", "A fact names it: \"attached\": [{\"sha256\": ...}].");
        return null;
    }

    private static int? Number(HttpContext context, string key) =>
        int.TryParse(context.Request.Query[key].ToString(), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
