using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>A row of a drawing file as written: what stands in each field, as a person types it.</summary>
/// <param name="Path">Path in the file, such as <c>runs[0].legs[2]</c>; findings name the same one.</param>
/// <param name="Line">Line on which the row begins, from 1; 0 where it is not written yet.</param>
/// <param name="Cells">The fields that are written, in their order: <c>go</c> is <c>north</c>, or <c>east 600 up 600</c> for a vector.</param>
public sealed record WrittenRow(string Path, int Line, IReadOnlyDictionary<string, string> Cells)
{
    private readonly YamlMap? map;

    internal WrittenRow(string path, YamlMap? map, IReadOnlyDictionary<string, string> cells)
        : this(path, map?.Where.Line ?? 0, cells) => this.map = map;

    /// <summary>What stands in a field; empty where nothing does.</summary>
    public string this[string key] => Cells.GetValueOrDefault(key, "");

    /// <summary>The field of which a finding at this row speaks; null where it speaks of the row.</summary>
    public string? KeyOf(Finding finding)
    {
        var where = finding.Where;
        for (var i = (map?.Pairs.Count ?? 0) - 1; i >= 0; i--)
        {
            var (key, value) = map!.Pairs[i];
            if (key.Where with { File = where.File } == where || !IsBefore(where, value.Where))
                return key.Value;
        }

        return null;
    }

    private static bool IsBefore(Place a, Place b) => a.Line < b.Line || (a.Line == b.Line && a.Column < b.Column);
}

/// <summary>A run as written.</summary>
/// <param name="Row">The run's own fields: name, flow, and what its legs have unless they say otherwise.</param>
/// <param name="Start">Where it begins.</param>
/// <param name="Legs">One row a leg.</param>
public sealed record WrittenRun(int Index, WrittenRow Row, WrittenRow Start, IReadOnlyList<WrittenRow> Legs)
{
    public string Name => Row["run"];

    public string Path => Row.Path;
}
