using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Checks;

/// <summary>A test pressure that tests too little for its medium.</summary>
internal sealed class TestPressureLow : Rule
{
    /// <summary>What a figure is rounded by on a line list, bar.</summary>
    private const double Rounding = 0.05;

    /// <summary>What is less short than this was rounded.</summary>
    private const double Plainly = 0.97;

    public override string Name => "test-pressure-low";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test pressure is less than 1.5 times the design pressure with water (times the stress ratio where the engineer gives it), or less than 1.1 times with air or nitrogen; where the medium is not said, less than 1.5 times, and at B31.5 or a code beside B31 less than 1.1. A warning, where it is over 3 % short and the medium or a B31 code is named, where the line carries water, or where the test is no more than the design; else, and where a code beside B31 is named and the test is 1.1 times the design, a note.";
    public override string Why => "ASME B31.3 345.4.2 wants 1.5 times the design pressure in a water test, more where the design is hotter than the test, and 345.5.4 1.1 times in a gas test; other codes differ. The engineer decides.";

    /// <summary>A line that carries water is tested with it (common practice).</summary>
    private static bool IsWater(string fluid) => fluid.Contains("water", StringComparison.OrdinalIgnoreCase);

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var (service, asked) = (drawing.Service, drawing.Test);
        var isOfTest = asked.Pressure.Length > 0;
        if (ServiceFigures.TestPressure(drawing) is not { } test || ServiceFigures.Bar(service.DesignPressure) is not { } design)
            yield break;
        var medium = asked.MediumWritten;
        var least = PressureTest.Least(design, asked.Medium, asked.StressRatio ?? 1);
        // Under the design pressure itself is told as a warning, once.
        if (test >= least - Rounding || test < design - Rounding)
            yield break;
        string Bar(double bar) => Amount.Say(Quantity.Pressure, bar, fabrication.Units);
        var source = isOfTest ? asked.Source : service.Source;
        var key = isOfTest ? "pressure" : "test pressure";
        // A code beside ASME B31 has a rule of its own, and refrigeration is tested with gas (ASME B31.5 538, from memory).
        var isEnoughForAir = test >= PressureTest.Least(design, TestMedium.Air) - Rounding;
        var isBesideB31 = service.Code.Length > 0 && !service.Code.Contains("31.", StringComparison.Ordinal);
        if (medium is null && isEnoughForAir && (isBesideB31 || service.Code.Contains("31.5", StringComparison.Ordinal)))
            yield break;
        if (medium is null && isEnoughForAir)
        {
            yield return Found(source, key, $"Test pressure {Bar(test)}, design pressure {Bar(design)}: enough for a test with air, too little for one with water ({Bar(least)}), and the drawing does not say which.",
                "Write `test: {medium: water}` or `test: {medium: air}`, and ask the engineer which pressure is right.", severity: IsWater(service.Fluid) ? Severity.Warn : Severity.Note);
            yield break;
        }

        var share = asked.Medium == TestMedium.Air ? "1.1" : asked.StressRatio is { } ratio ? Say($"1.5 x {ratio:0.##}") : "1.5";
        yield return Found(source, key, $"Test pressure {Bar(test)}, design pressure {Bar(design)}: with {medium ?? "water"} {share} times is wanted, {Bar(least)} at least.", "Ask the engineer which is right.",
            severity: test < least * Plainly && !(isBesideB31 && isEnoughForAir) && (medium is not null || service.Code.Contains("B31", StringComparison.OrdinalIgnoreCase) || test < design + Rounding) ? Severity.Warn : Severity.Note);
    }
}
