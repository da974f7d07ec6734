using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Tests.Routes;

/// <summary>What a part says of itself, held against integration over its metal written apart from the engine, and against published figures.</summary>
public class PartsTest
{
    private const string Elbow = """
        drawing: P-1
        line: {size: 10, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 1000, to: elbow}
              - {go: east, by: 1000, to: open}
        """;

    /// <summary>Mean of the places of all metal of a tube bent by 90 degrees, summed over small elements (Pappus's volumes follow from it).</summary>
    [Fact]
    public void An_elbows_centre_is_that_of_the_bent_tube()
    {
        var elbow = Assert.IsType<Elbow>(Given.Packet(Elbow).Fabrication.Route.Components[0]);
        // ASME B36.10M NPS 10 schedule 40: 273.0 outside, wall 9.27; ASME B16.9: A = 381.
        var (r, ro, ri) = (381.0, 273.0 / 2, (273.0 / 2) - 9.27);
        double weight = 0, out_ = 0;
        const int N = 200;
        for (var i = 0; i < N; i++)
        {
            var turn = (i + 0.5) / N * Math.PI / 2;
            for (var k = 0; k < N; k++)
            {
                var round = (k + 0.5) / N * 2 * Math.PI;
                for (var j = 0; j < 8; j++)
                {
                    var s = ri + ((j + 0.5) / 8 * (ro - ri));
                    var from = r + (s * Math.Cos(round));
                    weight += s * from;
                    out_ += s * from * from * Math.Cos(turn - (Math.PI / 4));
                }
            }
        }

        // The bend's centre lies 381 back from the corner and 381 beside it.
        var centre = elbow.WorkPoint + (Vector.East * 381) - (Vector.North * 381);
        var expected = centre + (new Vector(-1, 1, 0).Unit * (out_ / weight));
        Assert.Equal(0, elbow.Centre.To(expected), 0.05);
        // What it was before: the middle of the axis, 20 mm off at this size.
        Assert.True(elbow.Centre.To(centre + (new Vector(-1, 1, 0).Unit * (381 * Math.Sin(Math.PI / 4) / (Math.PI / 4)))) > 10);
    }

    /// <summary>A class 150 NPS 4 weld-neck flange summed over thin slices of its outline. Dimensions: ASME B16.5 tables 7 and 8.</summary>
    [Fact]
    public void A_flanges_centre_is_that_of_plate_hub_and_face_less_bore_and_holes()
    {
        var flange = Given.Packet("""
            drawing: P-2
            line: {size: 4, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: open}
            """).Fabrication.Route.Components.OfType<Flange>().Single();
        // Outside 230, thickness 23.9 with the 2 mm face of 157.2, length 76.2, hub 135 to 114.3, bore of schedule 40, 8 holes of 19.
        const double Bore = 114.3 - (2 * 6.02);
        double weight = 0, moment = 0;
        var through = StandardTable.Find("flanges", "flange WN", "length through hub", Given.Size("4"), @class: "150")!.Mm!.Value;
        var thickness = StandardTable.Find("flanges", "flange WN", "thickness", Given.Size("4"), @class: "150")!.Mm!.Value;
        const int N = 20000;
        for (var i = 0; i < N; i++)
        {
            var x = (i + 0.5) / N * through;
            var outside = x < 2 ? 157.2 : x < thickness ? 230 : 135 + ((114.3 - 135) * (x - thickness) / (through - thickness));
            var area = Math.PI / 4 * ((outside * outside) - (Bore * Bore));
            if (x is > 2 && x < thickness)
                area -= 8 * Math.PI / 4 * 19.1 * 19.1;
            weight += area;
            moment += area * x;
        }

        var from = (flange.Contact.At - flange.Centre).Dot(flange.Contact.Face);
        Assert.Equal(moment / weight, from, 0.6);
        Assert.True((through / 2) - from > 5, "nearer to the face than mid-length");
    }

    [Fact]
    public void A_tees_centre_lies_between_its_run_and_its_branch()
    {
        var tee = Given.Packet("""
            drawing: P-3
            line: {size: 12, schedule: STD, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: tee, branch: up, name: T}
                  - {go: north, by: 1000, to: open}
            """).Fabrication.Route.Components.OfType<Tee>().Single();
        // Two tubes: the run 2 x 254 long, the branch from the run's outside (323.8 / 2) to 254 (ASME B16.9); the mean of the three ends would be 84.7 up.
        const double Branch = 254 - (323.8 / 2);
        var expected = Branch / (508 + Branch) * (254 - (Branch / 2));
        Assert.Equal(expected, tee.Centre.Z - tee.WorkPoint.Z, 0.01);
        Assert.True(84.7 - expected > 40);
    }

    [Fact]
    public void A_caps_centre_is_that_of_its_skirt_and_head()
    {
        var cap = Given.Packet("""
            drawing: P-4
            line: {size: 8, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: cap}
            """).Fabrication.Route.Components.OfType<Cap>().Single();
        // A 2:1 head as a thin shell, summed over rings; skirt E - D/4 (ASME B16.9: E = 102 at NPS 8; B36.10M: 219.1 x 8.18).
        var a = (219.1 - 8.18) / 2;
        var skirt = 102 - (219.1 / 4);
        double area = 0, moment = 0;
        const int N = 20000;
        for (var i = 0; i < N; i++)
        {
            var angle = (i + 0.5) / N * Math.PI / 2;
            var ring = 2 * Math.PI * a * Math.Cos(angle) * Math.Sqrt((a * a * Math.Sin(angle) * Math.Sin(angle)) + (a * a / 4 * Math.Cos(angle) * Math.Cos(angle))) * (Math.PI / 2 / N);
            area += ring;
            moment += ring * (skirt + (a / 2 * Math.Sin(angle)));
        }

        var tube = Math.PI * (219.1 - 8.18) * skirt;
        var expected = (moment + (tube * skirt / 2)) / (area + tube);
        Assert.Equal(expected, (cap.Rim.At - cap.Centre).Dot(cap.Rim.Face), 0.05);
    }

    // ASME B36.10M: NPS 8 is 219.1 outside. What is welded in line is nowhere wider than the pipe at its ends, and as wide as its widest end.
    [Fact]
    public void The_body_of_what_is_welded_in_line_is_as_wide_as_its_pipe()
    {
        var parts = Given.Packet("""
            drawing: P-4
            line: {size: 8, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: elbow}
                  - {go: up, by: 1000, to: elbow, radius: 5D}
                  - {go: north, by: 3000, to: reducer, size: 6, kind: concentric}
                  - {go: north, by: 1000, to: reducer, size: 8, kind: concentric}
                  - {go: north, by: 1000, to: cap}
            """).Fabrication.Route.Components;
        Assert.Equal(5, parts.Count);
        Assert.All(parts, p => Assert.Equal(219.1 / 2, p.Bodies.SelectMany(b => b.Discs).Max(d => d.Radius), 0.001));
        Assert.All(parts, p => Assert.Equal(219.1 / 2, p.Picture.SelectMany(b => b.Discs).Max(d => d.Radius), 0.001));
    }

    /// <summary>ASME B16.9: a lap is at least as thick as the pipe's wall, and stands between the flanges at both sides: studs two laps longer, rounded up to 5 mm.</summary>
    [Theory]
    [InlineData("4", "40", 6.02)]
    [InlineData("2", "80", 5.54)]
    public void Studs_of_a_lap_joint_are_two_laps_longer(string size, string schedule, double wall)
    {
        Packet Of(string flange) => Given.Packet($$"""
            drawing: P-5
            line: {size: {{size}}, schedule: {{schedule}}, class: 150, material: A106-B, flange: {{flange}}}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: joint}
                  - {go: north, by: 1000, to: open}
            """);
        var (raised, lapped) = (Of("WN").Fabrication.Bolting.Single().Length, Of("LJ").Fabrication.Bolting.Single().Length);
        Assert.Equal(Math.Ceiling((raised + (2 * wall)) / 5) * 5, lapped);
    }

    /// <summary>ASME B16.5 tables 7 and 10: studs of NPS 6 are 100 mm in class 150 and 120 in class 300 for raised faces, 115 and 140 for ring joints, whose rings hold the flanges apart.</summary>
    [Theory]
    [InlineData("150", "RF", 100)]
    [InlineData("150", "RTJ", 115)]
    [InlineData("300", "RF", 120)]
    [InlineData("300", "RTJ", 140)]
    public void Studs_of_a_ring_joint_are_those_of_its_own_column(string @class, string facing, double mm) => Assert.Equal(mm, Given.Packet($$"""
        drawing: P-8
        line: {size: 6, schedule: 40, class: {{@class}}, facing: {{facing}}, material: A106-B}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 1000, to: joint}
              - {go: north, by: 1000, to: open}
        """).Fabrication.Bolting.Single().Length);

    /// <summary>ASME B16.5 table 15 and annex C: 170 for class 600 NPS 6 counts two raised faces of 7; at a lap joint two laps of the wall (B36.10M schedule 80: 10.97) stand in their place: 177.9, rounded up.</summary>
    [Fact]
    public void Laps_of_a_thick_class_stand_in_the_place_of_both_raised_faces() => Assert.Equal(180, Given.Packet("""
        drawing: P-9
        line: {size: 6, schedule: 80, class: 600, flange: LJ, material: A106-B}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 1000, to: joint}
              - {go: north, by: 1000, to: open}
        """).Fabrication.Bolting.Single().Length);

    [Fact]
    public void A_lap_joint_weighs_its_stub_end_with_it_and_the_loose_flange_stands_behind_the_lap()
    {
        var flange = Given.Packet("""
            drawing: P-6
            line: {size: 4, schedule: 40, class: 150, material: A106-B, flange: LJ}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: open}
            """).Fabrication.Route.Components.OfType<Flange>().Single();
        // ASME B16.9 NPS 4: long stub end 152, lap 157 outside. A tube of 114.3 x 6.02 and the ring of its lap, at 7850 kg/m³.
        var stub = 7.85e-6 * ((Math.PI * (114.3 - 6.02) * 6.02 * 152) + (Math.PI / 4 * ((157.0 * 157) - (114.3 * 114.3)) * 6.02));
        Assert.InRange(flange.Mass!.Kg, stub + 3, stub + 8);
        Assert.Equal(6.02, flange.ExtraGrip, 1e-9);
        Assert.All(flange.Bodies.OfType<Solid.Bar>().Where(b => b.RadiusFrom > 100), b => Assert.True((flange.Contact.At - b.From).Dot(flange.Contact.Face) > 6));
    }

    /// <summary>The same steel written through the run is read the same: 1.2 of the drawing file's format.</summary>
    [Fact]
    public void A_reducing_tee_entered_by_its_branch_knows_its_branch()
    {
        var tee = Given.Packet("""
            drawing: P-7
            line: {size: 4, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: up, by: 1000, to: tee, enter: branch, size: 6, name: T}
                  - {go: east, by: 1000, to: open}
            """).Fabrication.Route.Components.OfType<Tee>().Single();
        Assert.Equal(114.3, tee.Branch.Outside, 1e-9);
        Assert.Equal(168.3, tee.RunIn.Outside, 1e-9);
        Assert.Equal(-Vector.Up, tee.Branch.Face);
        Assert.Equal(0, (tee.RunIn.Face + tee.RunOut.Face).Length, 1e-9);
    }

    [Fact]
    public void Every_dimension_that_can_be_looked_up_has_rows() =>
        Assert.All(Dimension.All, d => Assert.Contains(StandardTable.Rows(d.Table), r => r.Item == d.Item && r.Attribute == d.Attribute));

    [Fact]
    public void The_family_is_closed_and_every_kind_stands_in_a_file_of_its_own()
    {
        var kinds = typeof(Part).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Part)) && !t.IsAbstract).ToList();
        Assert.All(kinds, k => Assert.True(k.IsSealed, k.Name));
        Assert.All(kinds, k => Assert.True(
            Directory.GetFiles(Repository.At("src", "Rootgap", "Routes", "Parts"), "*.cs").Count(f => File.ReadAllText(f).Contains($"sealed record {k.Name} :", StringComparison.Ordinal)) == 1, k.Name));
    }

    [Fact]
    public void A_path_of_a_row_knows_its_run_leg_and_item()
    {
        Assert.Equal((1, 2), (RowPath.Of("runs[1].legs[2].go").Run, RowPath.Of("runs[1].legs[2].go").Leg));
        Assert.True(RowPath.OfStart(0).IsStart);
        Assert.Equal(3, RowPath.Of("materials[3]").Item);
        Assert.Equal(RowPath.Of("service"), RowPath.Of("service.fluid").Group);
        Assert.True(RowPath.OfLeg(0, 1).IsWithin(RowPath.OfRun(0)));
        Assert.False(RowPath.OfLeg(0, 10).IsWithin(RowPath.OfLeg(0, 1)));
        Assert.True(RowPath.OfLeg(0, 10).IsWithin(RowPath.Drawing));
    }
}
