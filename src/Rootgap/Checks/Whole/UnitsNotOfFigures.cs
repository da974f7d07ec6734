using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>The figures of the whole drawing are of the other unit: the one cause of whatever else its lengths would give, so it is told alone.</summary>
internal sealed class UnitsNotOfFigures : Rule
{
    /// <summary>One piece out of reason is a wrong figure; so many are a wrong unit.</summary>
    private const int Enough = 2;

    /// <summary>Rules whose findings are but what the wrong unit makes of the lengths. Told when the unit is mended, or when the drawing accepts it as it is.</summary>
    public static IReadOnlySet<string> Following { get; } = new HashSet<string>(StringComparer.Ordinal)
    {
        "piece-longer-than-stock", "leg-too-short-for-fittings", "pipe-too-short", "pipe-listed-short", "quantity-over", "quantity-short", "pipe-not-from-stock",
        "spool-over-length", "spool-over-width", "spool-over-height", "spool-over-mass", "spool-centre-off-pipe", "shop-weld-not-rollable", "long-leg-unsupported",
        "final-fit-direction-missing", "final-fit-extra-short", "no-final-fit", "final-fit-takes-up-nothing", "final-fit-pipe-short",
        "runs-through-another", "weld-out-of-reach", "welds-too-close", "branches-too-close", "branch-near-weld", "weld-under-pad", "point-in-fitting",
        "point-too-near", "figure-in-other-unit", "figure-ten-times-off", "closing-error-explained", "ends-nearly-meet", "hand-wheel-without-room",
        "stud-length", "support-on-fitting", "support-height-odd", "nipple-length",
    };

    /// <summary>No pipe is sold longer, mm (common practice: double random lengths are some 12 m).</summary>
    private const double LongestMade = 25000;

    /// <summary>Its name: what follows from it is left out while it stands.</summary>
    public const string Rule = "units-not-of-figures";

    public override string Name => Rule;
    public override Severity Severity => Severity.Stop;
    public override string Says => "The figures of the drawing make sense in the other unit only: `units: in` over figures in millimetres, or the other way round.";
    public override string Why => "Half the pieces and more could not be cut as the figures stand, and all of them could 25.4 times shorter or longer (common practice). What else the lengths would give is not told: it follows from this.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var times = drawing.Units == Units.Inches ? 1 / LengthText.Inch : LengthText.Inch;
        var (asWritten, otherwise) = (0, 0);
        var pieces = 0;
        foreach (var cut in fabrication.Cuts)
        {
            if (Otherwise(fabrication, cut, times) is not { } other)
                continue;
            pieces++;
            asWritten += CanBe(fabrication, cut.Length - cut.Extra - cut.Allowance) ? 0 : 1;
            otherwise += CanBe(fabrication, other) ? 0 : 1;
        }

        // A gasket's figure that only the other unit makes one tells the rest too.
        var isSure = asWritten >= Enough && asWritten * 2 >= pieces && otherwise == 0;
        if (!isSure && !(GasketTells(drawing, times) && (asWritten > otherwise || drawing.Shop.Stock.Max() > LongestMade)))
            return [];
        var (written, meant) = drawing.Units == Units.Inches ? ("inches", "millimetres") : ("millimetres", "inches");
        return
        [
            Found(drawing.Source, drawing.Source.Has("units") ? "units" : "drawing",
                isSure ? Say($"The drawing is in {written}, and its figures are of {meant}: {asWritten} of {pieces} pieces cannot be cut as they stand, and all could if the figures were {meant}.")
                    : Say(fabrication.Units, $"The drawing is in {written}, and its figures are of {meant}: a gasket is {drawing.Line.Gasket!.Value:small} thick so, and {(asWritten > otherwise ? Say($"{asWritten} of {pieces} pieces cannot be cut") : Say(fabrication.Units, $"stock {drawing.Shop.Stock.Max():len0} long"))}."),
                $"Write `units: {(drawing.Units == Units.Inches ? "mm" : "in")}` if the drawing is in {meant}, and check again: what else the lengths would give is not told till then.",
                "Every piece is cut 25.4 times too long or too short."),
        ];
    }

    /// <summary>The length of a piece if the bare figures of its legs were of the other unit, mm; null where a figure has its unit beside it or there is none.</summary>
    private static double? Otherwise(Fabrication fabrication, Cut cut, double times)
    {
        var run = fabrication.Route.Runs[cut.Pipe.Run];
        var length = cut.Length - cut.Extra - cut.Allowance;
        for (var i = cut.Pipe.FirstLeg; i <= cut.Pipe.LastLeg; i++)
        {
            var leg = run.Run.Legs[i];
            if (leg.By is null || leg.Source.Text("by") is not { } text || UnitsMixed.HasUnit(text))
                return null;
            length += run.Distances[i] * (times - 1);
        }

        return length;
    }

    /// <summary>Whether the line's gasket is none that is made as its figure stands, and one that is in the other unit.</summary>
    private static bool GasketTells(Drawing drawing, double times) =>
        drawing.Line.Gasket is { } gasket && GasketUnusual.IsOdd(gasket) && !GasketUnusual.IsOdd(gasket * times);

    private static bool CanBe(Fabrication fabrication, double length) => length > 0 && length <= fabrication.Route.Drawing.Shop.Stock.Max() + Tolerance.Noise;
}
