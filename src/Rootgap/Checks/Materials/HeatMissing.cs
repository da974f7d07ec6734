using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A heat that is missing on one of many.</summary>
internal sealed class HeatMissing : Rule
{
    private const double MostShare = 0.34;

    public override string Name => "heat-missing";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Rows of the material list give heat numbers, and few of pressure parts do not; or all of its pipes but one (a note where there are but two).";
    public override string Why => "Where heats are kept, each pressure part has one: a part without is not to be traced (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var rows = fabrication.Route.Drawing.Materials.Where(m => m.Words.Ware is not (Ware.Gasket or Ware.StudBolt or Ware.Support or Ware.Other or Ware.InLineItem or Ware.Valve)).ToList();
        var without = rows.Where(m => m.Heat.Length == 0).ToList();
        // Where only pipe has its heats, pipe is held against pipe.
        if (without.Count > rows.Count * MostShare)
        {
            rows = [.. rows.Where(m => m.Words.Ware == Ware.Pipe)];
            without = [.. rows.Where(m => m.Heat.Length == 0)];
            if (without.Count != 1 || rows.Count < 2)
                yield break;
        }

        if (without.Count == 0)
            yield break;
        foreach (var item in without)
            yield return Found(item.Source, "item", Say($"Item {item.Item}, {item.What}, has no heat; {rows.Count - without.Count} of {rows.Count} rows have theirs."), "Add `heat:` from the marking or the certificate.", severity: rows.Count > 2 ? null : Severity.Note);
    }
}
