using Rootgap.FitUp;

namespace Rootgap.Tests.FitUp;

public class FitToleranceTest
{
    // PFI ES-3: 3 mm to NPS 10, 5 to 24, 6 to 36, and 2 more for each 12 in. above.
    [Theory]
    [InlineData(2, 3)]
    [InlineData(10, 3)]
    [InlineData(12, 5)]
    [InlineData(24, 5)]
    [InlineData(26, 6)]
    [InlineData(36, 6)]
    [InlineData(42, 8)]
    [InlineData(48, 8)]
    [InlineData(54, 10)]
    public void A_spool_is_as_long_as_its_size_allows(double nps, double mm) => Assert.Equal(mm, FitTolerance.Length(nps).Value);
}
