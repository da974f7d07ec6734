using System.Globalization;
using System.Text.Json;
using Microsoft.JSInterop;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Sheets;
using Mark = Rootgap.Records.Mark;
using Step = Rootgap.Records.Step;

namespace Rootgap.App.Jobs;

/// <summary>
/// What the first page says of each drawing. Nothing is worked out twice for one content: results are kept in the browser with what they were made of. One drawing is
/// worked out at a time, those that are on the screen first, the others while the person's hands are off the page.
/// </summary>
public sealed class Glances(LocalJob job, OpenDrawings drawings, ProgramParts parts, IJSRuntime js)
{
    private const int SketchWidth = 84, SketchHeight = 66;

    /// <summary>So many are written into the browser's database at once.</summary>
    private const int Batch = 12;

    /// <summary>So many kept results are held against what the job has now before the page gets its turn.</summary>
    private const int LooksATurn = 100;

    /// <summary>Which program works them out. Not asked for before its parts are here.</summary>
    private static string Program => field ??= typeof(Packet).Module.ModuleVersionId.ToString("N") + typeof(Drawing).Module.ModuleVersionId.ToString("N");

    private readonly Dictionary<string, DrawingGlance> known = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> keys = new(StringComparer.Ordinal);

    /// <summary>Those on the screen, the last one asked for at the end.</summary>
    private readonly List<string> seen = [];

    /// <summary>The others that were never worked out, or not as they are now.</summary>
    private readonly Queue<string> due = [];

    /// <summary>The others, not looked at since the job's records changed.</summary>
    private readonly Queue<string> unsure = [];

    /// <summary>All that are still to be worked out, each once: on the screen or not.</summary>
    private readonly HashSet<string> left = new(StringComparer.Ordinal);

    private readonly List<DrawingGlance> unkept = [];
    private Task<IJSObjectReference>? module;
    private JobRecord? of;
    private string forJob = "";
    private bool isAtWork;

    /// <summary>The drawing at this path was looked at.</summary>
    public event Action<string>? Changed;

    /// <summary>How many drawings are still to be worked out, as far as that is known.</summary>
    public int Left => left.Count;

    private Task<IJSObjectReference> Module => module ??= js.InvokeAsync<IJSObjectReference>("import", "./js/glances.js").AsTask();

    /// <summary>Brings what is kept of this job in the browser.</summary>
    public async Task Open()
    {
        if (forJob == job.Id)
            return;
        forJob = job.Id;
        known.Clear();
        var kept = await (await Module).InvokeAsync<byte[]>("all", job.Id);
        try
        {
            foreach (var glance in JsonSerializer.Deserialize(kept, DrawingGlanceJson.Default.DrawingGlanceArray) ?? [])
                known[glance.Path] = glance;
        }
        catch (JsonException)
        {
            // Not as this program keeps them: they are worked out anew.
            known.Clear();
        }
    }

    /// <summary>As far as it is worked out, also where its drawing has changed since; null where it never was. It is worked out next where it must be.</summary>
    public DrawingGlance? Of(string path)
    {
        if (!parts.AreHere && known.TryGetValue(path, out var kept))
        {
            unsure.Enqueue(path);
            Begin();
            return kept;
        }

        if (!IsFresh(path))
        {
            // The last one asked for is on the screen now.
            seen.Remove(path);
            seen.Add(path);
            left.Add(path);
            Begin();
        }

        return known.GetValueOrDefault(path);
    }

    /// <summary>What is worked out of a drawing, without asking for it.</summary>
    public DrawingGlance? Known(string path) => known.GetValueOrDefault(path);

    /// <summary>Works out these, too, when those on the screen are done.</summary>
    public void WantAll(IEnumerable<string> paths)
    {
        due.Clear();
        unsure.Clear();
        left.Clear();
        left.UnionWith(seen);
        foreach (var path in paths)
        {
            if (known.ContainsKey(path))
                unsure.Enqueue(path);
            else
                Due(path);
        }

        Begin();
    }

    /// <summary>Nobody looks any more: the rest is left.</summary>
    public void Stop()
    {
        seen.Clear();
        due.Clear();
        unsure.Clear();
        left.Clear();
    }

    private void Due(string path)
    {
        due.Enqueue(path);
        left.Add(path);
    }

    private bool IsFresh(string path) => parts.AreHere && known.GetValueOrDefault(path) is { } glance && glance.Key == KeyOf(path, glance.Beside);

    private void Begin()
    {
        if (!isAtWork && seen.Count + due.Count + unsure.Count > 0)
            _ = Work();
    }

    private async Task Work()
    {
        isAtWork = true;
        try
        {
            await Task.Delay(1);
            // What is kept is shown; the next look asks again.
            if (!await parts.Bring())
                return;
            while (seen.Count + due.Count + unsure.Count > 0)
            {
                if (seen.Count == 0 && unsure.Count > 0)
                {
                    for (var i = 0; i < LooksATurn && unsure.TryDequeue(out var kept); i++)
                    {
                        if (!IsFresh(kept))
                            Due(kept);
                    }
                }
                else if (Next() is { } path)
                {
                    WorkOut(path);
                }

                if (unkept.Count >= Batch || Left == 0)
                    await Keep();
                // What nobody looks at waits until the hands are off: each takes as long as a few frames.
                if (seen.Count > 0 || due.Count == 0)
                    await Task.Delay(1);
                else
                    await (await Module).InvokeVoidAsync("rest");
            }
        }
        catch (JSException)
        {
            // The browser has no room for results: they are worked out anew next time.
            unkept.Clear();
        }
        finally
        {
            isAtWork = false;
        }
    }

    private string? Next()
    {
        if (seen.Count > 0)
        {
            var path = seen[^1];
            seen.RemoveAt(seen.Count - 1);
            return path;
        }

        // Those that came on the screen meanwhile are done.
        while (due.TryDequeue(out var next))
        {
            if (left.Contains(next))
                return next;
        }

        return null;
    }

    private void WorkOut(string path)
    {
        if (!IsFresh(path) && Made(path) is { } glance)
        {
            known[path] = glance;
            unkept.Add(glance);
        }

        left.Remove(path);
        Changed?.Invoke(path);
    }

    private async Task Keep()
    {
        if (unkept.Count == 0)
            return;
        var list = unkept.ToArray();
        unkept.Clear();
        await (await Module).InvokeVoidAsync("keep", job.Id, list.Select(g => g.Path), list.Select(g => JsonSerializer.Serialize(g, DrawingGlanceJson.Default.DrawingGlance)));
    }

    /// <summary>Of what a drawing's result is made: the program, the drawing's versions, the files that its reading asked for, its twins, and what was done on it. Other files of the job are nothing to it.</summary>
    private string KeyOf(string path, IReadOnlyList<string>? beside)
    {
        if (!ReferenceEquals(of, job.Record))
        {
            of = job.Record;
            keys.Clear();
        }

        var isWritten = job.Drafts.Count > 0 && (job.Drafts.ContainsKey(path) || beside?.Any(job.Drafts.ContainsKey) == true);
        if (!isWritten && keys.TryGetValue(path, out var before))
            return before;
        var sum = new Fnv();
        sum.Add(Program);
        foreach (var file in (IEnumerable<string>)[path, .. beside ?? []])
        {
            sum.Add(file);
            foreach (var head in job.Record.Files.GetValueOrDefault(file)?.Heads ?? [])
                sum.Add(head.Id);
            if (job.Drafts.GetValueOrDefault(file) is { } draft)
                sum.Add(draft.Text);
        }

        var number = job.Saved(path) is { } saved ? drawings.NumberOf(saved) : "";
        foreach (var twin in number.Length > 0 ? drawings.OfNumber(number) : [])
            sum.Add(twin);
        foreach (var entry in job.Record.OnDrawing(path, number))
        {
            sum.Add(entry.Fact.Id);
            foreach (var withdrawal in entry.Withdrawals)
                sum.Add(withdrawal.Id);
        }

        var key = sum.ToString();
        if (!isWritten)
            keys[path] = key;
        return key;
    }

    private DrawingGlance? Made(string path)
    {
        var wasOpen = drawings.IsKnown(path);
        if (drawings.Of(path) is not { } open)
            return null;
        var done = drawings.Done(path);
        var saved = drawings.Saved(path);
        string[] beside = [.. drawings.Beside(path)];
        keys.Remove(path);
        var glance = Made(path, KeyOf(path, beside), beside, open, saved?.Packet ?? open.Packet, done);
        // A job of thousands is not held in memory as a whole.
        if (!wasOpen)
            drawings.Forget(path);
        return glance;
    }

    private DrawingGlance Made(string path, string key, string[] beside, OpenDrawing open, Packet? packet, DrawingRecord done)
    {
        var isTorn = job.Record.Files.GetValueOrDefault(path)?.IsTorn == true;
        var findings = open.Packet?.Findings.Where(f => f.AcceptedBecause is null).ToList() ?? [];
        var stops = findings.Where(f => f.Severity == Severity.Stop).ToList();
        var waiting = done.Marked.Count(m => m.IsWaiting);
        if (packet is null)
            return new(path, key, beside, "", Math.Max(1, open.Errors.Count), stops.Count, 0, "", waiting, 0, isTorn, 0, 0, 0, [], [], "");
        var f = packet.Fabrication;
        var spools = SpoolStates.Of(f, done).Select(s => Made(s, done)).ToArray();
        var welds = f.Route.Joints.Where(j => j.IsWeld).ToList();
        GlanceStrokes[] sketch = [];
        try
        {
            sketch = [.. LineSketch.Of(f, SketchWidth, SketchHeight).GroupBy(s => s.Spool, StringComparer.Ordinal).Select(of => new GlanceStrokes(of.Key, string.Concat(of.Select(s => string.Create(CultureInfo.InvariantCulture, $"M{s.FromX:0.#} {s.FromY:0.#}L{s.ToX:0.#} {s.ToY:0.#}")))))];
        }
        catch (Exception e) when (e is ArithmeticException or InvalidOperationException or ArgumentException)
        {
            // Rows half written may have no picture; what is said of them stands.
        }

        return new(path, key, beside, packet.Drawing.Revision, open.Errors.Count, stops.Count, findings.Count(x => x.Severity == Severity.Warn), stops.Count > 0 ? stops[0].Message : "", waiting,
            done.Marked.Count(m => !m.IsWaiting && m.Mark != Mark.Stays), isTorn, welds.Count, welds.Count(j => done.StepOf(j.Id) >= Step.Welded), welds.Count(j => done.StepOf(j.Id) is { } step && step < Step.Welded),
            spools, sketch, $" {string.Join(' ', f.Route.Joints.Select(j => j.Id).Concat(f.Cuts.Select(c => c.Piece)))} ");
    }

    private static SpoolGlance Made(SpoolStanding s, DrawingRecord done)
    {
        var steps = s.Spool.Joints.Select(j => (j.Id, j.IsWeld, Step: done.StepOf(j.Id))).ToList();
        return new(s.Spool.Name, s.State, s.Spool.Cuts.Count(c => c.IsCut), steps.Count, s.JointsAt[Step.Tacked], s.JointsAt[Step.Welded], s.JointsAt[Step.Checked],
            [.. s.Spool.Cuts.Where(c => c.IsCut && done.CutOf(c.Piece) is null).Select(c => c.Piece)],
            [.. steps.Where(j => j.Step is null or Step.Fitted).Select(j => j.Id)],
            [.. steps.Where(j => j.IsWeld && j.Step == Step.Tacked).Select(j => j.Id)],
            [.. steps.Where(j => j.Step == Step.Welded).Select(j => j.Id)],
            DrawingRecord.Counting(done.Erected[$"spool {s.Spool.Name}"]).Any());
    }

    /// <summary>A sum over words, the same in every run (FNV-1a, 64 bit).</summary>
    private struct Fnv()
    {
        private ulong sum = 14695981039346656037;

        public void Add(string text)
        {
            foreach (var c in text)
                sum = (sum ^ c) * 1099511628211;
            sum = (sum ^ '\n') * 1099511628211;
        }

        public override readonly string ToString() => sum.ToString("x16", CultureInfo.InvariantCulture);
    }
}
