using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>A reading as a survey file writes it: keys and what stands under them, in the file's order; without a value, so that it can be asked for.</summary>
public static class ReadingText
{
    /// <summary>The keys of a reading; a value is one word, or two.</summary>
    public static IReadOnlyList<(string Key, IReadOnlyList<string> Values)> Of(SiteReading reading)
    {
        static IReadOnlyList<string> At(Touch from, Touch to) => from.End == to.End ? [from.End.Name] : [from.End.Name, to.End.Name];
        return reading switch
        {
            SiteReading.Coordinate c => [("point", [c.Touch.Text]), ("at", [c.Touch.End.Name])],
            SiteReading.Tape t => [("tape", [t.From.Text, t.To.Text]), ("at", At(t.From, t.To))],
            SiteReading.Plumb p => [("plumb", [p.From.Text, p.To.Text]), ("at", At(p.From, p.To))],
            SiteReading.Height h => [("height", [h.From.Text, h.To.Text]), ("at", At(h.From, h.To))],
            SiteReading.Slope s => [("slope", [s.From.Text, s.To.Text]), ("at", At(s.From, s.To))],
            SiteReading.StringLine s => [("string", [s.From.Text, s.To.Text]), ("at", At(s.From, s.To)), ("to", [s.Third.Text]), ("of", [s.Third.End.Name])],
            SiteReading.Gap g => [("gap", [Clock.Text(g.Clock)]), ("at", [g.Joint.Id])],
            SiteReading.HiLo h => [("hi-lo", [Clock.Text(h.Clock)]), ("at", [h.Joint.Id])],
            _ => [],
        };
    }

    /// <summary>The key under which the value stands: <c>mm</c>, <c>deg</c>, or the coordinate's own.</summary>
    public static string ValueKey(SiteReading reading) => reading is SiteReading.Coordinate ? reading.Word : reading.IsAngle ? "deg" : "mm";

    /// <summary>One line of a survey file, in braces.</summary>
    /// <param name="value">What was read, mm or radians; null leaves the place open.</param>
    public static string Line(SiteReading reading, double? value)
    {
        var keys = Of(reading).Select(k => $"{k.Key}: {(k.Values.Count == 1 ? Quoted(k.Values[0]) : $"[{string.Join(", ", k.Values.Select(Quoted))}]")}");
        var shown = value is { } v ? LengthText.Millimetres(reading.IsAngle ? Angles.ToDegrees(v) : v, reading.IsAngle ? 4 : 3) : "";
        return $"{{{string.Join(", ", keys)}, {ValueKey(reading)}: {shown}}}";
    }

    private static string Quoted(string word) => word.Contains(':', StringComparison.Ordinal) ? $"\"{word}\"" : word;
}
