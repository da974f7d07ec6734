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
}
