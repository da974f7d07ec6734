using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Site.Surveys;

namespace Rootgap.Sheets;

/// <summary>The line as it was built: the isometric with what was measured at its joints beside what is drawn, and the same as lists.</summary>
public static class AsBuiltSheets
{
    /// <returns>Empty where nothing of the line was measured.</returns>
    public static IReadOnlyList<Page> Of(ShopJob job, Adjustment adjustment)
    {
        var measured = MeasuredLine.Of(adjustment);
        if (measured.Ends.Count == 0 && measured.Lengths.Count == 0)
            return [];
        return [.. IsometricPages.WithNotes(job, "Isometric as built", Notes(measured, job.Drawing.Units)), .. Lists(job, adjustment, measured)];
    }

    /// <summary>What is written at the joints: place as built and as drawn; where nothing placed a spool, its measured length and the drawn one.</summary>
    public static IReadOnlyDictionary<string, IReadOnlyList<string>> Notes(MeasuredLine measured, Units units)
    {
        var notes = new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal);
        foreach (var joint in measured.Ends.GroupBy(e => e.End.Joint, StringComparer.Ordinal))
            notes[joint.Key] = [.. joint.SelectMany(e => new[] { $"{e.End.Name} built {Place(e.Found, units)}", $"drawn {Place(e.Drawn, units)}" })];
        foreach (var length in measured.Lengths.Where(l => !notes.ContainsKey(l.To.Joint)))
            notes[length.To.Joint] = [$"{length.Body.Name}, {length.From.Joint} to {length.To.Joint}: built {Length(length.Found, units)}, drawn {Length(length.Drawn, units)}"];
        return notes;
    }

    private static IReadOnlyList<Page> Lists(ShopJob job, Adjustment adjustment, MeasuredLine measured)
    {
        var units = job.Drawing.Units;
        var survey = adjustment.Survey;
        var flow = new Flow(job.Paper, job.Block("As built: places and lengths"));
        flow.Paragraph(Text($"Centres of faces, final-fit extra left out, at {Survey.Drawn:0} °C{(survey.When.Length > 0 ? $"; survey of {survey.When}" : "")}{(survey.By.Length > 0 ? $", by {survey.By}" : "")}. ± is two standard deviations. What is not listed was not measured: there the drawing holds."));
        flow.Heading("Faces", 2).Table(new Table(
            ["Face", new("", ColumnWidth.Share()), new("East", Anchor.End), new("North", Anchor.End), new("Elevation", Anchor.End)],
            measured.Ends.SelectMany(e => new[]
            {
                new Row(new Cell(e.End.Name) { Bold = true }, "as built", Figure(e.Found.X, units), Figure(e.Found.Y, units), Figure(e.Found.Z, units)),
                new Row("", "drawn", Length(e.Drawn.X, units), Length(e.Drawn.Y, units), Length(e.Drawn.Z, units)),
                new Row("", "off, ±", $"{Signed(e.Off.X)} ± {Two(e.Sd.X)}", $"{Signed(e.Off.Y)} ± {Two(e.Sd.Y)}", $"{Signed(e.Off.Z)} ± {Two(e.Sd.Z)}"),
            }))
        { Style = TextStyle.Small, WhenEmpty = "nothing was placed by readings" });
        flow.Heading("Spools from face to face", 2).Table(new Table(
            ["Spool", new("From, to", ColumnWidth.Share()), new("As built", Anchor.End), new("Drawn", Anchor.End), new("Off, mm", Anchor.End), new("±", Anchor.End)],
            measured.Lengths.Select(l => new Row(l.Body.Name, $"{l.From.Joint} to {l.To.Joint}", Figure(l.Found, units), Length(l.Drawn, units), Signed(l.Found - l.Drawn), Two(l.Sd))))
        { Style = TextStyle.Small, WhenEmpty = "no spool was measured" });
        return flow.Pages;
    }

    private static string Place(Point p, Units units) => $"{(p.X < 0 ? "W" : "E")} {Length(Math.Abs(p.X), units)} {(p.Y < 0 ? "S" : "N")} {Length(Math.Abs(p.Y), units)} EL {(p.Z < 0 ? "−" : "+")}{Length(Math.Abs(p.Z), units)}";

    private static Cell Figure(double mm, Units units) => new(Length(mm, units)) { Bold = true };

    private static string Length(double mm, Units units) => LengthText.In(units, mm);

    private static string Signed(double mm) => Text($"{mm:+0.0;−0.0;0.0}");

    private static string Two(double sd) => Text($"{2 * sd:0.0}");

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
