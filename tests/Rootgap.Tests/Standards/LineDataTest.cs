using Rootgap.Standards;

namespace Rootgap.Tests.Standards;

/// <summary>The words of a line list against what was published of them.</summary>
public class LineDataTest
{
    // A primer of the codes (pipingdesign.com, asme_b31_codes_primer): B31.6 was folded into B31.3 before it was published, B31.7 and B31.2 were withdrawn.
    [Theory]
    [InlineData("1", true)]
    [InlineData("2", true)]
    [InlineData("3", true)]
    [InlineData("6", false)]
    [InlineData("7", true)]
    [InlineData("12", true)]
    [InlineData("13", false)]
    [InlineData("33", false)]
    public void A_section_of_the_code_is_one_that_was_published(string number, bool isThere) => Assert.Equal(isThere, LineData.Section(number) is not null);

    // The example of a published page on line numbering: 10-1021-CA1A-12-IH-ST, hot insulation and steam tracing; IC is for the cold, ET with electricity, IS and IA are neither.
    [Theory]
    [InlineData("10-1021-CA1A-12-IH", "hot insulation")]
    [InlineData("10-1021-CA1A-12-IC", "cold insulation")]
    [InlineData("10-1021-CA1A-12-IH-ST", "steam tracing")]
    [InlineData("10-1021-CA1A-12-ET", "electric tracing")]
    [InlineData("10-1021-CA1A-12-IS", null)]
    [InlineData("10-1021-CA1A-12-IA", null)]
    [InlineData("IH", null)]
    public void Letters_at_the_end_of_a_line_number_say_what_they_mean(string number, string? means) => Assert.Equal(means, LineData.EndOf(number));

    [Fact]
    public void Water_with_glycol_does_not_freeze_as_water_does()
    {
        Assert.True(LineData.Freezes("Chilled water"));
        Assert.False(LineData.Freezes("water/glycol 40 %"));
        Assert.False(LineData.Freezes("nitrogen"));
        Assert.Equal(["gas", "hydrogen"], LineData.FluidsIn("Hydrogen-rich gas, vapour").Order());
    }
}
