using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The pipe left on at a final-fit weld is less than the line may be out.</summary>
internal sealed class FinalFitExtraShort : Rule
{
    /// <summary>Times what is left on from which no setting out helps.</summary>
    private const double FarTooShort = 2;

    public override string Name => "final-fit-extra-short";
    public override Severity Severity => Severity.Warn;
    public override string BeforeCutting => "less pipe is left on for the final fit than the forecast asks for";
    public override string Says => "The extra left on at a final-fit weld is less than what 99 lines in 100 need by the forecast: a warning where the shop's rules give it and it is less than half of that, else a note.";
    public override string Why => "What is too short cannot be cut longer: a piece is let in, with two welds for one. The forecast adds up what nozzles, spools and joints may be out (docs/forecast.md has its limits and their sources).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var extra = fabrication.Route.Drawing.Shop.FinalFitExtra;
        // With no extra at all another rule speaks.
        if (extra <= 0)
            yield break;
        // To first order: lines drawn by chance give the same within a few hundredths, and would be drawn at every keystroke.
        foreach (var closing in DeskForecast.Of(fabrication)?.Closings ?? [])
        {
            if (closing.Extra <= 0 || closing.ExtraNeeded <= closing.Extra)
                continue;
            var joint = closing.Opening.Joint;
            yield return Found(joint.Source, joint.Source.Has("end") ? "end" : "begin",
                Say(fabrication.Units, $"{closing.Extra:len} is left on at {joint.Id}; 99 lines in 100 need about {closing.ExtraNeeded:len0}."),
                Say(fabrication.Units, $"Set the shop's `final fit extra` to {Math.Ceiling(closing.ExtraNeeded / 10) * 10:len0}, or put a final-fit weld nearer to one of the fixed ends."), "The piece is too short at site.",
                // The forecast lets the whole line lean by what its first flange may lean; a line that is set out by level and string needs less.
                closing.ExtraNeeded > FarTooShort * closing.Extra && fabrication.Route.Drawing.Shop.Source.Has("final fit extra") ? Severity.Warn : Severity.Note);
        }
    }
}
