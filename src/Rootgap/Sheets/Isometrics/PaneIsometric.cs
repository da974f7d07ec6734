using Rootgap.Fabricating;

namespace Rootgap.Sheets;

/// <summary>The isometric in one pane of a screen, picture after picture of a drawing that is being written.</summary>
/// <remarks>
/// Drawn with <see cref="Effort.Live"/> it keeps its view, its legs' lengths on the screen and its words' places from the picture before, as far as these still hold: nothing jumps
/// about under the hand that writes, and a key costs little. Any other effort lays it out anew, as <see cref="IsometricScreen.Pane"/> does.
/// </remarks>
public sealed class PaneIsometric
{
    private PaneBefore? before;

    /// <summary>The next picture: see <see cref="IsometricScreen.Pane"/>.</summary>
    /// <returns>Empty where there is nothing to draw.</returns>
    public string Svg(Fabrication fabrication, Effort effort, double width, double height, double closer, IReadOnlyDictionary<string, ChangedPart>? changed = null)
    {
        var ids = DrawnLine.Everything(fabrication);
        return ids.Count == 0 ? "" : IsometricScreen.Written(fabrication, Isometric.Pane(DrawnLine.Of(fabrication, ids, changed: changed), width * closer, height * closer, effort, closer, before, out before));
    }
}

/// <summary>A picture that a pane shows, for the one that follows it: while somebody types, nothing jumps about and little is looked for anew.</summary>
internal sealed class PaneBefore(IsometricLayout layout, IReadOnlyList<Label> labels)
{
    public IsometricLayout Layout => layout;

    /// <summary>Which of its places each label took, by its key.</summary>
    public IReadOnlyDictionary<string, int> Places { get; } = Taken(labels);

    private static Dictionary<string, int> Taken(IReadOnlyList<Label> labels)
    {
        var places = new Dictionary<string, int>(labels.Count, StringComparer.Ordinal);
        foreach (var label in labels)
            places[label.Key] = label.Place;
        return places;
    }
}
