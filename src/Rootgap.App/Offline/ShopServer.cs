using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Rootgap.App.Look;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>The server at this address, as this device calls it: with its token.</summary>
public sealed class ShopServer(HttpClient http, PageScript page)
{
    private string token = "";

    public async Task OpenAsync() => token = await page.Setting("token") ?? "";

    /// <summary>Shows another token from now on.</summary>
    public async Task SetToken(string shown)
    {
        token = shown;
        await page.Keep("token", shown);
    }

    /// <summary>Whether a failure means that the server is not there for now, or is none of ours.</summary>
    public static bool IsAway(Exception e) => e is HttpRequestException or TaskCanceledException or JsonException or InvalidOperationException or KeyNotFoundException or FormatException;

    public Task<Answer> Get(string address) => Ask(HttpMethod.Get, address, null);

    public Task<Answer> Post(string address, string json) => Ask(HttpMethod.Post, address, new StringContent(json, Encoding.UTF8, "application/json"));

    public Task<Answer> Put(string address, ReadOnlyMemory<byte> content) => Ask(HttpMethod.Put, address, new ReadOnlyMemoryContent(content));

    /// <summary>What lies at an address, as it is; null where the server has nothing there.</summary>
    public async Task<byte[]?> GetBytes(string address)
    {
        using var request = Request(HttpMethod.Get, address);
        using var answer = await http.SendAsync(request);
        return answer.IsSuccessStatusCode ? await answer.Content.ReadAsByteArrayAsync() : null;
    }

    private HttpRequestMessage Request(HttpMethod method, string address)
    {
        var request = new HttpRequestMessage(method, "api/" + address);
        if (token.Length > 0)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
        return request;
    }

    private async Task<Answer> Ask(HttpMethod method, string address, HttpContent? content)
    {
        using var request = Request(method, address);
        request.Content = content;
        using var answer = await http.SendAsync(request);
        var body = await answer.Content.ReadAsByteArrayAsync();
        JsonDocument? document = null;
        try
        {
            document = JsonDocument.Parse(body, FactJson.Deep);
        }
        catch (JsonException) when (!answer.IsSuccessStatusCode)
        {
            // A refusal of something between here and the server.
        }

        return new Answer(answer.StatusCode, document);
    }

    /// <summary>What the server answered.</summary>
    public sealed class Answer(HttpStatusCode status, JsonDocument? document) : IDisposable
    {
        public HttpStatusCode Status => status;

        public bool IsRefused => (int)status is < 200 or > 299;

        public JsonElement Root => document?.RootElement ?? throw new JsonException("The server's answer is no JSON.");

        /// <summary>What it said when it refused, with what to do; empty where it did not refuse.</summary>
        public string Said
        {
            get
            {
                if (!IsRefused)
                    return "";
                if (document?.RootElement is { ValueKind: JsonValueKind.Object } root && root.TryGetProperty("error", out var error))
                    return error.GetString() + (root.TryGetProperty("remedy", out var remedy) ? " " + remedy.GetString() : "");
                return status == HttpStatusCode.RequestEntityTooLarge
                    ? "The server says that this is too large. It is kept in this browser."
                    : $"The server answered {(int)status}. What you enter is kept in this browser.";
            }
        }

        public void Dispose() => document?.Dispose();
    }
}
