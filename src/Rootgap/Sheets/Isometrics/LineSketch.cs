using Rootgap.Fabricating;

namespace Rootgap.Sheets;

/// <summary>A stroke of a line's small picture, from the upper left corner.</summary>
/// <param name="Spool">Name of the spool that it belongs to; empty between spools.</param>
public sealed record SketchStroke(double FromX, double FromY, double ToX, double ToY, string Spool);

/// <summary>The course of a line as a small picture: the isometric's layout without symbols, words and figures, to know a drawing by at a glance.</summary>
public static class LineSketch
{
    /// <summary>No length is tried twice: the picture is too small to show it.</summary>
    private static readonly Effort Least = new(0, 0, Marks: false);

    /// <param name="width">Room for the picture, in the unit of its strokes; so is <paramref name="height"/>.</param>
    /// <returns>In the order of runs and legs, one stroke for each stretch of one spool. Empty where there is nothing to draw.</returns>
    public static IReadOnlyList<SketchStroke> Of(Fabrication fabrication, double width, double height)
    {
        var ids = DrawnLine.Everything(fabrication);
        if (ids.Count == 0)
            return [];
        var spools = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var spool in fabrication.Spools)
        {
            foreach (var id in spool.Components.Select(c => c.Id).Concat(spool.Cuts.Select(c => c.Pipe.Id)))
                spools[id] = spool.Name;
        }

        var layout = IsometricLayout.Of(DrawnLine.Of(fabrication, ids), new Box(0, 0, width, height), Least, 1);
        var strokes = new List<SketchStroke>();
        foreach (var leg in layout.Legs)
        {
            var spans = leg.Leg.Parts.Select(p => (Span: leg.Of(p), Spool: spools.GetValueOrDefault(p.Id, ""))).OrderBy(p => p.Span.From).ToList();
            for (var i = 0; i < spans.Count;)
            {
                var to = i;
                while (to + 1 < spans.Count && spans[to + 1].Spool == spans[i].Spool)
                    to++;
                var (a, b) = (leg.On(spans[i].Span.From), leg.On(Math.Max(spans[to].Span.To, spans[i].Span.From)));
                strokes.Add(new(a.X, a.Y, b.X, b.Y, spans[i].Spool));
                i = to + 1;
            }
        }

        return strokes;
    }
}
