using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Routes;
using Rootgap.Sheets;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>A reinforcing pad: a ring of plate that is laid flat by geometry done here, and weighs what plate weighs (7.85 kg a square metre and millimetre, handbook figure of steel plate).</summary>
public class PadTest
{
    private static string Drawing(string header, string branch, string pad, string begin = "shop") => $$$"""
        drawing: TEST-1
        revision: 1
        line: {size: {{{header}}}, schedule: STD, class: 150, material: A106-B}
        materials:
          - {item: 1, what: pipe, size: {{{header}}}, schedule: STD, quantity: 6 m}
          - {item: 2, what: pipe, size: {{{branch}}}, schedule: STD, quantity: 6 m}
          - {item: 3, what: pad, size: {{{branch}}}, quantity: 1}
        runs:
          - run: main
            start: {to: open, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: north, by: 2000, to: stub-in, name: S1, branch: up, size: {{{branch}}}, {{{pad}}}}
              - {go: north, by: 2000, to: open}
          - run: branch
            start: {from: S1}
            legs: [{go: up, by: 1500, to: open, begin: {{{begin}}}}]
        """;

    private static Pad Of(string header, string branch, string pad, string begin = "shop") => Assert.Single(Given.Packet(Drawing(header, branch, pad, begin)).Fabrication.Route.Pads);

    // On a header so much larger the ring is all but flat: pi ((r + w)² - r²) t.
    [Fact]
    public void A_pad_on_a_wide_header_weighs_as_a_flat_ring()
    {
        var pad = Of("36", "2", "pad width: 40, pad thickness: 10");
        var flat = Math.PI * (Math.Pow((60.3 / 2) + 40, 2) - Math.Pow(60.3 / 2, 2)) * 10 * 7.85e-6;
        Assert.Equal(flat, pad.Mass!.Kg, 0.005 * flat);
    }

    // Rolled on its header again, the hole is the branch's own cylinder and the edge lies the width farther out.
    [Theory]
    [InlineData("12", "4")]
    [InlineData("8", "6")]
    public void Rolled_up_its_hole_is_the_branchs_and_its_ring_is_as_wide_as_drawn_all_round(string header, string branch)
    {
        var pad = Of(header, branch, "pad width: 60, pad thickness: 8");
        var middle = (pad.Outside + 8) / 2;
        var (edge, hole) = (pad.Outline(inner: false), pad.Outline(inner: true));
        Assert.Equal(hole[0], hole[^1]);
        for (var i = 0; i < hole.Count; i++)
        {
            var across = middle * Math.Sin(hole[i].Round / middle);
            Assert.Equal(pad.Hole / 2, Math.Sqrt((across * across) + (hole[i].Along * hole[i].Along)), 0.01);
            Assert.Equal(60, Math.Sqrt(Math.Pow(edge[i].Round - hole[i].Round, 2) + Math.Pow(edge[i].Along - hole[i].Along, 2)), 1e-6);
        }
    }

    [Fact]
    public void It_has_a_weld_an_item_a_mass_in_its_spool_and_a_template()
    {
        var (plain, padded) = (Given.Packet(Drawing("12", "4", "pad: no")).Fabrication, Given.Packet(Drawing("12", "4", "pad width: 60, pad thickness: 8")).Fabrication);
        var pad = Assert.Single(padded.Route.Pads);
        Assert.Equal(plain.Route.Joints.Select(j => j.Id), padded.Route.Joints.Select(j => j.Id));
        Assert.Equal(("A1", JointKind.Attachment), (pad.Weld.Id, pad.Weld.Kind));
        Assert.Equal(plain.Spools.Sum(s => s.Mass) + pad.Mass!.Kg, padded.Spools.Sum(s => s.Mass), 6);
        Assert.Equal(1, padded.Materials.Single(m => m.Item?.Item == 3).Needed);
        var template = Assert.Single(Templates.Of(padded), t => t.Pad is not null);
        Assert.NotEmpty(TemplateSheets.Of(template, new TitleBlock("TEST-1", "1", "x"), Paper.A4));
        using var json = JsonDocument.Parse(Given.Json(Given.Packet(Drawing("12", "4", "pad width: 60, pad thickness: 8"))));
        Assert.Equal(60, json.RootElement.GetProperty("pads")[0].GetProperty("width").GetDouble());
    }

    [Fact]
    public void Set_on_at_site_it_goes_to_no_spool() => Assert.False(Of("12", "4", "pad width: 60", "field").IsOfSpool);

    [Fact]
    public void Without_measures_its_mass_is_not_guessed_and_its_plate_is_the_headers_wall()
    {
        var pad = Of("12", "4", "pad: yes");
        Assert.Null(pad.Mass);
        Assert.Equal(9.53, pad.Thickness, 2);
    }

    [Fact]
    public void Measures_of_no_pad_are_an_error() =>
        Assert.Contains(DrawingReader.Read(Drawing("12", "4", "pad: no, pad width: 60"), "t.yaml").Errors, e => e.Rule == "key-does-not-fit");

    // NPS 4: 114.3 / 2 + 30 reaches 87.2 from its middle; the weld stands 100 from it.
    [Fact]
    public void A_narrow_pad_clears_a_weld_that_a_usual_one_would_cover()
    {
        static string Of(string pad) => Desk.Drawing($$"""
            {go: north, by: 1500, to: weld}
            {go: north, by: 100, to: stub-in, name: S, branch: up, size: 4, {{pad}}}
            {go: north, by: 1500, to: flange}
            """, line: "size: 12, schedule: STD, class: 150");
        Desk.Finds("weld-under-pad", "runs[0].legs[1]", Of("pad: yes"));
        Desk.IsSilent("weld-under-pad", Of("pad width: 30"));
    }
}
