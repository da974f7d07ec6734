using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Pipe walls by schedule, held against each other.</summary>
internal static class Walls
{
    /// <summary>Walls this near are one wall, mm: the millimetre and the inch columns round differently.</summary>
    private const double Same = 0.05;

    /// <summary>ASME B36.10M 5: the wall may be 12.5 % under.</summary>
    private const double MillTolerance = 0.125;

    /// <summary>The wall of a size, mm; null where the standard has none.</summary>
    public static double? Of(NominalSize size, Schedule schedule, Units units) => schedule.Wall ?? Pipes.Wall(size, schedule.Name)?.In(units);

    /// <summary>Difference of a listed schedule's wall to the drawn one, mm: the step inside, outsides flush. Null where either is unknown.</summary>
    public static double? Step(string listed, Schedule drawn, NominalSize size, Units units)
    {
        if (Pipes.ScheduleName(listed) is not { } name || Pipes.Wall(size, name)?.In(units) is not { } wall || Of(size, drawn, units) is not { } other)
            return null;
        var step = Math.Abs(wall - other);
        // A wall given in millimetres names the nearest that can be had: within the mill's tolerance it is the schedule's.
        return step <= (drawn.Wall is null ? Same : MillTolerance * wall) ? 0 : step;
    }
}
