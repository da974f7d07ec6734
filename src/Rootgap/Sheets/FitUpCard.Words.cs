using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>What a card says below its readings: order of tacks, stands, what to mind.</summary>
public static partial class FitUpCard
{
    // All that is said below the readings.
    private static string Said(FitUpJob job, IReadOnlyList<ReadingLine> rows)
    {
        var over = job.Step.TurnOvers switch { 0 => "", 1 => "Turn over first. ", var n => Text($"Turn over {n} times first. ") };
        List<string> said = [(over + (job.IsStrip ? "" : Tacks(job, rows))).Trim(), .. job.Words.StandingInShort(job.Card).Concat(job.Words.Kept(job.Card)).Select(Sentence), .. MindHere(job)];
        return string.Join(" ", said.Where(w => w.Length > 0));
    }

    // In which order to tack, and what is read between, by the letters of the rows.
    private static string Tacks(FitUpJob job, IReadOnlyList<ReadingLine> rows)
    {
        if (job.Standing.Joint.IsWelded)
            return string.Join(" ", TackOrder(job));
        string Letters(Func<Reading, bool> counts) => string.Join(", ", rows.Select((r, i) => (r, i)).Where(x => x.r.Targets.Any(t => counts(t.Reading))).Select(x => Letter(x.i)));
        var first = Letters(r => r is Reading.FaceLevelAcross or Reading.Holes or Reading.Tape or Reading.EndTape);
        var second = Letters(r => r is Reading.Gap or Reading.FaceLevelAlong or Reading.Scale or Reading.Plumb);
        var more = 350 < job.Step.Joint.Outside ? ", then four more between them" : "";
        return $"{Begin(job)}, tack 12;{(first.Length > 0 ? $" read {first}," : "")} tack 6;{(second.Length > 0 ? $" read {second}," : "")} tack 3, 9{more}.";
    }

    private static string Begin(FitUpJob job)
    {
        var j = job.Step.Joint;
        return j.Weld == FitWeld.Socket ? Text($"Scribe, draw back {job.Words.Gap(j.Gap)}") : j.Setback is { } setback ? $"Slide it on, pipe's end {job.Words.SetBack(setback)} behind the face all round" : 0 < j.Gap ? Text($"Gap rod {job.Words.Gap(j.Gap)}, bores matched") : "Set it to its marks";
    }

    /// <summary>In which order to read and tack, four lines; of a joint that is welded, what is read of it.</summary>
    public static IReadOnlyList<string> TackOrder(FitUpJob job)
    {
        if (job.Standing.Joint.IsWelded)
            return ["Let it cool, support it as when it was fitted.", "Read all, write it in: what the weld has pulled is in it."];
        var has = job.Targets.Select(t => t.Reading).ToList();
        bool Has<T>() => has.Exists(r => r is T);
        List<string> first = [], second = [];
        if (Has<Reading.FaceLevelAcross>())
            first.Add("level across");
        if (Has<Reading.Holes>())
            first.Add("hole level");
        if (Has<Reading.Tape>() || Has<Reading.EndTape>())
            first.Add("tapes");
        if (Has<Reading.FaceLevelAlong>())
            second.Add("level along");
        if (Has<Reading.Scale>())
            second.Add("scale");
        if (Has<Reading.Plumb>() && second.Count == 0)
            second.Add("plumb");
        var weld = job.Step.Joint.Weld;
        // What is pushed into a socket or a flange shows no gap.
        var set = weld switch { FitWeld.Socket => "the scribe line all round", FitWeld.SlipOn => "the setback all round", _ => "gap all round" };
        second.Add(set);
        var more = 350 < job.Step.Joint.Outside ? " Four more between them." : "";
        return
        [
            Text($"{Begin(job)}, tack 1."),
            Text($"Read {(first.Count > 0 ? string.Join(", ", first) : set)}; bring true, tack 2."),
            Text($"Read {string.Join(", ", second)}; tack 3 and 4.{more}"),
            "Read all again, write it in.",
        ];
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";

    /// <summary>The welding position as the joint stands.</summary>
    public static string Position(FitUpJob job) => Welding(job) switch
    {
        "2G" or "2F" or "4F" => $"Position {Welding(job)}, pipe upright",
        "1G, rolled" => "Position 1G, can be rolled",
        "2FR, rolled" => "Position 2FR, can be rolled",
        "5G, fixed" or "5F, fixed" => $"Position {Welding(job)}",
        _ => "Position: by the procedure",
    };

    // Fillets by the fillet's positions (ASME IX QW-461.6, from memory): over head where the mouth that the pipe goes into looks down.
    private static string Welding(FitUpJob job)
    {
        var j = job.Step.Joint;
        if (j.Weld == FitWeld.Branch)
            return "";
        var isFillet = j.Weld is FitWeld.Socket or FitWeld.SlipOn;
        var over = job.Standing.SetUp.Attitude == Attitude.OnEnd ? 1 : job.Standing.Axis.Dot(job.Standing.SetUp.Up);
        if (Math.Abs(over) > 0.94)
            return !isFillet ? "2G" : over > 0 == j.Held.IsPipe ? "4F" : "2F";
        return (isFillet, job.Step.CanRoll) switch { (true, true) => "2FR, rolled", (true, false) => "5F, fixed", (false, true) => "1G, rolled", _ => "5G, fixed" };
    }

    /// <summary>What to mind at the joint before and while it is fitted.</summary>
    public static IReadOnlyList<string> Mind(FitUpJob job) => ["Tacks hold nothing up: support first.", .. MindHere(job)];

    private static List<string> MindHere(FitUpJob job)
    {
        var step = job.Step;
        List<string> words = [];
        if (step.InTheWay.Count > 0)
            words.Add("No room at every tack: " + string.Join(", ", step.InTheWay.Select(job.Words.NameOf)) + " stands in the way.");
        if (step.Joint.New.IsLap || step.Joint.Held.IsLap)
            words.Add("The loose flange goes on first: after the weld it no longer does. Read at the lap, not at the flange.");
        if (step.Number == job.Of)
            words.Add("Last joint: look inside first; clean, dry, nothing left in it.");
        // How a pipe is set in a socket stands above the cards of a page.
        words.AddRange(job.Words.Besides(job.Card).Where(w => !job.IsShort || w != job.Words.IntoSocket(job.Step.Joint)).Select(Sentence));
        if (step.Joint.BranchAt is not null)
            words.Add("Hole no larger than the bore.");
        return words;
    }
}
