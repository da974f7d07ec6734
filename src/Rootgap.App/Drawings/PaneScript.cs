using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Rootgap.App.Drawings;

/// <summary>The isometric's way to the screen: as text straight to the page, since it goes there with every keystroke.</summary>
internal static partial class PaneScript
{
    [JSImport("put", "panes")]
    public static partial void Put(string id, string svg);
}
