using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Forecasting;

/// <summary>What is to be reckoned with when a line is forecast.</summary>
/// <param name="AsWelded">Nothing was checked in the shop: every weld, cut and fitting counts by itself.</param>
/// <param name="Draws">How many lines are drawn by chance; 0 for the first-order figures alone.</param>
/// <param name="Seed">The same seed draws the same lines.</param>
public sealed record ForecastAsked(bool AsWelded = false, int Draws = 10_000, int Seed = 1)
{
    /// <summary>Draws that are tried for a close.</summary>
    public const int CloseDraws = 1000;

    /// <summary>Ends of spools that were measured after welding, by name (<c>W11 of 3</c>): how far each is from the drawing in its joint's axes, and how well that is known (mm, radians).</summary>
    public IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> AsBuilt { get; init; } = new Dictionary<string, (PoseError Off, PoseError Sd)>(StringComparer.Ordinal);

    /// <summary>Whether the chance to close is worked out.</summary>
    public bool Chances { get; init; } = true;
}

/// <summary>Standard deviations of an opening: x toward 3 o'clock, y toward 12, z along (mm), and the turns about them (radians).</summary>
public readonly record struct OpeningDeviation(double X, double Y, double Z, double Rx, double Ry, double Rz)
{
    internal static OpeningDeviation Of(IReadOnlyList<double> variances) => new(
        Math.Sqrt(variances[0]), Math.Sqrt(variances[1]), Math.Sqrt(variances[2]), Math.Sqrt(variances[3]), Math.Sqrt(variances[4]), Math.Sqrt(variances[5]));

    public double this[int i] => new PoseError(X, Y, Z, Rx, Ry, Rz)[i];
}

/// <summary>How much of one figure's variance comes from one error.</summary>
/// <param name="At">Place: <c>W3</c>, <c>spool 2</c>, <c>B1 of other</c>.</param>
/// <param name="Error">Kind: <c>rx</c>, <c>shrinkage</c>, <c>outside z</c>.</param>
/// <param name="Of">x, y, z, rx, ry or rz of the opening.</param>
public readonly record struct ErrorShare(string At, string Error, string Of, double Share);

/// <summary>A direction square to what final-fit welds on the way can take up.</summary>
/// <param name="Direction">Unit, plant axes.</param>
/// <param name="Opening95">What the opening stays within along it in 95 of 100, mm.</param>
/// <param name="TakenUp">What bolted joints and hi-lo on the way take up along it, mm; where no chances were asked for, no more than <paramref name="Opening95"/>.</param>
/// <param name="Legs">Rows of the legs on which a final-fit weld would take it up.</param>
public sealed record MissingDirection(Vector Direction, double Opening95, double TakenUp, IReadOnlyList<SourceRow> Legs);

/// <summary>Something that would better the chance to close, the cheapest first.</summary>
public sealed record Betterment(string What, double Closes);

/// <summary>An opening before anything is built: of a final-fit weld, or of the last joint of a loop without one.</summary>
public sealed record ForecastOpening
{
    public required Joint Joint { get; init; }

    /// <summary>The joints with things outside between which it lies; the first side's first.</summary>
    public required IReadOnlyList<Joint> From { get; init; }

    public required JointAxes Axes { get; init; }
    public required OpeningDeviation FirstOrder { get; init; }

    /// <summary>How the opening stands already by what was measured of the spools: mm and radians; nothing where none was.</summary>
    public PoseError Known { get; init; }

    /// <summary>Null where nothing was drawn.</summary>
    public required OpeningDeviation? Draws { get; init; }

    /// <summary>What z stays within in 95 of 100, either way, mm.</summary>
    public required double Length95 { get; init; }

    /// <summary>The same of x and of y, mm, and of the tilt, radians.</summary>
    public required double Across95X { get; init; }

    public required double Across95Y { get; init; }

    public required double Tilt95 { get; init; }

    /// <summary>Largest first.</summary>
    public required IReadOnlyList<ErrorShare> Shares { get; init; }

    /// <summary>Directions of the pipes on the way that no final-fit weld on it takes up.</summary>
    public required IReadOnlyList<MissingDirection> Missing { get; init; }

    /// <summary>How far the opening may stand toward 3 o'clock and toward 12 and still be taken up, mm.</summary>
    public required double TakenUpX { get; init; }

    public required double TakenUpY { get; init; }

    /// <summary>Why the draws are off the first-order figures by over 5 %; empty where they agree.</summary>
    public string WhyNot { get; init; } = "";
}

/// <summary>A final-fit weld before anything is built.</summary>
/// <param name="Opening">How it may stand.</param>
/// <param name="ExtraNeeded">Pipe to leave on so that 99 in 100 are long enough, mm.</param>
/// <param name="Extra">Pipe that the drawing leaves on, mm.</param>
/// <param name="Closes">Share of the lines drawn that close; null where it was not asked for.</param>
public sealed record ForecastClosing(ForecastOpening Opening, double ExtraNeeded, double Extra, double? Closes)
{
    /// <summary>What would better it, the cheapest first.</summary>
    public IReadOnlyList<Betterment> Better { get; init; } = [];
}

/// <summary>How far a line may be out before any steel is cut. See docs/forecast.md for the model; its definitions are those of the tables there.</summary>
public sealed record Forecast
{
    public required ForecastAsked Asked { get; init; }
    public required IReadOnlyList<ForecastClosing> Closings { get; init; }

    /// <summary>Loops between two things outside without a final-fit weld; the opening is that of the later outer joint before it is made.</summary>
    public required IReadOnlyList<ForecastOpening> Rigid { get; init; }

    /// <summary>The same as if every spool were as drawn; null where none was measured.</summary>
    public Forecast? AsDrawn { get; init; }

    public static Forecast Of(Fabrication fabrication, ForecastAsked asked)
    {
        var forecast = new ForecastWork(fabrication, asked).All();
        return asked.AsBuilt.Count == 0 ? forecast : forecast with { AsDrawn = new ForecastWork(fabrication, asked with { AsBuilt = new Dictionary<string, (PoseError Off, PoseError Sd)>(StringComparer.Ordinal) }).All() };
    }
}
