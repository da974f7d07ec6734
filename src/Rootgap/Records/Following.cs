using Rootgap.Comparing;
using Rootgap.Fabricating;

namespace Rootgap.Records;

/// <summary>
/// Follows what was done to the drawing as it is now. A fact is about the version that it was made on; that version and the drawing now are laid beside each other
/// (<see cref="Comparison"/>), and the fact goes with its steel, whatever this is called now. It keeps what it has worked out: one for each place that asks.
/// </summary>
public sealed class Following
{
    private const string OfSpool = "spool ";

    private readonly DrawnVersions drawn;
    private readonly Dictionary<string, (Fabrication Now, Comparison? Comparison)> compared = new(StringComparer.Ordinal);

    public Following() => drawn = new();

    private Following(Fabrication old) => drawn = new(old);

    /// <summary>What was done on one drawing, as it would stand on another: for two files, where there is no job. All that is said of the old one's number and revision counts as made on it.</summary>
    public static DrawingRecord Between(JobRecord record, Fabrication old, Fabrication now) => new Following(old).Of(record, "", now, []);

    /// <summary>A fact with what it speaks of, by its name on the version that it stands on: its own, or that on which somebody said that it holds.</summary>
    private sealed record Standing(Entry<DrawingFact> Entry, DrawingFact Fact, Ground Ground, bool IsSetAside);

    /// <summary>What was done on the drawing of a file, as it stands on the drawing as it is now.</summary>
    /// <param name="path">The drawing's file in the job.</param>
    /// <param name="now">The drawing as it is now, or would be after a change.</param>
    /// <param name="versions">Ids of its saved version and of those beside it; empty where it is not saved.</param>
    public DrawingRecord Of(JobRecord record, string path, Fabrication now, IReadOnlyList<string> versions)
    {
        var drawing = new DrawingRef(now.Route.Drawing.Number, now.Route.Drawing.Revision);
        List<(Entry<DrawingFact> Entry, Ground Ground)> mine = [];
        foreach (var entry in record.OnDrawing(path, drawing.Number))
        {
            if (drawn.GroundOf(record, entry.Fact, path, drawing.Number) is { } ground)
                mine.Add((entry, ground));
        }

        var takes = mine.Where(f => f.Entry.Counts).Select(f => f.Entry.Fact).OfType<RevisionTaken>().ToList();
        var taken = takes.Find(t => t.Drawing.Revision == drawing.Revision);
        var standing = Stand(record, mine, takes, now);
        List<Entry<DrawingFact>> facts = [];
        List<Marked> marked = [];
        foreach (var group in standing.Where(f => !f.IsSetAside).GroupBy(f => (f.Ground.Key, f.Ground.Revision)))
        {
            var ground = group.First().Ground;
            var isOther = ground.Revision != drawing.Revision;
            if (!isOther && (ground.IsAnything || (versions.Count > 0 && ground.Key == Ground.KeyOf(versions))))
            {
                facts.AddRange(group.Select(f => f.Entry with { As = f.Fact with { Drawing = drawing } }));
                continue;
            }

            var map = Compare(record, ground, now, "");
            var fates = map is null ? [] : Fates(record, map, ground, standing);
            foreach (var f in group)
            {
                var mark = MarkOf(f, map, fates.GetValueOrDefault(f.Fact.Id));
                if (mark.Mark == Mark.Stays && (!isOther || taken is not null))
                    facts.Add(f.Entry with { As = Named(f.Fact, mark.Now!, map) with { Drawing = drawing } });
                else if (f.Entry.Counts)
                    marked.Add(mark with { IsWaiting = isOther && taken is null, IsHeld = isOther && taken is not null && mark.Mark == Mark.LookAt });
            }
        }

        // What was entered anew since is settled; where a second person is needed, by him.
        var anew = facts.Where(e => e.Counts).ToLookup(e => What(e.As), StringComparer.OrdinalIgnoreCase);
        var settled = marked.Where(m => m is { IsWaiting: false, Now: { } now } && anew[What(Named(m.Entry.Fact, now, null))].Any(e =>
            e.Fact.Time > m.Entry.Fact.Time && e.Fact.Drawing.Revision == drawing.Revision && !(m.IsHeld && e.Fact.IsBySameAs(taken!)))).ToHashSet();
        return new(drawing, InOrder(facts, e => e), InOrder(marked.Except(settled), m => m.Entry),
            InOrder(standing.Where(f => f.IsSetAside).Select(f => f.Entry).Concat(settled.Select(m => m.Entry)), e => e), taken, record.HeatOfBar);

        static List<T> InOrder<T>(IEnumerable<T> list, Func<T, Entry<DrawingFact>> entry) => [.. list.OrderBy(x => entry(x).Fact, Fact.Order)];
    }

    /// <summary>Each fact on the version that it stands on: where somebody looked at it later, on that one.</summary>
    private List<Standing> Stand(JobRecord record, List<(Entry<DrawingFact> Entry, Ground Ground)> mine, List<RevisionTaken> takes, Fabrication now)
    {
        var looks = mine.Where(f => f.Entry is { Counts: true, Fact: LookedAt }).ToLookup(f => ((LookedAt)f.Entry.Fact).Of, StringComparer.Ordinal);
        List<Standing> standing = [];
        foreach (var (entry, ground) in mine)
        {
            if (entry.Fact is RevisionTaken or LookedAt)
                continue;
            var at = new Standing(entry, entry.Fact, ground, IsSetAside: false);
            foreach (var (by, there) in looks[entry.Fact.Id])
            {
                var look = (LookedAt)by.Fact;
                // Over a revision the second person's word counts, not that of the one who took it to the shop.
                if (look.Drawing.Revision != ground.Revision && !takes.Exists(t => t.Drawing.Revision == look.Drawing.Revision && !t.IsBySameAs(look)))
                    continue;
                var held = entry.Fact is ReadingsTaken && drawn.MadeOf(record, there) is { } then ? Compare(record, ground, then, there.Key) : null;
                at = new(entry, Named(entry.Fact, look.As, held), there, !look.Holds);
            }

            standing.Add(at);
        }

        return standing;
    }

    /// <param name="to">Key of the other version; empty for the drawing as it is now.</param>
    private Comparison? Compare(JobRecord record, Ground ground, Fabrication now, string to)
    {
        var key = $"{ground.Key}|{to}";
        if (!compared.TryGetValue(key, out var known) || !ReferenceEquals(known.Now, now))
            compared[key] = known = (now, drawn.MadeOf(record, ground) is { } old ? Comparison.Of(old, now) : null);
        return known.Comparison;
    }

    private static Marked MarkOf(Standing f, Comparison? map, CutAlready? fate)
    {
        var was = DrawingRecord.NameOf(f.Fact);
        Marked Of(Mark mark, string? now, params IReadOnlyList<string> why) => new(f.Entry, mark, was, now, f.Ground.Version, f.Ground.Revision, why);
        // What is known beside the readings speaks of no steel, nor do ticks on a paper; what was drawn by chance stays drawn, whatever its joints are called now.
        if (f.Fact is SurveySet or PaperTicked or NoteTaken { About: "" } || (f.Fact is WeldsDrawn && map is not null))
            return Of(Mark.Stays, was);
        if (map is null)
            return Of(Mark.LookAt, null, f.Ground.Version is null ? "the version that it was made on is not here" : "the version that it was made on cannot be read");
        // A row names all its ends: it goes on only where every one of them is the same steel and bears the same name.
        if (f.Fact is SurveyRead read && read.Joints.FirstOrDefault(j => map.OfJoint(j) is not { IsSame: true, Now: { } now } || now != j) is { } other)
            return Of(Mark.LookAt, null, $"{other}, on which it was taken, is another joint now");
        // A test is of all that holds the pressure.
        if (f.Fact is Tested)
            return map.IsSame ? Of(Mark.Stays, was) : Of(Mark.LookAt, was, [.. Untested(map)]);
        var there = f.Fact switch
        {
            PieceCut c => map.OfPiece(c.Piece),
            HeatNoted h => map.OfComponent(h.Component) ?? map.OfPiece(h.Component),
            ErectionDone or SpoolFact => OfStep(map, was),
            NoteTaken => map.OfJoint(was) ?? map.OfPiece(was) ?? map.OfComponent(was) ?? OfStep(map, was),
            _ => map.OfJoint(was),
        };
        if (there is null)
            return Of(Mark.LookAt, null, $"the version that it was made on has no {was}");
        if (f.Fact is ReadingsTaken { Held: { Length: > 0 } held } && there.IsSame && map.PartNow(held) is null)
            return Of(Mark.LookAt, there.Now, $"{held}, which was held, is gone");
        // Its row names ends by their parts.
        if (f.Fact is SpoolRead row && there.IsSame && row.Parts.FirstOrDefault(p => map.PartNow(p) != p) is { } part)
            return Of(Mark.LookAt, there.Now, $"{part}, at which it was read, is called otherwise now");
        if (there.IsSame)
            return Of(Mark.Stays, there.Now);
        if (f.Fact is PieceCut && fate is not null)
        {
            var spoiled = fate.Fate == Fate.Spoiled || fate.UseAs != there.Now;
            return Of(there.Now is null ? Mark.Gone : spoiled ? Mark.Spoiled : Mark.LookAt, there.Now, map.LengthNow(was, fate.Length) is { } length ? [length, fate.Says] : [fate.Says]);
        }

        return Of(there.Now is null ? Mark.Gone : Mark.LookAt, there.Now, there.Why);
    }

    private static IEnumerable<string> Untested(Comparison map) =>
        map.Pieces.Where(p => !p.IsSame).Select(p => $"{(p.New ?? p.Old)!.Piece} has changed").Concat(map.Joints.Concat(map.Components).Select(d => $"{d.Name} {d.Kind}")).Take(6).DefaultIfEmpty("the drawing has changed");

    /// <summary>What was put up is a spool, what was closed a joint.</summary>
    private static Whereabouts? OfStep(Comparison map, string step)
    {
        if (step.Equals(ErectionDone.SupportsSet, StringComparison.OrdinalIgnoreCase))
            return new(step, [.. map.Supports.Select(s => s.Says)]);
        if (!step.StartsWith(OfSpool, StringComparison.OrdinalIgnoreCase))
            return map.OfJoint(step);
        return map.Spools.FirstOrDefault(s => step[OfSpool.Length..].Equals(s.Old, StringComparison.OrdinalIgnoreCase)) is { } change ? new(change.New is null ? null : OfSpool + change.New, change.Why) : null;
    }

    /// <summary>What becomes of the pieces that were cut on one version, by their facts' ids. A piece that is tacked or welded in is not moved, nor trimmed there.</summary>
    private Dictionary<string, CutAlready> Fates(JobRecord record, Comparison map, Ground ground, List<Standing> standing)
    {
        var cuts = standing.Where(f => f is { Entry.Counts: true, IsSetAside: false, Fact: PieceCut { IsSpoiled: false } } && f.Ground.Key == ground.Key).Select(f => (PieceCut)f.Fact).ToList();
        if (cuts.All(c => map.OfPiece(c.Piece) is null or { IsSame: true }))
            return [];
        var made = standing.Where(f => f is { Entry.Counts: true, IsSetAside: false, Fact: JointStep { Step: >= Step.Tacked } }).ToLookup(f => f.Ground, f => ((JointStep)f.Fact).Joint);
        var pieces = cuts.Select(c => new CutPiece(c.Piece, c.Length) { StartIsJoined = IsMade(map.JointAt(c.Piece, atStart: true)), EndIsJoined = IsMade(map.JointAt(c.Piece, atStart: false)) }).ToList();
        return cuts.Zip(CutAlready.Of(map, pieces)).GroupBy(p => p.First.Id, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.First().Second, StringComparer.Ordinal);

        // The weld may have been made on a later version than the cut.
        bool IsMade(string? joint) => joint is not null && made.Any(there =>
            (there.Key.Key == ground.Key ? joint : drawn.MadeOf(record, there.Key) is { } then ? Compare(record, ground, then, there.Key.Key)?.OfJoint(joint)?.Now : null) is { } name
            && there.Contains(name, StringComparer.OrdinalIgnoreCase));
    }

    /// <summary>What a fact says, without who and when: the same words, the same thing done.</summary>
    private static string What(DrawingFact fact) => $"{fact.Kind} {DrawingRecord.NameOf(fact)} {(fact as WeldFact)?.Weld} {(fact as JointStep)?.Step}{(fact as Examined)?.Method}{(fact as Coated)?.Coating}";

    /// <summary>The fact with the names that its parts have on another version.</summary>
    private static DrawingFact Named(DrawingFact fact, string name, Comparison? map) => fact switch
    {
        PieceCut c => c with { Piece = name },
        HeatNoted h => h with { Component = name },
        ReadingsTaken r => r with { Joint = name, Held = map?.PartNow(r.Held) ?? r.Held },
        JointFact j => j with { Joint = name },
        ErectionDone e => e with { Step = name },
        SpoolFact s => s with { Spool = name.StartsWith(OfSpool, StringComparison.OrdinalIgnoreCase) ? name[OfSpool.Length..] : name },
        NoteTaken n => n with { About = name },
        WeldsDrawn d when map is not null => d with { Welds = [.. d.Welds.Select(w => map.OfJoint(w.Joint)?.Now is { } now ? w with { Joint = now } : null).OfType<WeldInDraw>()] },
        _ => fact,
    };
}
