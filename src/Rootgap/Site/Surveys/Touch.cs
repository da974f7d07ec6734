using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Where on an end something can be touched.</summary>
public enum TouchKind
{
    /// <summary>The outer rim.</summary>
    Lip,

    /// <summary>The inner edge, where root gap and hi-lo are read.</summary>
    Nose,

    /// <summary>Centre of a bolt hole in the plane of the face; it goes with the metal.</summary>
    Hole,

    /// <summary>On the pipe's outside, some way back from the end, on top.</summary>
    Crown,

    /// <summary>The same at another clock position.</summary>
    Side,

    /// <summary>Middle of the face: a surveyor's centring target.</summary>
    Centre,
}

/// <summary>A point that can be touched on an end. But for holes it is a place, not metal: lips, noses, crowns and sides never show a roll.</summary>
/// <param name="Clock">Radians clockwise from 12; of no meaning for holes and the centre.</param>
/// <param name="Back">Distance back from the end as it is now, mm; of crown and side only.</param>
/// <param name="Hole">Number of the hole, from 1 clockwise.</param>
public sealed record Touch(SiteJoint Joint, SiteEnd End, TouchKind Kind, double Clock = 0, double Back = 0, int Hole = 0)
{
    /// <summary>A hole that lies this little before 12 o'clock counts as at it, radians (half a degree).</summary>
    private const double AtTwelve = 0.5 * Math.PI / 180;

    /// <summary>The words of the survey file: <c>lip 12</c>, <c>side 3 400</c>, <c>hole 1</c>, <c>centre</c>.</summary>
    public string Text => Kind switch
    {
        TouchKind.Lip => "lip " + Surveys.Clock.Text(Clock),
        TouchKind.Nose => "nose " + Surveys.Clock.Text(Clock),
        TouchKind.Hole => string.Create(CultureInfo.InvariantCulture, $"hole {Hole}"),
        TouchKind.Crown => string.Create(CultureInfo.InvariantCulture, $"crown {Back:0.###}"),
        TouchKind.Side => string.Create(CultureInfo.InvariantCulture, $"side {Surveys.Clock.Text(Clock)} {Back:0.###}"),
        _ => "centre",
    };

    /// <summary>In a fitter's words: <c>lip at 12</c>, <c>side at 3, 400 back</c>.</summary>
    public string Words(Units units) => Kind switch
    {
        TouchKind.Lip => "lip at " + Surveys.Clock.Text(Clock),
        TouchKind.Nose => "nose at " + Surveys.Clock.Text(Clock),
        TouchKind.Crown => LengthText.Say(units, $"crown {Back:len} back"),
        TouchKind.Side => LengthText.Say(units, $"side at {Surveys.Clock.Text(Clock)}, {Back:len} back"),
        _ => Text,
    };

    /// <summary>Where it is with the end as it stands.</summary>
    /// <param name="motion">Of the end, from its place as drawn.</param>
    /// <param name="beyond">How far the end reaches beyond the drawn one now, mm.</param>
    public Point At(in Motion motion, double beyond)
    {
        var face = End.Face + (End.Normal * beyond);
        var centre = motion.Of(face);
        if (Kind == TouchKind.Centre)
            return centre;
        if (Kind == TouchKind.Hole)
            return motion.Of(face + (HoleAt(Hole) * (End.Holes!.Circle / 2)));
        var normal = motion.Of(End.Normal);
        var q = Laid(Joint.Axes.Q(Clock), normal);
        return Kind switch
        {
            TouchKind.Lip => centre + (q * (Joint.Outside / 2)),
            TouchKind.Nose => centre + (q * (End.Inside / 2)),
            _ => centre - (normal * Back) + (q * (End.Straight!.Outside / 2)),
        };
    }

    /// <summary>A clock direction laid into a face as it stands, unit.</summary>
    public static Vector Laid(Vector q, Vector normal) => q.SquareTo(normal).Unit;

    /// <summary>Unit, in the face as drawn: to a hole. Counted clockwise from the first at or after 12.</summary>
    private Vector HoleAt(int number)
    {
        var holes = End.Holes!;
        var pitch = 2 * Math.PI / holes.Count;
        var (right, up) = (holes.Between.Dot(Joint.Axes.Three), holes.Between.Dot(Joint.Axes.Twelve));
        // The holes stand half a pitch beside the line that they straddle.
        var first = (Math.Atan2(right, up) + (pitch / 2)) % pitch;
        first = first < -1e-9 ? first + pitch : first;
        if (first > pitch - AtTwelve)
            first -= pitch;
        return Joint.Axes.Q(first + ((number - 1) * pitch));
    }
}
