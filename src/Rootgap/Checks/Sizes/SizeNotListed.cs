using System.Runtime.CompilerServices;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>One wrong size at the head of a stretch: the list has all of it in another size. The one cause of a dozen missing and left-over rows, so it is told alone.</summary>
internal sealed class SizeNotListed : Rule
{
    /// <summary>One part is a wrong part; so many are a wrong size.</summary>
    private const int Enough = 3;

    /// <summary>Of a pipe's need so much at least is left over in the other size: lists round up and count cuts otherwise.</summary>
    private const double MostOfPipe = 0.7;

    /// <summary>Its name: what follows from it is left out while it stands.</summary>
    public const string Rule = "size-not-listed";

    /// <summary>Rules whose findings at the rows of either size are but what the wrong size makes of the list.</summary>
    private static readonly HashSet<string> Following = new(StringComparer.Ordinal)
    {
        "item-not-listed", "item-not-used", "quantity-over", "quantity-short", "gasket-missing", "item-size-mismatch", "studs-missing", "stud-length", "support-contradicts-list", "heat-missing", "pipe-listed-short", "item-ambiguous", "small-ends-too-large",
    };

    private static readonly ConditionalWeakTable<Fabrication, Cause[]> Known = [];

    public override string Name => Rule;
    public override Severity Severity => Severity.Stop;
    public override string Says => "A stretch of the line is drawn in a size of which the list has nothing, or too little by just what stands on it, and what it takes is listed, and left over, in another.";
    public override string Why => "One figure at a reducer, a tee or the head of a run is wrong, or one column of the list (common practice). What is missing and left over for it is not told: it follows from this.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var cause in Of(fabrication))
        {
            var wares = cause.Missing.Select(m => m.What).Distinct(StringComparer.Ordinal).ToList();
            yield return Found(cause.Row, cause.Key, Say($"From here NPS {cause.Drawn} is drawn, and the list has {(cause.IsKnown ? "too little" : "nothing")} of that size: {string.Join(", ", wares.Take(5))}{(wares.Count > 5 ? " and more" : "")} are listed as NPS {cause.Listed} and left over there."),
                Say($"Look which of the two sizes is right and mend it here or in the list, and check again: what is missing in NPS {cause.Drawn} and over in NPS {cause.Listed} is not told till then."), "The wrong size is bought, or the right one is cut up.");
        }
    }

    /// <summary>Whether a finding only says what a wrong size makes of the list.</summary>
    public static bool Follows(Fabrication fabrication, Finding finding) => Following.Contains(finding.Rule) && Of(fabrication).Any(c => c.Rows.Contains(finding.At));

    private sealed record Cause(NominalSize Drawn, NominalSize Listed, SourceRow Row, string Key, bool IsKnown, IReadOnlyList<MaterialRow> Missing, IReadOnlySet<RowPath> Rows);

    private static Cause[] Of(Fabrication fabrication) => Known.GetValue(fabrication, static f => [.. Find(f)]);

    private static IEnumerable<Cause> Find(Fabrication fabrication)
    {
        var (route, rows) = (fabrication.Route, fabrication.Materials);
        var missing = rows.Where(r => r.UsedBy.Count > 0 && route.PartOf(r.UsedBy[0]) is not null && Lack(r) > 0).ToList();
        if (missing.Count < Enough)
            yield break;
        var sizes = rows.Where(r => r.Item is { Words.Ware: not (Ware.StudBolt or Ware.Gasket or Ware.Other), Size.IsNone: false }).Select(r => r.Item!.Size).Distinct().ToList();
        foreach (var stretch in Stretches(route))
        {
            var lacking = missing.FindAll(r => r.Size == stretch.Size || r.Size2 == stretch.Size);
            if (lacking.Count < Enough)
                continue;
            var best = sizes.Where(size => size != stretch.Size).Select(size => (Size: size, Missing: lacking.FindAll(m => rows.Any(r => IsLeftOver(r, stretch.Size, size, m, route))))).OrderByDescending(l => l.Missing.Count).FirstOrDefault();
            // What is short in the one size and left over in the other is just what stands on the stretch.
            if (best.Missing is { Count: >= Enough } found && found.Count * 2 >= lacking.Count && found.TrueForAll(m => m.IsLength || Math.Abs(OnStretch(route, m, stretch) - Lack(m)) < 0.5))
                yield return new(stretch.Size, best.Size, stretch.Row, stretch.Key, IsKnown(rows, stretch.Size), found, Touched(fabrication, stretch.Size, best.Size));
        }
    }

    /// <summary>What a row of the material check lacks: pieces, or metres of pipe.</summary>
    private static double Lack(MaterialRow row) => row.Item is null ? row.Needed : row.Listed is { } listed ? row.Needed - listed : 0;

    private static bool IsKnown(IReadOnlyList<MaterialRow> rows, NominalSize size) => rows.Any(r => r.Item is { Words.Ware: not (Ware.StudBolt or Ware.Other) } item && (item.Size == size || item.Size2 == size));

    /// <summary>How many of a missing row's parts stand on a stretch, the reducer or branch at its head with them.</summary>
    private static int OnStretch(Route route, MaterialRow row, Stretch stretch) => row.UsedBy.Select(id => route.PartOf(id)).OfType<Part>().Select(p => PathOf(route, p))
        .Count(at => at == stretch.Row.Path || (at.Run == stretch.Run && (at.Leg ?? -1) is var leg && leg >= stretch.First - 1 && leg <= stretch.Last + 1));

    private static RowPath PathOf(Route route, Part part) => part switch
    {
        Component c => c.Source.Path,
        PipePiece p => route.RowOf(p.Run, p.FirstLeg).Path,
        Support s => s.Source.Path,
        Pad p => p.Source.Path,
        _ => default,
    };

    private sealed record Stretch(NominalSize Size, int Run, int First, int Last, SourceRow Row, string Key);

    /// <summary>The stretches of one size, each with the row that brings the line to it: of the part before its first leg, of the branch that its run leaves from, or of the run.</summary>
    private static IEnumerable<Stretch> Stretches(Route route)
    {
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var line = route.Runs[r];
            for (var first = 0; first < line.Sizes.Count;)
            {
                var last = first;
                while (last + 1 < line.Sizes.Count && line.Sizes[last + 1] == line.Sizes[first])
                    last++;
                var (row, key) = Head(route, line, first);
                yield return new(line.Sizes[first], r, first, last, row, key);
                first = last + 1;
            }
        }
    }

    private static (SourceRow Row, string Key) Head(Route route, RunLine line, int first)
    {
        if (first > 0)
            return (line.Run.Legs[first - 1].Source, line.Run.Legs[first - 1].Source.Has("size") ? "size" : "to");
        if (line.Run.Start.From is { } from && route.Runs.SelectMany(r => r.Run.Legs).FirstOrDefault(l => l.To.Name == from) is { } host && (host.Source.Has("branch size") || host.Source.Has("size")))
            return (host.Source, host.Source.Has("branch size") ? "branch size" : "size");
        return line.Run.Source.Has("size") ? (line.Run.Source, "size") : (line.Run.Legs[0].Source, line.Run.Legs[0].Source.Has("size") ? "size" : "go");
    }

    /// <summary>Whether a list row has the one size where the missing part has the other, is of its kind, and has as much left over as is missing.</summary>
    private static bool IsLeftOver(MaterialRow row, NominalSize drawn, NominalSize listed, MaterialRow missing, Route route) =>
        row is { Item: { } item, Listed: { } quantity } && route.PartOf(missing.UsedBy[0]) is { } part && part.IsListedAs(item) && !part.IsOtherKind(item.Words)
        && item.Size == (missing.Size == drawn ? listed : missing.Size) && (missing.Size2.IsNone || item.Size2 == (missing.Size2 == drawn ? listed : missing.Size2) || item.Size2.IsNone)
        && quantity - row.Needed >= Lack(missing) * (row.IsLength ? MostOfPipe : 1) - Tolerance.Noise;

    /// <summary>The rows of the drawing that have the one size, and those of the list that have the other, with the studs of the joints between.</summary>
    private static HashSet<RowPath> Touched(Fabrication fabrication, NominalSize drawn, NominalSize listed)
    {
        var route = fabrication.Route;
        var rows = fabrication.Materials.Where(r => r.Item is { } item && (item.Size == listed || item.Size2 == listed)).Select(r => r.Item!.Source.Path).ToHashSet();
        rows.UnionWith(route.Components.Where(c => c.Size == drawn || c.Size2 == drawn).Select(c => c.Source.Path));
        rows.UnionWith(route.Pipes.Where(p => p.Size == drawn).Select(p => route.RowOf(p.Run, p.FirstLeg).Path));
        rows.UnionWith(route.Supports.Where(s => s.Size == drawn).Select(s => s.Source.Path));
        var joints = fabrication.Bolting.Where(b => b.Joint.Size == drawn).ToList();
        rows.UnionWith(joints.Select(b => b.Joint.Source.Path));
        if (joints.Count > 0)
            rows.UnionWith(fabrication.Materials.Where(r => r.Item is { Words.Ware: Ware.StudBolt or Ware.Gasket }).Select(r => r.Item!.Source.Path));
        if (IsKnown(fabrication.Materials, drawn))
            rows.UnionWith(fabrication.Materials.Where(r => r.Item is { } item && (item.Size == drawn || item.Size2 == drawn)).Select(r => r.Item!.Source.Path));
        return rows;
    }
}
