using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Tests.Standards;

/// <summary>Valves (ASME B16.10), forged fittings (B16.11), branch outlets (MSS SP-97), pipe threads (B1.20.1): the tables against themselves and against published pages.</summary>
public class SmallBoreTablesTest
{
    private static readonly string[] Tables = ["valves", "forged", "outlets", "threads", "valve-mass"];

    [Fact]
    public void Every_row_has_a_size_a_source_a_check_and_a_value()
    {
        foreach (var row in Tables.SelectMany(StandardTable.Rows))
        {
            Assert.False(row.Nps.IsNone, Describe(row));
            Assert.True(row.Nps.IsPipeSize, Describe(row));
            Assert.NotEmpty(row.Source);
            Assert.NotEmpty(row.Checked);
            Assert.True(row.Mm > 0 || row.Inches > 0, Describe(row));
        }
    }

    [Fact]
    public void No_key_stands_twice()
    {
        foreach (var table in Tables)
        {
            var keys = StandardTable.Rows(table).Select(r => (r.Standard, r.Item, r.Nps, r.Nps2, r.Schedule, r.Class, r.Attribute)).ToList();
            Assert.Equal(keys.Count, keys.Distinct().Count());
        }
    }

    /// <remarks>
    /// The standards round the inch column to 0.01 (some to 0.001) and the millimetre column to 1, 0.5, 0.1 or 0.01: the two may differ by half a unit of each.
    /// 17.50 in. printed as 444 and 11.12 (11 1/8) in. as 283 are the widest.
    /// </remarks>
    [Fact]
    public void Millimetres_and_inches_agree_within_the_rounding_of_the_standard()
    {
        foreach (var row in Tables.SelectMany(StandardTable.Rows).Where(r => r.Mm.HasValue && r.Inches.HasValue))
        {
            var allowed = row.Attribute switch
            {
                // A plug's are rounded to whole millimetres, its hexagon to a spanner's.
                "thread length" when row.Item == "TH plug" => 0.56,
                "across flats" => 2.4,
                "body wall" => 0.02,
                "thread length" or "thread effective length" => 0.14,
                "end wall" => 0.15,
                "centre to socket bottom" or "laying length" or "socket depth" => 0.31,
                "socket bore min" or "socket bore max" => 0.39,
                _ => 0.56,
            };
            Assert.True(Math.Abs((row.Inches!.Value * 25.4) - row.Mm!.Value) <= allowed, Describe(row));
        }
    }

    [Fact]
    public void Dimensions_never_shrink_as_the_size_grows()
    {
        // MSS SP-97 gives extra-strong outlets of NPS 10 less height than those of NPS 8, and NPS 14 less than NPS 12 (from memory).
        var groups = Tables.SelectMany(StandardTable.Rows)
            .Where(r => r.Attribute is not ("threads per inch" or "wrench makeup L3") && !(r.Item == "outlet butt" && r.Schedule == "XS"))
            .GroupBy(r => (r.Standard, r.Item, r.Schedule, r.Class, r.Attribute));
        foreach (var group in groups)
        {
            foreach (var (smaller, larger) in group.OrderBy(r => r.Nps).Zip(group.OrderBy(r => r.Nps).Skip(1)))
            {
                Assert.True(!smaller.Mm.HasValue || smaller.Mm <= larger.Mm, Describe(larger));
                Assert.True(!smaller.Inches.HasValue || smaller.Inches <= larger.Inches, Describe(larger));
            }
        }
    }

    [Fact]
    public void A_heavier_class_is_never_shorter()
    {
        foreach (var row in StandardTable.Rows("valves").Where(r => r.Class is "300" or "600"))
        {
            var lighter = StandardTable.Find("valves", row.Item, row.Attribute, row.Nps, default, "", row.Class == "300" ? "150" : "300");
            if (lighter is not null)
                Assert.True(lighter.Mm <= row.Mm, Describe(row));
        }

        foreach (var row in StandardTable.Rows("forged").Where(r => r.Attribute is "body wall" or "end wall" or "centre to end" or "centre to socket bottom" or "band diameter"))
        {
            var next = row.Class switch { "2000" => "3000", "3000" => "6000", _ => "9000" };
            if (StandardTable.Find("forged", row.Item, row.Attribute, row.Nps, default, "", next) is { } heavier)
                Assert.True(row.Mm <= heavier.Mm, Describe(row));
        }
    }

    [Fact]
    public void A_butt_weld_valve_is_no_shorter_than_its_flanged_brother()
    {
        foreach (var row in StandardTable.Rows("valves").Where(r => r.Attribute == "end to end"))
        {
            // Class 300 ball valves, long pattern, NPS 10 and 12: 559 and 635 mm against 568 and 648 flanged (B16.10 Table 2, API 6D).
            if (row is { Item: "valve ball", Class: "300" } && row.Nps >= NominalSize.OfInches(10))
                continue;
            var flanged = StandardTable.Find("valves", row.Item, "face to face", row.Nps, default, "", row.Class);
            Assert.True(flanged is null || flanged.Mm <= row.Mm, Describe(row));
        }
    }

    [Fact]
    public void A_socket_takes_the_pipe_and_lies_inside_the_fitting()
    {
        // Pipe outside diameters: ASME B36.10M Table 1.
        var outside = new Dictionary<string, double>(StringComparer.Ordinal)
        {
            ["1/8"] = 10.3, ["1/4"] = 13.7, ["3/8"] = 17.1, ["1/2"] = 21.3, ["3/4"] = 26.7, ["1"] = 33.4,
            ["1-1/4"] = 42.2, ["1-1/2"] = 48.3, ["2"] = 60.3, ["2-1/2"] = 73.0, ["3"] = 88.9, ["4"] = 114.3,
        };
        foreach (var smallest in StandardTable.Rows("forged").Where(r => r.Attribute == "socket bore min"))
        {
            var largest = Other("forged", smallest, "socket bore max");
            Assert.InRange(smallest.Mm!.Value - outside[smallest.Nps.ToString()], 0.4, 1.0);
            Assert.InRange(largest.Mm!.Value - smallest.Mm.Value, 0.3, 0.6);
        }

        foreach (var row in StandardTable.Rows("forged").Where(r => r.Attribute == "centre to socket bottom" && r.Item != "SW elbow 45"))
            Assert.True(Other("forged", row, "socket depth").Mm < row.Mm, Describe(row));
        foreach (var row in StandardTable.Rows("outlets").Where(r => r.Attribute == "socket depth"))
            Assert.True(row.Mm < Other("outlets", row, "height").Mm, Describe(row));
    }

    [Fact]
    public void A_half_coupling_holds_one_socket_and_a_full_one_two()
    {
        // B16.11 Table 1: E lies between the bottoms of the two sockets, F between the bottom of the one socket and the far end, long enough to be bored for a second.
        foreach (var half in StandardTable.Rows("forged").Where(r => r is { Item: "SW half coupling", Attribute: "laying length" }))
        {
            var full = StandardTable.Find("forged", "SW coupling", "laying length", half.Nps, default, "", half.Class)!;
            var depth = Other("forged", half, "socket depth");
            Assert.InRange(half.Mm!.Value - full.Mm!.Value, depth.Mm!.Value - 0.1, depth.Mm.Value * 1.75);
        }
    }

    [Fact]
    public void Threaded_fittings_leave_room_for_their_threads()
    {
        foreach (var row in StandardTable.Rows("forged").Where(r => r.Item.StartsWith("TH ", StringComparison.Ordinal) && r.Attribute is "centre to end" or "end to end"))
        {
            var perfect = Other("forged", row, "thread length").Mm;
            Assert.True(perfect < row.Mm, Describe(row));
            if (row.Item == "TH coupling")
                Assert.True(2 * perfect < row.Mm, Describe(row));
        }
    }

    [Fact]
    public void Thread_lengths_come_in_order_and_follow_the_formulas_of_the_standard()
    {
        // ASME B1.20.1: E0 = D - (0.05 D + 1.1) p, L2 = (0.80 D + 6.8) p, E1 = E0 + L1/16; D from ASME B36.10M, inches.
        double[] outside = [0.405, 0.540, 0.675, 0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 2.875, 3.5, 4, 4.5, 5.563, 6.625, 8.625, 10.75, 12.75];
        var sizes = StandardTable.Rows("threads").Where(r => r.Attribute == "threads per inch").ToList();
        Assert.Equal(outside.Length, sizes.Count);
        foreach (var (row, d) in sizes.Zip(outside))
        {
            var pitch = 1 / row.Figure;
            double At(string attribute) => Other("threads", row, attribute).Inches!.Value;
            Assert.Equal(d - (((0.05 * d) + 1.1) * pitch), At("pitch diameter E0"), 2e-5);
            Assert.Equal(((0.80 * d) + 6.8) * pitch, At("effective length L2"), 6e-5);
            Assert.Equal(At("pitch diameter E0") + (At("hand-tight engagement L1") / 16), At("pitch diameter E1"), 2e-5);
            Assert.Equal((row.Nps <= NominalSize.OfInches(2) ? 3 : 2) * pitch, At("wrench makeup L3"), 6e-5);
            Assert.Equal(At("hand-tight engagement L1") + At("wrench makeup L3"), At("normal engagement"), 1e-9);
            Assert.True(At("hand-tight engagement L1") < At("effective length L2"));
            Assert.True(At("effective length L2") < At("overall thread length L4"));
            Assert.True(At("normal engagement") < At("overall thread length L4"));
        }
    }

    [Theory]

    // A pipe supplier's published ASME B1.20.1 page (unifiedalloys.com/p/pipe-threads), column "threads": lengths counted in threads.
    [InlineData("1/8", 4.36, 7.12)]
    [InlineData("1/4", 4.10, 7.23)]
    [InlineData("1/2", 4.48, 7.47)]
    [InlineData("3/4", 4.75, 7.64)]
    [InlineData("1", 4.60, 7.85)]
    [InlineData("2", 5.01, 8.70)]
    [InlineData("2-1/2", 5.46, 9.10)]
    [InlineData("4", 6.75, 10.40)]
    [InlineData("6", 7.66, 12.10)]
    public void Thread_lengths_counted_in_threads_agree_with_a_published_page(string nps, double handTight, double effective)
    {
        var perInch = Find("threads", "thread NPT", nps, "threads per inch").Figure;
        Assert.Equal(handTight, Find("threads", "thread NPT", nps, "hand-tight engagement L1").Inches!.Value * perInch, 0.011);
        Assert.Equal(effective, Find("threads", "thread NPT", nps, "effective length L2").Inches!.Value * perInch, 0.011);
    }

    [Theory]

    // A valve maker's published gate, globe and swing check dimension tables (ASME B16.10, millimetres).
    [InlineData("valve gate", "2", "150", 178)]
    [InlineData("valve gate", "6", "150", 267)]
    [InlineData("valve gate", "12", "150", 356)]
    [InlineData("valve gate", "24", "150", 508)]
    [InlineData("valve gate", "3", "300", 283)]
    [InlineData("valve gate", "10", "300", 457)]
    [InlineData("valve gate", "14", "300", 762)]
    [InlineData("valve gate", "12", "600", 838)]
    [InlineData("valve globe", "2", "150", 203)]
    [InlineData("valve globe", "6", "150", 406)]
    [InlineData("valve globe", "6", "300", 444)]
    [InlineData("valve globe", "10", "600", 787)]
    [InlineData("valve check", "8", "150", 495)]
    [InlineData("valve check", "8", "300", 533)]
    [InlineData("valve check", "14", "600", 889)]

    // An open compilation of full-bore ball valves (API 6D chart, millimetres).
    [InlineData("valve ball", "2", "150", 178)]
    [InlineData("valve ball", "6", "150", 394)]
    [InlineData("valve ball", "12", "150", 610)]
    [InlineData("valve ball", "2", "300", 216)]

    // A maker's wafer butterfly valve sheet, ISO 5752 basic series 20, flanges ASME 125/150.
    [InlineData("valve butterfly", "2", "150", 43)]
    [InlineData("valve butterfly", "4", "150", 52)]
    [InlineData("valve butterfly", "8", "150", 60)]
    [InlineData("valve butterfly", "12", "150", 78)]
    public void Valve_lengths_agree_with_published_tables(string item, string nps, string @class, double mm) =>
        Assert.Equal(mm, Find("valves", item, nps, "face to face", @class: @class).Mm);

    [Theory]

    // Suppliers' published pages of the ASME B16.11-2016 tables: vaibhavfitting.com (cross, full coupling), creativepiping.com (45 degree elbow), hardhatengineer.com (coupling, half coupling).
    [InlineData("SW cross", "1/2", "3000", "centre to socket bottom", 15.5)]
    [InlineData("SW cross", "2", "3000", "centre to socket bottom", 38.0)]
    [InlineData("SW cross", "4", "3000", "centre to socket bottom", 66.5)]
    [InlineData("SW cross", "1", "6000", "centre to socket bottom", 27.0)]
    [InlineData("SW cross", "2", "9000", "centre to socket bottom", 54.0)]
    [InlineData("SW elbow 45", "3/4", "3000", "centre to socket bottom", 13.0)]
    [InlineData("SW elbow 45", "1/2", "6000", "centre to socket bottom", 12.5)]
    [InlineData("SW elbow 45", "1", "9000", "body wall", 9.09)]
    [InlineData("SW coupling", "1", "3000", "laying length", 12.5)]
    [InlineData("SW half coupling", "1-1/2", "6000", "laying length", 32.0)]
    [InlineData("SW coupling", "2", "3000", "socket bore max", 61.7)]
    [InlineData("SW coupling", "3/4", "3000", "socket depth", 12.5)]
    [InlineData("TH coupling", "1", "3000", "end to end", 60)]
    [InlineData("TH coupling", "2", "6000", "end to end", 86)]
    [InlineData("TH coupling", "3/4", "6000", "outside diameter", 44)]
    [InlineData("TH cross", "2", "2000", "centre to end", 60)]
    [InlineData("TH cross", "1-1/2", "2000", "band diameter", 62)]

    // A maker's ASME B16.11-2009 thread-fitting sheet (id.scribd.com 357710477).
    [InlineData("TH elbow 90", "1/2", "3000", "centre to end", 33)]
    [InlineData("TH elbow 90", "1", "6000", "centre to end", 51)]
    [InlineData("TH elbow 45", "1-1/2", "3000", "centre to end", 43)]
    [InlineData("TH tee", "3/4", "6000", "band diameter", 56)]
    [InlineData("TH tee", "1", "2000", "thread effective length", 17.3)]
    public void Forged_fittings_agree_with_published_pages(string item, string nps, string @class, string attribute, double mm)
    {
        Assert.Equal(mm, Find("forged", item, nps, attribute, @class: @class).Mm);
    }

    [Theory]

    // An open compilation of size-on-size outlet heights, in decimal conversions of the sixteenths (19.05 = 3/4 in.).
    [InlineData("outlet butt", "1/2", "STD", "", 19.05)]
    [InlineData("outlet butt", "2", "STD", "", 38.10)]
    [InlineData("outlet butt", "6", "STD", "", 60.30)]
    [InlineData("outlet butt", "12", "STD", "", 85.73)]
    [InlineData("outlet butt", "20", "STD", "", 117.48)]
    [InlineData("outlet socket", "1", "", "3000", 33.33)]
    [InlineData("outlet socket", "4", "", "3000", 47.62)]
    [InlineData("outlet threaded", "2", "", "3000", 38.10)]
    [InlineData("outlet threaded", "3", "", "3000", 50.80)]
    public void Outlet_heights_agree_with_a_published_compilation(string item, string nps, string schedule, string @class, double mm)
    {
        var row = Find("outlets", item, nps, "height", schedule, @class);
        Assert.Equal(mm, row.Mm!.Value, 0.5);
        Assert.Equal(mm / 25.4, row.Inches!.Value, 0.006);
    }

    private static StandardRow Find(string table, string item, string nps, string attribute, string schedule = "", string @class = "") =>
        NominalSize.TryParse(nps, out var size) && StandardTable.Find(table, item, attribute, size, default, schedule, @class) is { } row
            ? row
            : throw new InvalidOperationException($"{table}: no {item} NPS {nps} {attribute} {schedule}{@class}");

    private static StandardRow Other(string table, StandardRow row, string attribute) =>
        StandardTable.Find(table, row.Item, attribute, row.Nps, row.Nps2, row.Schedule, row.Class)
            ?? throw new InvalidOperationException($"{table}: {Describe(row)} has no {attribute}");

    private static string Describe(StandardRow row) => $"{row.Item} NPS {row.Nps} {row.Schedule}{row.Class} {row.Attribute}: {row.Source}";
}
