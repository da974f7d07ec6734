using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>One part at a joint: what it weighs and where it is. Plant axes, mm, kg.</summary>
/// <param name="Id">The part's name: a component C1.. or a pipe P1...</param>
/// <param name="Kind">The trade's word: pipe, elbow, flange, tee, reducer, cap, branch outlet, stub-in, valve.</param>
/// <param name="Mass">kg.</param>
/// <param name="Centre">Centre of mass.</param>
/// <param name="Bodies">Simple solids of its outside.</param>
public sealed record FitPart(string Id, string Kind, double Mass, Point Centre, IReadOnlyList<Solid> Bodies);

/// <summary>How the new part leads from the joint to its free face: straight on (turn 0), or round a bend or a tee's corner.</summary>
/// <param name="Turn">Radians, 0 to pi/2 and a little more.</param>
/// <param name="Side">Unit, square to the joint's axis: the side the part turns to. Zero for a straight part.</param>
/// <param name="Radius">Radius of the bend, mm; 0 for a corner (a tee) and for straight parts.</param>
public sealed record FitTurn(double Turn, Vector Side, double Radius)
{
    public static readonly FitTurn Straight = new(0, Vector.Zero, 0);

    public bool IsStraight => Turn < Tolerance.Turn;
}

/// <summary>A face at a part's end.</summary>
/// <param name="Centre">Centre of the face.</param>
/// <param name="Normal">Unit, out of the part.</param>
/// <param name="Outside">Outside diameter there, mm: the lips'; for a flange its outside diameter.</param>
public sealed record FitFace(Point Centre, Vector Normal, double Outside);

/// <summary>Bolt holes of a flange face.</summary>
/// <param name="Count">Number of holes.</param>
/// <param name="Circle">Bolt circle diameter, mm.</param>
/// <param name="Between">Unit, in the face: from its centre to the middle between two neighbouring holes.</param>
public sealed record FitHoles(int Count, double Circle, Vector Between)
{
    /// <summary>Distance between neighbouring pins (the chord), mm: BC sin(180/N).</summary>
    public double Chord => Circle * Math.Sin(Math.PI / Count);

    /// <summary>What 1.6 mm of turning at the bolt circle shows as across the top pair, mm: 3.2 sin(180/N).</summary>
    public double Shows(double turning) => 2 * turning * Math.Sin(Math.PI / Count);

    /// <summary>From 16 holes up the pins at left and right near mid-height are read: farther apart, they show more.</summary>
    public bool MidHeight => 16 <= Count;

    /// <summary>Distance between the two pins that are read, mm: the top pair, or from 16 holes up the left and right pair near mid-height.</summary>
    public double ReadAcross => MidHeight ? Circle * Math.Cos(Math.PI / Count) : Chord;
}

/// <summary>What kind of weld joins the parts, as far as fitting up goes.</summary>
public enum FitWeld { Butt, Socket, SlipOn, Branch }

/// <summary>One weld with the part that is held and the part that is brought to it, as drawn. Plant axes, millimetres.</summary>
public sealed record FitJoint
{
    /// <summary>The weld's name on the weld map: W3.</summary>
    public required string Name { get; init; }
    public required FitPart Held { get; init; }
    public required FitPart New { get; init; }
    public FitWeld Weld { get; init; }

    /// <summary>Nominal size as written, for words only.</summary>
    public string Size { get; init; } = "";

    /// <summary>c: the middle of the root gap.</summary>
    public required Point Centre { get; init; }

    /// <summary>a: unit, from the held part into the new one.</summary>
    public required Vector Axis { get; init; }

    /// <summary>g: root gap, mm.</summary>
    public required double Gap { get; init; }

    /// <summary>D: outside diameter at the weld, mm.</summary>
    public required double Outside { get; init; }

    /// <summary>d: inside diameter at the weld, mm.</summary>
    public required double Inside { get; init; }

    /// <summary>The held part's other end.</summary>
    public required FitFace HeldFar { get; init; }

    /// <summary>Straight pipe behind the weld on the held part, mm: what marks can be punched on. 0 for a fitting.</summary>
    public double HeldStraight { get; init; }

    /// <summary>How the held part leads from its far end to the weld: an elbow's turn, seen from its far end. Straight for a pipe.</summary>
    public FitTurn HeldTurn { get; init; } = FitTurn.Straight;

    /// <summary>Straight pipe behind a held elbow, mm: what a scale laid on a flange's face reaches back over. 0 where there is none.</summary>
    public double HeldBehind { get; init; }

    public FitTurn Turn { get; init; } = FitTurn.Straight;

    /// <summary>The new part's free face; none for a cap.</summary>
    public FitFace? Far { get; init; }

    /// <summary>Outermost place of the new part on its own axis: the face's centre, or a cap's crown.</summary>
    public required Point Tip { get; init; }

    /// <summary>A tee entered at its run: length of the run past the weld plane, mm. 0 elsewhere.</summary>
    public double Run { get; init; }

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
            if (Weld != FitWeld.Branch)
                return null;
            var away = -HeldFar.Normal;
            var top = SetUp.AsDrawnTop(away);
            var angle = Math.Atan2(away.Cross(top).Dot(Axis), top.Dot(Axis));
            return ((Centre - HeldFar.Centre).Dot(away), angle * HeaderOutside / 2);
        }
    }

    /// <summary>An eccentric reducer's flat side: unit, from the axis to the flat. Zero elsewhere.</summary>
    public Vector Flat { get; init; }

    /// <summary>The place of the finished spool farthest from this joint on the new part's side: where an error here is seen largest.</summary>
    public required Point SpoolEnd { get; init; }

    /// <summary>Longest straight line within the spool, mm: no tape reading can be longer.</summary>
    public double SpoolReach { get; init; } = double.PositiveInfinity;

    /// <summary>Longest piece that is stood on end, mm (shop rule).</summary>
    public double OnEndLimit { get; init; } = SetUp.LongestOnEnd;

    /// <summary>Turning the new part about the pipe changes nothing that matters: a plain pipe, a concentric reducer, a cap.</summary>
    public bool RollIsFree => Turn.IsStraight && Holes is null && Flat == Vector.Zero && Weld != FitWeld.Branch && New.Kind is not ("valve" or "tee");

    /// <summary>Default distance of the quarter marks from the held end, mm: 300, or half a piece shorter than 600, rounded down to 5; 0 where there is no pipe to mark.</summary>
    public double DefaultMark => 600 <= HeldStraight ? 300 : Math.Floor(HeldStraight / 2 / 5) * 5;
}
