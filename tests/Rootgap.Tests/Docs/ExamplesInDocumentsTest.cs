using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Tests.Docs;

/// <summary>The drawings printed in the documents are drawings: they are read and placed.</summary>
public partial class ExamplesInDocumentsTest
{
    [Theory]
    [InlineData("README.md")]
    [InlineData("docs/drawing-file.md")]
    public void Every_whole_drawing_in_a_document_is_read_and_placed(string document)
    {
        var drawings = Fence().Matches(File.ReadAllText(Repository.At(document))).Select(m => m.Groups["yaml"].Value).Where(y => y.StartsWith("drawing:", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(drawings);
        foreach (var text in drawings)
        {
            var reading = DrawingReader.Read(text, document);
            Assert.Empty(reading.Errors.Select(e => e.Message));
            Assert.Empty(Routing.Of(reading.Drawing!).Findings.Select(f => f.Message));
        }
    }

    [Fact]
    public void Every_link_in_the_documents_leads_to_a_file()
    {
        string[] documents = ["README.md", "ARCHITECTURE.md", "CONTRIBUTING.md", "docs/drawing-file.md", "docs/drawing-keys.md", "docs/rules.md"];
        foreach (var document in documents)
        {
            foreach (Match link in Link().Matches(File.ReadAllText(Repository.At(document))))
            {
                var target = link.Groups["to"].Value;
                var path = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Repository.At(document))!, target));
                Assert.True(File.Exists(path) || Directory.Exists(path), $"{document} links to {target}, which is not there");
            }
        }
    }

    [GeneratedRegex("```yaml\n(?<yaml>.*?)```", RegexOptions.Singleline | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Fence();

    [GeneratedRegex(@"\]\((?<to>(?!https?:|#)[^)#]+)", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Link();
}
