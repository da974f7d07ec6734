using Rootgap.Sheets;
using Rootgap.Site.Splitting;

namespace Rootgap.Tests.Sheets;

/// <summary>The picture on which the places where a line may be parted are touched.</summary>
public class PlacePictureTest
{
    // North, up, east: on an isometric three directions that no two of them share.
    private const string Line = """
        drawing: T-1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 9000, to: elbow}
              - {go: up, by: 9000, to: elbow}
              - {go: east, by: 9000, to: flange}
        """;

    [Fact]
    public void A_place_stands_on_the_picture_of_its_own_leg()
    {
        var fabrication = Given.Packet(Line).Fabrication;
        var places = Split.PlacesIn(fabrication, new()).Where(p => p.Along is not null).ToList();
        var picture = PlacePicture.Of(fabrication, places, Effort.Full);
        Assert.True(places.GroupBy(p => p.Leg).Count(g => g.Count() > 1) > 1, "not enough places to tell the legs apart");
        Assert.Equal(places.Count, picture.Spots.Count);
        var ways = new List<(double X, double Y)>();
        foreach (var leg in picture.Spots.GroupBy(s => s.Place.Leg).Where(g => g.Count() > 1))
        {
            // Along the leg the places follow one another on one straight line, as far apart as on the pipe in proportion.
            var spots = leg.OrderBy(s => s.Place.Along).ToList();
            var (first, last) = (spots[0], spots[^1]);
            var (x, y, along) = (last.At.X - first.At.X, last.At.Y - first.At.Y, last.Place.Along!.Value - first.Place.Along!.Value);
            Assert.True(Math.Sqrt((x * x) + (y * y)) > 1, $"leg {leg.Key} has no length on the picture");
            ways.Add((x, y));
            foreach (var spot in spots)
            {
                var share = (spot.Place.Along!.Value - first.Place.Along!.Value) / along;
                Assert.Equal(first.At.X + (x * share), spot.At.X, 0.5);
                Assert.Equal(first.At.Y + (y * share), spot.At.Y, 0.5);
            }
        }

        // Legs of different directions look different.
        for (var i = 1; i < ways.Count; i++)
            Assert.True(Math.Abs((ways[i].X * ways[i - 1].Y) - (ways[i].Y * ways[i - 1].X)) > 1, $"legs look alike: {ways[i - 1]}, {ways[i]}");
    }

    [Fact]
    public void No_two_places_are_touched_at_once()
    {
        var fabrication = Given.Packet(Line).Fabrication;
        var picture = PlacePicture.Of(fabrication, Split.PlacesIn(fabrication, new()), Effort.Full);
        for (var i = 0; i < picture.Spots.Count; i++)
        {
            var area = picture.Spots[i].Touch;
            var middle = (X: area.Average(s => s.X), Y: area.Average(s => s.Y));
            double Away(int j) => Math.Pow(picture.Spots[j].At.X - middle.X, 2) + Math.Pow(picture.Spots[j].At.Y - middle.Y, 2);
            for (var j = 0; j < picture.Spots.Count; j++)
                Assert.True(Away(i) <= Away(j) + 1e-6, $"the middle of the area of {picture.Spots[i].Place.Name} is nearer to {picture.Spots[j].Place.Name}");
        }
    }
}
