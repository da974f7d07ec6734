using System.Net;
using System.Net.NetworkInformation;
using Microsoft.AspNetCore.Http.Features;

namespace Rootgap.Server;

/// <summary>
/// Lets in who may come in. A page of the internet that is open in the same browser must not reach the job: so the name by which the server was
/// called must be its own, and a page that writes must be its own. Beyond this machine every call shows the token.
/// </summary>
internal sealed class Guard(Serving serving, ServedJobs jobs, FailedTries tries) : IMiddleware
{
    // Scripts of our own only; WebAssembly may be compiled. Drawings carry style attributes. PDF pages are shown from memory.
    private const string Policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
        + "connect-src 'self'; worker-src 'self'; frame-src 'self' blob:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    public async Task InvokeAsync(HttpContext context, RequestDelegate next)
    {
        var headers = context.Response.Headers;
        // It binds pages and workers (W3C Content Security Policy, 4.2): the half a hundred parts of the program are neither, and a tablet on a thin line is spared the 300 bytes with each.
        if (context.Request.Path.Value?.EndsWith(".wasm", StringComparison.OrdinalIgnoreCase) != true)
            headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        var isApi = context.Request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);
        if (isApi)
            headers.CacheControl = "no-store";
        Weigh(context);
        context.Items[typeof(ServedJob)] = isApi ? await AskedAsync(context) : null;
        if (LeadsOut(context))
            await Answer.Refuse(context, StatusCodes.Status400BadRequest, "This address leads out of what is served.", "Open the address that the server printed.");
        else if (!await IsOwnNameAsync(context))
            await Answer.Refuse(context, StatusCodes.Status403Forbidden, $"This server is not called \"{context.Request.Host.Host}\".", "Open the address that the server printed when it started.");
        else if (IsForeignPage(context, isApi))
            await Answer.Refuse(context, StatusCodes.Status403Forbidden, "A page of another address asked for this.", "Use the app at the address that the server printed when it started.");
        else if (isApi && (IsOpen(context) ? IsGuessing(context) : !await LetsInAsync(context, JobOf(context))))
            await (tries.PauseOf(context.Connection.RemoteIpAddress) is { } pause ? TooOften(context, pause) : Unknown(context));
        else
            await next(context);
    }

    // Before anything of it is read, and of whoever sends it: facts come in many at a time, a picture has its size, what is asked is small.
    private static void Weigh(HttpContext context)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is not { IsReadOnly: false } body)
            return;
        var path = context.Request.Path.Value ?? "";
        body.MaxRequestBodySize = HttpMethods.IsPut(context.Request.Method) ? Rootgap.Records.Attachment.Largest
            : path.EndsWith("/facts", StringComparison.OrdinalIgnoreCase) ? Serving.LargestBody
            : path.Contains("/people/", StringComparison.OrdinalIgnoreCase) || path.EndsWith("/enrol", StringComparison.OrdinalIgnoreCase) ? Serving.LargestAsking
            : Serving.LargestList;
    }

    /// <summary>The job that a call is about; null where this server has none such.</summary>
    public static ServedJob? JobOf(HttpContext context) => context.Items[typeof(ServedJob)] as ServedJob;

    private async Task<ServedJob?> AskedAsync(HttpContext context)
    {
        var parts = context.Request.Path.Value!.Split('/', StringSplitOptions.RemoveEmptyEntries);
        return parts.Length > 3 && parts[1].Equals("jobs", StringComparison.OrdinalIgnoreCase) ? await jobs.FindAsync(parts[2]) : jobs.Only;
    }

    /// <summary>Whether a call shows that it may read and write a job.</summary>
    public async Task<bool> LetsInAsync(HttpContext context, ServedJob? job)
    {
        if (!serving.IsForShop)
            return true;
        if (Shown(context) is not { } shown)
            return false;
        var isIn = job is not null && await job.Token.IsAsync(shown);
        if (job is not null)
            tries.Note(context.Connection.RemoteIpAddress, isIn);
        return isIn;
    }

    // Whoever shows the right token comes in, whoever else sits behind the same address; who shows a code must wait with the others.
    private bool IsGuessing(HttpContext context) => context.Request.Path.Value!.EndsWith("/enrol", StringComparison.OrdinalIgnoreCase) && tries.PauseOf(context.Connection.RemoteIpAddress) is not null;

    // The list of jobs says no more than what the shown token opens.
    // A device that is to be let in has no token yet: it shows a code.
    private static bool IsOpen(HttpContext context) =>
        context.Request.Path.Equals("/api/jobs", StringComparison.OrdinalIgnoreCase) || context.Request.Path.Value!.EndsWith("/enrol", StringComparison.OrdinalIgnoreCase);

    private static Task TooOften(HttpContext context, TimeSpan pause)
    {
        context.Response.Headers.RetryAfter = ((int)Math.Ceiling(pause.TotalSeconds)).ToString(System.Globalization.CultureInfo.InvariantCulture);
        return Answer.Refuse(context, StatusCodes.Status429TooManyRequests, "Too many wrong tokens came from this device.", $"Wait {Math.Ceiling(pause.TotalSeconds)} seconds, then open the address that the server printed.");
    }

    private static Task Unknown(HttpContext context)
    {
        context.Response.Headers.WWWAuthenticate = "Bearer";
        return Answer.Refuse(context, StatusCodes.Status401Unauthorized, "This device has not shown the job's token.", "Scan the code that the server printed, or open the address with #token=... from there. What you enter meanwhile stays in this browser.");
    }

    // OWASP, "Path Traversal": ../ and ..\ plain, encoded and encoded twice, and NUL. Names of files of a job hold none of it, so nothing good is refused.
    private static bool LeadsOut(HttpContext context)
    {
        var target = context.Features.Get<IHttpRequestFeature>()?.RawTarget ?? "";
        var query = target.IndexOf('?', StringComparison.Ordinal);
        var path = query < 0 ? target : target[..query];
        for (var i = 0; i < 3; i++)
        {
            if (path.Contains('\\') || path.Contains('\0') || path.Contains("%2f", StringComparison.OrdinalIgnoreCase) || path.Contains("%5c", StringComparison.OrdinalIgnoreCase)
                || path.Contains("%00", StringComparison.Ordinal) || path.Contains("%c0", StringComparison.OrdinalIgnoreCase) || path.Split('/').Contains("..", StringComparer.Ordinal))
                return true;
            path = Uri.UnescapeDataString(path);
        }

        return false;
    }

    private async Task<bool> IsOwnNameAsync(HttpContext context)
    {
        var name = context.Request.Host.Host.Trim('[', ']');
        if (name.Equals("localhost", StringComparison.OrdinalIgnoreCase) || serving.Hosts.Contains(name, StringComparer.OrdinalIgnoreCase))
            return true;
        // A name can be made to point here by whoever owns it; a bare address cannot.
        if (IPAddress.TryParse(name, out var address) && IPAddress.IsLoopback(address))
            return true;
        return serving.IsForShop
            && ((address is not null && IsOfThisMachine(address)) || name.Equals(Environment.MachineName, StringComparison.OrdinalIgnoreCase) || name.Equals(Environment.MachineName + ".local", StringComparison.OrdinalIgnoreCase)
                || await LetsInAsync(context, JobOf(context)));
    }

    private static bool IsOfThisMachine(IPAddress address) =>
        NetworkInterface.GetAllNetworkInterfaces().Any(n => n.GetIPProperties().UnicastAddresses.Any(a => a.Address.Equals(address)));

    private static bool IsForeignPage(HttpContext context, bool isApi)
    {
        var request = context.Request;
        var isReading = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
        if (isReading && !isApi)
            return false;
        if (request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site")
            return true;
        return request.Headers.Origin is { Count: > 0 } origin && !string.Equals(origin.ToString(), $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
    }

    private static string? Shown(HttpContext context)
    {
        const string Scheme = "Bearer ";
        var shown = context.Request.Headers.Authorization.ToString();
        return shown.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) ? shown[Scheme.Length..].Trim() : null;
    }
}
