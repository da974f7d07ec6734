using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The share of welds to be examined is missing or odd.</summary>
internal sealed class ExaminationOdd : Rule
{
    public override string Name => "examination-share-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A code is named and no share of welds to be examined; or the share is none of 5, 10, 20, 25, 50, 100 percent and the like.";
    public override string Why => "ASME B31.3 341.4 asks for 5 % of welds in normal service, all of them in severe; the contract says which. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (service.Examination.Length == 0)
        {
            if (service.Code.Length > 0)
                yield return Found(service.Source, "code", $"{service.Code} is named, and no share of welds to be examined.", "Add `examination:`, as the contract has it.", severity: Severity.Note);
            yield break;
        }

        if (ServiceFigures.Percent(service.Examination) is { } percent && (percent is < 0 or > 100 || percent % 5 != 0))
            yield return Found(service.Source, "examination", Say($"{service.Examination} of the welds to be examined is an odd share."), "Ask whether a digit slipped.", severity: percent is < 0 or > 100 ? Severity.Warn : Severity.Note);
    }
}
