using Microsoft.JSInterop;

namespace Rootgap.App.Packets;

/// <summary>A file that was made here.</summary>
public sealed record MadeFile(string Name, long Size);

/// <summary>
/// Long work beside the page: it runs in a worker of its own (<see cref="LongWork"/>), tells how far it is, and can be stopped at any time.
/// What it made stays in the browser, to be saved, opened or printed. One bench for each kind of work: it goes on while other pages are looked at.
/// </summary>
public sealed class Workbench(IJSRuntime js)
{
    private Task<IJSObjectReference>? bench;
    private DotNetObjectReference<Workbench>? self;
    private TaskCompletionSource<string>? running;

    /// <summary>Begun, ended, or further.</summary>
    public event Action? Changed;

    public bool IsBusy => running is not null;

    /// <summary>What is being done.</summary>
    public string Says { get; private set; } = "";

    /// <summary>How much is done, 0 to 1.</summary>
    public double Share { get; private set; }

    /// <summary>What went wrong; empty where nothing did.</summary>
    public string Trouble { get; private set; } = "";

    public bool WasStopped { get; private set; }

    /// <summary>What was made, in order.</summary>
    public IReadOnlyList<MadeFile> Files { get; private set; } = [];

    private Task<IJSObjectReference> Bench => bench ??= OpenAsync();

    private async Task<IJSObjectReference> OpenAsync()
    {
        self = DotNetObjectReference.Create(this);
        var module = await js.InvokeAsync<IJSObjectReference>("import", "./js/workbench.js");
        return await module.InvokeAsync<IJSObjectReference>("bench", self);
    }

    /// <summary>Does a piece of work; comes back when it is done, stopped or failed. What was made before is gone.</summary>
    /// <param name="work">A method of <see cref="LongWork"/>.</param>
    /// <param name="files">The files it may read, by their path in the job.</param>
    /// <param name="parts">Parts of the program that it needs beyond those that every page has.</param>
    /// <param name="request">The method's arguments.</param>
    /// <returns>Whether it was done to the end.</returns>
    public async Task<bool> Run(string work, IEnumerable<(string Path, byte[] Content)> files, IReadOnlyList<string> parts, params object[] request)
    {
        if (running is not null)
            return false;
        var task = running = new TaskCompletionSource<string>();
        (Says, Share, Trouble, WasStopped, Files) = ("Getting ready", 0, "", false, []);
        Changed?.Invoke();
        try
        {
            var page = await Bench;
            await page.InvokeVoidAsync("start", work, files.Select(f => new { path = f.Path, content = f.Content }).ToArray(), (IReadOnlyList<string>)[.. Offline.ProgramParts.Later, .. parts], request);
            Trouble = await task.Task;
            Files = await page.InvokeAsync<MadeFile[]>("names");
            return Trouble.Length == 0 && !WasStopped;
        }
        catch (JSException e)
        {
            Trouble = e.Message.Split('\n')[0];
            return false;
        }
        finally
        {
            running = null;
            Changed?.Invoke();
        }
    }

    /// <summary>Ends the work at once. What it has made so far stays.</summary>
    public async Task Stop()
    {
        if (running is not { } task)
            return;
        WasStopped = true;
        await (await Bench).InvokeVoidAsync("stop");
        task.TrySetResult("");
    }

    [JSInvokable]
    public void Told(string says, double share)
    {
        if (running is null)
            return;
        (Says, Share) = (says, share);
        Changed?.Invoke();
    }

    [JSInvokable]
    public void Done(string why) => running?.TrySetResult(why);

    /// <summary>The text of a file that was made; null where there is none.</summary>
    public async Task<string?> Text(string name) => await (await Bench).InvokeAsync<string?>("text", name);

    /// <summary>Puts a file beside those that were made.</summary>
    public async Task Put(string name, string type, string text)
    {
        var page = await Bench;
        await page.InvokeVoidAsync("put", name, type, text);
        Files = await page.InvokeAsync<MadeFile[]>("names");
    }

    public async Task Save(string name) => await (await Bench).InvokeVoidAsync("save", name);

    /// <summary>Opens a file in a page of its own; false where the browser would not.</summary>
    public async Task<bool> Open(string name) => await (await Bench).InvokeAsync<bool>("open", name);

    /// <summary>Whether this browser hands files to the device's own sharing.</summary>
    public async Task<bool> CanShare() => await (await Bench).InvokeAsync<bool>("canShare");

    /// <summary>Hands a file to another program of the device: mail, a label printer's, a message.</summary>
    /// <returns>What went wrong; empty where nothing did, or it was left.</returns>
    public async Task<string> HandOn(string name) => await (await Bench).InvokeAsync<string>("share", name);

    /// <summary>Keeps what was made in the browser, so that a closed tab does not lose it.</summary>
    public async Task Keep(string key) => await (await Bench).InvokeVoidAsync("keep", key);

    /// <summary>Fetches what was kept.</summary>
    public async Task<bool> Fetch(string key)
    {
        var page = await Bench;
        if (!await page.InvokeAsync<bool>("fetch", key))
            return false;
        Files = await page.InvokeAsync<MadeFile[]>("names");
        Changed?.Invoke();
        return true;
    }
}
