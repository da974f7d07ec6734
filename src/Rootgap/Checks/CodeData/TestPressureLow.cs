using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A test pressure that tests nothing.</summary>
internal sealed class TestPressureLow : Rule
{
    private const double LeastShare = 1.1;

    public override string Name => "test-pressure-low";
    public override Severity Severity => Severity.Note;
    public override string Says => "The test pressure is less than 1.1 times the design pressure.";
    public override string Why => "ASME B31.3 345.4.2 wants 1.5 times the design pressure in a water test and 345.5.4 1.1 times in a gas test; other codes differ. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (ServiceFigures.Bar(service.TestPressure) is { } test && ServiceFigures.Bar(service.DesignPressure) is { } design && test < (design * LeastShare) - 0.05)
            yield return Found(service.Source, "test pressure", Say($"Test pressure {test:0.#} bar, design pressure {design:0.#} bar: 1.1 to 1.5 times is usual, {design * LeastShare:0.#} bar at least."), "Ask the engineer which is right.");
    }
}
