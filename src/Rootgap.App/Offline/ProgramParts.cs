using System.Reflection;
using Microsoft.AspNetCore.Components.WebAssembly.Services;
using Microsoft.JSInterop;

namespace Rootgap.App.Offline;

/// <summary>The parts of the program that the first page does without, so that it stands soon on a thin line. They come right behind it; every other page waits for them.</summary>
public sealed class ProgramParts(LazyAssemblyLoader loader, IJSRuntime js)
{
    /// <summary>The part that writes models in space: fetched with the first of them, or when the page is at rest.</summary>
    public const string OfModels = "SharpGLTF.Core.wasm";

    private Task? coming;

    /// <summary>Names of the parts' files.</summary>
    public static IReadOnlyList<string> Later { get; } =
        typeof(ProgramParts).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().First(a => a.Key == "later parts").Value!.Split(' ');

    /// <summary>Whether the whole program is here.</summary>
    public bool AreHere => coming is { IsCompletedSuccessfully: true };

    /// <summary>Brings the parts, once.</summary>
    /// <returns>False where they cannot be had: the shop is away, and this device has never had them. The page must be loaded anew then: the runtime asks for each only once.</returns>
    public async Task<bool> Bring()
    {
        if (coming is null or { IsFaulted: true })
            coming = loader.LoadAssembliesAsync(Later);
        try
        {
            await coming;
        }
        catch (Exception e) when (e is System.Runtime.InteropServices.JavaScript.JSException or Microsoft.JSInterop.JSException or HttpRequestException)
        {
            return false;
        }

        // The line is free now for what keeps the app on this device.
        await js.InvokeVoidAsync("keepTheApp");
        return true;
    }
}
