using System.Globalization;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Readings that cannot be of this line as it is thought to stand: slips of the pen, and coordinates of another system.</summary>
internal static class SurveyCheck
{
    /// <summary>A reading this many standard deviations off what was thought before, and this far (mm, or as much of a radian), is not read but written wrong.</summary>
    private const double Impossible = 6;
    private const double Far = 500;
    private const double Steep = 20 * Math.PI / 180;

    public static IReadOnlyList<Finding> Of(SiteLine line, Survey survey, double expansion)
    {
        var unknowns = new Unknowns(line, survey, expansion, Motion.None);
        var drawn = new Slopes(line, unknowns, (double[])unknowns.Mean.Clone());
        var findings = new List<Finding>();
        var off = new List<(SiteTaken Taken, double By)>();
        foreach (var taken in survey.Readings)
        {
            var isPlace = taken.Reading is SiteReading.Coordinate;
            if (isPlace && survey.Frame != SurveyFrame.Plant)
                continue;
            var by = taken.Value - taken.Reading.Of(drawn.Standing);
            var spread = Math.Sqrt((taken.Sd * taken.Sd) + drawn.Of(taken.Reading.Ends, taken.Reading.Of, readsFrame: false).Sum(s => s.Slope * s.Slope));
            if (Math.Abs(by) <= Math.Max(Impossible * spread, taken.Reading.IsAngle ? Steep : Far))
                continue;
            if (isPlace)
            {
                off.Add((taken, by));
                continue;
            }

            findings.Add(Finding("no-placing-explains", survey, taken, taken.Reading.IsAngle
                ? string.Create(CultureInfo.InvariantCulture, $"No placing of the bodies explains this {taken.Reading.Word}: {Angles.ToDegrees(taken.Value):0.##} degrees was read where about {Angles.ToDegrees(taken.Value - by):0.##} is thought.")
                : string.Create(CultureInfo.InvariantCulture, $"No placing of the bodies explains this {taken.Reading.Word}: {taken.Value:0.#} was read where about {taken.Value - by:0.#} is thought, and that is sure to {Impossible * spread:0}."),
                "Is a figure or the decimal point wrong, or are the two points others? Or is a body known less well than `standing` says: write near or far for it."));
        }

        findings.AddRange(Places(survey, off));
        return findings;
    }

    private static IEnumerable<Finding> Places(Survey survey, List<(SiteTaken Taken, double By)> off)
    {
        var all = survey.Readings.Where(r => r.Reading is SiteReading.Coordinate).ToList();
        if (off.Count < 2 || off.Count * 2 < all.Count)
        {
            return off.Select(o => Finding("no-placing-explains", survey, o.Taken,
                string.Create(CultureInfo.InvariantCulture, $"This point cannot be there: its {o.Taken.Reading.Word} is {o.By:0} mm off where it is thought."),
                "Is a figure wrong, is it another point, or are east and north in each other's place?"));
        }

        var shifts = new[] { Along.East, Along.North, Along.Up }
            .Select(a => (Along: a, By: off.Where(o => ((SiteReading.Coordinate)o.Taken.Reading).Along == a).Select(o => o.By).ToList()))
            .Where(s => s.By.Count > 0).ToList();
        var shift = string.Join(", ", shifts.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Along.ToString().ToLowerInvariant()} {-Median(s.By):+0.#;-0.#;0}")));
        var spread = shifts.Max(s => s.By.Max() - s.By.Min());
        return
        [
            Finding("other-coordinates", survey, off[0].Taken,
                string.Create(CultureInfo.InvariantCulture, $"These coordinates are in another system than the drawing's: {off.Count} of {all.Count} are farther off than anything can stand. A shift of {shift} fits them{(spread > 200 ? string.Create(CultureInfo.InvariantCulture, $", to {spread / 2:0} mm: they are turned as well") : "")}."),
                "Write `frame: levelled` (an instrument set up on its own level) or `frame: free`, and they are fitted; or shift them by this."),
        ];
    }

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static Finding Finding(string rule, Survey survey, SiteTaken taken, string message, string remedy) =>
        new(rule, Severity.Stop, string.Create(CultureInfo.InvariantCulture, $"readings[{taken.Entry}]"), taken.Entry < survey.Places.Count ? survey.Places[taken.Entry] : default, message, remedy);
}
