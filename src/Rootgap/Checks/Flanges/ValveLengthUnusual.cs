using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A face to face that no valve of its size has.</summary>
internal sealed class ValveLengthUnusual : Rule
{
    private const double Off = 0.35;
    private const double LeastShare = 0.15;
    private const double MostShare = 12;

    /// <summary>Between the ends of a socket-weld or threaded valve lie its two sockets: it is no shorter than its pipe's outside (common practice).</summary>
    private const double LeastScrewed = 1;

    public override string Name => "valve-length-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A valve's stated length is less than 65 % or more than 135 % of the table's, or, over 5 % off it, just that of another class or kind; or, where no table has it, out of all proportion to its size; of a flanged in-line item, less than 0.75 of its size (of an expansion joint, 0.3), of one that is a valve by its words, over 12 times its size and 150 more; of a blind or an orifice plate, more than 0.6 of its pipe's outside.";
    public override string Why => "Makers keep near to the table (ASME B16.10), and a slipped digit spoils both pieces beside the valve (common practice).";

    /// <summary>Two flanges and a body take about so much of a nominal size at least (common practice).</summary>
    private const double LeastItem = 0.75;

    /// <summary>The rings of a rubber joint are thin: 250 for NPS 20, 300 for NPS 30 (from memory).</summary>
    private const double LeastBellows = 0.3;

    /// <summary>Thicker than so much of its pipe no plate between flanges is, for no class (common practice; the thickest line blinds of class 2500 are about 0.4), nor one of so many mm too thick.</summary>
    private const double MostPlate = 0.6, ThinPlate = 20;

    private static readonly string[] PlateWords = ["blind", "orifice plate", "blank", "paddle"];

    private const double OwnLength = 0.05;

    /// <summary>Makers' tolerance on the length: ASME B16.10 2.5, mm.</summary>
    private const double Within = 1.6;

    /// <summary>The valve of its size of which the stated length is, by the table, where it is not its own.</summary>
    private static string? Another(Valve valve, double stated, double table, Units units)
    {
        if (Math.Abs(stated - table) <= table * OwnLength)
            return null;
        foreach (var kind in Enum.GetValues<ValveKind>())
        {
            foreach (var @class in (string[])[valve.Line.Class, "150", "300", "600", "900", "1500"])
            {
                if ((valve with { Kind = kind, Line = valve.Line with { Class = @class } }).TableLength(units) is { } length && Math.Abs(length - stated) <= Within)
                    return $"valve {Words.Of(kind)} of class {@class}";
            }
        }

        return null;
    }

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c is InLineItem { IsPlate: false, Ends: FittingEnds.Flanged } item && item.Path is > 0 and var over && over < c.Size.Inches * LengthText.Inch * (Standards.LineData.IsBellows(item.What) ? LeastBellows : LeastItem))
                yield return Found(c.Source, "face to face", Say(fabrication.Units, $"This {item.What} NPS {c.Size} is {over:len} from face to face, less than its own two flanges take."), "See the vendor's drawing: look whether the point slipped.", "The pieces beside it are cut for a length that it has not.");
            if (c is InLineItem { IsPlate: true } plate && PlateWords.Any(w => plate.What.Contains(w, StringComparison.OrdinalIgnoreCase)) && plate.Path > Math.Max(MostPlate * c.Outside, ThinPlate))
                yield return Found(c.Source, "face to face", Say(fabrication.Units, $"This {plate.What} NPS {c.Size} is {plate.Path:len} thick: no plate between flanges is."), "Look whether the point slipped.", "The pieces beside it are cut for a thickness that it has not.");
            if (c is InLineItem { IsPlate: false } machine && machine.What.Contains("valve", StringComparison.OrdinalIgnoreCase) && machine.Path > (c.Size.Inches * LengthText.Inch * MostShare) + 150)
                yield return Found(c.Source, "face to face", Say(fabrication.Units, $"{machine.What} NPS {c.Size} of {machine.Path:len} is out of all proportion."), "See the vendor's drawing: look whether the point slipped.", "The pieces beside it are cut for a length that it has not.");
            if (c is not Valve { Drawn: ValvePoint { FaceToFace: { } stated } } valve)
                continue;
            if (valve.TableLength(fabrication.Units) is { } table)
            {
                if (Math.Abs(stated - table) <= table * Off && Another(valve, stated, table, fabrication.Units) is { } another)
                    yield return Found(c.Source, "face to face", Say(fabrication.Units, $"{stated:len} is the length of a {another}; that of this {valve.Name} NPS {c.Size} class {c.Line.Class} is {table:len} by the table."), "See the vendor's drawing.", "The pieces beside the valve are cut for a length that it has not.");
                else if (Math.Abs(stated - table) > table * Off)
                    yield return Found(c.Source, "face to face", Say(fabrication.Units, $"This {valve.Name} NPS {c.Size} is {stated:len} long by the drawing; the table has {table:len}."), "See the vendor's drawing.", "The pieces beside the valve are cut for a length that it has not.");
            }
            else if (stated < (valve.Ends is FittingEnds.Socket or FittingEnds.Threaded && c.Outside > 0 ? c.Outside * LeastScrewed : c.Size.Inches * LengthText.Inch * LeastShare) || stated > (c.Size.Inches * LengthText.Inch * MostShare) + 150)
            {
                yield return Found(c.Source, "face to face", Say(fabrication.Units, $"{c.Name} NPS {c.Size} of {stated:len} is out of all proportion."), "See the vendor's drawing.", "The pieces beside the valve are cut for a length that it has not.");
            }
        }
    }
}
