using Rootgap.Fabricating;

namespace Rootgap.Sheets;

/// <summary>The isometric of a whole drawing for the screen: one picture on a canvas as large as it needs, without a title block and lists.</summary>
public static class IsometricScreen
{
    /// <summary>The picture as a part of a page of HTML (see <see cref="SvgWriter.ForScreen"/>); with ids, classes and <c>data-row</c> of what can be tapped.</summary>
    /// <returns>Empty where there is nothing to draw.</returns>
    public static string Svg(Fabrication fabrication, Effort effort)
    {
        var ids = DrawnLine.Everything(fabrication);
        if (ids.Count == 0)
            return "";
        var figure = Isometric.Free(DrawnLine.Of(fabrication, ids), effort);
        return Written(fabrication, figure);
    }

    /// <summary>
    /// The picture laid out for a pane of the screen: as large as the pane, all words at their full size, north fixed in the upper left corner. Words for which there is no
    /// room are left out, the least important first: places, items, shop welds, field welds, pieces, figures. A larger canvas, as when somebody looks closer, brings them back.
    /// </summary>
    /// <param name="width">Of the pane, mm at which words have the size of paper; so is <paramref name="height"/>.</param>
    /// <param name="closer">How many times larger than the pane the whole picture is looked at: 1 or more.</param>
    /// <param name="changed">What another version has otherwise, to be shown in colour and words; null for nothing.</param>
    /// <remarks>What is still to be written has the class <c>goes-on</c> and the row after which it comes.</remarks>
    /// <returns>Empty where there is nothing to draw.</returns>
    public static string Pane(Fabrication fabrication, Effort effort, double width, double height, double closer, IReadOnlyDictionary<string, ChangedPart>? changed = null) =>
        new PaneIsometric().Svg(fabrication, effort, width, height, closer, changed);

    /// <summary>The new drawing of two on a page of its own: what the old one has otherwise is in colour and words.</summary>
    /// <returns>Null where there is nothing to draw.</returns>
    public static Scene? Compared(Fabrication fabrication, IReadOnlyDictionary<string, ChangedPart> changed)
    {
        var ids = DrawnLine.Everything(fabrication);
        if (ids.Count == 0)
            return null;
        var figure = Isometric.Free(DrawnLine.Of(fabrication, ids, changed: changed), Effort.Full);
        return new Scene(new Paper("compared", figure.Width, figure.Height), figure.Marks) { Title = $"What changes on {fabrication.Route.Drawing.Number}" };
    }

    internal static string Written(Fabrication fabrication, Figure figure) =>
        SvgWriter.ForScreen(new Scene(new Paper("screen", figure.Width, figure.Height), figure.Marks) { Title = $"Isometric of {fabrication.Route.Drawing.Number}" });
}
