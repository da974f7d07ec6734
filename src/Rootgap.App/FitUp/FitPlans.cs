using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Packets;
using Rootgap.Records;
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
    private readonly Dictionary<string, FitSpool> spools = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (string Done, IReadOnlyList<FitUpJob> Cards)> cards = new(StringComparer.Ordinal);

    private readonly Dictionary<(string Spool, bool IsTacked), (IReadOnlyList<FitUpJob> Of, FinalCheck Check, IReadOnlyList<EndLeft> Left)> finals = [];

    public Packet Packet { get; } = packet;

    private Fabrication Fabrication => Packet.Fabrication;

    /// <summary>Joints that belong to no spool: field welds, final fits, flanges between spools.</summary>
    public IReadOnlyList<Joint> AtSite { get; } =
        [.. packet.Fabrication.Route.Joints.Concat(packet.Fabrication.Route.Attachments).Where(j => !packet.Fabrication.Spools.Any(s => s.Joints.Concat(s.Attachments).Any(k => k.Id == j.Id)))];

    public Joint? Joint(string id) => Fabrication.Route.Joints.Concat(Fabrication.Route.Attachments).FirstOrDefault(j => j.Id.Equals(id, StringComparison.OrdinalIgnoreCase));

    /// <summary>The spool that a joint is made in; null for the site's joints.</summary>
    public Spool? SpoolOf(Joint joint) => Fabrication.Spools.FirstOrDefault(s => s.Joints.Concat(s.Attachments).Any(j => j.Id == joint.Id));

    /// <summary>The cards of a spool's welds in the order of work as it was really taken: what is tacked stays as it was read, and the rest is planned from there.</summary>
    public IReadOnlyList<FitUpJob> Cards(Spool spool, DrawingRecord done)
    {
        var made = Made(spool, done);
        if (!cards.TryGetValue(spool.Name, out var known) || known.Done != made.Key)
            cards[spool.Name] = known = (made.Key, [.. FitWork.Cards(Fit(spool), made.Steps, id => made.Joint(id, made.Steps)).Select(c => FitUpPages.Job(Fabrication, c))]);

        return known.Cards;
    }

    /// <summary>The final check of a spool, welded or tacked, and what its joints as read leave at each end.</summary>
    public (FinalCheck Check, IReadOnlyList<EndLeft> Left) Final(Spool spool, DrawingRecord done, bool isTacked)
    {
        var all = Cards(spool, done);
        if (!finals.TryGetValue((spool.Name, isTacked), out var known) || known.Of != all)
        {
            var (made, steps) = (Made(spool, done), all.Select(c => c.Step).ToList());
            var check = isTacked ? FinalCheck.Tacked(Fit(spool), steps, made: id => made.Joint(id, steps)) : FinalCheck.Welded(Fit(spool));
            finals[(spool.Name, isTacked)] = known = (all, check, EndLeft.Of(check, steps, id => made.Joint(id, steps)));
        }

        return (known.Check, known.Left);
    }

    /// <summary>How far a spool is made, by the job's facts.</summary>
    public SpoolAsMade Made(Spool spool, DrawingRecord done) => new(Fit(spool), done);

    private FitSpool Fit(Spool spool)
    {
        if (!spools.TryGetValue(spool.Name, out var fit))
            spools[spool.Name] = fit = fitting.OfSpool(spool);
        return fit;
    }

    /// <summary>The joints of a spool in the order of work; those that nothing can be read at stand last.</summary>
    public IReadOnlyList<Joint> InOrder(Spool spool, DrawingRecord done)
    {
        var order = Cards(spool, done).Select(c => c.Step.Joint.Name).ToList();
        return [.. spool.Joints.Concat(spool.Attachments).OrderBy(j => order.IndexOf(j.Id) is >= 0 and var i ? i : order.Count)];
    }

    /// <summary>Whether there is anything to read at a joint: a weld with both sides in this drawing.</summary>
    public bool HasReadings(Joint joint) => fitting.Welds.Any(w => w.Id == joint.Id);

    /// <summary>The card of a weld in its turn.</summary>
    public FitUpJob Card(Joint joint, DrawingRecord done)
    {
        if (SpoolOf(joint) is { } spool && Cards(spool, done).FirstOrDefault(c => c.Step.Joint.Name == joint.Id) is { } planned)
            return planned;
        var fit = fitting.Of(joint);
        return FitUpPages.Job(Fabrication, FitWork.Alone(fitting, joint, fit, SetUps.Usual(fitting, fit), null));
    }

    /// <summary>The card of a weld in another set-up, with the other side held, or with other marks.</summary>
    /// <param name="setUp">As a readings file says it: on end, level, rolled, rolled 270, clamped.</param>
    /// <param name="held">Id of the part that is held; empty for the usual one.</param>
    /// <param name="mark">Distance of the marks, mm; null for the usual one.</param>
    /// <param name="isWelded">Read after welding. Of a joint between spools nothing is made after it: it stands as tacked.</param>
    /// <param name="refused">Why it cannot stand so; empty where it can.</param>
    public FitUpJob Card(Joint joint, DrawingRecord done, string setUp, string held, double? mark, bool isWelded, out string refused)
    {
        refused = "";
        var wish = SetUp.Parse(setUp);
        if (SpoolOf(joint) is { } spool && Cards(spool, done) is var all && all.FirstOrDefault(c => c.Step.Joint.Name == joint.Id) is { } planned)
        {
            var step = planned.Step;
            var other = held.Length > 0 ? held : step.Joint.Held.Id;
            if ((wish is { } w && !FitWork.IsSo(step, w)) || other != step.Joint.Held.Id)
            {
                if (FitWork.Otherwise(Fit(spool), step, wish, other, out refused) is not { } changed)
                    return planned;
                step = changed;
            }

            if (step == planned.Step && isWelded == planned.Standing.Joint.IsWelded && (mark is null || Math.Abs(mark.Value - planned.Standing.Mark) < 1e-6))
                return planned;
            var steps = all.TakeWhile(c => c.Step.Joint.Name != joint.Id).Select(c => c.Step).Append(step).ToList();
            var made = Made(spool, done);
            // Of the joint itself it is asked where it is: only whether it has been welded counts.
            var card = FitWork.Cards(Fit(spool), steps, id => id != joint.Id ? made.Joint(id, steps) : isWelded ? new([], null, null, IsWelded: true) : null, id => id == joint.Id ? mark : null)[^1];
            return FitUpPages.Job(Fabrication, card with { Of = all.Count });
        }

        var usual = fitting.Of(joint);
        var fit = held.Length > 0 && held != usual.Held.Id && held == usual.New.Id ? fitting.Of(joint, flip: true) : usual;
        if (wish is { Attitude: Attitude.OnEnd } && !SetUps.HasBase(fit))
        {
            SetUps.Refused(fitting, fit, Attitude.OnEnd, out refused);
            wish = null;
        }

        return FitUpPages.Job(Fabrication, FitWork.Alone(fitting, joint, fit, wish is var (attitude, roll) ? SetUps.Of(fitting, fit, attitude, roll) : SetUps.Usual(fitting, fit), mark));
    }

    /// <summary>A joint in words: its kind, size, and what it joins.</summary>
    public string Says(Joint joint) => $"{Wording.Of(joint.Kind)}{(joint.Kind == JointKind.Bolted ? "" : ", " + Wording.Of(joint.Place))}, NPS {joint.Size}: {Wording.Between(Fabrication, joint)}";

    /// <summary>The studs of a bolted joint; null where the standard has none, or others bring them.</summary>
    public BoltSet? Studs(Joint joint) => Fabrication.Bolting.FirstOrDefault(b => b.Joint.Id == joint.Id);
}
