using System.Globalization;
using Rootgap.Measure;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Sheets;

/// <summary>The blank survey sheet of a final-fit weld: which readings to take, in the order in which they tell most, with room to write.</summary>
public static class SurveySheets
{
    /// <summary>Readings that one sheet asks for.</summary>
    private const int Most = 16;

    public static IReadOnlyList<Page> Of(ShopJob job, SiteLine line, Survey survey) =>
        [.. line.FinalFits.Where(j => j.Long is not null && !survey.Made.Contains(j.Id)).SelectMany(j => Of(job, line, survey, j))];

    private static IReadOnlyList<Page> Of(ShopJob job, SiteLine line, Survey survey, SiteJoint joint)
    {
        var (units, unit) = (job.Drawing.Units, job.Drawing.Units == Units.Inches ? "in." : "mm");
        var flow = new Flow(job.Paper.Portrait, job.Block($"Survey for {joint.Id}"));
        flow.Fields(4, new Field("Steel", "", units == Units.Inches ? "°F" : "°C"), new("By"), new("When"), new("Instrument"));
        var left = joint.Long is { Extra: > 0 } carries ? LengthText.Say(units, $", {carries.Extra:len} left on {line.NameOf(carries)}") : "";
        flow.Figure(Picture(line, joint, flow.Width), LengthText.Say(units, $"The opening as drawn: {(joint.Gap < 0 ? "the pipe in its socket by" : "gap")} {Math.Abs(joint.Gap):gap}{left}. Not to scale, the line running to the right. Clock: look along the line as it is written; 12 is {Toward(joint.Axes.Twelve)}, 3 is {Toward(joint.Axes.Three)}."));
        var plan = SurveyPlan.Of(line, survey, joint, Most);
        flow.Table(new Table(
            [new("", Anchor.End), new("Read, in this order", ColumnWidth.Share(1.5)), new("Tells", ColumnWidth.Share()), new("First", ColumnWidth.Of(23)), new("Again", ColumnWidth.Of(23))],
            plan.Select((p, i) => new Row(((char)('a' + i)).ToString(), p.Reading.Says(units), Tells(p.Before, p.After, units), "", "")))
        { RowHeight = 9.5, Style = TextStyle.Body with { Height = 3 }, WhenEmpty = "everything is known" });
        var lines = new List<string>
        {
            "Tapes between rims do not see offset: it is a height, a plumb line or a straight edge that does. What nothing checks is read twice.",
            "A pipe with its extra on cannot stand in its place while the other side stands in its own: say in the survey which of the two is laid aside (loose).",
            "Write also whatever stands in the way.",
        };
        if (units == Units.Inches)
            lines.Insert(0, "In a survey file a bare number is millimetres: a reading in feet and inches is written there with its marks, such as 4'-9 1/2\".");
        foreach (var end in joint.Sides.Where(e => e.Body.IsOutside && !joint.IsBolted))
        {
            flow.Heading($"Existing pipe, {end.Words}", 2).Fields(4, new("Girth", "", unit), new("Across 12-6 | 3-9", "", unit), new("Wall 12 | 3 | 6 | 9", "", unit), new("Punch marks before | after", "", unit));
            lines.Add(Cautions.ExistingLine);
        }

        flow.Bullets(lines).Fields(3, new Field("Measured by"), new("Read again by"), new("Put in, date"));
        return flow.Pages;
    }

    private static Figure Picture(SiteLine line, SiteJoint joint, double width)
    {
        var canvas = new Canvas();
        OpeningPicture.Draw(canvas, new(0, 0, width, 44), line, joint, null, Units.Millimetres);
        return canvas.ToFigure(width, 44);
    }

    /// <summary>What of the closing a reading narrows most: <c>length: ±183.0 becomes ±2.1</c>; two standard deviations, a length or degrees.</summary>
    public static string Tells(IReadOnlyList<double> before, IReadOnlyList<double> after, Units units)
    {
        var best = Enumerable.Range(0, before.Count).Where(i => before[i] > 0).MaxBy(i => before[i] / Math.Max(after[i], 1e-9));
        var (was, left) = (2 * before[best], 2 * after[best]);
        return best < 3
            ? units == Units.Inches ? LengthText.Say(units, $"{NameOf(best)}: ±{Rough(was, units):off} becomes ±{Rough(left, units):off}") : LengthText.Say(units, $"{NameOf(best)}: ±{Rough(was, units):len} becomes ±{Rough(left, units):len}")
            : Text($"{NameOf(best)}: ±{Angles.ToDegrees(was):0.0}° becomes ±{Angles.ToDegrees(left):0.00}°");
    }

    /// <summary>A doubt to a tenth of itself or so, mm: nobody doubts thirteen inches to a sixty-fourth.</summary>
    private static double Rough(double mm, Units units)
    {
        var steps = units == Units.Inches ? (double[])[LengthText.Inch, LengthText.Inch / 4, LengthText.Inch / 16, LengthText.Inch / 64] : [10, 1, 0.1];
        var step = steps.FirstOrDefault(s => mm > 5 * s, steps[^1]);
        return Math.Round(mm / step) * step;
    }

    /// <summary>A closing's component in words.</summary>
    public static string NameOf(int component) => component switch { 0 => "length", 1 => "offset to 12 and 6", 2 => "offset to 3 and 9", 3 => "angle to 12 and 6", _ => "angle to 3 and 9" };

    private static string Toward(Vector way)
    {
        (Vector Axis, string Word)[] six = [(Vector.Up, "up"), (-Vector.Up, "down"), (Vector.East, "east"), (-Vector.East, "west"), (Vector.North, "north"), (-Vector.North, "south")];
        var near = six.MaxBy(s => s.Axis.Dot(way));
        return near.Axis.Dot(way) > 0.99 ? near.Word : "toward " + near.Word;
    }

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
