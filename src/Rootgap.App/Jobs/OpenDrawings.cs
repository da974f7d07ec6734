using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.App.Jobs;

/// <summary>A drawing of the job as it stands, worked out.</summary>
/// <param name="Packet">Null where nothing of it could be understood. Made from as much as was understood where <see cref="Errors"/> are left.</param>
/// <param name="Errors">What could not be read.</param>
public sealed record OpenDrawing(string Path, string Text, Packet? Packet, IReadOnlyList<Finding> Errors)
{
    /// <summary>Errors first, then what the desk check found.</summary>
    public IEnumerable<Finding> Findings => Errors.Concat(Packet?.Findings ?? []);

    public bool IsWhole => Errors.Count == 0 && Packet is not null;

    public string Number => Packet?.Drawing.Number ?? System.IO.Path.GetFileNameWithoutExtension(Path);
}

/// <summary>The job's drawings, each worked out once for each text.</summary>
public sealed class OpenDrawings(LocalJob job)
{
    private readonly Dictionary<string, Known> known = new(StringComparer.Ordinal);

    private sealed record Known(string Text, IReadOnlyDictionary<string, byte[]?> Beside, OpenDrawing Open);

    /// <summary>The drawing files of the job: text files that speak of a drawing; shop rules, racks and lists are not.</summary>
    public IEnumerable<string> Paths => job.Paths.Where(p => IsYaml(p) && job.TextOf(p) is { } text && (IsDrawing(text) || job.Drafts.ContainsKey(p) && !IsRack(text)));

    /// <summary>A drawing as it stands; null where the job has no such file, or it is no text.</summary>
    public OpenDrawing? Of(string path)
    {
        if (job.TextOf(path) is not { } text)
            return null;
        // Most facts are about what was done: the drawing stays as it was worked out.
        if (known.TryGetValue(path, out var before) && before.Text == text && before.Beside.All(b => Same(b.Value, job.BytesOf(b.Key))))
            return before.Open;
        var beside = new Dictionary<string, byte[]?>(StringComparer.Ordinal);
        var open = Read(DrawingText.Of(text, path), beside);
        known[path] = new(text, beside, open);
        return open;
    }

    /// <summary>Works out a text that is being written, without keeping it.</summary>
    public OpenDrawing Read(DrawingText text) => Read(text, new Dictionary<string, byte[]?>(StringComparer.Ordinal));

    private OpenDrawing Read(DrawingText text, Dictionary<string, byte[]?> beside)
    {
        var reading = text.Read(named => beside[Beside(text.File, named)] = job.BytesOf(Beside(text.File, named)));
        Finding? fault = null;
        var packet = reading.Partial is { } drawing ? Packet.TryOf(drawing, out fault) : null;
        return new(text.File, text.Text, packet, fault is null ? reading.Errors : [.. reading.Errors, fault]);
    }

    private static bool Same(byte[]? one, byte[]? other) => ReferenceEquals(one, other) || (one is not null && other is not null && one.AsSpan().SequenceEqual(other));

    /// <summary>The path of a file named in a drawing, beside that drawing.</summary>
    public static string Beside(string path, string named)
    {
        var parts = path.Split('/')[..^1].ToList();
        foreach (var part in named.Replace('\\', '/').Split('/'))
        {
            if (part == ".." && parts.Count > 0)
                parts.RemoveAt(parts.Count - 1);
            else if (part is not ("." or ".." or ""))
                parts.Add(part);
        }

        return string.Join('/', parts);
    }

    private static bool IsYaml(string path) => path.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".yml", StringComparison.OrdinalIgnoreCase);

    // A survey names the drawing that it is of.
    private static bool IsDrawing(string text) => (Starts(text, "drawing:") || Starts(text, "runs:")) && !Starts(text, "survey:");

    private static bool IsRack(string text) => Starts(text, "bars:") || Starts(text, "stock:") || Starts(text, "root gap:");

    private static bool Starts(string text, string key) => text.StartsWith(key, StringComparison.Ordinal) || text.Contains("\n" + key, StringComparison.Ordinal);
}
