using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Tests.Measure;

public class LengthTextTest
{
    private static double Read(string text, Units bare = Units.Millimetres)
    {
        Assert.True(LengthText.TryParse(text, bare, out var mm), text);
        return mm;
    }

    /// <summary>One inch is 25.4 mm exactly (international inch, 1959); feet of twelve inches.</summary>
    [Theory]
    [InlineData("1450 mm", 1450)]
    [InlineData("1.45 m", 1450)]
    [InlineData("145 cm", 1450)]
    [InlineData("4'-9 1/2\"", 1460.5)]
    [InlineData("4' 9 1/2\"", 1460.5)]
    [InlineData("4'-9-1/2\"", 1460.5)]
    [InlineData("4′-9½″", 1460.5)]
    [InlineData("4 ft 9.5 in", 1460.5)]
    [InlineData("57 1/2 in", 1460.5)]
    [InlineData("57-1/2\"", 1460.5)]
    [InlineData("57.5 in.", 1460.5)]
    [InlineData("1/16\"", 1.5875)]
    [InlineData("6'", 1828.8)]
    [InlineData("-3/4\"", -19.05)]
    [InlineData(" 12 MM ", 12)]
    public void A_length_with_its_own_unit_is_read_as_written(string text, double mm) => Assert.Equal(mm, Read(text, Units.Inches), 1e-9);

    [Fact]
    public void A_bare_number_is_in_the_drawings_units()
    {
        Assert.Equal(57.5, Read("57.5"));
        Assert.Equal(1460.5, Read("57.5", Units.Inches), 1e-9);
        Assert.Equal(1460.5, Read("57 1/2", Units.Inches), 1e-9);
    }

    [Theory]
    [InlineData("")]
    [InlineData("mm")]
    [InlineData("12,5")]
    [InlineData("1 200")]
    [InlineData("12 yards")]
    [InlineData("1/0 in")]
    [InlineData("4'-")]
    [InlineData("--4")]
    [InlineData("1e3")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("200 km")]
    [InlineData("1000000000")]
    [InlineData("99999999999999999999999999999999999999999999999999999999999999999")]
    public void What_is_no_length_is_refused(string text) => Assert.False(LengthText.TryParse(text, Units.Millimetres, out var mm), FormattableString.Invariant($"{text} read as {mm}"));

    [Fact]
    public void Feet_and_inches_written_are_read_back_to_the_same_sixteenth() => Gens.Sixteenths.Holds(n =>
    {
        var mm = n * LengthText.Inch / 16;
        var text = LengthText.FeetInches(mm);
        Assert.Equal(mm, Read(text), 1e-6);
        Assert.Equal(text, LengthText.FeetInches(Read(text)));
    });

    [Fact]
    public void Millimetres_written_are_read_back_to_the_same_figure() => Gen.Select(Gens.Lengths, Gen.Int[0, 4]).Holds((mm, decimals) =>
    {
        var text = LengthText.Millimetres(mm, decimals);
        Assert.Equal(mm, Read(text), (0.5 * Math.Pow(10, -decimals)) + 1e-6);
        Assert.Equal(text, LengthText.Millimetres(Read(text), decimals));
    });

    [Fact]
    public void Feet_and_inches_are_the_nearest_sixteenth_and_a_fraction_is_in_lowest_terms() => Gens.Lengths.Holds(mm =>
    {
        var text = LengthText.FeetInches(mm);
        Assert.True(Math.Abs(Read(text) - mm) <= (LengthText.Inch / 32) + 1e-6, text);
        if (text.Split('/') is [var left, var right])
        {
            var above = int.Parse(left.Split(' ', '-')[^1], CultureInfo.InvariantCulture);
            var below = int.Parse(right.TrimEnd('"'), CultureInfo.InvariantCulture);
            Assert.True(above % 2 == 1 && above < below && below is 2 or 4 or 8 or 16, text);
        }
    });

    /// <summary>Half away from zero, against the framework's decimal arithmetic, which knows no binary noise.</summary>
    [Fact]
    public void A_half_is_rounded_away_from_zero() => Gen.Select(Gen.Int[-2_000_000, 2_000_000], Gen.Int[0, 3]).Holds((n, decimals) =>
    {
        // n + 1/2 in the last place kept.
        var exact = (n + 0.5m) / (decimal)Math.Pow(10, decimals);
        var away = Math.Round(exact, decimals, MidpointRounding.AwayFromZero);
        Assert.Equal(away, decimal.Parse(LengthText.Millimetres((double)exact, decimals), CultureInfo.InvariantCulture));
    });

    [Fact]
    public void Half_a_sixteenth_is_rounded_away_from_zero() => Gen.Int[-4000, 4000].Holds(n =>
        Assert.Equal(n >= 0 ? n + 1 : n, LengthText.Sixteenths((n + 0.5) * LengthText.Inch / 16)));

    /// <summary>Rounded twice, 0.46 would become 0.5 and then 1.</summary>
    [Fact]
    public void Nothing_is_rounded_twice() => Gen.Select(Gen.Int[-5000, 5000], Gen.Int[450, 499]).Holds((whole, thousandths) =>
    {
        var mm = Math.Sign(whole) * (Math.Abs(whole) + (thousandths / 1000.0));
        Assert.Equal(whole.ToString(CultureInfo.InvariantCulture), LengthText.WholeMillimetres(mm));
        // A thirty-second short of a half sixteenth must not climb over by way of thirty-seconds.
        var sixteenths = Math.Abs(whole) + (thousandths / 1000.0);
        Assert.Equal(Math.Abs(whole), LengthText.Sixteenths(sixteenths * LengthText.Inch / 16));
    });

    [Theory]
    [InlineData(0, "0\"")]
    [InlineData(-0.2, "0\"")]
    [InlineData(9.525, "3/8\"")]
    [InlineData(241.3, "9 1/2\"")]
    [InlineData(304.8, "1'-0\"")]
    [InlineData(304.5, "1'-0\"")]
    [InlineData(304.0, "11 15/16\"")]
    [InlineData(1460.5, "4'-9 1/2\"")]
    [InlineData(-1460.5, "-4'-9 1/2\"")]
    [InlineData(1222.375, "4'-0 1/8\"")]
    [InlineData(1219.2, "4'-0\"")]
    public void Feet_and_inches_are_written_as_on_a_drawing(double mm, string text) => Assert.Equal(text, LengthText.FeetInches(mm));

    [Fact]
    public void Nothing_is_ever_minus_zero()
    {
        Assert.Equal("0", LengthText.Millimetres(-0.4, 0));
        Assert.Equal("0.0", LengthText.Millimetres(-0.04, 1));
    }
}

public class NominalSizeTest
{
    /// <summary>NPS and DN as paired in ASME B36.10M table 1 (and ISO 6708).</summary>
    [Theory]
    [InlineData("1/8", 6)]
    [InlineData("1/2", 15)]
    [InlineData("3/4", 20)]
    [InlineData("1", 25)]
    [InlineData("1-1/4", 32)]
    [InlineData("1-1/2", 40)]
    [InlineData("2", 50)]
    [InlineData("2-1/2", 65)]
    [InlineData("3", 80)]
    [InlineData("3-1/2", 90)]
    [InlineData("4", 100)]
    [InlineData("6", 150)]
    [InlineData("10", 250)]
    [InlineData("24", 600)]
    [InlineData("48", 1200)]
    public void A_size_has_its_metric_name_and_is_read_by_both(string nps, int dn)
    {
        Assert.True(NominalSize.TryParse(nps, out var size));
        Assert.Equal(dn, size.Dn);
        Assert.Equal(nps, size.ToString());
        Assert.True(NominalSize.TryParse(FormattableString.Invariant($"DN{dn}"), out var metric));
        Assert.Equal(size, metric);
    }

    [Fact]
    public void Every_pipe_size_is_read_back_from_what_it_prints()
    {
        foreach (var size in NominalSize.PipeSizes)
        {
            Assert.True(NominalSize.TryParse(size.ToString(), out var again) && again == size, size.ToString());
            Assert.True(NominalSize.TryParse(size.ToString().Replace('-', ' '), out var spaced) && spaced == size, size.ToString());
            Assert.True(NominalSize.TryParse(FormattableString.Invariant($"DN {size.Dn}"), out var metric) && metric == size, size.ToString());
        }
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-6")]
    [InlineData("1/3")]
    [InlineData("50")]
    [InlineData("six")]
    [InlineData("DN7")]
    [InlineData("DN")]
    [InlineData("")]
    public void What_is_no_size_is_refused(string text) => Assert.False(NominalSize.TryParse(text, out _));

    [Fact]
    public void A_sentence_has_its_lengths_in_the_units_of_the_drawing()
    {
        var (length, wall, mass) = (1460.5, 7.112, 12.25);
        FormattableString rule = $"{103.2:cut}, {-0.4:cut}, {304.0:cut}, {305.4:cut}, {1.5:off}, {-3.2:off}";
        Assert.Equal("103.2, -0.4, 304.0, 305.4, 1.5, -3.2", LengthText.Say(Units.Millimetres, rule));
        Assert.Equal("4 1/16\", -1/32\", 11 31/32\", 1'-0 1/32\", 1/16\", -1/8\"", LengthText.Say(Units.Inches, rule));
        FormattableString text = $"{length:len} long, wall {wall:small}, {mass:0.0} kg, {-0.01:len} off, {length:len0} in all";
        Assert.Equal("1460.5 long, wall 7.11, 12.3 kg, 0 off, 1461 in all", LengthText.Say(Units.Millimetres, text));
        Assert.Equal("4'-9 1/2\" long, wall 0.28\", 12.3 kg, 0\" off, 4'-9 1/2\" in all", LengthText.Say(Units.Inches, text));
    }
}
