using Rootgap.Measure;

namespace Rootgap.Tests.Measure;

public class GeometryTest
{
    private static readonly Gen<Vector> Vectors =
        Gen.Select(Gen.Double[-1000, 1000], Gen.Double[-1000, 1000], Gen.Double[-1000, 1000], (x, y, z) => new Vector(x, y, z));

    [Fact]
    public void A_turned_vector_keeps_its_length_and_turns_by_the_angle() =>
        Gen.Select(Vectors, Vectors, Gen.Double[0, Math.PI]).Where(t => t.Item1.Length > 1 && t.Item2.Length > 1).Holds((v, axis, angle) =>
        {
            var turned = v.Turned(axis.Unit, angle);
            Assert.Equal(v.Length, turned.Length, 1e-6);
            var (flat, flatTurned) = (v.SquareTo(axis.Unit), turned.SquareTo(axis.Unit));
            if (flat.Length > 1e-3)
                Assert.Equal(angle, flat.AngleTo(flatTurned), 1e-6);
        });
}
