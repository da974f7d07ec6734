using System.Globalization;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>How far the welding is: diameter-inches welded so far, day by day, under the line of all that is to be welded.</summary>
public static class ProgressPicture
{
    private const double Width = 160, Height = 52, Left = 16, Foot = 9, Top = 6;

    public static Figure Figure(Progress progress)
    {
        var canvas = new Canvas();
        var days = progress.Days;
        if (days.Count == 0)
            return new(canvas.Marks, Width, Height);
        var all = Math.Max(progress.Inches, days[^1].InchesSoFar);
        var first = days[0].Day.DayNumber;
        var span = Math.Max(1, days[^1].Day.DayNumber - first);
        double X(DateOnly day) => Left + ((Width - Left - 6) * (day.DayNumber - first) / span);
        double Y(double inches) => Height - Foot - ((Height - Foot - Top) * inches / Math.Max(all, 1));
        canvas.Line(Left, Height - Foot, Width, Height - Foot, LineStyle.Medium).Line(Left, Top - 3, Left, Height - Foot, LineStyle.Medium);
        canvas.Line(Left, Y(all), Width, Y(all), LineStyle.Thin);
        canvas.Text(Number(all), Left - 2, Y(all) + 1.2, TextStyle.Small, Anchor.End).Text("0", Left - 2, Height - Foot + 1.2, TextStyle.Small, Anchor.End);
        List<Spot> line = [new(X(days[0].Day), Height - Foot)];
        foreach (var day in days)
        {
            line.Add(new(X(day.Day), line[^1].Y));
            line.Add(new(X(day.Day), Y(day.InchesSoFar)));
        }

        canvas.Polyline(line, new LineStyle(0.7));
        canvas.Circle(line[^1], 1, LineStyle.Medium);
        canvas.Text(Day(days[0].Day), Left, Height - 3, TextStyle.Small);
        if (days.Count > 1)
            canvas.Text(Day(days[^1].Day), Width, Height - 3, TextStyle.Small, Anchor.End);
        var mark = Number(days[^1].InchesSoFar) + " in.";
        var isRight = line[^1].X > Width / 2;
        canvas.Text(mark, line[^1].X + (isRight ? -2 : 2.5), line[^1].Y + (all - days[^1].InchesSoFar < all / 8 ? 5 : -1.5), TextStyle.Small, isRight ? Anchor.End : Anchor.Start);
        return new(canvas.Marks, Width, Height);
    }

    public static Scene Scene(Progress progress) => new(new("progress", Width, Height), Figure(progress).Marks) { Title = "Diameter-inches welded, day by day" };

    private static string Number(double inches) => inches.ToString("0.#", CultureInfo.InvariantCulture);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
