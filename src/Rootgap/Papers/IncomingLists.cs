using System.Globalization;
using System.Xml;
using Rootgap.Drawings;
using Rootgap.Records;

namespace Rootgap.Papers;

/// <summary>Certificates and welders' lists that shops keep as sheets: CSV, or the first sheet of an XLSX workbook; the first row has the headings.</summary>
public static class IncomingLists
{
    /// <summary>Columns of a list of certificates; heat and certificate are needed.</summary>
    public static IReadOnlyList<string> OfCertificates { get; } = ["heat", "certificate", "type", "product", "size", "schedule", "material"];

    /// <summary>Columns of a welders' list; the stamp is needed. Procedures are parted by blanks, commas or semicolons; until is a date, 2027-03-31.</summary>
    public static IReadOnlyList<string> OfWelders { get; } = ["stamp", "name", "procedures", "until"];

    /// <summary>Reads certificates.</summary>
    /// <param name="name">Of the file; its ending says what it is.</param>
    /// <param name="make">Gives each fact its id, who and when.</param>
    /// <returns>The facts, and what is wrong with its row; where something is, nothing should be kept.</returns>
    public static (IReadOnlyList<CertificateNoted> Facts, IReadOnlyList<string> Wrong) Certificates(string name, byte[] bytes, Func<(string Id, string Who, DateTimeOffset When)> make) =>
        Read(name, bytes, OfCertificates, ["heat", "certificate"], cells =>
        {
            var (id, who, when) = make();
            return new CertificateNoted(id, who, when, cells["heat"], cells["certificate"])
            {
                Type = cells.GetValueOrDefault("type"),
                Product = cells.GetValueOrDefault("product"),
                Size = cells.GetValueOrDefault("size"),
                Schedule = cells.GetValueOrDefault("schedule"),
                Material = cells.GetValueOrDefault("material"),
            };
        }, cells => cells.GetValueOrDefault("size") is { } size && !Measure.NominalSize.TryParse(size, out _) ? $"size: \"{size}\" is no nominal size such as 6, 1-1/2 or DN150." : null);

    /// <summary>Reads a welders' list; as <see cref="Certificates"/>.</summary>
    public static (IReadOnlyList<WelderNoted> Facts, IReadOnlyList<string> Wrong) Welders(string name, byte[] bytes, Func<(string Id, string Who, DateTimeOffset When)> make) =>
        Read(name, bytes, OfWelders, ["stamp"], cells =>
        {
            var (id, who, when) = make();
            return new WelderNoted(id, who, when, cells["stamp"])
            {
                Name = cells.GetValueOrDefault("name"),
                Procedures = cells.GetValueOrDefault("procedures")?.Split([' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries) ?? [],
                Until = Date(cells.GetValueOrDefault("until")),
            };
        }, cells => cells.GetValueOrDefault("until") is { } until && Date(until) is null ? $"until: \"{until}\" is no date such as 2027-03-31." : null);

    // A workbook keeps a date as days from 30 December 1899 (ECMA-376 part 1, 18.17.4.1).
    private static DateOnly? Date(string? text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date) ? date
        : double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var days) && days is > 20_000 and < 80_000 ? new DateOnly(1899, 12, 30).AddDays((int)days) : null;

    private static (IReadOnlyList<T> Facts, IReadOnlyList<string> Wrong) Read<T>(
        string name, byte[] bytes, IReadOnlyList<string> columns, IReadOnlyList<string> needed, Func<Dictionary<string, string>, T> make, Func<Dictionary<string, string>, string?> whyNot)
    {
        List<T> facts = [];
        List<string> wrong = [];
        try
        {
            var rows = 0;
            foreach (var row in SheetRows.Of(name, bytes))
            {
                rows++;
                var cells = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
                foreach (var (heading, column, text) in row.Cells)
                {
                    if (columns.Contains(heading, StringComparer.OrdinalIgnoreCase))
                        cells[heading] = text;
                    else
                        wrong.Add(Text($"row {row.Number}, column {column}: \"{heading}\" is no column of such a list. Its columns are: {string.Join(", ", columns)}."));
                }

                if (row.Cells.Count == 0)
                    continue;
                if (needed.FirstOrDefault(n => !cells.ContainsKey(n)) is { } missing)
                    wrong.Add(Text($"row {row.Number}: {missing} is missing."));
                else if (whyNot(cells) is { } why)
                    wrong.Add(Text($"row {row.Number}: {why}"));
                else
                    facts.Add(make(cells));
            }

            if (rows == 0)
                wrong.Add($"There are no rows under the headings. Its columns are: {string.Join(", ", columns)}.");
        }
        catch (Exception e) when (e is InvalidDataException or XmlException)
        {
            wrong.Add($"It cannot be read: {e.Message}");
        }

        return (facts, wrong.Distinct(StringComparer.Ordinal).Take(50).ToList());
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
