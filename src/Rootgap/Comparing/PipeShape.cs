using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Comparing;

/// <summary>A hole in a piece's side for what is set on it.</summary>
/// <param name="At">From the start of the piece, mm.</param>
/// <param name="Out">Unit direction in which the branch leaves.</param>
internal readonly record struct PipeHole(double At, Vector Out, NominalSize Size);

/// <summary>What has to be done to a piece so that it serves as another.</summary>
/// <param name="AtStart">What comes off its start, mm.</param>
/// <param name="AtEnd">What comes off its end, mm.</param>
/// <param name="HolesToMake">Holes of the other that it does not have yet.</param>
/// <param name="StartAnew">The end at its start has to be prepared anew; likewise at its end.</param>
internal readonly record struct Trim(double AtStart, double AtEnd, int HolesToMake, bool StartAnew, bool EndAnew)
{
    public double Off => AtStart + AtEnd;

    public bool IsNothing => Off <= Comparison.SameLength && HolesToMake == 0 && !StartAnew && !EndAnew;
}

/// <summary>A piece of pipe as it lies on the bench: its length, the preparation of its ends, and its holes. How it lay in the line is forgotten.</summary>
internal sealed record PipeShape(double Length, string Start, string End, Vector Axis, IReadOnlyList<PipeHole> Holes)
{
    /// <param name="length">As measured, mm; null for what the saw was told.</param>
    public static PipeShape Of(Steel steel, SteelPart part, double? length = null)
    {
        var cut = part.Cut!;
        return new(length ?? cut.SawLength, cut.AtStart.Word, cut.AtEnd.Word, cut.Pipe.Direction, steel.Holes(part));
    }

    private PipeShape Flipped => this with { Start = End, End = Start, Axis = -Axis, Holes = [.. Holes.Reverse().Select(h => h with { At = Length - h.At })] };

    /// <summary>What has to be done to this piece to make it the other, least work first; null where nothing helps: it is too short, or a hole is in the wrong place.</summary>
    /// <param name="keep">An end that is joined already and cannot be trimmed: the start (true) or the end (false); null where neither is.</param>
    public Trim? ToBecome(PipeShape other, bool? keep = null)
    {
        var straight = Try(this, other, keep);
        var turned = Try(Flipped, other, keep is { } k ? !k : null) is { } t ? new Trim(t.AtEnd, t.AtStart, t.HolesToMake, t.EndAnew, t.StartAnew) : (Trim?)null;
        return straight is { } s && turned is { } u ? (Work(u) < Work(s) ? u : s) : straight ?? turned;

        static double Work(Trim t) => t.Off + (t.StartAnew ? 1000 : 0) + (t.EndAnew ? 1000 : 0);
    }

    private static Trim? Try(PipeShape mine, PipeShape other, bool? keep)
    {
        var off = mine.Length - other.Length;
        var (startDiffers, endDiffers) = (Differs(mine.Start, other.Start), Differs(mine.End, other.End));
        if (off < -Comparison.SameLength || mine.Holes.Count > other.Holes.Count || (keep == true && startDiffers) || (keep == false && endDiffers))
            return null;
        var spare = Math.Max(0, off);
        if (mine.Holes.Count == 0)
        {
            // The end that has to be made anew is the one to cut; a saddle or a thread is work to keep; else the end of the piece.
            var fromStart = keep is { } k ? !k : startDiffers != endDiffers ? startDiffers : IsWork(mine.End) && !IsWork(mine.Start);
            return Made(fromStart ? spare : 0, fromStart ? 0 : spare);
        }

        foreach (var target in other.Holes)
        {
            // The first hole lands on one of the other's: that fixes what comes off the start, and the turn about the axis.
            var atStart = mine.Holes[0].At - target.At;
            if (atStart < -Comparison.SameLength || off - atStart < -Comparison.SameLength)
                continue;
            if (mine.Holes.All(h => other.Holes.Any(t => t.Size == h.Size && Math.Abs(h.At - atStart - t.At) <= Comparison.SameLength && IsTurnedAlike(mine, h, other, t, target))))
            {
                var start = atStart <= Comparison.SameLength ? 0 : atStart;
                if (!(keep == true && start > 0) && !(keep == false && spare - start > Comparison.SameLength))
                    return Made(start, Math.Max(0, spare - start));
            }
        }

        return null;

        Trim Made(double start, double end) => new(start, end, other.Holes.Count - mine.Holes.Count,
            startDiffers || (start > Comparison.SameLength && mine.Start != "plain"), endDiffers || (end > Comparison.SameLength && mine.End != "plain"));
    }

    /// <summary>Whether the holes of two pieces are alike, measured from the one end or from the other.</summary>
    public bool HasHolesOf(PipeShape other)
    {
        if (Holes.Count != other.Holes.Count)
            return false;
        return Holes.Count == 0 || Alike(this) || Alike(Flipped);

        bool Alike(PipeShape mine) => new[] { 0, mine.Length - other.Length }.Any(shift => other.Holes.Any(target =>
            mine.Holes[0].Size == target.Size && Math.Abs(mine.Holes[0].At - shift - target.At) <= Comparison.SameLength
            && mine.Holes.All(h => other.Holes.Any(t => t.Size == h.Size && Math.Abs(h.At - shift - t.At) <= Comparison.SameLength && IsTurnedAlike(mine, h, other, t, target)))));
    }

    /// <summary>Whether the ends are prepared alike, as the pieces lie or with one turned.</summary>
    public bool HasEndsOf(PipeShape other) => (Start, End) == (other.Start, other.End) || (Start, End) == (other.End, other.Start);

    /// <summary>Its holes in words: where, how large, and how far round from the first.</summary>
    public string SaysHoles => Holes.Count == 0 ? "none" : "at " + string.Join(", ", Holes.Select(h => FormattableString.Invariant($"{h.At:0.#} (NPS {h.Size}{(Turn(this, Holes[0], h) is var t && Math.Abs(t) > Tolerance.Turn ? FormattableString.Invariant($", {Angles.ToDegrees(t):0.#} degrees round from the first") : "")})")));

    private static bool Differs(string mine, string other) => mine != other;

    private static bool IsWork(string end) => end is "saddle" or "threaded";

    private static bool IsTurnedAlike(PipeShape mine, PipeHole hole, PipeShape other, PipeHole at, PipeHole target) =>
        Math.Abs(Math.IEEERemainder(Turn(mine, mine.Holes[0], hole) - Turn(other, target, at), 2 * Math.PI)) <= Tolerance.Turn
        // A branch that leans leans the same way along the pipe.
        && Math.Abs(hole.Out.Dot(mine.Axis) - at.Out.Dot(other.Axis)) <= Tolerance.Turn;

    /// <summary>The turn about the axis from one hole to another, radians, right-handed.</summary>
    private static double Turn(PipeShape pipe, PipeHole from, PipeHole to)
    {
        var (a, b) = (from.Out.SquareTo(pipe.Axis), to.Out.SquareTo(pipe.Axis));
        return Math.Atan2(a.Cross(b).Dot(pipe.Axis), a.Dot(b));
    }
}
