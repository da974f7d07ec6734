namespace Rootgap.Drawings;

/// <summary>The words that keys of the drawing file take; those of an enumeration in its order.</summary>
internal static class FileWords
{
    public static readonly string[] Directions = ["north", "south", "east", "west", "up", "down"];
    public static readonly string[] Welds = ["shop", "field", "final-fit"];
    public static readonly string[] FlangeKinds = ["WN", "SO", "SW", "TH", "LJ"];
    public static readonly string[] Facings = ["RF", "FF", "RTJ"];
    public static readonly string[] FittingEnds = ["butt", "socket", "threaded"];
    public static readonly string[] ForgedEnds = ["socket", "threaded"];
    /// <summary>Classes that no flange has (ASME B16.5 section 1): small forged valves (API 602 class 800) and forged fittings, which take their pipe in sockets or threads.</summary>
    public static readonly string[] FlangelessClasses = ["800", "2000", "3000", "6000", "9000"];
    /// <summary>Of socket-weld and threaded fittings (ASME B16.11); no flange has one of them.</summary>
    public static readonly string[] ForgedClasses = ["2000", "3000", "6000", "9000"];

    public static readonly string[] SwageEnds = ["bevel", "plain", "threaded"];
    public static readonly string[] OpenEnds = ["bevel", "plain", "threaded"];
    public static readonly string[] InLineEnds = ["flanged", "wafer", "butt", "socket", "threaded"];

    public static readonly string[] ValveKinds = ["gate", "globe", "check", "ball", "butterfly"];
    public static readonly string[] DrainKinds = ["outlet", "half coupling"];
    public static readonly string[] DrainValves = [.. ValveKinds.Take(4), "none"];
    public static readonly string[] DrainClosings = ["plug", "cap", "nipple", "nothing"];
    public static readonly string[] Radii = ["long", "short", "3d", "5d"];
    public static readonly string[] SupportKinds = ["shoe", "guide", "anchor", "hanger", "trunnion", "lug", "clamp"];
    public static readonly string[] Attachments = ["welded", "clamped"];
    public static readonly string[] ReducerKinds = ["concentric", "eccentric"];
    public static readonly string[] BoltAreas = ["root", "stress"];
    public static readonly string[] TestMedia = ["water", "air", "nitrogen"];
    public static readonly string[] Fillers = [.. Sums.Filler.Processes];
}
