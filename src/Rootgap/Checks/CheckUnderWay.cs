using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A desk check that is made one rule at a time, for a screen that must not stand still while it is made.</summary>
internal sealed class CheckUnderWay(Fabrication fabrication, IReadOnlyList<Rule> rules)
{
    private readonly List<Finding> found = [];
    private int next;

    /// <summary>Asks the next rule.</summary>
    /// <returns>False where all have been asked.</returns>
    public bool Step()
    {
        if (next == rules.Count)
            return false;
        DeskCheck.Ask(rules[next++], fabrication, found);
        return true;
    }

    /// <summary>What was found, in the order of the file; what the drawing accepts carries its reason. Asked for when all rules have been asked.</summary>
    public IReadOnlyList<Finding> Findings
    {
        get
        {
            var findings = new List<Finding>(found);
            Acceptances.Settle(findings, fabrication.Route.Drawing);
            if (findings.Exists(f => f.Rule == UnitsNotOfFigures.Rule && f.AcceptedBecause is null))
                findings.RemoveAll(f => UnitsNotOfFigures.Following.Contains(f.Rule));
            if (findings.Exists(f => f.Rule == SizeNotListed.Rule && f.AcceptedBecause is null))
                findings.RemoveAll(f => SizeNotListed.Follows(fabrication, f));
            return
            [
                .. findings.OrderBy(f => f.Where.File, StringComparer.Ordinal).ThenBy(f => f.Where.Line).ThenBy(f => f.Where.Column).ThenBy(f => f.Rule, StringComparer.Ordinal).ThenBy(f => f.Message, StringComparer.Ordinal),
            ];
        }
    }
}
