using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Security.Cryptography;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>`rootgap serve`: from its options to a server that runs until Ctrl+C.</summary>
internal static class ServeCommand
{
    public const int Done = 0;
    public const int Unreadable = 3;
    public const int Usage = 64;
    public const int Unavailable = 69;

    public sealed record Request(string? Folder, bool Demo, int Port, bool ShopNetwork, string? Store, string? Job, string? Certificate, string? Key)
    {
        /// <summary>Whether many jobs are served, and below which folder; null where they come from the database alone.</summary>
        public (bool IsMany, string? Below) Jobs { get; init; }

        public bool IsAnew { get; init; }

        public IReadOnlyList<string> Hosts { get; init; } = [];

        public bool IsBehindProxy { get; init; }
    }

    public static async Task<int> RunAsync(Request request)
    {
        if (request is { Demo: true, Folder: not null })
            return Refuse(Usage, "--demo has its own folder, ./demo.", "Leave out the folder, or leave out --demo.");
        if (request.Port is < 0 or > 65535)
            return Refuse(Usage, $"There is no port {request.Port}.", "Take one from 1024 to 65535, such as 5080.");
        if (request.Certificate is null != request.Key is null)
            return Refuse(Usage, "A certificate and its key go together.", "Give both --certificate and --key.");
        if (request.Jobs.IsMany && (request.Folder is not null || request.Demo || request.Job is not null))
            return Refuse(Usage, "--jobs serves many jobs, each by the name of its folder.", "Leave out the folder, --demo and --job, or leave out --jobs.");
        if (request.Jobs is { IsMany: true, Below: null } && request.Store is null)
            return Refuse(Usage, "--jobs without a folder serves the jobs of a database.", "Name the folder in which each folder is a job's, or give the database with --store.");
        if (request.Store is { } store && !store.Contains('=', StringComparison.Ordinal))
            return Refuse(Usage, $"--store \"{store}\" is not a connection string.", "It is written \"Host=server;Database=hatchery;Username=shop\". Without --store the records lie in the job's folder.");
        try
        {
            var folder = request.Jobs.IsMany ? null : Path.TrimEndingDirectorySeparator(Path.GetFullPath(request.Demo ? Demo() : request.Folder ?? "."));
            var below = request.Jobs.Below is { } many ? Path.TrimEndingDirectorySeparator(Path.GetFullPath(many)) : null;
            if ((folder ?? below) is { } served && !Directory.Exists(served))
                return Refuse(Unreadable, $"{request.Folder ?? request.Jobs.Below}: there is no such folder.", "Name the folder that holds the job's drawings, or say --demo to look around.");
            var serving = new Serving
            {
                Folder = folder,
                Jobs = below,
                Name = request.Job ?? (request.Demo ? "hatchery" : folder is not null && Path.GetFileName(folder) is { Length: > 0 } name ? name : "job"),
                Port = request.Port,
                IsForShop = request.ShopNetwork,
                Store = request.Store,
                IsAnew = request.IsAnew,
                Hosts = request.Hosts,
                IsBehindProxy = request.IsBehindProxy,
                Tls = request.Certificate is { } certificate ? (certificate, request.Key!) : null,
            };
            await using var server = await JobServer.MakeAsync(serving);
            try
            {
                await server.StartAsync();
            }
            catch (IOException e) when (e.InnerException is AddressInUseException || e.Message.Contains("address already in use", StringComparison.OrdinalIgnoreCase))
            {
                return Refuse(Unavailable, $"Port {request.Port} is taken: another program listens there, perhaps another `rootgap serve`.", $"Stop that one, or take another port: rootgap serve --port {request.Port % 65535 + 1}");
            }
            catch (Exception e) when (e is SocketException or IOException or UnauthorizedAccessException)
            {
                return Refuse(Unavailable, $"Port {request.Port} cannot be had: {e.Message}", "Take a port from 1024 up, such as --port 5080.");
            }

            await SayAsync(serving, server.Services.GetRequiredService<ServedJobs>(), new Uri(server.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port);
            await server.WaitForShutdownAsync();
            Console.WriteLine("Stopped. All that was entered here is kept.");
            return Done;
        }
        catch (StoreException e)
        {
            return Refuse(Unavailable, e.Message, e.Remedy);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException)
        {
            return Refuse(Unreadable, $"The job cannot be served: {e.Message}", "See whether you may write into the job's folder, whether its disk is full, and whether the certificate's files are right.");
        }
    }

    // A copy of the sample: whoever looks around may change it.
    private static string Demo()
    {
        var demo = Path.GetFullPath("demo");
        if (!Directory.Exists(demo))
        {
            Directory.CreateDirectory(demo);
            foreach (var file in Directory.EnumerateFiles(Path.Combine(AppContext.BaseDirectory, "demo")))
                File.Copy(file, Path.Combine(demo, Path.GetFileName(file)));
        }

        return demo;
    }

    private static async Task SayAsync(Serving serving, ServedJobs jobs, int port)
    {
        var scheme = serving.Tls is null ? "http" : "https";
        var addresses = ShopAddresses().ToList();
        if (!serving.IsForShop)
        {
            Console.WriteLine(jobs.Only is { } one ? $"The job \"{one.Name}\" is served from {serving.Folder}" : $"{jobs.Open.Count()} jobs are served: {string.Join(", ", jobs.Open.Select(j => j.Name))}");
            Console.WriteLine($"  {scheme}://localhost:{port}/\n");
            Console.WriteLine("Only this machine can open it. For tablets in the shop start it with --shop-network: then every device on your network can reach it, and needs the token that is printed (as a QR code to scan).");
        }
        else
        {
            foreach (var job in jobs.Open)
            {
                var token = await job.Token.NowAsync();
                var hash = jobs.Only is null ? $"#job={job.Id}&token={token}" : $"#token={token}";
                Console.WriteLine($"The job \"{job.Name}\" is served" + (jobs.Only is null ? "" : $" from {serving.Folder}"));
                foreach (var host in serving.Hosts.Concat(addresses).Append("localhost"))
                    Console.WriteLine($"  {scheme}://{host}:{port}/{hash}");
                if (jobs.Only is not null && addresses.Count > 0)
                    Console.WriteLine($"\nScan this with the tablet:\n\n{QrText.Of($"{scheme}://{addresses[0]}:{port}/{hash}", !Console.IsOutputRedirected)}");
            }

            Console.WriteLine(
                """
                Every device on this network can reach the program now. Only those that open the address with its token can read the job or write to it: pass it on as you
                would a key. `rootgap job token FOLDER --renew` shuts out all that had it.
                """);
            if (serving.Tls is null)
            {
                Console.WriteLine(
                    """
                    This is plain http: others on the network could listen in, and browsers on other devices keep no app for offline use without https.
                    See --certificate, and "Serving" in docs/app.md.
                    """);
            }
        }
        Console.WriteLine("Ctrl+C stops it.");
        Console.Out.Flush();
    }

    /// <summary>Addresses of this machine that others on its network can use, those with a way to the rest of the network first.</summary>
    private static IEnumerable<string> ShopAddresses() =>
        from network in NetworkInterface.GetAllNetworkInterfaces()
        where network.OperationalStatus == OperationalStatus.Up && network.NetworkInterfaceType != NetworkInterfaceType.Loopback
        let properties = network.GetIPProperties()
        orderby properties.GatewayAddresses.Count == 0
        from address in properties.UnicastAddresses
        where address.Address.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(address.Address)
        select address.Address.ToString();

    public static int Refuse(int code, string message, string remedy)
    {
        Console.Error.WriteLine(message);
        Console.Error.WriteLine("  do: " + remedy);
        return code;
    }
}
