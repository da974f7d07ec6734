using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Fabricating;

/// <summary>Mass, box, surface and content of spools from their parts.</summary>
internal static class SpoolMaking
{
    /// <param name="ids">All parts that belong to spools, in line order.</param>
    public static List<Spool> All(
        Route route, List<string> ids, Dictionary<string, string> spoolOf, List<Cut> cuts, Dictionary<string, Mass> masses)
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
        foreach (var support in route.Supports.Where(s => s.IsOfSpool))
            byName[spoolOf[support.Pipe]].Supports.Add(support);
        foreach (var pad in route.Pads.Where(p => p.IsOfSpool))
            byName[spoolOf[pad.Pipe]].Pads.Add(pad);
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
        public List<Support> Supports { get; } = [];
        public List<Pad> Pads { get; } = [];
        public List<Joint> Shop { get; } = [];
        public List<Joint> Ends { get; } = [];
    }

    private static Spool One(Route route, Parts parts, Dictionary<string, Mass> masses)
    {
        var (components, cuts) = (parts.Components, parts.Cuts);
        var mass = 0.0;
        var moment = Vector.Zero;
        var box = new Box();
        var (paint, content) = (0.0, 0.0);
        var unweighed = new List<string>();
        foreach (var cut in cuts)
        {
            var pipe = cut.Pipe;
            var (start, end) = cut.Reach;
            Add(cut.Mass, start.Toward(end, 0.5));
            foreach (var (at, face, saddle) in new[] { (start, -pipe.Direction, cut.SaddlesAsCut.Start), (end, pipe.Direction, cut.SaddlesAsCut.End) })
            {
                if (saddle is null)
                    box.Add(at, face, pipe.Outside / 2);
                foreach (var edge in saddle?.Rim(at, face, pipe.Outside / 2) ?? [])
                    box.Add(edge, face, 0);
            }
            var length = Math.Max(0, cut.Length);
            paint += Math.PI * pipe.Outside * length;
            content += Math.PI / 4 * pipe.Inside * pipe.Inside * length;
        }

        foreach (var c in components)
        {
            foreach (var (at, axis, radius) in c.Bodies.SelectMany(b => b.Discs))
                box.Add(at, axis, radius);
            if (masses.TryGetValue(c.Id, out var known))
                Add(known.Kg, c.Centre);
            else
                unweighed.Add(c.Id);
            paint += Math.PI * c.Outside * c.Path;
            content += Math.PI / 4 * c.Inside * c.Inside * c.Path;
        }

        foreach (var s in parts.Supports)
        {
            foreach (var (at, axis, radius) in s.Bodies.SelectMany(b => b.Discs))
                box.Add(at, axis, radius);
            if (masses.TryGetValue(s.Id, out var known))
                Add(known.Kg, s.Centre);
            else
                unweighed.Add(s.Id);
        }

        foreach (var pad in parts.Pads)
        {
            if (masses.TryGetValue(pad.Id, out var known))
                Add(known.Kg, pad.Centre);
        }

        return new Spool
        {
            Name = parts.Name,
            Components = components,
            Supports = parts.Supports,
            Pads = parts.Pads,
            Seams = [.. route.Seams.Where(j => components.Exists(c => c.Id == j.Between[0]))],
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
            // What two pipes share at a weld row between two legs, each leg has half of.
            var drawn = shop.Where(j => j is { Kind: JointKind.Butt } && j.Run == run).Sum(j => !IsBetweenPipes(j) ? j.Leg == leg ? 1 : 0 : j.Leg == leg || j.Leg == leg - 1 ? 0.5 : 0);
            var added = cuts.Where(c => c.Pipe.Run == run && c.Pipe.LastLeg == leg).Sum(c => c.Allowance);
            var fitted = route.Runs[run].Distances[leg] + added;
            var (least, most) = rule is { } mean ? (mean, mean) : (Spooling.ShrinkageLow, Spooling.ShrinkageHigh);
            lengths.Add(new(run, leg, fitted, welds, fitted - (drawn * most), fitted - (drawn * least)));
        }

        return lengths;

        bool IsBetweenPipes(Joint joint) => joint.Between.All(id => route.PipeOf(id) is not null);
    }

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
