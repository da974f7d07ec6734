using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Rootgap.App.Tests.Harness;

/// <summary>A wire between browser and server that counts all bytes that come down it, whoever in the browser asked for them.</summary>
public sealed class Wire : IAsyncDisposable
{
    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource cut = new();
    private readonly int port;
    private long down;

    public Wire(JobServer server)
    {
        port = server.Port;
        listener.Start();
        Address = new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/"));
        _ = Accept();
    }

    public Uri Address { get; }

    /// <summary>Bytes from the server, with the answers' heads.</summary>
    public long Down => Interlocked.Read(ref down);

    public async ValueTask DisposeAsync()
    {
        await cut.CancelAsync();
        listener.Dispose();
        cut.Dispose();
    }

    private async Task Accept()
    {
        try
        {
            while (true)
                _ = Carry(await listener.AcceptTcpClientAsync(cut.Token));
        }
        catch (Exception e) when (e is OperationCanceledException or ObjectDisposedException or SocketException)
        {
            // The wire is cut.
        }
    }

    private async Task Carry(TcpClient browser)
    {
        using var near = browser;
        using var far = new TcpClient();
        try
        {
            await far.ConnectAsync(IPAddress.Loopback, port, cut.Token);
            await Task.WhenAny(Copy(near.GetStream(), far.GetStream(), counts: false), Copy(far.GetStream(), near.GetStream(), counts: true));
        }
        catch (Exception e) when (e is OperationCanceledException or SocketException or IOException)
        {
            // One of the two hung up.
        }
    }

    private async Task Copy(NetworkStream from, NetworkStream to, bool counts)
    {
        var buffer = new byte[64 * 1024];
        int read;
        while ((read = await from.ReadAsync(buffer, cut.Token)) > 0)
        {
            await to.WriteAsync(buffer.AsMemory(0, read), cut.Token);
            if (counts)
                Interlocked.Add(ref down, read);
        }
    }
}
