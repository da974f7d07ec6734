using Rootgap.Cutting;
using Rootgap.Findings;

namespace Rootgap.Records;

/// <summary>
/// What a job's facts say of the saw: pieces that are cut, pieces that were spoiled, and what of which bar is gone. A piece counts as cut where its fact counts on the
/// drawing as it is now (<see cref="DrawingRecord.CutOf"/>); its steel is gone all the same.
/// </summary>
public static class SawFacts
{
    /// <param name="stock">Path of the stock file in the job; empty for lengths that are bought as the shop's rules have them.</param>
    /// <param name="rack">The stock file as it is.</param>
    /// <param name="drawings">The drawings that are planned, with what was done on them and their pieces.</param>
    /// <param name="findings">Gets a word where the facts and the stock file do not agree.</param>
    public static IReadOnlyList<SawnBar> Of(JobRecord job, string stock, Rack rack, IEnumerable<(DrawingRecord Done, IReadOnlyList<Piece> Pieces)> drawings, List<Finding> findings)
    {
        var good = new Dictionary<string, Piece>(StringComparer.Ordinal); // by the id of the fact that counts
        foreach (var (done, pieces) in drawings)
        {
            foreach (var piece in pieces)
            {
                if (done.CutOf(piece.Id) is { } cut)
                    good.TryAdd(cut.Id, piece);
                else
                    Earlier(done, piece, good, findings);
            }
        }

        var bars = new Dictionary<string, SawnBar>(StringComparer.OrdinalIgnoreCase);
        var loose = new List<SawnPiece>();
        var unnoted = new List<string>();
        var times = new Dictionary<(string, string), int>();
        foreach (var cut in DrawingRecord.Counting(job.OnDrawings).OfType<PieceCut>())
        {
            var piece = good.GetValueOrDefault(cut.Id);
            var time = times[(cut.Drawing.Number, cut.Piece)] = times.GetValueOrDefault((cut.Drawing.Number, cut.Piece)) + 1;
            if (cut.From is { } from && from.Stock.Equals(stock, StringComparison.OrdinalIgnoreCase) && RowOf(rack, from.Bar, piece, findings) is { } row)
            {
                var sawn = new SawnPiece(piece?.Drawing ?? cut.Drawing.Number, piece?.Id ?? cut.Piece, piece?.Length ?? cut.Length ?? 0, piece is not null, from.To);
                var bar = bars.GetValueOrDefault(from.Bar) ?? new(from.Bar, row.Id, 0, []);
                // Two tablets may tell of one cut: the one that counts is the word.
                var same = bar.Sawn.FirstOrDefault(sawn.IsSameCut);
                bars[from.Bar] = bar with
                {
                    Gone = Math.Max(bar.Gone, from.To),
                    Heat = cut.Heat?.Trim() is { Length: > 0 } heat ? heat : bar.Heat, // the heat that was read at the saw goes with what is left
                    Sawn = same is null ? [.. bar.Sawn, sawn] : sawn.IsGood ? [.. bar.Sawn.Select(p => p == same ? sawn : p)] : bar.Sawn,
                };
            }
            else if (piece is not null)
            {
                loose.Add(new(piece.Drawing, piece.Id, piece.Length, IsGood: true, time));
                if (cut.From is null)
                    unnoted.Add(piece.FullName);
            }
        }

        foreach (var noted in job.Facts.Where(e => e.Counts).Select(e => e.Fact).OfType<BarNoted>().Where(n => n.Stock.Equals(stock, StringComparison.OrdinalIgnoreCase)))
        {
            if (RowOf(rack, noted.Bar, null, findings) is not { } row)
                continue;
            var bar = bars.GetValueOrDefault(noted.Bar) ?? new(noted.Bar, row.Id, 0, []);
            bars[noted.Bar] = bar with { IsOut = bar.IsOut || noted.IsOut, Heat = noted.Heat?.Trim() ?? bar.Heat };
        }

        List<SawnBar> told = [.. bars.Values.Select(b => Checked(b, rack, findings)).OrderBy(b => b.Name, StringComparer.Ordinal)];
        if (loose.Count > 0)
            told.Add(new("", "", 0, loose));
        if (unnoted.Count > 0)
        {
            findings.Add(new("cut-from-no-bar", Severity.Note, unnoted[0], default,
                $"{string.Join(", ", unnoted.Take(6))}{(unnoted.Count > 6 ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $" and {unnoted.Count - 6} more") : "")} {(unnoted.Count == 1 ? "is" : "are")} cut, and nobody noted from which bar.",
                "All bars of the stock file are taken for whole: take out of the file what is gone. What is ticked on the page of the cutting plan takes its bar along."));
        }

        return told;
    }

    // A cut made on an earlier version: of the same steel it is the piece, though its revision is not taken to the shop yet; else somebody must look at it.
    private static void Earlier(DrawingRecord done, Piece piece, Dictionary<string, Piece> good, List<Finding> findings)
    {
        if (done.Marked.LastOrDefault(m => m.Entry.Fact is PieceCut && piece.Id.Equals(m.Now, StringComparison.OrdinalIgnoreCase)) is not { Entry.Fact: PieceCut { IsSpoiled: false } cut } last)
            return;
        if (last.Mark == Mark.Stays)
        {
            good.TryAdd(cut.Id, piece);
            return;
        }

        findings.Add(new("cut-on-an-earlier-version", Severity.Warn, piece.FullName, default,
            $"{piece.FullName} was cut as {last.Was}{(last.Revision.Length > 0 ? $" of revision {last.Revision}" : "")}, and the drawing has changed there{(last.Why.Count > 0 ? $" ({string.Join("; ", last.Why)})" : "")}: it is planned again.",
            "Look at the piece, and say on the page of its drawing whether it holds; then plan again."));
    }

    // Null where the stock file has no such bar any more (it was taken out, or what is left of it is a remnant by now), or another pipe under its mark.
    private static StockBar? RowOf(Rack rack, string bar, Piece? piece, List<Finding> findings)
    {
        if (rack.RowOfBar(bar) is not { } row)
            return null;
        if (piece is null || (row.Pipe.Size == piece.Pipe.Size && row.Pipe.Schedule == piece.Pipe.Schedule && (piece.Pipe.Material.Length == 0 || row.Pipe.Material == piece.Pipe.Material)))
            return row;
        findings.Add(new("cut-from-another-pipe", Severity.Warn, bar, default, $"{piece.FullName} is told to be cut from {bar}, which is {row.Pipe} in the stock file; the piece is {piece.Pipe}.",
            "If the mark was given to another bar since, give this one a mark of its own. If it is the bar, the piece is of the wrong pipe: take its cut back."));
        return null;
    }

    // Cuts that lie in each other were made by two plans that did not know of each other: all their steel is gone.
    private static SawnBar Checked(SawnBar bar, Rack rack, List<Finding> findings)
    {
        var row = rack.RowOfBar(bar.Name)!;
        var sum = bar.Sawn.Sum(p => p.Length + rack.Rules.Kerf) - rack.Rules.Kerf;
        if (bar.Gone + SawLog.SameLength < sum)
        {
            findings.Add(new("cuts-in-each-other", Severity.Warn, bar.Name, default,
                $"Bar {bar.Name}: {string.Join(", ", bar.Sawn.Select(p => p.FullName))} are told to be cut from its first {CuttingPlanner.Mm(bar.Gone)} mm, and need {CuttingPlanner.Mm(sum)} mm.",
                "Two plans were cut by that did not know of each other. Measure what is left; if it is more than the plan says, write it into the stock file as a remnant."));
            bar = bar with { Gone = sum };
        }

        if (row.Length + SawLog.SameLength < bar.Gone)
        {
            findings.Add(new("bar-too-short", Severity.Warn, bar.Name, default,
                $"Bar {bar.Name}: what is told to be cut from it ends at {CuttingPlanner.Mm(bar.Gone)} mm, and the stock file has it {CuttingPlanner.Mm(row.Length)} mm long.",
                "Nothing more is planned from it. See which bar was cut, and mend the stock file or take the cuts back."));
        }

        return bar with { Sawn = [.. bar.Sawn.OrderBy(p => p.To)] };
    }
}
