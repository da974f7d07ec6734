namespace Rootgap.Tests.Checks;

public class DissimilarMetalsTest
{
    private const string Rule = "dissimilar-metals";

    // ASME BPVC Section IX: A105 and A106 are P-No. 1, A182-F316L is P-No. 8 (from memory).
    [Fact]
    public void A_stainless_flange_on_carbon_pipe_is_found() => Desk.Finds(Rule, "materials[1]", Lists.With("material: A105", "material: A182-F316L"), "P-No. 1", "P-No. 8");

    [Fact]
    public void A_loose_flange_behind_a_stainless_stub_end_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(
        Lists.Leg, "materials: [{item: 1, what: flange LJ, size: 6, class: 150, material: A105, quantity: 2}]", "size: 6, schedule: 10S, class: 150, material: A312-TP316L, flange: LJ"));

    [Fact]
    public void A105_flanges_on_A106_pipe_are_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight, Lists.Line));

    [Fact]
    public void A_low_temperature_flange_of_the_same_P_number_is_silent() => Desk.IsSilent(Rule, Lists.With("material: A105", "material: A350-LF2"));
}
