using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>Clients that say nothing, say it a letter at a time, or do not listen: each is cut off, and holds up nobody. How long it takes is not asked.</summary>
public class SlowClientsTest
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private static Task<Served> Serve(JobOnDisk job) => Served.Of(new Serving { Folder = job.Path, Name = "job", Port = 0, Patience = TimeSpan.FromSeconds(2) });

    private static async Task<Socket> Connect(Served served)
    {
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { ReceiveBufferSize = 8 << 10 };
        await socket.ConnectAsync(IPAddress.Loopback, served.Address.Port, Cancel);
        return socket;
    }

    // Writes a letter now and then until the other side has had enough.
    private static async Task<string> Trickle(Socket socket, string letters)
    {
        var said = new StringBuilder();
        var reading = Task.Run(
            async () =>
            {
                var buffer = new byte[4096];
                try
                {
                    while (await socket.ReceiveAsync(buffer, Cancel) is > 0 and var read)
                        said.Append(Encoding.UTF8.GetString(buffer, 0, read));
                }
                catch (SocketException)
                {
                    // Cut off.
                }
            },
            Cancel);
        for (var i = 0; !reading.IsCompleted; i++)
        {
            try
            {
                await socket.SendAsync(Encoding.ASCII.GetBytes(letters[i % letters.Length].ToString()), Cancel);
            }
            catch (SocketException)
            {
                break;
            }

            await Task.WhenAny(reading, Task.Delay(200, Cancel));
        }

        await reading;
        return said.ToString();
    }

    [Theory]
    [InlineData("")]
    [InlineData("GET /api/facts HTTP/1.1\r\nHost: localhost\r\nX-Long: ")]
    [InlineData("POST /api/facts HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 100000\r\n\r\n{\"facts\":[")]
    [InlineData("POST /api/facts HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n5\r\n{\"fac")]
    [InlineData("PUT /api/attachments/e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855?at=0&of=90000 HTTP/1.1\r\nHost: localhost\r\nContent-Length: 90000\r\n\r\nx")]
    public async Task One_that_goes_on_a_letter_at_a_time_is_cut_off_while_others_are_served(string begins)
    {
        using var job = new JobOnDisk();
        await using var served = await Serve(job);
        using var socket = await Connect(served);
        await socket.SendAsync(Encoding.ASCII.GetBytes(begins), Cancel);
        var cut = Trickle(socket, " ");
        Assert.Equal(HttpStatusCode.OK, (await served.Post(Facts.Cut())).Status);
        var said = await cut;
        Assert.DoesNotContain("HTTP/1.1 200", said, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await served.Post(Facts.Cut())).Status);
        Assert.Equal(2, (await served.All()).Count);
    }

    [Fact]
    public async Task One_that_asks_for_much_and_does_not_listen_is_cut_off_and_leaves_the_pages_free_for_others()
    {
        using var job = new JobOnDisk();
        await using var served = await Serve(job);
        // Pages of a megabyte, more at a time than are read at once.
        for (var i = 0; i < 4; i++)
            await served.Post(Enumerable.Range(0, 100).Select(n => Facts.Saved(string.Create(CultureInfo.InvariantCulture, $"d{i}-{n}.yaml"), "# " + new string('x', 10_000))));
        var deaf = new List<Socket>();
        for (var i = 0; i < 12; i++)
        {
            deaf.Add(await Connect(served));
            await deaf[i].SendAsync(Encoding.ASCII.GetBytes("GET /api/facts?after=0 HTTP/1.1\r\nHost: localhost\r\n\r\n"), Cancel);
        }

        Assert.Equal(400, (await served.All()).Count);
        foreach (var socket in deaf)
        {
            // It reads again at last: what lay on the way is there, then it is cut off, before all that it asked for.
            await socket.SendAsync(Encoding.ASCII.GetBytes(" "), Cancel).AsTask().ContinueWith(_ => { }, TaskScheduler.Default);
        }

        await Task.WhenAll(deaf.Select(Gone));
        deaf.ForEach(s => s.Dispose());

        // Not one byte is taken until the server has given up: the connection is reset, or ends early.
        static async Task Gone(Socket socket)
        {
            while (!socket.Poll(TimeSpan.FromMilliseconds(1), SelectMode.SelectError) && !IsReset(socket))
                await Task.Delay(100, Cancel);
        }

        static bool IsReset(Socket socket)
        {
            try
            {
                // Writing into a connection that the other side has closed fails, the second time at the latest.
                socket.Send(" "u8);
                return false;
            }
            catch (SocketException)
            {
                return true;
            }
        }
    }
}
