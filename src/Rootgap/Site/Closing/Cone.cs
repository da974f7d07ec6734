namespace Rootgap.Site.Closing;

/// <summary>One thing that must hold after a movement: the length of a few values is no more than a limit, which may shrink with another value.</summary>
/// <param name="Limit">As a function of the values; over 0 where it can hold at all.</param>
/// <param name="Values">What is measured against it: one or two numbers.</param>
/// <param name="Usual">The limit as it is printed, in the values' unit.</param>
internal sealed record Cone(string Joint, string What, Func<double[], double> Limit, Func<double[], double[]> Values, double Usual)
{
    /// <summary>How much of the limit is used: 1 is at it.</summary>
    public double Used(double[] v)
    {
        var values = Values(v);
        return Usual > 0 ? (Math.Sqrt(values.Sum(x => x * x)) + Usual - Limit(v)) / Usual : double.PositiveInfinity;
    }
}
