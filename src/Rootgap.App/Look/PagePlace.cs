using Microsoft.AspNetCore.Components;

namespace Rootgap.App.Look;

/// <summary>Where in the app a page stands: which of the views it belongs to, and of which drawing it is.</summary>
/// <param name="Name">day, cutting, packet, people, settings of the job; legs, list, spools, site, versions of a drawing; else the page's own.</param>
/// <param name="Drawing">Path of the drawing's file; null on the job's own pages.</param>
/// <param name="Address">The page's address below the app's own.</param>
public sealed record PagePlace(string Name, string? Drawing, string Address)
{
    public static PagePlace Of(NavigationManager way)
    {
        var address = way.ToBaseRelativePath(way.Uri).Split('?', '#')[0];
        var parts = address.Split('/', StringSplitOptions.RemoveEmptyEntries);
        if (parts.Length == 0)
            return new("day", null, "");
        var (name, skipped) = parts[0] switch
        {
            "drawing" => ("legs", 1),
            "materials" => ("list", 1),
            "spools" => ("spools", 1),
            "spool" or "fit" or "final" => ("spools", 2),
            "split" or "forecast" or "order" or "survey" => ("site", 1),
            "versions" or "changes" => ("versions", 1),
            _ => (parts[0], 0),
        };
        return new(name, skipped > 0 && parts.Length > skipped ? string.Join('/', parts.Skip(skipped).Select(Uri.UnescapeDataString)) : null, address);
    }
}
