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
        var units = route.Drawing.Units;
        var sets = new List<BoltSet>();
        var at = 0;
        foreach (var joint in route.Joints)
        {
            if (joint.Kind != JointKind.Bolted || joint.ByOthers || joint.SharesStuds)
                continue;
            if (StandardTable.Find("flanges", "flange", "holes", joint.Size, @class: joint.Class) is not { } holes
                || StandardTable.Find("flanges", "flange", "bolt diameter", joint.Size, @class: joint.Class) is not { Inches: { } diameter })
            {
                continue;
            }

            // Joints and components are both in line order, so the search goes on where the last one ended.
            var flange = Next(route.Components, joint.Between[0], ref at);
            var attribute = flange.Line.Facing == Facing.RingJoint ? "length RTJ" : "length RF";
            var row = StandardTable.Find("studs", "stud", attribute, joint.Size, @class: joint.Class);
            var length = row?.In(units) ?? 0;
            var step = units == Units.Inches ? StepIn : StepMm;
            if (length > 0 && joint.ExtraGrip > 0)
                length = Math.Ceiling((length + joint.ExtraGrip) / step) * step;
            sets.Add(new(joint, NominalSize.OfInches(diameter), (int)holes.Figure, length, row?.Source ?? "not in the standard"));
        }

        return sets;
    }

    private static Component Next(IReadOnlyList<Component> components, string id, ref int at)
    {
        while (components[at % components.Count].Id != id)
            at++;
        return components[at % components.Count];
    }
}
