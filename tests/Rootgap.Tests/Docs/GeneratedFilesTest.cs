using Rootgap.Docs;

namespace Rootgap.Tests.Docs;

/// <summary>The reference pages say what the code says.</summary>
public class GeneratedFilesTest
{
    [Fact]
    public void Every_generated_page_is_fresh()
    {
        var stale = GeneratedFile.All().Where(f => !File.Exists(Repository.At(f.Path)) || File.ReadAllText(Repository.At(f.Path)) != f.Text).Select(f => f.Path).ToList();
        Assert.True(stale.Count == 0, $"Stale: {string.Join(", ", stale)}. Run `dotnet run --project tools/Rootgap.Docs` and commit what it writes.");
    }

    [Fact]
    public void Every_rule_page_is_about_a_rule_that_there_is() => Assert.Subset(GeneratedFile.RulePages(), RepositoryFolder.RulePages(Repository.Root).ToHashSet(StringComparer.Ordinal));

    /// <summary>Whatever goes out with the program is named in licences.txt with its version, and nothing else is.</summary>
    [Fact]
    public void The_licences_are_those_of_the_works_that_go_out()
    {
        var lines = File.ReadAllLines(Repository.At(Licences.Path));
        var named = lines.TakeWhile(l => l.Length == 0 || l[0] != '-').Where(l => l.Length > 0 && l[0] != ' ' && l != lines[0] && l != lines[1]).ToHashSet(StringComparer.Ordinal);
        var works = Licences.Works(Repository.Root).Select(Licences.Title).ToHashSet(StringComparer.Ordinal);
        Assert.True(works.Count > 20, "The lock files were not found.");
        var missing = works.Except(named, StringComparer.Ordinal).Concat(named.Except(works, StringComparer.Ordinal).Where(n => !n.StartsWith(".NET", StringComparison.Ordinal) && !n.StartsWith("DejaVu", StringComparison.Ordinal))).ToList();
        Assert.True(missing.Count == 0, $"Not as the lock files say: {string.Join(", ", missing)}. Build, run `dotnet run --project tools/Rootgap.Docs -- --licences` and commit what it writes.");
        foreach (var licence in lines.Where(l => l.StartsWith("    licence: ", StringComparison.Ordinal)).Select(l => "Licence " + l["    licence: ".Length..]).Distinct(StringComparer.Ordinal))
            Assert.Contains(licence, lines);
    }
}
