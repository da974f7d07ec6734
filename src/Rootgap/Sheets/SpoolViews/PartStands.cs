using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>
/// How each part and piece of a spool stands, in words that are enough to set it: from which joint to which, which way, how it is turned, where it sits on its pipe.
/// </summary>
internal sealed class PartStands
{
    /// <summary>Radians: nobody sees less.</summary>
    private const double InPlane = 1e-4;

    private readonly Fabrication f;
    private readonly Spool spool;
    private readonly IReadOnlyList<PartTurn> turns;
    private readonly IReadOnlyList<Joint> joints;

    private PartStands(Fabrication f, Spool spool) =>
        (this.f, this.spool, turns, joints) = (f, spool, PartTurn.Of(f, spool), [.. spool.Joints.Concat(spool.Ends)]);

    /// <summary>The words of each component by its id, and of each piece by its mark.</summary>
    public static IReadOnlyDictionary<string, string> Of(Fabrication f, Spool spool)
    {
        var stands = new PartStands(f, spool);
        var words = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var c in spool.Components)
            words[c.Id] = stands.Of(c);
        foreach (var cut in spool.Cuts)
            words[cut.Piece] = stands.Of(cut);
        return words;
    }

    /// <summary>How far a place on a piece is from which of its ends.</summary>
    public static string FromEnd(Fabrication f, Spool spool, Cut cut, Point at) => new PartStands(f, spool).FromEnd(cut, at);

    /// <summary>Where the hole under a branch that is set on later lies in its header, and which way the branch goes.</summary>
    public static string HoleFor(Fabrication f, Spool spool, Cut header, PipePiece branch, Joint weld)
    {
        var way = weld.At.To(branch.Start) < weld.At.To(branch.End) ? branch.Direction : -branch.Direction;
        return $"on {new PartStands(f, spool).Station(header, branch.Start, way)}, {Wording.Way(way)}";
    }

    /// <summary>The ends of a piece at which its final-fit extra is.</summary>
    public static IReadOnlyList<string> ExtraEnds(Fabrication f, Spool spool, Cut cut) =>
        [.. new[] { true, false }.Where(isStart => isStart ? cut.Pipe.ExtraAtStart : cut.Pipe.ExtraAtEnd).Select(isStart => new PartStands(f, spool).EndOf(cut, isStart))];

    private string Of(Component c)
    {
        var turn = turns.FirstOrDefault(t => t.Part == c.Id);
        return c switch
        {
            Flange { Stub: not null } loose => $"{Joined(loose.Ports)}, faces {Wording.Way(loose.Contact.Face)}; loose on its stub end, it turns",
            Flange flange => $"{Joined(flange.Ports)}, faces {Wording.Way(flange.Contact.Face)}; {(BoltCircle.Of(flange) is { } circle ? Lower(circle.Says) : "no hole line can be given: ask before welding")}",
            ReturnBend back => $"{Joined(back.Ports)}, {Wording.Way(-back.In.Face)}, round to {Wording.Way(back.Side)} and back {Wording.Way(back.Out.Face)}{Against(turn)}{(IsNamed(back.In.Face) && IsNamed(back.Side) ? "" : Turned(turn))}",
            Bent bent => $"{Joined(bent.Ports)}, {Wording.Way(-bent.In.Face)} to {Wording.Way(bent.Out.Face)}{Against(turn)}{((IsNamed(bent.In.Face) && IsNamed(bent.Out.Face)) || turn?.AgainstLast is { Angle: < InPlane } ? "" : Turned(turn))}",
            Tee tee => $"{Joined([tee.RunIn, tee.RunOut])}, {Wording.Way(tee.RunOut.Face)}; branch {JointAt(tee, tee.Branch)}{Wording.Way(tee.Branch.Face)}{(IsNamed(tee.Branch.Face) ? "" : Turned(turn))}",
            Outlet outlet => $"{JointAt(outlet, outlet.Foot)}{OnPipe(outlet)}branch {JointAt(outlet, outlet.Branch)}{Wording.Way(outlet.Branch.Face)}{(IsNamed(outlet.Branch.Face) ? "" : Turned(turn))}",
            Reducer { IsEccentric: true } reducer => $"{Joined(reducer.Ports)}, {Wording.Way(reducer.Out.Face)}; flat side {Wording.Way(reducer.Flat)}",
            Valve { StemDrawn: not null } valve => $"{Joined(valve.Ports)}, {Wording.Way(valve.Ports[^1].Face)}; stem {Wording.Way(valve.Stem)}",
            { Ports: [var only] } => $"{Joined([only])}, closes the {(IsNamed(only.Face) ? BoltCircle.NameOf(-only.Face) + " end" : "end to " + Wording.Way(-only.Face))}",
            _ => $"{Joined(c.Ports)}, {Wording.Way(c.Ports[^1].Face)}",
        };

        // An end that nothing is joined to is named where another could be taken for it; a flange's face and a lone rim cannot.
        string Joined(IReadOnlyList<Port> ports) => Between([.. ports.Select(p => JointAt(c, p) is { Length: > 0 } joint ? joint.TrimEnd() : c is Flange || ports.Count == 1 ? "" : "open end")]);
    }

    private string Of(Cut cut)
    {
        var turn = turns.FirstOrDefault(t => t.Part == cut.Piece);
        var way = cut.Pipe.AtEnd.Kind == EndKind.SetOn ? -cut.Pipe.Direction : cut.Pipe.Direction;
        var isFromStart = cut.Pipe.AtEnd.Kind != EndKind.SetOn;
        var words = $"{Between([EndOf(cut, isFromStart), EndOf(cut, !isFromStart)])}, {Wording.Way(way)}";
        return turn is null ? words : $"set on {OnHeader(cut)}{words}{(IsNamed(way) ? "" : Turned(turn))}";
    }

    private static string Between(IReadOnlyList<string> ends)
    {
        var named = ends.Where(e => e.Length > 0).ToList();
        return named.Count == 0 ? "loose" : string.Join(" to ", named);
    }

    // A joint's name and a blank; empty at an open end. A pipe in a flange's socket ends nearer to the face than to the hub, one in a short outlet nearer to its foot.
    private string JointAt(Component c, Port port)
    {
        var own = joints.Where(j => j.Between.Contains(c.Id, StringComparer.Ordinal)).ToList();
        var joint = c switch
        {
            Flange => own.Find(j => (j.Kind == JointKind.Bolted) == (port.Name == PortName.Face)),
            Outlet => own.Find(j => (j.Kind == JointKind.Branch) == (port.Name == PortName.Weld)),
            _ => own.Where(j => c.Ports.MinBy(p => p.At.To(j.At)) == port).MinBy(j => j.At.To(port.At)),
        };
        return joint is null ? "" : joint.Id + " ";
    }

    private string EndOf(Cut cut, bool isStart)
    {
        var pipe = cut.Pipe;
        var (at, other, kind) = isStart ? (pipe.Start, pipe.End, pipe.AtStart.Kind) : (pipe.End, pipe.Start, pipe.AtEnd.Kind);
        var joint = joints.Where(j => j.Between.Contains(pipe.Id, StringComparer.Ordinal) && j.At.To(at) <= j.At.To(other) && (kind == EndKind.SetOn || j.Kind != JointKind.Branch)).MinBy(j => j.At.To(at));
        return kind == EndKind.Free || joint is null ? "open end" : joint.Id;
    }

    // Where a branch sits: on which piece, how far from which of its ends; where it leans, what is told is where both axes meet, and not where its foot is on the outside.
    private string OnPipe(Outlet outlet) => HeaderOf(outlet.Id) is { } header ? $"on {Station(header, outlet.Foot.At, outlet.Branch.Face)}; " : "";

    private string OnHeader(Cut branch) => HeaderOf(branch.Pipe.Id) is { } header && f.Route.PipeOf(header.Pipe.Id) is not null ? $"{Station(header, branch.Pipe.Start, branch.Pipe.Direction)}; " : "";

    private Cut? HeaderOf(string part) => spool.Joints.FirstOrDefault(j => j.Kind == JointKind.Branch && j.Between.Contains(part, StringComparer.Ordinal)) is { } joint
        ? spool.Cuts.FirstOrDefault(c => c.Pipe.Id != part && joint.Between.Contains(c.Pipe.Id, StringComparer.Ordinal)) : null;

    private string Station(Cut header, Point branch, Vector way)
    {
        var lean = Math.Abs(header.Pipe.Direction.Dot(way)) > Tolerance.Turn ? "axes meet " : "";
        return $"{header.Piece}, {lean}{FromEnd(header, AxisMeets(header.Pipe, branch, way))}";
    }

    // From a square end that nothing is left on at for the site to trim, where there is one; on a saddle the line is told that a tape is held to.
    private string FromEnd(Cut cut, Point at)
    {
        var pipe = cut.Pipe;
        int Worse(bool isLong, SaddleEnd? saddle) => (isLong ? 2 : 0) + (saddle is null ? 0 : saddle.Lean.IsSquare ? 1 : 3);
        var saddles = cut.SaddlesAsCut;
        var isStart = Worse(pipe.ExtraAtStart, saddles.Start) <= Worse(pipe.ExtraAtEnd, saddles.End);
        var (end, crown) = (EndOf(cut, isStart), (isStart ? saddles.Start : saddles.End) is null ? "" : "the crown of ");
        var from = isStart ? (at - cut.Reach.Start).Dot(pipe.Direction) : (cut.Reach.End - at).Dot(pipe.Direction);
        return $"{RunningDimensions.Figure(f.Units, from)} from {crown}its {end}{(end == "open end" ? "" : " end")}{(pipe.ExtraAtStart && pipe.ExtraAtEnd ? ", extra on" : "")}";
    }

    // Where a line through a point in a direction comes nearest to a pipe's axis.
    private static Point AxisMeets(PipePiece header, Point at, Vector way)
    {
        var off = at - header.Start;
        var (b, d, e) = (header.Direction.Dot(way), header.Direction.Dot(off), way.Dot(off));
        var square = 1 - (b * b);
        return square < 1e-9 ? at : header.Start + (header.Direction * ((d - (b * e)) / square));
    }

    private static string Against(PartTurn? turn) => turn?.AgainstLast is not { } last ? "" : last.Angle < InPlane ? $", in plane with {last.Part}" : string.Create(CultureInfo.InvariantCulture, $", {Angles.ToDegrees(last.Angle):0.0}° out of {last.Part}'s plane");

    private string Turned(PartTurn? turn) => turn is null ? "" : Math.Abs(turn.Roll) < 1e-6
        ? $", at {(Math.Abs(turn.Looking.Z) > 0.98 ? "north" : "top")}"
        : string.Create(CultureInfo.InvariantCulture, $", {Angles.ToDegrees(Math.Abs(turn.Roll)):0.0}° {(turn.Roll > 0 ? "clockwise" : "anticlockwise")} from {(Math.Abs(turn.Looking.Z) > 0.98 ? "north" : "top")} looking {BoltCircle.NameOf(turn.Looking)}, {RunningDimensions.Figure(f.Units, turn.Round)} round the pipe");

    private static bool IsNamed(Vector way) => new[] { Vector.Up, Vector.North, Vector.East }.Any(a => Math.Abs(a.Dot(way)) > 0.9986);

    private static string Lower(string words) => char.ToLowerInvariant(words[0]) + words[1..].TrimEnd('.');
}
