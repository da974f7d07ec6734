using Rootgap.App.Jobs;
using Rootgap.App.Offline;
using Rootgap.Papers;
using Rootgap.Records;

namespace Rootgap.App.Work;

/// <summary>The papers of the job as its facts and its saved drawings have them, made once for each state of these.</summary>
public sealed class JobWork(LocalJob job, OpenDrawings drawings)
{
    private readonly Dictionary<string, (OpenDrawing Open, DrawingRecord Done, LineDone Line)> lines = new(StringComparer.Ordinal);
    private JobPapers? papers;

    public JobPapers Papers
    {
        get
        {
            List<LineDone> now = [.. drawings.Paths.Select(LineOf).OfType<LineDone>()];
            return papers is not null && ReferenceEquals(papers.Job, job.Record) && papers.Lines.SequenceEqual(now, ReferenceEqualityComparer.Instance) ? papers : papers = new(job.Record, now);
        }
    }

    /// <summary>A drawing with what was done on it; null where there is none, or nothing of it can be understood.</summary>
    public LineDone? LineOf(string path)
    {
        if (drawings.Saved(path) is not { Packet: { } packet } open)
            return null;
        var done = drawings.Done(path);
        if (!lines.TryGetValue(path, out var known) || !ReferenceEquals(known.Open, open) || !ReferenceEquals(known.Done, done))
            lines[path] = known = (open, done, new(path, packet.Fabrication, done) { IsBuildable = packet.IsBuildable });
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
