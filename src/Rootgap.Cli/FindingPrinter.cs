using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.Cli;

/// <summary>Prints findings as a good compiler does: place, line, caret, what is wrong, what to do.</summary>
internal sealed class FindingPrinter(TextWriter to, bool colours)
{
    private readonly Dictionary<string, string[]> sources = new(StringComparer.Ordinal);

    public static FindingPrinter ForConsole(TextWriter to, bool redirected) =>
        new(to, !redirected && Environment.GetEnvironmentVariable("NO_COLOR") is null or "");

    /// <summary>Tells the text of a file, so that its lines need not be read again.</summary>
    public void Know(string file, string text) => sources[file] = text.Split('\n');

    /// <summary>Prints findings, the gravest first; those of one leg together in the order of the file, many notes of one rule at the first of them.</summary>
    /// <param name="drawing">Tells the legs' names; null where the file could not be read.</param>
    public void Print(IReadOnlyList<Finding> findings, Drawing? drawing = null)
    {
        foreach (var rank in Told.Of(findings).GroupBy(t => (t.First.AcceptedBecause is not null, t.First.Severity)))
        {
            foreach (var group in rank.GroupBy(t => t.First.At.Group))
            {
                if (drawing is not null)
                    to.WriteLine(Paint(FindingGroup.Title(group.Key, drawing), "1"));
                foreach (var told in group)
                    Print(told, drawing);
            }
        }
    }

    public static string Summary(IReadOnlyList<Finding> findings) => Summary([.. findings.Select(f => f.AcceptedBecause is null ? f.Severity : (Severity?)null)]);

    /// <param name="findings">Their severities; null for one that is accepted.</param>
    public static string Summary(IReadOnlyList<Severity?> findings)
    {
        var open = findings.Where(f => f is not null).ToList();
        string Count(Severity severity, string one, string many) => open.Count(f => f == severity) switch
        {
            0 => "",
            1 => "1 " + one,
            var n => string.Create(CultureInfo.InvariantCulture, $"{n} {many}"),
        };
        var accepted = findings.Count - open.Count;
        var parts = new[] { Count(Severity.Stop, "stop", "stops"), Count(Severity.Warn, "warning", "warnings"), Count(Severity.Note, "note", "notes"), accepted > 0 ? string.Create(CultureInfo.InvariantCulture, $"{accepted} accepted") : "" }.Where(p => p.Length > 0);
        var text = string.Join(", ", parts);
        return text.Length > 0 ? text : "nothing found";
    }

    private void Print(Told told, Drawing? drawing)
    {
        var finding = told.First;
        var (word, colour) = finding switch
        {
            { AcceptedBecause: not null } => ("accepted", "2"),
            { Severity: Severity.Stop } => ("stop", "1;31"),
            { Severity: Severity.Warn } => ("warning", "1;33"),
            _ => ("note", "1;36"),
        };
        var where = finding.Where;
        var text = new StringBuilder();
        if (!string.IsNullOrEmpty(where.File))
        {
            text.Append(where.File);
            if (where.IsKnown)
                text.Append(CultureInfo.InvariantCulture, $":{where.Line}:{where.Column}");
            text.Append(": ");
        }

        text.Append(Paint(word, colour)).Append(": ").Append(finding.Message).Append("  [").Append(finding.Rule).AppendLine("]");
        if (LineOf(where) is { } line)
        {
            var number = where.Line.ToString(CultureInfo.InvariantCulture).PadLeft(5);
            var column = Math.Clamp(where.Column, 1, line.Length + 1);
            var width = Math.Max(1, Math.Min(where.EndColumn, line.Length + 1) - column);
            var indent = new string([.. line[..(column - 1)].Select(c => c == '\t' ? '\t' : ' ')]);
            text.AppendLine(CultureInfo.InvariantCulture, $"{number} | {line}");
            text.AppendLine(CultureInfo.InvariantCulture, $"      | {indent}{Paint(new string('^', width), colour)}");
        }

        if (finding.Otherwise.Length > 0)
            text.Append("        otherwise: ").AppendLine(finding.Otherwise);
        text.Append("        do: ").AppendLine(finding.Remedy);
        if (told.More.Count > 0)
            text.Append("        also: ").AppendJoin("; ", told.More.Select(f => drawing?.PlaceOf(f.At) ?? f.At.ToString()).Distinct(StringComparer.Ordinal)).AppendLine(CultureInfo.InvariantCulture, $" ({told.More.Count} more)");
        if (finding.AcceptedBecause is { } why)
            text.Append("        accepted: ").AppendLine(why);
        to.WriteLine(text);
    }

    private string Paint(string text, string colour) => colours ? $"\u001b[{colour}m{text}\u001b[0m" : text;

    private string? LineOf(Place where)
    {
        if (!where.IsKnown || string.IsNullOrEmpty(where.File) || !sources.TryGetValue(where.File, out var lines) || where.Line > lines.Length)
            return null;
        var line = lines[where.Line - 1].TrimEnd('\r');
        return line.Length is > 0 and <= 400 ? line : null;
    }
}
