using System.Collections.Concurrent;
using System.Net;
using Microsoft.AspNetCore.Connections;

namespace Rootgap.Server;

/// <summary>One device holds so many connections and no more: what it opens beyond them is closed, and the others are served.</summary>
internal sealed class ConnectionLimit(int most)
{
    /// <summary>All connections that the server holds.</summary>
    public const int All = 1000;

    /// <summary>Connections of one device: browsers open six, and there may be several behind one address.</summary>
    public const int OfOne = 150;

    private readonly ConcurrentDictionary<IPAddress, int> open = new();

    public async Task PassAsync(ConnectionContext connection, ConnectionDelegate next)
    {
        var device = (connection.RemoteEndPoint as IPEndPoint)?.Address ?? IPAddress.None;
        try
        {
            if (open.AddOrUpdate(device, 1, (_, n) => n + 1) > most)
                connection.Abort(new ConnectionAbortedException("This device holds too many connections."));
            else
                await next(connection);
        }
        finally
        {
            if (open.AddOrUpdate(device, 0, (_, n) => n - 1) <= 0)
                open.TryRemove(new(device, 0));
        }
    }
}
