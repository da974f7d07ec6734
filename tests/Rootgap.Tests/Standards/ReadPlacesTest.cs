using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Tests.Standards;

/// <summary>Rows whose check names a second publisher are held here against the figures that this publisher prints.</summary>
public class ReadPlacesTest
{
    // Two sheets of ASME B1.20.1-1983 NPT dimensions. The first four: a sheet in millimetres, to 0.01. The last five: a fitting maker's catalogue page,
    // inches: E3, L3, L5, L2 - L1, L4; it begins at NPS 1/2. E3 is the diameter L3 behind the pipe's end, L5 is L2 less two threads.
    [Theory]
    [InlineData("1/8", 27, 9.23, 4.10, 9.49, 6.70)]
    [InlineData("1/4", 18, 12.13, 5.79, 12.49, 10.21)]
    [InlineData("3/8", 18, 15.55, 6.10, 15.93, 10.36)]
    [InlineData("1/2", 14, 19.26, 8.13, 19.77, 13.56, 0.74504, 0.2143, 0.3909, 0.2137, 0.7815)]
    [InlineData("3/4", 14, 24.58, 8.61, 25.12, 13.86, 0.95429, 0.2143, 0.4029, 0.2067, 0.7935)]
    [InlineData("1", 11.5, 30.83, 10.16, 31.46, 17.34, 1.19733, 0.2609, 0.5089, 0.2828, 0.9845)]
    [InlineData("1-1/4", 11.5, 39.55, 10.67, 40.22, 17.95, 1.54083, 0.2609, 0.5329, 0.2868, 1.0085)]
    [InlineData("1-1/2", 11.5, 45.62, 10.67, 46.29, 18.38, 1.77978, 0.2609, 0.5496, 0.3035, 1.0252)]
    [InlineData("2", 11.5, 57.63, 11.07, 58.33, 19.22, 2.25272, 0.2609, 0.5826, 0.3205, 1.0582)]
    [InlineData("2-1/2", 8, 69.08, 17.32, 70.16, 28.89, 2.70391, 0.2500, 0.8875, 0.4555, 1.5712)]
    [InlineData("3", 8, 84.85, 19.46, 86.07, 30.48, 3.32500, 0.2500, 0.9500, 0.4340, 1.6337)]
    [InlineData("3-1/2", 8, 97.47, 20.85, 98.78, 31.75, 3.82188, 0.2500, 1.0000, 0.4290, 1.6837)]
    [InlineData("4", 8, 110.09, 21.44, 111.43, 33.02, 4.31875, 0.2500, 1.0500, 0.4560, 1.7337)]
    [InlineData("5", 8, 136.92, 23.80, 138.41, 35.72, 5.37511, 0.2500, 1.1563, 0.4693, 1.8400)]
    [InlineData("6", 8, 163.73, 24.33, 165.25, 38.42, 6.43047, 0.2500, 1.2625, 0.5545, 1.9462)]
    [InlineData("8", 8, 214.21, 27.00, 215.90, 43.50, 8.41797, 0.2500, 1.4625, 0.6495, 2.1462)]
    [InlineData("10", 8, 267.85, 30.73, 269.77, 48.90, 10.52969, 0.2500, 1.6750, 0.7150, 2.3587)]
    [InlineData("12", 8, 318.33, 34.54, 320.49, 53.98, 12.51719, 0.2500, 1.8750, 0.7650, 2.5587)]
    public void Pipe_threads(string nps, double perInch, double e0, double l1, double e1, double l2, double? e3 = null, double l3 = 0, double l5 = 0, double less = 0, double l4 = 0)
    {
        double At(string attribute) => Row("threads", "thread NPT", nps, attribute).Inches!.Value;
        Assert.Equal(perInch, At("threads per inch"));
        Assert.Equal(e0, At("pitch diameter E0") * 25.4, 0.011);
        Assert.Equal(l1, At("hand-tight engagement L1") * 25.4, 0.011);
        Assert.Equal(e1, At("pitch diameter E1") * 25.4, 0.011);
        Assert.Equal(l2, At("effective length L2") * 25.4, 0.011);
        if (e3 is null)
            return;
        Assert.Equal(e3.Value, At("pitch diameter E0") - (l3 / 16), 2e-5);
        Assert.Equal(l3, At("wrench makeup L3"), 6e-5);
        Assert.Equal(l5, At("effective length L2") - (2 / perInch), 1.1e-4);
        Assert.Equal(less, At("effective length L2") - At("hand-tight engagement L1"), 6e-4);
        Assert.Equal(l4, At("overall thread length L4"), 1.1e-4);
    }

    // ASME B18.2.2 heavy hex nuts, basic width across flats and basic thickness in 64ths of an inch: a fastener supplier's sheet; to 1-5/8 also an engineering reference site.
    [Theory]
    [InlineData("1/2", 56, 31)]
    [InlineData("5/8", 68, 39)]
    [InlineData("3/4", 80, 47)]
    [InlineData("7/8", 92, 55)]
    [InlineData("1", 104, 63)]
    [InlineData("1-1/8", 116, 71)]
    [InlineData("1-1/4", 128, 78)]
    [InlineData("1-3/8", 140, 86)]
    [InlineData("1-1/2", 152, 94)]
    [InlineData("1-5/8", 164, 102)]
    [InlineData("1-3/4", 176, 110)]
    [InlineData("2", 200, 126)]
    [InlineData("2-1/4", 224, 141)]
    [InlineData("2-1/2", 248, 157)]
    [InlineData("2-3/4", 272, 173)]
    [InlineData("3", 296, 189)]
    [InlineData("3-1/4", 320, 204)]
    [InlineData("3-1/2", 344, 220)]
    [InlineData("3-3/4", 368, 236)]
    public void Heavy_hex_nuts(string bolt, int flats, int height)
    {
        Assert.Equal(flats / 64.0, Row("bolts", "bolt", bolt, "across flats").Inches!.Value, 0.0006);
        Assert.Equal(height / 64.0, Row("bolts", "bolt", bolt, "nut height").Inches!.Value, 0.0006);
    }

    // No sheet that was read has the nut of 1-7/8: it lies on the line of its neighbours, which ASME B18.2.2 sets by formula.
    [Fact]
    public void A_nut_that_was_not_read_follows_its_neighbours()
    {
        double At(string bolt, string attribute) => Row("bolts", "bolt", bolt, attribute).Inches!.Value;
        foreach (var attribute in new[] { "across flats", "nut height" })
            Assert.Equal((At("1-3/4", attribute) + At("2", attribute)) / 2, At("1-7/8", attribute), 0.0011);
        Assert.Equal((1.5 * 1.875) + 0.125, At("1-7/8", "across flats"), 0.0006);
        Assert.StartsWith("sum: ", Row("bolts", "bolt", "1-7/8", "across flats").Checked, StringComparison.Ordinal);
    }

    // ASME B1.1: the tensile stress area is 0.7854 (D - 0.9743/n)^2; ASME PCC-1 table H-1 prints it to four figures.
    [Fact]
    public void Stress_areas()
    {
        var rows = StandardTable.Rows("bolts").Where(r => r.Attribute == "stress area").ToList();
        Assert.Equal(20, rows.Count);
        foreach (var row in rows)
        {
            var perInch = StandardTable.Find("bolts", "bolt", "threads per inch", row.Nps)!.Figure;
            var area = 0.7854 * Math.Pow(row.Nps.Inches - (0.9743 / perInch), 2);
            Assert.Equal(1, row.Inches!.Value / area, 0.0006);
            Assert.Equal(area * 645.16, row.Mm!.Value, 0.06);
        }
    }

    // ASME B16.25-2017 sections 3.1 and 3.2 as two public pages print them; land and upper bevel: a fitting supplier's catalogue page (1.60 +- 0.8, 37.5 +- 2.5, 10 +- 1).
    [Theory]
    [InlineData("square up to wall", 3)]
    [InlineData("compound over wall", 22)]
    [InlineData("bevel degrees", 37.5)]
    [InlineData("upper bevel degrees", 10)]
    [InlineData("land", 1.6)]
    public void Butt_ends(string attribute, double figure) => Assert.Equal(figure, StandardTable.Find("ends", "butt end", attribute, default)!.Figure);

    // ASME B16.5-2009 Table 1A as far as its text was read.
    [Theory]
    [InlineData("1.1", "A105 A216-WCB A515-70 A350-LF2 A516-70 A537-1 A350-LF6 A350-LF3")]
    [InlineData("1.2", "A216-WCC A352-LCC A352-LC2 A203-B A352-LC3 A203-E")]
    [InlineData("1.3", "A352-LCB A515-65 A516-65 A203-A A203-D A217-WC1 A352-LC1")]
    [InlineData("1.4", "A515-60 A350-LF1 A516-60")]
    [InlineData("1.5", "A182-F1 A204-A A204-B")]
    [InlineData("1.7", "A182-F2 A217-WC4 A217-WC5")]
    [InlineData("1.9", "A217-WC6 A182-F11 A387-11")]
    [InlineData("1.10", "A182-F22 A217-WC9 A387-22")]
    [InlineData("1.11", "A204-C")]
    [InlineData("1.13", "A182-F5 A217-C5")]
    [InlineData("1.14", "A182-F9")]
    public void Rating_groups(string group, string materials)
    {
        foreach (var material in materials.Split(' '))
            Assert.Equal(group, Assert.Single(StandardTable.Rows("metals"), r => r.Attribute == "rating group" && r.Item == material).Class);
    }

    // Pitch diameter in inches and depth in millimetres of the ring's groove: a supplier's oilfield catalogue of rings; a flange maker's table of grooves (R11 to R26)
    // and a dealer's sheet of class 900 (the rest).
    [Theory]
    [InlineData(11, 1.344, 5.54)]
    [InlineData(12, 1.563, 6.35)]
    [InlineData(16, 2.000, 6.35)]
    [InlineData(20, 2.688, 6.35)]
    [InlineData(21, 2.844, 7.92)]
    [InlineData(23, 3.250, 7.92)]
    [InlineData(24, 3.750, 7.92)]
    [InlineData(26, 4.000, 7.92)]
    [InlineData(31, 4.875, 7.92)]
    [InlineData(37, 5.875, 7.92)]
    [InlineData(38, 6.188, null)]
    [InlineData(41, 7.125, 7.92)]
    [InlineData(42, 7.500, null)]
    [InlineData(44, 7.625, null)]
    [InlineData(45, 8.313, 7.92)]
    [InlineData(46, 8.313, null)]
    [InlineData(62, null, 11.13)]
    [InlineData(70, null, 12.70)]
    [InlineData(78, null, 15.88)]
    public void Ring_grooves(int ring, double? pitch, double? depth)
    {
        var flanges = StandardTable.Rows("flanges").Where(r => r.Attribute == "groove number" && (int)r.Figure == ring).ToList();
        Assert.NotEmpty(flanges);
        foreach (var flange in flanges)
        {
            double At(string attribute) => StandardTable.Find("flanges", flange.Item, attribute, flange.Nps, @class: flange.Class)!.Mm!.Value;
            if (pitch is { } p)
                Assert.Equal(p * 25.4, At("pitch diameter"), 0.06);
            if (depth is { } d)
                Assert.Equal(d, At("groove depth"), 0.011);
        }
    }

    private static StandardRow Row(string table, string item, string nps, string attribute) =>
        NominalSize.TryParse(nps, out var size) && StandardTable.Find(table, item, attribute, size) is { } row
            ? row
            : throw new InvalidOperationException($"{table}: no {item} {nps} {attribute}");
}
