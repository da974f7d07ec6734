using Rootgap.Drawings;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Drawings;

/// <summary>What the file lets an office write in more than one way.</summary>
public class OtherWordsTest
{
    [Theory]
    [InlineData("in-line, what: strainer, length: 400, mass: 40", "in-line item, what: strainer, face to face: 400, mass: 40")]
    [InlineData("joint, between: {spacer: 20}", "in-line item, what: spacer, ends: wafer, face to face: 20")]
    [InlineData("joint, between: {spectacle blind: 13}, holes: on-centre", "in-line item, what: spectacle blind, ends: wafer, face to face: 13, holes: on-centre")]
    [InlineData("joint, between: {orifice plate: 3}, mass: 4", "in-line item, what: orifice plate, ends: wafer, face to face: 3, mass: 4")]
    public void Both_ways_are_the_same_line(string one, string other)
    {
        var (a, b) = (Packet(one), Packet(other));
        Assert.Equal(b.Fabrication.Cuts.Select(c => Math.Round(c.Length, 6)), a.Fabrication.Cuts.Select(c => Math.Round(c.Length, 6)));
        Assert.Equal(b.Fabrication.Bolting.Select(s => (s.Joint.Id, s.Count, s.Length)), a.Fabrication.Bolting.Select(s => (s.Joint.Id, s.Count, s.Length)));
        Assert.Equal(b.Fabrication.Route.Components.Select(c => c.Name), a.Fabrication.Route.Components.Select(c => c.Name));
        Assert.Equal(b.Findings.Select(f => (f.Rule, f.Message)).Order(), a.Findings.Select(f => (f.Rule, f.Message)).Order());
    }

    // The studs of one joint go past the plate and two gaskets: 20 + 3.2 mm longer than those of a plain joint, in steps of 5 (common practice).
    [Fact]
    public void A_spacer_in_a_joint_takes_a_second_gasket_and_longer_studs()
    {
        var (plain, spaced) = (Packet("joint").Fabrication, Packet("joint, between: {spacer: 20}").Fabrication);
        Assert.Equal(plain.Route.Components.OfType<Gasket>().Count() + 1, spaced.Route.Components.OfType<Gasket>().Count());
        var (short1, long1) = (plain.Bolting.Single(s => s.Joint.Leg == 0), spaced.Bolting.Where(s => s.Joint.Leg == 0).MaxBy(s => s.Length)!);
        Assert.InRange(long1.Length - short1.Length, 20, 30);
        Assert.Equal(plain.Cuts.Sum(c => c.Length) - 23.2, spaced.Cuts.Sum(c => c.Length), 6);
    }

    [Theory]
    [InlineData("joint, between: 20", "comes with its thickness")]
    [InlineData("joint, between: spacer", "comes with its thickness")]
    [InlineData("joint, between: [spacer, 20]", "keys and values")]
    [InlineData("joint, between: {spacer: 20, orifice plate: 3}", "One thing lies between")]
    [InlineData("joint, between: {wedge: 20}", "has no key \"wedge\"")]
    [InlineData("valve, kind: gate, between: {spacer: 20}", "does not go with a valve")]
    [InlineData("joint, mass: 4", "is that of what lies between")]
    [InlineData("in-line, what: strainer", "No standard gives the length")]
    public void What_cannot_be_between_is_told(string to, string says) =>
        Assert.Contains(DrawingReader.Read(Text(to), "test.yaml").Errors, e => e.Message.Contains(says, StringComparison.Ordinal));

    // One field of the app's card: what it is and how thick, and then what the maker says it weighs.
    [Theory]
    [InlineData("spacer 20", "spacer: 20")]
    [InlineData("Spectacle blind 1/2 in", "spectacle blind: 1/2 in")]
    [InlineData("{orifice plate: 3}", "orifice plate: 3")]
    public void A_plate_is_typed_in_one_field_and_stands_there_as_it_was_typed(string typed, string written)
    {
        var blank = DrawingText.Of(Text("joint"), "test.yaml");
        Assert.DoesNotContain(Offers.Leg(blank, 0, 0), o => o.Key == "mass");
        Assert.Equal(InLineItemPoint.InJoints, Assert.Single(Offers.Leg(blank, 0, 0), o => o.Key == "between").Words);
        var text = blank.Set(blank.Runs[0].Legs[0].Path, "between", typed);
        Assert.Contains("between: {" + written + "}", text.Text, StringComparison.Ordinal);
        Assert.Empty(text.Read().Errors);
        Assert.Equal(written.Replace(":", "", StringComparison.Ordinal), text.Runs[0].Legs[0]["between"]);
        Assert.Contains(Offers.Leg(text, 0, 0), o => o.Key == "mass");
        Assert.Equal(blank.Text, text.Set(blank.Runs[0].Legs[0].Path, "between", "").Text);
    }

    private static string Text(string to) => Desk.Drawing($"{{go: north, by: 1000, to: {to}}}\n{{go: north, by: 1000, to: flange}}");

    private static Rootgap.Packets.Packet Packet(string to) => Desk.Packet(Text(to));
}
