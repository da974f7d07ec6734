using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A test pressure under the design pressure: no code tests so.</summary>
internal sealed class TestPressureUnderDesign : Rule
{
    /// <summary>What a figure is rounded by on a line list, bar.</summary>
    private const double Rounding = 0.05;

    public override string Name => "test-pressure-under-design";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test pressure is less than the design pressure.";
    public override string Why => "A strength test below the pressure that the line will carry proves nothing: one of the two figures is wrong, or one of the two units. ASME B31.3 345 tests above the design pressure with water and with gas alike. Where a leak test in service is meant, the engineer says so, and the finding is accepted with that reason.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (ServiceFigures.TestPressure(drawing) is not { } test || ServiceFigures.Bar(drawing.Service.DesignPressure) is not { } design || test >= design - Rounding)
            yield break;
        string Bar(double bar) => Amount.Say(Quantity.Pressure, bar, fabrication.Units);
        var isOfTest = drawing.Test.Pressure.Length > 0;
        yield return Found(isOfTest ? drawing.Test.Source : drawing.Service.Source, isOfTest ? "pressure" : "test pressure",
            $"The test pressure {Bar(test)} is under the design pressure {Bar(design)}: the line would be tested with less than it carries.", "Ask the engineer which of the two figures is right.");
    }
}
