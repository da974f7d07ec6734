namespace Rootgap.Tests.Checks;

public class MaterialFormTest
{
    private const string Rule = "material-of-another-form";

    private static string Listed(string what, string material) => Desk.Drawing("{go: north, by: 1500, to: flange}", $"materials: [{{item: 1, what: {what}, size: 6, material: {material}, quantity: 2}}]");

    // The titles of the ASTM specifications: A106 and A312 are for pipe, A234 for fittings, A105 for forgings, A36 for shapes and plate, A193 for bolting.
    [Theory]
    [InlineData("flange WN RF", "A312-TP316L", "warn")]
    [InlineData("flange WN RF", "SA106-B", "warn")]
    [InlineData("flange WN RF", "A193-B7", "warn")]
    [InlineData("pipe", "A234-WPB", "warn")]
    [InlineData("elbow 90 LR", "A106-B", "warn")]
    [InlineData("stud bolt", "A106-B", "stop")]
    [InlineData("flange WN RF", "A105", "")]
    [InlineData("flange blind RF", "A516-70", "")]
    [InlineData("flange WN RF", "ASTM A182 Gr.F316L", "")]
    [InlineData("pipe", "A53-B", "")]
    [InlineData("elbow 90 LR", "A403-WP316L", "")]
    [InlineData("elbow 90 LR", "A105/A234-WPB", "")]
    [InlineData("stud bolt", "A193-B7", "")]
    [InlineData("pipe", "X52", "")]
    public void A_specification_is_for_one_product(string what, string material, string told) => Desk.Tells(Rule, told, Listed(what, material));
}
