using System.Globalization;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>
/// How far the welding is, day by day: diameter-inches as a full line and welds as a broken one, each as a share of all that is to be welded.
/// </summary>
public static class ProgressPicture
{
    private const double Width = 120, Height = 74, Left = 17, Right = 108, Top = 15, Foot = 64;

    /// <summary>Parts into which the height is divided.</summary>
    private const int Parts = 4;

    private static readonly TextStyle Style = new(3);
    private static readonly TextStyle Strong = Style with { Bold = true };
    private static readonly LineStyle Inches = new(0.8);
    private static readonly LineStyle Welds = new(0.5, Dash.Dashed);

    public static Figure Figure(Progress progress)
    {
        var canvas = new Canvas();
        var days = progress.Days;
        if (days.Count == 0)
            return new(canvas.Marks, Width, Height);
        var (inches, welds) = (Math.Max(Math.Max(progress.Inches, days[^1].InchesSoFar), 1), (double)Math.Max(Math.Max(progress.Welds, days[^1].WeldsSoFar), 1));
        // A day before the first, so that the first day's work stands up from nothing.
        var first = days[0].Day.DayNumber - 1;
        var span = days[^1].Day.DayNumber - first;
        double X(int day) => Left + ((Right - Left) * (day - first) / span);
        static double Y(double share) => Foot - ((Foot - Top) * share);

        for (var i = 0; i <= Parts; i++)
        {
            var share = i / (double)Parts;
            canvas.Line(Left, Y(share), Right, Y(share), i is 0 or Parts ? LineStyle.Medium : LineStyle.Thin);
            canvas.Text(Number(100 * share) + " %", Left - 2, Y(share) + 1.3, Style, Anchor.End);
        }

        canvas.Line(Left, Top, Left, Foot, LineStyle.Thin).Line(Right, Top, Right, Foot, LineStyle.Thin);
        canvas.Polyline(Steps(days, d => d.WeldsSoFar / welds), Welds).Polyline(Steps(days, d => d.InchesSoFar / inches), Inches);
        canvas.Line(Left, 4, Left + 9, 4, Inches).Text($"diameter-inches: {Number(days[^1].InchesSoFar)} of {Number(progress.Inches)}", Left + 11, 5.3, Strong);
        canvas.Line(Left, 9.4, Left + 9, 9.4, Welds).Text($"welds: {days[^1].WeldsSoFar} of {progress.Welds}", Left + 11, 10.7, Style);
        Days(canvas, days, X);
        return new(canvas.Marks, Width, Height);

        List<Spot> Steps(IReadOnlyList<DayOfWelding> of, Func<DayOfWelding, double> share)
        {
            List<Spot> line = [new(Left, Foot)];
            foreach (var day in of)
            {
                line.Add(new(X(day.Day.DayNumber), line[^1].Y));
                line.Add(new(X(day.Day.DayNumber), Y(share(day))));
            }

            return line;
        }
    }

    public static Scene Scene(Progress progress) => new(new("progress", Width, Height), Figure(progress).Marks) { Title = "Diameter-inches and welds made, day by day" };

    // A tick for each day of welding; the first and the last with their dates, and between them as many as there is room for.
    private static void Days(Canvas canvas, IReadOnlyList<DayOfWelding> days, Func<int, double> x)
    {
        foreach (var day in days)
            canvas.Line(x(day.Day.DayNumber), Foot, x(day.Day.DayNumber), Foot + 1.5, LineStyle.Thin);
        var half = Style.Width(Day(days[^1].Day)) / 2;
        var last = double.NegativeInfinity;
        var end = Math.Min(x(days[^1].Day.DayNumber), Width - half);
        foreach (var day in days)
        {
            var isLast = day == days[^1];
            var at = isLast ? end : Math.Max(half, x(day.Day.DayNumber));
            if (at - half < last || (!isLast && end - half < at + half + 3))
                continue;
            canvas.Text(Day(day.Day), at, Foot + 6.5, Style, Anchor.Middle);
            last = at + half + 3;
        }
    }

    private static string Number(double amount) => amount.ToString("0.#", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
