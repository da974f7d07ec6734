using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Routes;

/// <summary>Components find their row in the material list by kind, size and rating (the drawing format, section 1.3); found by the second program in tools/oracle.</summary>
public class ItemSearchTest
{
    [Fact]
    public void A_bend_is_not_taken_for_an_elbow_of_another_radius() =>
        Needed("""
            - {item: 1, what: elbow 90 SR, size: 2, quantity: 1}
            - {item: 2, what: elbow 90 LR, size: 2, quantity: 1}
            - {item: 3, what: bend 5D, size: 2, quantity: 1}
            """, "{size: 2, schedule: STD}", """
            - {go: up, by: 900, to: elbow, radius: 5d}
            - {go: north, by: 900, to: elbow, radius: short}
            - {go: up, by: 900, to: elbow}
            - {go: north, by: 900, to: open}
            """, 1, 1, 1);

    [Fact]
    public void Outlets_and_valves_are_told_apart_by_their_ends() =>
        Needed("""
            - {item: 1, what: outlet socket, size: 1 x 6, class: 3000, quantity: 1}
            - {item: 2, what: outlet butt, size: 1, quantity: 2}
            - {item: 3, what: valve gate, size: 6, class: 150, quantity: 1}
            - {item: 4, what: valve gate BW, size: 6, class: 150, quantity: 1}
            """, "{size: 6, schedule: STD}", """
            - {go: up, by: 900, to: outlet, branch: north, size: 1}
            - {go: up, by: 900, to: outlet, branch: north, size: 1, ends: socket}
            - {go: up, by: 900, to: outlet, branch: south, size: 1}
            - {go: up, by: 900, to: valve, kind: gate, ends: butt}
            - {go: up, by: 900, to: valve, kind: gate}
            - {go: up, by: 900, to: open}
            """, 1, 2, 1, 1);

    [Fact]
    public void Pipe_of_a_wall_of_its_own_is_not_the_row_of_another_schedule() =>
        Needed("""
            - {item: 1, what: pipe, size: 6, schedule: 80, quantity: 2 m}
            - {item: 2, what: pipe, size: 6, quantity: 2 m}
            """, "{size: 6, schedule: {wall: 6.3}}", "- {go: up, by: 1000, to: open}", 0, 1);

    /// <summary>NPS 6 STD and schedule 40 are one wall, 7.11 mm (ASME B36.10M Table 1); in NPS 12 they are not.</summary>
    [Fact]
    public void A_schedule_is_known_by_its_wall_too() =>
        Needed("""
            - {item: 1, what: pipe, size: 6, schedule: XS, quantity: 2 m}
            - {item: 2, what: pipe, size: 6, schedule: STD, quantity: 2 m}
            """, "{size: 6, schedule: 40}", "- {go: up, by: 1000, to: open}", 0, 1);

    private static void Needed(string rows, string line, string legs, params double[] needed)
    {
        var text = $"drawing: X\nline: {line}\nmaterials:\n{rows}\nruns:\n- run: main\n  start: {{to: open}}\n  legs:\n{Indented(legs)}\n";
        var reading = DrawingReader.Read(text, "x.yaml");
        Assert.Empty(reading.Errors);
        var listed = Packet.Of(reading.Drawing!).Fabrication.Materials.Where(m => m.Item is not null).ToList();
        Assert.Equal(needed, listed.Select(m => m.IsLength ? Math.Round(m.Needed, 3) : m.Needed));
    }

    private static string Indented(string legs) => string.Join('\n', legs.Split('\n').Select(l => "  " + l));
}
