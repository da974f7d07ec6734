using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Tests.Site.Splitting;

/// <summary>
/// Whether a marked drawing may be carried and can close, and what its marks cost, worked out apart from the search: from the packet of the drawing with the marks
/// written in it, by site.md section 7 read again.
/// </summary>
internal static class SplitByHand
{
    public static bool IsGood(Packet packet, int[] legOfRow)
    {
        var shop = packet.Drawing.Shop;
        double[] limits = [.. new[] { shop.EnvelopeLength, shop.EnvelopeWidth, shop.EnvelopeHeight }.Order()];
        foreach (var spool in packet.Fabrication.Spools)
        {
            var discs = new List<(Point At, Vector Face, double Radius)>();
            foreach (var c in spool.Components)
                discs.AddRange(c.Ports.Select(p => (p.At, p.Face, Outside(c, p.Name) / 2)));
            foreach (var cut in spool.Cuts)
            {
                var p = cut.Pipe;
                discs.Add((p.Start - (p.Direction * (p.ExtraAtStart ? shop.FinalFitExtra : 0)), p.Direction, p.Outside / 2));
                discs.Add((p.End + (p.Direction * (p.ExtraAtEnd ? shop.FinalFitExtra : 0)), p.Direction, p.Outside / 2));
            }

            if (spool.Mass > shop.EnvelopeMass || !Fits(discs, limits))
                return false;
        }

        var joints = packet.Fabrication.Route.Joints;
        var finals = joints.Where(j => j.Place == WeldPlace.FinalFit).ToList();
        return finals.GroupBy(j => (j.Run, legOfRow[j.Leg])).All(g => g.Count() == 1) && EveryWayHasOne(joints);
    }

    /// <summary>What is welded at site joins two spools: a weld within one could be made in the shop.</summary>
    public static bool EveryMarkParts(Packet packet)
    {
        string SpoolOf(string part) => packet.Fabrication.Spools.First(s => s.Components.Any(c => c.Id == part) || s.Cuts.Any(c => c.Pipe.Id == part)).Name;
        return packet.Fabrication.Route.Joints.Where(j => j.IsWeld && j.Place != WeldPlace.Shop && j.Between.Count == 2).All(j => SpoolOf(j.Between[0]) != SpoolOf(j.Between[1]));
    }

    private static double Outside(Component c, PortName port) => c.Ware == Ware.Flange && port == PortName.Face
        ? StandardTable.Find("flanges", "flange", "outside diameter", c.Size, @class: c.Line.Class)!.Mm!.Value
        : Pipes.OutsideDiameter(c.Size)!.Mm!.Value;

    /// <summary>One side along a normal, a second along the part of another one square to it; one direction alone may be turned as one likes.</summary>
    private static bool Fits(List<(Point At, Vector Face, double Radius)> discs, double[] limits)
    {
        foreach (var a in discs)
        {
            foreach (var b in discs)
            {
                var v = b.Face - (a.Face * b.Face.Dot(a.Face));
                var second = v.Length > 1e-9 ? v / v.Length : a.Face.AnySquare();
                if (v.Length <= 1e-9 && discs.Exists(d => (d.Face - (a.Face * d.Face.Dot(a.Face))).Length > 1e-9))
                    continue;
                double[] sides = [.. new[] { Side(discs, a.Face), Side(discs, second), Side(discs, a.Face.Cross(second)) }.Order()];
                if (sides[0] <= limits[0] && sides[1] <= limits[1] && sides[2] <= limits[2])
                    return true;
            }
        }

        return false;
    }

    private static double Side(List<(Point At, Vector Face, double Radius)> discs, Vector d)
    {
        double Reach((Point At, Vector Face, double Radius) disc, int sign) =>
            (sign * (disc.At - Point.Origin).Dot(d)) + (disc.Radius * Math.Sqrt(Math.Max(0, 1 - Math.Pow(disc.Face.Dot(d), 2))));
        return discs.Max(x => Reach(x, 1)) + discs.Max(x => Reach(x, -1));
    }

    private static bool EveryWayHasOne(IReadOnlyList<Joint> joints)
    {
        foreach (var from in joints.Where(j => j.Between.Count == 1 && j.Place != WeldPlace.FinalFit))
        {
            var reached = new HashSet<string>(from.Between, StringComparer.Ordinal);
            for (var grown = true; grown;)
            {
                grown = false;
                foreach (var j in joints.Where(j => j.Between.Count == 2 && j.Place != WeldPlace.FinalFit && j.Between.Any(reached.Contains)))
                    grown |= reached.Add(j.Between[0]) | reached.Add(j.Between[1]);
            }

            if (joints.Any(j => j != from && j.Between.Count == 1 && j.Place != WeldPlace.FinalFit && reached.Contains(j.Between[0])))
                return false;
        }

        return true;
    }

    /// <summary>Field 1 and final-fit 1.6 an inch; a place that was not drawn 0.5, off level 0.3, a fitting within one diameter 0.3, over 2 m up 0.2; a spool in three directions 0.5 of its size.</summary>
    public static double Cost(Packet packet, Func<Joint, bool> isNew)
    {
        var route = packet.Fabrication.Route;
        var cost = 0.0;
        foreach (var joint in route.Joints.Where(j => j.IsWeld && j.Place != WeldPlace.Shop))
        {
            var each = joint.Place == WeldPlace.FinalFit ? 1.6 : 1;
            if (isNew(joint))
                each += 0.5;
            if (Math.Abs(joint.Axis.Z) > Math.Sin(5 * Math.PI / 180))
                each += 0.3;
            if (joint.Between.Any(id => route.ComponentOf(id) is not null))
                each += 0.3;
            if (joint.At.Z > 2000)
                each += 0.2;
            cost += each * joint.Size.Inches;
        }

        foreach (var spool in packet.Fabrication.Spools)
        {
            var d = spool.Cuts.Select(c => c.Pipe.Direction).ToList();
            if ((from a in d from b in d from c in d select Math.Abs(a.Cross(b).Dot(c))).Any(v => v > 0.1))
                cost += 0.5 * Math.Max(spool.Components.Select(c => c.Size.Inches).DefaultIfEmpty().Max(), spool.Cuts.Max(c => c.Pipe.Size.Inches));
        }

        return cost;
    }
}
