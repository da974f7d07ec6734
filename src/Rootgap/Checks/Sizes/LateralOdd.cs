using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A lateral that cannot be as it is written, or that leans against the flow.</summary>
internal sealed class LateralOdd : Rule
{
    public override string Name => "lateral-odd";
    public override Severity Severity => Severity.Stop;
    public override string Says => "An end of a lateral is shorter than its branch needs to leave its run, its short end is the longer one; or, a warning, its branch leans against the flow.";
    public override string Why => "Where the two tubes meet is geometry: ends that lie within it are a slip or two figures changed over. A lateral is there so that what joins or leaves goes with the flow (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var c in route.Components)
        {
            if (c is not Tee { Drawn: TeePoint { Lateral: { } sheet, Branch: { } branch } point } tee || c.Leg < 0 || tee.Outside <= 0 || tee.BranchOutside <= 0)
                continue;
            var along = route.Runs[c.Run].Directions[c.Leg];
            var lean = Math.Min(along.AngleTo(branch), Math.PI - along.AngleTo(branch));
            var (sin, cos) = Math.SinCos(lean);
            if (sin < Tolerance.Turn)
                continue;
            // Where the far edge of the branch comes out of the run, and where its near edge leaves it, from the work point.
            var (header, of) = (tee.Outside / 2, tee.BranchOutside / 2);
            foreach (var (key, drawn, least) in new[] { ("long end", sheet.LongEnd, ((header * cos) + of) / sin), ("short end", sheet.ShortEnd, (of - (header * cos)) / sin), ("branch end", sheet.BranchEnd, (header + (of * cos)) / sin) })
            {
                if (drawn < least)
                    yield return Found(c.Source, key, Say(fabrication.Units, $"The {key} of this lateral is {drawn:len}; its branch takes {least:len} of it to leave the run."), "See the maker's sheet: look whether the point slipped or two figures are changed over.", "The pieces beside it are cut for a fitting that nobody makes.");
            }

            if (sheet.ShortEnd > sheet.LongEnd)
                yield return Found(c.Source, "short end", Say(fabrication.Units, $"The short end of this lateral is {sheet.ShortEnd:len}, longer than its long end, {sheet.LongEnd:len}."), "See the maker's sheet: the run is longer on the side to which the branch leans.", "The pieces beside it are cut for a fitting that nobody makes.");
            if (point.Name is not { } name || route.Runs[c.Run].Run.FlowsAlong is not { } flows || route.Drawing.Runs.FirstOrDefault(r => r.Start.From == name)?.FlowsAlong is not { } leaves)
                continue;
            var withFlow = along.Dot(branch) > 0 == flows;
            if (withFlow != leaves)
                yield return Found(c.Source, "branch", leaves ? "What leaves by this lateral has to turn back: its branch leans against the flow." : "What comes in by this lateral runs against the flow: its branch leans the wrong way.", "Look at the arrow of the flow and at the side to which the branch leans.", "The lateral works against what it is there for.", severity: Severity.Warn);
        }
    }
}
