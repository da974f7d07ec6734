using MathNet.Numerics.LinearAlgebra;
using Rootgap.FitUp;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.FitUp;

/// <summary>The short cards of the packet bear few readings; what they leave out must not be needed to see an error.</summary>
public class TellingReadingsTest
{
    public static TheoryData<string> Samples => ["chilled-supply", "compressed-air", "drain", "sea-water"];

    // Least squares from first principles: readings with their usual spread, slopes by stepping the error, the prior that the diagnosis has; covariance is the inverse of what they tell.
    private static Vector<double> Spread(FitUpJob card, IEnumerable<Target> read)
    {
        var told = Matrix<double>.Build.DenseDiagonal(6, 6, i => 1 / (PoseError.Prior[i] * PoseError.Prior[i]));
        foreach (var target in read.Where(t => !t.Reading.IsOfPart))
        {
            var slope = Vector<double>.Build.Dense(6, i =>
            {
                var step = i < 3 ? 1e-3 : 1e-6;
                double At(double by) => target.Reading.Measure(card.Standing, PoseError.From([.. Enumerable.Range(0, 6).Select(k => k == i ? by : 0)]));
                return (At(step) - At(-step)) / (2 * step);
            });
            told += slope.OuterProduct(slope) / (target.Reading.Sd * target.Reading.Sd);
        }

        return told.Inverse().Diagonal().PointwiseSqrt();
    }

    [Theory]
    [MemberData(nameof(Samples))]
    public void The_readings_of_a_short_card_see_an_error_as_well_as_its_limit_asks_or_as_all_of_them_could(string sample)
    {
        var f = SampleFile.Clean.Single(s => s.Name == sample).Packet().Fabrication;
        var fitting = new FitJoints(f);
        var count = 0;
        foreach (var card in f.Spools.Where(s => !FitUpPages.HasRowsOnly(s)).SelectMany(s => FitUpPages.Cards(fitting, f, s)).Where(c => c.Targets.Count > 0))
        {
            var some = FitUpCard.Read(card with { IsShort = true });
            Assert.Subset(card.Fields.Select(t => t.Reading).ToHashSet(), some.Select(t => t.Reading).ToHashSet());
            var t = card.Limits;
            double[] limits = [t.Shift.Value, t.Shift.Value, t.Gap.Value, t.Tilt.Value, t.Tilt.Value, double.IsInfinity(t.Roll.Value) ? t.Tilt.Value : t.Roll.Value];
            var (few, all) = (Spread(card, some), Spread(card, card.Targets));
            for (var i = 0; i < 6; i++)
                Assert.True(few[i] <= Math.Max(0.6 * limits[i], 2 * all[i]), $"{card.Step.Joint.Name}, {PoseError.Names[i]}: {few[i]:0.####} of {limits[i]:0.####}, {all[i]:0.####} with all");
            count++;
        }

        Assert.True(count > 3);
    }
}
