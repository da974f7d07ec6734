using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Which coordinate of a point is read.</summary>
public enum Along
{
    East,
    North,
    Up,
}

/// <summary>
/// One reading that can be taken at site. A closed family: the cases below are all there are. What each one is, is a full nonlinear function of where
/// the ends stand (mm, radians).
/// </summary>
public abstract record SiteReading
{
    private SiteReading()
    {
    }

    /// <summary>The ends that it touches, in order.</summary>
    public abstract IReadOnlyList<SiteEnd> Ends { get; }

    /// <summary>Degrees outside, radians inside.</summary>
    public virtual bool IsAngle => false;

    /// <summary>The packet's word for what is read: east, tape, gap ...</summary>
    public abstract string Word { get; }

    /// <summary>One standard deviation unless given; mm or radians.</summary>
    /// <param name="value">What was read.</param>
    public abstract double UsualSd(double value, bool totalStation);

    /// <summary>What it reads with everything standing so.</summary>
    public abstract double Of(Standing standing);

    /// <summary>In a fitter's words: <c>tape from lip at 12 on W15, spool 4 to lip at 12 on B6, outside</c>.</summary>
    public abstract string Says(Units units);

    /// <summary>Coordinate of a point, in the survey's own frame.</summary>
    public sealed record Coordinate(Touch Touch, Along Along) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [Touch.End];
        public override string Word => Along switch { Along.East => "east", Along.North => "north", _ => "up" };
        public override double UsualSd(double value, bool totalStation) => totalStation ? 1 : 2;

        public override double Of(Standing standing)
        {
            var at = standing.Read(standing.At(Touch));
            return Along switch { Along.East => at.X, Along.North => at.Y, _ => at.Z };
        }

        public override string Says(Units units) => $"{(Along == Along.Up ? "elevation" : Word)} of {Where(Touch, units)}";
    }

    /// <summary>Straight distance between two points.</summary>
    public sealed record Tape(Touch From, Touch To) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [From.End, To.End];
        public override string Word => "tape";
        public override double UsualSd(double value, bool totalStation) => 0.5 + (0.2 * Math.Abs(value) / 1000);
        public override double Of(Standing standing) => standing.At(From).To(standing.At(To));
        public override string Says(Units units) => $"tape from {Where(From, units)} to {Where(To, units)}";
    }

    /// <summary>Level distance, from a plumb line at the first point to the second.</summary>
    public sealed record Plumb(Touch From, Touch To) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [From.End, To.End];
        public override string Word => "plumb";
        public override double UsualSd(double value, bool totalStation) => 1.5;
        public override double Of(Standing standing) => (standing.At(To) - standing.At(From)).SquareTo(Vector.Up).Length;
        public override string Says(Units units) => $"level from the plumb line at {Where(From, units)} to {Where(To, units)}";
    }

    /// <summary>Second point above the first, by water level.</summary>
    public sealed record Height(Touch From, Touch To) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [From.End, To.End];
        public override string Word => "height";
        public override double UsualSd(double value, bool totalStation) => 1;
        public override double Of(Standing standing) => standing.At(To).Z - standing.At(From).Z;
        public override string Says(Units units) => $"height of {Where(To, units)} above {Where(From, units)}";
    }

    /// <summary>Angle to the horizontal of the line through two points, positive when the second is the higher.</summary>
    public sealed record Slope(Touch From, Touch To) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [From.End, To.End];
        public override bool IsAngle => true;
        public override string Word => "slope";
        public override double UsualSd(double value, bool totalStation) => Angles.ToRadians(0.1);

        public override double Of(Standing standing)
        {
            var line = standing.At(To) - standing.At(From);
            return Math.Atan2(line.Z, line.SquareTo(Vector.Up).Length);
        }

        public override string Says(Units units) => $"slope from {Where(From, units)} to {Where(To, units)}, plus where {To.Words(units)} is higher";
    }

    /// <summary>Square distance, never negative, from the straight line through two points to a third.</summary>
    public sealed record StringLine(Touch From, Touch To, Touch Third) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [From.End, To.End, Third.End];
        public override string Word => "string";
        public override double UsualSd(double value, bool totalStation) => 2;

        public override double Of(Standing standing)
        {
            var from = standing.At(From);
            return (standing.At(Third) - from).SquareTo((standing.At(To) - from).Unit).Length;
        }

        public override string Says(Units units) => $"string from {Where(From, units)} to {Where(To, units)}, square to {Where(Third, units)}";
    }

    /// <summary>From the first side's nose to the second's, along the first side's axis as it stands; between the lips at a bolted joint.</summary>
    public sealed record Gap(SiteJoint Joint, double Clock) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [Joint.First, Joint.Second];
        public override string Word => "gap";
        public override double UsualSd(double value, bool totalStation) => 0.2;
        public override double Of(Standing standing) => Across(standing, Joint, Clock).Dot(standing.Normal(Joint.First));
        public override string Says(Units units) => $"gap at {Joint.Id}, {Surveys.Clock.Text(Clock)} o'clock";
    }

    /// <summary>The same along the clock direction at the first side: positive, the second side stands out.</summary>
    public sealed record HiLo(SiteJoint Joint, double Clock) : SiteReading
    {
        public override IReadOnlyList<SiteEnd> Ends => [Joint.First, Joint.Second];
        public override string Word => "hi-lo";
        public override double UsualSd(double value, bool totalStation) => 0.2;
        public override double Of(Standing standing) => Across(standing, Joint, Clock).Dot(Touch.Laid(Joint.Axes.Q(Clock), standing.Normal(Joint.First)));
        public override string Says(Units units) => $"hi-lo at {Joint.Id}, {Surveys.Clock.Text(Clock)} o'clock";
    }

    private static Vector Across(Standing standing, SiteJoint joint, double clock)
    {
        var kind = joint.IsBolted ? TouchKind.Lip : TouchKind.Nose;
        return standing.At(new(joint, joint.Second, kind, clock)) - standing.At(new(joint, joint.First, kind, clock));
    }

    private static string Where(Touch touch, Units units) => $"{touch.Words(units)} on {touch.End.Words}";
}

/// <summary>Where everything stands: the motion of each end from its place as drawn, and of the survey's frame.</summary>
/// <param name="Motions">Of each end of the line, by its index.</param>
/// <param name="Beyond">How far each end reaches beyond the drawn one now, mm, by its index.</param>
/// <param name="Frame">From plant coordinates to those read.</param>
public sealed record Standing(Motion[] Motions, double[] Beyond, Motion Frame)
{
    /// <summary>Where a point is, plant coordinates.</summary>
    public Point At(Touch touch) => touch.At(Motions[touch.End.Index], Beyond[touch.End.Index]);

    /// <summary>Centre of an end as it is now: of the pipe with its extra, where it ends.</summary>
    public Point Face(SiteEnd end) => Motions[end.Index].Of(end.Face + (end.Normal * Beyond[end.Index]));

    /// <summary>Outward normal of an end as it stands.</summary>
    public Vector Normal(SiteEnd end) => Motions[end.Index].Of(end.Normal);

    /// <summary>A place as the survey's coordinates have it.</summary>
    public Point Read(Point at) => Frame.Of(at);
}

/// <summary>A reading with what was read.</summary>
/// <param name="Entry">Its row of the survey, from 0: a point has one for each coordinate.</param>
/// <param name="Value">mm or radians.</param>
/// <param name="Sd">One standard deviation, likewise.</param>
public sealed record SiteTaken(int Entry, SiteReading Reading, double Value, double Sd);
