using Rootgap.Measure;

namespace Rootgap.Site.Erection;

/// <summary>What is read at each step of erection, and what is looked at before going on.</summary>
internal static class ErectionReadings
{
    /// <summary>Bodies at least this heavy are lifted by gear and plan, kg (common practice: what two people may not carry).</summary>
    private const double LiftedByGear = 50;

    public static IEnumerable<ErectionReading> Of(SiteLine line, SiteBody body, IReadOnlyList<SiteJoint> made)
    {
        foreach (var joint in made)
        {
            var (what, target) = joint.IsBolted
                ? ($"{joint.Id}, face gap at 12, 3, 6, 9", Say($"gasket {joint.Gap:0.#}, all four within 0.5"))
                : ($"{joint.Id}, root gap at 12, 3, 6, 9", Say($"{joint.Gap:0.#}, within 0.8 of one another"));
            yield return new(what, target);
            yield return joint.IsBolted ? new($"{joint.Id}, bolt holes", "in line, pins go in by hand") : new($"{joint.Id}, hi-lo at 12, 3, 6, 9", "1.5 at most, or the procedure's");
        }

        foreach (var end in line.Ends.Where(e => e.Body == body && made.All(j => j.Id != e.Joint)))
        {
            var outside = line.JointOf(end.Joint)!.Outside;
            // The top of the rim can be touched with a level; of a face that looks up or down the face itself.
            var upright = Math.Abs(end.Normal.Z) > 0.9;
            var lip = end.Face.Z + (outside / 2 * Math.Sqrt(Math.Max(0, 1 - (end.Normal.Z * end.Normal.Z))));
            yield return new($"{end.Name}, {(upright ? "face" : "top of the rim")}, height", Say($"EL {lip:0.#}"));
            yield return new($"{end.Name}, middle of the face", Say($"E {end.Face.X:0.#} N {end.Face.Y:0.#}"));
            yield return new($"{end.Name}, face", upright ? "level both ways" : Math.Abs(end.Normal.Z) < 0.002 ? "plumb both ways" : Say($"{Angles.ToDegrees(Math.Asin(end.Normal.Z)):0.0} degree to the upright"));
            if (end.Holes is not null && !upright)
                yield return new($"{end.Name}, two-hole level", "as drawn");
        }
    }

    public static IEnumerable<string> HoldsOf(ErectedBody body, IReadOnlyList<SiteJoint> joints)
    {
        if (body.Mass >= LiftedByGear)
            yield return Say($"Lifting {body.Mass:0.#} kg: the plan of a competent person, tag line on, nobody under it.");
        if (body.Unweighed.Count > 0)
            yield return $"Nobody knows the mass of {string.Join(", ", body.Unweighed)}: weigh before the lift.";
        if (joints.Any(j => j.IsBolted))
            yield return "Bolts finger-tight till the line is in line.";
        if (joints.Any(j => !j.IsBolted))
            yield return "Sling holds till it is tacked and stands: tacks carry nothing. Hot work permit.";
    }

    public static IEnumerable<ErectionReading> OfClosing(SiteJoint joint)
    {
        yield return new($"{joint.Id}, survey of both sides", "`rootgap close` says where to cut");
        yield return new($"{joint.Id}, gap at 12, 3, 6, 9 after the cut", Say($"{joint.Gap:0.#}, within 0.8 of one another"));
        yield return new($"{joint.Id}, hi-lo at 12, 3, 6, 9", "1.5 at most, or the procedure's");
    }

    public static IEnumerable<string> HoldsOfClosing(SiteLine line, SiteJoint joint)
    {
        yield return "All that is up is in line, on its supports, and its bolted joints are tight, before anything is cut.";
        var flanges = line.Joints.Where(j => j.IsBolted && j.Sides.Any(s => s.Body.IsOutside)).Select(j => j.Id).ToList();
        if (flanges.Count > 0)
            yield return $"{string.Join(", ", flanges)} free of force before the weld and again after it: bolts out, face gap alike at four places, holes in line.";
        if (joint.Sides.Any(s => s.Body.IsOutside))
            yield return "Existing pipe: isolated, drained, gas-free, held on both sides; it springs when it is cut.";
        yield return "Fit-up seen and signed before the root is welded.";
    }

    private static string Say(FormattableString text) => FormattableString.Invariant(text);
}
