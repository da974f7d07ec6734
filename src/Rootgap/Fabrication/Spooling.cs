using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Fabricating;

/// <summary>Makes a route ready for the shop: spools, cuts, bolts, material.</summary>
public static class Spooling
{
    /// <summary>Shrinkage across a butt weld, mm, low and high (TWI, "How much shall I allow for weld shrinkage?": 1.5 to 3 mm).</summary>
    public const double ShrinkageLow = 1.5;

    public const double ShrinkageHigh = 3;

    public static Fabrication Of(Route route)
    {
        var groups = new Groups(route);
        var names = Names(route, groups);
        var spoolOf = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var id in groups.Ids)
            spoolOf[id] = names[groups.RootOf(id)];
        var cuts = Cuts(route, spoolOf);
        var masses = Masses(route);
        var bolting = Bolts.Of(route);
        return new Fabrication
        {
            Route = route,
            SpoolOf = spoolOf,
            Masses = masses,
            Cuts = cuts,
            Spools = SpoolMaking.All(route, groups.Ids, spoolOf, cuts, masses),
            Bolting = bolting,
            Materials = MaterialCheck.Of(route, cuts, bolting),
        };
    }

    /// <summary>Parts that hang together by shop welds (union-find, path halving).</summary>
    private sealed class Groups
    {
        private readonly Dictionary<string, string> parent = new(StringComparer.Ordinal);

        /// <summary>All parts that belong to spools, in line order.</summary>
        public List<string> Ids { get; } = [];

        public Groups(Route route)
        {
            // Components and pipes are each in line order already: a pipe comes before what stands at the end of its first leg.
            var pipe = 0;
            foreach (var c in route.Components)
            {
                if (c.IsLoose)
                    continue;
                for (; pipe < route.Pipes.Count && (route.Pipes[pipe].Run < c.Run || (route.Pipes[pipe].Run == c.Run && route.Pipes[pipe].FirstLeg <= c.Leg)); pipe++)
                    Add(route.Pipes[pipe].Id);
                Add(c.Id);
            }

            for (; pipe < route.Pipes.Count; pipe++)
                Add(route.Pipes[pipe].Id);

            foreach (var joint in route.Joints)
            {
                if (joint is { Place: WeldPlace.Shop, Between: [var a, var b] } && joint.Kind != JointKind.Bolted)
                    parent[RootOf(a)] = RootOf(b);
            }
        }

        private void Add(string id)
        {
            parent[id] = id;
            Ids.Add(id);
        }

        public string RootOf(string id)
        {
            while (parent[id] != id)
                id = parent[id] = parent[parent[id]];
            return id;
        }
    }

    /// <summary>The drawing's own names first; the rest are numbered along the line, each by its place among all spools.</summary>
    private static Dictionary<string, string> Names(Route route, Groups groups)
    {
        var order = groups.Ids.Select(groups.RootOf).Distinct(StringComparer.Ordinal).ToList();
        var named = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var c in route.Components)
        {
            if (c is { IsLoose: false, SpoolName: { } name })
                named.TryAdd(groups.RootOf(c.Id), name);
        }

        foreach (var (name, pipe, _) in route.NamedPipes)
            named.TryAdd(groups.RootOf(pipe.Id), name);

        var taken = named.Values.ToHashSet(StringComparer.Ordinal);
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var root in order)
        {
            if (named.TryGetValue(root, out var name))
            {
                // One name for two spools: a field weld parts them, so they are told apart by a letter.
                seen[name] = seen.GetValueOrDefault(name) + 1;
                if (seen[name] > 1)
                    named[root] = Free($"{name}{(char)('a' + Math.Min(25, seen[name] - 1))}", taken);
            }
        }

        for (var i = 0; i < order.Count; i++)
        {
            if (!named.ContainsKey(order[i]))
                named[order[i]] = Free((i + 1).ToString(CultureInfo.InvariantCulture), taken);
        }

        return named;
    }

    private static string Free(string wish, HashSet<string> taken)
    {
        var name = wish;
        for (var i = 2; !taken.Add(name); i++)
            name = string.Create(CultureInfo.InvariantCulture, $"{wish}.{i}");
        return name;
    }

    private static List<Cut> Cuts(Route route, Dictionary<string, string> spoolOf)
    {
        var letters = new Dictionary<string, int>(StringComparer.Ordinal);
        var cuts = new List<Cut>(route.Pipes.Count);
        foreach (var pipe in route.Pipes)
        {
            var spool = spoolOf[pipe.Id];
            var index = letters[spool] = letters.GetValueOrDefault(spool, -1) + 1;
            var (sum, extra, allowance) = Cut.SumOf(route, pipe);
            var (saddles, extras) = ((Start: Templates.SaddleOf(route, pipe, isStart: true), End: Templates.SaddleOf(route, pipe, isStart: false)), extra > 0);
            cuts.Add(new Cut
            {
                Piece = $"{spool}-{Letters(index)}",
                Spool = spool,
                Pipe = pipe,
                Sum = sum,
                Length = sum.Sum(t => t.Mm),
                Extra = extra,
                Allowance = allowance,
                Saddles = saddles,
                IsFieldWelded = (IsFieldWelded(route, pipe, isStart: true), IsFieldWelded(route, pipe, isStart: false)),
                AtStart = EndPreparation.Of(pipe.AtStart, pipe.FreeStart, pipe, saddles.Start, extras && pipe.ExtraAtStart, route.Drawing.Units),
                AtEnd = EndPreparation.Of(pipe.AtEnd, pipe.FreeEnd, pipe, saddles.End, extras && pipe.ExtraAtEnd, route.Drawing.Units),
            });
        }

        return cuts;
    }

    // The joint nearer to this end than to the other one; a branch on it is none of its ends.
    private static bool IsFieldWelded(Route route, PipePiece pipe, bool isStart) =>
        route.Joints.Where(j => j.Kind != JointKind.Branch && j.Between.Contains(pipe.Id) && (j.At.To(pipe.Start) <= j.At.To(pipe.End)) == isStart)
            .MinBy(j => j.At.To(isStart ? pipe.Start : pipe.End)) is { Place: not WeldPlace.Shop };

    private static string Letters(int index) => index < 26 ? ((char)('A' + index)).ToString() : Letters((index / 26) - 1) + (char)('A' + (index % 26));

    private static Dictionary<string, Mass> Masses(Route route)
    {
        var masses = new Dictionary<string, Mass>(StringComparer.Ordinal);
        foreach (var part in route.Components.Concat<Part>(route.Supports).Concat(route.Pads))
        {
            if (part.Mass is { } mass)
                masses[part.Id] = mass;
        }

        return masses;
    }
}
