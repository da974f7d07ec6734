using Rootgap.Routes;
using Rootgap.Sheets;
using Rootgap.Standards;

namespace Rootgap.Tests.Standards;

/// <summary>What a row says of how it was checked is true of the row, and reaches the paper.</summary>
public class CheckedWordsTest
{
    public static TheoryData<string> Tables => [.. StandardTable.Names];

    [Theory]
    [MemberData(nameof(Tables))]
    public void The_word_is_true_of_the_row(string table) => Assert.All(StandardTable.Rows(table), row =>
    {
        var (word, detail) = row.Checked.IndexOf(": ", StringComparison.Ordinal) is >= 0 and var at ? (row.Checked[..at], row.Checked[(at + 2)..]) : (row.Checked, "");
        Assert.Contains(word, StandardTable.CheckedWords);
        // From memory throughout, unless one column was read: "mm: a place; in: memory".
        var remembered = row.Source.Split("; ").Where(p => p.Contains("memory", StringComparison.Ordinal)).ToList();
        var isAllRemembered = remembered.Count > 0 && !remembered.TrueForAll(p => p.StartsWith("in", StringComparison.Ordinal) || p.StartsWith("mm", StringComparison.Ordinal));
        if (word == "two")
            Assert.True(!isAllRemembered && detail.Length > 0, $"{row.Item} NPS {row.Nps} {row.Attribute} claims two places");
        if (word == "one")
            Assert.True(!isAllRemembered || detail.Length > 0, $"{row.Item} NPS {row.Nps} {row.Attribute} claims a place");
        if (word == "formula")
            Assert.True(remembered.Count == 0 && detail.Length > 0, $"{row.Item} NPS {row.Nps} {row.Attribute} does not say what it follows from");
        if (word is "sum" or "none")
            Assert.True(remembered.Count > 0, $"{row.Item} NPS {row.Nps} {row.Attribute} was read somewhere");
        if (word == "none")
            Assert.True(detail.Length == 0, $"{row.Item} NPS {row.Nps} {row.Attribute} has something to show");
        if (word == "practice")
            Assert.Equal("common practice", row.Standard);
    });

    // ASME B16.10 lengths of ball valves here are from memory; weld-neck flanges of B16.5 and elbows of B16.9 were read in two places.
    [Fact]
    public void A_take_off_from_memory_is_marked_in_its_sum_and_at_the_foot()
    {
        var packet = Given.Run("mm", "size: 6, schedule: 40, class: 300", "root gap: 3", "flange", "{go: east, by: 1500, to: valve, kind: ball}", "{go: east, by: 1500, to: elbow}", "{go: north, by: 1000, to: flange}");
        var remembered = packet.Fabrication.Cuts.SelectMany(c => c.Sum).Where(t => t.Origin.IsFromMemory).ToList();
        Assert.NotEmpty(remembered);
        Assert.All(remembered, t => Assert.Equal("half the valve's face to face", t.What));
        Assert.Matches("half valve [0-9.]+†", SumWords.Of(packet.Fabrication.Cuts[0], Rootgap.Measure.Units.Millimetres));
        Assert.DoesNotContain("†", SumWords.Of(packet.Fabrication.Cuts[^1], Rootgap.Measure.Units.Millimetres), StringComparison.Ordinal);
        Assert.EndsWith("held against no book", Wording.Short(remembered[0].Origin), StringComparison.Ordinal);
    }
}
