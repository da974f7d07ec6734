using System.Globalization;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Records;

namespace Rootgap.Tests.Formats;

/// <summary>What older versions wrote is read for ever, and means what it meant. Each version's files lie in tests/Formats and are never changed.</summary>
public class KeptFormatsTest
{
    public static TheoryData<string> Versions => [.. Directory.EnumerateDirectories(Repository.At("tests", "Formats")).Select(d => Path.GetFileName(d)!).Order(StringComparer.Ordinal)];

    private static string Kept(string version, params string[] parts) => Repository.At(["tests", "Formats", version, .. parts]);

    private static List<string[]> PiecesKept(string version) => [.. File.ReadLines(Kept(version, "pieces.csv")).Skip(1).Select(l => l.Split(','))];

    [Fact]
    public void The_first_version_is_kept() => Assert.Contains("0.1.0", Versions.Select(v => v.Data));

    [Theory]
    [MemberData(nameof(Versions))]
    public void Drawings_are_read_and_hold_the_same_pieces(string version)
    {
        var seen = new List<string>();
        foreach (var file in Directory.EnumerateFiles(Kept(version, "drawings"), "*.yaml").Where(f => File.ReadLines(f).Any(l => l.StartsWith("drawing:", StringComparison.Ordinal))))
        {
            var reading = DrawingReader.Read(File.ReadAllText(file), Path.GetFileName(file), beside => File.ReadAllBytes(Kept(version, "drawings", beside)));
            Assert.True(reading.Drawing is not null, $"{file}: {string.Join("; ", reading.Errors.Select(e => e.Message))}");
            seen.AddRange(Packet.Of(reading.Drawing).Fabrication.Cuts.Select(c => $"{reading.Drawing.Number} {c.Piece}"));
        }

        Assert.Equal(PiecesKept(version).Select(p => $"{p[0]} {p[1]}").Order(StringComparer.Ordinal), seen.Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void A_packet_gives_the_cutting_plan_the_pieces_that_stood_in_it(string version)
    {
        var pieces = Pieces.OfPacket(File.ReadAllText(Kept(version, "packet.json")), "packet.json");
        Assert.Equal(PiecesKept(version), pieces.Select(p => new[] { p.Drawing, p.Id, p.Spool, p.Pipe.Size, p.Pipe.Schedule, p.Pipe.Material, p.Length.ToString("0.0000", CultureInfo.InvariantCulture) }));
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void A_cutting_plan_is_read_and_gone_on_with(string version)
    {
        var text = File.ReadAllText(Kept(version, "cut.json"));
        var plan = CuttingPlanJson.Read(text);
        Assert.Empty(plan.Unplaced);
        Assert.Equal(PiecesKept(version).Count, plan.Groups.Sum(g => g.Bars.Sum(b => b.Pieces.Count)));
        var rack = RackReader.Read(File.ReadAllBytes(Kept(version, "drawings", "rack.yaml")), "rack.yaml").Rack!;
        var pieces = Pieces.OfPacket(File.ReadAllText(Kept(version, "packet.json")), "packet.json");
        var cut = plan.Groups[0].Bars[0].Pieces[0].Piece.FullName;
        var (log, wrong) = new SawReport { Cut = [cut] }.On(plan, rack);
        Assert.Empty(wrong);
        var left = log!.Wanted(pieces, []);
        Assert.DoesNotContain(left, p => p.FullName == cut);
        Assert.Equal(pieces.Count - 1, left.Count);
    }

    [Theory]
    [MemberData(nameof(Versions))]
    public void Facts_are_known_and_what_stood_in_them_stands_in_them_still(string version)
    {
        var lines = File.ReadAllLines(Kept(version, "facts.jsonl"));
        Assert.NotEmpty(lines);
        foreach (var line in lines)
        {
            var reading = FactJson.Read(line);
            Assert.NotNull(reading.Fact);
            Assert.IsNotType<UnknownFact>(reading.Fact);
            // A later version may write more; nothing that was written is lost or means something else.
            var (before, now) = (JsonElement.Parse(line), JsonElement.Parse(FactJson.Text(reading.Fact)));
            foreach (var value in before.EnumerateObject())
                Assert.True(now.TryGetProperty(value.Name, out var written) && JsonElement.DeepEquals(value.Value, written), $"{value.Name} of {line}");
        }
    }

    /// <summary>One fact of each kind was kept: a kind that was forgotten would not be missed.</summary>
    [Fact]
    public void Every_kind_of_fact_of_the_first_version_is_among_the_kept() =>
        Assert.Equal(["file", "heat", "joint-step", "piece-cut", "readings", "withdrawn"], File.ReadLines(Kept("0.1.0", "facts.jsonl"))
            .Select(l => JsonElement.Parse(l).GetProperty("fact").GetString()!).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal), StringComparer.Ordinal);
}
