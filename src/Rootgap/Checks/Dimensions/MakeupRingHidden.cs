using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class MakeupRingHidden : Rule
{
    private const double Least = 5;
    private const double Most = 50;

    public override string Name => "makeup-ring-hidden";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A dimension is 5 to 50 mm longer than two fittings made up to each other; where that is so on both sides of a part whose length the drawing gives, that length is doubted.";
    public override string Why => "No pipe can be clamped in that space: somebody will weld a ring of pipe in, or open two gaps (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var rings = new Dictionary<(int Run, int Leg), double>();
        foreach (var cut in fabrication.Cuts)
        {
            if (!IsRing(cut, route.Drawing.Shop.RootGap, out var over))
                continue;
            var leg = route.Runs[cut.Pipe.Run].Run.Legs[cut.Pipe.LastLeg];
            rings[(cut.Pipe.Run, cut.Pipe.LastLeg)] = cut.Length - cut.Extra - cut.Allowance;
            var madeUp = cut.Pipe.AtStart.Distance + cut.Pipe.AtEnd.Distance + route.Drawing.Shop.RootGap;
            yield return Found(leg.Source, "by",
                Say(fabrication.Units, $"{madeUp:len} makes the two fittings up, {madeUp + over:len} drawn: {over:len} over, a ring of pipe {cut.Length - cut.Extra - cut.Allowance:len} long."),
                "Write `by: makeup` if they are meant to stand on each other, or ask for a dimension that takes a piece of pipe.",
                "A ring is welded in between two fittings, with two welds on top of each other.");
        }

        // Both dimensions beside one part can hardly be wrong: its own length is.
        foreach (var ((run, i), before) in rings)
        {
            if (rings.TryGetValue((run, i + 1), out var behind) && route.Runs[run].Run.Legs[i] is var middle && middle.Source.Has("face to face"))
                yield return Found(middle.Source, "face to face", Say(fabrication.Units, $"Rings of pipe {before:len} and {behind:len} long would stand on both sides of this part, which is {middle.Source.Text("face to face")} long by the drawing."), "Look at its length first: see the maker's sheet.", "Both pieces beside it are cut for a part of another length.");
        }
    }

    /// <summary>Whether the piece is such a ring, and by how much the drawn distance is over the made-up one, mm.</summary>
    internal static bool IsRing(Cut cut, double gap, out double over)
    {
        over = cut.Length - cut.Extra - cut.Allowance + gap;
        return cut.Pipe is { AtStart.Kind: EndKind.Butt, AtEnd.Kind: EndKind.Butt } && cut.Pipe.FirstLeg == cut.Pipe.LastLeg && over > gap && over is >= Least and <= Most;
    }
}
