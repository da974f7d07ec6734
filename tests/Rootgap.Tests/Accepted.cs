using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests;

/// <summary>
/// All that the program answers of a row of drawings, kept as digests: nothing of it changes unseen. Whether a figure is right the other tests say; these say that it is still
/// the one that they were passed with. A change that is meant: look at what it changes (below), then run once with ROOTGAP_ACCEPT=1.
/// <para>ROOTGAP_ANSWERS=FOLDER writes every answer there in full. Do it before and after a change, and lay the two folders beside each other.</para>
/// </summary>
internal static partial class Accepted
{
    /// <summary>The samples, the lines of <c>Told/lines.txt</c>, which are there for kinds and sizes that no sample has, and drawings at random in both units, each by its seed. Made anew for each who asks: what one test has worked out is not kept for another.</summary>
    public static IReadOnlyList<(string Name, Packet Packet)> Drawings =>
    [
        .. SampleFile.Clean.Select(s => (s.Name, s.Packet())),
        .. Parts(Repository.At("tests", "Rootgap.Tests", "Told", "lines.txt")).Select(p => (p.Head, Given.Packet(p.Text))),
        .. Enumerable.Range(1, 12).Select(seed => (string.Create(CultureInfo.InvariantCulture, $"random {seed}"), Random(seed))),
    ];

    /// <summary>Of these, one of each kind, for what takes longer.</summary>
    public static IEnumerable<(string Name, Packet Packet)> Few => Drawings.Where(d => d.Name is "air-drop" or "pump-suction" or "random 2" or "random 6" or "random 9"
        || (!d.Name.StartsWith("random", StringComparison.Ordinal) && !SampleFile.Clean.Any(s => s.Name == d.Name)));

    /// <summary>Short lines with a final fit, for what takes longest.</summary>
    public static IEnumerable<(string Name, Packet Packet)> Fewest => Drawings.Where(d => d.Name is "large bore" or "on supports, with a valve over ten inches" or "a mitred bend and a stub-in" or "with bends and a fall" or "random 2" or "random 11");

    /// <summary>The small drawings with a mistake each, by which the rules' words are held: for what is quick.</summary>
    public static IReadOnlyList<(string Name, Packet Packet)> Mistakes =>
        [.. Parts(Repository.At("tests", "Rootgap.Tests", "Checks", "Told", "mistakes.txt")).Select((p, i) => (string.Create(CultureInfo.InvariantCulture, $"{i + 1} {p.Head}"), Given.Packet(p.Text)))];

    private static IEnumerable<(string Head, string Text)> Parts(string file) => File.ReadAllText(file).Split("=== ", StringSplitOptions.RemoveEmptyEntries).Select(part =>
        part.IndexOf('\n', StringComparison.Ordinal) is var cut ? (part[..cut], part[(cut + 1)..]) : default);

    private static Packet Random(int seed)
    {
        var bytes = new byte[1200];
        new Random(seed).NextBytes(bytes);
        return SketchMaking.Of(new Choices(bytes), 10).Packet();
    }

    /// <summary>A figure between -1 and 1, the same for the same numbers; no two neighbours alike.</summary>
    public static double Figure(int one, int two = 0, int three = 0) => Math.Round(Math.Sin((12.9898 * one) + (78.233 * two) + (37.719 * three) + 1), 3);

    public static string Json(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, new JsonWriterOptions { Indented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true }))
            write(json);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    public static string Lines(IEnumerable<string> lines) => string.Join('\n', lines);

    /// <summary>The answers are the accepted ones.</summary>
    /// <param name="kept">Beside the test: a line each, name and digest.</param>
    public static void Same(string kept, IEnumerable<(string Name, string Answer)> answers, [System.Runtime.CompilerServices.CallerFilePath] string beside = "")
    {
        var file = Repository.At("tests", "Rootgap.Tests", Path.GetFileName(Path.GetDirectoryName(beside)!), kept);
        var now = new List<string>();
        foreach (var (name, answer) in answers)
        {
            var text = Digits().Replace(Sources().Replace(answer, ""), m => Math.Round(double.Parse(m.Value, CultureInfo.InvariantCulture), 6).ToString(CultureInfo.InvariantCulture));
            now.Add($"{name}: {Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..12]}");
            if (Environment.GetEnvironmentVariable("ROOTGAP_ANSWERS") is { Length: > 0 } folder)
                File.WriteAllText(Path.Combine(folder, $"{Path.GetFileNameWithoutExtension(kept)}, {name}.txt"), text);
        }

        if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
            File.WriteAllText(file, string.Concat(now.Select(l => l + "\n")));
        var other = now.Except(File.ReadLines(file), StringComparer.Ordinal).Concat(File.ReadLines(file).Except(now, StringComparer.Ordinal)).Select(l => l[..l.LastIndexOf(':')]).Distinct(StringComparer.Ordinal);
        Assert.True(!other.Any(), $"What is answered is not what was accepted in {kept}: {string.Join("; ", other)}. How to see the difference stands in Accepted.cs.");
    }

    /// <summary>What is said of each of the files that stand in <c>NAME.txt</c> beside the test, each under its own head, word for word: <c>NAME.accepted.txt</c>, for a reviewer to read.</summary>
    public static void Told(string name, Func<string, IEnumerable<string>> says, [System.Runtime.CompilerServices.CallerFilePath] string beside = "")
    {
        string At(string file) => Repository.At("tests", "Rootgap.Tests", Path.GetFileName(Path.GetDirectoryName(beside)!), "Told", file);
        var told = new StringBuilder();
        foreach (var (head, text) in Parts(At(name + ".txt")))
        {
            told.Append("=== ").Append(head).Append('\n');
            foreach (var line in says(text))
                told.Append(line).Append('\n');
        }

        var file = At(name + ".accepted.txt");
        if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
            File.WriteAllText(file, told.ToString());
        Assert.Equal(File.ReadAllText(file), told.ToString(), StringComparer.Ordinal);
    }

    /// <summary>A finding as it is told.</summary>
    public static string Line(Finding f) => string.Create(CultureInfo.InvariantCulture, $"{f.Rule}, {f.Severity.ToString().ToLowerInvariant()}, {f.At} {f.Where.Line}:{f.Where.Column}\n  {f.Message}\n  do: {f.Remedy}{(f.Change is { } change ? $"\n  fix: {change.Says}" : "")}");

    // Where a row of a table was read is told better now and then; the figure stays.
    [GeneratedRegex(@"""(source|checked)"":\s*""([^""\\]|\\.)*""", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 10_000)]
    private static partial Regex Sources();

    // The last digits are the processor's, not ours.
    [GeneratedRegex(@"(?<![\w.])-?\d+\.\d{7,}(E[+-]?\d+)?", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 10_000)]
    private static partial Regex Digits();
}
