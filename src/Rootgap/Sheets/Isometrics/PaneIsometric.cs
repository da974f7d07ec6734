using Rootgap.Fabricating;

namespace Rootgap.Sheets;

/// <summary>The isometric in one pane of a screen, picture after picture of a drawing that is being written.</summary>
/// <remarks>
/// Drawn with <see cref="Effort.Live"/> it keeps its view, its legs' lengths on the screen and its words' places from the picture before, as far as these still hold: nothing jumps
/// about under the hand that writes, and a key costs little. The shop's marks are not made anew then: those that the picture laid out last has go along with their parts (<see cref="Moves"/>).
/// Any other effort lays it out anew, as <see cref="IsometricScreen.Pane"/> does.
/// </remarks>
public sealed class PaneIsometric
{
    private PaneBefore? before;

    /// <summary>The next picture: see <see cref="IsometricScreen.Pane"/>.</summary>
    /// <returns>Empty where there is nothing to draw.</returns>
    public string Svg(Fabrication fabrication, Effort effort, double width, double height, double closer, IReadOnlyDictionary<string, ChangedPart>? changed = null)
    {
        var ids = DrawnLine.Everything(fabrication);
        if (ids.Count == 0)
        {
            Moves = "";
            return "";
        }

        var svg = IsometricScreen.Written(fabrication, Isometric.Pane(DrawnLine.Of(fabrication, ids, changed: changed), width * closer, height * closer, effort, closer, before, out before));
        Moves = before.Moves;
        return svg;
    }

    /// <summary>Which marks of the picture laid out last belong to this one, too, and how far from their places there they stand, mm: <c>W3-label 0 0;12-label 4.5 -2.25</c>. Empty where this one has its own.</summary>
    public string Moves { get; private set; } = "";
}

/// <summary>A picture that a pane shows, for the one that follows it: while somebody types, nothing jumps about and little is looked for anew.</summary>
/// <param name="marks">The shop's marks of the picture laid out last, by their key: they stand on the screen still.</param>
/// <param name="moves">Where they stand in this one: see <see cref="PaneIsometric.Moves"/>.</param>
internal sealed class PaneBefore(IsometricLayout layout, IReadOnlyList<Label> labels, IReadOnlyDictionary<string, KeptMark> marks, string moves)
{
    public IsometricLayout Layout => layout;

    public IReadOnlyDictionary<string, KeptMark> Marks => marks;

    public string Moves => moves;

    /// <summary>Which of its places each label took, by its key.</summary>
    public IReadOnlyDictionary<string, int> Places { get; } = Taken(labels);

    private static Dictionary<string, int> Taken(IReadOnlyList<Label> labels)
    {
        var places = new Dictionary<string, int>(labels.Count, StringComparer.Ordinal);
        foreach (var label in labels)
            places[label.Key] = label.Place;
        return places;
    }

    /// <summary>The marks among labels that have found their places.</summary>
    public static IReadOnlyDictionary<string, KeptMark> Kept(IReadOnlyList<Label> labels, IEnumerable<ShopMark> all)
    {
        var set = labels.Where(l => l.Set is not null).ToDictionary(l => l.Key, l => l.Set!.Words, StringComparer.Ordinal);
        return all.Where(m => set.ContainsKey(m.Key)).DistinctBy(m => m.Key, StringComparer.Ordinal).ToDictionary(m => m.Key, m => new KeptMark(m, set[m.Key]), StringComparer.Ordinal);
    }

    /// <summary>The marks that still say what they said, where their parts stand now.</summary>
    /// <param name="moved">How far each has gone.</param>
    public IReadOnlyList<Label> Moved(IEnumerable<ShopMark> now, out IReadOnlyDictionary<string, Spot> moved)
    {
        var ways = new Dictionary<string, Spot>(StringComparer.Ordinal);
        var there = new List<Label>();
        foreach (var mark in now)
        {
            if (!marks.TryGetValue(mark.Key, out var kept) || kept.Mark.Says != mark.Says || ways.ContainsKey(mark.Key))
                continue;
            var way = new Spot(mark.At.X - kept.Mark.At.X, mark.At.Y - kept.Mark.At.Y);
            ways[mark.Key] = way;
            there.Add(new(mark.Key, new KeptPlace(kept.Words.Moved(way)), 0, (_, _) => { }) { Rank = 4 });
        }

        moved = ways;
        return there;
    }
}

/// <summary>A mark of the shop as it would be written: weld, item, piece, spool.</summary>
/// <param name="Key">Of its label.</param>
/// <param name="Says">What would make another mark of it.</param>
/// <param name="At">Where its part stands.</param>
internal readonly record struct ShopMark(string Key, string Says, Spot At);

/// <summary>A mark in the picture laid out last, with the room of its words there.</summary>
internal readonly record struct KeptMark(ShopMark Mark, Slab Words);

/// <summary>The one place of a mark that stands on the screen already.</summary>
internal sealed class KeptPlace(Slab words) : Places
{
    public override int Count => 1;

    public override double Cost(int place) => 0;

    public override Slab Words(int place) => words;

    public override int Lines(int place, Span<(Spot A, Spot B)> lines) => 0;
}
