using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>A run written from its other end.</summary>
public sealed partial record Stretch
{
    /// <summary>Fields of a leg that speak of its pipe and its two welds, not of what stands at its end.</summary>
    private static readonly HashSet<string> OfPipe = ["go", "by", "fall", "rise", "begin", "end", "begin number", "end number", "nipple", "pipe item"];

    /// <summary>Work points at which the line takes another size, and which stand at their far end as the run is written: from the other side that is their near one.</summary>
    private static readonly HashSet<string> Reducers = ["reducer", "swage"];

    /// <summary>What holds from where it is written to the end of the run.</summary>
    private static readonly HashSet<string> OfLine = ["size", "schedule", "class", "material", "flange", "facing", "gasket"];

    /// <summary>
    /// A whole run written from its other end: the same steel, leg by leg the other way. Done twice it is as it was. A reducer is then met at its other end: what it is long goes from the
    /// leg before it to the leg behind it, and it leads to the size that was before it. Runs that leave this one leave it as before.
    /// </summary>
    /// <param name="at">Where the run ends, as a place is typed (<c>east 600 north 0 up 2400</c>): the new start; null where it is not known. Used where the start has a stated place.</param>
    /// <param name="long">How long each reducer and swage of the run is along its axis, mm, by the path of its leg (<c>runs[0].legs[2]</c>).</param>
    public static StretchDone Reverse(DrawingText text, int run, string? at, IReadOnlyDictionary<string, double> @long)
    {
        var written = text.Runs[run];
        var all = new Stretch(run, 0, written.Legs.Count - 1);
        if (WhyNotTurned(written, at) is { } why)
            return all.Refused(text, why);

        // Legs and points as they are written, then the same from the other end: a leg's pipe stays itself, the point at its end is the one before it.
        var pipes = written.Legs.Select(PipeOf).ToList();
        List<Dictionary<string, string>> points = [PointOf(written.Start), .. written.Legs.Select(PointOf)];
        var size = written.Row["size"] is { Length: > 0 } own ? own : text.Line["size"];
        var first = size;
        for (var i = 0; i < written.Legs.Count; i++)
        {
            var leg = written.Legs[i];
            if (!Reducers.Contains(leg["to"]))
                continue;
            (points[i + 1]["size"], size) = (size, leg["size"]);
            if (!@long.TryGetValue(leg.Path, out var mm) || !(mm > 0))
                return all.Refused(text, $"How long the {leg["to"]} of leg {i + 1} is, is not known while the line cannot be placed: mend that first.");
            foreach (var (pipe, by) in ((int, double)[])[(i, -mm), (i + 1, mm)])
            {
                if (Moved(text, pipes[pipe], by) is { } moved)
                    pipes[pipe]["by"] = moved;
                else
                    return all.Refused(text, $"Leg {pipe + 1}, beside the {leg["to"]}, {(pipes[pipe].ContainsKey("fall") || pipes[pipe].ContainsKey("rise") ? "slopes" : "is no longer than that")}: turn it by hand.");
            }
        }

        var start = points[^1];
        if (written.Start["at"].Length > 0)
            start["at"] = at!;
        var turned = Put(text, written.Start, start);
        for (var i = 0; i < written.Legs.Count; i++)
        {
            var from = written.Legs.Count - 1 - i;
            var leg = Turned(pipes[from]);
            foreach (var (key, value) in points[from])
                leg[key] = value;
            turned = Put(turned, written.Legs[i], leg);
        }

        if (size != first && turned.Refusal is null)
            turned = turned.Set(written.Path, "size", size == text.Line["size"] ? null : size);
        if (written.Row["flow"] is { Length: > 0 } flow && turned.Refusal is null)
            turned = turned.Set(written.Path, "flow", flow == "along" ? "against" : "along");
        List<string> says = ["The figures, fittings and names are the same; comments stay at their rows."];
        if (size != first)
            says.Add("Its reducers are met from the other side: their lengths went over to the legs beside them.");
        if (written.Legs.Any(l => l["at"].Length > 0))
            says.Add("Stated places on its way were taken out.");
        return turned.Refusal is { } refusal ? all.Refused(text, refusal) : new(turned, all, says);
    }

    /// <summary>What of a run hangs on the way it is written, and so is not turned; null where nothing does.</summary>
    private static string? WhyNotTurned(WrittenRun written, string? at)
    {
        if (written.Legs.Count == 0)
            return "The run has no legs.";
        if (written.Start["from"].Length > 0)
            return $"{written.Name} leaves {written.Start["from"]}: a branch is written from where it leaves. Turn the run that it leaves; the branch goes with it.";
        if (!Ends.Contains(written.Start["to"]) || !Ends.Contains(written.Legs[^1]["to"]))
            return "Only a run that begins and ends with a flange, a cap or an open end can be written from its other end.";
        foreach (var (leg, number) in written.Legs.Select((leg, i) => (leg, i + 1)))
        {
            if (leg.Cells.Keys.FirstOrDefault(k => k == "enter" || OfLine.Contains(k) && !(k == "size" && (Reducers.Contains(leg["to"]) || WorkPointKind.Of(leg["to"])?.Keys.Contains("branch") == true))) is { } key)
                return string.Create(CultureInfo.InvariantCulture, $"Leg {number} has \"{key}\", which hangs on the way the run is written: turn it by hand.");
        }

        var ofStart = DrawingShape.Start.Keys.Select(k => k.Name).ToHashSet(StringComparer.Ordinal);
        if (PointOf(written.Legs[^1]).Keys.FirstOrDefault(k => !ofStart.Contains(k)) is { } odd)
            return $"The run's end has \"{odd}\", which a start cannot have: turn it by hand.";
        return written.Start["at"].Length > 0 && at is null ? "The run's other end is not known while the line cannot be placed: mend that first." : null;
    }

    /// <summary>A leg's distance by so much longer, as it is typed; made up it stays. Null where it slopes, says no plain distance, or nothing is left of it.</summary>
    private static string? Moved(DrawingText text, Dictionary<string, string> pipe, double mm)
    {
        var by = pipe.GetValueOrDefault("by", "");
        if (by.Equals("makeup", StringComparison.OrdinalIgnoreCase))
            return by;
        if (pipe.ContainsKey("fall") || pipe.ContainsKey("rise") || !LengthText.TryParse(by, text.Units, out var was) || was + mm <= Tolerance.Noise)
            return null;
        return Written(text.Units, was + mm);
    }

    /// <summary>A length in mm as it is typed into a drawing: to a thousandth of a millimetre; in inches as sixteenths where these say it, else in decimals.</summary>
    public static string Written(Units units, double mm) =>
        units != Units.Inches ? Math.Round(mm, 3).ToString(CultureInfo.InvariantCulture)
        : LengthText.FeetInches(mm) is var feet && LengthText.TryParse(feet, Units.Inches, out var said) && Math.Abs(said - mm) < 1e-6 ? feet
        : (mm / LengthText.Inch).ToString("0.######", CultureInfo.InvariantCulture);

    // A drain's or a vent's nipple is its own, not its leg's.
    private static bool IsOfPipe(WrittenRow row, string key) => OfPipe.Contains(key) && !(key == "nipple" && row["to"] is "drain" or "vent");

    private static Dictionary<string, string> PointOf(WrittenRow row) => row.Cells.Where(c => !IsOfPipe(row, c.Key) && c.Key != "at").ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);

    private static Dictionary<string, string> PipeOf(WrittenRow row) => row.Cells.Where(c => IsOfPipe(row, c.Key)).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);

    private static Dictionary<string, string> Turned(Dictionary<string, string> pipe)
    {
        Dictionary<string, string> turned = new(StringComparer.Ordinal);
        foreach (var (key, value) in pipe)
        {
            var as1 = key switch { "begin" => "end", "end" => "begin", "begin number" => "end number", "end number" => "begin number", "fall" => "rise", "rise" => "fall", _ => key };
            turned[as1] = key == "go" ? Swapped(value, "east", "north", "up") : value;
        }

        return turned;
    }
}
