using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A spool's final check in words, in the drawing's units.</summary>
public sealed record FinalWords(FitWords Words)
{
    /// <summary>An end as people call it: "C12", "3-C", "T1 north".</summary>
    public static string Of(OpenEnd end) => end.Called;

    private static string Of(LipPlace lip, FinalCheck check) => Text($"{(check.Find(lip.End) is { } end ? Of(end) : lip.End)} at {lip.At}{(check.Find(lip.End)?.EdgeAt(lip.At) is { Length: > 0 } edge ? $", {edge} of its saddle" : "")}");

    /// <summary>From where to where a reading is taken, or at which end.</summary>
    public static string Where(EndReading reading, FinalCheck check) => reading switch
    {
        EndReading.Tape t => $"{Of(t.From, check)} to {Of(t.To, check)}",
        EndReading.Height h => $"{Of(h.From, check)} to {Of(h.To, check)}",
        EndReading.Offset o => $"{Of(o.Lip, check)}, {(o.IsAcross ? "across" : "along")} the line",
        EndReading.FaceLevel l => $"{Of(check.Find(l.End)!)} {(l.IsAcross ? "across" : "along")}",
        _ => Of(check.Find(reading.Ends[0])!),
    };

    /// <summary>A reading in words.</summary>
    public static string Of(EndReading reading, FinalCheck check) => $"{(reading is EndReading.Tape { IsDiagonal: true } ? "diagonal" : reading.Name)} {Where(reading, check)}";

    /// <summary>A reading's value.</summary>
    public string Show(EndReading reading, double value) => reading.IsAngle ? Angle(value) : Words.Length(Math.Abs(value) < 0.05 ? 0 : value);

    public string ShowSmall(EndReading reading, double value) => reading.IsAngle ? Angle(value) : Words.Small(value);

    private static string Angle(double radians) => Text($"{Angles.ToDegrees(Math.Abs(radians) < 1e-5 ? 0 : radians):0.00}°");

    /// <summary>Whether it is of the spool welded or tacked: "tacked, W1 welded".</summary>
    public static string State(FinalCheck check) => check.IsWelded ? "welded" : check.DrawnIn.Count == 0 ? "tacked" : $"tacked, {FitWords.Join(check.DrawnIn)} welded";

    /// <summary>How the spool is set for it.</summary>
    public string SetBy(FinalCheck check) => check.Base is not { } from ? "nothing of it is open: there is nothing to check from end to end"
        : Text($"set it as drawn by {Words.NameOf(from.Part.Id)}: face{(from.Holes is null ? " and the mark on top of its pipe" : ", holes")}; 12 o'clock of an end is up as drawn (north where the face lies), 3 at the right hand looking out of it; chalk {(Math.Abs(from.Normal.Dot(Vector.Up)) < 0.99 ? "a line on the floor plumb under its axis, from under its face into the spool" : "lines to the north and to the east on the floor from under its middle")}");

    /// <summary>What the readings say, each sentence by itself.</summary>
    public IReadOnlyList<string> Say(FinalCheck check, FinalFound found)
    {
        List<string> say = [];
        if (found.Verdict == Verdict.NothingRead && found.Ends.All(e => e.Verdict == Verdict.NothingRead))
            say.Add("Nothing was read: nothing can be said of this spool.");
        foreach (var t in found.Again.DistinctBy(t => t.Reading))
            say.Add(found.Again.Count(o => o.Reading.Equals(t.Reading)) > 1 ? $"The {Of(t.Reading, check)} is given with different figures: read it again." : $"The {Of(t.Reading, check)} contradicts the others: read it again. It is left out of what follows.");
        if (found.Alike.Count > 0)
            say.Add($"It could as well be the {FitWords.Join(found.Alike.Select(t => Of(t.Reading, check)))}: read them again too.");
        if (found.Doubtful)
            say.Add("The readings do not agree with each other, and no single one explains it: take them all again.");
        foreach (var end in found.Ends)
            say.AddRange(Say(check, end));
        if (found.Next.Count > 0)
            say.Add($"Take next: {FitWords.Join(found.Next.Select(r => Of(r, check)))}.");
        if (found.Verdict == Verdict.NotWithin)
            say.Add("While it is tacked a joint can take it back: see what is left at each end. A welded joint is the procedure's business.");
        return say;
    }

    private IEnumerable<string> Say(FinalCheck check, EndFound end)
    {
        var (name, e) = (Of(end.End), end.Seen);
        switch (end.Verdict)
        {
            case Verdict.NothingRead:
                yield return $"{name}: nothing was read.";
                yield break;
            case Verdict.Within:
                yield return $"{name}: within tolerance.";
                break;
            case Verdict.AsFarAsRead:
                yield return $"{name}: within tolerance as far as it is read; the readings do not show its {FitWords.Join(end.Unseen.Where(i => i != 5 || end.End.Holes is not null).Select(i => Components[i]))}.";
                break;
            default:
                if (!end.Limits.Holds(e))
                    yield return $"{name}: {string.Join(", ", Off(end))}.";
                foreach (var t in end.Outside.DistinctBy(t => t.Reading))
                    yield return $"The {Of(t.Reading, check)} is {Show(t.Reading, t.Value)}, {Show(t.Reading, check.Of(t.Reading).Value)} ± {ShowSmall(t.Reading, check.Of(t.Reading).Allow)} is asked.";
                break;
        }
    }

    /// <summary>What the components of an end's error are called.</summary>
    public static readonly IReadOnlyList<string> Components = ["place toward 3 or 9 o'clock", "place toward 12 or 6 o'clock", "place along its own axis", "lean toward 12 or 6 o'clock", "lean toward 3 or 9 o'clock", "turn of the holes"];

    /// <summary>An end's error in words, what is beyond its limit first.</summary>
    public IEnumerable<string> Off(EndFound end) => Off(end.Seen, end.Limits, end.End, end.Sd);

    /// <summary>An error of an end in words.</summary>
    public IEnumerable<string> Off(PoseError e, FitTolerance limits, OpenEnd end, IReadOnlyList<double>? sd = null)
    {
        string Sd(int i) => sd is null ? "" : i < 3 ? Text($" ± {Words.Small(sd[i])}") : Text($" ± {Angles.ToDegrees(sd[i]):0.00}");
        if (limits.Gap.Value / 10 < Math.Abs(e.Z))
            yield return Text($"{Words.Small(Math.Abs(e.Z))}{Sd(2)} too far {(e.Z > 0 ? "out" : "in")} along its own axis ({Words.Small(limits.Gap.Value)} allowed)");
        if (limits.Shift.Value / 10 < e.Shift)
        {
            List<string> ways = [];
            if (Math.Abs(e.X) >= 0.05)
                ways.Add(Text($"{Words.Small(Math.Abs(e.X))}{Sd(0)} toward {(e.X > 0 ? 3 : 9)}"));
            if (Math.Abs(e.Y) >= 0.05)
                ways.Add(Text($"{Words.Small(Math.Abs(e.Y))}{Sd(1)} toward {(e.Y > 0 ? 12 : 6)}"));
            yield return Text($"{FitWords.Join(ways)} o'clock ({Words.Small(limits.Shift.Value)} allowed)");
        }

        if (limits.Tilt.Value / 10 < e.Tilt)
        {
            // rx leans the face to 12, ry to 9, as at a joint.
            List<string> ways = [];
            if (Math.Abs(e.Rx) >= 1e-4)
                ways.Add(Text($"{Angles.ToDegrees(Math.Abs(e.Rx)):0.00}{Sd(3)} degrees toward {(e.Rx > 0 ? 12 : 6)}"));
            if (Math.Abs(e.Ry) >= 1e-4)
                ways.Add(Text($"{Angles.ToDegrees(Math.Abs(e.Ry)):0.00}{Sd(4)} degrees toward {(e.Ry > 0 ? 9 : 3)}"));
            yield return Text($"its face looks {FitWords.Join(ways)} o'clock ({Angles.ToDegrees(limits.Tilt.Value):0.00} allowed)");
        }

        if (double.IsFinite(limits.Roll.Value) && limits.Roll.Value / 10 < Math.Abs(e.Rz))
        {
            yield return Text($"its holes are turned {Angles.ToDegrees(Math.Abs(e.Rz)):0.00}{Sd(5)} degrees {(e.Rz > 0 ? "clockwise" : "anticlockwise")} looking out of it, {Words.Small(Math.Abs(e.Rz) * end.Holes!.Circle / 2)} at the bolt circle ({Words.Small(limits.Roll.Value * end.Holes.Circle / 2)} allowed)");
        }
    }

    /// <summary>What the joints as made leave at the ends.</summary>
    public IEnumerable<string> Say(FinalCheck check, IReadOnlyList<EndLeft> left)
    {
        foreach (var end in left.Where(l => l.Error != PoseError.None))
        {
            var off = Off(end.Error, check.Limits[end.End.Name], end.End).ToList();
            yield return $"the joints as read leave {Of(end.End)} {(off.Count > 0 ? string.Join(", ", off) : "where it should be")}{(end.IsWithin ? "; within" : "")}";
            foreach (var by in end.By.Take(2))
                yield return $"  {by.Joint} takes it back{(by.IsWithin ? ", inside its limits" : ", beyond its own limits")}: {Words.Set(by.By)}";
        }
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
