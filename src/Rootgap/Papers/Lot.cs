using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>A weld of a lot.</summary>
/// <param name="Weld">As it is known now.</param>
/// <param name="Welders">Stamps of those whose work it was in the draw; one that is <c>?</c> where nobody noted it.</param>
/// <param name="Round">In which it was drawn; null where it was not.</param>
/// <param name="For">The rejected weld that asked for it; null where it was drawn for the share, or not at all.</param>
public sealed record LotWeld(WeldHistory Weld, IReadOnlyList<string> Welders, bool IsField, int? Round, string? For)
{
    public bool IsDrawn => Round is not null;

    public string Name => Weld.FullName;
}

/// <summary>More welds that a lot asks for.</summary>
/// <param name="For">The rejected weld that asks; empty where it is the share.</param>
/// <param name="Count">So many are still to be drawn.</param>
/// <param name="IsAll">All that are left of the welder's: a second round of this sampling had a reject.</param>
public sealed record LotAsk(string Welder, string For, int Count, bool IsAll);

/// <summary>
/// Welds of which a share is examined, split by welder. Drawn by chance with a seed that is kept; a lot is added to and never drawn again. A reject asks for two more of the
/// same welder's, each reject among these for two more, and a further one for all (progressive sampling, ASME B31.3 341.3.4). What the code in force and the inspector decide goes before.
/// </summary>
public sealed record Lot
{
    /// <summary>Who welded where nobody noted it.</summary>
    public const string NoStamp = "?";

    public required string Name { get; init; }

    public required ExaminationMethod Method { get; init; }

    /// <summary>Of each welder's welds, %.</summary>
    public required double Share { get; init; }

    public required uint Seed { get; init; }

    /// <summary>First and last day (UTC) of welding that make the lot; null where it has no such end.</summary>
    public DateOnly? Since { get; init; }

    /// <inheritdoc cref="Since"/>
    public DateOnly? Until { get; init; }

    /// <summary>The number of the next draw.</summary>
    public required int NextRound { get; init; }

    /// <summary>By drawing, along the line.</summary>
    public required IReadOnlyList<LotWeld> Welds { get; init; }

    /// <summary>What is to be drawn yet, by welder.</summary>
    public required IReadOnlyList<LotAsk> Asks { get; init; }

    /// <summary>The lot as the facts have it, with welds that were made since among those that may be drawn.</summary>
    /// <param name="welds">All welds of the lot's drawings, in order.</param>
    /// <param name="draws">The lot's draws that count, each with the drawing that it is of.</param>
    /// <param name="name">Used, as are the next five, where nothing was drawn yet.</param>
    public static Lot Of(IReadOnlyList<WeldHistory> welds, IReadOnlyList<(LineDone Line, WeldsDrawn Draw)> draws, string name, ExaminationMethod method, double share, uint seed, DateOnly? since = null, DateOnly? until = null)
    {
        // Two people who drew at once without knowing of each other: the first one's seed and share count, what the other drew is drawn too.
        var first = draws.Select(d => d.Draw).Order(Fact.Order).Cast<WeldsDrawn>().FirstOrDefault();
        (method, share, seed, since, until) = first is null ? (method, share, seed, since, until) : (first.Method, first.Share, first.Seed, first.Since, first.Until);
        var drawn = new Dictionary<(LineDone, string, WeldMark), (WeldsDrawn Draw, WeldInDraw Weld)>();
        foreach (var (line, draw) in draws.OrderBy(d => d.Draw, Fact.Order))
        {
            foreach (var weld in draw.Welds)
            {
                var key = (line, weld.Joint.ToUpperInvariant(), weld.Weld);
                if (!drawn.TryGetValue(key, out var before) || (weld.IsDrawn && !before.Weld.IsDrawn))
                    drawn[key] = (draw, weld);
            }
        }

        List<LotWeld> mine = [];
        foreach (var weld in welds)
        {
            var known = drawn.TryGetValue((weld.Line, weld.Joint.Id.ToUpperInvariant(), weld.Mark), out var draw);
            // A repair is no other weld; what stands in the place of one that was drawn is examined with it.
            if (!known && (weld.Joint.Kind != JointKind.Butt || weld.Mark.Repair > 0 || !weld.IsMade || weld.Asked.Any(a => a.Method == method)))
                continue;
            if (!known && weld.Welded is { } at && DateOnly.FromDateTime(at.UtcDateTime) is var day && (day < since || until < day))
                continue;
            if (!weld.IsMade && !(known && draw.Weld.IsDrawn))
                continue;
            mine.Add(new(weld, known && draw.Weld.Welder.Length > 0 ? draw.Weld.Welder.Split(" + ") : weld.Welders.Count > 0 ? weld.Welders : [NoStamp], known ? draw.Weld.IsField : weld.IsField,
                known && draw.Weld.IsDrawn ? draw.Draw.Round : null, known && draw.Weld.IsDrawn ? draw.Draw.For : null));
        }

        return new()
        {
            Name = first?.Lot ?? name,
            Method = method,
            Share = share,
            Seed = seed,
            Since = since,
            Until = until,
            NextRound = draws.Count == 0 ? 0 : draws.Max(d => d.Draw.Round) + 1,
            Welds = mine,
            Asks = AsksOf(mine, method, share),
        };
    }

    /// <summary>How deep in the sampling a drawn weld is: 0 for the share, 1 for what a reject of these asked for, 2 for what a reject of those asked for.</summary>
    private static int Depth(LotWeld weld, Dictionary<string, LotWeld> byName)
    {
        var depth = 0;
        for (var at = weld; at.For is { } other && depth < 3; depth++)
        {
            if (!byName.TryGetValue(other, out at!))
                return depth + 1;
        }

        return depth;
    }

    /// <summary>The first word on a weld counts here: a repair that is rejected again is repaired till it passes, and starts nothing new.</summary>
    private static bool IsReject(LotWeld weld, ExaminationMethod method) => weld.IsDrawn && weld.Weld.Examinations.FirstOrDefault(e => e.Method == method) is { IsAccepted: false };

    private static List<LotAsk> AsksOf(List<LotWeld> welds, ExaminationMethod method, double share)
    {
        var byName = new Dictionary<string, LotWeld>(StringComparer.OrdinalIgnoreCase);
        foreach (var weld in welds)
            byName.TryAdd(weld.Name, weld);
        List<LotAsk> asks = [];
        foreach (var welder in welds.SelectMany(w => w.Welders).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.Ordinal))
        {
            var his = welds.Where(w => w.Welders.Contains(welder, StringComparer.OrdinalIgnoreCase)).ToList();
            var open = his.Count(w => !w.IsDrawn);
            var share2 = Math.Min(open, ShareAsks(his, share));
            if (share2 > 0)
                asks.Add(new(welder, "", share2, IsAll: false));
            open -= share2;
            foreach (var reject in his.Where(w => IsReject(w, method) && w.Welders[0].Equals(welder, StringComparison.OrdinalIgnoreCase)))
            {
                if (open <= 0)
                    break;
                var isAll = Depth(reject, byName) >= Sampling.Steps;
                var wanted = isAll ? open : Math.Min(open, Sampling.MoreForEach - welds.Count(w => reject.Name.Equals(w.For, StringComparison.OrdinalIgnoreCase)));
                if (wanted <= 0)
                    continue;
                asks.Add(new(welder, reject.Name, wanted, isAll));
                open -= wanted;
            }
        }

        return asks;
    }

    // The share of his welds, at least one, and one in the shop and one at site where he made both.
    private static int ShareAsks(List<LotWeld> his, double share)
    {
        var drawn = his.Where(w => w.IsDrawn && w.For is null).ToList();
        var kinds = his.Select(w => w.IsField).Distinct().Count(k => !his.Exists(w => w.IsDrawn && w.IsField == k));
        return Math.Max(Sampling.CountOf(share, his.Count) - drawn.Count, kinds);
    }

    /// <summary>
    /// Draws what is asked for. Welders come in the order of their stamps; of each, first what the share asks for (where he has welds of the shop and of the site and none of
    /// one kind is drawn, one of that kind first), then what each reject asks for. One is drawn among those that are not drawn yet, in the order of the lot.
    /// </summary>
    /// <returns>The drawn welds, each with the reject that asked for it (null: the share). Empty where nothing is asked for.</returns>
    public IReadOnlyList<(LotWeld Weld, string? For)> Draw()
    {
        var chance = DrawByChance.Of(Seed, NextRound);
        List<(LotWeld Weld, string? For)> drawn = [];
        foreach (var ask in Asks)
        {
            var his = Welds.Where(w => w.Welders.Contains(ask.Welder, StringComparer.OrdinalIgnoreCase)).ToList();
            var open = his.Where(w => !w.IsDrawn && !drawn.Exists(d => d.Weld == w)).ToList();
            var count = ask.Count;
            if (ask.For.Length == 0)
            {
                // What was drawn for somebody whose weld it is too counts for him.
                count -= drawn.Count(d => d.For is null && his.Contains(d.Weld));
                foreach (var kind in new[] { false, true }.Where(k => his.Exists(w => w.IsField == k) && !his.Exists(w => w.IsField == k && (w.IsDrawn || drawn.Exists(d => d.Weld == w)))))
                {
                    One([.. open.Where(w => w.IsField == kind)]);
                    count--;
                }
            }

            for (; count > 0 && open.Count > 0; count--)
                One(open);

            void One(List<LotWeld> among)
            {
                var weld = among[chance.Among(among.Count)];
                drawn.Add((weld, ask.For.Length > 0 ? ask.For : null));
                open.Remove(weld);
            }
        }

        return drawn;
    }

    /// <summary>The facts that keep a draw: one for each drawing and each reason.</summary>
    /// <param name="make">Makes the head of a fact on a drawing: its id, who, when, the drawing and its versions.</param>
    public IReadOnlyList<WeldsDrawn> Facts(IReadOnlyList<(LotWeld Weld, string? For)> drawn, Func<LineDone, (string Id, string Who, DateTimeOffset When, IReadOnlyList<string> Versions)> make)
    {
        List<WeldsDrawn> facts = [];
        foreach (var line in Welds.Select(w => w.Weld.Line).Distinct())
        {
            // Who took part stands in the facts of the share; a reject's have what it asked for alone.
            foreach (var reason in drawn.Where(d => d.Weld.Weld.Line == line).Select(d => d.For).Append(NextRound == 0 || drawn.Any(d => d.For is null) ? null : "").Where(r => r != "").Distinct(StringComparer.Ordinal))
            {
                var (id, who, when, versions) = make(line);
                var welds = Welds.Where(w => w.Weld.Line == line && (reason is null || drawn.Any(d => d.Weld == w && d.For == reason)))
                    .Select(w => new WeldInDraw(w.Weld.Joint.Id, w.Weld.Mark, string.Join(" + ", w.Welders), w.IsField, drawn.Any(d => d.Weld == w && d.For == reason)));
                facts.Add(new(id, who, when, line.Done.Drawing, Name, Method, Share, Seed, NextRound, [.. welds]) { Since = Since, Until = Until, For = reason, Versions = versions });
            }
        }

        return facts;
    }

    /// <summary>What the lot says of a weld: drawn, asked for by W7, not drawn.</summary>
    public static string Says(LotWeld weld) => weld.For is { } other ? $"asked for by {other}" : weld.IsDrawn ? "drawn" : "not drawn";

    /// <summary>The result of a weld's examination as it stands: of what stands in its place now, where it was repaired.</summary>
    public string ResultOf(LotWeld weld)
    {
        if (!weld.IsDrawn)
            return "";
        var first = weld.Weld.Examinations.FirstOrDefault(e => e.Method == Method);
        return first is null ? "to do" : first.IsAccepted ? "accepted" : weld.Weld.IsNow ? weld.Weld.ResultOf(Method)!.IsAccepted ? "rejected, then accepted" : "rejected" : "rejected, repaired or cut out";
    }
}
