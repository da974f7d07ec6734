using Rootgap.Measure;

namespace Rootgap.Sums;

/// <summary>One leg of a sling as the load hangs.</summary>
/// <param name="Length">From the hook to its point, mm.</param>
/// <param name="Tension">As kg hung on it.</param>
/// <param name="ToLevel">Its angle to the level, radians.</param>
public readonly record struct SlingLeg(double Length, double Tension, double ToLevel)
{
    /// <summary>What it lifts of the load, kg.</summary>
    public double Lifts => Tension * Math.Sin(ToLevel);
}

/// <summary>A load that hangs freely from a hook by two legs.</summary>
/// <param name="Tilt">How far the line through the points is off level, radians; above zero the second point hangs higher.</param>
public sealed record Hanging(double Mass, SlingLeg First, SlingLeg Second, double Tilt)
{
    public bool IsSlack => First.Tension < 0 || Second.Tension < 0;

    public double Flattest => Math.Min(First.ToLevel, Second.ToLevel);
}

/// <summary>Statics of slings: the legs weigh nothing, the load is stiff, the hook hangs freely.</summary>
public static class Slings
{
    /// <summary>Legs flatter than this are not used here, radians (riggers' charts: 60 degrees preferred, 45 the usual least, never under 30).</summary>
    public const double Flattest = 45 * Math.PI / 180;

    /// <summary>What is added to an estimated mass.</summary>
    public const double Allowance = 0.10;

    public const string Source = "statics of a load that hangs freely";

    public const string TwoCarry = "of three or four legs two are counted to carry (riggers' practice): the others may hang slack";

    /// <summary>What each of two points lifts where the load hangs straight down from both, kg.</summary>
    /// <param name="centre">From the first point, mm.</param>
    public static (double First, double Second) Lifts(double mass, double span, double centre) => (mass * (span - centre) / span, mass * centre / span);

    /// <summary>A load on two legs.</summary>
    /// <param name="span">Between the points, mm.</param>
    /// <param name="centre">Centre of mass along the line from the first point to the second, mm.</param>
    /// <param name="below">How far it hangs below that line, mm.</param>
    /// <param name="first">Length of the first leg, mm.</param>
    /// <returns>Null where the legs do not reach each other over the load.</returns>
    public static Hanging? Of(double mass, double span, double centre, double below, double first, double second)
    {
        if (!(span > 0 && first > 0 && second > 0))
            return null;
        var x = ((first * first) - (second * second) + (span * span)) / (2 * span);
        var square = (first * first) - (x * x);
        if (square <= 0)
            return null;
        var y = Math.Sqrt(square);

        // In the plane of the legs: x along the points, y square to them. Upright is from the centre of mass to the hook.
        var (upX, upY) = (x - centre, y + below);
        var up = Math.Sqrt((upX * upX) + (upY * upY));
        if (up <= 0)
            return null;
        (upX, upY) = (upX / up, upY / up);
        var (aX, aY) = (x / first, y / first);
        var (bX, bY) = ((x - span) / second, y / second);
        var det = (aX * bY) - (bX * aY);
        var (t1, t2) = (mass * ((upX * bY) - (bX * upY)) / det, mass * ((aX * upY) - (upX * aY)) / det);
        return new(mass, new(first, t1, Math.Asin((aX * upX) + (aY * upY))), new(second, t2, Math.Asin((bX * upX) + (bY * upY))), Math.Abs(upX) < Tolerance.Noise ? 0 : Math.Asin(upX));
    }

    /// <summary>The lengths of two legs for a hook so high over the points that the load hangs level, mm.</summary>
    public static (double First, double Second) Level(double span, double centre, double height) =>
        (Math.Sqrt((centre * centre) + (height * height)), Math.Sqrt(((span - centre) * (span - centre)) + (height * height)));

    /// <summary>A load that hangs as it is drawn from a hook over its centre of mass, its two points not at one height.</summary>
    /// <param name="span">Between the points, level, mm.</param>
    /// <param name="centre">Centre of mass from the first point, level, mm.</param>
    /// <param name="first">Height of the hook over the first point, mm.</param>
    /// <param name="second">Height of the hook over the second point, mm.</param>
    public static Hanging? AsDrawn(double mass, double span, double centre, double first, double second)
    {
        var (a, b) = (Level(span, centre, first).First, Level(span, centre, second).Second);
        var line = Math.Sqrt((span * span) + ((first - second) * (first - second)));
        // The hook stands over the centre of mass, so that its own height changes nothing: it is put on the line of the points.
        return Of(mass, line, centre * line / span, 0, a, b);
    }

    /// <summary>The tensions of two legs at angles of their own to the level, the hook over the centre of mass, kg.</summary>
    public static (double First, double Second) OfAngles(double mass, double first, double second) =>
        (mass * Math.Cos(second) / Math.Sin(first + second), mass * Math.Cos(first) / Math.Sin(first + second));

    /// <summary>The tension of a leg where two carry the load alike at an angle to the level, kg.</summary>
    public static double OfTwo(double mass, double toLevel) => mass / 2 / Math.Sin(toLevel);

    public static IEnumerable<Sum> Sums(Hanging h)
    {
        yield return new("out of level", h.Tilt, Quantity.Angle, "the hook stands over the centre of mass; above 0 the second point is higher", Source);
        foreach (var (name, leg) in new[] { ("leg 1", h.First), ("leg 2", h.Second) })
        {
            yield return new($"length of {name}", leg.Length, Quantity.Length, "", "");
            yield return new($"angle of {name} to the level", leg.ToLevel, Quantity.Angle, "", Source);
            yield return new($"{name} lifts", leg.Lifts, Quantity.Mass, "tension × sin of its angle", Source);
            yield return new($"tension of {name}", leg.Tension, Quantity.Mass, "as mass hung on it", Source);
        }
    }
}
