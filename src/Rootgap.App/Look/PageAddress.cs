namespace Rootgap.App.Look;

/// <summary>Addresses of the pages about one drawing, below the app's own.</summary>
public static class PageAddress
{
    public static string Drawing(string path) => "drawing/" + Escaped(path);

    /// <summary>What a change or a new revision makes of what was done.</summary>
    public static string Changes(string path) => "changes/" + Escaped(path);

    /// <summary>The kept versions of the drawing.</summary>
    public static string Versions(string path) => "versions/" + Escaped(path);

    /// <summary>The drawing's material list.</summary>
    public static string Materials(string path) => "materials/" + Escaped(path);

    public static string Spools(string path) => "spools/" + Escaped(path);

    public static string Spool(string name, string path) => $"spool/{Uri.EscapeDataString(name)}/{Escaped(path)}";

    public static string Fit(string joint, string path) => $"fit/{Uri.EscapeDataString(joint)}/{Escaped(path)}";

    /// <summary>The final check of a spool.</summary>
    public static string Final(string spool, string path) => $"final/{Uri.EscapeDataString(spool)}/{Escaped(path)}";

    public static string Survey(string path) => "survey/" + Escaped(path);

    public static string Split(string path) => "split/" + Escaped(path);

    public static string Forecast(string path) => "forecast/" + Escaped(path);

    public static string Order(string path) => "order/" + Escaped(path);

    private static string Escaped(string path) => string.Join('/', path.Split('/').Select(Uri.EscapeDataString));
}
