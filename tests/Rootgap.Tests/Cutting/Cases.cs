using System.Globalization;

namespace Rootgap.Tests.Cutting;

/// <summary>How many random cases a law is tried on: few in the suite; ROOTGAP_CASES asks for more.</summary>
internal static class Cases
{
    public static int Of(int inTheSuite) =>
        int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? Math.Max(n, inTheSuite) : inTheSuite;
}
