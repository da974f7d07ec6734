using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>Something a fitter reads at a joint. Values are mm, or radians where <see cref="IsAngle"/>.</summary>
public abstract record Reading
{
    private Reading() { }

    /// <summary>The word in readings files: tape, gap, hi-lo, ...</summary>
    public abstract string Name { get; }

    /// <summary>Clock position; none where the reading has none.</summary>
    public virtual int? Position => null;

    public virtual bool IsAngle => false;

    /// <summary>How well it is read, one standard deviation: mm or radians.</summary>
    public virtual double Sd => 1;

    /// <summary>What it is read with.</summary>
    public abstract string SeenWith { get; }

    /// <summary>What is read with the new part in error by <paramref name="error"/>.</summary>
    public double Measure(StandingJoint joint, in PoseError error) => Measure(joint, new Movement(joint, error));

    private protected abstract double Measure(StandingJoint joint, in Movement moved);

    /// <summary>Whether this is read at this joint at all; if not, why not.</summary>
    public virtual string? WhyNot(StandingJoint joint) => null;

    /// <summary>The words on a card: "tape at 3", "face level across".</summary>
    public virtual string Text => Position is { } at ? string.Create(Inv, $"{Name} at {at}") : Name;

    private static readonly System.Globalization.CultureInfo Inv = System.Globalization.CultureInfo.InvariantCulture;

    private protected static string? NoFace(StandingJoint joint) =>
        joint.Joint.Far is null ? joint.Joint.New.Id + " has no free face" : null;

    // Angle of a direction to the horizontal.
    private static double Slope(StandingJoint joint, Vector direction) => Math.Asin(Math.Clamp(direction.Dot(joint.SetUp.Up), -1, 1));

    /// <summary>Above this slope a level no longer tells which way a line leans, radians (85 degrees).</summary>
    private const double Upright = 85 * Math.PI / 180;

    /// <summary>Distance between the two bevel noses along the pipe.</summary>
    public sealed record Gap(int At) : Reading
    {
        public override string Name => "gap";
        public override int? Position => At;
        public override double Sd => 0.2;
        public override string SeenWith => "gap rod or taper gauge";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Noses(joint, moved, At).Dot(joint.Axis);

        public override string? WhyNot(StandingJoint joint) => Shut(joint);
    }

    /// <summary>Step between the inside surfaces; positive where the new part stands out.</summary>
    public sealed record HiLo(int At) : Reading
    {
        public override string Name => "hi-lo";
        public override int? Position => At;
        public override double Sd => 0.2;
        public override string SeenWith => "hi-lo gauge";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Noses(joint, moved, At).Dot(joint.Q(At));

        public override string? WhyNot(StandingJoint joint) =>
            Shut(joint) ?? (joint.Joint.Weld == FitWeld.Branch ? "a branch has no step to gauge: the hole is fitted to its bore" : null);
    }

    private static Vector Noses(StandingJoint joint, in Movement moved, int at)
    {
        var (j, q) = (joint.Joint, joint.Q(at) * (joint.Joint.Inside / 2));
        var half = joint.Axis * (j.Gap / 2);
        return moved.Of(j.Centre + half + q) - (j.Centre - half + q);
    }

    private static string? Shut(StandingJoint joint) =>
        joint.Joint.Weld is FitWeld.Socket or FitWeld.SlipOn ? "the pipe's end is inside the fitting: its gap is set by a mark, not seen" : null;

    /// <summary>Straight distance from the mark to the lip.</summary>
    public sealed record Tape(int At) : Reading
    {
        public override string Name => "tape";
        public override int? Position => At;
        public override string SeenWith => "tape or trammels";

        private protected override double Measure(StandingJoint joint, in Movement moved) => joint.MarkAt(At).To(moved.Of(joint.Lip(At)));

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (!joint.MarkExists(At))
                return joint.Joint.Held.Id + " has no mark there to start from";
            return Solid.Clear(joint.MarkAt(At), joint.Lip(At), joint.Bodies) ? null : "the parts stand in the way of a straight tape";
        }
    }

    /// <summary>From the pipe's outside square up to a scale laid on the free face, at a station back from the weld
    /// (from the held elbow's own far end, where a straight part stands on an elbow).</summary>
    public sealed record Scale(double Station) : Reading
    {
        public override string Name => "scale to pipe";
        public override string SeenWith => "scale and rule";
        public override string Text => string.Create(Inv, $"scale to pipe at {Station:0.##}");

        private protected override double Measure(StandingJoint joint, in Movement moved)
        {
            var (from, back, side) = Base(joint);
            var face = joint.Joint.Far!;
            var normal = moved.Of(face.Normal);
            var off = (moved.Of(face.Centre) - from - (back * Station)).Dot(normal);
            return (off / side.Dot(normal)) - (joint.Joint.Outside / 2);
        }

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            var (from, back, side) = Base(joint);
            // The scale reaches over the pipe only where the face plane comes back over it.
            if (Math.Abs(side.Dot(joint.Joint.Far!.Normal)) < 0.17)
                return "a scale on the free face never reaches over the pipe";
            var end = from + (back * Station) + (side * (Measure(joint, PoseError.None) + (joint.Joint.Outside / 2)));
            var start = joint.Joint.Turn.IsStraight ? joint.Joint.Far.Centre : joint.LipToward(joint.Along);
            return Solid.Clear(start, end, joint.Bodies) ? null : "the parts stand in the scale's way";
        }

        private static (Point From, Vector Back, Vector Side) Base(StandingJoint joint)
        {
            var j = joint.Joint;
            return j.Turn.IsStraight && !j.HeldTurn.IsStraight
                ? (j.HeldFar.Centre, j.HeldFar.Normal, j.HeldTurn.Side)
                : (j.Centre, -j.Axis, joint.Along);
        }
    }

    /// <summary>The free face against the horizontal, along the bend; positive when the throat (12 o'clock) is the higher.</summary>
    public sealed record FaceLevelAlong : Reading
    {
        public override string Name => "face level";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "level or protractor";
        public override string Text => "face level along";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Slope(joint, moved.Of(joint.Carried(joint.Along)));

        public override string? WhyNot(StandingJoint joint) => NoFace(joint) ?? TooSteep(Measure(joint, PoseError.None));
    }

    /// <summary>The free face against the horizontal, across the bend; positive when the 3 o'clock end is the higher.</summary>
    public sealed record FaceLevelAcross : Reading
    {
        public override string Name => "face level";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "level or protractor";
        public override string Text => "face level across";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Slope(joint, moved.Of(joint.Carried(joint.Across)));

        public override string? WhyNot(StandingJoint joint) => NoFace(joint) ?? TooSteep(Measure(joint, PoseError.None));
    }

    private static string? TooSteep(double slope) =>
        Upright < Math.Abs(slope) ? "the face stands plumb that way: a level does not tell which way it leans; take the plumb distances" : null;

    /// <summary>Height above the floor of a lip, or of the middle of the free face (a cap's crown) where no clock position is given.</summary>
    public sealed record Height(int? At) : Reading
    {
        public override string Name => "height";
        public override int? Position => At;
        public override string SeenWith => "tape or water level";
        public override string Text => At is { } at ? string.Create(Inv, $"height at {at}") : "height of the middle";

        private protected override double Measure(StandingJoint joint, in Movement moved) =>
            joint.SetUp.HeightOf(moved.Of(At is { } at ? joint.Lip(at) : joint.Joint.Tip));

        public override string? WhyNot(StandingJoint joint) => At is null ? null : NoFace(joint);
    }

    /// <summary>Level distance from the plumb line at a lip to the held pipe's mark.</summary>
    public sealed record Plumb(int At) : Reading
    {
        public override string Name => "plumb";
        public override int? Position => At;
        public override string SeenWith => "plumb bob and rule";

        private protected override double Measure(StandingJoint joint, in Movement moved) =>
            (moved.Of(joint.Lip(At)) - joint.MarkAt(At)).SquareTo(joint.SetUp.Up).Length;

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (!joint.MarkExists(At))
                return joint.Joint.Held.Id + " has no mark there";
            return Measure(joint, PoseError.None) < 20 ? "the lip stands right over the mark" : null;
        }
    }

    /// <summary>Slope of the line through the two top holes (from 16 holes up, the left and right pair near mid-height); positive when the 3 o'clock one is higher.</summary>
    public sealed record Holes : Reading
    {
        public override string Name => "holes";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "two pins and a level";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Slope(joint, moved.Of(Line(joint)));

        public override string? WhyNot(StandingJoint joint)
        {
            if (joint.Joint.Holes is null || joint.Joint.Far is not { } face)
                return joint.Joint.New.Id + " has no bolt holes";
            // Within about 25 degrees of level every hole line is level: a level is blind to a turn about the upright.
            return 0.9 < Math.Abs(face.Normal.Dot(joint.SetUp.Up)) ? "the face lies level: set the holes by a straightedge on the pins, along plant north" : null;
        }

        /// <summary>Unit, from the 9 o'clock pin to the 3 o'clock pin.</summary>
        public static Vector Line(StandingJoint joint)
        {
            var (holes, face) = (joint.Joint.Holes!, joint.Joint.Far!);
            var best = holes.Between;
            for (var k = 1; k < holes.Count; k++)
            {
                var next = holes.Between.Turned(face.Normal, 2 * Math.PI * k / holes.Count);
                if (best.Dot(joint.SetUp.Up) + 1e-9 < next.Dot(joint.SetUp.Up))
                    best = next;
            }
            var line = face.Normal.Cross(best);
            var right = line.Dot(joint.Carried(joint.Three));
            if (Math.Abs(right) < 1e-6)
                right = line.Dot(joint.Carried(joint.Twelve));
            return right < 0 ? -line : line;
        }
    }

    /// <summary>An eccentric reducer's flat side, lying on top or below: the level laid along it; positive when its far end is the higher.</summary>
    public sealed record FlatLevel : Reading
    {
        public override string Name => "flat level";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "level";

        private protected override double Measure(StandingJoint joint, in Movement moved) => Slope(joint, moved.Of(joint.Axis));

        public override string? WhyNot(StandingJoint joint)
        {
            if (joint.Joint.Flat == Vector.Zero)
                return joint.Joint.New.Id + " has no flat side";
            return Math.Abs(joint.Joint.Flat.Dot(joint.SetUp.Up)) < 0.99 ? "the flat side lies neither on top nor below" : null;
        }
    }

    /// <summary>Two parallel faces: from the held part's far lip opposite a clock position to the new part's lip at it.</summary>
    public sealed record Diagonal(int At) : Reading
    {
        public override string Name => "diagonal";
        public override int? Position => At;
        public override string SeenWith => "tape";

        private protected override double Measure(StandingJoint joint, in Movement moved) =>
            joint.HeldLip(((At + 5) % 12) + 1).To(moved.Of(joint.Lip(At)));

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (Tolerance.Turn < Math.Asin(Math.Min(1, joint.Joint.HeldFar.Normal.Cross(joint.Joint.Far!.Normal).Length)))
                return "the two free faces are not parallel";
            return Solid.Clear(joint.HeldLip(((At + 5) % 12) + 1), joint.Lip(At), joint.Bodies) ? null : "the parts stand in the way of a straight tape";
        }
    }

    /// <summary>All readings that could be thought of at a joint; <see cref="WhyNot"/> says which of them can be taken.</summary>
    public static IEnumerable<Reading> All(StandingJoint joint)
    {
        foreach (var at in StandingJoint.Clock)
            yield return new Gap(at);
        foreach (var at in StandingJoint.Clock)
            yield return new HiLo(at);
        foreach (var at in StandingJoint.Clock)
            yield return new Tape(at);
        foreach (var station in Stations(joint))
            yield return new Scale(station);
        yield return new FaceLevelAlong();
        yield return new FaceLevelAcross();
        foreach (var at in StandingJoint.Clock)
            yield return new Height(at);
        yield return new Height(null);
        if (joint.Joint.Far is { } face && Math.Abs(face.Normal.Dot(joint.SetUp.Up)) < 0.1)
        {
            foreach (var at in StandingJoint.Clock)
                yield return new Plumb(at);
        }
        yield return new Holes();
        yield return new FlatLevel();
        foreach (var at in StandingJoint.Clock)
            yield return new Diagonal(at);
    }

    // Two stations back over the pipe, and for a tee one over the far side of its run.
    private static IEnumerable<double> Stations(StandingJoint joint)
    {
        var overElbow = joint.Joint.Turn.IsStraight && !joint.Joint.HeldTurn.IsStraight;
        var reach = overElbow ? Math.Min(300, joint.Joint.HeldBehind) : joint.Joint.Weld == FitWeld.Branch ? 0 : joint.Mark;
        if (40 <= reach)
        {
            yield return Math.Max(20, Math.Floor(reach / 4 / 5) * 5);
            yield return Math.Floor(reach / 5) * 5;
        }
        if (40 <= reach && 0 < joint.Joint.Run)
            yield return -Math.Floor(joint.Joint.Run / 5) * 5;
    }
}
