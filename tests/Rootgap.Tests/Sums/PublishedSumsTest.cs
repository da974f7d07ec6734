using CsCheck;
using Rootgap.Measure;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Tests.Sums;

/// <summary>The sums of the papers against figures that others have printed; the source stands beside each.</summary>
public class PublishedSumsTest
{
    private static NominalSize Size(string text) => NominalSize.TryParse(text, out var size) ? size : throw new ArgumentException(text, nameof(text));

    private static double Read(string text, Quantity quantity) => Amount.TryParse(text, quantity, null, out var amount) ? amount : throw new ArgumentException(text, nameof(text));

    // Elements of butt joints, kg a metre, as a filler-metal maker's handbook prints them (three stored copies of one text): triangle of height 7.94 with 30 and
    // with 45 degrees, rectangle 3.175 by 7.94.
    [Theory]
    [InlineData(0, 30, 0.143)]
    [InlineData(0, 45, 0.247)]
    [InlineData(3.175, 0, 0.198)]
    public void Elements_of_a_butt_joint_weigh_what_the_handbook_prints(double gap, double degrees, double printed)
    {
        var groove = new Groove(7.94, gap, degrees > 0 ? 0 : 7.94, Angles.ToRadians(degrees)) { Sides = 1 };
        Assert.Equal(printed, WeldMetal.Butt(groove, null, cap: 0, root: 0).PerLength * 1000, 0.0006);
    }

    // The same handbook's worked fillet: legs 0.5 in., 0.424 lb a foot with 0.283 lb a cubic inch.
    // A welding engineer's page (weldinganswers.com): legs 0.275 in., 76.5 in. of weld: 2.89 in3, 0.819 lb.
    [Theory]
    [InlineData(0.5, 12, 0.424)]
    [InlineData(0.275, 76.5, 0.819)]
    public void A_fillet_weighs_what_the_worked_example_says(double leg, double length, double pounds)
    {
        var metal = WeldMetal.Fillet(leg * LengthText.Inch, null) with { Density = 0.283 * Amount.Pound / Math.Pow(LengthText.Inch, 3) };
        Assert.Equal(pounds, metal.PerLength * length * LengthText.Inch / Amount.Pound, 0.001);
    }

    // Pappus and Guldin: a fillet of 6 by 6 goes round on the circle of its centroid, 2 off the pipe: 18 x 2 pi (57.15 + 2) = 6690 mm3 round an NPS 4 pipe.
    // ASME B31.3 figure 328.5.2C (from memory): 1.09 of the wall, 3.2 at the least: 2.77 makes 3.02 and so 3.2, 6.02 makes 6.56.
    [Fact]
    public void A_fillet_runs_the_circle_of_its_own_centroid_and_a_socket_has_a_least_leg()
    {
        Assert.Equal(6690, WeldMetal.Fillet(6, 57.15).Volume!.Value, 1.0);
        Assert.Equal(3.2 * 3.2 / 2, WeldMetal.Socket(2.77, 10.65).Area, 0.001);
        Assert.Equal(6.5618 * 6.5618 / 2, WeldMetal.Socket(6.02, 57.15).Area, 0.001);
    }

    // Two equal cylinders at right angles meet in two half ellipses of half axes R and R times the root of 2: 4 x 1.41421 x E(1/2) = 7.6404 R, with the complete elliptic integral
    // E(m = 1/2) = 1.3506438810 (Abramowitz and Stegun, table 17.1). A small pipe on a wide header goes round in a circle; leaning by 45 degrees in that same ellipse (a plane section of a cylinder).
    [Theory]
    [InlineData(100, 100, 90, 764.04)]
    [InlineData(100, 1e6, 90, 628.32)]
    [InlineData(100, 1e6, 45, 764.04)]
    public void A_saddle_is_as_long_as_the_ellipses_of_which_it_is_made(double radius, double header, double lean, double length) =>
        Assert.Equal(length, WeldMetal.Saddle(radius, header, Angles.ToRadians(lean)), 0.01);

    // NPS 6 schedule 40, gap 3.2, land 1.6, 37.5 degrees: (t - f)^2 tan b = 23.3 mm2, g t = 22.8 mm2 (by hand).
    [Fact]
    public void The_section_of_a_V_joint_is_added_up_by_its_elements()
    {
        var metal = WeldMetal.Butt(Groove.Usual(7.11, 3.2), 77.04);
        Assert.Equal([22.8, 23.3], metal.Areas.Take(2).Select(a => Math.Round(a.Area, 1)));
    }

    // Pappus and Guldinus against the integral of the solid between two circles: the gap's rectangle is a tube, and the two bevels are what a cone leaves.
    [Fact]
    public void Each_area_runs_the_circle_of_its_own_centroid()
    {
        const double r = 77.04, t = 7.11, g = 3.2, f = 1.6;
        var b = Angles.ToRadians(37.5);
        var metal = WeldMetal.Butt(new(t, g, f, b), r, cap: 0, root: 0);
        var tube = Math.PI * (((r + t) * (r + t)) - (r * r)) * g;
        var bevels = 0.0;
        const int Steps = 20000;
        for (var i = 0; i < Steps; i++)
        {
            var radius = r + f + ((t - f) * (i + 0.5) / Steps);
            bevels += 2 * Math.PI * radius * 2 * (radius - r - f) * Math.Tan(b) * (t - f) / Steps;
        }

        Assert.Equal(tube + bevels, metal.Volume!.Value, 0.01);
    }

    [Fact]
    public void A_compound_bevel_takes_less_than_a_plain_one_and_as_much_where_it_is_not_steeper()
    {
        var compound = WeldMetal.Butt(Groove.Usual(30, 3.2), 200);
        var plain = WeldMetal.Butt(new(30, 3.2, 1.6, Angles.ToRadians(37.5)), 200);
        Assert.True(compound.Mass < plain.Mass * 0.9);
        var same = WeldMetal.Butt(Groove.Usual(30, 3.2) with { UpperBevel = Angles.ToRadians(37.5) }, 200);
        Assert.Equal(plain.Mass!.Value, same.Mass!.Value, 1e-9);
    }

    // Stub-loss table of a welding course: weld metal of 65 % of the burnt part, electrodes of 12, 14 and 18 in., stubs of 50 and 75 mm.
    [Theory]
    [InlineData(12, 50, 0.54)]
    [InlineData(12, 75, 0.49)]
    [InlineData(14, 50, 0.56)]
    [InlineData(14, 75, 0.51)]
    [InlineData(18, 50, 0.58)]
    [InlineData(18, 75, 0.54)]
    public void A_stick_gives_what_the_stub_table_prints(double inches, double stub, double printed) =>
        Assert.Equal(printed, Filler.Sticks(inches * LengthText.Inch, stub).Efficiency, 0.0052);

    // An estimating book's manual arc welds of NPS 6: 2.70 h to 3/8 in. wall, 3.00 h to 1/2 in., 8.10 h for 1.03 to 1.22 in.; of the bands between no edge was read.
    [Theory]
    [InlineData(7.11, 2.70)]
    [InlineData(10.97, 3.00)]
    [InlineData(28, 8.10)]
    [InlineData(18.26, null)]
    public void Hours_are_the_published_ones_or_none(double wall, double? hours) =>
        Assert.Equal(hours, Filler.HoursPerInch(wall) is { } row ? Math.Round(row.Figure * 6, 2) : null);

    // 12: one published order; 4 and 8: opposite bolts, then halve the angle (gasket makers); 16, 20 and 24: a gasket maker's work sheet of 2018, whose sketches number the bolts by their turn
    // (round from the top: 16 1 9 5 13 3 11 7 15 2 ...; 20: 1 13 5 17 9 3 15 7 19 11 2 ...; 24: 1 9 17 5 13 21 3 11 19 7 15 23 2 ...); 28 and 32 from memory of ASME PCC-1.
    [Theory]
    [InlineData(4, "1 3 2 4")]
    [InlineData(8, "1 5 3 7 2 6 4 8")]
    [InlineData(12, "1 7 4 10 2 8 5 11 3 9 6 12")]
    [InlineData(16, "1 9 5 13 3 11 7 15 2 10 6 14 4 12 8 16")]
    [InlineData(20, "1 11 6 16 3 13 8 18 5 15 10 20 2 12 7 17 4 14 9 19")]
    [InlineData(24, "1 13 7 19 4 16 10 22 2 14 8 20 5 17 11 23 3 15 9 21 6 18 12 24")]
    [InlineData(28, "1 15 8 22 4 18 11 25 6 20 13 27 2 16 9 23 5 19 12 26 7 21 14 28 3 17 10 24")]
    [InlineData(32, "1 17 9 25 5 21 13 29 3 19 11 27 7 23 15 31 2 18 10 26 6 22 14 30 4 20 12 28 8 24 16 32")]
    public void Bolts_are_drawn_up_in_the_published_order(int bolts, string begins) =>
        Assert.Equal(begins, string.Join(' ', StarOrder.Of(bolts).Take(begins.Split(' ').Length)));

    // The sketches themselves: the turn of each bolt, round the flange from the top to the bottom, as the work sheet's published text has them.
    [Theory]
    [InlineData(16, "1 9 5 13 3 11 7 15 2")]
    [InlineData(20, "1 13 5 17 9 3 15 7 19 11 2")]
    [InlineData(24, "1 9 17 5 13 21 3 11 19 7 15 23 2")]
    public void The_turn_of_each_bolt_is_that_of_the_work_sheet(int bolts, string turns)
    {
        var order = StarOrder.Of(bolts).ToList();
        Assert.Equal(turns, string.Join(' ', Enumerable.Range(1, (bolts / 2) + 1).Select(hole => order.IndexOf(hole) + 1)));
    }

    [Theory]
    [InlineData(12, "web article")]
    [InlineData(24, "work sheet")]
    [InlineData(32, "memory")]
    [InlineData(36, "the program's own rule")]
    public void An_order_says_where_it_comes_from(int bolts, string says) => Assert.Contains(says, StarOrder.Source(bolts), StringComparison.Ordinal);

    [Fact]
    public void Every_bolt_is_drawn_up_once_and_each_is_followed_by_its_opposite() =>
        Gen.Int[1, 25].Select(n => n * 4).Sample(n =>
        {
            var order = StarOrder.Of(n);
            Assert.Equal(Enumerable.Range(1, n), order.Order());
            for (var i = 0; i < n; i += 2)
                Assert.Equal(n / 2, order[i + 1] - order[i]);
        });

    // ASME PCC-1-2013 table 1 as published: 3/4 in. at 50 ksi on the root area, coated studs: 160 ft lb.
    [Fact]
    public void Torque_on_the_root_area_is_the_published_one()
    {
        var load = BoltLoad.Of(Size("3/4"), new(Read("50 ksi", Quantity.Stress), BoltArea.Root, 0.17, ""))!;
        Assert.Equal(160, load.Torque / Read("1 ft lb", Quantity.Torque), 1.0);
        Assert.Equal(160, load.TorqueSet(Units.Inches) / Read("1 ft lb", Quantity.Torque), 1e-6);
    }

    // A fastener supplier's chart, nut factor 0.167: 3/4-10 24,525 lb 256 ft lb; 1-8 44,550 lb 620 ft lb. On the stress area: 215.8 mm2 by 345 MPa, 241 N m (by hand).
    [Theory]
    [InlineData("3/4", 24525, 256)]
    [InlineData("1", 44550, 620)]
    public void Torque_is_nut_factor_by_diameter_by_load(string bolt, double pounds, double printed) =>
        Assert.Equal(printed, new BoltLoad(Read($"{pounds} lbf", Quantity.Force), Size(bolt).Inches * LengthText.Inch, 0.167).Torque / Read("1 ft lb", Quantity.Torque), 0.6);

    // A rigging supplier (certifiedslings.com): 10,000 lb, points 8 and 2 ft from the centre: 8,000 and 2,000 lb.
    [Fact]
    public void The_point_nearer_to_the_centre_of_mass_lifts_more()
    {
        var (first, second) = Slings.Lifts(10000, 10, 8);
        Assert.Equal((2000, 8000), (Math.Round(first, 6), Math.Round(second, 6)));
    }

    // Three rigging suppliers' charts: 1.154 or 1.155, 1.414, 2.000 times half the load at 60, 45, 30 degrees.
    [Theory]
    [InlineData(60, 577)]
    [InlineData(45, 707)]
    [InlineData(30, 1000)]
    public void Legs_alike_carry_what_the_charts_print(double degrees, double printed)
    {
        Assert.Equal(printed, Slings.OfTwo(1000, Angles.ToRadians(degrees)), 0.5);
        var leg = 1000 / Math.Cos(Angles.ToRadians(degrees));
        var hanging = Slings.Of(1000, 2000, 1000, 0, leg, leg)!;
        Assert.Equal(printed, hanging.First.Tension, 0.5);
        Assert.Equal(printed, hanging.Second.Tension, 0.5);
        Assert.Equal(degrees, Angles.ToDegrees(hanging.Flattest), 1e-9);
    }

    // A rigging course (covamap.vmasc.org): TS1 = load × D2 × S1 / (H (D1 + D2)), TS2 = load × D1 × S2 / (H (D1 + D2)), hook over the centre of mass, load level.
    [Fact]
    public void Unlike_legs_carry_what_the_riggers_formula_says() =>
        Gen.Select(Gen.Double[200, 3000], Gen.Double[200, 3000], Gen.Double[500, 5000]).Sample((d1, d2, h) =>
        {
            var (s1, s2) = Slings.Level(d1 + d2, d1, h);
            var hanging = Slings.Of(4000, d1 + d2, d1, 0, s1, s2)!;
            Assert.Equal(4000 * d2 * s1 / (h * (d1 + d2)), hanging.First.Tension, 1e-6);
            Assert.Equal(4000 * d1 * s2 / (h * (d1 + d2)), hanging.Second.Tension, 1e-6);
            Assert.Equal(0, hanging.Tilt, 1e-9);
        });

    // Three, four, five: a hook 4 m over points 3 m and 8 m away to its sides: legs at arcsin 4/5 and arctan 4/8; the flatter one counts.
    [Fact]
    public void The_flatter_of_two_legs_counts()
    {
        var (s1, s2) = Slings.Level(11, 3, 4);
        Assert.Equal(Math.Atan2(4, 8), Slings.Of(1000, 11, 3, 0, s1, s2)!.Flattest, 1e-9);
    }

    // ASME PCC-2 501-III names its steps by the stored energy.
    [Theory]
    [InlineData(135.4e6, "up to 135.5")]
    [InlineData(135.6e6, "over 135.5 and up to 271")]
    [InlineData(271.5e6, "over 271")]
    public void Stored_energy_has_its_step(double joules, string says) => Assert.StartsWith(says, PressureTest.Step(joules), StringComparison.Ordinal);

    [Fact]
    public void The_tensions_of_a_hanging_load_hold_its_weight_and_turn_it_no_further() =>
        Gen.Select(Gen.Double[500, 4000], Gen.Double[0.2, 0.8], Gen.Double[0, 500], Gen.Double[1.1, 2], Gen.Double[1.1, 2]).Sample((span, share, below, a, b) =>
        {
            if (Slings.Of(1000, span, span * share, below, span * a, span * b) is not { IsSlack: false } hanging)
                return;
            // Across and up; the centre of mass hangs under the hook.
            var (first, second) = (hanging.First, hanging.Second);
            Assert.Equal(1000, first.Lifts + second.Lifts, 1e-6);
            Assert.Equal(first.Tension * Math.Cos(first.ToLevel), second.Tension * Math.Cos(second.ToLevel), 1e-6);
            var (p1, p2) = (first.Length * Math.Cos(first.ToLevel), second.Length * Math.Cos(second.ToLevel));
            Assert.Equal(p1, (span * share * Math.Cos(hanging.Tilt)) + (below * Math.Sin(hanging.Tilt)), 1e-6);
            Assert.Equal(span * Math.Cos(hanging.Tilt), p1 + p2, 1e-6);
        });

    // By hand: 10 m of fresh water, 0.981 bar; NPS 6 schedule 40, bore 154.05 mm, 18.64 litres a metre.
    [Fact]
    public void Ten_metres_of_water_are_0_981_bar() =>
        Assert.Equal(15 - 0.981, PressureTest.At(15, 0, 10000, TestMedium.Water), 1e-9);

    // ASME PCC-2 501-II as an engineering reference site prints it: 2.5 p V (1 - (pa / p)^0.286), pa 101 kPa, TNT by 4.26692 MJ a kg: 10 bar, 1 m3: 1.36 MJ, 0.32 kg.
    [Fact]
    public void Pressed_air_holds_the_energy_of_the_published_formula()
    {
        var energy = PressureTest.StoredEnergy(10, 1e9);
        Assert.Equal(2.5 * 1.101e6 * (1 - Math.Pow(0.101 / 1.101, 0.286)), energy, 2e3);
        Assert.Equal((1.36, 0.32), (Math.Round(energy / 1e6, 2), Math.Round(energy / PressureTest.Tnt, 2)));
    }

    // ASME B16.5 2.6: class 150 of carbon steel, 19.6 bar: 30 bar; a vessel-calculation publisher's page: 740 psi (class 300) gives 1125 psi, rounded up to the next 25.
    [Theory]
    [InlineData("150", Units.Millimetres, "30 bar")]
    [InlineData("300", Units.Inches, "1125 psi")]
    public void Flanged_joints_are_tested_to_1_5_times_their_cold_rating_rounded_up(string @class, Units units, string printed) =>
        Assert.Equal(Read(printed, Quantity.Pressure), PressureTest.MostOfFlanges(Ratings.Of("1.1", @class, Ratings.Ambient, units)!.Value, units), 1e-6);

    // ASME B31.3 345.4.2, 345.5.4, 345.5.2 (two pages of the 2016 text): 1.5 and 1.1 times; relief by the lesser of 3.45 bar and 10 %.
    [Fact]
    public void Test_pressures_and_relief_are_the_codes()
    {
        Assert.Equal(15, PressureTest.Least(10, TestMedium.Water), 1e-9);
        Assert.Equal(18, PressureTest.Least(10, TestMedium.Water, 1.2), 1e-9);
        Assert.Equal(11, PressureTest.Least(10, TestMedium.Air, 1.2), 1e-9);
        Assert.Equal(11, PressureTest.Relief(10), 1e-9);
        Assert.Equal(53.45, PressureTest.Relief(50), 1e-9);
    }

    [Theory]
    [InlineData("1,000 kg", Quantity.Mass, 1000)]
    [InlineData("2204.62 lb", Quantity.Mass, 1000)]
    [InlineData("14.5038 psi", Quantity.Pressure, 1)]
    [InlineData("50 ksi", Quantity.Stress, 344.738)]
    [InlineData("35.3147 ft³", Quantity.Volume, 1e9)]
    [InlineData("737.562 ft-lb", Quantity.Torque, 1000)]
    public void Amounts_are_read_with_their_units(string text, Quantity quantity, double amount) => Assert.Equal(amount, Read(text, quantity), amount * 1e-5);

    [Theory]
    [InlineData("1,5 bar")]
    [InlineData("10")]
    [InlineData("ten bar")]
    [InlineData("5 feet")]
    [InlineData("")]
    public void A_pressure_without_a_known_unit_is_not_guessed(string text) => Assert.False(Amount.TryParse(text, Quantity.Pressure, null, out _));
}
