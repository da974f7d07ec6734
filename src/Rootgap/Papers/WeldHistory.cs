using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>A drawing of a job with what was done on it.</summary>
/// <param name="Path">Its file in the job.</param>
/// <param name="Done">What was done, as it stands on the drawing as it is now.</param>
public sealed record LineDone(string Path, Fabrication Fabrication, DrawingRecord Done)
{
    public string Number => Done.Drawing.Number;

    /// <summary>False where the desk check stops the drawing: nothing is made from it.</summary>
    public bool IsBuildable { get; init; } = true;

    /// <summary>The spool that a joint is made in; empty where it is made at site, or bolted.</summary>
    public string SpoolOf(Joint joint) => joint is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted } ? Fabrication.SpoolOf.GetValueOrDefault(joint.Between[0], "") : "";
}

/// <summary>An examination that a weld is asked for.</summary>
/// <param name="Because">In words: drawn in lot L; 100 % of the butt welds.</param>
public sealed record AskedFor(ExaminationMethod Method, string Because);

/// <summary>How a weld stands.</summary>
public enum WeldState
{
    NotBegun,
    Fitted,
    Tacked,
    Welded,

    /// <summary>Welded and examined, and all that it is asked for is reported and accepted.</summary>
    Accepted,

    /// <summary>An examination that counts rejected it.</summary>
    Rejected,

    /// <summary>It was repaired: what stands there now has the next number.</summary>
    Repaired,

    /// <summary>It was cut out.</summary>
    CutOut,
}

/// <summary>One weld under one number, with all that is known of it. A weld that was repaired or cut out keeps its own history.</summary>
public sealed record WeldHistory
{
    public required LineDone Line { get; init; }

    public required Joint Joint { get; init; }

    public required WeldMark Mark { get; init; }

    /// <summary>Whether it is the weld that stands, or is to be made, there now.</summary>
    public required bool IsNow { get; init; }

    public string Name => Mark.Of(Joint.Id);

    /// <summary>With the drawing's number: <c>CHW-201 W7 R1</c>.</summary>
    public string FullName => $"{Line.Number} {Name}";

    public string Spool => Line.SpoolOf(Joint);

    public required Step? Step { get; init; }

    /// <summary>The last time that its fit-up was seen; null where nobody saw it.</summary>
    public required FitUpSeen? FitUp { get; init; }

    /// <summary>That it was welded, by time.</summary>
    public required IReadOnlyList<JointStep> Made { get; init; }

    /// <summary>Every examination that counts, by time.</summary>
    public required IReadOnlyList<Examined> Examinations { get; init; }

    public required HeatTreated? Treated { get; init; }

    /// <summary>What ended it; null where it stands.</summary>
    public required Repair? Ended { get; init; }

    public required IReadOnlyList<AskedFor> Asked { get; init; }

    /// <summary>Welded, or somebody spoke of it as of a weld: it was made.</summary>
    public bool IsMade => Step >= Records.Step.Welded || Made.Count > 0;

    public DateTimeOffset? Welded => Made.Count > 0 ? Made[^1].Time : null;

    /// <summary>Stamps of all who welded it.</summary>
    public IReadOnlyList<string> Welders => [.. Made.SelectMany(m => m.Welders).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal)];

    /// <summary>Who made a pass; who welded all of it made every pass.</summary>
    public IReadOnlyList<string> WhoMade(Pass pass) =>
        [.. Made.SelectMany(m => m.Passes.Count > 0 ? m.Passes.Where(p => p.Made.Contains(pass)).Select(p => p.Welder) : m.Welder is { Length: > 0 } w ? [w] : []).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>Made at site; as the drawing has it where nobody said.</summary>
    public bool IsField => Made.LastOrDefault(m => m.IsField is not null)?.IsField ?? Joint.Place != WeldPlace.Shop;

    /// <summary>Nominal inches of diameter, what progress is counted in; 0 for other welds than butt welds, which are counted apart.</summary>
    public double DiameterInches => Joint.Kind == JointKind.Butt ? Joint.Size.Inches : 0;

    /// <summary>Outside diameter of what it goes round, mm: the smaller of what is joined, as a socket's or a branch's weld does.</summary>
    public double Outside => Joint.Between.Select(id => Line.Fabrication.Route.PartOf(id)?.Outside ?? 0).Where(d => d > 0).DefaultIfEmpty(Joint.Size.Inches * 25.4).Min();

    /// <summary>The last result of a method; null where it was not examined so.</summary>
    public Examined? ResultOf(ExaminationMethod method) => Examinations.LastOrDefault(e => e.Method == method);

    /// <summary>Whether the last word of some method is that it is rejected.</summary>
    public bool IsRejected => Examinations.GroupBy(e => e.Method).Any(g => !g.Last().IsAccepted);

    public WeldState State =>
        Ended is { IsCutOut: true } ? WeldState.CutOut
        : Ended is not null || !IsNow ? WeldState.Repaired
        : IsRejected ? WeldState.Rejected
        : IsMade ? Examinations.Count > 0 && Asked.All(a => ResultOf(a.Method) is { IsAccepted: true }) ? WeldState.Accepted : WeldState.Welded
        : Step switch { null => WeldState.NotBegun, Records.Step.Fitted => WeldState.Fitted, _ => WeldState.Tacked };

    /// <summary>The heats of what it joins, in line order: part or piece, and its heat; null where nobody noted it.</summary>
    public IReadOnlyList<(string Part, string? Heat)> Heats => [.. Joint.Between.Select(id => Line.HeatOf(id))];

    /// <summary>What stands between it and being done with, in plain sentences; empty where nothing does, and for a weld of the past.</summary>
    public IReadOnlyList<string> Missing
    {
        get
        {
            if (!IsNow)
                return [];
            List<string> missing = [];
            if (!IsMade)
                missing.Add(Mark == WeldMark.First ? $"{Name}: not welded" : Mark.Repair > 0 ? $"{Name}: the repair is not welded" : $"{Name}: cut out, not welded again");
            foreach (var method in Examinations.Select(e => e.Method).Distinct().Where(m => ResultOf(m) is { IsAccepted: false }))
                missing.Add($"{Name}: rejected by {PaperWords.Of(method)}{(ResultOf(method)!.Report is { } report ? $", report {report}" : "")}: to be repaired or cut out");
            foreach (var asked in Asked.Where(a => IsMade && ResultOf(a.Method) is null))
                missing.Add($"{Name}: {PaperWords.Of(asked.Method)} asked for, not reported ({asked.Because})");
            if (FitUp is { IsRefused: true } && !IsMade)
                missing.Add($"{Name}: its fit-up was refused by {FitUp.Who}");
            return missing;
        }
    }

    /// <summary>All welds of a drawing, each with its earlier ones before it, in line order.</summary>
    public static IReadOnlyList<WeldHistory> Of(LineDone line)
    {
        var rule = AskedRule.Of(line.Fabrication.Route.Drawing.Service.Examination);
        var drawn = DrawingRecord.Counting(line.Done.Facts.Where(e => e.Fact is WeldsDrawn)).Select(f => f.Id).ToHashSet(StringComparer.Ordinal);
        var draws = line.Done.Facts.Where(e => drawn.Contains(e.Fact.Id)).Select(e => (WeldsDrawn)e.As).ToList();
        return [.. line.Fabrication.Route.Joints.Where(j => j.IsWeld).SelectMany(j => Of(line, j, rule, draws))];
    }

    private static IEnumerable<WeldHistory> Of(LineDone line, Joint joint, AskedRule rule, List<WeldsDrawn> draws)
    {
        var marks = line.Done.WeldsOf(joint.Id);
        var facts = line.Done.Counting<WeldFact>(joint.Id).ToLookup(f => f.Weld);
        List<AskedFor> before = []; // what the welds before it were asked for, or rejected by
        foreach (var mark in marks)
        {
            var mine = facts[mark].ToList();
            List<AskedFor> asked = [.. before];
            if (rule.IsAll && joint.Kind == JointKind.Butt)
                asked.Add(new(rule.Method, "100 % of the butt welds"));
            asked.AddRange(draws.Where(d => d.Welds.Any(w => w.IsDrawn && w.Weld == mark && w.Joint.Equals(joint.Id, StringComparison.OrdinalIgnoreCase)))
                .Select(d => new AskedFor(d.Method, d.For is { } other ? $"asked for by {other}, lot {d.Lot}" : $"drawn, lot {d.Lot}")));
            var weld = new WeldHistory
            {
                Line = line,
                Joint = joint,
                Mark = mark,
                IsNow = mark == marks[^1],
                Step = line.Done.StepOf(joint.Id, mark),
                FitUp = mine.OfType<FitUpSeen>().LastOrDefault(),
                Made = [.. mine.OfType<JointStep>().Where(s => s.Step == Records.Step.Welded)],
                Examinations = [.. mine.OfType<Examined>()],
                Treated = mine.OfType<HeatTreated>().LastOrDefault(),
                // The next weld there says which of two contradicting words came true.
                Ended = mine.OfType<Repair>().LastOrDefault(r => marks.Any(m => m > mark && m == mark.Next(r.IsCutOut))),
                Asked = [.. asked.DistinctBy(a => a.Method)],
            };
            yield return weld;
            before = [.. weld.Asked.Select(a => a.Method).Concat(weld.Examinations.Where(e => !e.IsAccepted).Select(e => e.Method)).Distinct().Select(m => new AskedFor(m, $"as {weld.Name} before it"))];
        }
    }
}

/// <summary>What the drawing says of examination: a share, of what, and how.</summary>
/// <param name="Share">%; null where the drawing gives none.</param>
public sealed record AskedRule(double? Share, ExaminationMethod Method)
{
    public bool IsAll => Share >= 100;

    /// <summary>
    /// Reads <c>5 %</c>, <c>10 % RT</c>, <c>20 % ultrasonic</c>. Where no method is named it is radiography: B31.3 341.4.1 (b)(1) leaves the choice between that and ultrasonic examination.
    /// </summary>
    public static AskedRule Of(string text)
    {
        var words = text.Replace("%", " % ", StringComparison.Ordinal).Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries);
        var at = Array.IndexOf(words, "%");
        double? share = at > 0 && double.TryParse(words[at - 1], System.Globalization.NumberStyles.AllowDecimalPoint, System.Globalization.CultureInfo.InvariantCulture, out var number) && number is > 0 and <= 100 ? number : null;
        return new(share, words.Select(PaperWords.Method).FirstOrDefault(m => m is not null) ?? ExaminationMethod.Radiography);
    }
}
