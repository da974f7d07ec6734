using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class StudNumber : Rule
{
    public override string Name => "stud-number";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Fewer studs of a diameter are listed than the joints take.";
    public override string Why => "Each joint takes as many as its flange has holes (ASME B16.5).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        var told = new HashSet<NominalSize>();
        foreach (var item in materials)
        {
            if (item.Words.Ware != Ware.StudBolt || item.Size.IsNone || !told.Add(item.Size))
                continue;
            var (needed, listed, joints) = (0, 0.0, 0);
            var counts = true;
            foreach (var set in fabrication.Bolting)
                (needed, joints) = set.Size == item.Size ? (needed + set.Count, joints + 1) : (needed, joints);
            foreach (var row in materials)
            {
                if (row.Words.Ware != Ware.StudBolt || row.Size != item.Size)
                    continue;
                counts &= row.Count is not null;
                listed += row.Count ?? 0;
            }

            if (counts && listed < needed)
                yield return Found(item.Source, "quantity", FormattableString.Invariant($"{joints} joints take {needed} studs {item.Size}, {listed:0} listed: {needed - listed:0} short."), "List as many as the joints take, and a few over.", "A joint stands half bolted.");
        }
    }
}
