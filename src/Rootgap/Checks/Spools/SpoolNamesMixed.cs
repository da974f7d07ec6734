using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Two spool names in what hangs together by shop welds.</summary>
internal sealed class SpoolNamesMixed : Rule
{
    public override string Name => "spool-names-mixed";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Legs that hang together by shop welds name two different spools.";
    public override string Why => "Only a site weld or a bolted joint parts spools (the drawing file's definition): a `field` mark is missing, or one name is wrong.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var named = NamedPart.AllOf(fabrication.Route);
        if (named.Count < 2)
            yield break;
        var nameOf = new Dictionary<string, string>(StringComparer.Ordinal);
        var told = new HashSet<(string, string)>();
        foreach (var (name, part, row) in named)
        {
            var spool = fabrication.SpoolOf[part];
            if (nameOf.TryAdd(spool, name) || nameOf[spool] == name || !told.Add((spool, name)))
                continue;
            yield return Found(row, "spool", $"This leg names spool \"{name}\", but only shop welds stand between it and spool \"{nameOf[spool]}\".", "Mark the weld between the two `field` or `final-fit`, or use one name.",
                "The shop makes one spool where two were meant.");
        }
    }
}
