using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Studs of bolted joints by ASME B16.5.</summary>
internal static class Bolts
{
    /// <summary>Stud lengths are ordered in steps of this, mm (ASME B16.5 tables) or a quarter of an inch.</summary>
    private const double StepMm = 5;

    private const double StepIn = LengthText.Inch / 4;

    public static List<BoltSet> Of(Route route)
    {
        var sets = new List<BoltSet>();
        foreach (var joint in route.Joints)
        {
            if (joint.Kind != JointKind.Bolted || joint.ByOthers || joint.SharesStuds || FlangeOf(route, joint) is not { Bolts: { } bolts } flange)
                continue;
            var (length, origin) = LengthOf(joint, flange, route.Drawing.Units);
            sets.Add(new(joint, bolts.Bolt, bolts.Count, length, origin));
        }

        return sets;
    }

    private static Flange? FlangeOf(Route route, Joint joint)
    {
        foreach (var id in joint.Between)
        {
            if (route.ComponentOf(id) is Flange flange)
                return flange;
        }

        return null;
    }

    /// <summary>
    /// The table's length for two raised or ring-joint faces, and what stands between the flanges besides: a wafer body, two laps, a spacer. From class 400 up a lap
    /// stands in the place of a raised face of 7 mm, which the table counts (ASME B16.5 annex C: F is the height of both facings); the thin face of classes 150 and 300 is left in.
    /// </summary>
    private static (double Mm, Origin Origin) LengthOf(Joint joint, Flange flange, Units units)
    {
        var table = flange.Line.Facing == Facing.RingJoint ? FlangeTable.StudRingJoint : FlangeTable.StudRaisedFace;
        if (table.Of(joint.Size, @class: joint.Class) is not { } row)
            return (0, Origin.NotInTheStandard);
        var length = row.In(units);
        if (joint.ExtraGrip <= 0)
            return (length, new Origin.Table(row));
        var laps = joint.Between.Count;
        var faces = flange is { Stub: not null, Shape: { } shape } && !FlangeEnd.IsThin(flange.Line) ? laps * shape.FaceHeight : 0;
        var step = units == Units.Inches ? StepIn : StepMm;
        return (Math.Ceiling(((length + joint.ExtraGrip - faces) / step) - Tolerance.Noise) * step, new Origin.Table(row));
    }
}
