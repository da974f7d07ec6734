using Rootgap.App.Jobs;
using Rootgap.App.Offline;
using Rootgap.Papers;
using Rootgap.Records;

namespace Rootgap.App.Work;

/// <summary>The papers of the job as its facts and its saved drawings have them, made once for each state of these.</summary>
public sealed class JobWork(LocalJob job, OpenDrawings drawings)
{
    // The first page makes this object before the later parts of the program are here: what they bring is held a step away.
    private readonly Dictionary<string, Known> lines = new(StringComparer.Ordinal);
    private Made? made;

    private sealed record Known(OpenDrawing Open, DrawingRecord Done, LineDone Line);

    private sealed record Made(JobPapers Papers);

    public JobPapers Papers
    {
        get
        {
            List<LineDone> now = [.. drawings.Paths.Select(LineOf).OfType<LineDone>()];
            if (made is null || !ReferenceEquals(made.Papers.Job, job.Record) || !made.Papers.Lines.SequenceEqual(now, ReferenceEqualityComparer.Instance))
                made = new(new(job.Record, now));
            return made.Papers;
        }
    }

    /// <summary>A drawing with what was done on it; null where there is none, or nothing of it can be understood.</summary>
    public LineDone? LineOf(string path)
    {
        if (drawings.Saved(path) is not { Packet: { } packet } open)
            return null;
        var done = drawings.Done(path);
        if (!lines.TryGetValue(path, out var known) || !ReferenceEquals(known.Open, open) || !ReferenceEquals(known.Done, done))
            lines[path] = known = new(open, done, new(path, packet.Fabrication, done) { IsBuildable = packet.IsBuildable });
        return known.Line;
    }

    /// <summary>What is missing before the step that a fact says was done; empty where nothing is, or its drawing is not known.</summary>
    public IReadOnlyList<string> NotBefore(DrawingFact fact)
    {
        if (fact is not (JointStep or HeatTreated or BoltedUp or Released or Coated or Tested) || fact.Versions.Count == 0 || job.Record.Versions.GetValueOrDefault(fact.Versions[0])?.Path is not { } path || LineOf(path) is not { } line)
            return [];
        return new JobPapers(job.Record, [line]).NotBefore(fact, line);
    }
}
