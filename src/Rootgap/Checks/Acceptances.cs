using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Holds the findings against what the drawing accepts. An accepted finding stays, with its reason; an acceptance that finds nothing is told.</summary>
internal static class Acceptances
{
    public static void Settle(List<Finding> findings, Drawing drawing)
    {
        var accepted = drawing.Accepted;
        if (accepted.Count == 0)
            return;
        var paths = accepted.Select(a => PathOf(a.At, drawing)).ToArray();
        var used = new bool[accepted.Count];
        for (var i = 0; i < findings.Count; i++)
        {
            for (var a = 0; a < accepted.Count; a++)
            {
                if (!Covers(accepted[a].Rule, paths[a], findings[i]))
                    continue;
                used[a] = true;
                findings[i] = findings[i] with { AcceptedBecause = findings[i].AcceptedBecause ?? accepted[a].Why };
            }
        }

        for (var a = 0; a < accepted.Count; a++)
        {
            if (!used[a] && AcceptUnknownRule.Knows(accepted[a].Rule) && AcceptImpossible.MayBe(accepted[a].Rule))
                findings.Add(AcceptUnused.Of(accepted[a]));
        }
    }

    /// <summary>An acceptance covers its place and everything inside it: a run's covers all its legs. What cannot be made, it does not cover.</summary>
    private static bool Covers(string rule, RowPath path, Finding finding) =>
        rule == finding.Rule && (finding.Severity < Severity.Stop || AcceptImpossible.MayBe(rule)) && finding.At.IsWithin(path);

    /// <summary>The path of a place named as a person would: <c>leg 3 of main</c>, <c>start of main</c>, <c>item 4</c>; anything else is a path already.</summary>
    private static RowPath PathOf(string at, Drawing drawing)
    {
        var words = at.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is ["item", var number])
        {
            for (var i = 0; i < drawing.Materials.Count; i++)
            {
                if (Say(drawing.Materials[i].Item) == number)
                    return drawing.Materials[i].Source.Path;
            }
        }

        var of = at.IndexOf(" of ", StringComparison.Ordinal);
        if (of < 0 || drawing.Runs.FirstOrDefault(r => r.Name == at[(of + 4)..].Trim().Trim('"')) is not { } run)
            return at;
        if (at[..of].Trim() == "start")
            return run.Start.Source.Path;
        for (var i = 0; i < run.Legs.Count; i++)
        {
            if (at[..of].Trim() == "leg " + Say(i + 1))
                return run.Legs[i].Source.Path;
        }

        return at;
    }

    private static string Say(int number) => number.ToString(CultureInfo.InvariantCulture);
}

/// <summary>An acceptance with a name that no rule has.</summary>
internal sealed class AcceptUnknownRule : Rule
{
    public override string Name => "accept-unknown-rule";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An entry under `accept` names a rule that does not exist.";
    public override string Why => "It silences nothing, and whoever wrote it believes that it does (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var accepted in fabrication.Route.Drawing.Accepted)
        {
            if (Knows(accepted.Rule))
                continue;
            var near = Nearest.To(accepted.Rule, DeskCheck.Rules.Select(r => r.Name));
            yield return Found(accepted.Source, "rule", $"There is no rule \"{accepted.Rule}\".", near is null ? "Write the name that stands in brackets behind the finding." : $"Did you mean \"{near}\"?") with
            {
                Change = Nearest.OnlyTo(accepted.Rule, [.. DeskCheck.Rules.Select(r => r.Name)]) is null ? null : accepted.Source.Replace("rule", near!, $"\"{accepted.Rule}\" is now \"{near}\"") is { } change ? change with { IsJudgement = true } : null,
            };
        }
    }

    public static bool Knows(string name) => DeskCheck.Rules.Any(r => r.Name == name);
}

/// <summary>An acceptance of what cannot be made.</summary>
internal sealed class AcceptImpossible : Rule
{
    public override string Name => "accept-impossible";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An entry under `accept` names a rule whose findings cannot be accepted.";
    public override string Why => "A piece of negative length, a pipe longer than any that is sold, a fitting that nobody has the dimensions of: no reason makes one (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication) => fabrication.Route.Drawing.Accepted.Where(a => !MayBe(a.Rule)).Select(a =>
        Found(a.Source, "rule", $"\"{a.Rule}\" cannot be accepted: what it stops cannot be made.", "Mend what it finds, and take this entry out.", "Whoever wrote it believes that the drawing can be built."));

    /// <summary>Whether a rule's stops may be accepted; an unknown rule has none.</summary>
    public static bool MayBe(string name) => DeskCheck.Rules.FirstOrDefault(r => r.Name == name)?.CanBeAccepted ?? true;
}

/// <summary>An acceptance that no finding answers.</summary>
internal sealed class AcceptUnused : Rule
{
    private const string Word = "accept-unused";

    public override string Name => Word;
    public override Severity Severity => Severity.Note;
    public override string Says => "An entry under `accept` matches no finding.";
    public override string Why => "What it accepted is mended or has moved: left in, it would silence the next mistake at that place (common practice).";

    /// <summary>Known only when all other rules have spoken.</summary>
    public override IEnumerable<Finding> Check(Fabrication fabrication) => [];

    public static Finding Of(Acceptance accepted) => new(Word, Severity.Note, accepted.Source.Path, accepted.Source["rule"],
        $"Nothing is found by \"{accepted.Rule}\"{(accepted.At.Length > 0 ? " at " + accepted.At : "")}: this acceptance is not needed.", "Take it out, or mend its `at`.");
}
