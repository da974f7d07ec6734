using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A valve, a blind or an in-line item of carbon steel in a line of stainless.</summary>
internal sealed class WettedMetal : ItemRule
{
    public override string Name => "wetted-metal";
    public override Severity Severity => Severity.Warn;
    public override string Says => "What is bolted into a line of stainless or duplex steel is listed in carbon or low-alloy steel, or in stainless where the line is duplex.";
    public override string Why => "The line is of that steel for what goes through it, and what is bolted in is wetted as the pipe is (the list contradicts the drawing). What is welded in is told where it is welded.";
    protected override string Key => "material";
    protected override string Otherwise => "It rusts, and what goes through is spoiled or gets out.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route) =>
        use.Part is BlindFlange or Valve { Ends: FittingEnds.Flanged } or InLineItem { Ends: FittingEnds.Flanged } && Metals.PNumber(use.Line.Material) is ("8" or "10H") and var line
        && Metals.PNumber(item.Material) is { } own && own != line && (line == "10H" || own != "10H")
            ? $"{item.Material} listed, the line is {use.Line.Material}"
            : null;
}
