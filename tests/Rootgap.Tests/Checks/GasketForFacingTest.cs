namespace Rootgap.Tests.Checks;

public class GasketForFacingTest
{
    private const string Rule = "gasket-for-facing";

    [Fact]
    public void A_ring_joint_gasket_on_raised_faces_is_found() => Desk.Finds(Rule, "materials[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket RTJ octagonal ring, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """), "RF");

    [Fact]
    public void A_spiral_wound_gasket_on_ring_joint_faces_is_found() => Desk.Finds(Rule, "materials[3]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """, line: "size: 6, schedule: 40, class: 150, facing: RTJ"), "RTJ");

    [Fact]
    public void A_spiral_wound_gasket_with_an_inner_ring_on_raised_faces_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """, more: """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound with inner ring, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """));

    [Theory]
    [InlineData("gasket spiral wound", "gasket full face EPDM")]
    [InlineData("gasket full face EPDM", "gasket spiral wound")]
    public void Of_two_gaskets_of_one_size_each_face_takes_its_own(string first, string second)
    {
        // A cast flat-faced pump flange at one end, a raised face at the other (ASME B16.21, common practice).
        var yaml = Desk.Drawing("""
            {go: up, by: 1450, to: elbow}
            {go: north, by: 3200, to: flange, facing: FF}
            """, more: $$"""
            materials:
              - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
              - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
              - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 1}
              - {item: 4, what: flange WN FF, size: 6, class: 150, bore: 40, quantity: 1}
              - {item: 5, what: {{first}}, size: 6, class: 150, quantity: 1}
              - {item: 6, what: {{second}}, size: 6, class: 150, quantity: 1}
              - {item: 7, what: stud bolt, size: 3/4, length: 100, quantity: 16}
            """);
        Desk.IsSilent(Rule, yaml);
        Desk.IsSilent("quantity-short", yaml);
        Desk.IsSilent("item-not-used", yaml);
    }

    // ASME B16.20: rings for grooves are of soft iron or steel; a ring of sheet lies inside the bolts of raised faces (ASME B16.21).
    [Theory]
    [InlineData("ring gasket", "soft iron", "stop")]
    [InlineData("gasket ring 316", "", "stop")]
    [InlineData("ring gasket flat graphite", "", "")]
    [InlineData("ring gasket", "", "")]
    public void A_plain_ring_goes_by_its_material(string what, string material, string told) => Desk.Tells(Rule, told, Desk.Drawing("{go: north, by: 3200, to: flange}",
        $"materials: [{{item: 1, what: {what}, size: 6, class: 150, quantity: 2{(material.Length > 0 ? ", material: " + material : "")}}}]"));
}
