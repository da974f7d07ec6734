using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A face to face that no valve of its size has.</summary>
internal sealed class ValveLengthUnusual : Rule
{
    private const double Off = 0.45;
    private const double LeastShare = 0.15;
    private const double MostShare = 12;

    public override string Name => "valve-length-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A valve's stated length is less than 55 % or more than 145 % of the table's; or, where no table has it, out of all proportion to its size.";
    public override string Why => "Makers keep near to the table (ASME B16.10), and a slipped digit spoils both pieces beside the valve (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var c in fabrication.Route.Components)
        {
            if (c is not Valve { Drawn: ValvePoint { FaceToFace: { } stated } } valve)
                continue;
            if (valve.TableLength(fabrication.Units) is { } table)
            {
                if (Math.Abs(stated - table) > table * Off)
                    yield return Found(c.Source, "face to face", Say(fabrication.Units, $"This {valve.Name} NPS {c.Size} is {stated:len} long by the drawing; the table has {table:len}."), "See the vendor's drawing.", "The pieces beside the valve are cut for a length that it has not.");
            }
            else if (stated < c.Size.Inches * LengthText.Inch * LeastShare || stated > (c.Size.Inches * LengthText.Inch * MostShare) + 150)
            {
                yield return Found(c.Source, "face to face", Say(fabrication.Units, $"{c.Name} NPS {c.Size} of {stated:len} is out of all proportion."), "See the vendor's drawing.", "The pieces beside the valve are cut for a length that it has not.");
            }
        }
    }
}
