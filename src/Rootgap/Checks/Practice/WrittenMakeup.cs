using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Fitting on fitting, written as a figure.</summary>
internal sealed class WrittenMakeup : Rule
{
    public override string Name => "makeup-written-as-figure";
    public override Severity Severity => Severity.Note;
    public override string Says => "A distance equals the two take-offs and their root gap: fitting stands on fitting, but `by` is a figure.";
    public override string Why => "The figure goes stale when a fitting is measured or the root gap changes; `by: makeup` follows (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var joint in route.Joints)
        {
            if (joint.Kind != JointKind.Butt || joint.Leg < 0 || joint.Between is not [var a, var b] || a[0] != 'C' || b[0] != 'C')
                continue;
            var leg = route.Runs[joint.Run].Run.Legs[joint.Leg];
            if (leg.MakeUp || leg.IsSkew || leg.By is not { } by || Told(route, leg))
                continue;
            yield return Found(leg.Source, "by", Say(fabrication.Units, $"{by:len} is fitting on fitting with one weld between."), "Write `by: makeup`.") with
            {
                // A begin mark does not go with it.
                Change = leg.Source.Has("begin") ? null : leg.Source.Replace("by", "makeup", Say(fabrication.Units, $"`by: {by:len}` is now `by: makeup`")),
            };
        }
    }

    /// <summary>Where the gap is left out it has to be asked first which is meant.</summary>
    private static bool Told(Route route, Leg leg) => route.Findings.Any(f => f.Rule == "makeup-gap-left-out" && f.At == leg.Source.Path);
}
