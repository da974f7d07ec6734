using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>What is wrong with a drawing before any steel is cut: what every rule finds.</summary>
public static class DeskCheck
{
    /// <summary>All rules, by name.</summary>
    public static IReadOnlyList<Rule> Rules { get; } = [.. AllRules.List.OrderBy(r => r.Name, StringComparer.Ordinal)];

    /// <summary>Findings of one rule that are told: who has so many mends these first. A line drawn over itself would give half a million.</summary>
    public const int MostOfOneRule = 200;

    /// <summary>The findings in the order of the file; those that the drawing accepts carry its reason.</summary>
    public static IReadOnlyList<Finding> Of(Fabrication fabrication) => Of(fabrication, Rules);

    /// <summary>What some rules find. A rule that fails costs itself alone: it is told as a fault of the program, and all others speak.</summary>
    internal static IReadOnlyList<Finding> Of(Fabrication fabrication, IReadOnlyList<Rule> rules)
    {
        var check = new CheckUnderWay(fabrication, rules);
        while (check.Step())
        {
            // All rules, one after the other.
        }

        return check.Findings;
    }

    internal static void Ask(Rule rule, Fabrication fabrication, List<Finding> findings)
    {
        var drawing = fabrication.Route.Drawing.Source;
        try
        {
            var found = 0;
            foreach (var finding in rule.Check(fabrication))
            {
                if (found++ < MostOfOneRule)
                {
                    findings.Add(finding);
                    continue;
                }

                findings.Add(new(rule.Name, rule.Severity, drawing.Path, drawing["drawing"], FormattableString.Invariant($"There are more than {MostOfOneRule} findings of this rule; the first {MostOfOneRule} are told."), "Mend those that are told and check again: one cause often has many of them."));
                break;
            }
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            // What a warning or a note looks for may be there: a person looks. What would stop fabrication may be there too, so it does.
            findings.Add(ProgramFault.Of($"The check \"{rule.Name}\" could not be made", ProgramFault.Words(e), $"Look for it by hand: {rule.Says}", drawing.Path, drawing["drawing"], rule.Severity == Severity.Stop ? Severity.Stop : Severity.Warn));
        }
    }
}

/// <summary>A rule that failed: the finding is made where the failure is caught.</summary>
internal sealed class FaultInProgram : Rule
{
    public override string Name => ProgramFault.Rule;
    public override Severity Severity => Severity.Stop;
    public override bool CanBeAccepted => false;
    public override string Says => "The program itself failed in one rule, one sheet or one drawing.";
    public override string Why => "What the rule looks for, or what the sheet would show, is not known: everything else is told and written as ever (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication) => [];
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

    /// <summary>Whether a drawing may accept its finding with a reason. What cannot be made at all, cannot be accepted: no reason makes a piece of negative length.</summary>
    public virtual bool CanBeAccepted => true;

    /// <summary>Where a cut length hangs on what it tells, what the shop settles before the saw, in its own words: it stands on the packet's cover though it is only a note. Empty for all others.</summary>
    public virtual string BeforeCutting => "";

    public abstract IEnumerable<Finding> Check(Fabrication fabrication);

    /// <summary>A message with its figures, written alike everywhere.</summary>
    protected static string Say(FormattableString text) => FormattableString.Invariant(text);

    /// <summary>A message with its lengths in the units of the drawing: see <see cref="LengthText.Say"/>.</summary>
    protected static string Say(Units units, FormattableString text) => LengthText.Say(units, text);

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
