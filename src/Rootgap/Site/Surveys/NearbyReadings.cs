using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Readings like a given one, with one of its points elsewhere: at another hour, hole or distance back. All that can be touched is reached in a few such steps.</summary>
internal sealed class NearbyReadings(SiteLine line, Survey survey)
{
    /// <summary>Round the clock by half an hour: finer nobody reads.</summary>
    private static readonly double[] Hours = [.. Enumerable.Range(0, 24).Select(i => i * Math.PI / 12)];

    /// <summary>Back from the end, mm: round figures of the rule that is used.</summary>
    private readonly double[] backs = line.Fabrication.Units == Units.Inches ? [.. ((double[])[2, 4, 8, 12, 20, 36, 60, 100]).Select(b => b * LengthText.Inch)] : [50, 100, 200, 300, 500, 900, 1500, 2500];

    private readonly Dictionary<SiteEnd, List<Touch>> touches = [];

    public IEnumerable<SiteReading> Of(SiteReading reading) => reading switch
    {
        SiteReading.Coordinate c => Touches(c.Touch.End, withCentre: survey.TotalStation).Select(t => c with { Touch = t }),
        SiteReading.Tape t => Pairs(t.From, t.To).Select(p => new SiteReading.Tape(p.From, p.To)),
        SiteReading.Plumb p => Pairs(p.From, p.To).Where(q => Candidates.IsInReach(q.From, q.To)).Select(q => new SiteReading.Plumb(q.From, q.To)),
        SiteReading.Height h => Pairs(h.From, h.To).Select(p => new SiteReading.Height(p.From, p.To)),
        SiteReading.Slope s => Pairs(s.From, s.To).Where(p => Candidates.IsLevelled(p.From, p.To)).Select(p => new SiteReading.Slope(p.From, p.To)),
        SiteReading.StringLine s => Strings(s),
        SiteReading.Gap g => Hours.Select(q => g with { Clock = q }),
        SiteReading.HiLo h => Hours.Select(q => h with { Clock = q }),
        _ => throw new InvalidOperationException("The family of readings is closed."),
    };

    private IEnumerable<SiteReading> Strings(SiteReading.StringLine s) =>
        Touches(s.From.End).Select(t => s with { From = t }).Concat(Touches(s.To.End).Select(t => s with { To = t })).Concat(Touches(s.Third.End).Select(t => s with { Third = t }))
            .Where(r => r.From != r.To && r.From != r.Third && r.To != r.Third && Candidates.IsInReach(r.From, r.To, r.Third));

    private IEnumerable<(Touch From, Touch To)> Pairs(Touch from, Touch to) =>
        Touches(from.End).Select(t => (From: t, To: to)).Concat(Touches(to.End).Select(t => (From: from, To: t))).Where(p => p.From != p.To);

    private IEnumerable<Touch> Touches(SiteEnd end, bool withCentre = false)
    {
        if (!touches.TryGetValue(end, out var known))
            touches[end] = known = [.. All(end)];
        return withCentre ? known.Append(new(line.JointOf(end.Joint)!, end, TouchKind.Centre)) : known;
    }

    private IEnumerable<Touch> All(SiteEnd end)
    {
        var joint = line.JointOf(end.Joint)!;
        foreach (var q in Hours)
            yield return new(joint, end, TouchKind.Lip, q);
        for (var hole = 1; hole <= (end.Holes?.Count ?? 0); hole++)
            yield return new(joint, end, TouchKind.Hole, Hole: hole);
        foreach (var (back, quarter) in from b in Candidates.BacksOn(line, survey, end, backs) from q in Hours select (b, q))
            yield return quarter == 0 ? new(joint, end, TouchKind.Crown, 0, back) : new(joint, end, TouchKind.Side, quarter, back);
    }
}
