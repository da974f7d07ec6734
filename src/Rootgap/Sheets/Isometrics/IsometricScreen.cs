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
        var scene = new Scene(new Paper("screen", figure.Width, figure.Height), figure.Marks) { Title = $"Isometric of {fabrication.Route.Drawing.Number}" };
        return SvgWriter.ForScreen(scene);
    }
}
