using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>A joint after the least movement, as a fitter reads it.</summary>
/// <param name="Side">Shift toward 3 o'clock, mm.</param>
/// <param name="Up">Shift toward 12 o'clock, mm.</param>
/// <param name="RollMm">Turn of the second side against the first, clockwise seen along the line, mm round the outside (at the bolt circle of a bolted joint).</param>
/// <param name="Gaps">At 12, 3, 6, 9, mm: the gap; at a final-fit weld what is to be cut off.</param>
public sealed record JointAfter(double Side, double Up, double RollMm, IReadOnlyList<double> Gaps, bool IsCut)
{
    public static JointAfter Of(LineClosing closing, SiteJoint joint)
    {
        var standing = closing.Movement.After;
        var e = Adjustment.Opening(joint, standing);
        var roll = e.Rz * (joint.Bolting?.Circle ?? joint.Outside) / 2;
        if (closing.Closures.All(c => c.Joint != joint))
            return new(e.X, e.Y, roll, [.. Clock.Quarters.Select(q => new SiteReading.Gap(joint, q).Of(standing))], IsCut: false);
        var o = Opening.Of(joint, standing);
        return new(o.OffsetSide, o.OffsetUp, roll, [o.Round[0], o.Round[4], o.Round[8], o.Round[12]], IsCut: true);
    }
}
