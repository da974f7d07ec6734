using System.Text.Json;
using Rootgap.Routes;

namespace Rootgap.Tests.Drawings;

/// <summary>What the office says of a line and of its welds goes through to other programs and to paper.</summary>
public class LineDataTest
{
    private const string Yaml = """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        service: {line number: 6-CW-101, pipe class: C1A, heat treatment: none, insulation: mineral wool, insulation thickness: 50, test package: TP-7}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 1500, to: weld, begin number: F-1, end: field}
              - {go: north, by: 1500, to: support, kind: shoe, begin number: F-2, end number: S-1}
              - {go: north, by: 1500, to: flange, end number: F-3}
        """;

    [Fact]
    public void Numbers_stand_beside_ours_whichever_leg_says_them()
    {
        var route = Given.Packet(Yaml).Fabrication.Route;
        Assert.Equal([("W1", "F-1"), ("W2", "F-2"), ("W3", "F-3")], route.Joints.Where(j => j.Kind != JointKind.Bolted).Select(j => (j.Id, j.Office)));
        Assert.Equal("A1 (S-1)", route.Attachments.Single().Called);
    }

    [Fact]
    public void Other_programs_read_them()
    {
        using var json = JsonDocument.Parse(Given.Json(Given.Packet(Yaml)));
        var data = json.RootElement.GetProperty("line data");
        Assert.Equal(["6-CW-101", "C1A", "none", "mineral wool 50 mm", "TP-7"], data.EnumerateObject().Select(p => p.Value.GetString()));
        Assert.Contains(json.RootElement.GetProperty("joints").EnumerateArray(), j => j.TryGetProperty("office", out var office) && office.GetString() == "F-2" && j.GetProperty("joint").GetString() == "W2");
    }
}
