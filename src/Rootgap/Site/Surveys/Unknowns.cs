using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>
/// The unknown numbers of a survey: of each body six (shift and rotation vector about its reference point), of each end of a spool six (how far it is from
/// where the body's drawing has it, in its joint's axes about its centre as it is now), of the survey's frame none, four or six.
/// </summary>
internal sealed class Unknowns
{
    private readonly SiteLine line;
    private readonly Survey survey;
    private readonly double stretch;
    private readonly Point frameCentre;
    private readonly Motion frameStart;

    /// <summary>Index of the first of a body's six, of an end's six; -1 where it is exactly as drawn.</summary>
    private readonly int[] ofBody;
    private readonly int[] ofEnd;

    public Unknowns(SiteLine line, Survey survey, double expansion, Motion frameStart)
    {
        (this.line, this.survey, this.frameStart) = (line, survey, frameStart);
        stretch = expansion * (survey.Steel - Survey.Drawn);
        ofBody = new int[line.Bodies.Count];
        ofEnd = new int[line.Ends.Count];
        var priors = new List<double>();
        var means = new List<double>();
        foreach (var body in line.Bodies)
        {
            var known = survey.KnownOf(body);
            ofBody[body.Index] = known == Known.Drawn || !line.Ends.Any(e => e.Body == body) ? -1 : priors.Count;
            if (ofBody[body.Index] >= 0)
            {
                priors.AddRange(PriorOf(known));
                means.AddRange(new double[6]);
            }
        }

        foreach (var joint in line.Joints)
        {
            foreach (var end in joint.Sides)
            {
                ofEnd[end.Index] = end.Body.IsOutside || ofBody[end.Body.Index] < 0 ? -1 : priors.Count;
                if (ofEnd[end.Index] < 0)
                    continue;
                var limits = JointLimits.EndOfSpool(joint);
                var isMeasured = survey.AsBuilt.TryGetValue(end.Name, out var built);
                for (var i = 0; i < 6; i++)
                {
                    priors.Add(isMeasured ? Math.Max(built.Sd[i], LeastSpread) : JointLimits.Spread(limits[i]));
                    means.Add(isMeasured ? built.Off[i] : 0);
                }
            }
        }

        Frame = priors.Count;
        priors.AddRange(survey.Frame switch
        {
            SurveyFrame.Levelled => [FrameShift, FrameShift, FrameShift, FrameTurn],
            SurveyFrame.Free => [FrameShift, FrameShift, FrameShift, FrameTurn, FrameTurn, FrameTurn],
            _ => [],
        });
        Scale = [.. priors];
        Mean = [.. means, .. new double[priors.Count - means.Count]];
        frameCentre = Point.Origin + (line.Ends.Aggregate(Vector.Zero, (sum, e) => sum + (e.Face - Point.Origin)) / Math.Max(1, line.Ends.Count));
        Beyond = [.. line.Ends.Select(e => survey.StandsOut.TryGetValue(e.Joint, out var out_) && line.JointOf(e.Joint)!.Long == e ? out_ : e.Extra)];
        joints = [.. line.Joints.SelectMany(j => j.Sides.Select(_ => j))];
    }

    // Nothing is known better than this, mm or radians.
    private const double LeastSpread = 1e-5;

    // Only the size of a step of the frame: it has no prior.
    private const double FrameShift = 100;
    private const double FrameTurn = 0.1;

    private readonly SiteJoint[] joints;

    /// <summary>Standard deviation of each unknown before anything is read, mm and radians; of the frame's only a usual step.</summary>
    public double[] Scale { get; }

    /// <summary>What each unknown is thought to be before anything is read: 0 but for ends that were measured after welding.</summary>
    public double[] Mean { get; }

    public int Count => Scale.Length;

    /// <summary>Index of the frame's first unknown: all from there have no prior.</summary>
    public int Frame { get; }

    /// <summary>How far each end reaches beyond the drawn one now, mm.</summary>
    public double[] Beyond { get; }

    public static double[] PriorOf(Known known)
    {
        var (shift, turn) = known == Known.Far ? (1000.0, Angles.ToRadians(15)) : (50, Angles.ToRadians(3));
        return [shift, shift, shift, turn, turn, turn];
    }

    /// <summary>Index of the first of a body's six unknowns; -1 where it is as drawn.</summary>
    public int Of(SiteBody body) => ofBody[body.Index];

    public int Of(SiteEnd end) => ofEnd[end.Index];

    /// <summary>A body's motion about its reference point.</summary>
    public Motion BodyAt(SiteBody body, double[] x) => Six(ofBody[body.Index], x) is { } e ? Motion.About(body.Reference, new(e.X, e.Y, e.Z), new(e.Rx, e.Ry, e.Rz)) : Motion.None;

    /// <summary>An end's motion from its place as drawn: grown with the steel's warmth, off by its own error, moved with its body.</summary>
    public Motion EndAt(SiteEnd end, double[] x)
    {
        var face = end.Face + (end.Normal * Beyond[end.Index]);
        var grown = (face - end.Body.Reference) * stretch;
        var motion = Motion.About(face, grown, Vector.Zero);
        if (Six(ofEnd[end.Index], x) is { } own)
            motion = joints[end.Index].Axes.At(face + grown).MotionOf(own).After(motion);
        return BodyAt(end.Body, x).After(motion);
    }

    public Motion FrameAt(double[] x)
    {
        if (survey.Frame == SurveyFrame.Plant)
            return Motion.None;
        var turn = survey.Frame == SurveyFrame.Levelled ? new Vector(0, 0, x[Frame + 3]) : new(x[Frame + 3], x[Frame + 4], x[Frame + 5]);
        return frameStart.After(Motion.About(frameCentre, new(x[Frame], x[Frame + 1], x[Frame + 2]), turn));
    }

    public Standing At(double[] x) => new([.. line.Ends.Select(e => EndAt(e, x))], Beyond, FrameAt(x));

    /// <summary>The unknowns on which the given ends depend, by index.</summary>
    public IEnumerable<int> Behind(IReadOnlyList<SiteEnd> ends, bool readsFrame)
    {
        var seen = new HashSet<int>();
        foreach (var end in ends)
        {
            foreach (var first in new[] { ofBody[end.Body.Index], ofEnd[end.Index] })
            {
                for (var i = 0; first >= 0 && i < 6; i++)
                {
                    if (seen.Add(first + i))
                        yield return first + i;
                }
            }
        }

        for (var i = Frame; readsFrame && i < Count; i++)
            yield return i;
    }

    private static PoseError? Six(int first, double[] x) => first < 0 ? null : PoseError.From(x.AsSpan(first, 6));
}
