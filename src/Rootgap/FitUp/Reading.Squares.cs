using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <content>Readings by square, straight edge and marks.</content>
public abstract partial record Reading
{
    /// <summary>A square with its tongue on a flange's face and its blade along the pipe: how much farther the blade stands off the pipe at its far end than at the face.</summary>
    public sealed record Square(int At) : Reading
    {
        /// <summary>Length of the blade, mm.</summary>
        public const double Blade = 300;

        public override string Name => "square";
        public override int? Position => At;
        public override double Sd => 0.5;
        public override string SeenWith => "square, blade along the pipe";

        private protected override double Measure(StandingJoint joint, in Motion moved)
        {
            // The blade runs square to the face, back over the pipe.
            var back = -moved.Of(joint.Joint.Far!.Normal);
            return back.Dot(joint.Q(At)) / -back.Dot(joint.Axis) * Blade;
        }

        public override string? WhyNot(StandingJoint joint) =>
            joint.Joint.End is not { Holes: not null } || joint.Joint.End != joint.Joint.New || !joint.Joint.Turn.IsStraight ? "no flange face is free there"
            : joint.Joint.HeldStraight < Blade / 2 || joint.Joint.Weld == FitWeld.Branch ? "there is too little pipe to lay a blade along" : null;
    }

    /// <summary>A straight edge along both outsides over the weld: the step from the held outside out to the new one.</summary>
    public sealed record StraightEdge(int At) : Reading
    {
        public override string Name => "straight edge";
        public override int? Position => At;
        public override double Sd => 0.3;
        public override string SeenWith => "straight edge and feeler";

        private protected override double Measure(StandingJoint joint, in Motion moved)
        {
            var (j, q) = (joint.Joint, joint.Q(At) * (joint.Joint.Outside / 2));
            var half = joint.Axis * (j.Gap / 2);
            return (moved.Of(j.Centre + half + q) - (j.Centre - half + q)).Dot(joint.Q(At));
        }

        public override string? WhyNot(StandingJoint joint) =>
            joint.Joint is not { Weld: FitWeld.Butt, Held.IsPipe: true } ? "a straight edge wants a pipe to lie along and a butt weld to reach over"
            : Math.Abs(joint.Joint.New.Ends.Select(e => e.Outside).MinBy(o => Math.Abs(o - joint.Joint.Outside)) - joint.Joint.Outside) > 1 ? "the outsides are not alike" : null;
    }

    /// <summary>How far a mark on the new part stands round from the one on the held part, mm round the outside; clockwise looking into the new part is plus.</summary>
    public sealed record TurnMark : Reading
    {
        public override string Name => "turn mark";
        public override double Sd => 0.5;
        public override string SeenWith => "two punched marks and a tape round the pipe";

        private protected override double Measure(StandingJoint joint, in Motion moved)
        {
            var twelve = moved.Of(joint.Twelve);
            return Math.Atan2(twelve.Dot(joint.Three), twelve.Dot(joint.Twelve)) * joint.Joint.Outside / 2;
        }

        public override string? WhyNot(StandingJoint joint) => joint.Joint.RollIsFree ? "turning it changes nothing" : null;
    }

    /// <summary>The line through two neighbouring pins of a face that lies level or skew, against a straight edge along plant north (east where the face looks north); clockwise looking at the face is plus.</summary>
    public sealed record HoleLine : Reading
    {
        public override string Name => "hole line";
        public override bool IsAngle => true;
        public override bool IsLevel => false;
        public override double Sd => Angles.ToRadians(0.2);
        public override string SeenWith => "two pins and a straight edge along the north mark";

        private protected override double Measure(StandingJoint joint, in Motion moved)
        {
            var (face, holes) = (joint.Joint.Far!, joint.Joint.Holes!);
            var north = North(face.Normal);
            // The pair whose middle lies nearest to north; its pins' line is square to that.
            var way = moved.Of(holes.Pair(face.Normal, north).Top);
            var normal = moved.Of(face.Normal);
            var flat = north.SquareTo(normal).Unit;
            return -Math.Atan2(flat.Cross(way).Dot(normal), flat.Dot(way));
        }

        /// <summary>Unit, in a face: plant north, or east where the face looks north.</summary>
        internal static Vector North(Vector normal) => (Math.Abs(normal.Y) < 0.9 ? Vector.North : Vector.East).SquareTo(normal).Unit;

        public override string? WhyNot(StandingJoint joint) =>
            joint.Joint.Holes is null || joint.Joint.Far is not { } face ? "no flange's face is free there"
            : Math.Abs(face.Normal.Dot(joint.SetUp.Up)) <= 0.9 ? "the face stands up: a level over two pins shows the holes" : null;
    }

    /// <summary>Where a fitting is held, which bears no marks: straight from the lip of the nearest open end of what is tacked to it to the new part's lip.</summary>
    public sealed record EndTape(int At) : Reading
    {
        public override string Name => "end tape";
        public override int? Position => At;
        public override string SeenWith => "tape";

        private protected override double Measure(StandingJoint joint, in Motion moved) => joint.HeldEndLip(At).To(joint.Lip(At, moved));

        public override string? WhyNot(StandingJoint joint)
        {
            if (NoFace(joint) is { } no)
                return no;
            if (joint.Joint.HeldEndFace is null)
                return joint.Joint.Held.IsPipe ? "the held pipe has marks to tape from" : "nothing is open behind " + joint.Joint.Held.Label;
            return joint.IsFree(joint.HeldEndLip(At), joint.Lip(At)) ? null : "the parts stand in the way of a straight tape";
        }
    }

    /// <summary>It is read on the new part itself and says nothing of where that part is.</summary>
    public virtual bool IsOfPart => false;

    /// <summary>A distance that is taken with a tape or a rule, and not with a gauge.</summary>
    public bool IsByTape => this is Tape or EndTape or Diagonal or Height or Plumb or Scale;

    /// <summary>How far the new part's free face stands out at a clock position against a square on its own weld end, mm across the whole face: the part is made so.</summary>
    public sealed record OutOfSquare(int At) : Reading
    {
        public override string Name => "out of square";
        public override int? Position => At;
        public override double Sd => 0.5;
        public override string SeenWith => "square on the fitting's other end, before it is fitted";
        public override bool IsOfPart => true;

        private protected override double Measure(StandingJoint joint, in Motion moved) => 0;

        public override string? WhyNot(StandingJoint joint) => NoFace(joint) ?? (joint.Joint.End != joint.Joint.New ? "the free face is not its own" : null);
    }

    /// <summary>The greatest less the least diameter of the new part's weld end, mm: half of it shows as a step.</summary>
    public sealed record OutOfRound : Reading
    {
        public override string Name => "out of round";
        public override double Sd => 0.3;
        public override string SeenWith => "calliper on the fitting's weld end, before it is fitted";
        public override bool IsOfPart => true;

        private protected override double Measure(StandingJoint joint, in Motion moved) => 0;

        // What has no step that is gauged has none that this would explain.
        public override string? WhyNot(StandingJoint joint) => new HiLo(12).WhyNot(joint);
    }
}
