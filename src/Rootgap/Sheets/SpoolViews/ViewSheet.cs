using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>The true-scale views of a spool, set out on one piece of paper: which ones, how large, where.</summary>
internal static class ViewSheet
{
    /// <summary>Scales 1 : n (ISO 5455 and those between that are usual in pipe shops, common practice).</summary>
    private static readonly double[] Scales = [1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 250, 300, 400, 500, 1000, 2000, 5000];

    private const double Gap = 4;

    private static readonly double[] InchScales = [4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 300, 384, 500, 1000, 2000, 5000];

    /// <summary>The largest scale, 1 : n, at which views stand in a room with letters of their true size; null where there is none.</summary>
    public static double? Scale(IReadOnlyList<SpoolView> views, Units units, double width, double height) => Fit(views, units, width, height)?.Scale;

    /// <summary>The views in groups that each have room on a sheet of a size, in their order, as few as can be. One that has no room on a sheet of its own leaves out its running dimensions, and says so.</summary>
    public static IReadOnlyList<IReadOnlyList<SpoolView>> Sheets(IReadOnlyList<SpoolView> views, Units units, double width, double height)
    {
        List<List<SpoolView>> sheets = [];
        foreach (var view in views)
        {
            if (sheets.Count > 0 && Fit([.. sheets[^1], view], units, width, height) is not null)
                sheets[^1].Add(view);
            else
                sheets.Add([Fit([view], units, width, height) is null ? view.WithoutDimensions() : view]);
        }

        return sheets;
    }

    /// <summary>The views as one figure within a room that has a scale for them, and what found no place in any of them.</summary>
    public static (Figure Figure, IReadOnlyList<string> Unplaced) Of(ViewSubject subject, IReadOnlyList<SpoolView> views, double width, double height)
    {
        var (scale, rows) = Fit(views, subject.Units, width, height) ?? (Scales[^1], [.. views.Select(v => (IReadOnlyList<SpoolView>)[v])]);
        var named = new HashSet<string>(StringComparer.Ordinal);
        var unplaced = views.Where(v => v.LeftOut.Length > 0).Select(v => v.LeftOut).ToList();
        var canvas = new Canvas();
        var top = 0.0;
        foreach (var row in rows)
        {
            var sizes = row.Select(v => v.SizeAt(scale)).ToList();
            var spare = Math.Max(0, width - sizes.Sum(s => s.Width) - (Gap * (row.Count - 1))) / row.Count;
            var x = 0.0;
            for (var i = 0; i < row.Count; i++)
            {
                canvas.Place(row[i].Draw(scale, sizes[i].Width + spare, named, unplaced), new(x, top));
                x += sizes[i].Width + spare + Gap;
            }

            top += sizes.Max(s => s.Height) + Gap;
        }

        // A name that one view has no room for may stand in another.
        unplaced.RemoveAll(named.Contains);
        return (canvas.ToFigure(width, top - Gap), unplaced);
    }

    /// <summary>The view with most in true length and least hidden first; then as many more as show something new.</summary>
    internal static IReadOnlyList<SpoolView> Choose(ViewSubject subject)
    {
        var lines = subject.Centrelines().ToList();
        // What lies in a plane of its own is shown laid flat in it: there every length is true.
        Sight[] flat = subject.Plane is { } normal && Sight.Flat(normal, lines.MaxBy(l => l.From.To(l.To)) is var l ? (l.To - l.From).Unit : Vector.East) is { } own ? [own] : [];
        var all = Sight.All.Concat(flat).Select(s => new SpoolView(subject, s)).ToList();
        var joint = Math.Max(1, lines.Sum(l => l.From.To(l.To)) / Math.Max(1, subject.Joints.Count) / 2);
        var first = all.MaxBy(v => v.TrueLength - (v.HiddenJoints.Count * joint) + (v.Sight == Sight.Plan ? 1 : 0) + (v.Extent.Width >= v.Extent.Height ? 2 : 0))!;
        var chosen = new List<SpoolView> { first };
        var seen = lines.Select(l => IsTrue(l, first)).ToArray();
        var hidden = first.HiddenJoints.ToHashSet(StringComparer.Ordinal);
        // East, north and up are all to be measured somewhere, even where nothing lies along them.
        bool ShowsMissing(SpoolView v) => new[] { v.Sight.Right, v.Sight.Up }.Any(axis =>
            chosen.TrueForAll(c => Math.Abs(c.Sight.Toward.Dot(axis)) > 0.5) && Spread(subject, axis) > 1);
        while (chosen.Count < 3)
        {
            double Gain(SpoolView v) => lines.Where((l, i) => !seen[i] && IsTrue(l, v)).Sum(l => l.From.To(l.To)) + (hidden.Count(id => !v.HiddenJoints.Contains(id)) * joint) - (v.HiddenJoints.Count * joint * 0.1) + (ShowsMissing(v) ? joint : 0);
            var next = all.Where(v => chosen.TrueForAll(c => Math.Abs(c.Sight.Toward.Dot(v.Sight.Toward)) < 0.5)).MaxBy(v => Gain(v) + (v.Sight.Right == first.Sight.Right ? 0.5 : 0)); // views above each other share a direction
            if (next is null || Gain(next) < 1)
                break;
            chosen.Add(next);
            for (var i = 0; i < seen.Length; i++)
                seen[i] |= IsTrue(lines[i], next);
            hidden.IntersectWith(next.HiddenJoints);
        }

        // A chain of dimensions is drawn once for each of east, north and up: in the first view that shows it.
        var chained = new List<Vector>();
        bool Claim(Vector axis)
        {
            if (chained.Exists(c => Math.Abs(c.Dot(axis)) > 0.5))
                return false;
            chained.Add(axis);
            return true;
        }

        return [.. chosen.Select(v => new SpoolView(subject, v.Sight) { ChainsAcross = Claim(v.Sight.Right), ChainsUp = Claim(v.Sight.Up) })];
    }

    private static double Spread(ViewSubject subject, Vector axis)
    {
        var along = subject.Stations.Select(s => (s - Point.Origin).Dot(axis)).ToList();
        return along.Count == 0 ? 0 : along.Max() - along.Min();
    }

    private static bool IsTrue((string Part, Point From, Point To) line, SpoolView view) =>
        Math.Abs((line.To - line.From).Unit.Dot(view.Sight.Toward)) < 0.02;

    /// <summary>The largest scale at which some setting out fits, with the rows of that setting out; null where none does: words and figures need their room at every scale.</summary>
    private static (double Scale, IReadOnlyList<IReadOnlyList<SpoolView>> Rows)? Fit(IReadOnlyList<SpoolView> views, Units units, double width, double height)
    {
        IReadOnlyList<IReadOnlyList<SpoolView>>[] ways = views.Count switch
        {
            1 => [[views]],
            2 => [[[views[0]], [views[1]]], [views]],
            _ => [[[views[0]], [views[1]], [views[2]]], [[views[0]], [views[1], views[2]]], [[views[0], views[1]], [views[2]]], [[views[0], views[2]], [views[1]]], [views]],
        };
        foreach (var scale in units == Units.Inches ? InchScales : Scales)
        {
            var fitting = ways.Where(rows =>
                rows.All(r => r.Sum(v => v.SizeAt(scale).Width) + (Gap * (r.Count - 1)) <= width) && Height(rows, scale) <= height).MinBy(rows => Height(rows, scale));
            if (fitting is not null)
                return (scale, fitting);
        }

        return null;

        static double Height(IReadOnlyList<IReadOnlyList<SpoolView>> rows, double scale) => rows.Sum(r => r.Max(v => v.SizeAt(scale).Height)) + (Gap * (rows.Count - 1));
    }
}
