namespace Rootgap.Cli.Tests;

public class FitOrderTest
{
    [Fact]
    public void The_order_is_told_with_set_ups_and_a_fitter_may_give_his_own()
    {
        using var shop = new Shop();
        var file = shop.Write("a.yaml", Shop.Drawing("A-1"));
        var planned = shop.Run("fit-order", file);
        Assert.Equal(0, planned.Exit);
        Assert.Contains("3 joints", planned.Out, StringComparison.Ordinal);
        var own = shop.Run("fit-order", file, "--spool", "1", "--order", "W3, W2, W1 level");
        Assert.Equal(0, own.Exit);
        Assert.Contains("1. W3", own.Out, StringComparison.Ordinal);
        Assert.Contains("3. W1", own.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("W3, W2", "leaves out")]
    [InlineData("W3, W2, W9", "no weld of this spool")]
    [InlineData("W3, W3, W1", "twice")]
    [InlineData("W3 askew, W2, W1", "not a set-up")]
    public void A_wrong_order_is_refused_with_what_is_wrong(string order, string words)
    {
        using var shop = new Shop();
        var call = shop.Run("fit-order", shop.Write("a.yaml", Shop.Drawing("A-1")), "--spool", "1", "--order", order);
        Assert.Equal(64, call.Exit);
        Assert.Contains(words, call.Error, StringComparison.Ordinal);
    }
}
