using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>Mistakes that a foreman sees at a glance, each beside a near miss that is right. What is right is common practice unless a source stands there.</summary>
public class ForemansDoubtsTest
{
    private static string With(string more, string line = "size: 6, schedule: 40, class: 150") => Desk.Drawing("{go: up, by: 1000, to: flange}", more: more, line: line);

    [Theory]
    [InlineData("line-data-contradicts", "service: {line number: '8\"-CHW-201'}", "service: {line number: '6\"-CHW-201'}")]
    [InlineData("line-data-contradicts", "service: {line number: '8\"-CHW-201'}", "service: {line number: 'A8-CHW-201'}")]
    [InlineData("line-data-contradicts", "service: {test package: TP-4}\ntest: {pack: TP-5}", "service: {test package: TP-4}\ntest: {pack: tp-4}")]
    [InlineData("line-data-contradicts", "service: {code: B13.3}", "service: {code: ASME B31.3}")]
    [InlineData("test-figure-odd", "test: {stress ratio: 0.6}", "test: {stress ratio: 1}")] // ASME B31.3 345.4.2: no less than 1
    [InlineData("test-figure-odd", "test: {stress ratio: 12}", "test: {stress ratio: 2.5}")]
    [InlineData("test-figure-odd", "test: {gauge: {up: 36000}}", "test: {gauge: {up: 1500}}")]
    [InlineData("test-figure-odd", "test: {at: {up: 8500}}", "test: {at: {up: 1000}}")]
    [InlineData("shop-figure-unusual", "shop: {gap variation: 8}", "shop: {gap variation: 0.8}")]
    [InlineData("shop-figure-unusual", "shop: {linear tolerance: 30}", "shop: {linear tolerance: 3}")] // PFI ES-3
    [InlineData("shop-figure-unusual", "shop: {angular tolerance: 2.2}", "shop: {angular tolerance: 0.22}")] // PFI ES-3
    [InlineData("shop-figure-unusual", "shop: {stand height: 90}", "shop: {stand height: 900}")]
    [InlineData("shop-figure-unusual", "shop: {on end limit: 12000}", "shop: {on end limit: 1200}")]
    [InlineData("shop-figure-unusual", "shop: {vice limit: 250}", "shop: {vice limit: 25}")]
    [InlineData("shop-figure-unusual", "shop: {bolting: {stress: 345 MPa, area: root, nut factor: 1.6, source: BP-2}}", "shop: {bolting: {stress: 345 MPa, area: root, nut factor: 0.16, source: BP-2}}")] // ASME PCC-1: 0.12 to 0.2
    [InlineData("shop-figure-unusual", "shop: {bolting: {stress: 345 psi, area: root, nut factor: 0.16, source: BP-2}}", "shop: {bolting: {stress: 50 ksi, area: root, nut factor: 0.16, source: BP-2}}")]
    public void A_figure_of_the_line_the_test_or_the_shop_that_has_slipped_is_doubted(string rule, string wrong, string right)
    {
        Assert.Equal(Severity.Warn, Desk.Finds(rule, "", With(wrong)).Severity);
        Desk.IsSilent(rule, With(right));
    }

    [Theory]
    [InlineData("service: {examination: 100 % MT}", "A312-TP316L", true)]
    [InlineData("service: {examination: 100 % PT}", "A312-TP316L", false)]
    [InlineData("service: {examination: 100 % MT}", "A106-B", false)]
    [InlineData("service: {heat treatment: after welding}", "A312-TP316L", true)]
    [InlineData("service: {heat treatment: none}", "A312-TP316L", false)]
    [InlineData("service: {heat treatment: after welding}", "A106-B", false)]
    public void What_is_not_done_to_austenitic_steel_is_doubted(string more, string material, bool isFound)
    {
        var drawing = With(more, $"size: 6, schedule: 40, class: 150, material: {material}");
        if (isFound)
            Desk.Finds("stainless-treatment", "service", drawing, material);
        else
            Desk.IsSilent("stainless-treatment", drawing);
    }

    [Theory]
    [InlineData("kind: shoe, side: up", true)]
    [InlineData("kind: hanger, side: down", true)]
    [InlineData("kind: shoe", false)]
    [InlineData("kind: hanger, side: up", false)]
    [InlineData("kind: guide, side: up", false)]
    public void A_shoe_above_its_pipe_or_a_hanger_below_it_is_doubted(string support, bool isFound)
    {
        var drawing = Desk.Drawing($"{{go: east, by: 1000, to: support, {support}}}\n{{go: east, by: 1000, to: flange}}");
        if (isFound)
            Desk.Finds("support-on-wrong-side", "runs[0].legs[0]", drawing);
        else
            Desk.IsSilent("support-on-wrong-side", drawing);
    }

    [Theory]
    [InlineData(5.2, true)]
    [InlineData(520, true)]
    [InlineData(52, false)]
    public void A_length_that_no_union_has_is_doubted(double length, bool isFound)
    {
        var drawing = Desk.Drawing(FormattableString.Invariant($"{{go: east, by: 1000, to: union, face to face: {length}}}\n{{go: east, by: 1000, to: open, ends: plain}}"), line: "size: 3/4, schedule: 80, ends: socket", start: "to: open, ends: plain");
        if (isFound)
            Desk.Finds("union-length-unusual", "runs[0].legs[0]", drawing);
        else
            Desk.IsSilent("union-length-unusual", drawing);
    }

    [Theory]
    [InlineData(100, true)]
    [InlineData(75, false)]
    public void A_nipple_listed_with_another_length_is_a_stop(int listed, bool isFound)
    {
        var drawing = Desk.Drawing("{go: east, by: 500, to: elbow}\n{go: north, by: makeup, nipple: 75, to: elbow}\n{go: up, by: 500, to: open, ends: threaded}", line: "size: 3/4, schedule: 80, ends: threaded", start: "to: open, ends: threaded",
            more: $"materials: [{{item: 1, what: nipple, size: 3/4, schedule: 80, length: {listed}, quantity: 1}}]");
        if (isFound)
            Assert.Equal(Severity.Stop, Desk.Finds("item-length-mismatch", "materials[0]", drawing, "75").Severity);
        else
            Desk.IsSilent("item-length-mismatch", drawing);
    }
}
