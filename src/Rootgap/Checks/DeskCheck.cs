using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>What is wrong with a drawing before any steel is cut: the findings of placing it, and every rule.</summary>
public static class DeskCheck
{
    /// <summary>All rules, by name.</summary>
    public static IReadOnlyList<Rule> Rules { get; } = [.. AllRules.List.OrderBy(r => r.Name, StringComparer.Ordinal)];

    /// <summary>The findings in the order of the file; those that the drawing accepts carry its reason.</summary>
    public static IReadOnlyList<Finding> Of(Fabrication fabrication)
    {
        var findings = new List<Finding>(fabrication.Route.Findings);
        foreach (var rule in Rules)
            findings.AddRange(rule.Check(fabrication));
        var accepted = fabrication.Route.Drawing.Accepted;
        return
        [
            .. findings.Select(f => accepted.Count == 0 ? f : Accept(f, accepted))
                .OrderBy(f => f.Where.File, StringComparer.Ordinal).ThenBy(f => f.Where.Line).ThenBy(f => f.Where.Column).ThenBy(f => f.Rule, StringComparer.Ordinal),
        ];
    }

    private static Finding Accept(Finding finding, IReadOnlyList<Acceptance> accepted)
    {
        foreach (var a in accepted)
        {
            if (a.Rule == finding.Rule && (a.At.Length == 0 || finding.At == a.At || finding.At.StartsWith(a.At + ".", StringComparison.Ordinal)))
                return finding with { AcceptedBecause = a.Why };
        }

        return finding;
    }
}

/// <summary>One rule of the desk check: a type of its own in a file of its own, named as its finding is.</summary>
public abstract class Rule
{
    /// <summary>Words with hyphens.</summary>
    public abstract string Name { get; }

    /// <summary>The gravest finding that it makes.</summary>
    public abstract Severity Severity { get; }

    /// <summary>What it looks for, in one sentence.</summary>
    public abstract string Says { get; }

    /// <summary>Why it matters, and where the rule comes from (a standard's clause, or "common practice").</summary>
    public abstract string Why { get; }

    public abstract IEnumerable<Finding> Check(Fabrication fabrication);

    protected Finding Found(SourceRow row, string key, string message, string remedy, string otherwise = "", Severity? severity = null) =>
        new(Name, severity ?? Severity, row.Path, row[key], message, remedy) { Otherwise = otherwise };
}
