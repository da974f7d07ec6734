using Rootgap.Cutting;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Tests.Fabrication;

/// <summary>What a spool sheet says of a spool as a whole, reckoned again from the standards' dimensions.</summary>
public class SpoolFiguresTest
{
    // ASME B36.10M NPS 6 schedule 40: 168.3 outside, wall 7.11. ASME B16.9: long-radius 90 degree elbow of 229.
    private const double Outside = 168.3;
    private const double Inside = 168.3 - (2 * 7.11);
    private const double Radius = 229;

    [Fact]
    public void Paint_and_contents_are_those_of_two_pipes_and_an_elbow()
    {
        var spool = Assert.Single(Given.Millimetres("size: 6, schedule: 40", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1500, to: open}").Fabrication.Spools);
        var (pipes, bend) = (1000 - Radius + 1500 - Radius, Radius * Math.PI / 2);
        Assert.Equal(Math.PI * Outside * (pipes + bend), spool.PaintArea, 1);
        Assert.Equal(Math.PI / 4 * Inside * Inside * (pipes + bend), spool.Content, 1);
    }

    // ASME B16.9 NPS 2: 45 degree elbow of 35, drawn with the radius of the 90 degree one, 76: R tan 22.5 is 31.5, and 3.5 are straight at each end. B36.10M: 60.3 x 3.91.
    [Fact]
    public void A_45_degree_elbow_is_straight_at_its_ends_and_its_arc_lies_between()
    {
        var elbow = Given.Millimetres("size: 2, schedule: 40", "open", "{go: north, by: 1000, to: elbow}", "{go: {north: 1000, east: 1000}, to: open}").Fabrication.Route.Components.OfType<Elbow>().Single();
        var tangent = 76 * Math.Tan(Math.PI / 8);
        var arc = elbow.Arc!;
        Assert.Equal(tangent, elbow.WorkPoint.To(arc.Start), 1e-6);
        Assert.Equal(tangent, elbow.WorkPoint.To(arc.On(Math.PI / 4).At), 1e-6);
        Assert.Equal(35 - tangent, elbow.In.At.To(arc.Start), 1e-6);
        Assert.Equal(1000 - 35, elbow.In.At.Y, 1e-6);

        // The metal in small pieces: two straight tubes, and an arc whose outer side weighs more. Along the line that halves the turn all lies toward the bend's centre.
        var (ro, ri, r, half) = (60.3 / 2, (60.3 / 2) - 3.91, 76.0, Math.PI / 8);
        double weight = 0, moment = 0;
        const int N = 200;
        for (var i = 0; i < N; i++)
        {
            var turn = ((i + 0.5) / N * 2 * half) - half;
            for (var k = 0; k < N; k++)
            {
                var round = (k + 0.5) / N * 2 * Math.PI;
                for (var j = 0; j < 6; j++)
                {
                    var s = ri + ((j + 0.5) / 6 * (ro - ri));
                    var from = r + (s * Math.Cos(round));
                    var metal = s * from * (2 * half / N) * (2 * Math.PI / N) * ((ro - ri) / 6);
                    weight += metal;
                    moment += metal * ((r / Math.Cos(half)) - (from * Math.Cos(turn)));
                }
            }
        }

        var straight = Math.PI * ((ro * ro) - (ri * ri)) * (35 - tangent) * 2;
        moment += straight * Math.Sin(half) * (35 + tangent) / 2;
        Assert.Equal(moment / (weight + straight), elbow.WorkPoint.To(elbow.Centre), 0.01);
    }

    // A box of the spool above: from the flange-less end of the first pipe to the outside of the second.
    [Fact]
    public void The_box_holds_the_pipes_to_their_outsides()
    {
        var spool = Assert.Single(Given.Millimetres("size: 6, schedule: 40", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1500, to: open}").Fabrication.Spools);
        Assert.Equal(1500 + (Outside / 2), spool.Box.X, 1e-6);
        Assert.Equal(1000 + (Outside / 2), spool.Box.Y, 1e-6);
        Assert.Equal(Outside, spool.Box.Z, 1e-6);
    }

    // Common practice: a butt weld draws in 1.5 to 3 mm; where the shop states no figure the forecast has both. One weld stands on the first leg, one on the second.
    [Fact]
    public void Without_a_figure_of_the_shop_a_leg_is_forecast_between_the_usual_ones()
    {
        var lengths = Assert.Single(Given.Millimetres("size: 6, schedule: 40", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1500, to: open}").Fabrication.Spools).Lengths;
        Assert.Equal([(1000.0, 997.0, 998.5), (1500.0, 1497.0, 1498.5)], lengths.Select(l => (l.AsFitted, l.Low, l.High)));
    }

    // Extra at both ends of one piece, half at each; the piece is as long as its drawn ends and both.
    [Fact]
    public void A_piece_with_extra_at_both_ends_reaches_beyond_both_by_one_each()
    {
        var cut = Given.Run("mm", "size: 6, schedule: 40", "root gap: 3, final fit extra: 100", "flange", "{go: north, by: 1000, begin: final-fit, to: flange, end: final-fit}").Fabrication.Cuts.Single();
        Assert.Equal((100.0, 100.0), (cut.Reach.Start.To(cut.Pipe.Start), cut.Reach.End.To(cut.Pipe.End)));
        Assert.Equal(cut.Length, cut.Reach.Start.To(cut.Reach.End), 1e-6);
    }

    // What goes to the saw is the same whether the pieces come from the drawing or from its packet.json: saddles, bevels and all.
    [Fact]
    public void Pieces_from_a_packet_are_those_of_the_drawing()
    {
        var packet = Given.Packet("""
            drawing: T
            revision: 0
            line: {size: 6, schedule: 40, material: A106-B}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: stub-in, name: S, branch: up, size: 4}
                  - {go: north, by: 1000, to: flange}
              - {run: riser, size: 4, start: {from: S}, legs: [{go: up, by: 800, to: flange}]}
            """);
        var here = Pieces.Of(packet.Fabrication, "T").Select(p => (p.Id, Math.Round(p.Length, 2), p.FacedEnds)).ToList();
        var there = Pieces.OfPacket($$"""{"drawings": [{{Given.Json(packet)}}]}""", "packet.json").Select(p => (p.Id, Math.Round(p.Length, 2), p.FacedEnds)).ToList();
        Assert.Equal(here, there);
        // Both ends of the header are bevelled for their welds; of the riser one, the other is its saddle.
        Assert.Equal([2, 1], here.Select(p => p.FacedEnds));
    }
}
