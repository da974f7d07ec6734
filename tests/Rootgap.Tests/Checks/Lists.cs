namespace Rootgap.Tests.Checks;

/// <summary>A straight run between two flanges and its material list, complete: what a test changes is its own matter.</summary>
internal static class Lists
{
    public const string Leg = "{go: up, by: 1000, to: flange}";

    // 1000 - 2 x 89 (ASME B16.5) - 2 x 3.2: one piece of 815.6; eight studs a joint (ASME B16.5, NPS 6 class 150).
    public const string Straight = """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 0.9 m}
          - {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, material: A105, quantity: 2}
          - {item: 3, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 4, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        """;

    public const string Line = "size: 6, schedule: 40, class: 150, material: A106-B";

    /// <summary>The straight run with its list, one piece of text replaced.</summary>
    public static string With(string text, string by)
    {
        Assert.Contains(text, Straight, StringComparison.Ordinal);
        return Desk.Drawing(Leg, Straight.Replace(text, by, StringComparison.Ordinal), Line);
    }
}
