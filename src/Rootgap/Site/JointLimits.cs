using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site;

/// <summary>How far a joint made at site is out as it is usually made, each way, and how far a spool's end may be from the drawing. All limits mm and radians.</summary>
public static class JointLimits
{
    /// <summary>Direction of what follows a weld: 3/64 in. in a foot (PFI ES-3).</summary>
    public static readonly double Lean = Angles.ToRadians(0.22);

    /// <summary>Step between the insides of a weld, mm (common practice; ASME B31.3 328.4.3 leaves it to the procedure).</summary>
    public const double HiLo = 1.5;

    /// <summary>Gap of a weld that is made, mm: the root gap's own 0.8 and as much of shrinkage (common practice).</summary>
    public const double MadeGap = 1.6;

    /// <summary>Along a bolted joint the gasket takes up so much, mm (common practice).</summary>
    public const double Gasket = 0.5;

    /// <summary>Faces of a bolted joint, across their outside, mm (common practice).</summary>
    public const double FaceLean = 0.5;

    /// <summary>Turn of a spool's end about itself, mm at the bolt circle or round the outside (PFI ES-3).</summary>
    public const double EndRoll = 1.6;

    /// <summary>A joint as made: the six of its opening.</summary>
    public static PoseError AsMade(SiteJoint joint)
    {
        if (joint.Bolting is { } bolting)
        {
            var side = bolting.Play / 2;
            var lean = FaceLean / joint.Outside;
            return new(side, side, Gasket, lean, lean, Math.Min(side / (bolting.Circle / 2), Lean));
        }

        return new(HiLo, HiLo, joint.IsBolted ? Gasket : MadeGap, Lean, Lean, Lean);
    }

    /// <summary>An end of a spool that has passed its final check, in its joint's axes (PFI ES-3).</summary>
    public static PoseError EndOfSpool(SiteJoint joint)
    {
        var place = joint.Joint.Size.Inches switch { <= 10 => 3.0, <= 24 => 5, _ => 6 };
        return new(place, place, place, Lean, Lean, EndRoll / ((joint.Bolting?.Circle ?? joint.Outside) / 2));
    }

    /// <summary>One standard deviation of an error that may be anywhere within its limit.</summary>
    public static double Spread(double limit) => limit / Math.Sqrt(3);
}
