using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Sums;

namespace Rootgap.Checks;

/// <summary>A test pressure out of all proportion to the design pressure.</summary>
internal sealed class TestPressureFarOver : Rule
{
    /// <summary>Above so many times the design pressure a water test is a slip: with the hottest stress ratio it may come to some three (common practice).</summary>
    private const double MostWater = 4;

    private const double MostGas = 1.33;

    /// <summary>What a figure is rounded by on a line list, bar.</summary>
    private const double Rounding = 0.05;

    public override string Name => "test-pressure-far-over";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test pressure is over four times the design pressure, or, with air or nitrogen, over 1.33 times.";
    public override string Why => "ASME B31.3 345.5.4: a gas test is not above 1.33 times the design pressure; in a water test so high a figure is mostly psi written for bar, or a point that slipped. Pressed gas is stored energy: such tests are the engineer's.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (ServiceFigures.TestPressure(drawing) is not { } test || ServiceFigures.Bar(drawing.Service.DesignPressure) is not (> 0 and var design))
            yield break;
        var isGas = drawing.Test.MediumWritten is not null && drawing.Test.Medium == TestMedium.Air;
        var most = isGas ? MostGas : MostWater;
        if (test <= (design * most) + Rounding)
            yield break;
        var isOfTest = drawing.Test.Pressure.Length > 0;
        yield return Found(isOfTest ? drawing.Test.Source : drawing.Service.Source, isOfTest ? "pressure" : "test pressure",
            Say(fabrication.Units, $"The test pressure {test:bar} is {test / design:0.#} times the design pressure {design:bar}{(isGas ? $"; a test with {drawing.Test.MediumWritten} goes to {MostGas:0.##} times at most" : "")}."),
            isGas ? "Ask the engineer before the test is planned." : "Look whether a unit slipped in one of the two, bar or psi, and ask the engineer.", "The line is tested to pieces, or is made for a pressure that it never sees.");
    }
}
