using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>How the new part leads from the joint to its free face: straight on (turn 0), or round a bend or a tee's corner.</summary>
/// <param name="Turn">Radians, 0 to pi/2 and a little more; pi for a return.</param>
/// <param name="Side">Unit, square to the joint's axis: the side the part turns to. Zero for a straight part.</param>
/// <param name="Radius">Radius of the bend, mm; 0 for a corner (a tee) and for straight parts.</param>
public sealed record FitTurn(double Turn, Vector Side, double Radius)
{
    public static readonly FitTurn Straight = new(0, Vector.Zero, 0);

    public bool IsStraight => Turn < Tolerance.Turn;
}

/// <summary>What kind of weld joins the parts, as far as fitting up goes.</summary>
public enum FitWeld { Butt, Socket, SlipOn, Branch }

/// <summary>
/// One weld between two assemblies, as they stand: the part at the weld that is held and the one that is brought to it, placed truly. Plant axes of the part
/// that stands on the stands, as that one is drawn; millimetres.
/// </summary>
public sealed record FitJoint
{
    /// <summary>The weld's name on the weld map: W3.</summary>
    public required string Name { get; init; }

    /// <summary>In which units it is spoken of.</summary>
    public Units Units { get; init; }

    /// <summary>The two parts at the weld.</summary>
    public required FitPart Held { get; init; }
    public required FitPart New { get; init; }

    /// <summary>What stands, and what is brought to it; the latter empty where both sides of the weld hang together already.</summary>
    public required Assembly HeldSide { get; init; }
    public required Assembly Brought { get; init; }

    public FitWeld Weld { get; init; }

    /// <summary>It is read after welding: its gap and its step are closed, and it has drawn in.</summary>
    public bool IsWelded { get; init; }

    /// <summary>Nominal size as written, for words only.</summary>
    public string Size { get; init; } = "";

    /// <summary>c: the middle of the root gap.</summary>
    public required Point Centre { get; init; }

    /// <summary>a: unit, from the held part into the new one.</summary>
    public required Vector Axis { get; init; }

    /// <summary>g: root gap, mm.</summary>
    public required double Gap { get; init; }

    /// <summary>Of a slip-on flange: how far the pipe's end stands behind the flange's face, mm; null for any other weld.</summary>
    public double? Setback { get; init; }

    /// <summary>D: outside diameter at the weld, mm.</summary>
    public required double Outside { get; init; }

    /// <summary>d: inside diameter at the weld, mm.</summary>
    public required double Inside { get; init; }

    /// <summary>The held part's other end.</summary>
    public required FitFace HeldFar { get; init; }

    /// <summary>Nothing is joined to the held part's other end.</summary>
    public bool IsHeldFarFree { get; init; }

    /// <summary>The part whose free end is the nearest one behind a held fitting, which bears no marks; null where a pipe is held, and where nothing is open.</summary>
    public FitPart? HeldEnd { get; init; }

    /// <summary>That end's face.</summary>
    public FitFace? HeldEndFace { get; init; }

    /// <summary>How a direction of the weld's cross-section is carried to it: turn after turn, unit axis and radians.</summary>
    public IReadOnlyList<(Vector Axis, double Angle)> HeldCarry { get; init; } = [];

    /// <summary>Straight pipe behind the weld on the held part, mm: what marks can be punched on. 0 for a fitting.</summary>
    public double HeldStraight { get; init; }

    /// <summary>How the held part leads from its far end to the weld: an elbow's turn, seen from its far end. Straight for a pipe.</summary>
    public FitTurn HeldTurn { get; init; } = FitTurn.Straight;

    /// <summary>Straight pipe behind a held elbow, mm: what a scale laid on a flange's face reaches back over. 0 where there is none.</summary>
    public double HeldBehind { get; init; }

    /// <summary>The held elbow's far end as the pipe behind it has it (it stands as that pipe does). None where no pipe is behind.</summary>
    public FitFace? HeldBehindFace { get; init; }

    /// <summary>The way through the new part to what is read at its far side.</summary>
    public FitTurn Turn { get; init; } = FitTurn.Straight;

    /// <summary>The free face that is read at the far side; none where the brought assembly has none.</summary>
    public FitFace? Far { get; init; }

    /// <summary>The part whose free end <see cref="Far"/> is.</summary>
    public FitPart? End { get; init; }

    /// <summary>Nothing on the rim of <see cref="Far"/> says which point of the metal it is: the end lies on its pipe's own axis.</summary>
    public bool IsRound => End is { ShowsClock: false };

    /// <summary>The turns by which a direction of the weld's cross-section goes to the free face, part after part: unit axis and radians.</summary>
    public IReadOnlyList<(Vector Axis, double Angle)> Carry { get; init; } = [];

    /// <summary>Outermost place of the new part: the free face's centre, or a cap's crown.</summary>
    public required Point Tip { get; init; }

    /// <summary>Bolt holes of the flange whose face is free.</summary>
    public FitHoles? Holes { get; init; }

    /// <summary>A branch weld's header: unit direction along it. Zero elsewhere.</summary>
    public Vector Header { get; init; }

    /// <summary>Header's outside diameter for a branch weld, mm.</summary>
    public double HeaderOutside { get; init; }

    /// <summary>Where the branch stands on its header: mm along it from the held part's far end, and mm round its outside from its top as drawn
    /// (north where it stands upright), clockwise positive looking from that end. Null elsewhere.</summary>
    public (double Along, double Round)? BranchAt
    {
        get
        {
            if (Weld != FitWeld.Branch || Header == Vector.Zero)
                return null;
            var away = -HeldFar.Normal;
            var top = SetUp.AsDrawnTop(away);
            var angle = Math.Atan2(away.Cross(top).Dot(Axis), top.Dot(Axis));
            return ((Centre - HeldFar.Centre).Dot(away), angle * HeaderOutside / 2);
        }
    }

    /// <summary>An eccentric reducer's flat side: unit, from the axis to the flat. Zero elsewhere.</summary>
    public Vector Flat { get; init; }

    /// <summary>Bodies of both assemblies, and what else stands in the way of lines.</summary>
    public IReadOnlyList<Solid> Bodies { get; init; } = [];

    /// <summary>The held part's own bodies, and the new part's: for pictures.</summary>
    public IReadOnlyList<Solid> HeldBodies { get; init; } = [];
    public IReadOnlyList<Solid> NewBodies { get; init; } = [];

    /// <summary>The motion of each part from its place as drawn, by id, the brought assembly placed truly.</summary>
    public IReadOnlyDictionary<string, Motion> Places { get; init; } = new Dictionary<string, Motion>();

    /// <summary>The motion of a part from its place as drawn.</summary>
    internal Motion PlaceOf(FitPart part) => Places.TryGetValue(part.Id, out var motion) ? motion : Motion.None;

    /// <summary>The place of the finished spool farthest from this joint on the new part's side: where an error here is seen largest.</summary>
    public required Point SpoolEnd { get; init; }

    /// <summary>Longest straight line within the spool, mm: no tape reading can be longer.</summary>
    public double SpoolReach { get; init; } = double.PositiveInfinity;

    /// <summary>Turning what is brought about the pipe changes nothing that matters: plain pipe, concentric reducers, caps.</summary>
    public bool RollIsFree { get; init; }

    /// <summary>The weld closes a ring: nothing is brought, only gaps and steps are read.</summary>
    public bool IsRing => Brought.Parts.Length == 0;

    /// <summary>All that is there when the joint is tacked.</summary>
    public Assembly Both => IsRing ? HeldSide : HeldSide.With(Brought);

    /// <summary>Default distance of the quarter marks from the held end, mm: 300, or half a piece shorter than 600, rounded down to 5; in inches 12", or half rounded down to 1/4"; 0 where there is no pipe to mark.</summary>
    public double DefaultMark => Units == Units.Inches ? MarkOf(12 * LengthText.Inch, LengthText.Inch / 4) : MarkOf(300, 5);

    private double MarkOf(double usual, double part) => 2 * usual <= HeldStraight ? usual : Math.Floor(HeldStraight / 2 / part) * part;
}
