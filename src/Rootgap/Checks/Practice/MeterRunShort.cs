using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A flow meter close behind a bend or a valve.</summary>
internal sealed partial class MeterRunShort : Rule
{
    /// <summary>The least straight pipe on each side, in nominal sizes (common practice; ISO 5167-2 table 3 asks more before the plate, by what stands there).</summary>
    private const double Least = 5;

    /// <summary>The least before a plate of any bore, behind one bend, in nominal sizes (ISO 5167-2:2003 table 3, from memory).</summary>
    private const double Plate = 6;

    /// <summary>30 D before; 20D upstream.</summary>
    [GeneratedRegex(@"(?<![\d.])(?<sizes>\d{1,2})\s*D\b\s*(?:of\s+)?(?:straight\s+)?(?:pipe\s+)?(?:before|upstream|ahead|in front)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Asked();

    public override string Name => "meter-run-short";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An orifice plate or a flow meter has less than five nominal sizes of straight pipe before or behind it; a warning where an orifice plate has less than six before it by the run's flow, or less than its note asks for.";
    public override string Why => "A bend, a valve or a branch close by turns the flow, and the meter reads wrong (ISO 5167-2 table 3 gives the lengths; five sizes is a common least). Some meters need none: the maker's sheet decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            var legs = run.Run.Legs;
            for (var i = 0; i < legs.Count; i++)
            {
                if (legs[i].To is not InLineItemPoint item || !LineData.IsMeter(item.What))
                    continue;
                var least = Least * run.Sizes[i].Inches * LengthText.Inch;
                var (before, behind) = (Straight(run, i, -1), Straight(run, i, +1));
                var upstream = run.Run.FlowsAlong == false ? behind : before;
                var isPlate = item.What.Contains("orifice", StringComparison.OrdinalIgnoreCase) && run.Run.FlowsAlong is not null && upstream < Plate * run.Sizes[i].Inches * LengthText.Inch;
                if (Asked().Match(legs[i].Note) is { Success: true } asked && double.Parse(asked.Groups["sizes"].Value, System.Globalization.CultureInfo.InvariantCulture) is var wanted && run.Run.FlowsAlong is not null && upstream < (wanted - 0.5) * run.Sizes[i].Inches * LengthText.Inch)
                    yield return Found(legs[i].Source, "note", Say(fabrication.Units, $"The note says \"{legs[i].Note}\", and this {item.What} has {upstream:len} of straight pipe before it: {upstream / (run.Sizes[i].Inches * LengthText.Inch):0.#} nominal sizes."), "See its data sheet, and mend the dimension or the note.", "It reads wrong.", Severity.Warn);
                else if (isPlate)
                    yield return Found(legs[i].Source, "what", Say(fabrication.Units, $"This {item.What} has {upstream:len} of straight pipe before it, {upstream / (run.Sizes[i].Inches * LengthText.Inch):0.#} nominal sizes, to the middle of what stands there: no plate reads right with less than {Plate:0}."), "Ask for the straight lengths of its data sheet.", "It reads wrong.", Severity.Warn);
                else if (Math.Min(before, behind) < least)
                    yield return Found(legs[i].Source, "what", Say(fabrication.Units, $"This {item.What} has {Math.Min(before, behind):len} of straight pipe {(before < behind ? "before" : "behind")} it, to the middle of what stands there; {least:len} is a common least."), "See the meter's data sheet.", "It reads wrong.", Severity.Note);
            }
        }
    }

    /// <summary>From the meter to the middle of the next part that turns, takes or throttles the flow, mm; infinite where its run ends before.</summary>
    private static double Straight(RunLine run, int at, int step)
    {
        var length = 0.0;
        for (var i = step < 0 ? at : at + 1; i >= 0 && i < run.Distances.Count; i += step)
        {
            length += run.Distances[i];
            var next = step < 0 ? i - 1 : i;
            if (next < 0 || next == run.Distances.Count - 1)
                return double.PositiveInfinity;
            if (run.Run.Legs[next].To is ElbowPoint or TeePoint or ValvePoint or ReducerPoint)
                return length;
        }

        return double.PositiveInfinity;
    }
}
