using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A black part among galvanised ones.</summary>
internal sealed class GalvanisedInPart : Rule
{
    public override string Name => "galvanised-in-part";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Most of the pipe and the fittings of plain steel are listed galvanised, and a few are not.";
    public override string Why => "A line is galvanised as a whole, or it rusts where it is not (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var rows = fabrication.Route.Drawing.Materials.Where(m => m.Words.Ware is Ware.Pipe or Ware.Elbow or Ware.Tee or Ware.Reducer or Ware.Cap or Ware.Coupling or Ware.Union or Ware.Nipple or Ware.Plug && (IsGalvanised(m) || Metals.PNumber(m.Material) == "1")).ToList();
        var black = rows.FindAll(m => !IsGalvanised(m));
        if (black.Count == 0 || black.Count * 2 >= rows.Count)
            yield break;
        foreach (var item in black)
            yield return Found(item.Source, "material", $"Item {item.Item}, {item.What}, is of {item.Material}, and the other pipe and fittings are galvanised.", "See the line's specification.", "It rusts from within.");
    }

    private static bool IsGalvanised(MaterialItem item) => Has(item.Material) || Has(item.What);

    private static bool Has(string text) => text.Contains("galv", StringComparison.OrdinalIgnoreCase);
}
