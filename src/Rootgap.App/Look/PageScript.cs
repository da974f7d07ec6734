using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Rootgap.App.Look;

/// <summary>What the app asks of the page around it: files to the person, printing, settings of this browser. One call each, see scripts/page.js.</summary>
public sealed class PageScript(IJSRuntime js)
{
    private Task<IJSObjectReference>? module;

    private Task<IJSObjectReference> Module => module ??= js.InvokeAsync<IJSObjectReference>("import", "./js/page.js").AsTask();

    public async Task<string?> Setting(string name) => await (await Module).InvokeAsync<string?>("setting", name);

    public async Task Keep(string name, string? value) => await (await Module).InvokeVoidAsync("keep", name, value);

    /// <summary>A code to let this device in, which came with the address; empty where none did.</summary>
    public async Task<string> BroughtCode() => await (await Module).InvokeAsync<string>("broughtCode");

    public async Task SetLight(string light) => await (await Module).InvokeVoidAsync("setLight", light);

    /// <summary>For which hand type and targets are sized: "glove", or empty for a bare one.</summary>
    public async Task SetHand(string hand) => await (await Module).InvokeVoidAsync("setHand", hand);

    /// <summary>Hands a file to the person, as the browser saves files.</summary>
    public async Task Save(string name, string type, byte[] content)
    {
        using var stream = new DotNetStreamReference(new MemoryStream(content));
        await (await Module).InvokeVoidAsync("save", name, type, stream);
    }

    /// <summary>Prints drawings (SVG), one a page; done when the browser's dialogue is closed.</summary>
    public async Task Print(IReadOnlyList<string> drawings) => await (await Module).InvokeVoidAsync("printDrawings", drawings);

    /// <summary>Whether this browser reads codes with the camera.</summary>
    public async Task<bool> CanScan() => await (await Module).InvokeAsync<bool>("canScan");

    /// <summary>What the first code says that is held before the camera; null where it was left.</summary>
    /// <param name="isOfPerson">Whether the camera that looks at the person is meant, to whom a badge is shown; else the one on the back.</param>
    /// <exception cref="JSException">The camera cannot be had.</exception>
    public async Task<string?> Scan(ElementReference video, bool isOfPerson) => await (await Module).InvokeAsync<string?>("scan", video, isOfPerson ? "user" : "environment");

    public async Task StopScan() => await (await Module).InvokeVoidAsync("stopScan");

    /// <summary>Opens a dialog above the page, or closes it.</summary>
    public async Task Modal(ElementReference dialog, bool isOpen) => await (await Module).InvokeVoidAsync("modal", dialog, isOpen);

    /// <summary>How far this place's clock is ahead of UTC, minutes.</summary>
    public async Task<int> MinutesFromUtc() => await (await Module).InvokeAsync<int>("minutesFromUtc");

    public async Task<bool> Watch<T>(DotNetObjectReference<T> told)
        where T : class => await (await Module).InvokeAsync<bool>("watch", told);

    /// <summary>Puts the cursor into a field by its id; false where there is none.</summary>
    public async Task<bool> Focus(string id, bool selectAll = true) => await (await Module).InvokeAsync<bool>("focus", id, selectAll);
}
