using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A flange of a pipe's specification, a stud of a plate's.</summary>
internal sealed class MaterialForm : Rule
{
    public override string Name => "material-of-another-form";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A row of the list has a material whose specification is for another kind of product: a flange of A106, which is pipe; a stud of A234, which is for fittings; a note where a threaded or socket-weld fitting is of a specification that is mostly for butt-welding ones.";
    public override string Why => "Each ASTM specification is of one product, and says so in its title: pipe, fittings, forgings, castings, plate, bolting (docs/tables.md, forms). Such a part has no certificate that anybody can give.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var item in fabrication.Route.Drawing.Materials)
        {
            if (item.Words is { Ware: Ware.Elbow or Ware.Tee or Ware.Cap or Ware.Coupling or Ware.HalfCoupling or Ware.Union, Ends: FittingEnds.Socket or FittingEnds.Threaded } && ButtWelding.FirstOrDefault(b => item.Material.Contains(b, StringComparison.OrdinalIgnoreCase)) is { } wrought)
                yield return Found(item.Source, "material", $"Item {item.Item}, {item.What}, is of {item.Material}: {wrought} is mostly for butt-welding fittings, and these are forged of A105, A182 or A350.", "See the line's specification: the row was mostly filled from the one above.", severity: Severity.Note);
            if (FormsOf(item) is not { Length: > 0 } forms)
                continue;
            var named = Metals.Marked(item.Material).Select(Metals.FormOf).ToList();
            if (named.Count == 0 || named.Exists(f => f is null || forms.Contains(f)))
                continue;
            yield return Found(item.Source, "material", $"Item {item.Item}, {item.What}, is of {item.Material}, which is a specification for {named[0]}.", "See the line's specification: the row was mostly filled from the one above.", "The wrong certificate is asked for, or the wrong part is bought.", item.Words.Ware == Ware.StudBolt ? Severity.Stop : null);
        }
    }

    /// <summary>Specifications of fittings that are mostly butt-welding (common practice: forged ones are ordered by the forgings' specifications).</summary>
    private static readonly string[] ButtWelding = ["A234", "A403", "A420"];

    /// <summary>Of what a part may be made; empty where anything goes.</summary>
    private static string[] FormsOf(MaterialItem item) => item.Words.Ware switch
    {
        Ware.Pipe => ["pipe"],
        Ware.Nipple or Ware.Swage => ["pipe", "fittings", "forgings", "bars"],
        Ware.StubEnd => ["fittings", "forgings", "pipe"],
        Ware.Elbow or Ware.Return or Ware.Tee or Ware.Reducer or Ware.Cap => item.What.Contains("bend", StringComparison.OrdinalIgnoreCase) ? [] : ["fittings", "forgings", "castings", "bars"],
        Ware.Flange => ["forgings", "castings", "plate"],
        Ware.Outlet or Ware.Coupling or Ware.HalfCoupling or Ware.Union or Ware.Plug => ["forgings", "bars", "castings", "fittings"],
        Ware.Valve => ["forgings", "castings", "bars", "plate"],
        Ware.StudBolt => ["bolting", "bars"],
        Ware.Pad => ["plate", "pipe"],
        _ => [],
    };
}
