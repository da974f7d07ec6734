using Rootgap.Standards;

namespace Rootgap.Tests.Fabrication;

/// <summary>Masses that makers and suppliers print, to hold what the program reckons against. No standard has them, and the program does not use them.</summary>
internal static class PublishedMasses
{
    public static IReadOnlyList<StandardRow> Fittings { get; } = Rows("butt-weld-mass.csv");

    public static IReadOnlyList<StandardRow> Flanges { get; } = Rows("flange-mass.csv");

    private static List<StandardRow> Rows(string file)
    {
        using var reader = new StreamReader(Repository.At("tests", "Rootgap.Tests", "Fabrication", "Published", file));
        return StandardTable.Read(reader, file);
    }
}
