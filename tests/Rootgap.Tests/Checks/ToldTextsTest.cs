using System.Globalization;
using System.Text;
using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>
/// What each rule says, word for word, with the place it points at: the drawings stand in <c>Told/mistakes.txt</c>, each under the names of the rules that it is there for, and
/// what these say in <c>Told/told.txt</c>, for a reviewer to read. After a change that is meant: <c>ROOTGAP_ACCEPT=1</c>, and look at the difference.
/// </summary>
public class ToldTextsTest
{
    private const string Head = "=== ";

    private static string At(string name) => Repository.At("tests", "Rootgap.Tests", "Checks", "Told", name);

    [Fact]
    public void Each_rule_says_what_was_accepted_at_the_place_it_is_about()
    {
        var told = new StringBuilder();
        var rules = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (names, yaml) in Drawings())
        {
            told.Append(Head).AppendJoin(' ', names).Append('\n');
            foreach (var finding in Desk.Packet(yaml).Findings.Where(f => names.Contains(f.Rule, StringComparer.Ordinal)))
            {
                rules.Add(finding.Rule);
                told.Append(Line(finding, yaml.Split('\n')));
            }
        }

        var file = At("told.txt");
        if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
            File.WriteAllText(file, told.ToString());
        Assert.Equal(File.ReadAllText(file), told.ToString(), StringComparer.Ordinal);
        Assert.Equal(Drawings().SelectMany(d => d.Names).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal), rules.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    private static IEnumerable<(string[] Names, string Yaml)> Drawings() => File.ReadAllText(At("mistakes.txt")).Split(Head, StringSplitOptions.RemoveEmptyEntries).Select(part =>
    {
        var (head, yaml) = (part[..part.IndexOf('\n', StringComparison.Ordinal)], part[(part.IndexOf('\n', StringComparison.Ordinal) + 1)..]);
        return (head.Split(' '), yaml);
    });

    private static string Line(Finding f, string[] lines)
    {
        var under = f.Where.IsKnown && f.Where.Line <= lines.Length ? lines[f.Where.Line - 1][(f.Where.Column - 1)..Math.Min(lines[f.Where.Line - 1].Length, Math.Max(f.Where.Column, f.Where.EndColumn - 1))] : "";
        var text = string.Create(CultureInfo.InvariantCulture, $"{f.Rule}, {f.Severity.ToString().ToLowerInvariant()}, {f.At} {f.Where.Line}:{f.Where.Column} \"{under}\"\n  {f.Message}\n");
        return text + (f.Otherwise.Length > 0 ? $"  otherwise: {f.Otherwise}\n" : "") + $"  do: {f.Remedy}\n" + (f.Change is { } change ? $"  fix: {change.Says}\n" : "") + (f.AcceptedBecause is { } why ? $"  accepted: {why}\n" : "");
    }
}
