using Rootgap.Measure;

namespace Rootgap.Standards;

/// <summary>Pipe by ASME B36.10M and B36.19M.</summary>
public static class Pipes
{
    /// <summary>Density of carbon steel, kg/mm³ (ASME B36.10M: 7850 kg/m³).</summary>
    public const double CarbonSteel = 7.85e-6;

    /// <summary>Every schedule of the two standards.</summary>
    public static readonly IReadOnlyList<string> Schedules =
        ["5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160", "STD", "XS", "XXS", "5S", "10S", "40S", "80S"];

    /// <summary>The standard's own writing of a schedule's name (<c>sch 40</c>, <c>std</c>), or null where it is none.</summary>
    public static string? ScheduleName(string text)
    {
        var name = text.AsSpan().Trim();
        if (name.StartsWith("schedule", StringComparison.OrdinalIgnoreCase))
            name = name[8..].TrimStart();
        else if (name.StartsWith("sch", StringComparison.OrdinalIgnoreCase))
            name = name[3..].TrimStart('.').TrimStart();
        foreach (var schedule in Schedules)
        {
            if (name.Equals(schedule, StringComparison.OrdinalIgnoreCase))
                return schedule;
        }

        return null;
    }

    public static StandardRow? OutsideDiameter(NominalSize size) => StandardTable.Find("pipe", "pipe", "outside diameter", size);

    /// <summary>Outside diameter in the column of the units, mm; 0 where the standard has no such size, which is told at the pipe that has it.</summary>
    public static double Outside(NominalSize size, Units units) => OutsideDiameter(size)?.In(units) ?? 0;

    public static StandardRow? Wall(NominalSize size, string schedule) => StandardTable.Find("pipe", "pipe", "wall", size, schedule: schedule);

    /// <summary>Mass per length, kg/mm, of a tube (ASME B36.10M section 5: the same formula, density of carbon steel).</summary>
    public static double MassPerLength(double outside, double wall, double density = CarbonSteel) => Math.PI * (outside - wall) * wall * density;
}
