using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>What is wrong with a drawing before any steel is cut: what every rule finds.</summary>
public static class DeskCheck
{
    /// <summary>All rules, by name.</summary>
    public static IReadOnlyList<Rule> Rules { get; } = [.. AllRules.List.OrderBy(r => r.Name, StringComparer.Ordinal)];

    /// <summary>The findings in the order of the file; those that the drawing accepts carry its reason.</summary>
    public static IReadOnlyList<Finding> Of(Fabrication fabrication)
    {
        var findings = new List<Finding>();
        foreach (var rule in Rules)
            findings.AddRange(rule.Check(fabrication));
        Acceptances.Settle(findings, fabrication.Route.Drawing);
        return
        [
            .. findings.OrderBy(f => f.Where.File, StringComparer.Ordinal).ThenBy(f => f.Where.Line).ThenBy(f => f.Where.Column).ThenBy(f => f.Rule, StringComparer.Ordinal).ThenBy(f => f.Message, StringComparer.Ordinal),
        ];
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

    /// <summary>A message with its figures, written alike everywhere.</summary>
    protected static string Say(FormattableString text) => FormattableString.Invariant(text);

    /// <summary>A finding at the value of a key of a row.</summary>
    /// <param name="otherwise">What follows if nobody notices; empty where the message says it.</param>
    /// <param name="severity">Where it is less than the rule's gravest.</param>
    protected Finding Found(SourceRow row, string key, string message, string remedy, string otherwise = "", Severity? severity = null) =>
        new(Name, severity ?? Severity, row.Path, row[key], message, remedy) { Otherwise = otherwise };
}

/// <summary>A rule that is looked at while the line is placed in space, because placing itself cannot go on as drawn: its findings come with the route.</summary>
public abstract class PlacingRule : Rule
{
    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var found = fabrication.Route.Findings;
        return found.Count == 0 ? [] : found.Where(f => f.Rule == Name);
    }
}
