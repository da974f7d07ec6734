using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class SkewLengthMisstated : Rule
{
    /// <summary>A vector whose longest part is under this is a mere direction, mm.</summary>
    private const double ReadsAsDimensions = 50;

    /// <summary>A vector whose length is this near to the distance, as a ratio, is meant as its dimensions.</summary>
    private const double NearRatio = 2.5;

    public override string Name => "skew-length-misstated";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A skewed leg is given with its dimensions along the axes and with a true length, and the two do not agree.";
    public override string Why => "Run, rise and roll fix the true length: it is the root of the sum of their squares (geometry).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (!leg.IsSkew || leg.MakeUp || leg.By is not { } by || leg.Slope != 0)
                    continue;
                var (go, own) = (leg.Go, leg.Go.Length);
                var most = Math.Max(Math.Abs(go.X), Math.Max(Math.Abs(go.Y), Math.Abs(go.Z)));
                var ratio = by / own;
                var isDimensions = most >= ReadsAsDimensions && (ratio is > 1 / NearRatio and < NearRatio || IsNear(ratio, 10) || IsNear(ratio, 0.1) || IsNear(ratio, LengthText.Inch) || IsNear(ratio, 1 / LengthText.Inch));
                if (!isDimensions || Math.Abs(by - own) <= Tolerance.Closing)
                    continue;
                yield return Found(leg.Source, "by", FormattableString.Invariant($"{Axes.Say(go)} make {own:0.#}, {by:0.#} stated: {Math.Abs(own - by):0.#} {(by < own ? "short" : "over")}{Guess(go, by)}."),
                    "Leave `by` out where the vector's lengths hold, or mend the vector.", "The piece is cut to one of the two, and the line misses by the difference.");
            }
        }
    }

    private static bool IsNear(double ratio, double times) => Math.Abs((ratio / times) - 1) < 0.01;

    /// <summary>What the stated length is instead, where that can be seen.</summary>
    private static string Guess(Vector go, double by)
    {
        var (x, y, z) = (Math.Abs(go.X), Math.Abs(go.Y), Math.Abs(go.Z));
        return Is(x + y + z) ? "; it is the lengths added up"
            : Is(Math.Sqrt((x * x) + (y * y))) && z > 0 ? "; it is the length in plan"
            : Is(x) || Is(y) || Is(z) ? "; it is one of the sides"
            : "";

        bool Is(double length) => length > 0 && Math.Abs(length - by) <= Tolerance.Closing;
    }
}
