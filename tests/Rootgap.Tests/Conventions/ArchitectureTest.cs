using System.Text.RegularExpressions;

namespace Rootgap.Tests.Conventions;

/// <summary>The engine's folders lie in the order of their dependency, and the engine knows nothing of the machine it runs on.</summary>
public partial class ArchitectureTest
{
    /// <summary>A folder may use those above it. Sheets are drawn with measures only; what puts a packet on them comes last.</summary>
    private static readonly string[] Order =
        ["Measure", "Findings", "Standards", "Sums", "Drawings", "Routes", "Fabrication", "Cutting", "FitUp", "Comparing", "Records", "Site", "Checks", "Papers", "Sheets", "Packets"];

    /// <summary>Namespaces that are not named as their folder: a type of the folder has the folder's name.</summary>
    private static readonly Dictionary<string, string> FolderOf = new(StringComparer.Ordinal) { ["Fabricating"] = "Fabrication" };

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private static readonly string Engine = Repository.At("src", "Rootgap");

    private static IEnumerable<(string Folder, string File)> Sources() =>
        from folder in Directory.EnumerateDirectories(Engine)
        let name = Path.GetFileName(folder)
        where name is not ("bin" or "obj")
        from file in Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
        select (name, file);

    [Fact]
    public void Every_folder_has_its_place_in_the_order() =>
        Assert.Empty(Sources().Select(s => s.Folder).Distinct(StringComparer.Ordinal).Except(Order, StringComparer.Ordinal));

    [Fact]
    public void A_folder_uses_only_those_before_it()
    {
        var seen = 0;
        var wrong = new List<string>();
        foreach (var (folder, file) in Sources())
        {
            foreach (var used in Uses().Matches(File.ReadAllText(file)).Select(m => m.Groups["folder"].Value))
            {
                seen++;
                var target = FolderOf.GetValueOrDefault(used, used);
                if (Array.IndexOf(Order, target) is var place && (place < 0 || place > Array.IndexOf(Order, folder)))
                    wrong.Add($"{Path.GetRelativePath(Engine, file)} uses {used}");
            }
        }

        Assert.True(seen > 50, "The using lines were not found.");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public void A_file_declares_the_namespace_of_its_folder()
    {
        foreach (var (folder, file) in Sources())
        {
            var declared = Declared().Match(File.ReadAllText(file)).Groups["folder"].Value;
            Assert.True(FolderOf.GetValueOrDefault(declared, declared) == folder, $"{Path.GetRelativePath(Engine, file)} declares Rootgap.{declared}");
        }
    }

    /// <summary>What the engine must not know; the analyser's list of banned symbols says it too, and this test sees that nobody silences the analyser.</summary>
    [Theory]
    [InlineData(@"\bFile\.(Read|Write|Open|Create|Exists)")]
    [InlineData(@"\bConsole\.")]
    [InlineData(@"\bDateTime(Offset)?\.(Now|UtcNow|Today)\b")]
    [InlineData(@"\bGuid\.NewGuid\b")]
    [InlineData(@"\bnew Random\(\)|\bRandom\.Shared\b")]
    [InlineData(@"\bThread\b|\bTask\.Run\b|\bParallel\.")]
    [InlineData(@"\bHttpClient\b|\bSystem\.Net\b")]
    [InlineData(@"\bCultureInfo\.Current(UI)?Culture\b")]
    public void The_engine_knows_no_file_console_clock_chance_thread_network_or_culture(string pattern)
    {
        foreach (var (_, file) in Sources())
        {
            var code = Comments().Replace(File.ReadAllText(file), "");
            Assert.False(Regex.IsMatch(code, pattern, RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, Patience), $"{Path.GetRelativePath(Engine, file)}: {pattern}");
        }
    }

    [GeneratedRegex(@"(?<!namespace\s)\bRootgap\.(?<folder>[A-Z]\w+)(?=[\.;])", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex Uses();

    [GeneratedRegex(@"^namespace Rootgap\.(?<folder>\w+)(\.\w+)*;", RegexOptions.Multiline | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex Declared();

    [GeneratedRegex("//.*|\"(?:[^\"\\\\\\n]|\\\\.)*\"", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex Comments();
}
