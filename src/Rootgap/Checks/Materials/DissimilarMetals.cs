using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A weld between metals of different P-numbers.</summary>
internal sealed class DissimilarMetals : Rule
{
    public override string Name => "dissimilar-metals";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A weld joins parts whose materials have different P-numbers: carbon to stainless, carbon to chrome steel.";
    public override string Why => "It needs a welding procedure and a filler of its own (ASME BPVC Section IX groups metals by P-number). If it is meant, accept it with the procedure's number.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        HashSet<(string, string)>? told = null;
        foreach (var joint in route.Joints)
        {
            if (joint.Kind == JointKind.Bolted || joint.Between is not [var a, var b])
                continue;
            var (one, other) = (MaterialOf(route, a), MaterialOf(route, b));
            if (one == other || Metals.PNumber(one) is not { } p || Metals.PNumber(other) is not { } q || p == q)
                continue;
            if (!(told ??= []).Add((one, other)) || !told.Add((other, one)))
                continue;
            var item = route.ComponentOf(b)?.Item ?? route.ComponentOf(a)?.Item ?? route.PipeOf(b)?.Item ?? route.PipeOf(a)?.Item;
            var (row, key) = Odd(fabrication, joint, a, b) is { } odd && odd.Source.Has("material") ? (odd.Source, "material") : (joint.Source, joint.Source.Has("item") ? "item" : "to");
            yield return Found(row, key, $"Weld {joint.Id} joins {one} (P-No. {p}) and {other} (P-No. {q}){(item is null ? "" : Say($", item {item.Item}"))}.",
                "Mend the material that is wrong; if it is meant, accept this with the welding procedure's number.", "The welder takes the filler he has in hand.");
        }
    }

    /// <summary>Behind a lap joint the loose flange may be of anything: welded is the stub end.</summary>
    private static string MaterialOf(Route route, string id) => route.PartOf(id) switch
    {
        Flange { Stub: not null } loose => loose.Line.Material,
        { } part => part.Material,
        null => "",
    };

    /// <summary>The listed item of the two whose metal is not the line's.</summary>
    private static MaterialItem? Odd(Fabrication fabrication, Joint joint, string a, string b)
    {
        var route = fabrication.Route;
        var line = Metals.PNumber(joint.Leg >= 0 ? route.Runs[joint.Run].Run.Legs[joint.Leg].Line.Material : route.Drawing.Line.Material);
        foreach (var item in new[] { route.ComponentOf(a)?.Item ?? route.PipeOf(a)?.Item, route.ComponentOf(b)?.Item ?? route.PipeOf(b)?.Item })
        {
            if (item is not null && Metals.PNumber(item.Material) is { } p && p != line)
                return item;
        }

        return null;
    }
}
