using Microsoft.JSInterop;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>Pictures and papers that this browser keeps, each once under its digest.</summary>
public sealed partial class LocalJob
{
    /// <summary>The content of a picture or paper; null where this browser does not have it.</summary>
    public async Task<byte[]?> Content(string sha256) => await (await Module).InvokeAsync<byte[]?>("attachment", Id, sha256);

    /// <summary>Keeps one that the server gave.</summary>
    public async Task TakeContent(string sha256, byte[] content) => await (await Module).InvokeVoidAsync("putAttachment", Id, sha256, content);

    /// <summary>Digests of those that are to be sent.</summary>
    public async Task<string[]> UnsentContents(int most) => await (await Module).InvokeAsync<string[]>("unsentAttachments", Id, most);

    /// <summary>The server has these.</summary>
    public async Task ContentsSent(IReadOnlyList<string> sha256) => await (await Module).InvokeVoidAsync("noteAttachments", Id, sha256, 0);

    /// <summary>The server has no fact that speaks of these: they wait here until it has.</summary>
    public async Task ContentsUnasked(IReadOnlyList<string> sha256) => await (await Module).InvokeVoidAsync("noteAttachments", Id, sha256, 2);

    /// <summary>Keeps a picture or paper that goes with an entry which is not made yet: closing the tab loses nothing.</summary>
    /// <param name="of">Which entry.</param>
    public async Task Pick(string of, string name, byte[] content) => await (await Module).InvokeVoidAsync("pick", Id, of, Attachment.DigestOf(content), name, content);

    /// <summary>What was picked for an entry.</summary>
    public async Task<IReadOnlyList<PickedPaper>> Picked(string of) =>
        [.. (await (await Module).InvokeAsync<PickedJson[]>("picked", Id, of)).Select(p => new PickedPaper(Attachment.Of(p.Name, p.Content), p.Content))];

    /// <summary>It does not go with the entry after all.</summary>
    public async Task DropPicked(string of, string sha256) => await (await Module).InvokeVoidAsync("dropPicked", Id, of, sha256);

    /// <summary>A picture or paper that goes with the next entry.</summary>
    public sealed record PickedPaper(Attachment Of, byte[] Content);

    private sealed record PickedJson(string Name, byte[] Content);
}
