using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The final dimensional check of a spool: its ends against each other, as tapes between places that can be touched, its faces and its holes.</summary>
internal static class SpoolCheckCard
{
    /// <summary>An end of the spool.</summary>
    private sealed record End(string Name, Point Centre, Vector Normal, double Outside, FitHoles? Holes);

    /// <summary>Pairs of ends on one card; more would not be measured.</summary>
    private const int MostPairs = 6;

    public static IReadOnlyList<Page> Of(ShopJob job, Spool spool)
    {
        var ends = Ends(job.Fabrication, spool);
        if (ends.Count == 0)
            return [];
        var nps = spool.Cuts.Select(c => c.Pipe.Size.Inches).Concat(spool.Components.Select(c => c.Size.Inches)).Max();
        var limit = FitTolerance.Length(nps);
        var allow = job.Drawing.Shop.LinearTolerance ?? limit.Value;
        var source = job.Drawing.Shop.LinearTolerance is null ? limit.Source : "the shop's own rule";
        var flow = new Flow(job.Paper, job.Block($"Spool {spool.Name}: final check")).Heading("Final check: tacked, and after welding");
        flow.Paragraph(string.Create(CultureInfo.InvariantCulture, $"Between lips, nothing to a centreline. Allowed ± {allow:0.#} mm ({source}). Where two figures of a pair should be equal and the tapes differ, the spool is twisted or out of square."));
        flow.Table(new Table(
            ["From", "To", new("What", ColumnWidth.Share()), new("Should be", Anchor.End), new("Tacked", ColumnWidth.Of(24)), new("Welded", ColumnWidth.Of(24))],
            Pairs(ends).Take(MostPairs).SelectMany(p => Tapes(p.A, p.B))) { RowHeight = 9, WhenEmpty = "one end only" });
        flow.Heading("Faces and holes, the spool standing as drawn", 2);
        flow.Table(new Table(
            ["End", new("Face", ColumnWidth.Share()), new("Should be", Anchor.End), new("Allowed", Anchor.End), new("Tacked", ColumnWidth.Of(24)), new("Welded", ColumnWidth.Of(24))],
            ends.SelectMany(e => Faces(e, nps))) { RowHeight = 9 });
        return flow.Pages;
    }

    private static IEnumerable<(End A, End B)> Pairs(List<End> ends)
    {
        for (var i = 0; i < ends.Count; i++)
        {
            for (var k = i + 1; k < ends.Count; k++)
                yield return (ends[i], ends[k]);
        }
    }

    // The direction that lies in both faces (or, where they are parallel, square to the line between them): lips on one side, and across.
    private static IEnumerable<Row> Tapes(End a, End b)
    {
        var between = b.Centre - a.Centre;
        var side = a.Normal.Cross(b.Normal);
        var isParallel = side.Length < Math.Sin(Tolerance.Turn);
        if (isParallel)
            side = a.Normal.Cross(between).Length > 1 ? a.Normal.Cross(between) : a.Normal.AnySquare();
        side = side.Unit;
        var word = Direction(side);
        var (one, other) = (a.Centre + (side * (a.Outside / 2)), a.Centre - (side * (a.Outside / 2)));
        var (far, near) = (b.Centre + (side * (b.Outside / 2)), b.Centre - (side * (b.Outside / 2)));
        yield return Line(a, b, $"tape, {word} lip to {word} lip", one.To(far));
        yield return Line(a, b, $"tape, {Direction(-side)} lip to {Direction(-side)} lip", other.To(near));
        yield return Line(a, b, $"diagonal, {word} lip to {Direction(-side)} lip", one.To(near));
        yield return Line(a, b, $"diagonal, {Direction(-side)} lip to {word} lip", other.To(far));
    }

    private static Row Line(End a, End b, string what, double mm) => new(a.Name, b.Name, what, new Cell(Wording.Mm(mm)) { Bold = true }, "", "");

    private static IEnumerable<Row> Faces(End end, double nps)
    {
        var angle = Math.Max(0.8 / end.Outside, 0.0039);
        var allowed = string.Create(CultureInfo.InvariantCulture, $"± {Angles.ToDegrees(angle):0.00}°");
        var lean = Angles.ToDegrees(Math.Asin(Math.Clamp(end.Normal.Z, -1, 1)));
        var face = Math.Abs(lean) < 0.05 ? "plumb, both ways" : Math.Abs(Math.Abs(lean) - 90) < 0.05 ? "level, both ways" : "protractor, steepest line against plumb";
        yield return new Row(end.Name, face, Math.Abs(Math.Abs(lean) - 90) < 0.05 ? "0.0°" : string.Create(CultureInfo.InvariantCulture, $"{lean:0.0}°"), allowed, "", "");
        if (end.Holes is not { } holes)
            yield break;
        var top = holes.Pair(end.Normal, Vector.Up).Top;
        var slope = Angles.ToDegrees(Math.Asin(Math.Clamp(end.Normal.Cross(top).Z, -1, 1)));
        var upright = Math.Abs(lean) < 60;
        yield return new Row(
            end.Name, upright ? $"holes, level over two pins {Wording.Mm(holes.Pair(end.Normal, Vector.Up).Apart)} apart" : "holes, straightedge over the pins along north-south",
            string.Create(CultureInfo.InvariantCulture, $"{(upright ? Math.Abs(slope) : 0):0.0}°"), string.Create(CultureInfo.InvariantCulture, $"± {Angles.ToDegrees(1.6 / (holes.Circle / 2)):0.00}°"), "", "");
    }

    // The ends that lead out of the spool: where it is bolted or welded on site, and free ends.
    private static List<End> Ends(Fabrication f, Spool spool)
    {
        var inside = spool.Joints.Select(j => j.At).ToList();
        List<End> ends = [];
        var fitting = new FitJoints(f);
        foreach (var c in spool.Components)
        {
            foreach (var port in c.Ports)
            {
                if (c is Cap || inside.Exists(at => at.To(port.At) < 30) || (c is Outlet outlet && port == outlet.Foot))
                    continue;
                ends.Add(new(c.Id, port.At, port.Face, port.Outside, fitting.HolesOf(c.Id)));
            }
        }
        foreach (var cut in spool.Cuts)
        {
            foreach (var (at, normal) in new[] { (cut.Pipe.Start, -cut.Pipe.Direction), (cut.Pipe.End, cut.Pipe.Direction) })
            {
                if (!inside.Exists(p => p.To(at) < Math.Max(30, cut.Pipe.Outside * 2) && Math.Abs((p - at).Dot(normal)) < 30))
                    ends.Add(new(cut.Piece, at, normal, cut.Pipe.Outside, null));
            }
        }
        return ends;
    }

    private static string Direction(Vector v)
    {
        var (x, y, z) = (Math.Abs(v.X), Math.Abs(v.Y), Math.Abs(v.Z));
        return z >= x && z >= y ? (v.Z > 0 ? "top" : "bottom") : x >= y ? (v.X > 0 ? "east" : "west") : v.Y > 0 ? "north" : "south";
    }
}
