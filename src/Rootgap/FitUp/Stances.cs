using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>How good a way to stand is: a later one is taken only where no earlier one does.</summary>
internal enum Footing
{
    /// <summary>On two stands, or free on end.</summary>
    Free,

    /// <summary>Tied back on end, in a vice, or clamped because it has no place for two stands.</summary>
    Held,

    /// <summary>With a third stand.</summary>
    Third,

    /// <summary>With a tie-down.</summary>
    Tied,

    /// <summary>On stands from which it would roll with more than a chain clamp holds, and nothing else does.</summary>
    Rolling,

    /// <summary>Clamped because nothing else does.</summary>
    Last,
}

/// <summary>When a third support off the line of the other two keeps it from rolling.</summary>
internal enum Across
{
    Never,

    /// <summary>Only with the new part on.</summary>
    After,

    Always,
}

/// <summary>A way to stand, not yet named for its joint.</summary>
/// <param name="About">Unit, along the pipe that lies level; up on end.</param>
internal sealed record Stance(Attitude Attitude, Footing Footing, Vector Up, Vector About, Point Floor, IReadOnlyList<FitStand> Stands, double Height, Rolling? Rolling);

/// <summary>The ways in which a held assembly can stand while another is joined to it, by statics. All as drawn.</summary>
internal sealed partial class Stances
{
    private const int FewPlaces = 10;
    private const int ManyPlaces = 50;

    private readonly FitRules rules;
    private readonly FitJoint joint;
    private readonly Assembly held, both;
    private readonly bool isWeighed, isHeldWeighed;

    public Stances(FitJoint joint, JointNet net, FitRules rules)
    {
        (this.joint, this.rules) = (joint, rules);
        (held, both) = (joint.HeldSide, joint.Both);
        isHeldWeighed = held.Unknown.Count == 0;
        isWeighed = isHeldWeighed && joint.Brought.Unknown.Count == 0;
        var there = both.Parts.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        Lines = StandLine.Of(held, net, there, rules);
        allLines = joint.IsRing ? Lines : StandLine.Of(both, net, there, rules);
    }

    /// <summary>Where two stands may be: under what is held.</summary>
    public IReadOnlyList<StandLine> Lines { get; }

    // Where a third one may be besides: under what is brought too.
    private readonly IReadOnlyList<StandLine> allLines;

    /// <summary>The ways to stand with one of these directions up, of the best footing that there is.</summary>
    public IReadOnlyList<Stance> Best(IReadOnlyList<Vector> ups)
    {
        foreach (var footing in Enum.GetValues<Footing>())
        {
            List<Stance> stances = [.. Of(footing, ups)];
            if (stances.Count > 0)
                return stances;
        }

        throw new InvalidOperationException("A clamp always holds.");
    }

    /// <summary>All ways to stand with one of these directions up, the best footing first.</summary>
    public IEnumerable<Stance> All(IReadOnlyList<Vector> ups) => Enum.GetValues<Footing>().SelectMany(f => Of(f, ups));

    private IEnumerable<Stance> Of(Footing footing, IReadOnlyList<Vector> ups)
    {
        if (footing <= Footing.Held && OnEnd() is { } upright && upright.Footing == footing)
            yield return upright;
        switch (footing)
        {
            case Footing.Free or Footing.Third or Footing.Tied or Footing.Rolling:
                foreach (var line in Lines)
                {
                    // Along the line the statics are the same however it is turned.
                    var two = footing is Footing.Free or Footing.Rolling ? OnTwo(line) : null;
                    if (footing == Footing.Free && two is null)
                        continue;
                    foreach (var up in ups)
                    {
                        if (Math.Abs(up.Dot(line.Along)) < Level && OnStands(line, up, footing, two) is { } stance)
                            yield return stance;
                    }
                }

                break;
            default:
                var canStand = Lines.Any(l => HasRoomForTwo(l.Places(FewPlaces)));
                if ((both.Mass <= rules.ViceLimit || !canStand ? Footing.Held : Footing.Last) != footing)
                    break;
                foreach (var up in ups)
                {
                    var across = Math.Abs(up.Dot(joint.Axis));
                    if (across < Level || across > Upright)
                        yield return Clamped(up, footing);
                }

                break;
        }
    }

    // Within a degree of level, and within a degree of upright.
    private const double Level = 0.0175;

    private static readonly double Upright = Math.Sqrt(1 - (Level * Level));

    private Stance? OnStands(StandLine line, Vector up, Footing footing, ((FitPart Pipe, double At) First, (FitPart Pipe, double At) Second)? two)
    {
        up = up.SquareTo(line.Along).Unit;
        var (before, after) = (Loads(held, line, up), Loads(both, line, up));
        if (footing == Footing.Third || (footing == Footing.Rolling && two is null))
            return WithThird(line, up, footing, before, after);
        if (footing == Footing.Tied)
            return WithTieDown(line, up, before, after);
        var ((p1, x1), (p2, x2)) = two!.Value;
        var ((b1, b2), (a1, a2)) = (Statics.OnTwo(x1, x2, before.Loads), Statics.OnTwo(x1, x2, after.Loads));
        // What would roll with more than a chain holds lies as well with a third stand as another side up on two.
        return Finish(line, up, footing, [Stand(line, p1, x1, b1, a1), Stand(line, p2, x2, b2, a2)], before, after, Across.Never)
            ?? (footing == Footing.Free ? WithThird(line, up, Footing.Third, before, after) : null);
    }

    /// <summary>On stands under a line in one direction with a given side up, whatever footing that takes; null where none does.</summary>
    public Stance? OnStands(Vector up, Vector about)
    {
        foreach (var footing in (Footing[])[Footing.Free, Footing.Third, Footing.Tied, Footing.Rolling])
        {
            foreach (var line in Lines.Where(l => l.Along.Cross(about).Length < 1e-6))
            {
                var two = footing is Footing.Free or Footing.Rolling ? OnTwo(line) : null;
                if ((footing != Footing.Free || two is not null) && OnStands(line, up, footing, two) is { } stance)
                    return stance;
            }
        }

        return null;
    }

    private static Burden Loads(Assembly assembly, StandLine line, Vector up)
    {
        var side = line.Along.Cross(up);
        return new([.. assembly.Parts.Where(p => p.Mass > 0).Select(p => new Load(p.Mass!.Value, line.At(p.Centre), (p.Centre - line.Origin).Dot(side), (p.Centre - line.Origin).Dot(up)))]);
    }

    private FitStand Stand(StandLine line, FitPart pipe, double at, double? before, double? after, SupportKind kind = SupportKind.Stand)
    {
        var place = line.On(at);
        var (along, end) = StandLine.Found(pipe, place);
        return new(kind, pipe.Id, place, isHeldWeighed ? before : null, isWeighed ? after : null, along, end);
    }

    // The floor under it, and whether it keeps still; null where it hangs lower than stands can be screwed up, and where it would roll with more than a chain clamp holds and something better is looked for.
    private Stance? Finish(StandLine line, Vector up, Footing footing, IReadOnlyList<FitStand> stands, Burden before, Burden after, Across across)
    {
        // What is set level, and from whose underside the height counts, is the first in the list: the held part where it is among them.
        var pipes = stands.Where(s => s.Kind == SupportKind.Stand).OrderBy(s => s.Part == joint.Held.Id ? 0 : 1).ToList();
        IReadOnlyList<FitStand> ordered = [.. pipes, .. stands.Where(s => s.Kind != SupportKind.Stand)];
        var first = line.Pipes.First(p => p.Id == pipes[0].Part);
        var radius = first.Outside / 2;
        var height = Math.Max(rules.StandHeight, Math.Ceiling((-(Lowest(line, up) ?? -radius) - radius + rules.OverFloor) / 10 - 1e-9) * 10);
        if (rules.HighestStand < height)
            return null;
        var (b, a) = (before.Centre, after.Centre);
        var steadyBeside = rules.SteadyBeside * first.Outside;
        bool Steady((double Along, double Beside, double Over) c) => Math.Abs(c.Beside) <= steadyBeside && c.Over <= rules.SteadyOver * first.Outside;
        Rolling? rolling = null;
        if (across != Across.Always)
        {
            // With a third off the line from then on, only what is before can roll.
            var (mb, ma) = (Moment(before, b.Beside), across == Across.After ? 0 : Moment(after, a.Beside));
            var toward = ma >= mb ? a.Beside : b.Beside;
            var isSteady = Steady(b) && (across == Across.After || Steady(a));
            if (!isSteady && footing != Footing.Rolling && rules.ChainMoment(first.Outside) < Math.Max(mb, ma))
                return null;
            rolling = new(Math.Abs(b.Beside), Math.Abs(a.Beside), isSteady, Math.Max(mb, ma),
                Math.Abs(toward) < 1e-6 ? Vector.Zero : line.Along.Cross(up) * Math.Sign(toward), isSteady ? "" : "chain clamp");
        }

        return new(Attitude.Level, footing, up, line.Along, line.Origin - (up * (radius + height)), ordered, height, rolling);
    }

    // How far the lowest steel hangs over the line's origin, mm; the same wherever the stands are, so it is looked for once.
    private double? Lowest(StandLine line, Vector up)
    {
        if (!lowest.TryGetValue((line, up), out var known))
            lowest[(line, up)] = known = both.Parts.SelectMany(p => p.Bodies).Select(b => (double?)b.Lowest(line.Origin, up)).Min();
        return known;
    }

    private readonly Dictionary<(StandLine, Vector), double?> lowest = [];

    private static double Moment(Burden loads, double beside) => Statics.Gravity * loads.Weight * Math.Abs(beside) / 1000;

    private bool HasRoomForTwo(List<(FitPart Pipe, double At)> places)
    {
        for (var i = 0; i < places.Count; i++)
        {
            for (var k = places.Count - 1; k > i; k--)
            {
                if (AreApart(places[i], places[k]))
                    return true;
            }
        }

        return false;
    }

    private bool AreApart((FitPart Pipe, double At) a, (FitPart Pipe, double At) b) =>
        b.At - a.At >= Math.Max(rules.Apart, Math.Max(a.Pipe.Straight, b.Pipe.Straight) / 2) - 1e-9;

    // Two places that do, before and after: about a fifth from each end where that does, else where the least loaded stand carries most.
    private ((FitPart Pipe, double At) First, (FitPart Pipe, double At) Second)? OnTwo(StandLine line)
    {
        var places = line.Places(ManyPlaces);
        if (places.Count < 2)
            return null;
        var up = line.Along.AnySquare();
        var (before, after) = (Loads(held, line, up), Loads(both, line, up));
        var (before1, after1) = (before.Centre.Along, after.Centre.Along);
        var ends = line.Pipes.SelectMany(p => p.Ends).Select(e => line.At(e.At)).ToList();
        var (low, high) = (ends.Min(), ends.Max());
        ((FitPart, double), (FitPart, double))? best = null;
        var most = rules.ShareOfTwo + 1e-6;
        for (var i = 0; i < places.Count; i++)
        {
            for (var k = i + 1; k < places.Count; k++)
            {
                if (!AreApart(places[i], places[k]))
                    continue;
                var (x1, x2) = (places[i].At, places[k].At);
                var (b, a) = ((before1 - x1) / (x2 - x1), (after1 - x1) / (x2 - x1));
                var least = Math.Min(Math.Min(b, 1 - b), Math.Min(a, 1 - a));
                // The fifths come first where they do.
                var isFifths = Math.Abs(x1 - low - (0.2 * (high - low))) < 1e-6 && Math.Abs(x2 - low - (0.8 * (high - low))) < 1e-6;
                if (least < rules.ShareOfTwo + 1e-6 || least + (isFifths ? 1 : 0) <= most || !HoldsByMass(x1, x2, before) || !HoldsByMass(x1, x2, after))
                    continue;
                (best, most) = ((places[i], places[k]), least + (isFifths ? 1 : 0));
            }
        }

        return best;
    }

    private bool HoldsByMass(double x1, double x2, Burden loads) =>
        Statics.Least(loads.Each, l => (x2 - l.Along) / (x2 - x1), rules.MassSpread) >= 0 && Statics.Least(loads.Each, l => (l.Along - x1) / (x2 - x1), rules.MassSpread) >= 0;

    public Stance Clamped(Vector up, Footing footing = Footing.Held)
    {
        var part = joint.Held.IsPipe ? joint.Held : held.Parts.MaxBy(p => p.Mass ?? 0)!;
        double Moment(Assembly a) => Statics.Gravity * a.Mass * (a.Centre - part.Centre).SquareTo(up).Length / 1000;
        var clamp = new FitStand(SupportKind.Clamp, part.Id, part.Centre, isHeldWeighed ? held.Mass : null, isWeighed ? both.Mass : null)
        {
            MomentBefore = isHeldWeighed ? Moment(held) : null, MomentAfter = isWeighed ? Moment(both) : null,
        };
        return new(Attitude.Clamped, footing, up, joint.Axis, part.Centre, [clamp], 0, null);
    }

    private string NothingHolds =>
        $"no two places under {held.Label} carry it at {joint.Name}, with a third stand or a tie-down neither, and it is over what a bench holds: keep both sides on the hook until the weld bears, or make another joint first";

    private const string RollsHard = "that is more than one chain clamp holds: chain it at both stands, and leave the hook on until the weld bears";

    private const string Overhangs =
        "that is more than a chain in a V-block or a vice is sure to hold: prop what overhangs from below before the hook is let off, and leave the hook on until the weld bears";

    // A vice only grips what is light enough for it.
    private bool IsTooMuchForBench(Stance stance)
    {
        if (stance.Attitude != Attitude.Clamped || stance.Stands is not [{ } clamp, ..])
            return false;
        var chain = rules.ChainMoment(both.Parts.First(p => p.Id == clamp.Part).Outside);
        var holds = both.Mass <= rules.ViceLimit ? Math.Max(chain, rules.ViceGrip) : chain;
        return holds < Math.Max(clamp.MomentBefore ?? 0, clamp.MomentAfter ?? 0);
    }

    /// <summary>The new part leads off to a side, so that level and rolled differ.</summary>
    public bool LeadsAside => !joint.Turn.IsStraight || joint.Weld == FitWeld.Branch;

    /// <summary>A stance as the set-up of its joint.</summary>
    public SetUp Named(Stance stance)
    {
        var about = stance.About.Dot(joint.Axis) < 0 ? -stance.About : stance.About;
        var roll = stance.Attitude == Attitude.Level ? SetUp.RollOf(SetUp.LevelUp(joint, about), stance.Up, about) : 0;
        return new(stance.Attitude == Attitude.Level && roll > 0 ? Attitude.Rolled : stance.Attitude, roll, stance.Up, stance.Floor, stance.Stands, stance.Footing switch { Footing.Last => [NothingHolds], Footing.Rolling => [RollsHard], _ => IsTooMuchForBench(stance) ? [Overhangs] : [] })
        {
            StandHeight = stance.Height,
            Rolling = stance.Rolling,
        };
    }
}
