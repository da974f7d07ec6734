using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Records;

namespace Rootgap.App.Jobs;

/// <summary>A drawing of the job as it stands, worked out.</summary>
/// <param name="Packet">Null where nothing of it could be understood. Made from as much as was understood where <see cref="Errors"/> are left.</param>
/// <param name="Errors">What could not be read.</param>
public sealed record OpenDrawing(string Path, string Text, Packet? Packet, IReadOnlyList<Finding> Errors)
{
    /// <summary>Errors first, then what the desk check found.</summary>
    public IEnumerable<Finding> Findings => Errors.Concat(Packet?.Findings ?? []);

    public bool IsWhole => Errors.Count == 0 && Packet is not null;

    /// <summary>Ids of the saved versions that it is made of: its own, then those of the files beside it. Empty where it is not saved as it stands.</summary>
    public IReadOnlyList<string> Versions { get; init; } = [];

    public string Number => Packet?.Drawing.Number ?? System.IO.Path.GetFileNameWithoutExtension(Path);
}

/// <summary>What a saved file says of itself, found without reading all of it.</summary>
/// <param name="IsText">No workbook, and not taken away.</param>
/// <param name="IsDrawing">Not shop rules, a rack, a list or a survey.</param>
public sealed record FileTop(bool IsText, bool IsDrawing, DrawingHead Head, string Title);

/// <summary>The job's drawings, each worked out once for each text.</summary>
public sealed class OpenDrawings(LocalJob job)
{
    private readonly Dictionary<string, Known> known = new(StringComparer.Ordinal);

    private readonly Dictionary<string, Known> saved = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (JobRecord Record, OpenDrawing Open, DrawingRecord Done)> done = new(StringComparer.Ordinal);
    private readonly Following following = new();
    private readonly Dictionary<string, FileTop> tops = new(StringComparer.Ordinal);
    private ILookup<DrawingHead, string>? index;
    private ILookup<string, string>? numbers;
    private JobRecord? indexed;

    private sealed record Known(string Text, DrawingHead Head, IReadOnlyDictionary<string, byte[]?> Beside, OpenDrawing Open);

    /// <summary>The drawing files of the job: text files that speak of a drawing; shop rules, racks and lists are not.</summary>
    public IEnumerable<string> Paths => job.Paths.Where(p => IsYaml(p) && (job.Drafts.TryGetValue(p, out var draft) ? IsDrawing(draft.Text) || !IsRack(draft.Text) : job.Saved(p) is { } version && TopOf(version).IsDrawing));

    /// <summary>A drawing as it stands; null where the job has no such file, or it is no text.</summary>
    public OpenDrawing? Of(string path)
    {
        if (job.TextOf(path) is not { } text)
            return null;
        // Most facts are about what was done: the drawing stays as it was worked out.
        if (known.TryGetValue(path, out var before) && before.Text == text && IsAlone(path, before) && before.Beside.All(b => Same(b.Value, job.BytesOf(b.Key))))
            return before.Open;
        var beside = new Dictionary<string, byte[]?>(StringComparer.Ordinal);
        var open = Read(DrawingText.Of(text, path), beside, job.BytesOf);
        known[path] = new(text, DrawingHead.Of(text), beside, open);
        return open;
    }

    /// <summary>A drawing as it was saved last: what the shop works by while somebody is still writing. As it is written where it was never saved; null where there is no such drawing.</summary>
    public OpenDrawing? Saved(string path)
    {
        if (job.Saved(path) is not { Text: { } text } version)
            return Of(path);
        if (saved.TryGetValue(path, out var before) && before.Text == text && IsAlone(path, before) && before.Open.Versions[0] == version.Id && before.Beside.All(b => Same(b.Value, job.Saved(b.Key)?.Content)))
            return before.Open;
        // Most often nobody is writing: then it is worked out already.
        var beside = new Dictionary<string, byte[]?>(StringComparer.Ordinal);
        var open = Of(path) is { } written && written.Text == text && known[path].Beside.Keys.All(b => !job.Drafts.ContainsKey(b))
            ? Noted(written, known[path].Beside, beside)
            : Read(DrawingText.Of(text, path), beside, named => job.Saved(named)?.Content);
        open = open with { Versions = [version.Id, .. beside.Keys.Order(StringComparer.Ordinal).Select(b => job.Saved(b)?.Id).OfType<string>()] };
        saved[path] = new(text, DrawingHead.Of(text), beside, open);
        return open;

        static OpenDrawing Noted(OpenDrawing open, IReadOnlyDictionary<string, byte[]?> from, Dictionary<string, byte[]?> to)
        {
            foreach (var (key, content) in from)
                to[key] = content;
            return open;
        }
    }

    /// <summary>What was done on a drawing as it was saved last; nothing where it cannot be understood.</summary>
    public DrawingRecord Done(string path)
    {
        if (Saved(path) is not { Packet: { } packet } open)
            return DrawingRecord.Nothing(new("", ""));
        if (!done.TryGetValue(path, out var before) || !ReferenceEquals(before.Record, job.Record) || !ReferenceEquals(before.Open, open))
            done[path] = before = (job.Record, open, following.Of(job.Record, path, packet.Fabrication, open.Versions));
        return before.Done;
    }

    /// <summary>Whether a drawing is worked out already, whatever its text was.</summary>
    public bool IsKnown(string path) => known.ContainsKey(path);

    /// <summary>The files beside a drawing that its reading asked for, where it is worked out: as it is written and as it was saved.</summary>
    public IEnumerable<string> Beside(string path) => (known.GetValueOrDefault(path)?.Beside.Keys ?? []).Union(saved.GetValueOrDefault(path)?.Beside.Keys ?? [], StringComparer.Ordinal).Order(StringComparer.Ordinal);

    /// <summary>What was worked out of a drawing is given up: it is worked out anew when it is asked for.</summary>
    public void Forget(string path)
    {
        known.Remove(path);
        saved.Remove(path);
        done.Remove(path);
    }

    /// <summary>Ids of the saved versions that stand now and have this drawing number.</summary>
    public IEnumerable<string> OfNumber(string number)
    {
        Index();
        return numbers![number];
    }

    /// <summary>Works out a text that is being written, without keeping it.</summary>
    public OpenDrawing Read(DrawingText text) => Read(text, new Dictionary<string, byte[]?>(StringComparer.Ordinal), job.BytesOf);

    private OpenDrawing Read(DrawingText text, Dictionary<string, byte[]?> beside, Func<string, byte[]?> bytesOf)
    {
        var reading = text.Read(named => beside[JobPath.Beside(text.File, named)] = bytesOf(JobPath.Beside(text.File, named)));
        Finding? fault = null;
        var packet = reading.Partial is { } drawing ? Packet.TryOf(drawing with { AlsoIn = Twins(text.File, DrawingHead.Of(text.Text)) }, out fault) : null;
        return new(text.File, text.Text, packet, fault is null ? reading.Errors : [.. reading.Errors, fault]);
    }

    /// <summary>Whether what was worked out knows of the files that are the same drawing in the same revision.</summary>
    private bool IsAlone(string path, Known before) => before.Open.Packet is not { } packet || packet.Drawing.AlsoIn.SequenceEqual(Twins(path, before.Head), StringComparer.Ordinal);

    /// <summary>Other drawings of the job with a number and a revision, as they are saved.</summary>
    private string[] Twins(string path, DrawingHead head)
    {
        Index();
        return head.Number.Length == 0 ? [] : [.. index![head].Where(p => p != path).Order(StringComparer.Ordinal)];
    }

    /// <summary>The number that a saved version gives its drawing; empty where it is none.</summary>
    public string NumberOf(FileSaved version) => IsYaml(version.Path) ? TopOf(version).Head.Number : "";

    private void Index()
    {
        if (ReferenceEquals(indexed, job.Record))
            return;
        indexed = job.Record;
        var latest = job.Record.Files.Values.Where(f => IsYaml(f.Path)).Select(f => f.Latest).OfType<FileSaved>().Where(f => TopOf(f).IsText).ToList();
        index = latest.ToLookup(f => TopOf(f).Head, f => f.Path);
        numbers = latest.ToLookup(f => TopOf(f).Head.Number, f => f.Id, StringComparer.Ordinal);
    }

    /// <summary>What stands at the top of a saved version: looked up in its text once, since the first page asks it of all files.</summary>
    public FileTop TopOf(FileSaved version)
    {
        if (!tops.TryGetValue(version.Id, out var top))
        {
            var text = version.Text;
            tops[version.Id] = top = text is null ? new(IsText: false, IsDrawing: false, new("", ""), "") : new(IsText: true, IsDrawing(text), DrawingHead.Of(text), DrawingHead.TitleOf(text));
        }

        return top;
    }

    private static bool Same(byte[]? one, byte[]? other) => ReferenceEquals(one, other) || (one is not null && other is not null && one.AsSpan().SequenceEqual(other));

    private static bool IsYaml(string path) => path.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".yml", StringComparison.OrdinalIgnoreCase);

    // A survey names the drawing that it is of.
    private static bool IsDrawing(string text) => (Starts(text, "drawing:") || Starts(text, "runs:")) && !Rootgap.Drawings.DrawingHead.IsOfSurvey(text);

    private static bool IsRack(string text) => Starts(text, "bars:") || Starts(text, "stock:") || Starts(text, "root gap:");

    private static bool Starts(string text, string key) => text.StartsWith(key, StringComparison.Ordinal) || text.Contains("\n" + key, StringComparison.Ordinal);
}
