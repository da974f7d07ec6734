namespace Rootgap.Tests.Checks.Spools;

/// <summary>The lifting points that a drawing gives are on its sheet as they are meant, or it is said that they are not.</summary>
public class LiftRulesTest
{
    private static string Straight(string lift) => Desk.Drawing("{go: north, by: 4000, to: flange}", $"lift: {lift}");

    [Fact]
    public void A_lifting_point_on_a_piece_that_no_spool_has_is_told_and_cannot_be_accepted()
    {
        const string Rule = "lift-piece-unknown";
        Assert.Contains("1-A", Desk.Finds(Rule, "lift[1]", Straight("[{piece: 1-A, at: 500}, {piece: 3-B, at: 400}]"), "3-B").Remedy, StringComparison.Ordinal);
        Desk.IsSilent(Rule, Straight("[{piece: 1-a, at: 500}, {piece: 1-A, at: 3000}]"));
    }

    [Fact]
    public void A_lifting_point_past_the_end_of_its_piece_or_on_a_weld_is_told()
    {
        const string Rule = "lift-place";
        Desk.Finds(Rule, "lift[0]", Straight("[{piece: 1-A, at: 5000}, {piece: 1-A, at: 3000}]"), "past its end");
        Desk.Finds(Rule, "lift[0]", Straight("[{piece: 1-A, at: 100}, {piece: 1-A, at: 3000}]"), "100");
        Desk.IsSilent(Rule, Straight("[{piece: 1-A, at: 500}, {piece: 1-A, at: 3000}]"));
    }

    [Fact]
    public void Slings_that_do_not_go_together_are_told()
    {
        const string Rule = "lift-slings";
        Desk.Finds(Rule, "lift[0]", Straight("[{piece: 1-A, at: 500, sling: 2500}, {piece: 1-A, at: 3000}]"), "One of the two");
        Desk.Finds(Rule, "lift[1]", Straight("[{piece: 1-A, at: 500, sling: 1000}, {piece: 1-A, at: 3000, sling: 1200}]"), "do not meet");
        Desk.Finds(Rule, "lift[1]", Straight("[{piece: 1-A, at: 1900}, {piece: 1-A, at: 2000}]"), "apart");
        Desk.Finds(Rule, "lift[0]", Straight("[{piece: 1-A, at: 500, sling: 2500}, {piece: 1-A, at: 2000}, {piece: 1-A, at: 3000}]"), "3 lifting points");
        Desk.IsSilent(Rule, Straight("[{piece: 1-A, at: 500, sling: 2500}, {piece: 1-A, at: 3000, sling: 2500}]"));
        Desk.IsSilent(Rule, Straight("[{piece: 1-A, at: 500}, {piece: 1-A, at: 3000}]"));
    }
}
