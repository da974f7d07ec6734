using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace Rootgap.Server.Tests;

/// <summary>A PostgreSQL of its own for the tests, on a free port, taken away after them.</summary>
public sealed class Postgres : IAsyncLifetime
{
    private string folder = "";
    private int port;

    public string At(string database) => $"Host=127.0.0.1;Port={port};Username=rootgap;Database={database}";

    public async Task<string> NewDatabase()
    {
        var name = "job" + Guid.NewGuid().ToString("N");
        await using var connection = new NpgsqlConnection(At("postgres"));
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand($"CREATE DATABASE {name}", connection);
        await command.ExecuteNonQueryAsync();
        return At(name);
    }

    public async ValueTask InitializeAsync()
    {
        using (var free = new TcpListener(IPAddress.Loopback, 0))
        {
            free.Start();
            port = ((IPEndPoint)free.LocalEndpoint).Port;
        }

        folder = Directory.CreateTempSubdirectory("rootgap-pg-").FullName;
        // PostgreSQL does not run as root: then its own user has the folder.
        if (Environment.UserName == "root")
            await Run("chown", "postgres", folder);
        var data = Path.Combine(folder, "data");
        await Own(Program("initdb"), "-D", data, "-A", "trust", "-U", "rootgap", "-N");
        await Own(Program("pg_ctl"), "-D", data, "-w", "-l", Path.Combine(folder, "log"), "-o", $"-p {port} -c listen_addresses=127.0.0.1 -c unix_socket_directories={folder}", "start");
    }

    public async ValueTask DisposeAsync()
    {
        NpgsqlConnection.ClearAllPools();
        await Own(Program("pg_ctl"), "-D", Path.Combine(folder, "data"), "-w", "-m", "immediate", "stop");
        Directory.Delete(folder, recursive: true);
    }

    // Debian keeps the server's programs off the PATH, one folder a version.
    private static string Program(string name)
    {
        var paths = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(p => Path.Combine(p, name)).Where(File.Exists);
        var debian = Directory.Exists("/usr/lib/postgresql") ? Directory.GetDirectories("/usr/lib/postgresql").Select(d => Path.Combine(d, "bin", name)).Where(File.Exists) : [];
        return debian.Concat(paths).FirstOrDefault()
            ?? throw new InvalidOperationException($"PostgreSQL's program {name} is not here, and these tests need it. Install it: apt-get install postgresql (or run .ci/run, which does).");
    }

    private static Task Own(string program, params string[] arguments) =>
        Environment.UserName == "root" ? Run("runuser", ["-u", "postgres", "--", program, .. arguments]) : Run(program, arguments);

    private static async Task Run(string program, params string[] arguments)
    {
        // Its output is not taken over: the database would hold the pipe open as long as it runs.
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { WorkingDirectory = "/" })!;
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)} ended with {process.ExitCode}.");
    }
}
