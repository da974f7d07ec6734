using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>The stub end of a lap joint (ASME B16.9): a tube with a lap, which the loose flange presses against its mate. It is welded; its flange turns.</summary>
/// <param name="LapDiameter">Outside diameter of the lap, mm; null where no table has it.</param>
/// <param name="Lap">Thickness of the lap, mm: at least the wall of the pipe (ASME B16.9).</param>
/// <param name="Length">From the lap's face to the end that is welded, mm.</param>
public sealed record StubEnd(double? LapDiameter, double Lap, double Length)
{
    internal IEnumerable<Solid> Bodies(Point face, Vector back, double outside) =>
        Solid.Turned(face, back, (0, (LapDiameter ?? outside) / 2), (Lap, (LapDiameter ?? outside) / 2), (Lap, outside / 2), (Length, outside / 2));

    /// <summary>Volumes, mm³, with the distance of the middle of each from the lap's face: the tube, and the ring of the lap round it.</summary>
    internal IEnumerable<(double Volume, double Along)> Volumes(double outside, double wall) =>
    [
        (Math.PI * (outside - wall) * wall * Length, Length / 2),
        (LapDiameter is { } lap ? Math.PI / 4 * ((lap * lap) - (outside * outside)) * Lap : 0, Lap / 2),
    ];
}
