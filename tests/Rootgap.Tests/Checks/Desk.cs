using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Tests.Checks;

/// <summary>Runs the desk check over a drawing written in the test, so that a rule's tests do not know the engine.</summary>
internal static class Desk
{
    /// <summary>A drawing of NPS 6 schedule 40 with the given legs in its one run, which starts at a flange, and anything else appended at the top level.</summary>
    public static string Drawing(string legs, string more = "", string line = "size: 6, schedule: 40, class: 150", string start = "to: flange") => string.Join('\n',
    [
        "drawing: TEST-1",
        "revision: 1",
        $"line: {{{line}}}",
        more.Trim('\n'),
        "runs:",
        "  - run: main",
        $"    start: {{{start}}}",
        "    legs:",
        .. legs.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(l => l.StartsWith('-') || l.StartsWith('#') ? "      " + l : "      - " + l),
    ]);

    public static Packet Packet(string yaml)
    {
        var reading = DrawingReader.Read(yaml, "test.yaml");
        Assert.True(reading.Drawing is not null, string.Join("\n", reading.Errors.Select(e => string.Create(CultureInfo.InvariantCulture, $"{e.Where.Line}:{e.Where.Column} {e.Message}"))));
        return Rootgap.Packets.Packet.Of(reading.Drawing);
    }

    /// <summary>The rule finds something at the place, and says it with the given words.</summary>
    public static Finding Finds(string rule, string at, string yaml, params string[] words)
    {
        var findings = Packet(yaml).Findings;
        var finding = findings.FirstOrDefault(f => f.Rule == rule && (f.At == at || at.Length == 0));
        Assert.True(finding is not null, $"{rule} did not find anything at {at}. Found: {string.Join("; ", findings.Select(f => $"{f.Rule} at {f.At}"))}");
        Assert.True(finding.Where.IsKnown, "the finding has no place in the file");
        Assert.NotEmpty(finding.Remedy);
        foreach (var word in words)
            Assert.Contains(word, finding.Message, StringComparison.Ordinal);
        return finding;
    }

    /// <summary>The rule stays silent: a near miss.</summary>
    public static void IsSilent(string rule, string yaml) =>
        Assert.DoesNotContain(Packet(yaml).Findings, f => f.Rule == rule);

    /// <summary>The gravest that the rule finds is "stop", "warn" or "note"; empty where it stays silent.</summary>
    public static void Tells(string rule, string severity, string yaml)
    {
        var found = Packet(yaml).Findings.Where(f => f.Rule == rule).ToList();
        Assert.Equal(severity, found.Count == 0 ? "" : found.Max(f => f.Severity).ToString().ToLowerInvariant());
    }
}
