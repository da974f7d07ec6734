using System.Globalization;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What came of something that was done with a stretch of legs.</summary>
/// <param name="Text">The drawing afterwards; the same with its <see cref="DrawingText.Refusal"/> where it was not done.</param>
/// <param name="Now">The stretch to go on with: what was added, mirrored or turned.</param>
/// <param name="Says">What somebody should know of it, in whole sentences.</param>
public sealed record StretchDone(DrawingText Text, Stretch Now, IReadOnlyList<string> Says);

/// <summary>Legs of one run that follow each other, for what is done with all of them at once.</summary>
/// <param name="Run">Index of the run, from 0.</param>
/// <param name="First">Index of the first leg, from 0.</param>
/// <param name="Last">Index of the last leg.</param>
public sealed partial record Stretch(int Run, int First, int Last)
{
    /// <summary>What names one thing alone, and so does not go into a copy.</summary>
    private static readonly HashSet<string> OfOne = ["name", "at", "begin number", "end number", "spool", "tag", "continues", "with"];

    /// <summary>Fields that say a direction.</summary>
    private static readonly string[] Ways = ["go", "branch", "stem", "flat", "side", "holes from"];

    private static readonly HashSet<string> Ends = ["flange", "open", "cap"];

    public int Count => Last - First + 1;

    /// <summary>The legs once more behind themselves, without their names, weld numbers, spools, tags and stated places: these stay with the first.</summary>
    public StretchDone Repeat(DrawingText text)
    {
        var legs = Legs(text);
        if (IsEnd(legs[^1]) && Last == text.Runs[Run].Legs.Count - 1)
            return Refused(text, $"Leg {Last + 1} ends the run: nothing can go on behind it.");
        List<string> says = [];
        if (legs.Any(l => l.Cells.Keys.Any(OfOne.Contains)))
            says.Add("Names, weld numbers, spools, tags and stated places stay with the first; the copy has none.");
        return Inserted(text, Last + 1, [.. legs.Select(l => l.Cells.Where(c => !OfOne.Contains(c.Key)).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal))], says);
    }

    /// <summary>The legs as a mirror shows them, and the runs that leave them too; lengths, fittings and names stay.</summary>
    /// <param name="axis">The direction that becomes its opposite: east, north or up.</param>
    public StretchDone Mirror(DrawingText text, string axis)
    {
        List<string> says = [];
        var mirrored = text;
        HashSet<int> done = [Run];
        Queue<(int Run, int First, int Last)> left = new([(Run, First, Last)]);
        while (left.TryDequeue(out var at))
        {
            foreach (var leg in text.Runs[at.Run].Legs.Skip(at.First).Take(at.Last - at.First + 1))
            {
                mirrored = Mirrored(mirrored, leg, axis, says);
                foreach (var run in text.Runs.Where(r => leg["name"].Length > 0 && r.Start["from"] == leg["name"] && r.Legs.Count > 0 && done.Add(r.Index)))
                    left.Enqueue((run.Index, 0, run.Legs.Count - 1));
            }
        }

        if (done.Count > 1)
            says.Add($"The runs that leave it are mirrored with it: {string.Join(", ", done.Skip(1).Select(r => text.Runs[r].Name))}.");
        return mirrored.Refusal is { } why ? Refused(text, why) : new(mirrored, this, says);
    }

    /// <summary>The legs of another drawing's first run behind a leg of this one, with the runs that leave them.</summary>
    /// <param name="at">Index before which they come.</param>
    public static StretchDone Insert(DrawingText text, int run, int at, DrawingText other)
    {
        var none = new Stretch(run, at, at - 1);
        if (other.Runs is not [var first, ..] || first.Legs.Count == 0)
            return none.Refused(text, "It has no legs.");
        if (other.Units != text.Units)
            return none.Refused(text, $"It is written in {(other.Units == Units.Inches ? "feet and inches" : "millimetres")}, this drawing is not.");
        var isEnd = at >= text.Runs[run].Legs.Count;
        if (isEnd && at > 0 && IsEnd(text.Runs[run].Legs[^1]))
            return none.Refused(text, $"Leg {at} ends the run: nothing can go on behind it.");
        var legs = first.Legs.ToList();
        List<string> says = [];
        if (!isEnd && IsEnd(legs[^1]))
        {
            legs.RemoveAt(legs.Count - 1);
            says.Add("Its last leg, which ends it, was left out.");
            if (legs.Count == 0)
                return none.Refused(text, "It has only a leg that ends it.");
        }

        var names = text.Runs.Select(r => r.Name).Concat(text.Runs.SelectMany(r => r.Legs).Select(l => l["name"])).ToHashSet(StringComparer.OrdinalIgnoreCase);
        Dictionary<string, string> called = new(StringComparer.Ordinal);
        var done = none.Inserted(text, at, [.. legs.Select(Own)], says);
        var made = done.Text;
        foreach (var more in other.Runs.Skip(1).Where(r => called.ContainsKey(r.Start["from"])))
        {
            if (made.Refusal is not null)
                break;
            made = made.AddRun(Free(more.Name), called[more.Start["from"]]);
            var index = made.Runs.Count - 1;
            made = new Stretch(index, 0, -1).Inserted(made, 0, [.. more.Legs.Select(Own)], []).Text;
        }

        if (made.Refusal is { } why)
            return none.Refused(text, why);
        if (called.Any(c => c.Key != c.Value))
            says.Add($"Names that were taken are new: {string.Join(", ", called.Where(c => c.Key != c.Value).Select(c => $"{c.Key} is {c.Value}"))}.");
        if (other.Runs.Skip(1).Count(r => !called.ContainsKey(r.Start["from"])) is > 0 and var left)
            says.Add($"{left} of its runs {(left == 1 ? "was" : "were")} left out: {(left == 1 ? "it begins" : "they begin")} nowhere on these legs.");
        foreach (var (key, theirs) in other.Line.Cells.Where(c => c.Key is "size" or "schedule" or "class" or "material"))
        {
            if (text.Line[key].Length > 0 && text.Line[key] != theirs)
                says.Add($"Its {key} was {theirs}; here it is {text.Line[key]}.");
        }

        if (legs.Any(l => l["item"].Length > 0 || l["pipe item"].Length > 0))
            says.Add("Its item numbers were left out: they are of another list.");
        return done with { Text = made };

        Dictionary<string, string> Own(WrittenRow leg)
        {
            var cells = leg.Cells.Where(c => !OfOne.Contains(c.Key) && c.Key is not ("item" or "pipe item")).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);
            if (leg["name"] is { Length: > 0 } name)
                cells["name"] = called[name] = Free(name);
            return cells;
        }

        string Free(string name)
        {
            var free = name;
            for (var i = 2; !names.Add(free); i++)
                free = string.Create(CultureInfo.InvariantCulture, $"{name} {i}");
            return free;
        }
    }

    /// <summary>The legs and the runs that leave them as a drawing of their own, to be inserted elsewhere.</summary>
    /// <param name="name">What it is called.</param>
    public DrawingText Apart(DrawingText text, string name)
    {
        var apart = DrawingText.Blank("template.yaml", name, text.Units);
        foreach (var (key, value) in text.Line.Cells)
            apart = apart.Set("line", key, value);
        var legs = Legs(text);
        apart = new Stretch(0, 0, -1).Inserted(apart, 0, [.. legs.Select(Own)], []).Text;
        foreach (var run in text.Runs.Where(r => r.Index != Run && legs.Any(l => l["name"].Length > 0 && l["name"] == r.Start["from"])))
        {
            apart = apart.AddRun(run.Name, run.Start["from"]);
            apart = new Stretch(apart.Runs.Count - 1, 0, -1).Inserted(apart, 0, [.. run.Legs.Select(Own)], []).Text;
        }

        return apart;

        static Dictionary<string, string> Own(WrittenRow leg) =>
            leg.Cells.Where(c => (c.Key == "name" || !OfOne.Contains(c.Key)) && c.Key is not ("item" or "pipe item")).ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);
    }

    private IReadOnlyList<WrittenRow> Legs(DrawingText text) => [.. text.Runs[Run].Legs.Skip(First).Take(Count)];

    private StretchDone Refused(DrawingText text, string why) => new(text.Refuse(why), this, []);

    private StretchDone Inserted(DrawingText text, int at, IReadOnlyList<Dictionary<string, string>> legs, IReadOnlyList<string> says)
    {
        var made = text;
        for (var i = 0; i < legs.Count; i++)
        {
            made = made.InsertLeg(Run, at + i);
            foreach (var (key, value) in legs[i])
            {
                if (made.Refusal is { } why)
                    return Refused(text, why);
                made = made.Set(RowPath.OfLeg(Run, at + i).ToString(), key, value);
            }
        }

        return made.Refusal is { } last ? Refused(text, last) : new(made, new(Run, at, at + legs.Count - 1), says);
    }

    private static bool IsEnd(WrittenRow leg) => Ends.Contains(leg["to"]) || leg["to"] == "tie-in";

    /// <summary>Writes a row so that it has these fields and no others.</summary>
    private static DrawingText Put(DrawingText text, WrittenRow row, Dictionary<string, string> cells)
    {
        var made = text;
        foreach (var key in row.Cells.Keys.Where(k => !cells.ContainsKey(k)))
            made = made.Refusal is null ? made.Set(row.Path, key, null) : made;
        foreach (var (key, value) in cells.Where(c => row[c.Key] != c.Value))
            made = made.Refusal is null ? made.Set(row.Path, key, value) : made;
        return made;
    }

    private static DrawingText Mirrored(DrawingText text, WrittenRow leg, string axis, List<string> says)
    {
        var cells = leg.Cells.ToDictionary(c => c.Key, c => c.Value, StringComparer.Ordinal);
        foreach (var key in Ways.Where(cells.ContainsKey))
            cells[key] = key == "flat" && axis == "up" && cells[key] is "top" or "bottom" ? cells[key] == "top" ? "bottom" : "top" : Swapped(cells[key], axis);
        if (axis == "up" && (cells.ContainsKey("fall") || cells.ContainsKey("rise")))
        {
            var (fall, rise) = (cells.GetValueOrDefault("fall"), cells.GetValueOrDefault("rise"));
            cells.Remove("fall");
            cells.Remove("rise");
            if (fall is not null)
                cells["rise"] = fall;
            if (rise is not null)
                cells["fall"] = rise;
        }

        // A mirror turns an angle the other way round.
        if (double.TryParse(leg["holes"], NumberStyles.Float, CultureInfo.InvariantCulture, out var angle) && angle is > 0 and < 360)
        {
            cells["holes"] = (360 - angle).ToString(CultureInfo.InvariantCulture);
            Once("Bolt holes that are told by an angle are turned the other way: look at them.");
        }

        if (cells.Remove("at"))
            Once("Stated places no longer hold and were taken out.");
        return Put(text, leg, cells);

        void Once(string sentence)
        {
            if (!says.Contains(sentence))
                says.Add(sentence);
        }
    }

    /// <summary>A direction or a vector with some axes the other way; words with figures behind them keep these.</summary>
    private static string Swapped(string way, params ReadOnlySpan<string> axes)
    {
        var words = way.Split(' ');
        for (var i = 0; i < words.Length; i++)
        {
            foreach (var axis in axes)
            {
                var other = axis switch { "east" => "west", "north" => "south", _ => "down" };
                if (words[i] == axis || words[i] == other)
                {
                    words[i] = words[i] == axis ? other : axis;
                    break;
                }
            }
        }

        return string.Join(' ', words);
    }
}
