using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The share of welds to be examined is missing or odd.</summary>
internal sealed class ExaminationOdd : Rule
{
    public override string Name => "examination-share-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A section of ASME B31 is named, something is welded, and no share of welds to be examined; or the share is none of 5, 10, 20, 25, 50, 100 percent and the like; a warning where it is under the 5 % of ASME B31.3.";
    public override string Why => "ASME B31.3 341.4 asks for 5 % of welds in normal service, all of them in severe; the contract says which. The engineer decides.";

    /// <summary>What ASME B31.3 341.4.1 asks of the welds of normal service at the least, percent.</summary>
    private const double Normal = 5;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (service.Examination.Length == 0)
        {
            // Where nothing is welded no share is wanted, and codes beside ASME B31 have shares of their own.
            if (service.Code.Contains("31.", StringComparison.Ordinal) && fabrication.Route.Joints.Any(j => j.IsWeld))
                yield return Found(service.Source, "code", $"{service.Code} is named, and no share of welds to be examined.", "Add `examination:`, as the contract has it.", severity: Severity.Note);
            yield break;
        }

        if (ServiceFigures.Percent(service.Examination) is { } percent && (percent is < 0 or > 100 || percent % 5 != 0))
            yield return Found(service.Source, "examination", Say($"{service.Examination} of the welds to be examined is an odd share."), "Ask whether a digit slipped.", severity: percent is < 0 or > 100 || IsUnderNormal(percent) ? Severity.Warn : Severity.Note);

        bool IsUnderNormal(double percent) => percent is > 0 and < Normal && service.Code.Contains("31.3", StringComparison.Ordinal);
    }
}
