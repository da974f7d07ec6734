using System.Text.RegularExpressions;
using Rootgap.Checks;

namespace Rootgap.Tests.Checks;

/// <summary>What holds for all rules together.</summary>
public class RulesTest
{
    /// <summary>Literals with hyphens in the sources of placing that are names of tables, not of rules.</summary>
    private static readonly string[] NotRules = ["butt-weld"];

    [Fact]
    public void Every_finding_of_placing_has_a_rule_of_its_name()
    {
        var rules = DeskCheck.Rules.Select(r => r.Name).ToHashSet(StringComparer.Ordinal);
        var emitted = Directory.GetFiles(Repository.At("src", "Rootgap", "Routes"), "*.cs", SearchOption.AllDirectories)
            .SelectMany(f => Regex.Matches(File.ReadAllText(f), "\"(?<name>[a-z0-9]+(?:-[a-z0-9]+)+)\"", RegexOptions.NonBacktracking).Select(m => m.Groups["name"].Value))
            .Except(NotRules, StringComparer.Ordinal)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        Assert.True(emitted.Count >= 20, "the names were not found in the sources");
        Assert.Empty(emitted.Except(rules, StringComparer.Ordinal));
    }

    [Fact]
    public void Every_placing_rule_is_emitted_by_placing()
    {
        var sources = string.Concat(Directory.GetFiles(Repository.At("src", "Rootgap", "Routes"), "*.cs", SearchOption.AllDirectories).Select(File.ReadAllText));
        Assert.All(DeskCheck.Rules.Where(r => r is PlacingRule), r => Assert.Contains($"\"{r.Name}\"", sources, StringComparison.Ordinal));
    }

    // The desk check is asked for sixty rules at least.
    [Fact]
    public void There_are_sixty_rules_at_least() => Assert.True(DeskCheck.Rules.Count >= 60, $"{DeskCheck.Rules.Count} rules");

    [Fact]
    public void Every_rule_type_is_in_the_list_once()
    {
        var types = typeof(Rule).Assembly.GetTypes().Where(t => t is { IsAbstract: false } && t.IsSubclassOf(typeof(Rule))).Select(t => t.Name).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(types, DeskCheck.Rules.Select(r => r.GetType().Name).Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Fact]
    public void Every_rule_has_a_name_of_its_own_a_sentence_and_a_reason_with_its_source()
    {
        Assert.Equal(DeskCheck.Rules.Count, DeskCheck.Rules.Select(r => r.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.All(DeskCheck.Rules, r =>
        {
            Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)+$", r.Name);
            Assert.EndsWith(".", r.Says, StringComparison.Ordinal);
            Assert.EndsWith(".", r.Why, StringComparison.Ordinal);
            Assert.True(r.Says.Length > 20 && r.Why.Length > 20, r.Name);
        });
    }

    [Fact]
    public void Every_rule_is_named_in_a_test()
    {
        var tests = string.Concat(Directory.GetFiles(Repository.At("tests", "Rootgap.Tests", "Checks"), "*.cs", SearchOption.AllDirectories).Select(File.ReadAllText));
        Assert.Empty(DeskCheck.Rules.Where(r => !tests.Contains($"\"{r.Name}\"", StringComparison.Ordinal)).Select(r => r.Name));
    }

    [Fact]
    public void An_accepted_finding_keeps_its_reason()
    {
        var finding = Desk.Finds("outlet-full-size", "runs[0].legs[0]", Desk.Drawing("""
            {go: north, by: 1500, to: outlet, size: 6, branch: up}
            {go: north, by: 1500, to: flange}
            """, more: "accept: [{rule: outlet-full-size, at: \"runs[0].legs[0]\", why: the owner wants it so}]"));
        Assert.Equal("the owner wants it so", finding.AcceptedBecause);
    }
}
