using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Tests.Samples;

/// <summary>The sample job: a fish hatchery, invented for this repository. It is the demo, the docs' example and a corpus for tests.</summary>
public class SamplesTest
{
    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    private static SampleFile Sample(string name) => SampleFile.All.Single(s => s.Name == name);

    [Fact]
    public void There_are_at_least_six_clean_drawings() => Assert.True(SampleFile.Clean.Count() >= 6);

    [Theory]
    [MemberData(nameof(Names))]
    public void A_clean_drawing_gives_nothing_above_a_note(string name)
    {
        var findings = Sample(name).Packet().Findings.Where(f => f.Severity > Severity.Note && f.AcceptedBecause is null);
        Assert.Empty(findings.Select(f => $"{f.Where.File}:{f.Where.Line}: {f.Rule}: {f.Message}"));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void A_clean_drawing_lists_all_that_it_needs_and_nothing_else(string name)
    {
        foreach (var row in Sample(name).Packet().Fabrication.Materials)
        {
            Assert.True(row.Item is not null, $"{row.What} {row.Size} is needed and not listed");
            Assert.True(row.Listed >= row.Needed, $"item {row.Item.Item}: {row.Listed} listed, {row.Needed} needed");
            Assert.True(row.IsLength || row.Listed == row.Needed, $"item {row.Item.Item}: {row.Listed} listed, {row.Needed} needed");
            Assert.True(row.UsedBy.Count > 0, $"item {row.Item.Item} is listed and not used");
            Assert.Empty(row.Disagreements);
        }
    }

    [Fact]
    public void Together_the_drawings_use_every_work_point_and_both_units()
    {
        var drawings = SampleFile.Clean.Select(s => s.Read().Drawing!).ToList();
        var used = drawings.SelectMany(d => d.Runs).SelectMany(r => r.Legs).Select(l => l.To.Word).ToHashSet(StringComparer.Ordinal);
        Assert.Equal(WorkPointKind.All.Where(k => !k.IsOtherWord).Select(k => k.Word).Order(StringComparer.Ordinal), used.Order(StringComparer.Ordinal));
        Assert.Equal([Units.Millimetres, Units.Inches], drawings.Select(d => d.Units).Distinct().Order());
    }

    /// <summary>
    /// Sums done with a pencil from the printed tables: take-offs of ASME B16.9 (NPS 6: 90 LR 229, 45 LR 95; NPS 8 in inches: 90 LR 12, 8 x 6 reducer 6),
    /// lengths through hub of ASME B16.5 (class 150 WN: NPS 6 89, NPS 8 in inches 4.00), face to face of ASME B16.10.
    /// </summary>
    [Theory]
    [InlineData("chilled-supply", "4-B", 2600 - 95 - 229 - (2 * 3.2) + 100)]
    [InlineData("chilled-supply", "1-A", 700 - 89 - (356 / 2.0) - 3.2 - 89 - (2 * 3.2))]
    [InlineData("pump-suction", "3-A", ((68 - 12 - 6) * 25.4) - (2 * 3.2) + 100)]
    [InlineData("pump-suction", "1-A", ((42 - 4 - 4 - 0.125 - (11.5 / 2)) * 25.4) - (2 * 3.2))]
    [InlineData("oxygen", "OXY-A-B", 2100 - (2 * 75.5) - (2 * 1.6) + (2 * 1.6))]
    public void A_cut_length_is_the_sum_done_with_a_pencil(string name, string piece, double length)
    {
        var cut = Sample(name).Packet().Fabrication.Cuts.Single(c => c.Piece == piece);
        Assert.Equal(length, cut.Length, 0.05);
    }

    [Fact]
    public void The_drawing_with_mistakes_is_read_and_stopped()
    {
        var packet = Sample("chilled-supply-mistakes").Packet();
        Assert.False(packet.IsBuildable);
        Assert.Superset(
            new HashSet<string>(["leg-too-short-for-fittings", "final-fit-without-pipe", "eccentric-flat-missing", "does-not-close"], StringComparer.Ordinal),
            packet.Findings.Where(f => f.Severity == Severity.Stop).Select(f => f.Rule).ToHashSet(StringComparer.Ordinal));
    }

    /// <summary>
    /// Cut lists that a person has looked at lie in samples/NAME/accepted. Where a change of the program is meant to change them,
    /// run the tests once with ROOTGAP_ACCEPT=1, which writes them anew, and look at the difference before it is committed.
    /// </summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void The_cut_list_is_the_accepted_one(string name)
    {
        var sample = Sample(name);
        var text = CutList(sample);
        var accepted = Path.Combine(sample.Folder, "accepted", name + ".cuts.txt");
        if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(accepted)!);
            File.WriteAllText(accepted, text);
        }

        Assert.True(File.Exists(accepted), $"{accepted} is not there: look at the cut list, then accept it with ROOTGAP_ACCEPT=1.");
        Assert.Equal(File.ReadAllText(accepted), text);
    }

    private static string CutList(SampleFile sample)
    {
        var text = new StringBuilder();
        foreach (var cut in sample.Packet().Fabrication.Cuts)
        {
            text.Append(CultureInfo.InvariantCulture,
                $"{cut.Piece,-9} NPS {cut.Pipe.Size,-6} {LengthText.Millimetres(cut.Length, 1),8}  {cut.AtStart.Word} / {cut.AtEnd.Word}{(cut.Extra > 0 ? string.Create(CultureInfo.InvariantCulture, $", extra {cut.Extra:0.#}") : "")}\n");
        }

        return text.ToString();
    }
}
