namespace Rootgap.Tests.Checks;

public class FittingClassUnsaidTest
{
    private static string Line(string says) => Desk.Drawing($$"""
        {go: north, by: 1500, to: outlet, name: G, size: 1, branch: up, ends: threaded, item: 1{{says}}}
        {go: north, by: 1500, to: flange}
        """, "materials: [{item: 1, what: outlet threaded, size: 1, class: 6000, quantity: 1}]");

    // MSS SP-97 lists threaded outlets of class 3000 and of class 6000.
    [Fact]
    public void A_class_that_only_the_list_says_is_a_note()
    {
        Desk.Tells("fitting-class-unsaid", "note", Line(""));
        Desk.IsSilent("class-mismatch", Line(""));
    }

    [Fact]
    public void One_that_the_drawing_says_is_held_against_the_list()
    {
        Desk.IsSilent("fitting-class-unsaid", Line(", fitting class: 3000"));
        Desk.Tells("class-mismatch", "stop", Line(", fitting class: 3000"));
        Desk.IsSilent("class-mismatch", Line(", fitting class: 6000"));
    }

    // ASME B16.11: 6000 is a class of forged fittings; ASME B16.5 has no such class of flanges.
    [Fact]
    public void A_class_that_only_forged_fittings_have_is_theirs_whichever_key_says_it()
    {
        Desk.IsSilent("fitting-class-unsaid", Line(", class: 6000"));
        Desk.IsSilent("class-mismatch", Line(", class: 6000"));
    }
}
