using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A figure of the pressure test that cannot be: a stress ratio below one, a gauge far off the line.</summary>
internal sealed class TestFigureOdd : Rule
{
    /// <summary>Allowable stresses cold against hot: above this a figure has slipped (ASME B31.3 table A-1: carbon steel to 510 C stays below).</summary>
    private const double MostRatio = 6.5;

    /// <summary>A gauge stands at the test pump, no more than about so far above or below the line, mm (common practice).</summary>
    private const double Beside = 5000;

    /// <summary>ASME B31.3 345.2.2: a leak test is held for 10 minutes at least.</summary>
    private const double LeastHold = 10;

    /// <summary>Longer than a day no such test is held: a unit slipped, minutes (common practice).</summary>
    private const double MostHold = 24 * 60;

    /// <summary>Less than this is no test of pressure pipe, bar (common practice: drains are tested with some metres of water).</summary>
    private const double LeastPressure = 0.1;

    public override string Name => "test-figure-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test's stress ratio is under 1 or over 6.5, it is held under 10 minutes, over a day or without a unit, its pressure is under a tenth of a bar, its pressure is asked at a height where no pipe is, or its gauge stands more than 5 m above or below the line.";
    public override string Why => "The stress ratio is the allowable stress cold against hot, never under 1 (ASME B31.3 345.4.2). The height of the gauge goes into the pressure that it must read.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var test = fabrication.Route.Drawing.Test;
        if (test.StressRatio is { } ratio and (< 1 or > MostRatio))
            yield return Found(test.Source, "stress ratio", Say($"A stress ratio of {ratio} cannot be: it is 1 or more, and seldom above 2."), "Ask the engineer; where the design is no hotter than the test it is left out.");
        if (test.Hold.Length > 0 && ServiceFigures.Minutes(test.Hold) is null && test.Hold.All(c => char.IsAsciiDigit(c) || c is '.' or ' '))
            yield return Found(test.Source, "hold", $"The test is held {test.Hold}: of what is not said.", "Add the unit: 30 min, 1 h.");
        if (ServiceFigures.Minutes(test.Hold) is > MostHold and var hours)
            yield return Found(test.Source, "hold", Say($"The test is held {hours / 60:0.##} hours."), "Look whether the unit slipped.");
        if (ServiceFigures.TestPressure(fabrication.Route.Drawing) is >= 0 and < LeastPressure)
            yield return Found(test.Pressure.Length > 0 ? test.Source : fabrication.Route.Drawing.Service.Source, test.Pressure.Length > 0 ? "pressure" : "test pressure", "A test with less than a tenth of a bar tests nothing.", "Look whether the unit slipped.");
        if (ServiceFigures.Minutes(test.Hold) is < LeastHold and var minutes)
            yield return Found(test.Source, "hold", Say($"The test is held {minutes:0.##} minutes; ASME B31.3 345.2.2 wants {LeastHold} at least."), "Ask the engineer.", "A leak does not show in the time.");
        var heights = fabrication.Route.Runs.SelectMany(r => r.Points).Select(p => p.Z).ToList();
        if (heights.Count == 0)
            yield break;
        var half = fabrication.Route.Pipes.Select(p => p.Outside / 2).DefaultIfEmpty().Max();
        var (low, high) = (heights.Min() - half, heights.Max() + half);
        if (test.At is { } at && (at < low - Tolerance.Closing || at > high + Tolerance.Closing))
            yield return Found(test.Source, "at", Say(fabrication.Units, $"The test pressure is asked at {at:len}; the line lies between {low:len} and {high:len}."), "Mend the height.");
        if (test.Gauge is { } gauge && (gauge < low - Beside || gauge > high + Beside))
            yield return Found(test.Source, "gauge", Say(fabrication.Units, $"The gauge is said to stand at {gauge:len}; the line lies between {low:len} and {high:len}."), "Mend the height; each metre of water is 0.1 bar on the gauge.");
    }
}
