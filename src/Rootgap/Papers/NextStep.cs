using Rootgap.Fabricating;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>What a step is about.</summary>
public enum StepOf
{
    Piece,
    Joint,
    Spool,
    Line,
}

/// <summary>The next step at a piece, a joint, a spool or a line, and what is missing for it.</summary>
/// <param name="Name">Mark of the piece, name of the weld or bolted joint, name of the spool, number of the drawing.</param>
/// <param name="Spool">Empty at site.</param>
/// <param name="Step">In a word: cut, fit, weld.</param>
/// <param name="Missing">In plain sentences; empty where it can be done today.</param>
public sealed record NextStep(LineDone Line, StepOf Of, string Name, string Spool, string Step, IReadOnlyList<string> Missing)
{
    public bool CanBeDone => Missing.Count == 0;

    /// <summary>Of everything on a line that is not done with: pieces, joints, spools, the line. Where nothing comes back, all is done.</summary>
    public static IReadOnlyList<NextStep> OfLine(LineDone line, IReadOnlyList<WeldHistory> welds, HoldPoints holds)
    {
        List<NextStep> steps = [];
        var f = line.Fabrication;
        var uncut = new HashSet<string>(StringComparer.Ordinal);
        foreach (var cut in f.Cuts.Where(c => c.IsCut && line.Done.CutOf(c.Piece) is null))
        {
            uncut.Add(cut.Pipe.Id);
            steps.Add(new(line, StepOf.Piece, cut.Piece, f.SpoolOf.GetValueOrDefault(cut.Pipe.Id, ""), "cut", [.. Stopped(), .. Held(cut.Piece)]));
        }

        var now = welds.Where(w => w.IsNow).ToDictionary(w => w.Joint.Id, StringComparer.Ordinal);
        foreach (var joint in f.Route.Joints)
        {
            var (step, missing) = now.TryGetValue(joint.Id, out var weld) ? OfWeld(weld) : joint.Kind == JointKind.Bolted ? OfBolted(joint) : OfThread(joint);
            if (step.Length > 0)
                steps.Add(new(line, StepOf.Joint, weld?.Name ?? joint.Id, line.SpoolOf(joint), step, [.. Stopped(), .. Held(joint.Id), .. missing]));
        }

        foreach (var spool in f.Spools)
        {
            if (Release(spool) is { } release)
                steps.Add(release);
            else if (holds.IsAny("painted") && !Is(spool, Coating.Painted))
                steps.Add(new(line, StepOf.Spool, spool.Name, spool.Name, "paint", holds.BeforeSpool("painted", spool.Name)));
            else if (holds.IsAny("insulated") && !Is(spool, Coating.Insulated))
                steps.Add(new(line, StepOf.Spool, spool.Name, spool.Name, "insulate", holds.BeforeSpool("insulated", spool.Name)));
        }

        if (!line.IsTested())
            steps.Add(new(line, StepOf.Line, line.Number, "", "test", [.. Stopped(), .. ForTest(line, welds, holds)]));
        return steps;

        IEnumerable<string> Stopped() => line.IsBuildable ? [] : [$"{line.Number}: the desk check stops the drawing"];

        IEnumerable<string> Held(string name) => line.Done.Marked.Where(m => name.Equals(m.Now, StringComparison.OrdinalIgnoreCase)).Take(1).Select(m => m.IsWaiting
            ? $"{name}: revision {line.Done.Drawing.Revision} is not taken to the shop, and what was done on revision {m.Revision} waits for that"
            : $"{name}: the drawing has changed since something was done there: somebody must look whether it holds");

        IEnumerable<string> Uncut(Joint joint) => joint.Between.Where(uncut.Contains).Select(id => $"{f.Cuts.First(c => c.Pipe.Id == id).Piece}: not cut");

        // What meets at site is made before.
        IEnumerable<string> Unmade(Joint joint) => joint.Between.Select(id => f.SpoolOf.GetValueOrDefault(id, "")).Where(s => s.Length > 0 && line.SpoolOf(joint) != s).Distinct(StringComparer.Ordinal)
            .Select(s => (s, Open: f.Spools.First(p => p.Name == s).Joints.Where(j => now.TryGetValue(j.Id, out var w) && !w.IsMade).Select(j => j.Id).ToList()))
            .Where(s => s.Open.Count > 0).Select(s => $"spool {s.s}: {string.Join(", ", s.Open)} not welded");

        (string, IEnumerable<string>) OfWeld(WeldHistory weld)
        {
            if (weld.IsRejected)
                return ("repair or cut out", []);
            if (!weld.IsMade)
            {
                if (weld.Mark.Repair > 0)
                    return ("weld the repair", holds.BeforeJoint("welded", weld.Joint.Id));
                return weld.Step switch
                {
                    null => ("fit", [.. Uncut(weld.Joint), .. Unmade(weld.Joint), .. holds.BeforeJoint("fitted", weld.Joint.Id)]),
                    Records.Step.Fitted => ("tack", holds.BeforeJoint("tacked", weld.Joint.Id)),
                    _ => ("weld", holds.BeforeJoint("welded", weld.Joint.Id)),
                };
            }

            var open = weld.Asked.Where(a => weld.ResultOf(a.Method) is null).Select(a => PaperWords.Of(a.Method)).ToList();
            return open.Count > 0 ? ($"examine: {string.Join(", ", open)}", []) : ("", []);
        }

        (string, IEnumerable<string>) OfBolted(Joint joint) => line.Done.Counting<BoltedUp>(joint.Id).Any() || line.Done.StepOf(joint.Id) >= Records.Step.Tacked
            ? ("", []) : ("bolt up", [.. Unmade(joint), .. holds.BeforeJoint("bolted up", joint.Id)]);

        (string, IEnumerable<string>) OfThread(Joint joint) => line.Done.StepOf(joint.Id) >= Records.Step.Tacked ? ("", []) : ("make up", Uncut(joint));

        bool Is(Spool spool, Coating coating) => line.Done.Counting<Coated>($"spool {spool.Name}").Any(c => c.Coating == coating);

        NextStep? Release(Spool spool) => line.Done.Counting<Released>($"spool {spool.Name}").Any() ? null
            : new(line, StepOf.Spool, spool.Name, spool.Name, "release", [.. Stopped(), .. ForRelease(line, spool, welds, holds)]);
    }

    /// <summary>What stands between a spool and its release.</summary>
    public static IReadOnlyList<string> ForRelease(LineDone line, Spool spool, IReadOnlyList<WeldHistory> welds, HoldPoints holds)
    {
        var mine = spool.Joints.Select(j => j.Id).ToHashSet(StringComparer.Ordinal);
        return [.. spool.Cuts.Where(c => c.IsCut && line.Done.CutOf(c.Piece) is null).Select(c => $"{c.Piece}: not cut")
            .Concat(welds.Where(w => mine.Contains(w.Joint.Id)).SelectMany(w => w.Missing))
            .Concat(holds.BeforeSpool("released", spool.Name)).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>What stands between a line and its test.</summary>
    public static IReadOnlyList<string> ForTest(LineDone line, IReadOnlyList<WeldHistory> welds, HoldPoints holds) =>
        [.. welds.SelectMany(w => w.Missing)
            .Concat(line.Fabrication.Route.Joints.Where(j => j.Kind == JointKind.Bolted && !line.Done.Counting<BoltedUp>(j.Id).Any() && !(line.Done.StepOf(j.Id) >= Records.Step.Tacked)).Select(j => $"{j.Id}: not bolted up"))
            .Concat(holds.BeforeTest()).Distinct(StringComparer.Ordinal)];

    /// <summary>Why a step must not be ticked now: what is missing before it. Where the fact names all of it and who takes it on, nothing.</summary>
    public static IReadOnlyList<string> NotBefore(Fact fact, LineDone line, IReadOnlyList<WeldHistory> welds, HoldPoints holds)
    {
        var missing = holds.Before(fact);
        if (fact is Released released && line.Fabrication.Spools.FirstOrDefault(s => s.Name.Equals(released.Spool, StringComparison.OrdinalIgnoreCase)) is { } spool)
            missing = ForRelease(line, spool, welds, holds);
        if (fact is Tested)
            missing = ForTest(line, welds, holds);
        var takenOn = (fact as DrawingFact)?.Deviation?.Missing ?? [];
        return [.. missing.Except(takenOn, StringComparer.Ordinal)];
    }
}

/// <summary>What a line's tests say.</summary>
public static class LineTests
{
    /// <summary>The last test that counts passed.</summary>
    public static bool IsTested(this LineDone line) => line.Tests() is [.., { HasPassed: true }];

    /// <summary>The tests that count, by time.</summary>
    public static IReadOnlyList<Tested> Tests(this LineDone line) => [.. DrawingRecord.Counting(line.Done.Facts).OfType<Tested>()];
}
