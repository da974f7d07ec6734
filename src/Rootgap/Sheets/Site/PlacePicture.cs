using Rootgap.Fabricating;
using Rootgap.Site.Splitting;

namespace Rootgap.Sheets;

/// <summary>A place on the isometric at which the line may be parted.</summary>
/// <param name="At">Where it stands on the picture, mm.</param>
/// <param name="Touch">Corners of the area that is nearer to it than to any other place, and near enough to be meant: no two of them overlap.</param>
public sealed record PictureSpot(SplitPlace Place, Spot At, IReadOnlyList<Spot> Touch);

/// <summary>The isometric of a whole drawing for the screen, with the places on it at which the line may be parted.</summary>
/// <param name="Svg">As <see cref="IsometricScreen.Svg"/> has it.</param>
/// <param name="Width">Of the picture, mm.</param>
/// <param name="Spots">In the order in which the places were given.</param>
public sealed record PlacePicture(string Svg, double Width, double Height, IReadOnlyList<PictureSpot> Spots)
{
    /// <summary>Half the side of a touch area that no other crowds, mm on the picture.</summary>
    private const double Reach = 7;

    public static PlacePicture Of(Fabrication fabrication, IReadOnlyList<SplitPlace> places, Effort effort)
    {
        var ids = DrawnLine.Everything(fabrication);
        if (ids.Count == 0)
            return new("", 1, 1, []);
        var line = DrawnLine.Of(fabrication, ids);
        var figure = Isometric.Free(line, effort, out var layout, out var origin);
        var scene = new Scene(new Paper("screen", figure.Width, figure.Height), figure.Marks) { Title = $"Isometric of {fabrication.Route.Drawing.Number}" };
        var at = places.Select(p => On(line, layout, p)).Select(s => new Spot(s.X - origin.X, s.Y - origin.Y)).ToList();
        return new(SvgWriter.ForScreen(scene), figure.Width, figure.Height, [.. places.Select((p, i) => new PictureSpot(p, at[i], Nearest(at, i)))]);
    }

    private static Spot On(DrawnLine line, IsometricLayout layout, SplitPlace place)
    {
        var (run, leg, along) = (place.Run, place.Leg, place.Along ?? 0);
        if (place.Along is null)
        {
            var joint = line.Joints.First(j => j.Joint.Id == place.Name);
            (run, leg, along) = (joint.Leg.Run, joint.Leg.Leg, joint.At);
        }

        return layout.Legs.First(l => l.Leg.Run == run && l.Leg.Leg == leg).At(along);
    }

    /// <summary>A square round a place, cut where another is as near.</summary>
    private static List<Spot> Nearest(List<Spot> all, int i)
    {
        var here = all[i];
        List<Spot> area = [here.Moved(-Reach, -Reach), here.Moved(Reach, -Reach), here.Moved(Reach, Reach), here.Moved(-Reach, Reach)];
        for (var j = 0; j < all.Count; j++)
        {
            var (x, y) = (all[j].X - here.X, all[j].Y - here.Y);
            if (j != i && (x * x) + (y * y) > 1e-9)
                area = Cut(area, s => (((s.X - here.X) * x) + ((s.Y - here.Y) * y)) - (((x * x) + (y * y)) / 2));
        }

        return area;
    }

    /// <summary>What of a convex area lies on the side where a measure that is straight in the place is below nothing.</summary>
    private static List<Spot> Cut(List<Spot> area, Func<Spot, double> beyond)
    {
        var kept = new List<Spot>();
        for (var i = 0; i < area.Count; i++)
        {
            var (a, b) = (area[i], area[(i + 1) % area.Count]);
            var (before, after) = (beyond(a), beyond(b));
            if (before <= 0)
                kept.Add(a);
            if (before * after < 0)
                kept.Add(a.Toward(b, before / (before - after)));
        }

        return kept;
    }
}
