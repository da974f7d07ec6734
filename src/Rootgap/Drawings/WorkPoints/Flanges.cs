using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>How a flange's bolt holes stand about the pipe.</summary>
/// <param name="Turn">From the straddling position, radians; half a pitch for on-centre is resolved when the number of holes is known.</param>
/// <param name="OnCentre">A hole stands on the reference line.</param>
/// <param name="From">The reference line, where the face is neither upright nor level; null for the usual one.</param>
public sealed record HoleOrientation(double Turn, bool OnCentre, Vector? From)
{
    /// <summary>Two holes straddle the usual line (common practice).</summary>
    public static readonly HoleOrientation Straddle = new(0, OnCentre: false, From: null);
}

/// <summary>An end flange, mating with something that is not in this drawing.</summary>
/// <param name="BoltingByOthers">The gasket and bolts are on the neighbour's list.</param>
/// <param name="IsBlinded">A blind flange is bolted against it: it mates with nothing else.</param>
public sealed record FlangePoint(HoleOrientation Holes, bool BoltingByOthers, bool IsBlinded) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("flange", ["holes", "holes from", "bolting", "blinded", "continues"], Read)
    {
        Ware = Ware.Flange,
        EndsRun = true,
        CanStart = true,
    };

    /// <summary>The drawing of the flange that it is bolted to; null where it meets equipment, or nobody says.</summary>
    public string? Continues { get; init; }

    public override string? GoesOnIn => Continues;

    internal override WorkPointKind Written => OfFile;

    private static FlangePoint Read(Fields f)
    {
        var (byOthers, blinded) = (f.Word("bolting", ["here", "by others"]) == "by others", f.YesNo("blinded") == true);
        if (byOthers && blinded)
            f.Error("key-does-not-fit", "bolting", "This flange is blinded: its gasket and bolts are in this drawing.", "Leave `bolting` out.");
        if (blinded && f.Has("continues"))
            f.Error("key-does-not-fit", "continues", "This flange is blinded: the line does not go on behind it.", "Leave `continues` or `blinded` out.");
        return new(f.Holes(), byOthers && !blinded, blinded) { Continues = f.Text("continues") };
    }
}

/// <summary>Two flanges face to face; the work point is the middle of the gasket. With a plate <c>between</c> them it is an <see cref="InLineItemPoint"/>, whose middle is the work point.</summary>
public sealed record FlangedJointPoint(HoleOrientation Holes) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("joint", ["holes", "holes from", "between", "mass"], Read) { Ware = Ware.Flange };

    internal override WorkPointKind Written => OfFile;

    private static WorkPoint? Read(Fields f)
    {
        var holes = f.Holes();
        if (!f.Has("between"))
        {
            if (f.Has("mass"))
                f.Error("key-does-not-fit", "mass", "The mass of a joint is that of what lies between its flanges, and nothing does.", "Take `mass:` out, or add `between:`.");
            return new FlangedJointPoint(holes);
        }

        if (f.IsWord("between"))
        {
            f.Error("wrong-type", "between", "What lies between the two flanges comes with its thickness.", "Write `between: {spacer: 20}`, or `spectacle blind` or `orifice plate` in place of `spacer`; in the app `spacer 20`.");
            return null;
        }

        if (f.Inner("between", DrawingShape.Between) is not { } between)
            return null;
        var given = InLineItemPoint.InJoints.Where(between.Has).ToList();
        if (given.Count != 1)
            f.Error("impossible-value", "between", "One thing lies between the two flanges of a joint, with its thickness.", "Write `between: {spacer: 20}`, or `spectacle blind` or `orifice plate` in place of `spacer`.");
        return given is [var what] && between.Length(what, Tolerance.Noise) is { } thickness ? InLineItemPoint.Between(what, thickness, f.Mass("mass"), holes) : null;
    }
}
