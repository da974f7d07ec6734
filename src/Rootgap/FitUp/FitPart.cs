using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>A face at a part's end.</summary>
/// <param name="Centre">Centre of the face.</param>
/// <param name="Normal">Unit, out of the part.</param>
/// <param name="Outside">Outside diameter there, mm: the lips'; for a flange its outside diameter.</param>
public sealed record FitFace(Point Centre, Vector Normal, double Outside);

/// <summary>An end of a part as it is cut for the shop.</summary>
/// <param name="At">Its middle, mm: where its metal ends, final-fit extra and shrinkage allowance included.</param>
/// <param name="Nose">Where it meets its weld, mm: the shrinkage allowance included, the extra not.</param>
/// <param name="Drawn">Where the drawing has it.</param>
/// <param name="Face">Unit vector out of the part.</param>
/// <param name="Outside">Outside diameter, mm.</param>
/// <param name="Bore">Inside diameter, mm.</param>
/// <param name="Base">Diameter of the circle on which it stands when it stands on this end, mm; 0 where it is not square.</param>
/// <param name="StandsOn">What it then stands on, in words: the land of its bevel, its plain end, its raised face.</param>
public sealed record FitEnd(PortName Name, Point At, Point Nose, Point Drawn, Vector Face, double Outside, double Bore, double Base, string StandsOn)
{
    /// <summary>How it is cut to lie on a header; null where it is square.</summary>
    internal SaddleEnd? Saddle { get; init; }

    public FitFace AsFace => new(At, Face, Outside);

    /// <summary>Name of the joint at it, also of one to be made elsewhere; empty where it stays open.</summary>
    public string Joint { get; init; } = "";

    /// <summary>How much straighter one way on must be than another to be chosen before it.</summary>
    private const double Plainly = 0.02;

    /// <summary>Of other ends the one that leads on straightest from this one; of those that turn alike the first. Null where there is no other.</summary>
    public static FitEnd? Onward(IReadOnlyList<FitEnd> ends, FitEnd from)
    {
        FitEnd? best = null;
        foreach (var end in ends)
        {
            if (end != from && (best is null || end.Face.Dot(from.Face) < best.Face.Dot(from.Face) - Plainly))
                best = end;
        }

        return best;
    }
}

/// <summary>One part as it is fitted: cut, with its extra, before any weld has drawn in. Plant axes as drawn, mm, kg.</summary>
/// <param name="Id">Its name in files: a component C1.. or a pipe P1...</param>
/// <param name="Label">What stands on it in the shop, and is said to people: a pipe's piece mark 2-B, a component's number C1.</param>
/// <param name="Kind">The trade's word: pipe, elbow, flange, tee, reducer, cap, branch outlet, valve.</param>
/// <param name="Order">Place along the line, 0, 1, 2 ...</param>
/// <param name="Mass">kg; null where nobody knows it.</param>
/// <param name="Centre">Centre of mass of its solid.</param>
/// <param name="Bodies">Simple solids of its outside.</param>
/// <param name="Ends">Its ends, along the line.</param>
/// <param name="ShowsClock">Its ends show how it is turned about the pipe; a round end does not.</param>
public sealed record FitPart(
    string Id, string Label, string Kind, int Order, double? Mass, Point Centre, IReadOnlyList<Solid> Bodies, IReadOnlyList<FitEnd> Ends, bool ShowsClock)
{
    /// <summary>The part of the route.</summary>
    public required Part Of { get; init; }

    /// <summary>Bolt holes of a flange that is welded fast; null for anything else, and where no reference line is known.</summary>
    public FitHoles? Holes { get; init; }

    /// <summary>What stands in the way of lines besides the bodies: the side of a valve's stem, on which nothing is read.</summary>
    public Solid? Screen { get; init; }

    public bool IsPipe => Of is PipePiece;

    /// <summary>A lap joint: the stub end is welded, its flange is loose and goes on before.</summary>
    public bool IsLap => Of is Flange { Stub: not null };

    /// <summary>Pipe goes into its ends, sockets or threads: a tape lies on the edge of the hole, which is as wide as the pipe on every maker's part; the rim round it is not.</summary>
    public bool HasHoles => Of switch
    {
        Outlet outlet => outlet.Ends is FittingEnds.Socket or FittingEnds.Threaded,
        InLine inLine => inLine.Ends is FittingEnds.Socket or FittingEnds.Threaded,
        Elbow or Tee or Coupling or Union => ((Component)Of).Line.Ends is FittingEnds.Socket or FittingEnds.Threaded,
        _ => false,
    };

    /// <summary>Length of a pipe as cut, mm; 0 for anything else.</summary>
    public double Straight => IsPipe ? Ends[0].At.To(Ends[1].At) : 0;

    /// <summary>Unit direction of a pipe along the line; zero for anything else.</summary>
    public Vector Direction => Of is PipePiece pipe ? pipe.Direction : Vector.Zero;

    public double Outside => Of.Outside;

    internal static FitPart Make(Cut cut, int order)
    {
        var pipe = cut.Pipe;
        var each = cut.Extra / Math.Max(1, (pipe.ExtraAtStart ? 1 : 0) + (pipe.ExtraAtEnd ? 1 : 0));
        var (first, last) = cut.Allowances;
        FitEnd[] ends =
        [
            End(PortName.RunIn, pipe.Start, -pipe.Direction, first, pipe.ExtraAtStart ? each + cut.StillSquare.Start : 0, pipe.AtStart, pipe.FreeStart, cut.SaddlesAsCut.Start),
            End(PortName.RunOut, pipe.End, pipe.Direction, last, pipe.ExtraAtEnd ? each + cut.StillSquare.End : 0, pipe.AtEnd, pipe.FreeEnd, cut.SaddlesAsCut.End),
        ];
        IReadOnlyList<Solid> bodies = pipe.IsThere ? [Solid.Cylinder(ends[0].At, ends[1].At, pipe.Outside / 2)] : [];
        return new(pipe.Id, cut.Piece, pipe.Word, order, cut.Mass, ends[0].At.Toward(ends[1].At, 0.5), bodies, ends, ShowsClock: false) { Of = pipe };

        FitEnd End(PortName name, Point at, Vector face, double allowance, double extra, PipeEnd joined, Drawings.OpenEnds? free, SaddleEnd? saddle)
        {
            var nose = at + (face * allowance);
            var isBevelled = joined.IsButt || free == Drawings.OpenEnds.Bevel;
            var (diameter, says) = saddle is not null ? (0, "its saddle") : isBevelled ? (pipe.Inside, "the land of its bevel") : (pipe.Outside, "its plain end");
            return new(name, nose + (face * extra), nose, at, face, pipe.Outside, pipe.Inside, diameter, says) { Saddle = saddle };
        }
    }

    internal static FitPart Make(Component c, int order)
    {
        IReadOnlyList<FitEnd> ends = [.. c.Ports.Select(End)];
        return new(c.Id, c.Id, c is Outlet ? "branch outlet" : c.Word, order, c.Mass?.Kg, c.Centre, c.Bodies, ends, c.ShowsClock)
        {
            Of = c,
            Holes = c is Flange { Stub: null, Holes: { } holes } ? new FitHoles(holes.Bolts.Count, holes.Bolts.Circle, holes.Between) : null,
            Screen = c is Valve { Kind: not Drawings.ValveKind.Check, Path: > 0 } valve
                ? Solid.Cylinder(valve.Centre, valve.Centre + (valve.Stem * (20 * Math.Max(valve.Outside, valve.Path))), Math.Max(valve.Outside, valve.Path) / 2)
                : null,
        };

        FitEnd End(Port port)
        {
            var (diameter, says) = c switch
            {
                Flange { Shape: { } shape } when port.Name == PortName.Face => (shape.FaceDiameter, "its face"),
                Flange when port.Name == PortName.Face => (port.Outside, "its face"),
                Outlet when port.Name == PortName.Weld => (0, "its foot"),
                Component { Line.Ends: Drawings.FittingEnds.Socket or Drawings.FittingEnds.Threaded } => (port.Outside, "its end"),
                _ => (port.Bore, "the land of its bevel"),
            };
            // What is read at a lap joint is read at the lap: its flange is loose and sags.
            var outside = c is Flange { Stub.LapDiameter: { } lap } && port.Name == PortName.Face ? lap : port.Outside;
            return new(port.Name, port.At, port.At, port.At, port.Face, outside, port.Bore, diameter, says);
        }
    }
}
