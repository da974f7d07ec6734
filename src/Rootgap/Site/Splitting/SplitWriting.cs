using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Site.Splitting;

/// <summary>Puts a plan's marks into the drawing's text; comments and all else stay.</summary>
public static class SplitWriting
{
    /// <summary>Keys of a leg that say what its pipe is, and its slope: a leg that is parted has them in both rows.</summary>
    private static readonly string[] Both = ["fall", "rise", "pipe item", "schedule", "class", "material", "spool"];

    /// <summary>The text with the marks; its <see cref="DrawingText.Refusal"/> says why where they could not be written.</summary>
    /// <param name="takeOut">Marks of other welds are taken out: the plan was made with all of them free.</param>
    public static DrawingText Write(DrawingText text, Drawing drawing, SplitPlan plan, bool takeOut)
    {
        var made = text;
        if (takeOut)
            made = Cleared(made, drawing, plan);
        foreach (var mark in plan.Marks.Where(m => m.Place.Along is null && !m.IsThere))
        {
            var (path, key) = (Path(mark.Place.Run, mark.Place.Leg), mark.Place.AtBegin ? "begin" : "end");
            made = Then(made, t => t.Set(path, key, SplitWords.Of(mark.Kind)));
        }

        // From the far end of each run, so that the numbers of the rows before stay what they are.
        foreach (var mark in plan.Marks.Where(m => m.Place.Along is not null).OrderByDescending(m => m.Place.Run).ThenByDescending(m => m.Place.Leg).ThenByDescending(m => m.Place.Along))
            made = Then(made, t => Parted(t, drawing, mark));
        return made;
    }

    private static string Path(int run, int leg) => string.Create(CultureInfo.InvariantCulture, $"runs[{run}].legs[{leg}]");

    private static DrawingText Then(DrawingText text, Func<DrawingText, DrawingText> change) => text.Refusal is null ? change(text) : text;

    private static DrawingText Cleared(DrawingText text, Drawing drawing, SplitPlan plan)
    {
        for (var r = 0; r < drawing.Runs.Count; r++)
        {
            foreach (var leg in drawing.Runs[r].Legs)
            {
                foreach (var (key, mark, isBegin) in ((string, WeldPlace?, bool)[])[("begin", leg.Begin, true), ("end", leg.End, false)])
                {
                    var keeps = plan.Marks.Any(m => m.Place.Along is null && m.Place.Run == r && m.Place.Leg == leg.Index && m.Place.AtBegin == isBegin);
                    if (mark is null or WeldPlace.Shop || keeps)
                        continue;
                    var path = Path(r, leg.Index);
                    text = Then(text, t => t.Set(path, key, null));
                }
            }
        }

        return text;
    }

    /// <summary>One leg made two: a row to the new weld before the one that is there.</summary>
    private static DrawingText Parted(DrawingText text, Drawing drawing, SplitMark mark)
    {
        var (run, at) = (mark.Place.Run, mark.Place.Leg);
        var leg = drawing.Runs[run].Legs[at];
        var row = text.Runs[run].Legs[at];
        // What is left of the leg before this weld: a place farther on may have parted it already.
        var (units, along) = (drawing.Units, mark.Place.Along!.Value);
        var level = Math.Sqrt(1 + (leg.Slope * leg.Slope));
        var here = along / level;
        var path = Path(run, at);
        string before, after;
        if (leg.By is not null)
        {
            if (!LengthText.TryParse(row["by"], units, out var by))
                return text.Set(path, "by", row["by"]);
            before = Length(units, here);
            // What is written is what was rounded: the rest is reckoned from that.
            after = Length(units, by - (LengthText.TryParse(before, units, out var written) ? written : here));
        }
        else
        {
            // The vector's own length: both rows have their share of it.
            var whole = VectorOf(row, units, leg.Go);
            var share = whole.Unit * along;
            (before, after) = (Vector(units, share), Vector(units, whole - share));
        }

        var key = leg.By is not null ? "by" : "go";
        var made = text.InsertLeg(run, at);
        var moved = Path(run, at + 1);
        made = Then(made, t => t.Set(path, "go", leg.By is not null ? row["go"] : before));
        if (leg.By is not null)
            made = Then(made, t => t.Set(path, "by", before));
        made = Then(made, t => t.Set(path, "to", "weld"));
        foreach (var same in Both.Where(k => row[k].Length > 0 && (k != "spool" || leg.To is WeldPoint)))
            made = Then(made, t => t.Set(path, same, row[same]));
        if (row["begin"].Length > 0)
            made = Then(Then(made, t => t.Set(path, "begin", row["begin"])), t => t.Set(moved, "begin", null));
        made = Then(made, t => t.Set(path, "end", SplitWords.Of(mark.Kind)));
        return Then(made, t => t.Set(moved, key, after));
    }

    /// <summary>In feet and sixteenths where that is exact enough to add up again, else in mm.</summary>
    private static string Length(Units units, double mm)
    {
        if (units == Units.Inches)
        {
            var text = LengthText.FeetInches(mm);
            return LengthText.TryParse(text, units, out var back) && Math.Abs(back - mm) < 1.6 ? text : LengthText.Millimetres(mm, 3) + " mm";
        }

        return mm.ToString("0.###", CultureInfo.InvariantCulture);
    }

    private static Vector VectorOf(WrittenRow row, Units units, Vector drawn)
    {
        // A row parted before has its own numbers: they are read again.
        var sum = Measure.Vector.Zero;
        var words = row["go"].Split(' ', StringSplitOptions.RemoveEmptyEntries);
        for (var i = 0; i + 1 < words.Length; i += 2)
        {
            var axis = words[i] switch { "north" => Measure.Vector.North, "south" => -Measure.Vector.North, "east" => Measure.Vector.East, "west" => -Measure.Vector.East, "up" => Measure.Vector.Up, "down" => -Measure.Vector.Up, _ => Measure.Vector.Zero };
            if (axis == Measure.Vector.Zero || !LengthText.TryParse(words[i + 1], units, out var mm))
                return drawn;
            sum += axis * mm;
        }

        return sum;
    }

    private static string Vector(Units units, Vector v)
    {
        var words = new List<string>();
        foreach (var (part, plus, minus) in ((double, string, string)[])[(v.X, "east", "west"), (v.Y, "north", "south"), (v.Z, "up", "down")])
        {
            if (Math.Abs(part) > 1e-6)
                words.Add($"{(part > 0 ? plus : minus)} {(units == Units.Inches ? LengthText.Millimetres(Math.Abs(part), 4) + "mm" : Math.Abs(part).ToString("0.####", CultureInfo.InvariantCulture))}");
        }

        return string.Join(' ', words);
    }
}
