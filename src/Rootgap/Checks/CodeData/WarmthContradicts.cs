using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Insulation, tracing, paint and heat treatment that the temperature contradicts.</summary>
internal sealed partial class WarmthContradicts : Rule
{
    /// <summary>Colder than this nothing is insulated to stay hot, C (common practice).</summary>
    private const double Cold = 5;

    /// <summary>Hotter than this nothing is insulated to stay cold, C (common practice).</summary>
    private const double Hot = 60;

    /// <summary>Cooler than this nobody is burnt who touches it, C (common practice: 60 C, less some for doubt).</summary>
    private const double Touched = 45;

    /// <summary>A title speaks of how the line works, colder than it is designed for by a little at most, C.</summary>
    private const double SaidOtherwise = 5;

    /// <summary>The coldest temperature under nought that a text names, C; null where it names none.</summary>
    private static double? SaidCold(string text) => Minus().Matches(text).Select(m => Celsius(m, sign: -1)).Where(c => c < Freezes).Cast<double?>().Min();

    /// <summary>-33 C; minus 33 C.</summary>
    [GeneratedRegex("""(?<![\w.-])(?:-|minus )\s?(?<figure>\d+(?:\.\d+)?)\s*(?:°|deg)?\s*(?<unit>[CF])\b""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Minus();

    /// <summary>Against water that comes in from the air: only cold lines have that (common practice).</summary>
    private static readonly string[] Barriers = ["vapour barrier", "vapor barrier", "vapour stop", "anti-condensation", "antisweat", "anti-sweat"];

    /// <summary>Of water, C.</summary>
    private const double Freezes = 0;

    /// <summary>A design temperature may be so much over that at which water boils at the design pressure, C: for steaming out, and where the two are of different cases (common practice).</summary>
    private const double OverBoiling = 60;

    /// <summary>No heat treatment after welding is cooler, nor hotter, C (common practice; ASME B31.3 table 331.1.1 asks 595 C and more of most steels, and stainless is annealed at up to 1,150).</summary>
    private const double LeastTreated = 150;

    private const double MostTreated = 1200;

    public override string Name => "warmth-contradicts";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The insulation is for hot lines and the design temperature under 5 C, guards people on a line under 45 C, or for cold lines and over 60 C; a line with insulation for the cold is traced, or made of steel for the cold and never under 0 C; title or fluid name a temperature under nought, and the line is designed for none so cold; water is designed for less than 0 C, or for over 60 C more than it boils at by its design pressure; the paint bears less than the design temperature; or the temperature of the heat treatment is under 150 C or over 1200 C.";
    public override string Why => "Insulation for cold lines has a vapour barrier that heat destroys, that for hot lines draws water on cold ones, and paint peels above what it bears (common practice). One of the two was copied from another line, or a digit slipped.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        var (hottest, coldest) = (ServiceFigures.Celsius(service.DesignTemperature), ServiceFigures.Coldest(service.DesignTemperature));
        var (isForHot, isForCold) = (Names(service.Insulation, "hot"), Names(service.Insulation, "cold") || Array.Exists(Barriers, b => service.Insulation.Contains(b, StringComparison.OrdinalIgnoreCase)));
        if (isForHot && !isForCold && hottest is < Cold and var cold)
            yield return Found(service.Source, "insulation", Say(fabrication.Units, $"The insulation is for a hot line ({service.Insulation}), and the line is {cold:celsius} at most."), "Look in the line list which of the two is right.", "Water freezes under insulation without a vapour barrier.");
        if (service.Insulation.Contains("personnel", StringComparison.OrdinalIgnoreCase) && hottest is < Touched && coldest is > Freezes && hottest is { } mild)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"The insulation is to keep people from being burnt ({service.Insulation}), and the line is {mild:celsius} at most."), "Look whether a digit of the temperature was lost.", "Metal, bolts and gaskets are chosen for another line.");
        if (isForCold && !isForHot && coldest is > Hot and var hot)
            yield return Found(service.Source, "insulation", Say(fabrication.Units, $"The insulation is for a cold line ({service.Insulation}), and the line is {hot:celsius}."), "Look in the line list which of the two is right.", "Heat destroys it.");
        if (isForCold && !isForHot && Metals.IsMadeForCold(fabrication.Route.Drawing.Line.Material) && coldest is > 0 and var warm)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"Pipe of {fabrication.Route.Drawing.Line.Material} and the insulation are for a cold line, and the line is {warm:celsius}."), "Look whether a minus was lost.", "Metal, bolts and gaskets are chosen for a warm line.");
        if (Array.Find([fabrication.Route.Drawing.Title, service.Fluid], t => SaidCold(t) is { } c && coldest > c + SaidOtherwise) is { } says)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"\"{says}\" speaks of {SaidCold(says)!.Value:celsius}, and the line is designed for {coldest!.Value:celsius}."), "Look whether a minus was lost, or give both ends: -40 to 40 C.", "Metal, bolts and gaskets are chosen for a warm line.");
        if (hottest is < Freezes and var frozen && LineData.Freezes(service.Fluid))
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"The line carries {service.Fluid}, and is designed for {frozen:celsius} at most: it is frozen."), "Look whether a digit or the unit slipped.");
        if (Array.Exists(service.Fluid.Split(' ', ',', '-'), w => w.Equals("water", StringComparison.OrdinalIgnoreCase)) && hottest is { } hottestWater && ServiceFigures.Bar(service.DesignPressure) is > 0 and var gauge && gauge + ServiceFigures.Atmosphere < Fluids.CriticalBar
            && Fluids.SteamCondenses(gauge + ServiceFigures.Atmosphere) is var boils && hottestWater > boils + OverBoiling)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"The line carries {service.Fluid} and is designed for {hottestWater:celsius}; at its design pressure of {service.DesignPressure} water boils at {boils:celsius}."), "Look whether a digit or the unit slipped.", "Metal, bolts and gaskets are chosen for another line.");
        if (isForCold && !isForHot && service.Tracing.Length > 0 && !service.Tracing.StartsWith("no", StringComparison.OrdinalIgnoreCase))
            yield return Found(service.Source, "tracing", $"The line is traced ({service.Tracing}), and its insulation is for a cold line ({service.Insulation}).", "Look in the line list which of the two is right.");
        if (Bears(service.Paint) is { } bears && hottest > bears + 0.5)
            yield return Found(service.Source, "paint", Say(fabrication.Units, $"The paint bears {bears:celsius} ({service.Paint}), and the line is {hottest.Value:celsius}."), "Ask for the paint system of this temperature.", "The paint peels, and the pipe rusts under it.");
        if (!service.IsHeatTreated)
            yield break;
        foreach (var treated in Temperatures().Matches(service.HeatTreatment).Select(m => Celsius(m)).Where(t => t is < LeastTreated or > MostTreated).Take(1))
            yield return Found(service.Source, "heat treatment", Say(fabrication.Units, $"Heat treatment at {treated:celsius} ({service.HeatTreatment}): the welds of pipe are treated hotter than {LeastTreated:celsius} and cooler than {MostTreated:celsius}."), "Look whether a digit or the unit slipped.");
    }

    private static bool Names(string text, string word) => text.Split(' ', ',', '-', '/', '(', ')').Any(w => w.Equals(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>What a paint bears by its own words, C; null where they do not say.</summary>
    private static double? Bears(string paint) => UpTo().Match(paint) is { Success: true } most ? Celsius(most) : null;

    private static double Celsius(Match match, int sign = 1)
    {
        var figure = sign * double.Parse(match.Groups["figure"].Value, CultureInfo.InvariantCulture);
        return match.Groups["unit"].Value is "F" or "f" ? (figure - 32) / 1.8 : figure;
    }

    /// <summary>Up to 120 C; max. 250 F.</summary>
    [GeneratedRegex("""\b(?:up to|max\.?|maximum|below|not over)\s*(?<figure>\d+(?:\.\d+)?)\s*(?:°|deg)?\s*(?<unit>[CF])\b""", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex UpTo();

    /// <summary>Figures with a unit of temperature.</summary>
    [GeneratedRegex("""(?<![\d.])(?<figure>\d+(?:\.\d+)?)\s*(?:°|deg)?\s*(?<unit>[CF])\b""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Temperatures();
}
