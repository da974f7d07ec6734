using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A reinforcing pad that reinforces little, or is not the one that is listed.</summary>
internal sealed class PadOdd : Rule
{
    /// <summary>Narrower than this there is no room for its two welds, mm (common practice).</summary>
    private const double Narrow = 15;

    /// <summary>Thinner than this share of its header, a pad is a slip rather than a design (common practice: of the header's plate or thicker).</summary>
    private const double ThinShare = 0.75;

    private const double ThickShare = 3;

    private const double Differs = 0.5;

    /// <summary>Wider than so many diameters of its branch a pad reaches where nothing needs it: metal counts within half the hole's width on each side, once the branch's diameter from its middle (ASME B31.3 304.3.3 (c): d2 is about the hole's width for square branches).</summary>
    private const double WideShare = 1.5;

    public override string Name => "pad-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A reinforcing pad is narrower than 15 mm, wider than one and a half diameters of its branch, thinner than three quarters or thicker than three times its header's wall, of another P-number, of plain steel on a header made for the cold, or listed in another thickness than drawn; or of two alike branches on alike pipe one has a pad and the other none.";
    public override string Why => "ASME B31.3 304.3.3 counts the pad's section for the metal that the hole takes away. It is mostly of the header's own plate, and what one branch needs its twin needs (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var pad in fabrication.Route.Pads)
        {
            if (pad.Width is < Narrow and var width)
                yield return Found(pad.Source, "pad width", Say(fabrication.Units, $"This pad is {width:len} wide: there is no room for the weld on its outside and the one at the branch."), "Look whether the point slipped, or ask the engineer.", "The hole is not reinforced.");
            if (pad.Width is { } wide && wide > pad.Hole * WideShare)
                yield return Found(pad.Source, "pad width", Say(fabrication.Units, $"This pad is {wide:len} wide round a branch of {pad.Hole:len}: metal so far from the hole does not count."), "Look whether the point slipped, or whether the pad's whole diameter was written.", "Plate is cut that reinforces nothing.");
            if (pad.Wall > 0 && pad.Thickness < pad.Wall * ThinShare)
                yield return Found(pad.Source, "pad thickness", Say(fabrication.Units, $"This pad is {pad.Thickness:small} thick on a wall of {pad.Wall:small}."), "Look whether the point slipped, or ask the engineer.", "The hole is not reinforced.");
            if (pad.Wall > 0 && pad.Thickness > pad.Wall * ThickShare)
                yield return Found(pad.Source, "pad thickness", Say(fabrication.Units, $"This pad is {pad.Thickness:small} thick on a wall of {pad.Wall:small}."), "Look whether the point slipped, or ask the engineer.", "No such plate is cut and rolled.");
            if (Metals.PNumber(pad.Item?.Material ?? "") is { } own && Metals.PNumber(fabrication.Route.PipeOf(pad.Pipe)?.Material ?? "") is { } header && own != header)
                yield return Found(pad.Item!.Source, "material", $"Item {pad.Item.Item}, {pad.Item.What}, is {pad.Item.Material} (P-No. {own}), and is welded on a header of P-No. {header}.", "Mend the material; if it is meant, accept this with the welding procedure's number.", "The welder takes the filler he has in hand.");
            if (fabrication.Route.PipeOf(pad.Pipe) is { } under && Metals.IsMadeForCold(under.Material) && Metals.ColdestOf(pad.Item?.Material ?? "") is not null && !Metals.IsMadeForCold(pad.Item!.Material))
                yield return Found(pad.Item!.Source, "material", $"Item {pad.Item.Item}, {pad.Item.What}, is {pad.Item.Material}, and is welded on a header that is made for the cold.", "Ask for plate of a grade for the cold.", "The header can break beside the pad.");
            if (pad.Item?.Source.Text("thickness") is { } text && LengthText.TryParse(text, fabrication.Units, out var listed) && Math.Abs(listed - pad.Thickness) > Differs)
                yield return Found(pad.Item.Source, "thickness", Say(fabrication.Units, $"Item {pad.Item.Item}, {pad.Item.What}: {listed:small} thick listed, {pad.Thickness:small} drawn."), "Mend the one that is wrong.", "The wrong plate is bought.");
        }

        var branches = fabrication.Route.Runs.SelectMany(r => r.Run.Legs.Select((leg, i) => (Leg: leg, Header: r.Sizes[i])).Where(b => b.Leg.To is StubInPoint));
        foreach (var alike in branches.GroupBy(b => (b.Header, b.Leg.Line.Schedule, ((StubInPoint)b.Leg.To).Size)))
        {
            if (alike.FirstOrDefault(b => ((StubInPoint)b.Leg.To).HasPad) is not { Leg: { } padded })
                continue;
            foreach (var bare in alike.Where(b => !((StubInPoint)b.Leg.To).HasPad))
                yield return Found(bare.Leg.Source, "to", $"This branch of NPS {alike.Key.Size} on NPS {alike.Key.Header} has no pad, and {(padded.To.Name is { } name ? $"{name}, " : "")}another like it, has one.", "See the branch table of the line's class; if it is meant, accept this with the engineer's name.", "The hole is not reinforced.");
        }
    }
}
