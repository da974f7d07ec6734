using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Rootgap.App.Drawings;

/// <summary>The isometric's way to the screen: as text straight to the page, since it goes there with every keystroke.</summary>
internal static partial class PaneScript
{
    /// <param name="moves">Which marks of the picture before stay in this one, and how far from there: see <see cref="Sheets.PaneIsometric.Moves"/>.</param>
    [JSImport("put", "panes")]
    public static partial void Put(string id, string svg, string moves);
}
