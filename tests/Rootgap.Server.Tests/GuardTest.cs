using System.Net;
using System.Net.Sockets;
using System.Text;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

public class GuardTest
{
    private const string Token = "0123456789abcdef0123456789abcdef01234567";

    /// <summary>Sends a request line as it is written, which no client library would do.</summary>
    private static async Task<int> Raw(Uri address, string target, string? host = null)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, address.Port, TestContext.Current.CancellationToken);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.Latin1.GetBytes($"GET {target} HTTP/1.1\r\nHost: {host ?? $"localhost:{address.Port}"}\r\nConnection: close\r\n\r\n"), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream);
        var line = await reader.ReadLineAsync(TestContext.Current.CancellationToken);
        return int.Parse(line!.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);
    }

    // OWASP, "Path Traversal": plain, encoded, encoded twice, the other slash, overlong UTF-8, NUL.
    [Theory]
    [InlineData("/../../../etc/passwd")]
    [InlineData("/..%2f..%2f..%2fetc/passwd")]
    [InlineData("/%2e%2e%2f%2e%2e%2fetc/passwd")]
    [InlineData("/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/..%252f..%252fetc/passwd")]
    [InlineData("/%252e%252e%252fetc/passwd")]
    [InlineData("/..%5c..%5cwindows/win.ini")]
    [InlineData("/..\\..\\windows\\win.ini")]
    [InlineData("/%2e%2e%5cwindows")]
    [InlineData("/..%255cwindows")]
    [InlineData("/..%c0%af..%c0%afetc/passwd")]
    [InlineData("/js/..%00/page.js")]
    [InlineData("/index.html%00.js")]
    [InlineData("/js/../../appsettings.json")]
    public async Task An_address_that_leads_out_is_refused(string target)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        Assert.True(await Raw(server.Address, target) is 400 or 404, target);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("localhost.evil.example")]
    [InlineData("127.0.0.1.evil.example:80")]
    [InlineData("192.168.0.7")]
    public async Task A_name_that_is_not_this_servers_is_refused(string host)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        Assert.Equal(403, await Raw(server.Address, "/api/job", host));
        Assert.Equal(403, await Raw(server.Address, "/", host));
    }

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1:5080")]
    [InlineData("[::1]")]
    public async Task This_machines_own_names_are_let_in(string host)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        Assert.Equal(200, await Raw(server.Address, "/api/job", host));
    }

    [Theory]
    [InlineData("https://evil.example")]
    [InlineData("http://localhost:1")]
    [InlineData("null")]
    public async Task A_page_of_another_address_cannot_write_or_read(string origin)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        foreach (var method in new[] { HttpMethod.Post, HttpMethod.Get })
        {
            var (status, _) = await server.Send(method, "/api/facts", method == HttpMethod.Post ? $"{{\"facts\":[{FactJson.Text(Facts.Cut())}]}}" : null, more: r => r.Headers.Add("Origin", origin));
            Assert.Equal(HttpStatusCode.Forbidden, status);
        }

        Assert.Empty(await server.All());
    }

    [Fact]
    public async Task The_apps_own_page_can_write()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (status, _) = await server.Send(HttpMethod.Post, "/api/facts", $"{{\"facts\":[{FactJson.Text(Facts.Cut())}]}}", more: r => r.Headers.Add("Origin", server.Address.GetLeftPart(UriPartial.Authority)));
        Assert.Equal(HttpStatusCode.OK, status);
    }

    [Fact]
    public async Task A_form_of_another_page_cannot_pass_as_facts()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        using var form = new StringContent("{\"facts\":[]}", Encoding.UTF8, "text/plain");
        using var answer = await server.Http.PostAsync(new Uri("/api/facts", UriKind.Relative), form, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, answer.StatusCode);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("0123456789abcdef0123456789abcdef01234568")]
    [InlineData("0123456789abcdef")]
    [InlineData("0123456789ABCDEF0123456789ABCDEF01234567")]
    public async Task Beyond_this_machine_nothing_is_read_or_written_without_the_token(string? shown)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job, Token);
        foreach (var path in new[] { "/api/job", "/api/facts", "/API/facts" })
            Assert.Equal(HttpStatusCode.Unauthorized, (await server.Send(HttpMethod.Get, path, token: shown)).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.Send(HttpMethod.Post, "/api/facts", $"{{\"facts\":[{FactJson.Text(Facts.Cut())}]}}", shown)).Status);
        Assert.Empty(await server.All(Token));
    }

    [Fact]
    public async Task A_tablet_that_was_let_in_stays_in_over_a_restart_until_the_token_is_taken_away()
    {
        using var job = new JobOnDisk();
        var first = await new JobToken(job.Path).NowAsync();
        Assert.Equal(first, await new JobToken(job.Path).NowAsync());
        if (!OperatingSystem.IsWindows())
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(job.At(".rootgap/token")));
        File.Delete(job.At(".rootgap/token"));
        Assert.NotEqual(first, await new JobToken(job.Path).NowAsync());
    }

    [Fact]
    public async Task Every_answer_carries_the_headers_that_keep_foreign_scripts_out()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        foreach (var path in new[] { "/", "/api/job", "/none.js" })
        {
            using var answer = await server.Http.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
            Assert.Contains("script-src 'self' 'wasm-unsafe-eval';", policy, StringComparison.Ordinal);
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
            Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        }
    }

    [Fact]
    public async Task The_app_is_served_at_each_of_its_addresses()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job, Token);
        var start = await server.Http.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("_framework/blazor.webassembly.js", start, StringComparison.Ordinal);
        Assert.Equal(start, await server.Http.GetStringAsync(new Uri("/drawing/area%202/line-1.yaml", UriKind.Relative), TestContext.Current.CancellationToken));
        Assert.Equal(200, await Raw(server.Address, "/_framework/blazor.webassembly.js"));
        Assert.Equal(404, await Raw(server.Address, "/js/none.js"));
    }

    [Fact]
    public async Task The_licences_of_what_goes_out_are_given_to_everyone()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        using var client = new HttpClient { BaseAddress = server.Address };
        var text = await client.GetStringAsync(new Uri("/licences.txt", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Contains("three 0.", text, StringComparison.Ordinal);
        Assert.Contains("DejaVu Sans", text, StringComparison.Ordinal);
    }
}
