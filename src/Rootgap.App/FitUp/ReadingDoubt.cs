using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.App.FitUp;

/// <summary>A reading that can hardly be: asked about before it is kept, because a point left out or a figure too many is the commonest slip.</summary>
/// <param name="Question">What is asked, with what should be there.</param>
/// <param name="Meant">What was meant, probably; null where nothing near lies close to what is asked for.</param>
public sealed record ReadingDoubt(string Question, double? Meant)
{
    /// <summary>So many times the allowance is more than a joint on its stands can be out and still be read.</summary>
    private const double Far = 8;

    /// <summary>Nearer than this nothing is doubted, mm: a joint that is not yet brought together reads far off.</summary>
    private const double Near = 6, NearAngle = 4 * Math.PI / 180;

    /// <summary>Null where there is nothing to ask.</summary>
    public static ReadingDoubt? Of(Target target, double value, Units units)
    {
        var off = Math.Abs(value - target.Value);
        var isGap = target.Reading.Name.Equals("gap", StringComparison.OrdinalIgnoreCase);
        var isNegative = isGap && value < 0;
        var least = Math.Max(Far * target.Allow, target.Reading.IsAngle ? NearAngle : isGap ? Near : Math.Max(Near, Math.Abs(target.Value) * 0.05));
        if (!isNegative && off <= least)
            return null;
        double? meant = null;
        foreach (var other in new[] { value / 10, value * 10, -value, value / 100 })
        {
            if (Math.Abs(other - target.Value) <= 3 * target.Allow && (meant is not { } best || Math.Abs(other - target.Value) < Math.Abs(best - target.Value)))
                meant = other;
        }

        var words = FitWords.In(units);
        var (read, asked) = (words.Show(target.Reading, value), words.Show(target.Reading, target.Value));
        return new($"{read}? {(isNegative ? "A gap is not less than nothing." : $"The {target.Reading.Name.ToLowerInvariant()} asked is {asked}.")} Which is it?", meant);
    }
}
