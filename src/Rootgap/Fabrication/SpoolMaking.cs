using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Mass, box, surface and content of spools from their parts.</summary>
internal static class SpoolMaking
{
    private const int ArcPoints = 8;

    public static List<Spool> All(
        Route route, Dictionary<string, string> spoolOf, List<Cut> cuts, Dictionary<string, (double Kg, string Source)> masses)
    {
        var names = route.Components.Where(c => !c.IsLoose).Select(c => (c.Run, Leg: (double)c.Leg, c.Id))
            .Concat(route.Pipes.Select(p => (p.Run, Leg: p.FirstLeg - 0.5, p.Id)))
            .OrderBy(p => p.Run).ThenBy(p => p.Leg).Select(p => spoolOf[p.Id]).Distinct(StringComparer.Ordinal);
        var components = route.Components.Where(c => !c.IsLoose).ToLookup(c => spoolOf[c.Id], StringComparer.Ordinal);
        var pieces = cuts.ToLookup(c => c.Spool, StringComparer.Ordinal);
        return [.. names.Select(name => One(route, name, [.. components[name]], [.. pieces[name]], spoolOf, masses))];
    }

    /// <summary>Outside diameter and wall of the tube of which a component is made, mm.</summary>
    public static (double Outside, double Wall) Tube(Component c, Units units)
    {
        var outside = Pipes.OutsideDiameter(c.Size)?.In(units) ?? 0;
        var wall = c.Line.Schedule.Wall ?? Pipes.Wall(c.Size, c.Line.Schedule.Name)?.In(units) ?? 0;
        return (outside, wall);
    }

    private static Spool One(
        Route route, string name, Component[] components, Cut[] cuts, Dictionary<string, string> spoolOf, Dictionary<string, (double Kg, string Source)> masses)
    {
        var units = route.Drawing.Units;
        var mass = 0.0;
        var moment = Vector.Zero;
        var box = new Box();
        var (paint, content) = (0.0, 0.0);
        var unweighed = new List<string>();
        foreach (var cut in cuts)
        {
            var pipe = cut.Pipe;
            var (start, end) = (pipe.Start - (pipe.Direction * (pipe.ExtraAtStart ? route.Drawing.Shop.FinalFitExtra : 0)), pipe.End + (pipe.Direction * (pipe.ExtraAtEnd ? route.Drawing.Shop.FinalFitExtra : 0)));
            Add(cut.Mass, start.Toward(end, 0.5));
            box.Add(start, pipe.Direction, pipe.Outside / 2);
            box.Add(end, pipe.Direction, pipe.Outside / 2);
            var length = Math.Max(0, cut.Length);
            paint += Math.PI * pipe.Outside * length;
            content += Math.PI / 4 * pipe.Inside * pipe.Inside * length;
        }

        foreach (var c in components)
        {
            var (outside, wall) = Tube(c, units);
            var centre = AddToBox(box, c, outside, units);
            if (masses.TryGetValue(c.Id, out var known))
                Add(known.Kg, centre);
            else
                unweighed.Add(c.Id);
            var inside = Math.Max(0, outside - (2 * wall));
            var path = Weight.Path(c, outside);
            paint += Math.PI * outside * path;
            content += Math.PI / 4 * inside * inside * path;
        }

        var joints = route.Joints.Where(j => j.Between.Any(id => spoolOf.GetValueOrDefault(id) == name)).ToList();
        var shop = joints.Where(j => j is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted }).ToList();
        return new Spool
        {
            Name = name,
            Components = components,
            Cuts = cuts,
            Joints = shop,
            Ends = [.. joints.Except(shop)],
            Mass = mass,
            Unweighed = unweighed,
            CentreOfMass = mass > 0 ? Point.Origin + (moment / mass) : box.From,
            BoxFrom = box.From,
            BoxTo = box.To,
            PaintArea = paint,
            Content = content,
            Lengths = Lengths(route, components, cuts, shop),
        };

        void Add(double kg, Point at)
        {
            mass += kg;
            moment += (at - Point.Origin) * kg;
        }
    }

    /// <summary>Puts a component into the box; returns about where its mass is.</summary>
    private static Point AddToBox(Box box, Component c, double outside, Units units)
    {
        if (c is { Ware: Ware.Elbow, Turn: { } turn, Radius: { } radius, Ports: [var a, var b] } && turn > Tolerance.Turn)
        {
            // A 45 degree elbow is a little longer than its arc (ASME B16.9: B against R tan 22.5): its ends run straight that much.
            var straight = a.At.To(c.WorkPoint) - (radius * Math.Tan(Math.Min(turn, 2.9) / 2));
            box.Add(a.At, a.Face, outside / 2);
            box.Add(b.At, b.Face, outside / 2);
            var side = b.Face.SquareTo(-a.Face).Unit;
            var centre = a.At - (a.Face * straight) + (side * radius);
            var sum = Vector.Zero;
            for (var i = 0; i <= ArcPoints; i++)
            {
                var angle = turn * i / ArcPoints;
                var tangent = (-a.Face * Math.Cos(angle)) + (side * Math.Sin(angle));
                var at = centre - (side * (radius * Math.Cos(angle))) + (-a.Face * (radius * Math.Sin(angle)));
                box.Add(at, tangent, outside / 2);
                sum += at - Point.Origin;
            }

            return Point.Origin + (sum / (ArcPoints + 1));
        }

        var r = c.Ware == Ware.Flange ? (StandardTable.Find("flanges", "flange", "outside diameter", c.Size, @class: c.Line.Class)?.In(units) ?? outside) / 2 : outside / 2;
        var middle = Vector.Zero;
        foreach (var port in c.Ports)
        {
            box.Add(port.At, port.Face, r);
            middle += port.At - Point.Origin;
        }

        return Point.Origin + (middle / c.Ports.Count);
    }

    /// <summary>Each leg's stretch that lies in this spool, with the butt welds on it.</summary>
    private static List<SpoolLength> Lengths(Route route, Component[] components, Cut[] cuts, List<Joint> shop)
    {
        var rule = route.Drawing.Shop.Shrinkage;
        var lengths = new List<SpoolLength>();
        var legs = components.Where(c => c.Leg >= 0).Select(c => (c.Run, c.Leg))
            .Concat(cuts.SelectMany(c => Enumerable.Range(c.Pipe.FirstLeg, c.Pipe.LastLeg - c.Pipe.FirstLeg + 1).Select(l => (c.Pipe.Run, Leg: l))))
            .Distinct().Order();
        foreach (var (run, leg) in legs)
        {
            var welds = shop.Count(j => j is { Kind: JointKind.Butt } && j.Run == run && j.Leg == leg);
            var added = cuts.Where(c => c.Pipe.Run == run && c.Pipe.LastLeg == leg).Sum(c => c.Allowance);
            var fitted = route.Runs[run].Distances[leg] + added;
            var (low, high) = rule is { } half ? (fitted - (2 * half * welds), fitted - (2 * half * welds)) : (fitted - (ShrinkageOf(welds).High), fitted - ShrinkageOf(welds).Low);
            lengths.Add(new(run, leg, fitted, welds, low, high));
        }

        return lengths;
    }

    private static (double Low, double High) ShrinkageOf(int welds) => (welds * Spooling.ShrinkageLow, welds * Spooling.ShrinkageHigh);

    /// <summary>A box along the three axes that grows.</summary>
    private sealed class Box
    {
        private Point from = new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity);
        private Point to = new(double.NegativeInfinity, double.NegativeInfinity, double.NegativeInfinity);

        public Point From => double.IsFinite(from.X) ? from : Point.Origin;

        public Point To => double.IsFinite(to.X) ? to : Point.Origin;

        /// <summary>Takes in a disc: its middle, the direction it faces, its radius.</summary>
        public void Add(Point at, Vector axis, double radius)
        {
            double Reach(double share) => radius * Math.Sqrt(Math.Max(0, 1 - (share * share)));
            var reach = new Vector(Reach(axis.X), Reach(axis.Y), Reach(axis.Z));
            var (low, high) = (at - reach, at + reach);
            from = new(Math.Min(from.X, low.X), Math.Min(from.Y, low.Y), Math.Min(from.Z, low.Z));
            to = new(Math.Max(to.X, high.X), Math.Max(to.Y, high.Y), Math.Max(to.Z, high.Z));
        }
    }
}
