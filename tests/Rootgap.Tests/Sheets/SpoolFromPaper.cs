using System.Text.RegularExpressions;
using Rootgap.Measure;

namespace Rootgap.Tests.Sheets;

internal enum HandKind
{
    Flange,
    Bent,

    /// <summary>Two elbows in one: its ends look the same way.</summary>
    Return,
    Tee,
    Outlet,
    Eccentric,

    /// <summary>What is round about its own axis: nothing shows how it is turned.</summary>
    Round,
}

/// <summary>A part as it lies on the floor before it is fitted, in a frame of its own that says nothing of the spool: what the storeman hands out has its measures.</summary>
/// <param name="Ends">Places and outward directions of its ends, in the order in which the line goes through it, the branch last; of a flange its hub and its face, of an outlet its foot first.</param>
/// <param name="Depth">How deep what is pushed or screwed in goes at each end, mm; null at a bevel.</param>
/// <param name="Mark">A direction across it: the flat side of an eccentric reducer.</param>
/// <param name="Holes">Bolt holes of a flange.</param>
internal sealed record PartInHand(HandKind Kind, IReadOnlyList<(Point At, Vector Face)> Ends, IReadOnlyList<double?> Depth, Vector Mark, int Holes);

/// <summary>A part as it stands in the spool by the words of the sheet.</summary>
/// <param name="Holes">Unit vectors from a flange's middle to its holes.</param>
internal sealed record PartInPlace(IReadOnlyList<(Point At, Vector Face)> Ends, IReadOnlyList<Vector> Holes);

/// <summary>Builds a spool as a fitter does who has its sheet, the parts from the store and pipe of known outside diameters, and asks nobody: which way each part stands by its words, where by the pieces' lengths and gaps.</summary>
internal sealed partial class SpoolFromPaper
{
    private readonly SpoolPaper paper;
    private readonly IReadOnlyDictionary<string, PartInHand> hand;
    private readonly IReadOnlyDictionary<string, double> outside;
    private readonly Dictionary<string, Standing> standing = new(StringComparer.Ordinal);
    private readonly Dictionary<string, PartInPlace> placed = new(StringComparer.Ordinal);

    /// <summary>What the words say of a row: its ends by joint, and turned as it stands about its first end.</summary>
    private sealed record Standing(SpoolPaper.Row Row, IReadOnlyList<string> Joints, IReadOnlyList<(Vector At, Vector Face)> Ends, IReadOnlyList<Vector> Holes, (string Header, double Station, string From)? SetOn);

    public SpoolFromPaper(SpoolPaper paper, IReadOnlyDictionary<string, PartInHand> hand, IReadOnlyDictionary<string, double> outside)
    {
        (this.paper, this.hand, this.outside) = (paper, hand, outside);
        // The stub end of a lap joint is in hand with its flange.
        foreach (var row in paper.Rows.Where(r => !r.What.StartsWith("stub end", StringComparison.Ordinal)).Where(r => hand.ContainsKey(r.Mark) || outside.ContainsKey(r.Mark)))
            standing[row.Mark] = hand.TryGetValue(row.Mark, out var part) ? Turned(row, part) : Piece(row);
    }

    /// <summary>All parts, from the first one, whose first end is where it is said to be; an error tells what the sheet does not say.</summary>
    public IReadOnlyDictionary<string, PartInPlace> Build(string first, Point at)
    {
        Put(first, standing[first].Ends[0].At, at);
        for (var more = true; more;)
        {
            more = false;
            foreach (var (mark, s) in standing)
            {
                if (placed.ContainsKey(mark) || !(Beside(mark, s) || OnHeader(mark, s)))
                    continue;
                more = true;
            }

            // A header whose branch stands already.
            foreach (var (mark, s) in standing.Where(p => p.Value.SetOn is { } on && placed.ContainsKey(p.Key) && !placed.ContainsKey(on.Header)))
                more |= UnderBranch(mark, s);
        }

        return placed;
    }

    // At a joint of two, the new end looks at the one that stands.
    private bool Beside(string mark, Standing s)
    {
        for (var e = 0; e < s.Joints.Count; e++)
        {
            if (s.Joints[e].Length == 0 || (e == 0 && s.SetOn is not null))
                continue;
            foreach (var (other, o) in standing.Where(p => p.Key != mark && placed.ContainsKey(p.Key)))
            {
                for (var k = 0; k < o.Joints.Count; k++)
                {
                    if (o.Joints[k] != s.Joints[e] || (k == 0 && o.SetOn is not null))
                        continue;
                    var (at, face) = placed[other].Ends[k];
                    // What is round and has one end looks where it is put.
                    if (hand.TryGetValue(mark, out var lone) && lone is { Kind: HandKind.Round, Ends.Count: 1 })
                        standing[mark] = s = s with { Ends = [(default, -face)] };
                    Assert.True(face.Dot(s.Ends[e].Face) < -0.999999, $"{mark} and {other} do not look at each other at {s.Joints[e]}: {o.Row.Stands} | {s.Row.Stands}");
                    Put(mark, s.Ends[e].At, at + (face * Gap(s, e, o, k)));
                    return true;
                }
            }
        }

        return false;
    }

    private bool OnHeader(string mark, Standing s)
    {
        if (s.SetOn is not { } on || !placed.TryGetValue(on.Header, out var header))
            return false;
        Put(mark, s.Ends[0].At, Foot(on, header.Ends, s));
        return true;
    }

    private bool UnderBranch(string mark, Standing s)
    {
        var (header, h) = (s.SetOn!.Value.Header, standing[s.SetOn.Value.Header]);
        var foot = Foot(s.SetOn.Value, [.. h.Ends.Select(e => (Point.Origin + e.At, e.Face))], s);
        Put(header, default, Point.Origin + (placed[mark].Ends[0].At - foot));
        return true;
    }

    // Where a branch's foot is: along the header from the end that is named, then along the branch to the header's outside, and its gap.
    private Point Foot((string Header, double Station, string From) on, IReadOnlyList<(Point At, Vector Face)> header, Standing s)
    {
        var from = Array.IndexOf([.. standing[on.Header].Joints], on.From);
        Assert.True(from >= 0, $"{s.Row.Mark} is measured from {on.From}, which is no end of {on.Header}: {s.Row.Stands}");
        var way = -header[from].Face;
        var branch = -s.Ends[0].Face;
        var sine = way.Cross(branch).Length;
        var gap = s.Row.IsPiece ? -s.Row.Term("branch gap") : 0;
        // The length from the end that is cut, the final-fit extra on it.
        var start = header[from].At + (header[from].Face * (ExtraAt(standing[on.Header].Row, on.From) ?? 0));
        return start + (way * on.Station) + (branch * ((outside[on.Header] / 2 / sine) + gap));
    }

    private double Gap(Standing s, int e, Standing o, int k)
    {
        var (one, other) = (Pipe(s, e), Pipe(o, k));
        if (one is null && other is null)
            return hand[s.Row.Mark].Depth[e] is { } deep ? -deep : paper.RootGap;
        if (one is not null && other is not null)
            return paper.RootGap;
        var (pipe, fitting, end, end2) = one is not null ? (s, o, one, k) : (o, s, other!, e);
        var part = hand[fitting.Row.Mark];
        double Each(string word) => pipe.Row.Terms.FirstOrDefault(t => t.What.Contains(word, StringComparison.Ordinal)) is { Count: > 0 } t ? Math.Abs(t.Mm) / t.Count : 0;
        return end switch
        {
            "bevel" or "square" => paper.RootGap,
            "threaded" => -Each("thread engagement"),
            _ when fitting.Row.What.Contains("flange SO", StringComparison.Ordinal) => -((part.Ends[1].At - part.Ends[0].At).Length - Each("setback by the wall") - Each("setback for the weld")),
            _ => -((part.Depth[end2] ?? 0) - Each("clear")),
        };
    }

    /// <summary>How an end of a piece is made; null where it is no piece.</summary>
    private string? Pipe(Standing s, int e) => !outside.ContainsKey(s.Row.Mark) ? null
        : s.Row.Ends.EndsWith(" both", StringComparison.Ordinal) ? s.Row.Ends[..^5] : s.Row.Ends.Split(", ")[Reversed(s) ? 1 - e : e];

    // The words of a piece that is set on begin at its header; its ends are written as the line runs.
    private static bool Reversed(Standing s) => s.Row.Ends.EndsWith("saddle", StringComparison.Ordinal);

    private static double? ExtraAt(SpoolPaper.Row row, string joint) =>
        ExtraText().Match(row.How) is { Success: true } m && m.Groups[2].Value.Split(" and ").Contains(joint) ? SpoolPaper.Length(m.Groups[1].Value, row.IsInches) : null;

    private void Put(string mark, Vector own, Point at)
    {
        var s = standing[mark];
        placed[mark] = new([.. s.Ends.Select(e => (at + (e.At - own), e.Face))], s.Holes);
    }

    // A piece: from where to where, which way, how long as drawn.
    private Standing Piece(SpoolPaper.Row row)
    {
        var m = PieceText().Match(row.Stands);
        Assert.True(m.Success, row.Stands);
        var way = Way(m.Groups["way"].Value);
        var length = row.Total - row.Term("final-fit extra") - row.Term("shrinkage");
        (string, double, string)? on = m.Groups["on"].Success ? (m.Groups["on"].Value, SpoolPaper.Length(m.Groups["station"].Value, row.IsInches), Open(m.Groups["from"].Value)) : null;
        return new(row, [Open(m.Groups["a"].Value), Open(m.Groups["b"].Value)], [(default, -way), (way * length, way)], [], on);
    }

    private static string Open(string end) => end == "open end" ? "" : end;

    private static Standing Turned(SpoolPaper.Row row, PartInHand part)
    {
        var m = (part.Kind switch { HandKind.Flange => FlangeText(), HandKind.Bent => BentText(), HandKind.Return => ReturnText(), HandKind.Tee => TeeText(), HandKind.Outlet => OutletText(), HandKind.Eccentric => FlatText(), _ => RoundText() }).Match(row.How);
        Assert.True(m.Success, $"{row.Mark}: {row.How}");
        var (a, b) = (Open(m.Groups["a"].Value), Open(m.Groups["b"].Value));
        Vector Said(string group) => Way(m.Groups[group].Value);
        (Vector From, Vector To) first, second;
        switch (part.Kind)
        {
            case HandKind.Flange:
                first = (part.Ends[1].Face, Said("way"));
                second = (part.Ends[1].Face.AnySquare(), Said("way").AnySquare());
                break;
            case HandKind.Bent:
                (first, second) = ((part.Ends[1].Face, Said("out")), (-part.Ends[0].Face, Said("way")));
                break;
            case HandKind.Return:
                (first, second) = ((part.Ends[1].Face, -Said("way")), (part.Ends[1].At - part.Ends[0].At, Said("side")));
                break;
            case HandKind.Tee:
                (first, second) = ((part.Ends[1].Face, Said("way")), (part.Ends[2].Face, Said("branch")));
                break;
            case HandKind.Outlet:
                (first, second) = ((part.Ends[1].Face, Said("branch")), (part.Ends[1].Face.AnySquare(), Said("branch").AnySquare()));
                break;
            case HandKind.Eccentric:
                (first, second) = ((part.Ends[1].Face, Said("way")), (part.Mark, Said("flat")));
                break;
            default:
                // A lone end looks away from what it closes.
                var way = Said(m.Groups["closes"].Success ? "closes" : "way");
                var own = part.Ends.Count == 1 ? -part.Ends[0].Face : part.Ends[^1].Face;
                (first, second) = ((own, way), (own.AnySquare(), way.AnySquare()));
                break;
        }

        var turn = Rotation(first, second);
        var ends = part.Ends.Select(e => (turn(e.At - part.Ends[0].At), turn(e.Face))).ToList();
        List<string> joints = part.Kind switch
        {
            // One joint alone at a flange: the weld.
            HandKind.Flange => m.Groups["b"].Success && a.StartsWith('B') ? [b, a] : [a, b],
            HandKind.Tee => [a, b, m.Groups["at"].Value],
            HandKind.Outlet => [a, m.Groups["at"].Value],
            _ => [a, b],
        };
        var holes = part.Kind == HandKind.Flange && part.Holes > 0 ? Holes(m.Groups["holes"].Value, Said("way"), part.Holes) : [];
        (string, double, string)? on = m.Groups["on"].Success ? (m.Groups["on"].Value, SpoolPaper.Length(m.Groups["station"].Value, row.IsInches), Open(m.Groups["from"].Value)) : null;
        return new(row, joints, ends, holes, on);
    }

    // Bolt holes by their words: a line in the face, and straddling it, on it, or turned from straddling it as seen by who looks at the face.
    private static List<Vector> Holes(string words, Vector face, int count)
    {
        // A ring that turns takes the holes of what it is bolted to.
        if (words == "loose on its stub end, it turns")
            return [];
        var m = HolesText().Match(words);
        Assert.True(m.Success, words);
        var line = NamedWay(m.Groups["line"].Value).SquareTo(face).Unit;
        var half = Math.PI / count;
        var turned = m.Groups["turn"].Success ? double.Parse(m.Groups["turn"].Value, System.Globalization.CultureInfo.InvariantCulture) * Math.PI / 180 * (m.Groups["hand"].Value == "clockwise" ? -1 : 1) : 0;
        var from = m.Groups["on"].Success ? 0 : half;
        var side = face.Cross(line);
        return [.. Enumerable.Range(0, count).Select(i => from + turned + (2 * half * i)).Select(q => (line * Math.Cos(q)) + (side * Math.Sin(q)))];
    }

    private static Vector NamedWay(string words) => Way(words.EndsWith(" line", StringComparison.Ordinal) ? words[..^5] : words);

    private static Vector Way(string words) => SpoolPaper.Way(words) is var (e, n, u) ? new(e, n, u) : default;

    // First exactly, the second as near as the first leaves it.
    private static Func<Vector, Vector> Rotation((Vector From, Vector To) first, (Vector From, Vector To) second)
    {
        var (x, y) = (first.From.Unit, second.From.SquareTo(first.From.Unit).Unit);
        var (u, v) = (first.To.Unit, second.To.SquareTo(first.To.Unit).Unit);
        var (z, w) = (x.Cross(y), u.Cross(v));
        return p => (u * p.Dot(x)) + (v * p.Dot(y)) + (w * p.Dot(z));
    }

    private const string Joints = @"(?<a>open end|[WB]\w+)(?: to (?<b>open end|[WB]\w+))?, ";
    private const string At = "(?:(?<at>W\\w+) )?";
    private const string On = """(?<on>\S+), (?:axes meet )?(?<station>[^,]+?) from (?:the crown of )?its (?<from>open end|\S+)(?: end)?; """;

    [GeneratedRegex("^(?:set on " + On + ")?" + Joints + "(?<way>" + SpoolPaper.WayPattern + ")")]
    private static partial Regex PieceText();

    [GeneratedRegex("^" + Joints + "faces (?<way>" + SpoolPaper.WayPattern + "); (?<holes>.*)$")]
    private static partial Regex FlangeText();

    [GeneratedRegex(Joints + "(?<way>" + SpoolPaper.WayPattern + ") to (?<out>" + SpoolPaper.WayPattern + ")")]
    private static partial Regex BentText();

    [GeneratedRegex("^" + Joints + "(?<way>" + SpoolPaper.WayPattern + "), round to (?<side>" + SpoolPaper.WayPattern + ") and back ")]
    private static partial Regex ReturnText();

    [GeneratedRegex("^" + Joints + "(?<way>" + SpoolPaper.WayPattern + "); branch " + At + "(?<branch>" + SpoolPaper.WayPattern + ")")]
    private static partial Regex TeeText();

    [GeneratedRegex(@"^(?:(?<a>W\w+) )?on " + On + "branch " + At + "(?<branch>" + SpoolPaper.WayPattern + ")")]
    private static partial Regex OutletText();

    [GeneratedRegex("^" + Joints + "(?<way>" + SpoolPaper.WayPattern + "); flat side (?<flat>" + SpoolPaper.WayPattern + ")")]
    private static partial Regex FlatText();

    [GeneratedRegex("^" + Joints + "(?:closes the (?:(?<closes>\\S+) end$|end to )|)(?<way>" + SpoolPaper.WayPattern + ")?")]
    private static partial Regex RoundText();

    [GeneratedRegex(@"^(?:(?<on>one hole on)|two holes straddle|turned (?<turn>[\d.]+)° (?<hand>clockwise|anticlockwise) from straddling) the (?<line>.*?) line")]
    private static partial Regex HolesText();

    [GeneratedRegex("""; (\S+?) of it is left on for the final fit at ([^:]*)""")]
    private static partial Regex ExtraText();
}
