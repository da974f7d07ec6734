using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>Ids within one sheet's SVG: components, joints and pieces by their own names, all else with a word before.</summary>
internal static class SheetId
{
    /// <summary>A name without white space, as an id must be.</summary>
    public static string Of(string name) => name.Any(char.IsWhiteSpace) ? string.Concat(name.Select(c => char.IsWhiteSpace(c) ? '_' : c)) : name;

    public static string OfSpool(string name) => name.Length == 0 ? "loose" : "spool-" + Of(name);

    /// <summary>Runs and legs are counted from 1; runs may share a name.</summary>
    public static string OfLeg(int run, int leg) => string.Create(CultureInfo.InvariantCulture, $"leg-{run + 1}-{leg + 1}");

    public static string OfRun(int run) => string.Create(CultureInfo.InvariantCulture, $"run-{run + 1}");
}
