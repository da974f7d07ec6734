using Rootgap.Drawings;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>What stands in the line and has no table: it takes its own length out of the pipe as a valve of that length does, whose sums other tests hold against the standards.</summary>
public class InLineItemTest
{
    private static string Drawing(string item) => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        materials:
          - {item: 1, what: Y-type strainer flanged, size: 6, class: 150, quantity: 1}
          - {item: 2, what: strainer, size: 6, class: 300, quantity: 1}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 2000, {{item}}}
              - {go: east, by: 1500, to: flange}
        """;

    [Theory]
    [InlineData("to: in-line item, what: strainer, face to face: 470, mass: 80", "to: valve, kind: gate, face to face: 470, mass: 80")]
    [InlineData("to: in-line item, what: flow meter, face to face: 610, ends: butt, mass: 80", "to: valve, kind: gate, ends: butt, face to face: 610, mass: 80")]
    [InlineData("to: in-line item, what: orifice plate, ends: wafer, face to face: 6, mass: 4", "to: valve, kind: butterfly, face to face: 6, mass: 4")]
    public void It_takes_its_length_its_gaskets_and_its_studs_as_a_valve_of_that_length_does(string item, string valve)
    {
        var (here, there) = (Given.Packet(Drawing(item)).Fabrication, Given.Packet(Drawing(valve)).Fabrication);
        Assert.Equal(there.Cuts.Select(c => Math.Round(c.Length, 6)), here.Cuts.Select(c => Math.Round(c.Length, 6)));
        Assert.Equal(there.Bolting.Select(b => (b.Size, b.Count, b.Length)), here.Bolting.Select(b => (b.Size, b.Count, b.Length)));
        Assert.Equal(there.Route.Components.Select(c => (c.Ports[0].At, c.Mass?.Kg)), here.Route.Components.Select(c => (c.Ports[0].At, c.Mass?.Kg)));
    }

    // ASME B16.5: NPS 6 class 150 has eight 3/4 in. studs. The plate adds itself and a second gasket of the usual 3 mm to the grip (B16.5 annex C: the length grows with the grip, up to the next 5 mm).
    [Fact]
    public void Studs_go_past_a_plate_and_its_second_gasket()
    {
        var joint = Assert.Single(Given.Packet(Drawing("to: joint")).Fabrication.Bolting, b => b.Joint.Id == "B2");
        var plate = Assert.Single(Given.Packet(Drawing("to: in-line item, what: spacer, ends: wafer, face to face: 27")).Fabrication.Bolting, b => b.Joint.Id == "B2");
        Assert.Equal((joint.Count, joint.Size), (plate.Count, plate.Size));
        Assert.InRange(plate.Length - joint.Length, 27, 27 + 3.2 + 5);
    }

    [Fact]
    public void A_list_row_is_found_by_its_words_and_class() =>
        Assert.Equal(1, Given.Packet(Drawing("to: in-line item, what: strainer, face to face: 470")).Fabrication.Route.Components.Single(c => c.Word == "in-line item").Item?.Item);

    [Theory]
    [InlineData("what: strainer", "No standard gives the length")]
    [InlineData("face to face: 470", "does not say what it is")]
    public void What_it_is_and_how_long_must_be_said(string keys, string says)
    {
        var finding = Assert.Single(DrawingReader.Read(Drawing("to: in-line item, " + keys), "given.yaml").Errors, f => f.Rule == "missing-key");
        Assert.Contains(says, finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Its_unknown_mass_is_told() => Desk.Finds("mass-unknown", "runs[0].legs[0]", Drawing("to: in-line item, what: strainer, face to face: 470"), "strainer");
}
