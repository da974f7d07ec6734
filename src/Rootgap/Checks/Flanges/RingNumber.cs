using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A ring of another number than the flanges' groove.</summary>
internal sealed partial class RingNumber : Rule
{
    public override string Name => "ring-number";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A ring gasket is listed with a number (R45, RX45) that is not the one of its size and class.";
    public override string Why => "ASME B16.5 tables 5 number the grooves, and ASME B16.20 the rings that fit them: a ring of another number does not go in, or does not seal.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var item in fabrication.Route.Drawing.Materials)
        {
            if (item.Words.Ware != Ware.Gasket || item.Size.IsNone || item.Class.Length == 0 || Number().Match(item.What) is not { Success: true } ring || FlangeTable.GrooveNumber.Of(item.Size, @class: item.Class) is not { } groove)
                continue;
            var (listed, right) = (int.Parse(ring.Groups["number"].Value, CultureInfo.InvariantCulture), (int)Math.Round(groove.Mm ?? 0));
            if (right > 0 && listed != right)
                yield return Found(item.Source, "what", Say($"Item {item.Item}, {item.What}: the ring of NPS {item.Size} class {item.Class} is R{right}."), "Look whether number, size or class of the row is wrong.", "The ring does not fit the groove.");
        }
    }

    /// <summary>R45; R 45; RX-45; R-45.</summary>
    [GeneratedRegex("(?<![A-Za-z])RX?[- ]?(?<number>\\d{2,3})(?!\\d)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Number();
}
