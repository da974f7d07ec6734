using System.Globalization;

namespace Rootgap.Tests;

/// <summary>How many cases a random test runs: few in the suite, as many as ROOTGAP_CASES says times more where somebody takes the time.</summary>
public static class Many
{
    private static readonly long Factor = long.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), NumberStyles.None, CultureInfo.InvariantCulture, out var factor) ? Math.Max(1, factor) : 1;

    public static long Times(long iter) => iter * Factor;
}
