using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class SmallFlangeKindTooLarge : FlangeRule
{
    public override string Name => "small-flange-kind-too-large";
    public override Severity Severity => Severity.Note;
    public override string Says => "A socket-weld or threaded flange above NPS 2.";
    public override string Why => "Socket and threaded joints are kept to NPS 2 and less in most specifications (common practice; ASME B31.3 311.2.4 for severe service).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Kind is FlangeKind.SocketWeld or FlangeKind.Threaded && flange.Size.Inches > 2
            ? Found(flange.Source, "to", $"A {(flange.Kind == FlangeKind.SocketWeld ? "socket-weld" : "threaded")} flange NPS {flange.Size} is above the usual limit of NPS 2.", "Ask whether WN or SO is meant.")
            : null;
}
