using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Site.Erection;

/// <summary>What is read at each step of erection, and what is looked at before going on; in the drawing's units.</summary>
internal static class ErectionReadings
{
    /// <summary>Bodies at least this heavy are lifted by gear and plan, kg (common practice: what two people may not carry).</summary>
    private const double LiftedByGear = 50;

    /// <param name="late">Final fits of the body to what stands, where the pipe's extra keeps it from its place until the cut.</param>
    public static IEnumerable<ErectionReading> Of(SiteLine line, ErectedBody body, IReadOnlyList<SiteJoint> made, IReadOnlyList<SiteJoint> late)
    {
        var units = line.Fabrication.Units;
        foreach (var joint in made)
        {
            var (what, target) = joint.IsBolted
                ? ($"{joint.Id}, face gap at 12, 3, 6, 9", Say(units, $"gasket {joint.Gap:gap}, all four within {BoltedJoint.MostOutOfParallel:gap}"))
                : ($"{joint.Id}, root gap at 12, 3, 6, 9", Say(units, $"{joint.Gap:gap}, within {0.8:gap} of one another"));
            yield return new(what, target);
            yield return joint.IsBolted ? new($"{joint.Id}, bolt holes", "in line, pins go in by hand") : new($"{joint.Id}, hi-lo at 12, 3, 6, 9", HiLo(units));
        }

        foreach (var support in body.Supports)
        {
            yield return new($"{support.Tag}, {(support.Drawn.Kind == SupportKind.Hanger ? "rod tight" : !support.IsOnRiser ? "pipe lies on it" : support.Carries ? "rests on its steel" : "holds the pipe in its place")}; {LevelOf(support)} there", Say(units, $"EL {support.Underside:el}"));
        }

        foreach (var end in line.Ends.Where(e => e.Body == body.Body && made.All(j => j.Id != e.Joint)))
        {
            var joint = line.JointOf(end.Joint)!;
            var outside = joint.Outside;
            // The pipe that carries the extra ends where the extra ends; only what waits for the cut is set without it.
            var isCut = late.Contains(joint) && joint.Long == end;
            var face = isCut ? end.Face : end.Face + (end.Normal * end.Extra);
            var name = end.Extra <= 0 ? end.Name : isCut ? $"{end.Name}, cut" : Say(units, $"{end.Name}, with its {end.Extra:len} on");
            // The top of the rim can be touched with a level; of a face that looks up or down the face itself.
            var upright = Math.Abs(end.Normal.Z) > 0.9;
            var lip = face.Z + (outside / 2 * Math.Sqrt(Math.Max(0, 1 - (end.Normal.Z * end.Normal.Z))));
            yield return new($"{name}, {(upright ? "face" : "top of the rim")}, height", Say(units, $"EL {lip:el}"));
            yield return new($"{name}, middle of the face", Say(units, $"{face.X:east} {face.Y:north}"));
            yield return new($"{end.Name}, face", upright ? "level both ways" : Math.Abs(end.Normal.Z) < 0.002 ? "plumb both ways" : Say(units, $"{Angles.ToDegrees(Math.Abs(Math.Asin(end.Normal.Z))):0.0}° out of plumb, looks {(end.Normal.Z > 0 ? "up" : "down")}"));
            if (end.Holes is not null && !upright)
                yield return new($"{end.Name}, two-hole level", "as drawn");
        }
    }

    /// <summary>Heights to which supports are set: of their steel where the drawing says how high they are, else of the pipe's underside.</summary>
    public static IEnumerable<ErectionReading> OfSupports(Fabrication fabrication)
    {
        foreach (var s in fabrication.Route.Supports)
        {
            var what = s.Steel is null ? LevelOf(s) : s.Drawn.Kind == SupportKind.Hanger || s.Side!.Value.Z > 0 ? "steel that it hangs from" : "top of the steel under it";
            yield return new($"{s.Tag}, {s.Name}: {what}; its middle", Say(fabrication.Units, $"EL {s.Steel ?? s.Underside:el}; {s.At.X:east0} {s.At.Y:north0}"));
        }
    }

    /// <summary>What <see cref="Support.Underside"/> is the level of, in words.</summary>
    public static string LevelOf(Support support) => support.IsOnRiser ? "its middle on the riser" : "underside of the pipe";

    public static IEnumerable<string> HoldsOfSupports(IReadOnlyList<Support> supports)
    {
        yield return "All stand, are fixed and levelled, and are seen before a spool is lifted on to them.";
        if (supports.Any(s => s.Drawn.Kind == SupportKind.Hanger))
            yield return "Hangers with turnbuckles in mid-travel; springs stay locked by their stops till the line is full and tested.";
        if (supports.Any(s => s.Weld is { Place: WeldPlace.Field }))
            yield return $"Welded to the pipe here, when it lies in place: {string.Join(", ", supports.Where(s => s.Weld is { Place: WeldPlace.Field }).Select(s => $"{s.Tag} ({s.Weld!.Id})"))}. Hot work permit, and the welding procedure of the pipe's metal.";
    }

    public static IEnumerable<string> HoldsOf(SiteLine line, ErectedBody body, IReadOnlyList<SiteJoint> joints, Holding held, IReadOnlyList<SiteJoint> late)
    {
        var units = line.Fabrication.Units;
        foreach (var joint in late)
        {
            var end = joint.Long!;
            var (piece, other) = (line.NameOf(end), joint.Across(end).Body);
            var into = other == body.Body ? "the place of this spool" : other.IsOutside ? "what stands outside" : "the place of " + other.Name;
            yield return Say(units, $"{joint.Id}: {piece} has {end.Extra:len} left on and reaches {joint.LeftOn:len} into {into}. Survey {joint.Id} with this spool laid aside or set back, cut {piece}, and only then set it in its place{(joints.Count > 0 ? " and make " + string.Join(", ", joints.Select(j => j.Id)) : "")}.");
        }

        if (body.Mass >= LiftedByGear)
            yield return "The lift by the plan of a competent person, tag line on, nobody under it.";
        if (body.Unweighed.Count > 0)
            yield return $"Nobody knows the mass of {string.Join(", ", body.Unweighed)}: weigh before the lift.";
        if (body.Supports.Count > 0)
            yield return $"{string.Join(", ", body.Supports.Select(s => s.Tag))} set and seen.";
        if (joints.Any(j => j.IsBolted))
            yield return "Bolts finger-tight till the line is in line.";
        if (joints.Any(j => !j.IsBolted))
        {
            var onTacks = held.Joints.Where(j => !j.Joint.IsBolted).ToList();
            yield return onTacks.Count == 0
                ? "Sling holds till it is tacked and stands: tacks carry nothing. Hot work permit."
                : $"Sling holds till {string.Join(" and ", onTacks.Select(j => Say(units, $"{j.Joint.Id}, on which {j.Bears:kg} hang,")))} is welded so far that it carries them: tacks carry nothing. Hot work permit.";
        }
    }

    public static IEnumerable<ErectionReading> OfClosing(SiteJoint joint, Units units)
    {
        yield return new($"{joint.Id}, survey of both sides", "`rootgap close` says where to cut");
        yield return new($"{joint.Id}, gap at 12, 3, 6, 9 after the cut", Say(units, $"{joint.Gap:gap}, within {0.8:gap} of one another"));
        yield return new($"{joint.Id}, hi-lo at 12, 3, 6, 9", HiLo(units));
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

    private static string HiLo(Units units) => Say(units, $"{1.5:gap} at most, or the procedure's");

    private static string Say(Units units, FormattableString text) => LengthText.Say(units, text);
}
