using System.Net;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>Letting in devices and people. What is asked of somebody's right is asked as a fact would be, signed by a device, and is not kept.</summary>
internal static class PeopleApi
{
    public static void Map(WebApplication app)
    {
        foreach (var at in new[] { "/api", "/api/jobs/{job}" })
        {
            app.MapPost(at + "/people/device-code", (HttpContext c) => Answer.Safely(c, DeviceCode));
            app.MapPost(at + "/people/code", (HttpContext c) => Answer.Safely(c, SetCode));
            app.MapPost(at + "/people/badge", (HttpContext c) => Answer.Safely(c, Badge));
            app.MapPost(at + "/people/proof", (HttpContext c) => Answer.Safely(c, Prove));
            app.MapPost(at + "/enrol", (HttpContext c) => Answer.Safely(c, Enrol));
        }
    }

    /// <summary>Whether a call comes from the server's own machine.</summary>
    public static bool IsHere(HttpContext context) =>
        context.Connection.RemoteIpAddress is { } address && IPAddress.IsLoopback(address) && !context.RequestServices.GetRequiredService<Serving>().IsBehindProxy;

    private static async Task DeviceCode(HttpContext context, ServedJob job)
    {
        if (await AskedAsync(context, job) is not { } ask)
            return;
        var code = await job.People.NewDeviceCodeAsync(ask.Who);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteString("code", code);
            json.WriteNumber("minutes", (int)JobPeople.CodeLasts.TotalMinutes);
            json.WriteString("qr", QrText.Svg($"{context.Request.Scheme}://{context.Request.Host}/#job={job.Id}&enrol={code}"));
            json.WriteEndObject();
        });
    }

    private static async Task SetCode(HttpContext context, ServedJob job)
    {
        if (await AskedAsync(context, job) is not { } ask)
            return;
        var (person, code) = (More(ask, "person"), More(ask, "code"));
        if (!job.People.Roster.People.ContainsKey(person))
            await Answer.Refuse(context, StatusCodes.Status404NotFound, "There is no such person on this job.", "Name the person first.");
        else if (PersonCodes.WhyNotCode(code) is { } why)
            await Answer.Refuse(context, StatusCodes.Status422UnprocessableEntity, why, "Take another one.");
        else
            await Done(context, job.People.Codes.SetAsync(person, code));
    }

    private static async Task Badge(HttpContext context, ServedJob job)
    {
        if (await AskedAsync(context, job) is not { } ask)
            return;
        var person = More(ask, "person");
        if (!job.People.Roster.People.ContainsKey(person))
        {
            await Answer.Refuse(context, StatusCodes.Status404NotFound, "There is no such person on this job.", "Name the person first.");
            return;
        }

        var (badge, of) = (await job.People.Codes.NewBadgeAsync(person), job.People.Roster.People[person]);
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteString("badge", QrText.Badge(badge, of.Name, of.Entry.Role));
            json.WriteEndObject();
        });
    }

    private static async Task Prove(HttpContext context, ServedJob job)
    {
        using var body = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        await job.People.LearnAsync();
        if (await job.People.Codes.WhyNotProvenAsync(Text(body, "person"), Text(body, "code")) is { } why)
            await Answer.Refuse(context, StatusCodes.Status403Forbidden, why, "Try again, or have a new code set on the page People.");
        else
            await Done(context, Task.CompletedTask);
    }

    private static async Task Enrol(HttpContext context, ServedJob job)
    {
        using var body = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        var tries = context.RequestServices.GetRequiredService<FailedTries>();
        await job.People.LearnAsync();
        var (device, why) = await job.People.EnrolAsync(Text(body, "code"), Text(body, "name"), Text(body, "key"));
        tries.Note(context.Connection.RemoteIpAddress, device is not null);
        if (device is null)
        {
            await Answer.Refuse(context, StatusCodes.Status403Forbidden, why!, "The page People of a device that is in makes a code; so does `rootgap job enrol FOLDER` at the server.");
            return;
        }

        var token = await job.Token.NowAsync();
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteString("job", job.Id);
            json.WriteString("device", device.Device);
            json.WriteString("token", token);
            json.WriteEndObject();
        });
    }

    // The asking, where it may be granted; else it is answered why not.
    private static async Task<Fact?> AskedAsync(HttpContext context, ServedJob job)
    {
        using var body = await JsonDocument.ParseAsync(context.Request.Body, cancellationToken: context.RequestAborted);
        var (ask, wrong) = FactJson.Read(body.RootElement);
        if (ask is null)
        {
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, wrong!, "Ask as for a fact, with the kind \"ask\".");
            return null;
        }

        if (await job.People.WhyNotAskedAsync(ask, IsHere(context)) is not { } why)
            return ask;
        await Answer.Refuse(context, StatusCodes.Status403Forbidden, why, "Have somebody do it who may.");
        return null;
    }

    private static string More(Fact ask, string key)
    {
        using var document = JsonDocument.Parse(FactJson.Text(ask), FactJson.Deep);
        return Text(document, key);
    }

    private static string Text(JsonDocument document, string key) =>
        document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty(key, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    private static async Task Done(HttpContext context, Task work)
    {
        await work;
        await Answer.Json(context, json =>
        {
            json.WriteStartObject();
            json.WriteBoolean("done", true);
            json.WriteEndObject();
        });
    }
}
