using Microsoft.JSInterop;

namespace Rootgap.App.Offline;

/// <summary>This device's own keys, in the browser: see scripts/device.js.</summary>
public sealed class DeviceKey(IJSRuntime js)
{
    private readonly Dictionary<string, string> devices = new(StringComparer.Ordinal);
    private Task<IJSObjectReference>? module;

    private Task<IJSObjectReference> Module => module ??= js.InvokeAsync<IJSObjectReference>("import", "./js/device.js").AsTask();

    /// <summary>Whether this page may make keys: browsers allow it over https and on the machine itself.</summary>
    public async Task<bool> CanSign() => await (await Module).InvokeAsync<bool>("canSign");

    /// <summary>The id that this device has on a job; null where it was not let in.</summary>
    public async Task<string?> DeviceOf(string job)
    {
        if (devices.TryGetValue(job, out var device))
            return device;
        // That it is not let in may change in another tab.
        device = await (await Module).InvokeAsync<string?>("deviceOf", job);
        if (device is not null)
            devices[job] = device;
        return device;
    }

    /// <summary>Makes a key; its public half. In use from <see cref="Keep"/> on.</summary>
    public async Task<string> Make() => await (await Module).InvokeAsync<string>("make");

    public async Task Keep(string job, string device)
    {
        await (await Module).InvokeVoidAsync("keep", job, device);
        devices[job] = device;
    }

    public async Task<string> Sign(string job, byte[] data) => await (await Module).InvokeAsync<string>("sign", job, data);

    /// <summary>Whether a signature was made with the key of this public half.</summary>
    public async Task<bool> Verify(string key, string signature, byte[] data) => await (await Module).InvokeAsync<bool>("verify", key, signature, data);

    /// <summary>The figures by which people tell keys apart.</summary>
    public async Task<string> Fingerprint(string key) => await (await Module).InvokeAsync<string>("fingerprint", key);

    /// <summary>Notes that the server said that this is the person's code.</summary>
    public async Task LearnCode(string job, string person, string code) => await (await Module).InvokeVoidAsync("learnCode", job, person, code);

    /// <summary>Whether it is the person's code; null where only the server can say.</summary>
    public async Task<bool?> IsCode(string job, string person, string code) => await (await Module).InvokeAsync<string>("checkCode", job, person, code) switch
    {
        "right" => true,
        "wrong" => false,
        _ => null,
    };
}
