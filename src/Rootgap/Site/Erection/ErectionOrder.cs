using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Erection;

/// <summary>What a step asks to be read, with its target.</summary>
/// <param name="What">Two things that can be touched, or one and the level.</param>
public sealed record ErectionReading(string What, string Target);

/// <summary>One step at the site: the supports set, a body put up, or a final-fit weld closed.</summary>
public sealed record ErectionStep
{
    public required int Number { get; init; }

    /// <summary>What people call the step in which the supports are set.</summary>
    public const string SettingSupports = Records.ErectionDone.SupportsSet;

    /// <summary>The drawing's supports, which are set first of all; none in any other step.</summary>
    public IReadOnlyList<Support> Sets { get; init; } = [];

    /// <summary>The drawing's own supports on which the body comes to rest, with what each bears then, kg.</summary>
    public IReadOnlyList<(Support Support, double Bears)> RestsOn { get; init; } = [];

    /// <summary>What hangs on the joints until they are made, kg.</summary>
    public IReadOnlyList<(SiteJoint Joint, double Bears)> OnJoints { get; init; } = [];

    /// <summary>What is put up; null where a final-fit weld is made or supports are set.</summary>
    public ErectedBody? Body { get; init; }

    /// <summary>The final-fit weld that is made; null in any other step.</summary>
    public SiteJoint? Closes { get; init; }

    /// <summary>Joints to what stands already: bolted finger-tight, welds tacked.</summary>
    public IReadOnlyList<SiteJoint> Joints { get; init; } = [];

    /// <summary>Stands, trestles or hangers that hold it till the line is whole; null where no place on its pipes keeps it steady, and a third hold is needed.</summary>
    public IReadOnlyList<Hold>? Stands { get; init; }

    /// <summary>The way on which it comes in, opposite: it can be drawn out along this.</summary>
    public Vector? Way { get; init; }

    public required IReadOnlyList<ErectionReading> Readings { get; init; }

    /// <summary>What is looked at and signed before going on.</summary>
    public required IReadOnlyList<string> Holds { get; init; }

    public string Name => Body?.Name ?? Closes?.Id ?? SettingSupports;
}

/// <summary>In which order a line goes up, and what is wrong with somebody's own order.</summary>
public sealed class ErectionOrder
{
    private readonly SiteLine line;
    private readonly List<ErectedBody> bodies;
    private readonly Dictionary<SiteBody, int> depth = [];
    private readonly Dictionary<SiteBody, WayOut> wayOut = [];

    private ErectionOrder(SiteLine line)
    {
        this.line = line;
        bodies = [.. line.Bodies.Where(b => !b.IsOutside).Select(b => new ErectedBody(line, b))];
        foreach (var body in bodies)
        {
            depth[body.Body] = body.Body.Parts.Select(p => line.Fabrication.Route.PartOf(p)?.Run ?? 0).Select(DepthOf).DefaultIfEmpty().Min();
            wayOut[body.Body] = new(body);
        }
    }

    /// <summary>Supports first, things outside stand; from fixed ends towards the final-fit welds; header before branch; heavy before light where free; never into a place that is closed off; final-fit welds last.</summary>
    public static IReadOnlyList<ErectionStep> Of(SiteLine line) => new ErectionOrder(line).Proposed();

    /// <summary>Somebody's own order: its steps, and what is wrong with it. Names are those of bodies and of final-fit welds (<c>spool 3</c> or <c>3</c>, <c>W15</c>).</summary>
    public static (IReadOnlyList<ErectionStep> Steps, IReadOnlyList<string> Wrong) Checked(SiteLine line, IReadOnlyList<string> names) => new ErectionOrder(line).Own(names);

    /// <summary>How many headers a run hangs on.</summary>
    private int DepthOf(int run)
    {
        var runs = line.Fabrication.Route.Runs;
        var steps = 0;
        while (runs[run].Run.Start.From is { } from && steps <= runs.Count)
        {
            steps++;
            run = Enumerable.Range(0, runs.Count).FirstOrDefault(r => runs[r].Run.Legs.Any(l => l.To.Name == from));
        }

        return steps;
    }

    private List<ErectionStep> Proposed()
    {
        var steps = new List<ErectionStep>();
        if (Supports.Count > 0)
            steps.Add(StepOfSupports(1));
        var up = new HashSet<SiteBody>();
        var left = bodies.ToList();
        while (left.Count > 0)
        {
            // What stands never opens a place again: so nothing goes up that would close off what is still to come.
            var next = left.OrderBy(b => Way(b, up) is null).ThenBy(b => ClosesOff(b, left, up)).ThenBy(b => depth[b.Body]).ThenBy(b => JointsTo(b.Body, up).All(j => j.IsFinalFit)).ThenByDescending(b => Math.Round(b.Mass, 6)).ThenBy(b => b.Body.Index).First();
            left.Remove(next);
            steps.Add(StepOf(steps.Count + 1, next, up));
            up.Add(next.Body);
        }

        foreach (var joint in line.FinalFits)
            steps.Add(StepOf(steps.Count + 1, joint));
        return steps;
    }

    private (IReadOnlyList<ErectionStep> Steps, IReadOnlyList<string> Wrong) Own(IReadOnlyList<string> names)
    {
        var (steps, wrong, up) = (new List<ErectionStep>(), new List<string>(), new HashSet<SiteBody>());
        var closed = new HashSet<string>(StringComparer.Ordinal);
        // An order that does not name them takes it that they stand.
        if (Supports.Count > 0 && !names.Contains(ErectionStep.SettingSupports, StringComparer.OrdinalIgnoreCase))
            steps.Add(StepOfSupports(1));
        foreach (var name in names)
        {
            var body = bodies.FirstOrDefault(b => b.Name.Equals(name, StringComparison.OrdinalIgnoreCase) || b.Name.Equals("spool " + name, StringComparison.OrdinalIgnoreCase));
            if (Supports.Count > 0 && name.Equals(ErectionStep.SettingSupports, StringComparison.OrdinalIgnoreCase))
            {
                foreach (var early in bodies.Where(b => up.Contains(b.Body) && b.Supports.Count > 0))
                    wrong.Add($"{early.Name} goes up before its supports ({string.Join(", ", early.Supports.Select(s => s.Tag))}) are set: it would hang on its joints, and be jacked to its height afterwards.");
                if (steps.Exists(s => s.Sets.Count > 0))
                    wrong.Add("The supports stand twice in the order.");
                steps.Add(StepOfSupports(steps.Count + 1));
                continue;
            }

            var joint = line.FinalFits.FirstOrDefault(j => j.Id.Equals(name, StringComparison.OrdinalIgnoreCase));
            if (body is null && joint is null)
            {
                wrong.Add($"{name} is neither a spool nor a final-fit weld of this line. They are: {string.Join(", ", bodies.Select(b => b.Name).Concat(line.FinalFits.Select(j => j.Id)).Concat(Supports.Count > 0 ? [ErectionStep.SettingSupports] : []))}.");
            }
            else if (joint is not null)
            {
                foreach (var side in joint.Sides.Where(s => !s.Body.IsOutside && !up.Contains(s.Body)))
                    wrong.Add($"{joint.Id} is made before {side.Body.Name} stands: a final-fit weld is cut to what both sides are, so both stand first.");
                if (!closed.Add(joint.Id))
                    wrong.Add($"{joint.Id} stands twice in the order.");
                foreach (var loose in line.Joints.Where(j => !j.IsFinalFit && j.Sides.Any(s => joint.Sides.Any(t => t.Body == s.Body)) && j.Sides.Any(s => !s.Body.IsOutside && !up.Contains(s.Body))))
                    wrong.Add($"{joint.Id} is made while {loose.Id} beside it is still open: what is hung on there pulls on it afterwards. Final fits come last.");
                steps.Add(StepOf(steps.Count + 1, joint));
            }
            else if (!up.Contains(body!.Body))
            {
                Judge(body, up, wrong);
                steps.Add(StepOf(steps.Count + 1, body, up));
                up.Add(body.Body);
            }
            else
            {
                wrong.Add($"{body.Name} stands twice in the order.");
            }
        }

        foreach (var body in bodies.Where(b => !up.Contains(b.Body)))
            wrong.Add($"The order leaves out {body.Name}.");
        foreach (var joint in line.FinalFits.Where(j => !closed.Contains(j.Id)))
            wrong.Add($"The order leaves out the final-fit weld {joint.Id}.");
        return (steps, wrong);
    }

    private void Judge(ErectedBody body, HashSet<SiteBody> up, List<string> wrong)
    {
        var header = line.Joints.Where(j => j.Sides.Any(s => s.Body == body.Body)).SelectMany(j => j.Sides).Select(s => s.Body)
            .FirstOrDefault(b => !b.IsOutside && !up.Contains(b) && depth[b] < depth[body.Body]);
        if (header is not null)
            wrong.Add($"{body.Name} goes up before {header.Name}, the header that it hangs on: header before branch.");
        if (Way(body, up) is null)
        {
            var standing = up.ToList();
            var names = wayOut[body.Body].InTheWay([.. standing.Select(b => wayOut[b])], [.. Directions(body)]).Select(i => standing[i].Name);
            wrong.Add($"{body.Name} is closed off by what stands already ({string.Join(", ", names)}): it comes in along none of the six directions and none of its joints' axes. Put it up before them.");
        }

        var joined = JointsTo(body.Body, up).ToList();
        var later = bodies.Any(b => !up.Contains(b.Body) && b.Body != body.Body && JointsTo(b.Body, up).Any(j => !j.IsFinalFit));
        if (joined.TrueForAll(j => j.IsFinalFit) && later && !Statics.IsSteady(body.Centre, body.Resting, SlackOf(body)))
            wrong.Add($"{body.Name} is joined to nothing that stands: it hangs alone while others could go on from a fixed end. From fixed ends towards the final fits.");
    }

    private IEnumerable<SiteJoint> JointsTo(SiteBody body, HashSet<SiteBody> up) =>
        line.Joints.Where(j => j.Sides.Any(s => s.Body == body) && j.Sides.Any(s => s.Body != body && (s.Body.IsOutside || up.Contains(s.Body))));

    private Vector? Way(ErectedBody body, HashSet<SiteBody> up) => wayOut[body.Body].Free([.. bodies.Where(b => up.Contains(b.Body)).Select(b => wayOut[b.Body])], Directions(body));

    private bool ClosesOff(ErectedBody body, List<ErectedBody> left, HashSet<SiteBody> up)
    {
        HashSet<SiteBody> then = [.. up, body.Body];
        return left.Exists(b => b != body && Way(b, up) is not null && Way(b, then) is null);
    }

    private IEnumerable<Vector> Directions(ErectedBody body)
    {
        Vector[] six = [Vector.Up, Vector.East, -Vector.East, Vector.North, -Vector.North, -Vector.Up];
        return six.Concat(line.Joints.Where(j => j.Sides.Any(s => s.Body == body.Body)).SelectMany(j => new[] { j.Axes.Along, -j.Axes.Along }));
    }

    private ErectionStep StepOf(int number, ErectedBody body, HashSet<SiteBody> up)
    {
        var joints = JointsTo(body.Body, up).Where(j => !j.IsFinalFit).ToList();
        var held = body.Held(joints, SlackOf(body));
        var late = line.FinalFits.Where(j => j.LeftOn > 0 && j.Sides.Any(e => e.Body == body.Body) && j.Sides.Any(e => e.Body != body.Body && (e.Body.IsOutside || up.Contains(e.Body)))).ToList();
        return new()
        {
            Number = number,
            Body = body,
            Joints = joints,
            Stands = held.Stands,
            RestsOn = held.Supports,
            OnJoints = held.Joints,
            Way = Way(body, up),
            Readings = [.. ErectionReadings.Of(line, body, joints, late)],
            Holds = [.. ErectionReadings.HoldsOf(line, body, joints, held, late)],
        };
    }

    private IReadOnlyList<Support> Supports => line.Fabrication.Route.Supports;

    private ErectionStep StepOfSupports(int number) => new()
    {
        Number = number,
        Sets = Supports,
        Readings = [.. ErectionReadings.OfSupports(line.Fabrication)],
        Holds = [.. ErectionReadings.HoldsOfSupports(Supports)],
    };

    /// <summary>Half the width of what holds, mm.</summary>
    private static double SlackOf(ErectedBody body) => body.Body.Spool!.Cuts.Select(c => c.Pipe.Outside / 2).DefaultIfEmpty(20).Max();

    private ErectionStep StepOf(int number, SiteJoint joint) => new()
    {
        Number = number,
        Closes = joint,
        Readings = [.. ErectionReadings.OfClosing(joint, line.Fabrication.Units)],
        Holds = [.. ErectionReadings.HoldsOfClosing(line, joint)],
    };
}
