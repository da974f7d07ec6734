using Rootgap.App.Look;

namespace Rootgap.App.Jobs;

/// <summary>Where the code on a sheet, a card or a label leads. Codes say it in plain words: number, revision, then spool or joint; a label says number and piece in its first line.</summary>
/// <param name="Number">Of the drawing.</param>
/// <param name="Revision">Of the paper; empty where it says none.</param>
/// <param name="Address">Of the page: the spool's, the joint's, the drawing's spools, the drawing's own.</param>
public sealed record ScannedCode(string Path, string Number, string Revision, string Address)
{
    /// <summary>Null where it names none of the drawings.</summary>
    /// <param name="said">What the code says.</param>
    public static ScannedCode? Of(string said, IEnumerable<(string Number, string Path)> drawings)
    {
        var line = said.Trim().Split('\n')[0].Trim();
        // Of two numbers that both begin the line the longer is meant.
        if (drawings.Where(d => d.Number.Length > 0 && (line + " ").StartsWith(d.Number + " ", StringComparison.OrdinalIgnoreCase)).OrderByDescending(d => d.Number.Length).Select(d => ((string, string)?)d).FirstOrDefault() is not { } found)
            return null;
        var (number, path) = found;
        var rest = line[Math.Min(line.Length, number.Length + 1)..];
        if (!rest.StartsWith("rev ", StringComparison.Ordinal))
            return new(path, number, "", rest.Length > 0 ? PageAddress.Spools(path) : PageAddress.Drawing(path));
        rest = rest["rev ".Length..];
        if (rest.Split(" spool ") is [var of, { Length: > 0 } spool])
            return new(path, number, of, PageAddress.Spool(spool, path));
        var space = rest.LastIndexOf(' ');
        return space < 0 ? new(path, number, rest, PageAddress.Drawing(path)) : new(path, number, rest[..space], PageAddress.Fit(rest[(space + 1)..], path));
    }
}
