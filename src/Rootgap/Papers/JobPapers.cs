using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Records;

namespace Rootgap.Papers;

/// <summary>All that a job's papers are made from: its drawings with what was done on them.</summary>
public sealed class JobPapers
{
    private readonly Dictionary<LineDone, (IReadOnlyList<WeldHistory> Welds, HoldPoints Holds)> lines = [];

    public JobPapers(JobRecord job, IReadOnlyList<LineDone> lines)
    {
        (Job, Lines) = (job, lines);
        Welders = WelderList.Of(job);
        Roster = Roster.Of(job.Facts.Select(e => e.Fact).OrderBy(f => f.Kept?.Seq ?? long.MaxValue));
        foreach (var line in lines)
        {
            var welds = WeldHistory.Of(line);
            this.lines[line] = (welds, new(line, welds, Roster));
        }
    }

    public JobRecord Job { get; }

    /// <summary>In the order given.</summary>
    public IReadOnlyList<LineDone> Lines { get; }

    public Roster Roster { get; }

    /// <summary>Of all lines, by line.</summary>
    public IReadOnlyList<WeldHistory> Welds => [.. Lines.SelectMany(WeldsOf)];

    public ILookup<string, CertificateNoted> Certificates => Papers.Heats.Certificates(Job);

    public IReadOnlyList<WeldHistory> WeldsOf(LineDone line) => lines[line].Welds;

    public HoldPoints HoldsOf(LineDone line) => lines[line].Holds;

    /// <summary>What comes next everywhere.</summary>
    public IReadOnlyList<NextStep> Steps => [.. Lines.SelectMany(l => NextStep.OfLine(l, WeldsOf(l), HoldsOf(l)))];

    /// <summary>Why a step must not be ticked now; empty where nothing is missing.</summary>
    public IReadOnlyList<string> NotBefore(Fact fact, LineDone line) => NextStep.NotBefore(fact, line, WeldsOf(line), HoldsOf(line));

    public IReadOnlyList<HeatUse> Heats
    {
        get
        {
            var certificates = Certificates;
            return [.. Lines.SelectMany(l => Papers.Heats.Of(l, certificates))];
        }
    }

    /// <summary>The lots of which something was drawn, by name.</summary>
    public IReadOnlyList<Lot> Lots
    {
        get
        {
            var draws = DrawsOf();
            return [.. draws.Select(d => d.Draw.Lot).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase).Select(name => LotOf(name, draws))];
        }
    }

    /// <summary>A lot as it stands; one of which nothing was drawn yet is begun with what is given.</summary>
    /// <param name="of">Its drawings where nothing was drawn yet.</param>
    public Lot LotOf(string name, IReadOnlyList<LineDone> of, ExaminationMethod method, double share, uint seed, DateOnly? since = null, DateOnly? until = null)
    {
        var draws = DrawsOf();
        return draws.Exists(d => d.Draw.Lot.Equals(name, StringComparison.OrdinalIgnoreCase)) ? LotOf(name, draws) : Lot.Of([.. of.SelectMany(WeldsOf)], [], name, method, share, seed, since, until);
    }

    private Lot LotOf(string name, List<(LineDone Line, WeldsDrawn Draw)> draws)
    {
        var mine = draws.Where(d => d.Draw.Lot.Equals(name, StringComparison.OrdinalIgnoreCase)).ToList();
        return Lot.Of([.. Lines.Where(l => mine.Exists(d => d.Line == l)).SelectMany(WeldsOf)], mine, name, default, 0, 0);
    }

    private List<(LineDone Line, WeldsDrawn Draw)> DrawsOf() => [.. Lines.SelectMany(l => l.Done.Facts.Where(e => e is { Counts: true, Fact: WeldsDrawn }).Select(e => (l, (WeldsDrawn)e.As)))];

    /// <summary>Who may weld by what.</summary>
    public WelderList Welders { get; }

    /// <summary>What does not fit: heats that a certificate contradicts, steps that were done without somebody's word, spools that were released with something missing.</summary>
    public IReadOnlyList<Finding> Findings => [.. Papers.Heats.Against(Heats), .. Unlisted(), .. Lines.SelectMany(Unspoken)];

    // Who welds is on the list, by a procedure that he is qualified for, and in time; where there is a list.
    private IEnumerable<Finding> Unlisted()
    {
        if (Welders.IsEmpty)
            yield break;
        foreach (var weld in Welds)
        {
            foreach (var made in weld.Made)
            {
                foreach (var stamp in made.Welders)
                {
                    if (Welders.WhyNot(stamp, made.Procedure, DateOnly.FromDateTime(made.Time.UtcDateTime)) is { } why)
                        yield return new("welder-not-on-list", Severity.Warn, weld.FullName, default, $"{weld.FullName}: {stamp} {why}.", "Mend the stamp or the list; else the weld is for whoever answers for qualifications to decide.");
                }
            }
        }
    }

    private IEnumerable<Finding> Unspoken(LineDone line)
    {
        var holds = HoldsOf(line);
        foreach (var fact in DrawingRecord.Counting(line.Done.Facts))
        {
            if (fact is not (JointStep or HeatTreated or BoltedUp or Released or Coated or Tested { HasPassed: true }))
                continue;
            var missing = NotBefore(fact, line);
            if (missing.Count == 0)
                continue;
            var what = fact is JointStep s ? $"{s.Weld.Of(s.Joint)} {PaperWords.Of(s.Step)}" : $"{DrawingRecord.NameOf(fact)} {fact.Kind.Replace('-', ' ')}";
            yield return new(fact is Released ? "released-with-something-missing" : "step-without-word", Severity.Warn, $"{line.Number} {DrawingRecord.NameOf(fact)}", default,
                $"{line.Number}: {what} on {fact.Time.UtcDateTime.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)} by {fact.Who}. This is neither done nor taken on: {string.Join("; ", missing.Take(6))}{(missing.Count > 6 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"; and {missing.Count - 6} more") : "")}.",
                "Let whoever may say so look at it now and say it, or take the step back.");
        }
    }
}
