using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>What a solid looks like from one side, on paper: what it covers and the lines that are drawn of it.</summary>
/// <param name="Depth">How near to the reader its middle is, real mm.</param>
/// <param name="Covers">Convex parts whose union it covers.</param>
internal sealed record Silhouette(string Part, double Depth, IReadOnlyList<Shape> Fills, IReadOnlyList<Shape> Lines, IReadOnlyList<Spot[]> Covers)
{
    private const int RoundSteps = 40, BendSteps = 24;

    /// <summary>A share of a right angle below which a direction counts as lying in the paper, or square to it.</summary>
    private const double Flat = 1e-4;

    /// <param name="place">From real millimetres as the sight has them to paper.</param>
    public static Silhouette Of(Body body, Sight sight, Placement place) => body.Solid switch
    {
        _ when body.Corners.Count > 0 => Block(body, sight, place),
        Solid.Bar bar when body.Saddles is not (null, null) && Math.Abs(bar.Axis.Dot(sight.Toward)) < 1 - Flat => Saddled(body, bar, sight, place),
        Solid.Bar bar => Of(body.Part, bar, sight, place),
        Solid.Bend bend => Of(body.Part, bend, sight, place),
        _ => throw new InvalidOperationException("The family of bodies is closed."),
    };

    private static Silhouette Of(string part, Solid.Bar cone, Sight sight, Placement place)
    {
        var tilt = cone.Axis.Dot(sight.Toward);
        var depth = sight.Depth(cone.From.Toward(cone.To, 0.5)) - (cone.IsSetOn ? 0.01 : 0);
        var (a, b) = (Disc(cone.From, cone.Axis, cone.RadiusFrom, sight, place), Disc(cone.To, cone.FarAxis ?? cone.Axis, cone.RadiusTo, sight, place));
        var hull = Hull([.. a, .. b]);
        (Spot, double)[] axis = [(place.Of(sight.Of(cone.From)), sight.Depth(cone.From)), (place.Of(sight.Of(cone.To)), sight.Depth(cone.To))];
        List<Shape> lines = [];
        if (Math.Abs(tilt) > 1 - Flat)
        {
            // End on: true circles.
            foreach (var (at, radius) in new[] { (cone.From, cone.RadiusFrom), (cone.To, cone.RadiusTo) }.OrderByDescending(x => x.Item2).DistinctBy(x => Math.Round(x.Item2, 3)))
                lines.Add(Shape.Circle(place.Of(sight.Of(at)), radius * place.A));
            return new(part, depth, [lines[0]], lines, [hull]) { Axis = axis };
        }

        var outline = Shape.Polygon(hull);
        lines.Add(outline);
        if (Math.Abs(tilt) > Flat)
            lines.Add(Shape.Polygon(tilt > 0 ? b : a));
        return new(part, depth, [outline], lines, [hull]) { Axis = axis };
    }

    private static Silhouette Block(Body body, Sight sight, Placement place)
    {
        var hull = Hull([.. body.Corners.Select(c => place.Of(sight.Of(c)))]);
        var (outline, middle) = (Shape.Polygon(hull), body.Corners[0].Toward(body.Corners[^1], 0.5));
        return new(body.Part, sight.Depth(middle) - 0.01, [outline], [outline], [hull]) { Axis = [(place.Of(sight.Of(middle)), sight.Depth(middle))] };
    }

    // A pipe seen from its side: at each end the half of the rim that reaches farther is its outline, the half that looks at the reader an edge on it.
    private static Silhouette Saddled(Body body, Solid.Bar bar, Sight sight, Placement place)
    {
        var (first, firstEdge) = Halves(bar.From, -bar.Axis, body.Saddles.From);
        var (last, lastEdge) = Halves(bar.To, bar.Axis, body.Saddles.To);
        // Who looks out of the second end goes over it the other way.
        List<Spot> outline = [.. first.Select(Paper), .. last.Select(Paper)];
        var fill = Shape.Polygon(outline);
        (Spot, double)[] axis = [(Paper(bar.From), sight.Depth(bar.From)), (Paper(bar.To), sight.Depth(bar.To))];
        return new(body.Part, sight.Depth(bar.From.Toward(bar.To, 0.5)), [fill], [fill, Shape.Polyline([.. firstEdge.Select(Paper)]), Shape.Polyline([.. lastEdge.Select(Paper)])], [Hull(outline)]) { Axis = axis };

        Spot Paper(Point p) => place.Of(sight.Of(p));

        (List<Point> Outline, List<Point> Edge) Halves(Point middle, Vector face, SaddleEnd? saddle)
        {
            var across = face.Cross(sight.Toward).Unit;
            var toward = across.Cross(face);
            var away = Half(-1);
            var near = Half(1);
            return (near.Sum(Out) > away.Sum(Out) + 1e-6 ? near : away, near);

            double Out(Point p) => (p - middle).Dot(face.SquareTo(sight.Toward));

            // Half of the rim, from one side to the other over the reader's side or the far one.
            List<Point> Half(int sign) => [.. Enumerable.Range(0, RoundSteps + 1).Select(i =>
            {
                var (sin, cos) = Math.SinCos(Math.PI * i / RoundSteps);
                var side = (across * cos) + (toward * (sign * sin));
                return middle + (side * bar.RadiusFrom) + (face * (saddle?.Deeper(side) ?? 0));
            })];
        }
    }

    private static Silhouette Of(string part, Solid.Bend bend, Sight sight, Placement place)
    {
        var (left, right) = (new List<Spot>(), new List<Spot>());
        var covers = new List<Spot[]>();
        var axis = new List<(Spot, double)>();
        for (var i = 0; i <= BendSteps; i++)
        {
            var (at, along) = bend.On(bend.Turn * i / BendSteps);
            axis.Add((place.Of(sight.Of(at)), sight.Depth(at)));
            var flat = sight.Of(along);
            var size = default(Spot).To(flat);
            if (size < 0.02)
                continue;
            var middle = sight.Of(at);
            var (x, y) = (-flat.Y / size * bend.Radius, flat.X / size * bend.Radius);
            left.Add(place.Of(middle.Moved(x, y)));
            right.Add(place.Of(middle.Moved(-x, -y)));
            if (left.Count % 4 == 1 && left.Count > 1)
                covers.Add(Hull([left[^5], left[^1], right[^5], right[^1], left[^3], right[^3]]));
        }

        if ((left.Count - 1) % 4 is > 0 and var rest)
            covers.Add(Hull([.. left[^(rest + 1)..], .. right[^(rest + 1)..]]));
        var fill = left.Count > 1 ? Shape.Polygon([.. left, .. Enumerable.Reverse(right)]) : null;
        var (before, after) = (new List<Shape>(), new List<Shape>());
        foreach (var angle in new[] { 0, bend.Turn })
        {
            var (at, along) = bend.On(angle);
            var outward = angle == 0 ? -along : along;
            var disc = Disc(at, along, bend.Radius, sight, place);
            covers.Add(Hull(disc));
            (outward.Dot(sight.Toward) > Flat ? after : before).Add(Shape.Polygon(disc));
        }

        // The far end first, then the tube over it, then the near end.
        var fills = new List<Shape>(before);
        var lines = new List<Shape>(before);
        if (fill is not null)
        {
            fills.Add(fill);
            lines.Add(Shape.Polyline(left));
            lines.Add(Shape.Polyline(right));
        }

        fills.AddRange(after);
        lines.AddRange(after);
        return new(part, sight.Depth(bend.On(bend.Turn / 2).At), fills, lines, covers) { IsTube = fill is not null, FarEnds = before.Count, Axis = axis };
    }

    /// <summary>Its centreline: where it is on paper and how near to the reader, real mm.</summary>
    private IReadOnlyList<(Spot At, double Depth)> Axis { get; init; } = [];

    /// <summary>How near to the reader its centreline is where it passes a place on paper; the nearest of it where it runs to the reader, real mm.</summary>
    public double DepthAt(Spot spot)
    {
        var (depth, least) = (double.MinValue, double.MaxValue);
        for (var i = 0; i + 1 < Axis.Count; i++)
        {
            var ((a, depthA), (b, depthB)) = (Axis[i], Axis[i + 1]);
            var (dx, dy) = (b.X - a.X, b.Y - a.Y);
            var size = (dx * dx) + (dy * dy);
            var isEndOn = size < 1e-6;
            var t = isEndOn ? (depthA > depthB ? 0 : 1) : Math.Clamp((((spot.X - a.X) * dx) + ((spot.Y - a.Y) * dy)) / size, 0, 1);
            var (distance, here) = (a.Toward(b, t).To(spot), depthA + ((depthB - depthA) * t));
            if (distance < least - 1e-6 || (distance < least + 1e-6 && here > depth))
                (least, depth) = (Math.Min(least, distance), here);
        }

        return depth;
    }

    /// <summary>A bend's tube: its fill hides the near half of its far ends.</summary>
    private bool IsTube { get; init; }

    private int FarEnds { get; init; }

    public void Draw(Canvas canvas, LineStyle style)
    {
        if (!IsTube)
        {
            canvas.Fill(Fills[0], Ink.White);
            foreach (var line in Lines)
                canvas.Stroke(line, style);
            return;
        }

        for (var i = 0; i < FarEnds; i++)
            canvas.Fill(Fills[i], Ink.White).Stroke(Lines[i], style);
        canvas.Fill(Fills[FarEnds], Ink.White).Stroke(Lines[FarEnds], style).Stroke(Lines[FarEnds + 1], style);
        for (var i = FarEnds + 1; i < Fills.Count; i++)
            canvas.Fill(Fills[i], Ink.White).Stroke(Lines[i + 1], style);
    }

    /// <summary>Whether it covers a place on paper.</summary>
    public bool Covering(Spot spot) => Covers.Any(c => Convex.Holds(c, spot));

    /// <summary>The edge of a disc on paper: two spots where it is seen from its edge.</summary>
    private static Spot[] Disc(Point at, Vector axis, double radius, Sight sight, Placement place)
    {
        var across = axis.Cross(sight.Toward);
        if (across.Length < Flat)
            across = sight.Right;
        across = across.Unit;
        var other = axis.Cross(across);
        if (default(Spot).To(sight.Of(other)) < Flat)
            return [place.Of(sight.Of(at + (across * radius))), place.Of(sight.Of(at - (across * radius)))];
        var edge = new Spot[RoundSteps];
        for (var i = 0; i < RoundSteps; i++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * i / RoundSteps);
            edge[i] = place.Of(sight.Of(at + (across * (radius * cos)) + (other * (radius * sin))));
        }

        return edge;
    }

    /// <summary>Convex hull (Andrew's monotone chain).</summary>
    private static Spot[] Hull(IReadOnlyList<Spot> spots)
    {
        var sorted = spots.OrderBy(s => s.X).ThenBy(s => s.Y).ToArray();
        var hull = new List<Spot>(sorted.Length + 1);
        for (var pass = 0; pass < 2; pass++)
        {
            var floor = hull.Count + 1;
            foreach (var s in pass == 0 ? sorted : Enumerable.Reverse(sorted))
            {
                while (hull.Count > floor && Convex.Cross(hull[^2], hull[^1], s) <= 1e-12)
                    hull.RemoveAt(hull.Count - 1);
                hull.Add(s);
            }

            hull.RemoveAt(hull.Count - 1);
        }

        return [.. hull];
    }
}
