using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class ValveLengthUnknown : PlacingRule
{
    public override string Name => "valve-length-unknown";
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "A socket-weld or threaded valve without its length.";
    public override string Why => "No standard fixes it (ASME B16.10 has flanged and butt-weld ends only): the maker's sheet does.";
}
