using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Checks;

/// <summary>Test pressure above what the flanges may see.</summary>
internal sealed class TestPressureOverFlange : Rule
{
    public override string Name => "test-pressure-over-flange";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The test pressure is more than 1.5 times the cold rating of the weakest flange, rounded up to the next bar or 25 psi.";
    public override string Why => "ASME B16.5 2.6: flanged joints may be tested to 1.5 times their rating at 38 C (100 F), rounded up to the next bar, or in the psi tables to the next 25 psi. Pressure tests are planned by those who are qualified for them.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var (service, asked) = (fabrication.Route.Drawing.Service, fabrication.Route.Drawing.Test);
        var isOfTest = asked.Pressure.Length > 0;
        if (ServiceFigures.TestPressure(fabrication.Route.Drawing) is not { } test || ServiceFigures.Weakest(fabrication.Route, Ratings.Ambient) is not var (flange, _, rating))
            yield break;
        var most = PressureTest.MostOfFlanges(rating, fabrication.Units);
        if (test > most + 0.05)
            yield return Found(isOfTest ? asked.Source : service.Source, isOfTest ? "pressure" : "test pressure", Say(fabrication.Units, $"Test pressure {test:bar}; class {flange.Line.Class} flanges{ServiceFigures.Where(fabrication.Route, flange)} may be tested to {most:bar}: {test - most:bar} over."), "Ask the engineer before the test is planned.");
    }
}
