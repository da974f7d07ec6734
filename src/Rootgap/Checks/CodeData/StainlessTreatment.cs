using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>What austenitic stainless steel is not done to: magnetic particles, heat treatment after welding, zinc, salt.</summary>
internal sealed class StainlessTreatment : Rule
{
    private static readonly string[] Salt = ["sea water", "seawater", "sea-water", "brackish", "salt water", "brine"];

    public override string Name => "stainless-treatment";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A line of austenitic stainless steel (P-number 8) is to be examined with magnetic particles, heat-treated after welding, painted with zinc, or tested or flushed with sea water.";
    public override string Why => "Magnetic particles hold to no austenitic steel; penetrant is used. ASME B31.3 table 331.1.1 asks no heat treatment after welding for P-No. 8, and heat makes it sensitive to corrosion; zinc that melts in a weld or a fire cracks it (common practice). The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var service = drawing.Service;
        if (Metals.PNumber(drawing.Line.Material) is not { } number || number != "8" || drawing.Runs.Any(r => r.Line.Material != drawing.Line.Material))
            yield break;
        if (service.Examination.ToUpperInvariant().Split([' ', ',', ';', '/', '+'], StringSplitOptions.RemoveEmptyEntries).Any(w => w is "MT" or "MPI" or "MAGNETIC"))
            yield return Found(service.Source, "examination", $"{drawing.Line.Material} is not magnetic: magnetic particles show nothing on it.", "Ask whether penetrant (PT) is meant.");
        if (Array.Find([service.TestPackage, service.TestPressure, service.Cleanliness], t => Array.Exists(Salt, w => t.Contains(w, StringComparison.OrdinalIgnoreCase))) is { } salt)
            yield return Found(service.Source, salt == service.TestPackage ? "test package" : salt == service.TestPressure ? "test pressure" : "cleanliness", $"\"{salt}\" in a line of {drawing.Line.Material}: its chlorides stay and eat it.", "Ask for clean water, with its limit of chlorides (50 mg/l is common practice).", "It cracks or pits in service.");
        if (service.IsHeatTreated)
            yield return Found(service.Source, "heat treatment", $"{drawing.Line.Material} is not usually heat-treated after welding.", "Ask the engineer whether this line is meant.");
        if (!service.Paint.StartsWith("no", StringComparison.OrdinalIgnoreCase) && (service.Paint.Contains("zinc", StringComparison.OrdinalIgnoreCase) || service.Paint.Contains("galvani", StringComparison.OrdinalIgnoreCase)))
            yield return Found(service.Source, "paint", $"The paint is \"{service.Paint}\", and the pipe is {drawing.Line.Material}, an austenitic stainless steel.", "Ask for the paint system of stainless pipe.");
    }
}
