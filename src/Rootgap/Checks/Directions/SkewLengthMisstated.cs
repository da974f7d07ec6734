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
    private const double NearRatio = 1.5;

    public override string Name => "skew-length-misstated";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A skewed leg is given with its dimensions along the axes and with a true length, and the two do not agree.";
    public override string Why => "Run, rise and roll fix the true length: it is the root of the sum of their squares (geometry).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        foreach (var run in drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (!leg.IsSkew || leg.MakeUp || leg.By is not { } by || leg.Slope != 0)
                    continue;
                var (go, own) = (leg.Go, leg.Go.Length);
                if (Math.Abs(by - own) <= Tolerance.Closing || IsMereDirection(go, drawing.Units))
                    continue;
                var (ratio, guess) = (by / own, Guess(go, by));
                if (guess.Length == 0 && ratio is <= 1 / NearRatio or >= NearRatio && !IsNear(ratio, 10) && !IsNear(ratio, 0.1) && !IsNear(ratio, LengthText.Inch) && !IsNear(ratio, 1 / LengthText.Inch))
                    continue;
                yield return Found(leg.Source, "by", Say(fabrication.Units, $"{Axes.Say(fabrication.Units, go)} make {own:len}, {by:len} stated: {Math.Abs(own - by):len} {(by < own ? "short" : "over")}{guess}."),
                    "Leave `by` out where the vector's lengths hold, or mend the vector.", "The piece is cut to one of the two, and the line misses by the difference.");
            }
        }
    }

    /// <summary>A vector of small numbers, of one round number for all its parts, or of a round length as a program writes a unit vector, says only where the leg goes.</summary>
    private static bool IsMereDirection(Vector go, Units units)
    {
        var (x, y, z) = (Math.Abs(go.X), Math.Abs(go.Y), Math.Abs(go.Z));
        var most = Math.Max(x, Math.Max(y, z));
        var unit = units == Units.Inches ? LengthText.Inch : 1;
        return most < ReadsAsDimensions || IsRound(go.Length / unit) || (IsRound(most / unit) && Equal(x) && Equal(y) && Equal(z));

        bool Equal(double part) => part == 0 || part == most;
    }

    /// <summary>A power of ten.</summary>
    private static bool IsRound(double length) => Math.Pow(10, Math.Round(Math.Log10(length))) is var power && Math.Abs((length / power) - 1) < 1e-4;

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
