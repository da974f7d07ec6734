using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Mass, box, surface and content of spools from their parts.</summary>
internal static class SpoolMaking
{
    private const int ArcPoints = 8;

    /// <param name="ids">All parts that belong to spools, in line order.</param>
    public static List<Spool> All(
        Route route, List<string> ids, Dictionary<string, string> spoolOf, List<Cut> cuts, Dictionary<string, (double Kg, string Source)> masses)
    {
        var order = new List<Parts>();
        var byName = new Dictionary<string, Parts>(StringComparer.Ordinal);
        foreach (var id in ids)
        {
            if (!byName.ContainsKey(spoolOf[id]))
                order.Add(byName[spoolOf[id]] = new(spoolOf[id]));
        }

        foreach (var c in route.Components)
        {
            if (!c.IsLoose)
                byName[spoolOf[c.Id]].Components.Add(c);
        }

        foreach (var cut in cuts)
            byName[cut.Spool].Cuts.Add(cut);
        foreach (var joint in route.Joints)
        {
            Parts? last = null;
            foreach (var id in joint.Between)
            {
                if (spoolOf.TryGetValue(id, out var name) && byName[name] is var parts && parts != last)
                {
                    (joint is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted } ? parts.Shop : parts.Ends).Add(joint);
                    last = parts;
                }
            }
        }

        return [.. order.Select(parts => One(route, parts, masses))];
    }

    /// <summary>What a spool is made of, while it is gathered.</summary>
    private sealed record Parts(string Name)
    {
        public List<Component> Components { get; } = [];
        public List<Cut> Cuts { get; } = [];
        public List<Joint> Shop { get; } = [];
        public List<Joint> Ends { get; } = [];
    }

    /// <summary>Outside diameter and wall of the tube of which a component is made, mm.</summary>
    public static (double Outside, double Wall) Tube(Component c, Units units)
    {
        var outside = Pipes.OutsideDiameter(c.Size)?.In(units) ?? 0;
        var wall = c.Line.Schedule.Wall ?? Pipes.Wall(c.Size, c.Line.Schedule.Name)?.In(units) ?? 0;
        return (outside, wall);
    }

    private static Spool One(Route route, Parts parts, Dictionary<string, (double Kg, string Source)> masses)
    {
        var (components, cuts) = (parts.Components, parts.Cuts);
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

        return new Spool
        {
            Name = parts.Name,
            Components = components,
            Cuts = cuts,
            Joints = parts.Shop,
            Ends = parts.Ends,
            Mass = mass,
            Unweighed = unweighed,
            CentreOfMass = mass > 0 ? Point.Origin + (moment / mass) : box.From,
            BoxFrom = box.From,
            BoxTo = box.To,
            PaintArea = paint,
            Content = content,
            Lengths = Lengths(route, components, cuts, parts.Shop),
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
    private static List<SpoolLength> Lengths(Route route, List<Component> components, List<Cut> cuts, List<Joint> shop)
    {
        var rule = route.Drawing.Shop.Shrinkage;
        var lengths = new List<SpoolLength>();
        var legs = new SortedSet<(int Run, int Leg)>();
        foreach (var c in components)
        {
            if (c.Leg >= 0)
                legs.Add((c.Run, c.Leg));
        }

        foreach (var cut in cuts)
        {
            for (var i = cut.Pipe.FirstLeg; i <= cut.Pipe.LastLeg; i++)
                legs.Add((cut.Pipe.Run, i));
        }

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
