using Rootgap.FitUp;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>What a joint that is not made yet must keep to, as cones over what is measured there with everything standing so.</summary>
internal sealed class JointState
{
    /// <summary>Flange faces are parallel within 1 mm in 200 (ASME B31.3 335.1.1).</summary>
    private const double FaceTilt = 1.0 / 200;

    /// <summary>Along a field weld the gap may be this much more or less, mm (common practice).</summary>
    private const double WeldGap = 1;

    private readonly SiteJoint joint;

    private readonly bool isClosing;

    private JointState(SiteJoint joint, bool isClosing, IReadOnlyList<Cone> cones) => (this.joint, this.isClosing, Cones) = (joint, isClosing, cones);

    public SiteJoint Joint => joint;

    public IReadOnlyList<Cone> Cones { get; }

    public static JointState Of(SiteJoint joint, Closure? closure, double hiLo, double gapVariation)
    {
        if (closure is not null)
        {
            return new(joint, isClosing: true,
            [
                Within(joint, "offset", closure.OffsetLimit, v => [v[0], v[1]]),
                Within(joint, "angle", gapVariation, v => [joint.Outside * Math.Tan(v[2]), joint.Outside * Math.Tan(v[3])]),
                .. Enumerable.Range(0, Opening.Places).Select(i => new Cone(joint.Id, "length", v => 1 + v[4 + i], _ => [1], 1)),
            ]);
        }

        if (joint.IsBolted)
        {
            var (play, radius) = (joint.Bolting?.Play ?? 3, (joint.Bolting?.Circle ?? joint.Outside) / 2);
            return new(joint, isClosing: false,
            [
                // Shift and roll share the play: the roll either way.
                new(joint.Id, "holes", v => play - (radius * v[5]), v => [v[0], v[1]], play),
                new(joint.Id, "holes", v => play + (radius * v[5]), v => [v[0], v[1]], play),
                Within(joint, "faces", FaceTilt, v => [v[3], v[4]]),
                Within(joint, "gap", JointLimits.Gasket, v => [v[2]]),
            ]);
        }

        return new(joint, isClosing: false,
        [
            Within(joint, "gap", WeldGap, v => [v[2]]),
            Within(joint, "hi-lo", hiLo - (Math.Abs(joint.First.Inside - joint.Second.Inside) / 2), v => [v[0], v[1]]),
            Within(joint, "angle", gapVariation, v => [joint.Outside * Math.Tan(v[3]), joint.Outside * Math.Tan(v[4])]),
        ]);
    }

    /// <summary>What is measured there: the opening's six; at a final-fit weld the closing's offsets, tilts and sixteen lengths.</summary>
    public double[] Measure(Standing standing)
    {
        if (isClosing)
        {
            var o = Opening.Of(joint, standing);
            return [o.OffsetUp, o.OffsetSide, o.TiltX, o.TiltY, .. o.Round];
        }

        var e = Adjustment.Opening(joint, standing);
        return [e.X, e.Y, e.Z, e.Rx, e.Ry, e.Rz];
    }

    /// <summary>What is over its limit there with everything standing so.</summary>
    public IEnumerable<Remains> Over(Standing standing)
    {
        // Numerical noise of a search that ends at a limit.
        const double Hair = 1e-9;
        var values = Measure(standing);
        foreach (var cones in Cones.GroupBy(c => c.What))
        {
            var over = cones.Max(c => c.Used(values)) - 1;
            if (over > Hair)
                yield return new(joint.Id, cones.Key, over);
        }
    }

    public bool IsWithin(Standing standing) => !Over(standing).Any();

    /// <summary>The change of a loose joint's opening in units of what it may be.</summary>
    public static double[] Units(SiteJoint joint)
    {
        if (joint.Bolting is { } bolting)
            return [bolting.Play, bolting.Play, JointLimits.Gasket, FaceTilt, FaceTilt, bolting.Play / (bolting.Circle / 2)];
        var lean = 0.8 / joint.Outside;
        return [JointLimits.HiLo, JointLimits.HiLo, WeldGap, lean, lean, double.PositiveInfinity];
    }

    private static Cone Within(SiteJoint joint, string what, double limit, Func<double[], double[]> values) => new(joint.Id, what, _ => limit, values, limit);
}
