using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Tests.Sums;

/// <summary>Quantities, bolting and cautions of a drawing. The sums themselves are held against published figures in <see cref="PublishedSumsTest"/>.</summary>
public class PapersTest
{
    private static Packet Drawn(string more = "", string material = "A106-B", string legs = "{go: north, by: 2000, to: elbow}\n{go: east, by: 2000, to: elbow, end: field}\n{go: up, by: 1500, to: flange}") =>
        Packet.Of(DrawingReader.Read(Checks.Desk.Drawing(legs, more, $"size: 6, schedule: 40, class: 150, material: {material}", "to: flange"), "t.yaml").Drawing!);

    [Fact]
    public void Diameter_inches_are_added_up_by_shop_and_site()
    {
        var q = Quantities.Of(Drawn().Fabrication);
        var welds = q.Welds.Select(w => w.Joint).ToList();
        Assert.Equal(6, welds.Count);
        Assert.Equal((5, 30.0), q.Of(JointKind.Butt, shop: true));
        Assert.Equal((1, 6.0), q.Of(JointKind.Butt, shop: false));
        // By hand: 0.259 kg a weld of NPS 6 schedule 40 (gap 3.2, cap 1.5, root 1), 2.70 h by the published figure.
        Assert.All(q.Welds, w => Assert.Equal((0.259, 2.7), (Math.Round(w.Mass!.Value, 3), Math.Round(w.Hours!.Value, 2))));
        var (filler, _, metal, buy) = Assert.Single(q.ToBuy);
        Assert.Equal(metal / filler.Efficiency, buy, 1e-9);
    }

    [Fact]
    public void A_branch_set_on_takes_the_metal_of_its_saddle_and_a_wall_without_published_hours_says_so()
    {
        var branched = Packet.Of(DrawingReader.Read(Checks.Desk.Drawing("{go: north, by: 1500, to: stub-in, name: S1, branch: up, size: 4}\n{go: north, by: 1500, to: flange}", line: "size: 6, schedule: 40, class: 150, material: A106-B") + "\n  - run: b\n    start: {from: S1}\n    legs:\n      - {go: up, by: 600, to: flange}\n", "t.yaml").Drawing!);
        var weld = Assert.Single(Quantities.Of(branched.Fabrication).Welds, w => w.Joint.Kind == JointKind.Branch);
        // By hand, NPS 4 schedule 40 on NPS 6: wall 6.02, inside 51.13, header 84.15; gap 3.2 x 6.02 = 19.3, bevel (6.02 - 1.6)^2 / 2 = 9.8, cover throat 4.21: 17.8 mm2.
        Assert.Equal((19.3, 9.8, 17.8), (Math.Round(weld.Metal!.Areas[0].Area, 1), Math.Round(weld.Metal.Areas[1].Area, 1), Math.Round(weld.Metal.Areas[2].Area, 1)));
        // The saddle is longer than the circle, and shorter than that of two equal pipes.
        var circle = weld.Metal.Areas.Sum(a => a.Area * 2 * Math.PI * (51.13 + a.Up)) * Pipes.CarbonSteel;
        Assert.InRange(weld.Mass!.Value / circle, 1.02, 7.6404 / (2 * Math.PI));
        // NPS 12 schedule 100 has 21.4 mm: between the published bands.
        var thick = Packet.Of(DrawingReader.Read(Checks.Desk.Drawing("{go: north, by: 1500, to: flange}", line: "size: 12, schedule: 100, class: 150, material: A106-B"), "t.yaml").Drawing!);
        Assert.All(Quantities.Of(thick.Fabrication).Welds, w => Assert.Null(w.Hours));
        var hours = PaperLists.All[0].Columns.ToList().IndexOf("hours from");
        Assert.All(PaperLists.All[0].Rows(thick), r => Assert.Equal("no published figure for this wall", r[hours]));
    }

    [Fact]
    public void The_shops_own_figures_are_taken_for_what_is_bought()
    {
        var q = Quantities.Of(Drawn("shop: {welding: {process: rod, field process: stick, electrode: 350, stub: 50}}").Fabrication);
        Assert.Equal(["rod", "stick"], q.ToBuy.Select(b => b.Filler.Process).Order(StringComparer.Ordinal));
        // 0.65 × (350 − 50) / 350, by hand.
        Assert.Equal(0.557, q.ToBuy.Single(b => b.Filler.Process == "stick").Filler.Efficiency, 0.0005);
    }

    [Fact]
    public void A_torque_stands_only_where_the_shop_gives_its_rule()
    {
        Assert.All(BoltedJoint.Of(Drawn().Fabrication), b => Assert.Null(b.Load));
        var joints = BoltedJoint.Of(Drawn("shop: {bolting: {stress: 50 ksi, area: root, nut factor: 0.17, source: bolting procedure BP-1}}").Fabrication);
        Assert.Equal(2, joints.Count);
        // ASME PCC-1-2013 table 1 as published: 160 ft lb, 217 N m, for 3/4 in. studs.
        Assert.All(joints, b => Assert.Equal(160, Math.Round(Amount.In(Quantity.Torque, b.Load!.TorqueSet(Units.Inches), Units.Inches))));
        Assert.All(joints, b => Assert.Equal([1, 5, 3, 7, 2, 6, 4, 8], b.Order!));
    }

    [Theory]
    [InlineData("shop: {bolting: {stress: 50, area: root, nut factor: 0.17, source: BP-1}}", "is not read as a stress")]
    [InlineData("shop: {bolting: {stress: 50 ksi, nut factor: 0.17, source: BP-1}}", "has no \"area\"")]
    [InlineData("shop: {bolting: {stress: 50 ksi, area: root, nut factor: 0.17}}", "has no \"source\"")]
    [InlineData("shop: {welding: {efficiency: 1.4}}", "More weld metal than was bought")]
    [InlineData("test: {pressure: 15}", "is not read as a pressure")]
    [InlineData("test: {medium: oil}", "\"oil\" is no word for \"medium\"")]
    [InlineData("lift: {piece: 1-A}", "Lifting points are a list")]
    public void A_slip_in_the_rules_of_the_papers_is_told_with_its_place(string more, string says)
    {
        var reading = DrawingReader.Read(Checks.Desk.Drawing("{go: up, by: 1000, to: flange}", more), "t.yaml");
        var error = Assert.Single(reading.Errors);
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
        Assert.Equal(4, error.Where.Line);
        Assert.NotEmpty(error.Remedy);
    }

    [Theory]
    [InlineData("oxygen gas", "cleaned")]
    [InlineData("Chlorine, dry", "poisonous")]
    [InlineData("natural gas", "gas-free")]
    [InlineData("LP steam", "scalds")]
    public void A_dangerous_fluid_is_named_with_the_sites_procedure(string fluid, string says) =>
        Assert.Contains(says, string.Join(' ', Hazards.Of(new() { Fluid = fluid })), StringComparison.OrdinalIgnoreCase);

    [Theory]
    [InlineData("chilled fresh water")]
    [InlineData("deoxygenated water")]
    [InlineData("")]
    public void A_harmless_fluid_gets_no_caution(string fluid) => Assert.Empty(Hazards.Of(new() { Fluid = fluid }));

    [Fact]
    public void Purge_is_spoken_of_at_stainless_welds_alone()
    {
        var stainless = Drawn(material: "A312-TP316L").Fabrication.Route;
        Assert.Contains("dams are counted in and counted out", Hazards.PurgeAt(stainless, stainless.Joints), StringComparison.Ordinal);
        var carbon = Drawn().Fabrication.Route;
        Assert.Null(Hazards.PurgeAt(carbon, carbon.Joints));
    }

    [Fact]
    public void Every_list_of_the_papers_has_as_many_cells_as_columns()
    {
        foreach (var sample in Samples.SampleFile.Clean)
        {
            var packet = Packet.Of(sample.Read().Drawing!);
            foreach (var list in PaperLists.All)
                Assert.All(list.Rows(packet), row => Assert.Equal(list.Columns.Count, row.Length));
        }
    }

    [Fact]
    public void Every_process_and_stud_that_is_offered_has_its_figures()
    {
        Assert.All(Filler.Processes, p => Assert.InRange(Filler.Of(p)!.Efficiency, 0.5, 1));
        Assert.All(Rootgap.Standards.StandardTable.Rows("flanges").Where(r => r.Attribute == "bolt diameter" && r.Inches is > 0).Select(r => NominalSize.OfInches(r.Inches!.Value)).Distinct(), bolt =>
        {
            Assert.NotNull(BoltLoad.AreaOf(bolt, BoltArea.Root));
            Assert.NotNull(BoltLoad.AreaOf(bolt, BoltArea.Stress));
        });
    }

    // A valve has a gasket at each face: half its length and half a gasket from its middle.
    [Fact]
    public void Each_bolted_joint_takes_the_gasket_that_lies_in_it()
    {
        var joints = BoltedJoint.Of(Rootgap.Tests.Checks.Desk.Packet(Rootgap.Tests.Checks.Desk.Drawing("{go: north, by: 1500, to: valve, kind: gate}\n{go: north, by: 1500, to: flange}")).Fabrication!);
        Assert.Equal(4, joints.Count);
        Assert.All(joints.Where(j => j.Gasket is not null), j => Assert.Equal(0, j.Gasket!.Centre.To(j.Joint.At), 0.01));
        Assert.Equal(joints.Count(j => j.Gasket is not null), joints.Select(j => j.Gasket?.Id).OfType<string>().Distinct(StringComparer.Ordinal).Count());
    }
}
