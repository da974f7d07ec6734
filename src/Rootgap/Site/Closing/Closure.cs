using Rootgap.Measure;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>Whether a closing holds, as far as it is known: by two standard deviations.</summary>
public enum Verdict
{
    Closes,
    NotKnownYet,
    DoesNotClose,
}

/// <summary>What the two ends at a final-fit weld leave to be closed, as they stand.</summary>
/// <param name="Round">Distance of the cut's line back from the present end of the long side, on its outside, at sixteen places clockwise from 12, mm.</param>
/// <param name="OffsetUp">Where the other side's centre stands from the long side's axis line, toward 12 o'clock, mm.</param>
/// <param name="OffsetSide">The same toward 3 o'clock.</param>
/// <param name="TiltX">Part of the angle between the two axes about 3 o'clock, radians.</param>
/// <param name="TiltY">The same about 12 o'clock.</param>
public sealed record Opening(IReadOnlyList<double> Round, double OffsetUp, double OffsetSide, double TiltX, double TiltY, double Angle)
{
    public const int Places = 16;

    public double Mean => Round.Average();

    /// <summary>How much pipe is missing where most is, mm.</summary>
    public double Short => Math.Max(0, -Round.Min());

    public double Offset => Math.Sqrt((OffsetUp * OffsetUp) + (OffsetSide * OffsetSide));

    /// <summary>What is to be cut off at the sixteen places, and what no cut takes away, with everything standing so.</summary>
    public static Opening Of(SiteJoint joint, Standing standing)
    {
        var ends = Ends(joint, standing);
        var (up, side) = (Touch.Laid(joint.Axes.Twelve, ends.Along), Touch.Laid(joint.Axes.Three, ends.Along));
        var off = (ends.Fixed - ends.End).SquareTo(ends.Along);
        var tilt = ends.Along.Cross(-ends.Facing);
        return new(
            [.. Enumerable.Range(0, Places).Select(i => CutBack(joint, ends, i * 2 * Math.PI / Places))],
            off.Dot(up), off.Dot(side), tilt.Dot(joint.Axes.Three), tilt.Dot(joint.Axes.Twelve), ends.Along.AngleTo(-ends.Facing));
    }

    /// <summary>Distance of the cut's line back from the present end of the long side, on its outside, at any clock position (radians), mm.</summary>
    public static double CutBack(SiteJoint joint, Standing standing, double clock) => CutBack(joint, Ends(joint, standing), clock);

    private static double CutBack(SiteJoint joint, (Point End, Vector Along, Point Fixed, Vector Facing) ends, double clock)
    {
        var outside = ends.End + (Touch.Laid(joint.Axes.Q(clock), ends.Along) * (joint.Outside / 2));
        return ((outside - ends.Fixed).Dot(ends.Facing) - joint.Gap) / ends.Along.Dot(ends.Facing);
    }

    private static (Point End, Vector Along, Point Fixed, Vector Facing) Ends(SiteJoint joint, Standing standing)
    {
        var (longSide, other) = (joint.Long!, joint.Across(joint.Long!));
        return (standing.Face(longSide), standing.Normal(longSide), standing.Face(other), standing.Normal(other));
    }
}

/// <summary>The closing of one final-fit weld: what to cut, what no cut takes away, and how well it is known.</summary>
public sealed record Closure
{
    /// <summary>What the gap can take beside the cut, mm (common practice).</summary>
    private const double GapTakes = 1;

    public required SiteJoint Joint { get; init; }

    public required Opening Opening { get; init; }

    /// <summary>Standard deviations of mean (mm), offset toward 12 and 3 (mm), tilt x and y (radians), in the order of <see cref="Names"/>.</summary>
    public required IReadOnlyList<double> Sd { get; init; }

    /// <summary>Which of the five the readings do not see: standard deviation over half of what it is with no reading at all.</summary>
    public required IReadOnlyList<int> Unseen { get; init; }

    /// <summary>Inside diameters of the long side and of the other, mm: as gauged on an existing pipe, else the table's.</summary>
    public required (double Long, double Other) Inside { get; init; }

    /// <summary>Greatest step between the insides, mm.</summary>
    public required double HiLo { get; init; }

    /// <summary>Greatest change of gap round the pipe, mm.</summary>
    public required double GapVariation { get; init; }

    /// <summary>Length of the piece with its extra, mm, and the shop's shortest: less is left than that where too much is to be cut.</summary>
    public required (double Piece, double Shortest) Stock { get; init; }

    /// <summary>Names of what <see cref="Sd"/> tells, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = ["mean", "offset 12", "offset 3", "tilt x", "tilt y"];

    /// <summary>How much of the step is left to the offset, mm: half the difference of the inside diameters is spent already.</summary>
    public double OffsetLimit => HiLo - (Math.Abs(Inside.Long - Inside.Other) / 2);

    /// <summary>What a sloping cut shows round the pipe, mm.</summary>
    public double Slant => Joint.Outside * Math.Tan(Opening.Angle);

    public Verdict Length => Opening.Round.Min() + (2 * Sd[0]) < 0 ? Verdict.DoesNotClose
        : Opening.Round.Min() - (2 * Sd[0]) >= 0 && 2 * Sd[0] <= GapTakes ? Verdict.Closes
        : Verdict.NotKnownYet;

    public Verdict Angle => Judge(Slant, Joint.Outside * Math.Max(Sd[3], Sd[4]), GapVariation);

    public Verdict Offset => Judge(Opening.Offset, Math.Max(Sd[1], Sd[2]), OffsetLimit);

    public bool Closes => Length == Verdict.Closes && Angle == Verdict.Closes && Offset == Verdict.Closes;

    /// <summary>What is left of the piece where most is cut off is under the shop's shortest.</summary>
    public bool IsTooShort => Stock.Piece - Opening.Round.Max() < Stock.Shortest;

    /// <summary>How doubtful it is still: the five standard deviations in units of what each may be, as one.</summary>
    public double Doubt => Math.Sqrt(Sd.Select((sd, i) => sd * sd * DoubtWeight(i)).Sum());

    /// <summary>Square of one over what a component may be: 1 mm of length, the limits of offset and slant.</summary>
    internal double DoubtWeight(int component) => Math.Pow(1 / (component switch
    {
        0 => GapTakes,
        1 or 2 => Math.Max(OffsetLimit, LeastLimit),
        _ => GapVariation / Joint.Outside,
    }), 2);

    // Bores that use the whole step up leave no limit: a tenth of a millimetre keeps the sum finite.
    private const double LeastLimit = 0.1;

    /// <summary>The closing of a final-fit weld as adjusted; null where no side of it is pipe that can be cut.</summary>
    public static Closure? Of(Adjustment adjustment, SiteJoint joint)
    {
        if (joint.Long is not { } end)
            return null;
        var shop = adjustment.Line.Fabrication.Route.Drawing.Shop;
        var cut = adjustment.Line.Fabrication.Cuts.First(c => c.Pipe.Id == end.Part);
        var values = Values(joint);
        var sd = values.Select(v => adjustment.SdOf([joint.First, joint.Second], v)).ToList();
        var before = values.Select(v => adjustment.SdBefore([joint.First, joint.Second], v)).ToList();
        return new()
        {
            Joint = joint,
            Opening = Opening.Of(joint, adjustment.Standing),
            Sd = sd,
            Unseen = [.. Enumerable.Range(0, sd.Count).Where(i => before[i] > 0 && sd[i] > before[i] / 2)],
            Inside = (InsideOf(joint, end, adjustment.Survey), InsideOf(joint, joint.Across(end), adjustment.Survey)),
            HiLo = shop.HiLo,
            GapVariation = shop.GapVariation,
            Stock = (cut.Length + adjustment.Unknowns.Beyond[end.Index] - end.Extra, shop.ShortestPipe),
        };
    }

    /// <summary>The five values of an opening that are told with their spread, as functions of where everything stands.</summary>
    internal static IReadOnlyList<Func<Standing, double>> Values(SiteJoint joint) =>
    [
        s => Opening.Of(joint, s).Mean,
        s => Opening.Of(joint, s).OffsetUp,
        s => Opening.Of(joint, s).OffsetSide,
        s => Opening.Of(joint, s).TiltX,
        s => Opening.Of(joint, s).TiltY,
    ];

    /// <summary>Of an existing pipe as gauged, else the table's.</summary>
    private static double InsideOf(SiteJoint joint, SiteEnd end, Survey survey) => survey.Existing.FirstOrDefault(e => e.End == end) is { } measured
        ? (measured.Outside ?? joint.Outside) - (2 * (measured.Wall ?? ((joint.Outside - end.Inside) / 2)))
        : end.Inside;

    private static Verdict Judge(double value, double sd, double limit) =>
        value + (2 * sd) <= limit ? Verdict.Closes : value - (2 * sd) > limit ? Verdict.DoesNotClose : Verdict.NotKnownYet;
}
