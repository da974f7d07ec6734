using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.App.FitUp;

/// <summary>The plans of the drawings that were looked at, each made once for a drawing as it stands.</summary>
public sealed class FitPlans
{
    private readonly Dictionary<string, FitPlan> plans = new(StringComparer.Ordinal);

    public FitPlan Of(Packet packet, string path)
    {
        if (!plans.TryGetValue(path, out var plan) || plan.Packet != packet)
            plans[path] = plan = new(packet);
        return plan;
    }
}

/// <summary>Who fits what in which order on one drawing: the joints of its spools as the engine plans them.</summary>
public sealed class FitPlan(Packet packet)
{
    private readonly FitJoints fitting = new(packet.Fabrication);
    private readonly Dictionary<string, IReadOnlyList<FitUpJob>> cards = new(StringComparer.Ordinal);

    public Packet Packet { get; } = packet;

    private Fabrication Fabrication => Packet.Fabrication;

    /// <summary>Joints that belong to no spool: field welds, final fits, flanges between spools.</summary>
    public IReadOnlyList<Joint> AtSite { get; } =
        [.. packet.Fabrication.Route.Joints.Where(j => !packet.Fabrication.Spools.Any(s => s.Joints.Any(k => k.Id == j.Id)))];

    public Joint? Joint(string id) => Fabrication.Route.Joints.FirstOrDefault(j => j.Id.Equals(id, StringComparison.OrdinalIgnoreCase));

    /// <summary>The spool that a joint is made in; null for the site's joints.</summary>
    public Spool? SpoolOf(Joint joint) => Fabrication.Spools.FirstOrDefault(s => s.Joints.Any(j => j.Id == joint.Id));

    /// <summary>The cards of a spool's welds in the order of work.</summary>
    public IReadOnlyList<FitUpJob> Cards(Spool spool)
    {
        if (!cards.TryGetValue(spool.Name, out var known))
            cards[spool.Name] = known = FitUpPages.Cards(fitting, Fabrication, spool);
        return known;
    }

    /// <summary>The joints of a spool in the order of work; those that nothing can be read at stand last.</summary>
    public IReadOnlyList<Joint> InOrder(Spool spool)
    {
        var order = Cards(spool).Select(c => c.Step.Joint.Name).ToList();
        return [.. spool.Joints.OrderBy(j => order.IndexOf(j.Id) is >= 0 and var i ? i : order.Count)];
    }

    /// <summary>Whether there is anything to read at a joint: a weld with both sides in this drawing.</summary>
    public bool HasReadings(Joint joint) => fitting.Welds.Any(w => w.Id == joint.Id);

    /// <summary>The card of a weld as planned.</summary>
    public FitUpJob Card(Joint joint)
    {
        if (SpoolOf(joint) is { } spool && Cards(spool).FirstOrDefault(c => c.Step.Joint.Name == joint.Id) is { } planned)
            return planned;
        var fit = fitting.Of(joint);
        return Stood(joint, fit, SetUp.Usual(fit), null);
    }

    /// <summary>The card of a weld in another set-up, with the other part held, or with other marks.</summary>
    /// <param name="setUp">As a readings file says it: on end, level, rolled, rolled 270.</param>
    /// <param name="held">Id of the part that is held; empty for the usual one.</param>
    /// <param name="mark">Distance of the marks, mm; null for the usual one.</param>
    public FitUpJob Card(Joint joint, string setUp, string held, double? mark)
    {
        var fit = fitting.Of(joint);
        if (held.Length > 0 && held != fit.Held.Id && fitting.Of(joint, flip: true) is { } other && other.Held.Id == held)
            fit = other;
        return Stood(joint, fit, SetUp.Parse(setUp) is { } chosen ? SetUp.Of(fit, chosen.Attitude, chosen.Roll) : SetUp.Usual(fit), mark);
    }

    /// <summary>A joint in words: its kind, size, and what it joins.</summary>
    public string Says(Joint joint) => $"{Wording.Of(joint.Kind)}{(joint.Kind == JointKind.Bolted ? "" : ", " + Wording.Of(joint.Place))}, NPS {joint.Size}: {Wording.Between(Fabrication, joint)}";

    /// <summary>The studs of a bolted joint; null where the standard has none, or others bring them.</summary>
    public BoltSet? Studs(Joint joint) => Fabrication.Bolting.FirstOrDefault(b => b.Joint.Id == joint.Id);

    private FitUpJob Stood(Joint joint, FitJoint fit, SetUp setUp, double? mark)
    {
        var standing = new StandingJoint(fit, setUp, mark);
        var limits = fitting.Limits(joint, fit);
        var planned = SpoolOf(joint) is { } spool ? Cards(spool) : [];
        var step = planned.FirstOrDefault(c => c.Step.Joint.Name == joint.Id)?.Step ?? new FitStep(1, fit, setUp, 0, CanRoll: false, Math.Min(fit.New.Mass, fit.Held.Mass), []);
        return new(step with { Joint = fit, SetUp = setUp }, Math.Max(1, planned.Count), standing, limits, Targets.Of(standing, limits), FitUpPages.Names(Fabrication, fit));
    }
}
