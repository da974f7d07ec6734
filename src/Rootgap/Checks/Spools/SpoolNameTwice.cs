using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>One name for two spools that are no neighbours.</summary>
internal sealed class SpoolNameTwice : Rule
{
    public override string Name => "spool-name-twice";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Two spools that do not touch each other carry the same name in the drawing.";
    public override string Why => "Pieces are marked with the spool's name: two of one name get mixed (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var named = NamedPart.AllOf(fabrication.Route);
        if (named.Count < 2)
            yield break;
        var firstOf = new Dictionary<string, string>(StringComparer.Ordinal);
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (name, part, row) in named)
        {
            var spool = fabrication.SpoolOf[part];
            if (firstOf.TryAdd(name, spool) || firstOf[name] == spool || Touch(fabrication, firstOf[name], spool) || !told.Add(spool))
                continue;
            yield return Found(row, "spool", $"The name \"{name}\" is taken: another spool, which does not touch this one, has it already.", "Give this spool a name of its own.", "Pieces of two spools carry the same marks.");
        }
    }

    /// <summary>Neighbours are another rule's matter: there a weld mark may be the mistake.</summary>
    private static bool Touch(Fabrication fabrication, string one, string other)
    {
        foreach (var joint in fabrication.Route.Joints)
        {
            if (joint.Between is [var a, var b] && fabrication.SpoolOf.TryGetValue(a, out var x) && fabrication.SpoolOf.TryGetValue(b, out var y) && ((x == one && y == other) || (x == other && y == one)))
                return true;
        }

        return false;
    }
}
