using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A spool in isometric projection to scale, with its marks: enough to know one spool from another.</summary>
internal static class PlainIsometric
{
    private static readonly double Cos30 = Math.Cos(Math.PI / 6);

    /// <summary>ISO 5456-3: the three axes 120 degrees apart on paper; north runs to the upper right, east to the lower right.</summary>
    public static Spot Project(Vector v) => new((v.X + v.Y) * Cos30, ((v.X - v.Y) * 0.5) - v.Z);

    public static Figure Of(Fabrication f, Spool spool, double width, double height)
    {
        var lines = new List<(Spot A, Spot B)>();
        foreach (var cut in spool.Cuts)
            lines.Add((At(cut.Pipe.Start), At(cut.Pipe.End)));
        foreach (var c in spool.Components)
        {
            foreach (var port in c.Ports)
                lines.Add((At(port.At), At(c.Ports.Count == 1 || c.Ware is Ware.Elbow or Ware.Tee ? c.WorkPoint : c.Ports[0].At)));
        }

        var marks = spool.Cuts.Select(c => (At(c.Pipe.Start.Toward(c.Pipe.End, 0.5)), c.Piece)).ToList();
        var joints = spool.Joints.Concat(spool.Ends).ToList();
        var spots = lines.SelectMany(l => new[] { l.A, l.B }).Concat(joints.Select(j => At(j.At))).ToList();
        var (left, top) = (spots.Min(s => s.X), spots.Min(s => s.Y));
        var (right, bottom) = (spots.Max(s => s.X), spots.Max(s => s.Y));
        const double Room = 12;
        var scale = Math.Min((width - (2 * Room)) / Math.Max(1, right - left), (height - (2 * Room)) / Math.Max(1, bottom - top));
        var (dx, dy) = ((width - ((right - left) * scale)) / 2, (height - ((bottom - top) * scale)) / 2);
        Spot On(Spot s) => new(dx + ((s.X - left) * scale), dy + ((s.Y - top) * scale));
        var canvas = new Canvas();
        canvas.Rectangle(new(0, 0, width, height), LineStyle.Thin);
        foreach (var (a, b) in lines)
            canvas.Line(On(a), On(b), LineStyle.Thick);
        foreach (var joint in joints)
        {
            var at = On(At(joint.At));
            if (joint.Place == WeldPlace.Shop && joint.Kind != JointKind.Bolted)
            {
                canvas.Fill(Shape.Circle(at, 1));
            }
            else
            {
                canvas.Fill(Shape.Circle(at, 1.4), Ink.White);
                canvas.Circle(at, 1.4, LineStyle.Medium);
            }

            canvas.Label(joint.Id, at.Moved(4.5, -3), TextStyle.Small);
        }

        foreach (var (at, name) in marks)
            canvas.Label(name, On(at).Moved(0, 5), TextStyle.Strong with { Height = 3 });
        North(canvas, new(width - 14, 16));
        return canvas.ToFigure(width, height);
    }

    private static Spot At(Point p) => Project(p - Point.Origin);

    private static void North(Canvas canvas, Spot at)
    {
        var north = Project(Vector.North);
        canvas.Arrow(at, at.Moved(north.X * 9, north.Y * 9), LineStyle.Medium);
        canvas.Text("N", at.Moved((north.X * 9) + 1, (north.Y * 9) - 1), TextStyle.Strong);
    }
}
