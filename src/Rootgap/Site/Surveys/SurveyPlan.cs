using Rootgap.Site.Closing;

namespace Rootgap.Site.Surveys;

/// <summary>One reading of a plan, and what is known of the closing before and after it: the five standard deviations of <see cref="Closure.Names"/>.</summary>
public sealed record PlannedReading(SiteReading Reading, IReadOnlyList<double> Before, IReadOnlyList<double> After);

/// <summary>Which readings to take at a final-fit weld, in the order in which they tell most: each the best after those before it.</summary>
public static class SurveyPlan
{
    /// <param name="most">How many readings at most; the plan ends sooner where one more tells hardly anything.</param>
    public static IReadOnlyList<PlannedReading> Of(SiteLine line, Survey survey, SiteJoint joint, int most)
    {
        // A reading that takes less than this share off the doubt is not worth the ladder.
        const double Worth = 0.005;
        var plan = new List<PlannedReading>();
        while (plan.Count < most)
        {
            if (Adjustment.Of(line, survey).Adjustment is not { } adjustment || Closure.Of(adjustment, joint) is not { } closure)
                break;
            if (new ReadingSearch(adjustment, closure).Plain() is not { } next || next.After > next.Before * (1 - Worth))
                break;
            plan.Add(new(next.Reading, closure.Sd, next.Sd));
            var value = next.Reading.Of(adjustment.Standing);
            survey = survey with { Readings = [.. survey.Readings, new(survey.Readings.Count, next.Reading, value, next.Reading.UsualSd(value, survey.TotalStation))] };
        }

        return plan;
    }
}
