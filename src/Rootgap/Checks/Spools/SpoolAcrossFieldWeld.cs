using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>One spool's name on both sides of a field weld.</summary>
internal sealed class SpoolAcrossFieldWeld : Rule
{
    public override string Name => "spool-across-field-weld";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Legs on both sides of a field or final-fit weld, or of a bolted joint, name the same spool.";
    public override string Why => "A spool is what hangs together by shop welds (the drawing file's definition): either the weld is a shop weld, or these are two spools.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var named = NamedPart.AllOf(route);
        if (named.Count < 2)
            yield break;
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var part in named)
            names.TryAdd(fabrication.SpoolOf[part.Part], part.Name);
        foreach (var joint in route.Joints)
        {
            if (joint.Place == WeldPlace.Shop || joint.Between is not [var a, var b] || !fabrication.SpoolOf.TryGetValue(a, out var one) || !fabrication.SpoolOf.TryGetValue(b, out var other) || one == other)
                continue;
            if (!names.TryGetValue(one, out var name) || !names.TryGetValue(other, out var second) || name != second)
                continue;
            var isBolted = joint.Kind == JointKind.Bolted;
            var key = isBolted ? "to" : joint.Source.Has("end") ? "end" : "begin";
            yield return Found(joint.Source, key, $"Spool \"{name}\" is named on both sides of {(isBolted ? "bolted joint" : "field weld")} {joint.Id}: they are two spools.",
                isBolted ? "Give the two sides two names." : "Give the two sides two names, or make the weld a shop weld.", "The shop welds up what should have stayed open, or ships half a spool.");
        }
    }
}
