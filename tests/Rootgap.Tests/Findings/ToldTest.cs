using Rootgap.Findings;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Findings;

public class ToldTest
{
    private static IReadOnlyList<Told> Told(int valves) => Rootgap.Findings.Told.Of(Desk.Packet(Desk.Drawing(
        string.Join('\n', Enumerable.Repeat("{go: east, by: 1500, to: valve, kind: gate}", valves)) + "\n{go: east, by: 40, to: flange}")).Findings);

    [Fact]
    public void The_gravest_stand_first()
    {
        var severities = Told(2).Select(t => t.First.Severity).ToList();
        Assert.Contains(Severity.Stop, severities);
        Assert.Equal(severities.OrderByDescending(s => s == Severity.Stop).ThenByDescending(s => s == Severity.Warn), severities);
    }

    [Fact]
    public void Many_notes_of_one_rule_are_told_once_with_all_their_places()
    {
        var lengths = Assert.Single(Told(6), t => t.First.Rule == "valve-length-from-table");
        Assert.Equal(5, lengths.More.Count);
        Assert.Equal(2, Told(2).Count(t => t.First.Rule == "valve-length-from-table"));
    }
}
