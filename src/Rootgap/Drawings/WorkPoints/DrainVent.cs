using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What closes a drain or a vent.</summary>
public enum DrainClosing
{
    /// <summary>A threaded plug in the valve, or in the outlet where there is no valve.</summary>
    Plug,

    /// <summary>A threaded cap on a second nipple.</summary>
    Cap,

    /// <summary>A second nipple that stays open.</summary>
    Nipple,

    /// <summary>Nothing behind the valve.</summary>
    Nothing,
}

/// <summary>
/// What stands on the outlet of a drain or a vent that is written in one row. It is no part of its own: <see cref="Drains.Expanded"/> makes the run of it that a
/// person would write, of the parts that there are.
/// </summary>
/// <param name="Schedule">Of the nipples; null for the line's.</param>
/// <param name="Nipple">Length of a nipple, mm; null where none is given.</param>
/// <param name="Valve">Null where there is none.</param>
public sealed record DrainRow(bool IsVent, string Schedule, double? Nipple, ValvePoint? Valve, DrainClosing ClosedBy)
{
    private static readonly string[] Keys = ["kind", "branch", "ends", "fitting class", "branch schedule", "valve", "face to face", "mass", "stem", "closed by", "test"];

    internal static readonly WorkPointKind OfDrain = Kind("drain", isVent: false);

    internal static readonly WorkPointKind OfVent = Kind("vent", isVent: true);

    private static WorkPointKind Kind(string word, bool isVent) => new(word, Keys, f => Read(f, word, isVent))
    {
        Ware = Ware.Outlet,
        Required = ["size"],
        Choices = [("kind", FileWords.DrainKinds), ("ends", FileWords.ForgedEnds)],
        IsPassedThrough = true,
        CanBeMadeUpTo = false,
        HasOwnEnds = true,
        HasOwnNipple = true,
    };

    private static OutletPoint? Read(Fields f, string word, bool isVent)
    {
        var branch = f.Has("branch") ? f.Direction("branch", out _) : isVent ? Vector.Up : -Vector.Up;
        if (!f.Has("size"))
            f.Error("missing-key", "to", $"This {word} has no size.", "Add `size:`, the size of its outlet, nipple and valve.");
        var ends = f.FittingEnds(FileWords.ForgedEnds, FittingEnds.Socket);
        var kind = Array.IndexOf(FileWords.ValveKinds, f.Word("valve", FileWords.DrainValves));
        var (length, mass, stem, nipple) = (f.Length("face to face", Tolerance.Noise), f.Mass("mass"), f.Direction("stem", out _), f.Length("nipple", Tolerance.Noise));
        var isHalf = f.Word("kind", FileWords.DrainKinds) == "half coupling";
        var valve = f.Has("valve") && kind < 0 ? null : new ValvePoint(kind < 0 ? ValveKind.Gate : (ValveKind)kind, ends, IsWafer: null, length, stem, mass, HoleOrientation.Straddle);
        var closing = Array.IndexOf(FileWords.DrainClosings, f.Word("closed by", FileWords.DrainClosings));
        var closedBy = closing >= 0 ? (DrainClosing)closing : ends == FittingEnds.Threaded ? DrainClosing.Plug : DrainClosing.Cap;
        if (valve is not null && length is null)
            f.Error("missing-key", f.Has("valve") ? "valve" : "to", "No standard gives the length of a socket-weld or threaded valve.", $"Add `face to face:` from the maker's sheet, or `valve: none` for {Words.A(word)} without one.");
        if (nipple is null && (valve is not null || closedBy is DrainClosing.Cap or DrainClosing.Nipple))
            f.Error("missing-key", f.Has("closed by") ? "closed by" : "to", $"This {word} has no nipple on its outlet.", "Add `nipple:` with its length, such as nipple: 100.");
        if (closedBy == DrainClosing.Plug && ends == FittingEnds.Socket)
            f.Error("impossible-value", "closed by", "A plug screws into a thread, and these ends are sockets.", "Write `ends: threaded`, or `closed by: cap`.");
        if (closedBy == DrainClosing.Nothing && valve is null)
            f.Error("impossible-value", "closed by", $"Without a valve this {word} is a hole.", "Name what closes it, or write an `outlet`.");
        return f.Size("size") is { } size && branch is { } side ? new(f.Text("name"), side, size, ends) { IsHalfCoupling = isHalf, Drain = new(isVent, f.Text("branch schedule") ?? "", nipple, valve, closedBy) } : null;
    }
}

/// <summary>Drains and vents in one row, written out.</summary>
internal static class Drains
{
    /// <summary>The runs, and behind them one for each drain and vent that is written in a row. Their rows are that row.</summary>
    public static List<Run> Expanded(IReadOnlyList<Run> runs)
    {
        var names = runs.Select(r => r.Name).Concat(runs.SelectMany(r => r.Legs).Select(l => l.To.Name).OfType<string>()).ToHashSet(StringComparer.Ordinal);
        var (written, more) = (new List<Run>(runs.Count), new List<Run>());
        foreach (var run in runs)
        {
            if (!run.Legs.Any(l => l.To is OutletPoint { Drain: not null }))
            {
                written.Add(run);
                continue;
            }

            var legs = new List<Leg>(run.Legs.Count);
            foreach (var leg in run.Legs)
            {
                if (leg.To is not OutletPoint { Drain: { } row } outlet)
                {
                    legs.Add(leg);
                    continue;
                }

                var name = outlet.OutletName ?? Free(names, outlet.Word);
                legs.Add(leg with { To = outlet with { OutletName = name } });
                more.Add(RunOf(outlet.OutletName is null ? name : Free(names, $"{outlet.Word} {name}", isFirstPlain: true), name, leg, outlet, row));
            }

            written.Add(run with { Legs = legs });
        }

        return [.. written, .. more];
    }

    private static string Free(HashSet<string> names, string word, bool isFirstPlain = false)
    {
        for (var i = 1; ; i++)
        {
            var name = isFirstPlain && i == 1 ? word : string.Create(CultureInfo.InvariantCulture, $"{word} {i}");
            if (names.Add(name))
                return name;
        }
    }

    private static Run RunOf(string name, string from, Leg leg, OutletPoint outlet, DrainRow row)
    {
        var line = leg.Line with { Size = outlet.Size, Ends = outlet.Ends, Schedule = row.Schedule.Length > 0 ? new(row.Schedule) : leg.Line.Schedule };
        var legs = new List<Leg>();
        if (row.Valve is { } valve)
            Add(valve, row.Nipple, line);
        var screwed = line with { Ends = FittingEnds.Threaded };
        switch (row.ClosedBy)
        {
            case DrainClosing.Plug:
                Add(new PlugPoint(), null, line);
                break;
            case DrainClosing.Cap:
                Add(new CapPoint(), row.Nipple, screwed);
                break;
            case DrainClosing.Nipple:
                Add(new OpenPoint(line.Ends == FittingEnds.Threaded ? OpenEnds.Threaded : OpenEnds.Plain, Continues: null), row.Nipple, line);
                break;
            case DrainClosing.Nothing:
                break;
            default:
                throw new InvalidOperationException("What closes a drain is one of four.");
        }

        return new Run { Name = name, Start = new(null, from, null, leg.Source), Legs = legs, Line = line, FlowsAlong = true, IsOfOneRow = true, Source = leg.Source };

        void Add(WorkPoint to, double? nipple, Line with) => legs.Add(new Leg
        {
            Index = legs.Count, Go = outlet.Branch, MakeUp = true, To = to, Nipple = nipple, Line = with, Source = leg.Source, IsOutForTest = leg.IsOutForTest && to is ValvePoint, Spool = leg.Spool,
        });
    }
}
