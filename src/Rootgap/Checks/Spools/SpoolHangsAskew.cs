using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool whose centre of mass lies off its pipe.</summary>
internal sealed class SpoolHangsAskew : Rule
{
    /// <summary>Below this two people put it straight by hand, kg.</summary>
    private const double Light = 50;

    private const double Near = 300;

    public override string Name => "spool-centre-off-pipe";
    public override Severity Severity => Severity.Note;
    public override string Says => "The centre of mass of a spool over 50 kg lies more than 300 mm off every pipe and fitting of it.";
    public override string Why => "Slung by one pipe it turns over; on two supports it may tip (common practice). Lifting is planned by those who are qualified for it.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            if (spool.Mass < Light || spool.IsScrewedOnly || spool.Cuts.Count < 2)
                continue;
            var off = double.PositiveInfinity;
            foreach (var cut in spool.Cuts)
            {
                var way = cut.Pipe.End - cut.Pipe.Start;
                var t = way.Length > 0 ? Math.Clamp((spool.CentreOfMass - cut.Pipe.Start).Dot(way) / way.Dot(way), 0, 1) : 0;
                off = Math.Min(off, spool.CentreOfMass.To(cut.Pipe.Start + (way * t)));
            }

            foreach (var component in spool.Components)
                off = Math.Min(off, spool.CentreOfMass.To(component.WorkPoint));
            if (off <= Near)
                continue;
            var pipe = spool.Cuts[0].Pipe;
            yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.FirstLeg), "go", Say(fabrication.Units, $"Spool {spool.Name} ({spool.Mass:kg}) has its centre of mass {off:len0} off its pipe: it turns when lifted by one pipe."),
                "Sling it at two places about the centre; the spool sheet shows where it lies.");
        }
    }
}
