using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>A joint as it stands.</summary>
/// <param name="Off">Its opening: pose of the second side against the first.</param>
/// <param name="Sd">One standard deviation of each of the six, mm and radians.</param>
/// <param name="IsWithin">Whether it keeps to what must hold there; of a made joint always.</param>
public sealed record JointStand(SiteJoint Joint, string State, PoseError Off, IReadOnlyList<double> Sd, bool IsWithin);

/// <summary>The answer to what was measured: where everything stands, what is cut, what no cut takes away, what is moved, and what to read next.</summary>
public sealed record LineClosing
{
    public required Adjustment Adjustment { get; init; }

    public required IReadOnlyList<Closure> Closures { get; init; }

    /// <summary>Every joint as it stands; worked out when first asked for.</summary>
    public IReadOnlyList<JointStand> Joints => joints ??= [.. Adjustment.Line.Joints.Select(j => Stand(Adjustment, Closures, j))];

    private IReadOnlyList<JointStand>? joints;

    /// <summary>Searched for when first asked for.</summary>
    public LeastMovement Movement => movement ??= LeastMovement.Of(Adjustment, Closures);

    private LeastMovement? movement;

    /// <summary>The worst of the readings that the others contradict, and the closings without it; null where none is questioned. Worked out when first asked for.</summary>
    public (Adjusted Reading, IReadOnlyList<Closure> Closures)? Again =>
        Adjustment.Worst is not { } worst ? null : again ??= Adjustment.Of(Adjustment.Line, Adjustment.Survey.Without(worst.Taken)).Adjustment is { } without ? (worst, ClosuresOf(without)) : null;

    private (Adjusted Reading, IReadOnlyList<Closure> Closures)? again;

    /// <summary>The reading that tells most about the most doubtful closing; null where none tells anything.</summary>
    public NextReading? Next => next ??= Closures.Where(c => c.Doubt > 0).MaxBy(c => c.Doubt) is { } doubtful ? new ReadingSearch(Adjustment, doubtful).Best() : null;

    private NextReading? next;

    /// <summary>Whether every closing closes and every joint that is not made keeps to its limits.</summary>
    public bool IsClosed => Closures.All(c => c.Closes) && Joints.All(j => j.IsWithin);

    /// <summary>The closing of a line as surveyed; without it, what is wrong with the survey.</summary>
    public static (LineClosing? Closing, IReadOnlyList<Finding> Errors) Of(SiteLine line, Survey survey)
    {
        var expansion = survey.Expansion ?? Standards.Metals.ExpansionOf(line.Fabrication.Route.Drawing.Line.Material).PerDegree;
        if (SurveyCheck.Of(line, survey, expansion) is { Count: > 0 } impossible)
            return (null, impossible);
        var (adjustment, errors) = Adjustment.Of(line, survey);
        if (adjustment is null)
            return (null, errors);
        return (new() { Adjustment = adjustment, Closures = ClosuresOf(adjustment) }, []);
    }

    /// <summary>The closings of all final-fit welds that are not made and have pipe to be cut.</summary>
    public static IReadOnlyList<Closure> ClosuresOf(Adjustment adjustment) =>
        [.. adjustment.Line.FinalFits.Where(j => !adjustment.Survey.Made.Contains(j.Id)).Select(j => Closure.Of(adjustment, j)).OfType<Closure>()];

    private static JointStand Stand(Adjustment adjustment, IReadOnlyList<Closure> closures, SiteJoint joint)
    {
        var survey = adjustment.Survey;
        var isMade = survey.Made.Contains(joint.Id);
        var (off, sd) = adjustment.OpeningOf(joint);
        var shop = adjustment.Line.Fabrication.Route.Drawing.Shop;
        var state = JointState.Of(joint, closures.FirstOrDefault(c => c.Joint == joint), shop.HiLo, shop.GapVariation);
        return new(joint, isMade ? "made" : survey.Loose.Contains(joint.Id) ? "loose" : "open", off, sd, isMade || state.IsWithin(adjustment.Standing));
    }
}
