using Rootgap.Records;
using static Rootgap.Tests.Records.FactGens;

namespace Rootgap.Tests.Records;

public class SpoolStatesTest
{
    // Elbow between two pipes, all shop-welded: one spool, two pieces, two joints.
    internal static readonly Rootgap.Packets.Packet Line = Given.Packet("""
        drawing: D-1
        revision: "2"
        units: mm
        line: {size: 4, schedule: 40}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: east, by: 1000, to: elbow}
              - {go: north, by: 1000, to: open}
        """);

    private static readonly DrawingRef Now = new("D-1", "2");

    private static SpoolStanding Standing(params Fact[] facts) => Assert.Single(SpoolStates.Of(Line.Fabrication, new Following().Of(JobRecord.Of(facts), "d.yaml", Line.Fabrication, [])));

    private static PieceCut Cut(int id, string piece, DrawingRef? of = null) => new(Id(id), "Jo", Noon, of ?? Now, piece);

    private static JointStep Stepped(int id, string joint, Step step) => new(Id(id), "Jo", Noon, Now, joint, step);

    [Fact]
    public void A_spool_comes_forward_as_its_pieces_are_cut_and_its_joints_made()
    {
        Assert.Equal(SpoolState.NotBegun, Standing().State);
        Assert.Equal(SpoolState.Cutting, Standing(Cut(1, "1-A")).State);
        Fact[] cut = [Cut(1, "1-A"), Cut(2, "1-B")];
        Assert.Equal(SpoolState.Fitting, Standing(cut).State);
        Assert.Equal(SpoolState.Fitting, Standing([.. cut, Stepped(3, "W1", Step.Checked)]).State);
        Assert.Equal(SpoolState.Tacked, Standing([.. cut, Stepped(3, "W1", Step.Tacked), Stepped(4, "W2", Step.Welded)]).State);
        Assert.Equal(SpoolState.Welded, Standing([.. cut, Stepped(3, "W1", Step.Checked), Stepped(4, "W2", Step.Welded)]).State);
        Assert.Equal(SpoolState.Checked, Standing([.. cut, Stepped(3, "W1", Step.Checked), Stepped(4, "W2", Step.Checked)]).State);
    }

    [Fact]
    public void A_withdrawn_step_takes_the_spool_back() =>
        Assert.Equal(SpoolState.Fitting, Standing(Stepped(1, "W1", Step.Welded), Stepped(2, "W2", Step.Welded), new Withdrawn(Id(3), "Jo", Noon, Id(2), "cracked")).State);

    [Fact]
    public void What_was_done_on_another_revision_is_shown_and_does_not_count()
    {
        var standing = Standing(Cut(1, "1-A", new("D-1", "1")), Cut(2, "1-B"));
        Assert.Equal((SpoolState.Cutting, 1), (standing.State, standing.PiecesCut));
        Assert.Empty(standing.Marked);
        Assert.Equal(("1", true), (Other().Revision, Other().IsWaiting));

        static Marked Other() => Assert.Single(new Following().Of(JobRecord.Of([Cut(1, "1-A", new("D-1", "1")), Cut(2, "1-B")]), "d.yaml", Line.Fabrication, []).Marked);
    }
}
