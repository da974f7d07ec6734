using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.StaticFiles;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>The app and the job's facts over HTTP.</summary>
public static class JobServer
{
    /// <summary>Opens the store, looks through the folder and makes the server, not yet listening. It closes the store with itself.</summary>
    public static async Task<WebApplication> MakeAsync(Serving serving)
    {
        Directory.CreateDirectory(serving.Own);
        var store = serving.Store is { } connection
            ? await FactStore.OpenServerAsync(connection, serving.Name)
            : await FactStore.OpenFileAsync(Path.Combine(serving.Own, "records.db"));
        // The content root is the program's own folder: settings files of the folder it was started in must not change it.
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(JobServer).Assembly.GetName().Name });
        builder.Logging.ClearProviders().AddSimpleConsole(o => o.SingleLine = true).SetMinimumLevel(LogLevel.Warning)
            // Why it cannot start is said in plain words by whoever starts it.
            .AddFilter("Microsoft.Extensions.Hosting", LogLevel.None);
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => Listen(kestrel, serving));
        builder.Services.AddSingleton(serving);
        // Made by a factory, so that the container closes it.
        builder.Services.AddSingleton(_ => store);
        builder.Services.AddSingleton<JobFolder>();
        builder.Services.AddSingleton<Guard>();
        builder.Services.AddHostedService<FolderWatch>();
        var app = builder.Build();
        app.UseMiddleware<Guard>();
        app.MapStaticAssets();
        FactsApi.Map(app);
        app.MapGet("/licences.txt", () => Results.File(Path.Combine(AppContext.BaseDirectory, "licences.txt"), "text/plain; charset=utf-8"));
        app.MapFallback("{**path}", Page);
        await app.Services.GetRequiredService<JobFolder>().StartAsync();
        return app;
    }

    /// <summary>The token of a folder: made once, so that tablets that were let in stay in. Take the file away to shut them out.</summary>
    public static string TokenOf(string folder)
    {
        var file = Path.Combine(Directory.CreateDirectory(Path.Combine(folder, ".rootgap")).FullName, "token");
        if (File.Exists(file) && File.ReadAllText(file).Trim() is { Length: >= 32 } known)
            return known;
        var token = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(20));
        var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var writer = new StreamWriter(file, options);
        writer.Write(token);
        return token;
    }

    private static void Listen(Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerOptions kestrel, Serving serving)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = Serving.LargestBody;
        kestrel.Limits.MaxConcurrentConnections = 500;
        if (serving.IsForShop)
            kestrel.ListenAnyIP(serving.Port, Secure);
        else if (serving.Port == 0)
            kestrel.Listen(IPAddress.Loopback, 0, Secure);
        else
            kestrel.ListenLocalhost(serving.Port, Secure);

        void Secure(Microsoft.AspNetCore.Server.Kestrel.Core.ListenOptions listen)
        {
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
