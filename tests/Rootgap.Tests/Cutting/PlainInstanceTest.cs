using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

public class PlainInstanceTest
{
    [Fact]
    public void Decimals_are_whole_numbers_of_a_smaller_unit()
    {
        // Three times 33.4 is 100.2: too long for 100; two a bar.
        var solution = PlainInstance.Parse("1\n100\n33.4 4\n").Solve(TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        Assert.Equal((2, 2, true), (solution.Bars, solution.Bound, solution.Proven));
        var pattern = Assert.Single(solution.Patterns);
        Assert.Equal((2, (33.4m, 2)), (pattern.Count, Assert.Single(pattern.Cuts)));
    }

    [Fact]
    public void Nothing_wanted_needs_no_bar() =>
        Assert.Equal(0, PlainInstance.Parse("1\n100\n30 0\n").Solve(TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken).Bars);

    [Theory]
    [InlineData("", "line 1")]
    [InlineData("x\n100\n30 1\n", "line 1")]
    [InlineData("1\n-100\n30 1\n", "line 2")]
    [InlineData("1\n100\n130 1\n", "line 3")]
    [InlineData("1\n100\n0 1\n", "line 3")]
    [InlineData("1\n100\n30 -1\n", "line 3")]
    [InlineData("1\n100\n30\n", "line 3")]
    [InlineData("2\n100\n30 1\n", "2 kinds")]
    [InlineData("1\n100\n30 1\n20 1\n", "line 4")]
    public void A_slip_in_an_instance_is_told_with_its_line(string text, string says) =>
        Assert.Contains(says, Assert.Throws<FormatException>(() => PlainInstance.Parse(text)).Message, StringComparison.Ordinal);
}
