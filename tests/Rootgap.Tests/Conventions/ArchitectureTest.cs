using System.Text.RegularExpressions;

namespace Rootgap.Tests.Conventions;

/// <summary>The engine's folders lie in the order of their dependency, and the engine knows nothing of the machine it runs on.</summary>
public partial class ArchitectureTest
{
    /// <summary>A folder may use those above it. Sheets are drawn with measures only; what puts a packet on them comes last.</summary>
    private static readonly string[] Order =
        ["Measure", "Findings", "Standards", "Sums", "Drawings", "Routes", "Fabrication", "Cutting", "FitUp", "Comparing", "Records", "Site", "Checks", "Papers", "Sheets", "Packets"];

    /// <summary>Namespaces that are not named as their folder: a type of the folder has the folder's name.</summary>
    private static readonly Dictionary<string, string> OtherNames = new(StringComparer.Ordinal) { ["Fabricating"] = "Fabrication" };

    private static string? FolderOf(Type type) =>
        type.Namespace?.Split('.') is ["Rootgap", var name, ..] ? OtherNames.GetValueOrDefault(name, name) : null;

    /// <summary>The folders up to Records, and those from Site on.</summary>
    private static readonly System.Reflection.Assembly[] Assemblies = [typeof(Rootgap.Drawings.Drawing).Assembly, typeof(Packets.Packet).Assembly];

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

    // As the compiler has bound it, so that a type which comes in by inference or in full counts too.
    [Fact]
    public void A_folder_uses_only_those_before_it()
    {
        var seen = 0;
        var wrong = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var type in Assemblies.SelectMany(a => a.GetTypes()).Where(t => FolderOf(t) is not null))
        {
            var (folder, place) = (FolderOf(type)!, Array.IndexOf(Order, FolderOf(type)));
            foreach (var used in SymbolUses.Of(type).Where(u => FolderOf(u) is { } f && f != folder))
            {
                seen++;
                if (place < Array.IndexOf(Order, FolderOf(used)))
                    wrong.Add($"{type.FullName} ({folder}) uses {used.FullName} ({FolderOf(used)})");
            }
        }

        Assert.True(seen > 1000, "The uses were not found.");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public void A_file_declares_the_namespace_of_its_folder()
    {
        foreach (var (folder, file) in Sources())
        {
            var declared = Declared().Match(File.ReadAllText(file)).Groups["folder"].Value;
            Assert.True(OtherNames.GetValueOrDefault(declared, declared) == folder, $"{Path.GetRelativePath(Engine, file)} declares Rootgap.{declared}");
        }
    }

    /// <summary>What the engine must not know; the analyser's list of banned symbols says it too, and this test sees that nobody silences the analyser.</summary>
    [Fact]
    public void The_engine_knows_no_file_console_clock_chance_thread_network_or_culture()
    {
        var outside = Assemblies.SelectMany(SymbolUses.Outside).ToList();
        // It does use the platform: a list that is empty would say nothing.
        Assert.Contains(("System.Math", "Sqrt", 1), outside);
        Assert.DoesNotContain(outside, o => IsBanned(o.Type, o.Member, o.Arguments));
    }

    private static bool IsBanned(string type, string member, int arguments) => type switch
    {
        "System.IO.File" or "System.IO.Directory" or "System.IO.FileInfo" or "System.IO.FileStream" or "System.Console" or "System.Threading.Thread" or "System.Threading.Tasks.Parallel" or "System.Diagnostics.Process" => true,
        // The compiler itself asks which thread an iterator is on.
        "System.Environment" => member != "get_CurrentManagedThreadId",
        "System.DateTime" or "System.DateTimeOffset" => member is "get_Now" or "get_UtcNow" or "get_Today",
        "System.Guid" => member == "NewGuid",
        // Chance must be given its seed.
        "System.Random" => member == "get_Shared" || (member == ".ctor" && arguments == 0),
        "System.Threading.Tasks.Task" => member == "Run",
        "System.Globalization.CultureInfo" => member is "get_CurrentCulture" or "get_CurrentUICulture",
        _ => type.StartsWith("System.Net.", StringComparison.Ordinal),
    };

    [GeneratedRegex(@"^namespace Rootgap\.(?<folder>\w+)(\.\w+)*;", RegexOptions.Multiline | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 10_000)]
    private static partial Regex Declared();
}
