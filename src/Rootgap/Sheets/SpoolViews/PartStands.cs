using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>How each part of a spool stands, in words: where it looks, how it is turned, where it sits on its pipe.</summary>
internal static class PartStands
{
    public static IReadOnlyDictionary<string, string> Of(Fabrication f, Spool spool)
    {
        var turns = PartTurn.Of(f, spool);
        var ends = SpoolEnd.Of(f, spool);
        var words = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var c in spool.Components)
            words[c.Id] = Of(f, spool, c, turns.FirstOrDefault(t => t.Part == c.Id), ends.FirstOrDefault(e => e.Part == c.Id)?.Name ?? "");
        foreach (var turn in turns.Where(t => t.What == "set on"))
            words[turn.Part] = "set on" + Turned(turn, f.Units);
        return words;
    }

    private static string Of(Fabrication f, Spool spool, Component c, PartTurn? turn, string end)
    {
        var at = end.Length > 0 && end != c.Id ? $"at {end}, " : "";
        return c switch
        {
            Flange flange => $"{at}faces {BoltCircle.NameOf(flange.Contact.Face)}{(BoltCircle.Of(flange) is { } circle ? "; " + Lower(circle.Says) : "; no hole line can be given: ask before welding")}",
            ReturnBend back => $"{at}{BoltCircle.NameOf(-back.In.Face)}, round to {BoltCircle.NameOf(back.Side)} and back {BoltCircle.NameOf(back.Out.Face)}{Against(turn)}{(IsNamed(back.In.Face) && IsNamed(back.Side) ? "" : Turned(turn, f.Units))}",
            Bent bent => $"{at}{BoltCircle.NameOf(-bent.In.Face)} to {BoltCircle.NameOf(bent.Out.Face)}{Against(turn)}{(IsNamed(bent.In.Face) && IsNamed(bent.Out.Face) ? "" : Turned(turn, f.Units))}",
            Tee tee => $"{at}branch {BoltCircle.NameOf(tee.Branch.Face)}{(IsNamed(tee.Branch.Face) ? "" : Turned(turn, f.Units))}",
            Outlet outlet => OnPipe(f, spool, outlet) + $"branch {BoltCircle.NameOf(outlet.Branch.Face)}{(IsNamed(outlet.Branch.Face) ? "" : Turned(turn, f.Units))}",
            Cap cap => $"{at}closes the {BoltCircle.NameOf(-cap.Rim.Face)} end",
            _ => at + string.Join(" and ", c.Ports.Select(p => BoltCircle.NameOf(p.Face)).Distinct(StringComparer.Ordinal).Select((w, i) => i == 0 ? "between " + w : w)),
        };
    }

    // Where an outlet sits: on which piece, how far from the end that is cut there.
    private static string OnPipe(Fabrication f, Spool spool, Outlet outlet)
    {
        var joint = spool.Joints.FirstOrDefault(j => j.Kind == JointKind.Branch && j.Between.Contains(outlet.Id, StringComparer.Ordinal));
        if (joint is null || spool.Cuts.FirstOrDefault(c => joint.Between.Contains(c.Pipe.Id, StringComparer.Ordinal)) is not { } cut)
            return "";
        var from = (outlet.Foot.At - cut.Reach.Start).Dot(cut.Pipe.Direction);
        var start = spool.Joints.Concat(spool.Ends).Where(j => j != joint && j.Between.Contains(cut.Pipe.Id, StringComparer.Ordinal)).MinBy(j => j.At.To(cut.Pipe.Start));
        return $"on {cut.Piece}, {RunningDimensions.Figure(f.Units, from)} from its {(start is null ? BoltCircle.NameOf(-cut.Pipe.Direction) : start.Id)} end, ";
    }

    private static string Against(PartTurn? turn) => turn?.AgainstLast is not { } last ? "" : last.Angle < 1e-4 ? $", in plane with {last.Part}" : string.Create(CultureInfo.InvariantCulture, $", {Angles.ToDegrees(last.Angle):0.0}° out of {last.Part}'s plane");

    private static string Turned(PartTurn? turn, Units units) => turn is null ? "" : Math.Abs(turn.Roll) < 1e-6
        ? $", at {(Math.Abs(turn.Looking.Z) > 0.98 ? "north" : "top")}"
        : string.Create(CultureInfo.InvariantCulture, $", {Angles.ToDegrees(Math.Abs(turn.Roll)):0.0}° {(turn.Roll > 0 ? "clockwise" : "anticlockwise")} from {(Math.Abs(turn.Looking.Z) > 0.98 ? "north" : "top")} looking {BoltCircle.NameOf(turn.Looking)}, {RunningDimensions.Figure(units, turn.Round)} round the pipe");

    private static bool IsNamed(Vector way) => new[] { Vector.Up, Vector.North, Vector.East }.Any(a => Math.Abs(a.Dot(way)) > 0.9986);

    private static string Lower(string words) => char.ToLowerInvariant(words[0]) + words[1..].TrimEnd('.');
}
