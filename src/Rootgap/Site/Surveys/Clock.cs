using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>A place round a pipe as a clock has it.</summary>
public static class Clock
{
    /// <summary>Reads <c>12</c>, <c>3</c>, <c>1:30</c> or <c>45 deg</c> (clockwise from 12); radians, 0 to under a whole turn.</summary>
    public static bool TryParse(string text, out double clock)
    {
        clock = 0;
        text = text.Trim();
        var deg = text.IndexOf("deg", StringComparison.OrdinalIgnoreCase);
        if (deg < 0)
            deg = text.IndexOf('°');
        if (deg >= 0)
        {
            if (!double.TryParse(text[..deg].Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees) || !(Math.Abs(degrees) <= 360))
                return false;
            clock = Angles.ToRadians(((degrees % 360) + 360) % 360);
            return true;
        }

        var parts = text.Split(':');
        if (parts.Length > 2 || !int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out var hours) || hours is < 1 or > 12)
            return false;
        var minutes = 0;
        if (parts.Length == 2 && !(int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out minutes) && minutes < 60))
            return false;
        clock = ((hours % 12) + (minutes / 60.0)) * Math.PI / 6;
        return true;
    }

    /// <summary>As a fitter writes it: <c>12</c>, <c>1:30</c>; degrees where it falls on no minute.</summary>
    public static string Text(double clock)
    {
        var minutes = clock / (Math.PI / 360);
        var whole = (int)Math.Round(minutes);
        if (Math.Abs(minutes - whole) > 1e-6)
            return string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(clock):0.###} deg");
        var (hours, rest) = Math.DivRem(whole % 720, 60);
        hours = hours == 0 ? 12 : hours;
        return rest == 0 ? hours.ToString(CultureInfo.InvariantCulture) : string.Create(CultureInfo.InvariantCulture, $"{hours}:{rest:00}");
    }

    /// <summary>The four quarters, in order: 12, 3, 6, 9.</summary>
    public static IReadOnlyList<double> Quarters { get; } = [0, Math.PI / 2, Math.PI, 3 * Math.PI / 2];
}
