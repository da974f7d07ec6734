using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>A place where a sling is made fast.</summary>
/// <param name="Name">L1, L2 ...</param>
/// <param name="Along">From the start of the piece as it is cut, mm.</param>
/// <param name="At">On the pipe's axis.</param>
/// <param name="Hitch">Where the choked sling leaves the pipe: at its top as the spool is slung.</param>
/// <param name="Lifts">What it lifts of the mass with its allowance, kg.</param>
public sealed record LiftHold(string Name, Cut Cut, double Along, Point At, Point Hitch, double Lifts)
{
    /// <summary>Length of its leg from the hook, mm; null where it is drawn up till the spool stands as it should.</summary>
    public double? Leg { get; init; }

    /// <summary>Of the leg to the level, radians.</summary>
    public double? ToLevel { get; init; }

    /// <summary>In the leg, kg.</summary>
    public double? Pull { get; init; }
}

/// <summary>Why no two places for slings are proposed.</summary>
public enum NoHold
{
    /// <summary>No straight pipe is long enough for a sling clear of its ends.</summary>
    PipeTooShort,

    /// <summary>No two places hold the centre of mass between them.</summary>
    NoneBetween,

    /// <summary>Those that do stand on pipe that is too steep as the spool would hang.</summary>
    TooSteep,

    /// <summary>Those that do stand nearer to each other than <see cref="Lift.LeastSpan"/>, or one of them would lift more than four fifths.</summary>
    TooNear,

    /// <summary>The legs would run through the spool.</summary>
    InTheWay,
}

/// <summary>How a spool is lifted: where slings are made fast, what they carry, and how it hangs. A proposal; a lifting plan is made by a competent person.</summary>
/// <remarks>
/// The slings are choked: a choked sling grips the pipe, so the spool hangs by the bites at the top of its pipe. In a basket hitch nothing but friction keeps the pipe from rolling in the sling:
/// there the spool hangs by the pipe's axis.
/// </remarks>
public sealed record Lift
{
    /// <summary>Spools from this mass on have a lifting sheet, kg.</summary>
    public const double From = 50;

    /// <summary>The hook stands at least so high over the points, mm.</summary>
    private const double LeastHook = 2000;

    /// <summary>The hook is this much higher than the farther point is off: legs at 50 degrees.</summary>
    private const double HookShare = 1.2;

    /// <summary>What lies steeper than this holds no sling without a stop, radians (common practice).</summary>
    private static readonly double Steep = Angles.ToRadians(30);

    /// <summary>Up to this share of the pipe's radius beside its axis a centre of mass rolls no pipe in a basket hitch: a rope half round steel, friction 0.1, holds 0.16 of it.</summary>
    private const double GripShare = 0.1;

    /// <summary>No two slings stand nearer to each other than this, mm.</summary>
    public const double LeastSpan = 300;

    /// <summary>Above this a third leg is proposed, radians.</summary>
    private static readonly double WantsThird = Angles.ToRadians(10);

    /// <summary>No sling is proposed on pipe thinner than this share of the spool's largest.</summary>
    private const double LeastPipe = 0.5;

    public required Spool Spool { get; init; }

    /// <summary>What hangs, as reckoned, with a tenth more, kg: the spool, and what goes up with it.</summary>
    public required double Mass { get; init; }

    /// <summary>Centre of mass of what hangs.</summary>
    public required Point Centre { get; init; }

    /// <summary>None where no two places were found: see <see cref="WhyNone"/>.</summary>
    public IReadOnlyList<LiftHold> Holds { get; init; } = [];

    /// <summary>Why no places are proposed; null where some are.</summary>
    public NoHold? WhyNone { get; init; }

    /// <summary>The drawing gave no places: these are the program's.</summary>
    public bool IsProposed { get; init; }

    /// <summary>The spool is not lifted as it is drawn but lying: its line of points is drawn steep.</summary>
    public bool IsLying { get; init; }

    /// <summary>How far the centre of mass stands from the line of the first two bites, mm.</summary>
    public double OffLine { get; init; }

    /// <summary>How far it would turn about that line out of how it is drawn, choked, radians; 0 where it hangs still.</summary>
    public double Roll { get; init; }

    /// <summary>How far it would roll in basket hitches that do not grip, about the pipe's axis, radians.</summary>
    public double RollInBasket { get; init; }

    /// <summary>The centre of mass stands above the line of the bites: it would turn over.</summary>
    public bool TurnsOver => Roll > Math.PI / 2;

    /// <summary>Unit direction that is up as it hangs, and the level direction from the first point to the second.</summary>
    public Vector Up { get; init; } = Vector.Up;

    public Vector Across { get; init; } = Vector.East;

    /// <summary>A third leg holds it as it is drawn.</summary>
    public bool IsHeld => Holds.Count > 2;

    /// <summary>Of the hook over the highest point, mm; null where the legs are given.</summary>
    public double? HookUp { get; init; }

    /// <summary>On two legs: how it hangs.</summary>
    public Hanging? Hanging { get; init; }

    /// <summary>On two legs that are alike, so long.</summary>
    public (double Length, Hanging Hanging)? Alike { get; init; }

    /// <summary>What each leg of three or four is made for, kg: two carry.</summary>
    public double? TwoCarry { get; init; }

    /// <summary>The centre of mass does not stand between the three or four points: it would swing out till it hangs below them.</summary>
    public bool IsOutside { get; init; }

    /// <summary>Whether a spool has a lifting sheet: it weighs enough, or the drawing gives its places.</summary>
    public static bool IsAsked(Fabrication f, Spool spool) => spool.Mass >= From || Given(f, spool).Any();

    /// <summary>A spool by itself.</summary>
    public static Lift Of(Fabrication f, Spool spool) => Of(f, spool, spool.Mass, spool.CentreOfMass);

    /// <summary>A spool with what goes up with it.</summary>
    /// <param name="reckoned">Mass of all that hangs, kg.</param>
    /// <param name="centre">Its centre of mass.</param>
    public static Lift Of(Fabrication f, Spool spool, double reckoned, Point centre)
    {
        var mass = reckoned * (1 + Slings.Allowance);
        var lift = new Lift { Spool = spool, Mass = mass, Centre = centre };
        var given = Given(f, spool).ToList();
        if (given.Count > 0)
        {
            var places = given.Select(g => new Place(g.Cut, Math.Min(g.Row.At, g.Cut.Reach.Start.To(g.Cut.Reach.End)))).ToList();
            return places.Count switch
            {
                1 => lift with { Holds = [places[0].Hold("L1", mass, places[0].Top(Vector.Up)) with { Leg = given[0].Row.Sling, ToLevel = Math.PI / 2, Pull = mass }] },
                2 => OnTwo(lift, places[0], places[1], given.All(g => g.Row.Sling is not null) ? (given[0].Row.Sling!.Value, given[1].Row.Sling!.Value) : null, f.Units),
                _ => OnMore(lift, places, f.Units),
            };
        }

        var largest = spool.Cuts.Select(c => c.Pipe.Outside).DefaultIfEmpty().Max();
        var all = spool.Cuts.Where(c => c.Pipe.Outside >= largest * LeastPipe).SelectMany(c => Place.On(f.Route, c)).ToList();
        var steel = new Steel(spool);
        var two = Best(lift, all, p => p.Holds, steel, f.Units);
        lift = two is var (one, other) ? OnTwo(lift, one, other, null, f.Units) : lift with { WhyNone = Why(centre, all) };
        lift = lift with { IsProposed = true };
        if (two is not null && (lift.IsLying || lift.Roll <= WantsThird))
            return lift;
        // With a third leg it hangs as drawn: no sling is then on pipe that stands.
        List<Place> level = [.. all.Where(p => p.IsLevel(Vector.Up))];
        if (two is not var (a, b) || !level.Contains(a) || !level.Contains(b))
            two = Best(lift, level, p => !p.IsLying, steel, f.Units);
        return two is var (first, second) && Third(lift, first, second, level, steel, f.Units) is { } third ? OnMore(lift with { WhyNone = null }, [first, second, third], f.Units) : lift;
    }

    private static NoHold Why(Point centre, List<Place> all)
    {
        List<Pair> pairs = [.. from i in Enumerable.Range(0, all.Count) from k in Enumerable.Range(i + 1, all.Count - i - 1) select new Pair(all[i], all[k], centre)];
        List<Pair> between = [.. pairs.Where(p => p.Along > 0 && p.Along < p.Span)];
        return all.Count == 0 ? NoHold.PipeTooShort : between.Count == 0 ? NoHold.NoneBetween : !between.Exists(p => p.Holds) ? NoHold.TooSteep
            : between.Exists(p => p.Holds && !p.IsLopsided && p.Span >= LeastSpan) ? NoHold.InTheWay : NoHold.TooNear;
    }

    /// <summary>What a leg must not run through: all of a spool.</summary>
    private sealed class Steel(Spool spool)
    {
        /// <summary>A sling bends round an edge that it only grazes, mm.</summary>
        private const double Graze = 5;

        private readonly IReadOnlyList<Solid> bodies = [.. spool.Cuts.SelectMany(c => c.AsCut.Bodies), .. spool.Components.SelectMany(c => c.Bodies), .. spool.Supports.SelectMany(s => s.Bodies)];

        public bool IsClear(Point hook, params IEnumerable<Point> hitches) => hitches.All(h => Solid.Clear(h, hook, bodies, Graze));
    }

    private static IEnumerable<(LiftRow Row, Cut Cut)> Given(Fabrication f, Spool spool) =>
        from row in f.Route.Drawing.Lift
        let cut = spool.Cuts.FirstOrDefault(c => c.Piece.Equals(row.Piece, StringComparison.OrdinalIgnoreCase))
        where cut is not null
        select (row, cut);

    private static Lift OnTwo(Lift lift, Place a, Place b, (double, double)? slings, Units units)
    {
        var pair = new Pair(a, b, lift.Centre);
        var span = pair.Span;
        if (span < 1)
            return lift;
        lift = lift with { IsLying = pair.IsLying, OffLine = pair.Off, Roll = pair.Roll, RollInBasket = pair.RollInBasket, Up = pair.Up, Across = pair.Unit };
        var hook = slings is null ? HookOver(pair.Farthest, units) : (double?)null;
        var (s1, s2) = slings ?? Slings.Level(span, pair.Along, hook!.Value);
        var hanging = Slings.Of(lift.Mass, span, pair.Along, pair.Off, s1, s2);
        var alike = RoundedUp(Math.Max(s1, s2), units);
        return lift with
        {
            HookUp = hook,
            Hanging = hanging,
            Alike = Slings.Of(lift.Mass, span, pair.Along, pair.Off, alike, alike) is { } level ? (alike, level) : null,
            Holds = hanging is null
                ? [a.Hold("L1", Slings.Lifts(lift.Mass, span, pair.Along).First, pair.First), b.Hold("L2", Slings.Lifts(lift.Mass, span, pair.Along).Second, pair.Second)]
                : [Of(a.Hold("L1", hanging.First.Lifts, pair.First), hanging.First), Of(b.Hold("L2", hanging.Second.Lifts, pair.Second), hanging.Second)],
        };

        static LiftHold Of(LiftHold hold, SlingLeg leg) => hold with { Leg = leg.Length, ToLevel = leg.ToLevel, Pull = leg.Tension };
    }

    /// <summary>Three or four legs, the spool as it is drawn; three share by statics, of four two carry.</summary>
    private static Lift OnMore(Lift lift, List<Place> places, Units units)
    {
        var centre = lift.Centre;
        List<Point> hitches = places.ConvertAll(p => p.Top(Vector.Up));
        var hook = HookOver(centre, places, units);
        var up = hook.Z - hitches.Max(p => p.Z);
        var loads = places.Count == 3 ? OnThree(lift.Mass, centre, places) : null;
        var pair = new Pair(places[0], places[1], centre);
        var holds = new List<LiftHold>();
        for (var i = 0; i < places.Count; i++)
        {
            var length = hitches[i].To(hook);
            var angle = Math.Asin((hook.Z - hitches[i].Z) / length);
            var load = loads?[i] ?? lift.Mass / 2;
            var isDrawnUp = places.Count == 3 && i == 2;
            holds.Add(places[i].Hold(FormattableString.Invariant($"L{i + 1}"), load, hitches[i]) with { Leg = isDrawnUp ? null : length, ToLevel = angle, Pull = load / Math.Sin(angle) });
        }

        return lift with
        {
            Up = Vector.Up,
            Across = pair.Unit with { Z = 0 } is { Length: > 0.1 } level ? level.Unit : Vector.East,
            Holds = holds,
            HookUp = up,
            Hanging = null,
            Alike = null,
            IsLying = false,
            OffLine = pair.Off,
            Roll = pair.Roll,
            RollInBasket = pair.RollInBasket,
            IsOutside = !Enumerable.Range(0, places.Count).Any(left => OnThree(1, centre, [.. places.Where((_, i) => places.Count == 3 || i != left)]) is not null),
            TwoCarry = holds.Max(h => Slings.OfTwo(lift.Mass, h.ToLevel!.Value)),
        };
    }

    /// <summary>What each of three points lifts, by moments; null where they stand in one line, or one of them would be pushed.</summary>
    private static double[]? OnThree(double mass, Point c, IReadOnlyList<Place> p)
    {
        static double Cross(Vector a, Vector b) => (a.X * b.Y) - (a.Y * b.X);
        var (a, b) = (p[1].At - p[0].At, p[2].At - p[0].At);
        var det = Cross(a, b);
        if (Math.Abs(det) < 1)
            return null;
        var r = c - p[0].At;
        var (second, third) = (Cross(r, b) / det, Cross(a, r) / det);
        double[] shares = [1 - second - third, second, third];
        return shares.Any(s => s < 0) ? null : [.. shares.Select(s => s * mass)];
    }

    /// <summary>A place for a third leg that lifts something, as far off the line of the two as can be.</summary>
    private static Place? Third(Lift lift, Place first, Place second, List<Place> level, Steel steel, Units units)
    {
        var along = ((second.At - first.At) with { Z = 0 }).Unit;
        return level.Where(p => OnThree(1, lift.Centre, [first, second, p]) is { } shares && shares.Min() >= 0.05)
            .OrderByDescending(p => Math.Round(((p.At - first.At) with { Z = 0 }).SquareTo(along).Length, 3))
            .FirstOrDefault(p => steel.IsClear(HookOver(lift.Centre, [first, second, p], units), new[] { first, second, p }.Select(h => h.Top(Vector.Up))));
    }

    /// <summary>The hook over three or four places of the spool as it is drawn.</summary>
    private static Point HookOver(Point centre, IReadOnlyList<Place> places, Units units) =>
        new(centre.X, centre.Y, places.Max(p => p.Top(Vector.Up).Z) + HookOver(places.Max(p => ((p.At - centre) with { Z = 0 }).Length), units));

    /// <param name="isFit">Whether two places hold the way it will hang.</param>
    private static (Place First, Place Second)? Best(Lift lift, List<Place> all, Func<Pair, bool> isFit, Steel steel, Units units)
    {
        var (spool, centre) = (lift.Spool, lift.Centre);
        var size = Math.Max(spool.Box.X, Math.Max(spool.Box.Y, spool.Box.Z));
        (double Cost, Place A, Place B)? best = null;
        for (var i = 0; i < all.Count; i++)
        {
            for (var k = i + 1; k < all.Count; k++)
            {
                var pair = new Pair(all[i], all[k], centre);
                if (pair.Span < LeastSpan || pair.IsLopsided || !isFit(pair))
                    continue;
                var degrees = Angles.ToDegrees(pair.Roll);
                var kind = pair.IsLying ? 1 : degrees <= 60 ? 0 : degrees <= 90 ? 2 : 3;
                var cost = Math.Round((kind * 1000) + (pair.Span < size / 2 ? 500 : 0) + degrees + (40 * Math.Abs((pair.Along / pair.Span) - 0.5)) - (10 * pair.Span / size), 6);
                if ((best is null || cost < best.Value.Cost) && steel.IsClear(pair.HookAt(HookOver(pair.Farthest, units)), pair.First, pair.Second))
                    best = (cost, all[i], all[k]);
            }
        }

        return best is var (_, a, b) ? (a, b) : null;
    }

    private static double HookOver(double reach, Units units) => RoundedUp(Math.Max(LeastHook, HookShare * reach), units);

    /// <summary>To the next 100 mm or 6 in.</summary>
    private static double RoundedUp(double mm, Units units)
    {
        var step = units == Units.Inches ? 6 * LengthText.Inch : 100;
        return Math.Ceiling((mm / step) - Tolerance.Noise) * step;
    }

    /// <summary>A place on a piece of straight pipe.</summary>
    private sealed record Place(Cut Cut, double Along)
    {
        public Point At { get; } = Cut.Reach.Start + (Cut.Pipe.Direction * Along);

        public LiftHold Hold(string name, double lifts, Point hitch) => new(name, Cut, Along, At, hitch, lifts);

        /// <summary>The place at the pipe's outside that is highest when a direction is up; on the axis where the pipe itself stands that way.</summary>
        public Point Top(Vector up) => up.SquareTo(Cut.Pipe.Direction) is { Length: > 1e-6 } square ? At + (square.Unit * (Cut.Pipe.Outside / 2)) : At;

        /// <summary>Whether a sling stays where it is when a direction is up.</summary>
        public bool IsLevel(Vector up) => Math.Abs(Cut.Pipe.Direction.Dot(up)) <= Math.Sin(Steep);

        /// <summary>Places on a piece, clear of its ends and of the branches on it by one diameter.</summary>
        public static IEnumerable<Place> On(Route route, Cut cut)
        {
            var (start, end) = cut.Reach;
            var (length, clear) = ((end - start).Dot(cut.Pipe.Direction), cut.Pipe.Outside);
            if (length < (2 * clear) + 50)
                yield break;
            var branches = route.Joints.Where(j => j.Kind == JointKind.Branch && j.Between.Contains(cut.Pipe.Id)).Select(j => (j.At - start).Dot(cut.Pipe.Direction)).ToList();
            var steps = Math.Clamp((int)((length - (2 * clear)) / 100), 2, 16);
            for (var i = 0; i <= steps; i++)
            {
                var along = clear + ((length - (2 * clear)) * i / steps);
                if (branches.All(b => Math.Abs(b - along) >= clear))
                    yield return new(cut, along);
            }
        }
    }

    /// <summary>Two places against a centre of mass.</summary>
    private readonly struct Pair
    {
        public Pair(Place a, Place b, Point centre)
        {
            var axis = (b.At - a.At).Unit;
            IsLying = Math.Abs(axis.Z) > Math.Sin(Steep);
            var drawnUp = Vector.Up.SquareTo(axis) is { Length: > 1e-6 } up ? up.Unit : axis.AnySquare();
            var fromAxis = (centre - a.At).SquareTo(axis);
            // Lifted lying, the slings are choked on the side away from the centre of mass.
            var side = IsLying && fromAxis.Length > Tolerance.Closing ? -fromAxis.Unit : drawnUp;
            (First, Second) = (a.Top(side), b.Top(side));
            var way = Second - First;
            Span = way.Length;
            var unit = Unit = way.Unit;
            var to = centre - First;
            Along = to.Dot(unit);
            var aside = to - (unit * Along);
            Off = aside.Length;
            var hangs = Up = Off > Tolerance.Closing ? -(aside / Off) : drawnUp;
            Roll = IsLying ? 0 : drawnUp.AngleTo(hangs);
            RollInBasket = IsLying || fromAxis.Length < GripShare * Math.Min(a.Cut.Pipe.Outside, b.Cut.Pipe.Outside) / 2 ? 0 : drawnUp.AngleTo(-fromAxis.Unit);
            Holds = a.IsLevel(hangs) && b.IsLevel(hangs);
        }

        /// <summary>Where the first choked sling leaves its pipe.</summary>
        public Point First { get; }

        /// <summary>Where the second one does.</summary>
        public Point Second { get; }

        public double Span { get; }

        public Vector Unit { get; }

        /// <summary>Unit direction that is up when it hangs.</summary>
        public Vector Up { get; }

        /// <summary>Of the centre of mass along the way from the first to the second, mm.</summary>
        public double Along { get; }

        public double Off { get; }

        public bool IsLying { get; }

        /// <summary>Of the centre of mass along the way from the farther of the two, mm.</summary>
        public double Farthest => Math.Max(Math.Abs(Along), Math.Abs(Span - Along));

        /// <summary>One would lift more than four fifths: a hook is set over the centre, and nobody hits it to the millimetre.</summary>
        public bool IsLopsided => Along < 0.2 * Span || Along > 0.8 * Span;

        /// <summary>The hook so far over the two.</summary>
        public Point HookAt(double up) => First + (Unit * Along) + (Up * up);

        public double Roll { get; }

        public double RollInBasket { get; }

        /// <summary>Whether no sling would slip along its pipe as the spool hangs.</summary>
        public bool Holds { get; }
    }
}
