using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class WaferStuds : Rule
{
    public override string Name => "wafer-studs";
    public override Severity Severity => Severity.Note;
    public override string Says => "A wafer valve or a plate between two flanges: its studs run through from flange to flange.";
    public override string Why => "The studs span the body and two gaskets, and it is centred on them (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c is InLineItem { IsWafer: true } item)
                yield return Found(c.Source, "what", $"This {item.What} is held by long studs from flange to flange.", "Take the studs' length from the bolting list; a second gasket is listed with it.");
            if (c is Valve { IsWafer: true } valve)
                yield return Found(c.Source, "kind", "This wafer valve is held by long studs from flange to flange.", "Take the studs' length from the bolting list" + (valve.Kind == ValveKind.Butterfly ? "; see that the disc clears the pipe's bore when it opens." : "; a second gasket is listed with it."));
        }
    }
}
