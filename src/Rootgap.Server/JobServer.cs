using System.Net;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.StaticFiles;
using Rootgap.Records;

namespace Rootgap.Server;

/// <summary>The app and the job's facts over HTTP.</summary>
public static class JobServer
{
    /// <summary>Opens the stores, looks through the folders and makes the server, not yet listening. It closes them with itself.</summary>
    public static async Task<WebApplication> MakeAsync(Serving serving)
    {
        // The content root is the program's own folder: settings files of the folder it was started in must not change it.
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(JobServer).Assembly.GetName().Name });
        builder.Logging.ClearProviders().AddSimpleConsole(o => o.SingleLine = true).SetMinimumLevel(LogLevel.Warning)
            // Why it cannot start is said in plain words by whoever starts it.
            .AddFilter("Microsoft.Extensions.Hosting", LogLevel.None);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => Listen(kestrel, serving));
        // Does nothing but where Windows has started it as a service.
        builder.Services.AddWindowsService(o => o.ServiceName = "Rootgap");
        builder.Services.AddSingleton(serving);
        ServedJobs? jobs = null;
        // Made by a factory, so that the container closes them.
        builder.Services.AddSingleton(_ => jobs!);
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton<FailedTries>();
        builder.Services.AddSingleton<Guard>();
        builder.Services.AddHostedService<FolderWatch>();
        var app = builder.Build();
        try
        {
            jobs = await ServedJobs.OpenAsync(serving, app.Services.GetRequiredService<ILoggerFactory>().CreateLogger<JobFolder>());
            app.Services.GetRequiredService<ServedJobs>();
        }
        catch
        {
            await app.DisposeAsync();
            throw;
        }

        if (serving.IsBehindProxy)
        {
            var forwarded = new ForwardedHeadersOptions { ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto };
            // Whoever starts it so says that nothing but the proxy reaches it.
            forwarded.KnownProxies.Clear();
            forwarded.KnownIPNetworks.Clear();
            app.UseForwardedHeaders(forwarded);
        }

        app.UseMiddleware<Guard>();
        app.MapStaticAssets();
        PeopleApi.Map(app);
        AttachmentsApi.Map(app);
        FactsApi.Map(app);
        app.MapGet("/licences.txt", () => Results.File(Path.Combine(AppContext.BaseDirectory, "licences.txt"), "text/plain; charset=utf-8"));
        app.MapFallback("{**path}", Page);
        return app;
    }

    private static void Listen(Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions kestrel, Serving serving)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = Serving.LargestBody;
        kestrel.Limits.MaxConcurrentConnections = ConnectionLimit.All;
        // A connection that says nothing, or says it a letter at a time, is closed; what sends or reads slower than a modem as well.
        kestrel.Limits.KeepAliveTimeout = TimeSpan.FromSeconds(30);
        kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
        kestrel.Limits.MinRequestBodyDataRate = new(bytesPerSecond: 1000, gracePeriod: TimeSpan.FromSeconds(10));
        kestrel.Limits.MinResponseDataRate = new(bytesPerSecond: 1000, gracePeriod: TimeSpan.FromSeconds(10));
        var limit = new ConnectionLimit(serving.IsBehindProxy ? ConnectionLimit.All : ConnectionLimit.OfOne);
        if (serving.IsForShop)
            kestrel.ListenAnyIP(serving.Port, Secure);
        else if (serving.Port == 0)
            kestrel.Listen(IPAddress.Loopback, 0, Secure);
        else
            kestrel.ListenLocalhost(serving.Port, Secure);

        void Secure(Microsoft.AspNetCore.Server.Kestrel.Core.ListenOptions listen)
        {
            listen.Use(next => connection => limit.PassAsync(connection, next));
            if (serving.Tls is var (certificate, key))
                listen.UseHttps(X509Certificate2.CreateFromPemFile(certificate, key));
        }
    }

    // The app's own addresses (/drawing/line-1.yaml) are all one page. What looks like a file of another kind is none.
    private static async Task Page(HttpContext context)
    {
        var path = context.Request.Path.Value ?? "/";
        var ending = Path.GetExtension(path);
        var page = context.RequestServices.GetRequiredService<IWebHostEnvironment>().WebRootFileProvider.GetFileInfo("index.html");
        if ((ending.Length > 0 && !JobPath.Endings.Contains(ending, StringComparer.OrdinalIgnoreCase) && new FileExtensionContentTypeProvider().TryGetContentType(path, out _))
            || !page.Exists || !(HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method)))
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.ContentLength = page.Length;
        context.Response.Headers.CacheControl = "no-cache";
        if (HttpMethods.IsGet(context.Request.Method))
            await context.Response.SendFileAsync(page);
    }
}
