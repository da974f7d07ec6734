namespace Rootgap.Tests.Checks;

public class OutletFullSizeTest
{
    private const string Rule = "outlet-full-size";

    [Fact]
    public void An_outlet_as_large_as_its_header_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: outlet, size: 6, branch: up}
        {go: north, by: 1500, to: flange}
        """), "NPS 6");

    [Fact]
    public void An_outlet_one_size_down_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: outlet, size: 5, branch: up}
        {go: north, by: 1500, to: flange}
        """));
}
