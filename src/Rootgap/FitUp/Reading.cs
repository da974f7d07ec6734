using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>Something a fitter reads at a joint. Values are mm, or radians where <see cref="IsAngle"/>.</summary>
public abstract partial record Reading
{
    private Reading() { }

    /// <summary>The word in readings files: tape, gap, hi-lo, ...</summary>
    public abstract string Name { get; }

    /// <summary>Clock position; none where the reading has none.</summary>
    public virtual int? Position => null;

    public virtual bool IsAngle => false;

    /// <summary>It is held against the horizontal: the line as drawn may show another angle than the bench.</summary>
    public virtual bool IsLevel => IsAngle;

    /// <summary>How well it is read, one standard deviation: mm or radians.</summary>
    public virtual double Sd => 1;

    /// <summary>What it is read with.</summary>
    public abstract string SeenWith { get; }

    /// <summary>Which way plus is, in words; empty for a plain distance.</summary>
    public string Plus => this switch
    {
        HiLo => "+ where the new part stands out",
        FaceLevelAlong => "+ where the throat, or 12 o'clock, is the higher",
        FaceLevelAcross => "+ where the 3 o'clock end is the higher",
        Holes => "+ where the 3 o'clock pin is the higher",
        FlatLevel => "+ where its far end is the higher",
        HoleLine => "+ clockwise looking at the face",
        Square => "+ where the blade's far end stands farther off",
        StraightEdge => "+ where the new part stands out",
        TurnMark => "+ clockwise looking into the new part",
        OutOfSquare => "+ where the face stands out",
        _ => "",
    };

    /// <summary>What is read with the new part in error by <paramref name="error"/>.</summary>
    public double Measure(StandingJoint joint, in PoseError error) => Measure(joint, joint.MotionOf(error));

    private protected abstract double Measure(StandingJoint joint, in Motion moved);

    /// <summary>Whether this is read at this joint at all; if not, why not.</summary>
    public virtual string? WhyNot(StandingJoint joint) => null;

    /// <summary>Reading and clock, station or way, as an order of work lists it: "tape 3", "scale to pipe 300", "face level along".</summary>
    public string Short => this switch
    {
        Scale s => string.Create(Inv, $"{Name} {s.Station:0.######}"),
        FaceLevelAlong => "face level along",
        FaceLevelAcross => "face level across",
        { Position: { } at } => string.Create(Inv, $"{Name} {at}"),
        _ => Name,
    };

    /// <summary>The words on a card: "tape at 3", "face level across".</summary>
    public virtual string Text => Position is { } at ? string.Create(Inv, $"{Name} at {at}") : Name;

    private static readonly System.Globalization.CultureInfo Inv = System.Globalization.CultureInfo.InvariantCulture;

    private protected static string? NoFace(StandingJoint joint) =>
        joint.Joint.Far is null ? "nothing is free beyond " + joint.Joint.New.Label : null;

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

        private protected override double Measure(StandingJoint joint, in Motion moved) => Noses(joint, moved, At).Dot(joint.Axis);

        public override string? WhyNot(StandingJoint joint) => Shut(joint);
    }

    /// <summary>Step between the inside surfaces; positive where the new part stands out.</summary>
    public sealed record HiLo(int At) : Reading
    {
        public override string Name => "hi-lo";
        public override int? Position => At;
        public override double Sd => 0.2;
        public override string SeenWith => "hi-lo gauge";

        private protected override double Measure(StandingJoint joint, in Motion moved) => Noses(joint, moved, At).Dot(joint.Q(At));

        public override string? WhyNot(StandingJoint joint) =>
            Shut(joint) ?? (joint.Joint.Weld == FitWeld.Branch ? "a branch has no step to gauge: the hole is fitted to its bore" : null);
    }

    private static Vector Noses(StandingJoint joint, in Motion moved, int at)
    {
        var (j, q) = (joint.Joint, joint.Q(at) * (joint.Joint.Inside / 2));
        var half = joint.Axis * (j.Gap / 2);
        return moved.Of(j.Centre + half + q) - (j.Centre - half + q);
    }

    private static string? Shut(StandingJoint joint) => joint.Joint.IsWelded ? "it is welded: its gap and its step are closed" :
        joint.Joint.Weld is FitWeld.Socket or FitWeld.SlipOn ? "the pipe's end is inside the fitting: its gap is set by a mark, not seen" : null;

    /// <summary>Straight distance from the mark to the lip.</summary>
    public sealed record Tape(int At) : Reading
    {
        public override string Name => "tape";
        public override int? Position => At;
        public override string SeenWith => "tape or trammels";

        private protected override double Measure(StandingJoint joint, in Motion moved) => joint.MarkAt(At).To(joint.Lip(At, moved));

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (!joint.MarkExists(At))
                return joint.Joint.Held.Label + " has no mark there to start from";
            return joint.IsFree(joint.MarkAt(At), joint.Lip(At)) ? null : "the parts stand in the way of a straight tape";
        }
    }

    /// <summary>From the pipe's outside square up to a scale laid on the free face, at a station back from the weld
    /// (from the held elbow's own far end, where a straight part stands on an elbow).</summary>
    public sealed record Scale(double Station) : Reading
    {
        public override string Name => "scale to pipe";
        public override string SeenWith => "scale and rule";
        public override string Text => string.Create(Inv, $"scale to pipe at {Station:0.##}");

        private protected override double Measure(StandingJoint joint, in Motion moved)
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
            var reach = Measure(joint, PoseError.None);
            if (reach is < 1 or > LongestRule)
                return "the scale does not pass over the pipe within a rule's reach";
            var pipe = from + (back * Station) + (side * (joint.Joint.Outside / 2));
            var end = pipe + (side * reach);
            var face = joint.Joint.Far;
            var along = back.SquareTo(face.Normal).Unit;
            // It lies flat across the face: what of it stands out over the pipe has to be free, and the rule up to it.
            var start = face.Centre + (along * ((end - face.Centre).Dot(along) > 0 ? face.Outside / 2 : -face.Outside / 2));
            var over = (end - start).SquareTo(face.Normal);
            return joint.IsFree(end - over, end) && joint.IsFree(pipe, end) ? null : "the parts stand in the scale's way";
        }

        // A steel rule up to a scale, mm.
        private const double LongestRule = 1000;

        private static (Point From, Vector Back, Vector Side) Base(StandingJoint joint)
        {
            var j = joint.Joint;
            // A straight part on an elbow: the pipe behind the elbow is meant.
            if (OverElbow(joint))
                return (j.HeldBehindFace!.Centre, j.HeldBehindFace.Normal, j.HeldTurn.Side.SquareTo(j.HeldBehindFace.Normal).Unit);
            return (j.Centre, -j.Axis, joint.Along);
        }
    }

    private static bool OverElbow(StandingJoint joint) => joint.Joint.Turn.IsStraight && !joint.Joint.HeldTurn.IsStraight && joint.Joint.HeldBehindFace is not null;

    /// <summary>The free face against the horizontal, along the bend; positive when the throat (12 o'clock) is the higher.</summary>
    public sealed record FaceLevelAlong : Reading
    {
        public override string Name => "face level";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "level or protractor";
        public override string Text => "face level along";

        private protected override double Measure(StandingJoint joint, in Motion moved) => Slope(joint, joint.Carried(joint.Along, moved));

        public override string? WhyNot(StandingJoint joint) => NoFace(joint) ?? TooSteep(joint, Measure(joint, PoseError.None));
    }

    /// <summary>The free face against the horizontal, across the bend; positive when the 3 o'clock end is the higher.</summary>
    public sealed record FaceLevelAcross : Reading
    {
        public override string Name => "face level";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "level or protractor";
        public override string Text => "face level across";

        private protected override double Measure(StandingJoint joint, in Motion moved) => Slope(joint, joint.Carried(joint.Across, moved));

        public override string? WhyNot(StandingJoint joint) => NoFace(joint) ?? TooSteep(joint, Measure(joint, PoseError.None));
    }

    private static string? TooSteep(StandingJoint joint, double slope) =>
        joint.Joint.IsRound && Math.Abs(joint.Joint.Far!.Normal.Dot(joint.SetUp.Up)) < StandingJoint.FiveDegrees ? "the face is round and stands plumb: a level across it shows nothing; take the plumb distances" :
        Upright < Math.Abs(slope) ? "the face stands plumb that way: a level does not tell which way it leans; take the plumb distances" : null;

    /// <summary>Height above the floor of a lip, or of the middle of the free face (a cap's crown) where no clock position is given.</summary>
    public sealed record Height(int? At) : Reading
    {
        public override string Name => "height";
        public override int? Position => At;
        public override string SeenWith => "tape or water level";
        public override string Text => At is { } at ? string.Create(Inv, $"height at {at}") : "height of the middle";

        private protected override double Measure(StandingJoint joint, in Motion moved) =>
            joint.SetUp.HeightOf(At is { } at ? joint.Lip(at, moved) : moved.Of(joint.Joint.Tip));

        public override string? WhyNot(StandingJoint joint) =>
            joint.SetUp.Attitude == Attitude.Clamped ? "it is clamped: there is no height to go by"
            : joint.Joint is { Far: null, New.Of: not Routes.Cap } || At is not null ? NoFace(joint) : null;
    }

    /// <summary>Level distance from the plumb line at a lip to the held pipe's mark.</summary>
    public sealed record Plumb(int At) : Reading
    {
        public override string Name => "plumb";
        public override int? Position => At;
        public override string SeenWith => "plumb bob and rule";

        private protected override double Measure(StandingJoint joint, in Motion moved) =>
            (joint.Lip(At, moved) - joint.MarkAt(At)).SquareTo(joint.SetUp.Up).Length;

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (!joint.MarkExists(At))
                return joint.Joint.Held.Label + " has no mark there";
            if (Measure(joint, PoseError.None) < 20)
                return "the lip stands right over the mark";
            var (lip, mark, up) = (joint.Lip(At), joint.MarkAt(At), joint.SetUp.Up);
            var foot = lip + (up * (mark - lip).Dot(up));
            return joint.IsFree(lip, foot) && joint.IsFree(foot, mark) ? null : "the parts stand in the plumb line's way";
        }
    }

    /// <summary>Slope of the line through the pair of holes that lies level at the top (from 16 holes up, the left and right pair near mid-height); positive when the 3 o'clock one is higher.</summary>
    public sealed record Holes : Reading
    {
        public override string Name => "holes";
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.1);
        public override string SeenWith => "two pins and a level";

        private protected override double Measure(StandingJoint joint, in Motion moved) => Slope(joint, moved.Of(Line(joint)));

        public override string? WhyNot(StandingJoint joint)
        {
            if (joint.Joint.Holes is null || joint.Joint.Far is not { } face)
                return "no flange's face is free there";
            // Within about 25 degrees of level every hole line is level: a level is blind to a turn about the upright.
            return 0.9 < Math.Abs(face.Normal.Dot(joint.SetUp.Up)) ? "the face lies level: set the holes by a straightedge on the pins, along plant north" : null;
        }

        /// <summary>Unit, from the 9 o'clock pin to the 3 o'clock pin.</summary>
        public static Vector Line(StandingJoint joint)
        {
            var (holes, face) = (joint.Joint.Holes!, joint.Joint.Far!);
            var line = face.Normal.Cross(holes.Pair(face.Normal, joint.SetUp.Up).Top);
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

        private protected override double Measure(StandingJoint joint, in Motion moved) => Slope(joint, moved.Of(joint.Axis));

        public override string? WhyNot(StandingJoint joint)
        {
            if (joint.Joint.Flat == Vector.Zero)
                return joint.Joint.New.Label + " has no flat side";
            return Math.Abs(joint.Joint.Flat.Dot(joint.SetUp.Up)) < 0.99 ? "the flat side lies neither on top nor below" : null;
        }
    }

    /// <summary>Two parallel faces: from the held part's far lip opposite a clock position to the new part's lip at it.</summary>
    public sealed record Diagonal(int At) : Reading
    {
        public override string Name => "diagonal";
        public override int? Position => At;
        public override string SeenWith => "tape";

        private protected override double Measure(StandingJoint joint, in Motion moved) =>
            joint.HeldLip(((At + 5) % 12) + 1).To(joint.Lip(At, moved));

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (Tolerance.Turn < Math.Asin(Math.Min(1, joint.Joint.HeldFar.Normal.Cross(joint.Joint.Far!.Normal).Length)))
                return "the two free faces are not parallel";
            if (!joint.Joint.IsHeldFarFree)
                return "the other end of " + joint.Joint.Held.Label + " is not free";
            return joint.IsFree(joint.HeldLip(((At + 5) % 12) + 1), joint.Lip(At)) ? null : "the parts stand in the way of a straight tape";
        }
    }

    /// <summary>All readings that could be thought of at a joint; <see cref="WhyNot"/> says which of them can be taken.</summary>
    public static IEnumerable<Reading> All(StandingJoint joint)
    {
        foreach (var at in StandingJoint.Clock)
            yield return new Gap(at);
        foreach (var at in StandingJoint.Clock)
            yield return new HiLo(at);
        if (joint.Joint.IsRing)
            yield break;
        foreach (var at in StandingJoint.Clock)
            yield return new Tape(at);
        foreach (var at in StandingJoint.Clock)
            yield return new EndTape(at);
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
        yield return new HoleLine();
        yield return new FlatLevel();
        yield return new Square(12);
        yield return new Square(3);
        yield return new StraightEdge(12);
        yield return new StraightEdge(3);
        yield return new TurnMark();
        foreach (var at in StandingJoint.Clock)
            yield return new Diagonal(at);
    }

    // Two stations back over the pipe.
    private static IEnumerable<double> Stations(StandingJoint joint)
    {
        var reach = OverElbow(joint) ? Math.Min(300, joint.Joint.HeldBehind) : joint.Joint.Weld == FitWeld.Branch ? 0 : joint.Mark;
        if (40 <= reach)
        {
            yield return Math.Max(20, Math.Floor(reach / 4 / 5) * 5);
            yield return Math.Floor(reach / 5) * 5;
        }
    }
}
