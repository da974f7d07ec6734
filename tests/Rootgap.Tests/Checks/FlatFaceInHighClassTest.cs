namespace Rootgap.Tests.Checks;

public class FlatFaceInHighClassTest
{
    private const string Rule = "flat-face-in-high-class";

    [Fact]
    public void A_flat_face_in_class_300_is_noted() => Desk.Finds(Rule, "runs[0].start", Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 300, facing: FF, flange: WN"), "300");

    [Fact]
    public void A_flat_face_in_class_150_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: flange}
        """, line: "size: 6, schedule: 40, class: 150, facing: FF, flange: WN"));
}
