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

    /// <summary>A time in minutes: <c>20 min</c>, <c>30 s</c>, <c>1 h</c>; null where none is to be read.</summary>
    private static double? Minutes(string hold)
    {
        var text = hold.Trim();
        var length = 0;
        while (length < text.Length && (char.IsAsciiDigit(text[length]) || text[length] == '.'))
            length++;
        return double.TryParse(text.AsSpan(0, length), System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var number)
            ? text[length..].Trim().ToLowerInvariant() switch { "s" or "sec" or "seconds" => number / 60, "min" or "minutes" or "minute" or "mins" => number, "h" or "hour" or "hours" or "hr" => number * 60, _ => null }
            : null;
    }

    public override string Name => "test-figure-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test's stress ratio is under 1 or over 6.5, it is held under 10 minutes, its pressure is asked at a height where no pipe is, or its gauge stands more than 5 m above or below the line.";
    public override string Why => "The stress ratio is the allowable stress cold against hot, never under 1 (ASME B31.3 345.4.2). The height of the gauge goes into the pressure that it must read.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var test = fabrication.Route.Drawing.Test;
        if (test.StressRatio is { } ratio and (< 1 or > MostRatio))
            yield return Found(test.Source, "stress ratio", Say($"A stress ratio of {ratio} cannot be: it is 1 or more, and seldom above 2."), "Ask the engineer; where the design is no hotter than the test it is left out.");
        if (Minutes(test.Hold) is < LeastHold and var minutes)
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
