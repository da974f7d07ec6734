using Rootgap.Comparing;

namespace Rootgap.Tests.Comparing;

/// <summary>Supports from revision to revision; what each change is, is known from how it was made here.</summary>
public class SupportChangesTest
{
    private const string Was = """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: north, by: 1500, to: support, kind: shoe, tag: PS-1, height: 100, mass: 5}
              - {go: north, by: 1500, to: support, kind: guide, tag: PS-2}
              - {go: north, by: 1000, to: elbow}
              - {go: up, by: 2000, to: flange}
        """;

    // The same steel, written from its other end.
    private const string Turned = """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: back
            start: {to: flange, at: {east: 0, north: 4000, up: 2000}}
            legs:
              - {go: down, by: 2000, to: elbow}
              - {go: south, by: 1000, to: support, kind: guide, tag: G}
              - {go: south, by: 1500, to: support, kind: shoe, tag: S, height: 100, mass: 5}
              - {go: south, by: 1500, to: flange}
        """;

    private static Comparison Of(string now) => Comparison.Of(Given.Packet(Was).Fabrication, Given.Packet(now).Fabrication);

    [Fact]
    public void The_same_supports_written_from_the_other_end_are_the_same() => Assert.True(Of(Turned).IsSame);

    [Fact]
    public void A_welded_one_that_moves_touches_its_spool_and_cuts_no_piece_differently()
    {
        var c = Of(Was.Replace("by: 1500, to: support, kind: shoe", "by: 1700, to: support, kind: shoe", StringComparison.Ordinal).Replace("by: 1500, to: support, kind: guide", "by: 1300, to: support, kind: guide", StringComparison.Ordinal));
        Assert.All(c.Pieces, p => Assert.True(p.IsSame));
        Assert.Contains("200", Assert.Single(c.Supports).Says, StringComparison.Ordinal);
        Assert.True(Assert.Single(c.Spools).IsTouched);
        Assert.False(c.OfJoint("A1")!.IsSame);
        Assert.True(c.OfJoint("W1")!.IsSame);
    }

    [Fact]
    public void A_clamped_one_that_is_added_is_told_and_touches_no_spool()
    {
        var c = Of(Was.Replace("{go: north, by: 1000, to: elbow}", "{go: north, by: 400, to: support, kind: hanger}\n      - {go: north, by: 600, to: elbow}", StringComparison.Ordinal));
        Assert.Equal("added", Assert.Single(c.Supports).Kind);
        Assert.False(Assert.Single(c.Spools).IsTouched);
        Assert.True(c.OfJoint("A1")!.IsSame);
    }

    [Fact]
    public void Its_weld_is_followed_and_gone_where_it_is_clamped_now()
    {
        var c = Of(Was.Replace("kind: shoe, tag", "kind: shoe, attach: clamped, tag", StringComparison.Ordinal));
        Assert.Null(c.OfJoint("A1")!.Now);
        Assert.Contains("now clamped", Assert.Single(c.Supports).Says, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pipe_that_grows_beyond_it_leaves_it_where_it_is() =>
        Assert.Empty(Of(Was.Replace("{go: north, by: 1000, to: elbow}", "{go: north, by: 1200, to: elbow}", StringComparison.Ordinal)).Supports);
}
