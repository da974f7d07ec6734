using Rootgap.Drawings;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>An end flange that is blinded.</summary>
public class BlindFlangeTest
{
    private static string Drawing(string end, string more = "") => Desk.Drawing($"{{go: north, by: 1000, to: flange, {end}}}", more, start: "to: flange, blinded: yes");

    // ASME B16.5 NPS 6 class 150: outside 280 mm, blind 25.9 thick over its raised face, eight holes of 22.4 mm; published masses of blinds run near 12 kg.
    [Fact]
    public void A_blind_closes_the_flange_with_its_gasket_and_studs()
    {
        var f = Desk.Packet(Drawing("blinded: yes")).Fabrication;
        var blinds = f.Route.Components.OfType<BlindFlange>().ToList();
        Assert.Equal(2, blinds.Count);
        Assert.Equal([-3.2, 1003.2], blinds.Select(b => b.Contact.At.Y).Order(), (a, b) => Math.Abs(a - b) < 1e-6);
        Assert.All(blinds, b => Assert.InRange(b.Mass!.Kg, 11.4, 12.6));
        Assert.All(f.Route.Joints.Where(j => j.Kind == JointKind.Bolted), j => Assert.Equal(2, j.Between.Count));
        Assert.Equal([8, 8], f.Bolting.Select(b => b.Count));
        Assert.Single(f.Spools);
        Assert.DoesNotContain(f.Spools[0].Components, c => c is BlindFlange);
    }

    [Fact]
    public void Nothing_beyond_it_is_asked_for()
    {
        Desk.Finds("terminal-not-located", "runs[0].legs[0]", Desk.Drawing("{go: north, by: 1000, to: flange}"));
        Desk.IsSilent("terminal-not-located", Drawing("blinded: yes"));
        Desk.IsSilent("no-final-fit", Drawing("blinded: yes"));
    }

    [Fact]
    public void The_list_s_blind_is_the_blind_and_its_weld_neck_the_weld_neck()
    {
        var packet = Desk.Packet(Drawing("blinded: yes", """
            materials:
              - {item: 1, what: flange RF, size: 6, class: 150, bore: 40, quantity: 2}
              - {item: 2, what: flange blind RF, size: 6, class: 150, quantity: 2}
            """));
        Assert.Equal([2, 2], packet.Fabrication.Materials.Where(m => m.Item is not null).Select(m => m.Needed));
        Assert.DoesNotContain(packet.Findings, f => f.Rule is "item-is-another-part" or "item-not-used");
    }

    [Fact]
    public void A_blind_whose_bolting_is_by_others_is_an_error() =>
        Assert.Contains(DrawingReader.Read(Drawing("blinded: yes, bolting: by others"), "given.yaml").Errors, e => e.Rule == "key-does-not-fit");
}
