using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A place on a spool's end that can be touched: a lip.</summary>
/// <param name="End">The end's name.</param>
/// <param name="At">12, 3, 6 or 9 o'clock, looking out of the end.</param>
public readonly record struct LipPlace(string End, int At)
{
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{End} {At}");
}

/// <summary>An end in its place: as it should be, or moved.</summary>
internal readonly record struct PlacedEnd(OpenEnd End, Motion Moved)
{
    public Point Lip(int at) => End.Lip(at, Moved);

    public Vector Normal => Moved.Of(End.Normal);

    public Vector Laid(Vector v) => v.SquareTo(Normal).Unit;
}

/// <summary>What is read of a finished spool, from end to end or at one end, the spool standing as drawn by its base. mm, or radians where <see cref="IsAngle"/>.</summary>
public abstract record EndReading
{
    private EndReading()
    {
    }

    /// <summary>The word in readings files.</summary>
    public abstract string Name { get; }

    /// <summary>Which places or which end, and which way: "C1 12 to C5 12".</summary>
    public abstract string Where { get; }

    /// <summary>Names of the ends it touches.</summary>
    public abstract IReadOnlyList<string> Ends { get; }

    public virtual bool IsAngle => false;

    /// <summary>It may read below nought.</summary>
    public virtual bool IsSigned => true;

    /// <summary>How well it is read, one standard deviation: mm or radians.</summary>
    public virtual double Sd => IsAngle ? Angles.ToRadians(0.1) : 1;

    public abstract string SeenWith { get; }

    /// <summary>Which way plus is, in words; empty where it is a plain distance.</summary>
    public virtual string Plus => "";

    /// <summary>The words on a card.</summary>
    public string Text => $"{Name} {Where}";

    internal abstract double Measure(Func<string, PlacedEnd> ends);

    private static double Slope(Vector v) => Math.Asin(Math.Clamp(v.Unit.Dot(Vector.Up), -1, 1));

    /// <summary>Straight distance between two lips: a length, or across from one side to the other a diagonal.</summary>
    public sealed record Tape(LipPlace From, LipPlace To, bool IsDiagonal) : EndReading
    {
        public override string Name => "tape";
        public override string Where => $"{From} to {To}";
        public override IReadOnlyList<string> Ends => [From.End, To.End];
        public override bool IsSigned => false;
        public override string SeenWith => "tape";
        public bool Equals(Tape? other) => other is not null && ((other.From, other.To) == (From, To) || (other.From, other.To) == (To, From));
        public override int GetHashCode() => From.GetHashCode() ^ To.GetHashCode();

        internal override double Measure(Func<string, PlacedEnd> ends) => ends(From.End).Lip(From.At).To(ends(To.End).Lip(To.At));
    }

    /// <summary>How much higher one lip stands than another.</summary>
    public sealed record Height(LipPlace From, LipPlace To) : EndReading
    {
        public override string Name => "height";
        public override string Where => $"{From} to {To}";
        public override IReadOnlyList<string> Ends => [From.End, To.End];
        public override string SeenWith => "water level, or line and rule";
        public override string Plus => "+ where the second is the higher";

        internal override double Measure(Func<string, PlacedEnd> ends) => (ends(To.End).Lip(To.At) - ends(From.End).Lip(From.At)).Dot(Vector.Up);
    }

    /// <summary>
    /// Where a lip stands over the floor, by plumb bob: along or across a chalk line that lies plumb under the base's own axis and begins under the middle of its face (under a
    /// base that stands upright, lines to the north and to the east).
    /// </summary>
    /// <param name="Lip">The lip.</param>
    /// <param name="Base">The end that the line is under.</param>
    /// <param name="IsAcross">Square to the line.</param>
    /// <param name="Toward">Unit, level: the side that is plus.</param>
    public sealed record Offset(LipPlace Lip, string Base, bool IsAcross, Vector Toward) : EndReading
    {
        public override string Name => "offset";
        public override string Where => $"{Lip} {(IsAcross ? "across" : "along")}";
        public override IReadOnlyList<string> Ends => [Base, Lip.End];
        public override string SeenWith => "plumb bob, rule and chalk line";
        public override string Plus => $"+ to the {OpenEnd.Way(Toward)}";
        public bool Equals(Offset? other) => other is not null && (other.Lip, other.Base, other.IsAcross) == (Lip, Base, IsAcross);
        public override int GetHashCode() => Lip.GetHashCode() ^ (IsAcross ? 1 : 0);

        internal override double Measure(Func<string, PlacedEnd> ends)
        {
            var at = ends(Base);
            return (ends(Lip.End).Lip(Lip.At) - at.Moved.Of(at.End.Centre)).Dot(Toward);
        }
    }

    /// <summary>A face that stands: how much its middle line leans against plumb.</summary>
    public sealed record Lean(string End) : EndReading
    {
        public override string Name => "face lean";
        public override string Where => End;
        public override IReadOnlyList<string> Ends => [End];
        public override bool IsAngle => true;
        public override string SeenWith => "level or protractor upright on the face";
        public override string Plus => "+ where the face looks up";

        internal override double Measure(Func<string, PlacedEnd> ends) => Slope(ends(End).Normal);
    }

    /// <summary>A face that lies: a level along it, from 6 to 12 o'clock or from 9 to 3.</summary>
    public sealed record FaceLevel(string End, bool IsAcross) : EndReading
    {
        public override string Name => "face level";
        public override string Where => $"{End} {(IsAcross ? "across" : "along")}";
        public override IReadOnlyList<string> Ends => [End];
        public override bool IsAngle => true;
        public override string SeenWith => "level";
        public override string Plus => $"+ where {(IsAcross ? 3 : 12)} o'clock is the higher";

        internal override double Measure(Func<string, PlacedEnd> ends)
        {
            var end = ends(End);
            return Slope(end.Laid(IsAcross ? end.End.Three : end.End.Twelve));
        }
    }

    /// <summary>The slope over the pair of pins that lies level at the top, or the pair near mid-height.</summary>
    public sealed record Holes(string End) : EndReading
    {
        public override string Name => "holes";
        public override string Where => End;
        public override IReadOnlyList<string> Ends => [End];
        public override bool IsAngle => true;
        public override string SeenWith => "two pins and a level";
        public override string Plus => "+ where the 3 o'clock pin is the higher";

        internal override double Measure(Func<string, PlacedEnd> ends)
        {
            var end = ends(End);
            var line = end.End.Normal.Cross(end.End.Holes!.Pair(end.End.Normal, Vector.Up).Top);
            return Slope(end.Moved.Of(line.Dot(end.End.Three) < 0 ? -line : line));
        }
    }

    /// <summary>A face that lies: the holes against north (east where the face looks north).</summary>
    public sealed record HoleLine(string End) : EndReading
    {
        public override string Name => "hole line";
        public override string Where => End;
        public override IReadOnlyList<string> Ends => [End];
        public override bool IsAngle => true;
        public override double Sd => Angles.ToRadians(0.2);
        public override string SeenWith => "two pins and a straight edge along north";
        public override string Plus => "+ clockwise looking at the face";

        internal override double Measure(Func<string, PlacedEnd> ends)
        {
            var end = ends(End);
            var way = end.Moved.Of(end.End.Holes!.Pair(end.End.Normal, end.End.Twelve).Top);
            var flat = end.Laid(end.End.Twelve);
            return -Math.Atan2(flat.Cross(way).Dot(end.Normal), flat.Dot(way));
        }
    }
}
