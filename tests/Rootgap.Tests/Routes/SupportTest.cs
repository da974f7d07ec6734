using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.Routes;

/// <summary>A support takes hold of a pipe that goes through: held against the same line with plain dimension points, whose sums other tests hold against the standards, and against places worked out here by hand.</summary>
public class SupportTest
{
    private static string Drawing(string first, string second, string third = "to: point") => $$$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 12 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: guide, size: 6, quantity: 1}
          - {item: 5, what: shoe, quantity: 2}
          - {item: 6, what: shoe welded PS-9, size: 6, quantity: 1}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 500}}
            legs:
              - {go: up, by: 1500, {{{third}}}}
              - {go: up, by: 500, to: elbow}
              - {go: north, by: 1800, {{{first}}}}
              - {go: north, by: 900, {{{second}}}}
              - {go: north, by: 1200, to: flange}
        """;

    private static Rootgap.Fabricating.Fabrication Made(string first, string second = "to: point", string third = "to: point") => Given.Packet(Drawing(first, second, third)).Fabrication;

    [Theory]
    [InlineData("to: support, kind: shoe, height: 100")]
    [InlineData("to: support, kind: trunnion, end: field, mass: 12")]
    [InlineData("to: support, kind: guide")]
    public void The_pipe_goes_through_uncut_and_every_weld_keeps_its_number(string support)
    {
        var (plain, held) = (Made("to: point"), Made(support));
        Assert.Equal(plain.Cuts.Select(c => (c.Piece, Math.Round(c.Length, 9))), held.Cuts.Select(c => (c.Piece, Math.Round(c.Length, 9))));
        Assert.Equal(plain.Route.Joints.Select(j => (j.Id, j.At)), held.Route.Joints.Select(j => (j.Id, j.At)));
        Assert.Equal(plain.Route.Components.Select(c => c.Id), held.Route.Components.Select(c => c.Id));
        Assert.Equal(plain.Spools.SelectMany(s => s.Lengths.Select(l => (l.AsFitted, l.Low, l.High))), held.Spools.SelectMany(s => s.Lengths.Select(l => (l.AsFitted, l.Low, l.High))));
    }

    // By hand: the elbow's middle stands at 500 + 1500 + 500 = 2500; NPS 6 is 168.3 mm outside in the millimetre column of ASME B36.10M.
    [Fact]
    public void A_shoe_stands_under_its_pipe_and_its_steel_so_far_below()
    {
        var shoe = Assert.Single(Made("to: support, kind: shoe, tag: PS-7, height: 100, length: 250, mass: 6.5").Route.Supports);
        Assert.Equal(new(0, 1800, 2500), shoe.At);
        Assert.Equal(new(0, 1800, 2500 - (168.3 / 2)), shoe.Contact);
        Assert.Equal(2500 - (168.3 / 2), shoe.Underside, 9);
        Assert.Equal(2500 - (168.3 / 2) - 100, shoe.Steel!.Value, 9);
        Assert.Equal(("PS1", "PS-7", "A1"), (shoe.Id, shoe.Tag, shoe.Weld!.Id));
    }

    [Fact]
    public void A_hanger_holds_from_above()
    {
        var hanger = Assert.Single(Made("to: support, kind: hanger, height: 900").Route.Supports);
        Assert.Equal(2500 + (168.3 / 2) + 900, hanger.Steel!.Value, 9);
        Assert.Null(hanger.Weld);
    }

    // What is welded on in the shop leaves with its spool; what is clamped or welded on at site does not.
    [Theory]
    [InlineData("to: support, kind: shoe, mass: 6.5", 6.5)]
    [InlineData("to: support, kind: shoe, mass: 6.5, end: field", 0)]
    [InlineData("to: support, kind: shoe, mass: 6.5, attach: clamped", 0)]
    [InlineData("to: support, kind: guide, attach: welded, mass: 3", 3)]
    public void Its_mass_goes_with_the_spool_that_it_is_welded_to(string support, double more)
    {
        var (plain, held) = (Made("to: point").Spools[0], Made(support).Spools[0]);
        Assert.Equal(plain.Mass + more, held.Mass, 9);
        Assert.Equal(plain.CentreOfMass.Y + ((1800 - plain.CentreOfMass.Y) * more / (plain.Mass + more)), held.CentreOfMass.Y, 6);
    }

    [Fact]
    public void The_list_is_held_against_supports_by_mark_and_kind_and_a_row_without_size_will_do()
    {
        var made = Made("to: support, kind: guide", "to: support, kind: shoe, tag: PS-9", "to: support, kind: shoe, side: east");
        Assert.Equal([5, 4, 6], made.Route.Supports.Select(s => s.Item!.Item));
        var shoes = made.Materials.Single(m => m.Item?.Item == 5);
        Assert.Equal((2, 1), (shoes.Listed, shoes.Needed));
    }

    [Fact]
    public void Other_programs_read_supports_and_their_welds()
    {
        using var json = JsonDocument.Parse(Given.Json(Given.Packet(Drawing("to: support, kind: shoe, tag: PS-7, height: 100", "to: support, kind: guide"))));
        var supports = json.RootElement.GetProperty("supports");
        Assert.Equal(2, supports.GetArrayLength());
        Assert.Equal(("PS1", "shoe", "welded", "A1"), (Text(supports[0], "support"), Text(supports[0], "kind"), Text(supports[0], "attach"), Text(supports[0], "weld")));
        Assert.Equal("clamped", Text(supports[1], "attach"));
        var weld = json.RootElement.GetProperty("attachments").EnumerateArray().Single(j => Text(j, "joint") == "A1");
        Assert.Equal(("attachment", "shop"), (Text(weld, "kind"), Text(weld, "place")));
        Assert.False(weld.TryGetProperty("gap", out _));
        Assert.Contains("A1", json.RootElement.GetProperty("spools")[0].GetProperty("attachments").EnumerateArray().Select(j => j.GetString()));

        static string Text(JsonElement e, string name) => e.GetProperty(name).GetString()!;
    }

    [Fact]
    public void The_model_shows_it() =>
        Assert.True(Model.Glb(Made("to: support, kind: shoe, height: 100")).Length > Model.Glb(Made("to: point")).Length + 500);

    [Theory]
    [InlineData("to: support", "has no kind")]
    [InlineData("to: support, kind: lug, attach: clamped", "welded to its pipe")]
    [InlineData("to: support, kind: clamp, attach: welded", "nothing is welded")]
    [InlineData("to: support, kind: shoe, end: final-fit", "closes no line")]
    [InlineData("to: support, kind: shoo", "is no word for \"kind\"")]
    public void What_cannot_be_is_told_where_it_stands(string keys, string says)
    {
        var error = Assert.Single(DrawingReader.Read(Drawing(keys, "to: point"), "given.yaml").Errors);
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
        Assert.Equal(17, error.Where.Line);
    }

    [Fact]
    public void A_run_neither_ends_nor_is_made_up_at_a_support()
    {
        Assert.Contains(DrawingReader.Read(Drawing("to: support, kind: shoe", "to: support, kind: shoe").Replace("by: 1200, to: flange", "by: 1200, to: support, kind: shoe", StringComparison.Ordinal), "t.yaml").Errors, e => e.Message.Contains("cannot end", StringComparison.Ordinal));
        Assert.Contains(DrawingReader.Read(Drawing("to: support, kind: shoe", "to: point").Replace("by: 1800", "by: makeup", StringComparison.Ordinal), "t.yaml").Errors, e => e.Message.Contains("made up", StringComparison.Ordinal));
    }

    [Fact]
    public void A_mark_at_a_support_that_is_only_clamped_is_no_weld() =>
        Assert.Contains(Given.Packet(Drawing("to: support, kind: guide, end: field", "to: point")).Findings, f => f.Rule == "mark-without-weld");
}
