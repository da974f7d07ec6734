namespace Rootgap.Tests.Checks;

public class FlangeBoreMissingTest
{
    private const string Rule = "flange-bore-missing";

    private static string Drawing(string bore) => Desk.Drawing("""
        {go: east, by: 1500, to: reducer, size: 4}
        {go: east, by: 900, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 1}
          - {item: 2, what: flange WN RF, size: 4, class: 150{{bore}}, quantity: 1}
        """);

    // ASME B16.5 7.4: the bore is to be named by the purchaser.
    [Fact]
    public void A_flange_without_its_bore_among_others_is_found() => Desk.Finds(Rule, "materials[1]", Drawing(""), "no bore");

    [Fact]
    public void Bores_on_all_are_silent() => Desk.IsSilent(Rule, Drawing(", bore: 40"));
}
