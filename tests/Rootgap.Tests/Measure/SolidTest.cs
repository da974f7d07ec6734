using Rootgap.Measure;

namespace Rootgap.Tests.Measure;

/// <summary>Bodies say how far a place is from their surface: held against points of the surface, taken from the definition of each (an outline turned about an axis, a circle carried along an arc).</summary>
public class SolidTest
{
    private static readonly Gen<Solid.Bend> Bends = Gen.Select(Gen.Double[100, 500], Gen.Double[0.2, 3.1], Gen.Double[0.1, 0.9], (radius, turn, share) =>
        new Solid.Bend(Point.Origin, Vector.East, Vector.North, radius, turn, radius * share));

    private static readonly Gen<Point> Places = Gen.Select(Gen.Double[-800, 800], Gen.Double[-800, 800], Gen.Double[-500, 500], (x, y, z) => new Point(x, y, z));

    [Fact]
    public void A_bend_is_never_nearer_to_a_place_than_a_point_of_its_surface_and_never_says_more() =>
        Gen.Select(Bends, Places, Gen.Double[0, 1], Gen.Double[0, 2 * Math.PI]).Holds((bend, place, along, round) =>
        {
            var (at, way) = bend.On(bend.Turn * along);
            var surface = at + ((way.AnySquare().Turned(way, round)) * bend.Radius);
            Assert.Equal(0, bend.Distance(surface), 1e-6);
            Assert.True(Math.Abs(bend.Distance(place)) <= place.To(surface) + 1e-6);
        });

    [Fact]
    public void The_ends_of_a_bend_are_surface() =>
        Gen.Select(Bends, Places, Gen.Double[0, 0.999], Gen.Double[0, 2 * Math.PI]).Holds((bend, place, far, round) =>
        {
            foreach (var end in new[] { 0, bend.Turn })
            {
                var (at, way) = bend.On(end);
                var surface = at + ((way.AnySquare().Turned(way, round)) * (bend.Radius * far));
                Assert.Equal(0, bend.Distance(surface), 1e-6);
                Assert.True(Math.Abs(bend.Distance(place)) <= place.To(surface) + 1e-6);
            }
        });

    // A tape across both mouths of a return of two elbows lies on their faces, and a bit into them it does not.
    [Fact]
    public void A_line_may_lie_on_an_end_face_and_not_go_into_it()
    {
        Solid[] bodies = [new Solid.Bend(Point.Origin, -Vector.Up, Vector.East, 76, Math.PI, 30)];
        Assert.True(Solid.Clear(new(-30, 0, 0), new(182, 0, 0), bodies));
        Assert.False(Solid.Clear(new(-30, 0, -3), new(182, 0, -3), bodies));
    }
}
