using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Standards;

/// <summary>One row of a standard's table, with both columns as printed: they are not conversions of each other and are never mixed.</summary>
/// <param name="Mm">The millimetre column (kg, kg/m, mm² or a count where the attribute is one); null where the standard prints none.</param>
/// <param name="Inches">The inch column (lb, lb/ft, in² or a count); null where the standard prints none.</param>
/// <param name="Source">Standard and table, and where it was read.</param>
/// <param name="Checked">In how many independent places it was read, a word of <see cref="StandardTable.CheckedWords"/>, and what else speaks for it.</param>
public sealed record StandardRow(
    string Standard, string Item, NominalSize Nps, NominalSize Nps2, string Schedule, string Class, string Attribute,
    double? Mm, double? Inches, string Source, string Checked)
{
    /// <summary>The value for a drawing in <paramref name="units"/>, in millimetres: the column printed for those units, the other one only where that is blank.</summary>
    public double In(Units units) => units == Units.Inches
        ? (Inches * LengthText.Inch) ?? Mm!.Value
        : Mm ?? Inches!.Value * LengthText.Inch;

    /// <summary>It was written down from memory, and nobody has held it against a book.</summary>
    public bool IsFromMemory => Checked.StartsWith("none", StringComparison.Ordinal) || Checked.StartsWith("sum", StringComparison.Ordinal);

    /// <summary>A count, a thread pitch number or another figure without a unit; no number where the row names a class and no figure.</summary>
    public double Figure => Mm ?? Inches ?? double.NaN;
}

/// <summary>The standard tables that come with the program, read once, each file only when it is first asked for.</summary>
/// <remarks>The data are the CSV files in <c>Standards/Data</c>: one value a row, each with its source.</remarks>
public static class StandardTable
{
    public const string Header = "standard,item,nps,nps2,schedule,class,attribute,value_mm,value_in,source,checked";

    /// <summary>
    /// How a row was checked: <c>two</c> independent places print it, <c>one</c> does; <c>formula</c>: not read itself, it follows from rows that were;
    /// <c>sum</c>: from memory, and it agrees with a formula or its other column; <c>none</c>: from memory alone; <c>practice</c>: no standard prints it.
    /// </summary>
    public static readonly IReadOnlyList<string> CheckedWords = ["two", "one", "formula", "sum", "none", "practice"];

    /// <summary>The files, and the first word or words of the items that each holds.</summary>
    private static readonly Dictionary<string, Lazy<File>> Files =
        typeof(StandardTable).Assembly.GetManifestResourceNames()
            .Where(n => n.EndsWith(".csv", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal)
            .ToDictionary(n => n[..^4], n => new Lazy<File>(() => new File(n)), StringComparer.Ordinal);

    /// <summary>Names of the tables, in order.</summary>
    public static IEnumerable<string> Names => Files.Keys;

    /// <summary>All rows of one table, in the order of the file.</summary>
    public static IReadOnlyList<StandardRow> Rows(string table) => Files[table].Value.Rows;

    /// <summary>The row for a size, or null where the standard has none: a look-up never interpolates.</summary>
    public static StandardRow? Find(
        string table, string item, string attribute, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "") =>
        Files[table].Value.ByKey.GetValueOrDefault(new Key(item, attribute, nps, nps2, schedule, @class));

    /// <summary>What to say where <see cref="Find"/> found nothing: the sizes nearest to the one asked for that the table has.</summary>
    public static string Missing(string table, string item, string attribute, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "")
    {
        var rows = Rows(table).Where(r => r.Item == item && r.Attribute == attribute).ToList();
        var standard = rows.Count > 0 ? rows[0].Standard : "The tables";
        var asked = string.Concat(
            item, " NPS ", nps.ToString(), nps2.IsNone ? "" : " x " + nps2, schedule.Length > 0 ? " schedule " + schedule : "", @class.Length > 0 ? " class " + @class : "");
        var same = rows.Where(r => r.Schedule == schedule && r.Class == @class && (nps2.IsNone || r.Nps == nps)).ToList();
        IEnumerable<string> near = [];
        if (same.Count > 0)
        {
            var sizes = same.Select(r => nps2.IsNone ? r.Nps : r.Nps2).Distinct().Order().ToList();
            var wanted = nps2.IsNone ? nps : nps2;
            near = new[] { sizes.LastOrDefault(s => s < wanted), sizes.FirstOrDefault(s => s > wanted) }
                .Where(s => !s.IsNone).Select(s => "NPS " + (nps2.IsNone ? s.ToString() : nps + " x " + s));
        }
        else
        {
            near = rows.Where(r => r.Nps == nps && r.Nps2 == nps2)
                .Select(r => schedule.Length > 0 ? "schedule " + r.Schedule : "class " + r.Class).Distinct(StringComparer.Ordinal).Take(12);
        }

        var nearest = string.Join(", ", near);
        return $"{standard} has no {asked}{(nearest.Length > 0 ? $"; nearest: {nearest}" : "")}";
    }

    /// <summary>The rows of a table as it is written down.</summary>
    /// <param name="name">What the table is called, for what is wrong with it.</param>
    /// <exception cref="InvalidDataException">The text is no such table.</exception>
    internal static List<StandardRow> Read(TextReader reader, string name)
    {
        var words = new Dictionary<string, string>(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
        var header = reader.ReadLine();
        if (header != Header)
            throw new InvalidDataException($"{name}: the header is not {Header}");
        var rows = new List<StandardRow>();
        Span<Range> cells = stackalloc Range[12];
        for (var number = 2; reader.ReadLine() is { } line; number++)
        {
            if (line.Length == 0)
                continue;
            if (line.AsSpan().Split(cells, ',') != 11)
                throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"{name}:{number}: 11 cells expected"));
            rows.Add(new(
                Word(line, cells[0]), Word(line, cells[1]), Size(line, cells[2]), Size(line, cells[3]), Word(line, cells[4]), Word(line, cells[5]),
                Word(line, cells[6]), Number(line, cells[7]), Number(line, cells[8]), Word(line, cells[9]), Word(line, cells[10])));
        }

        return rows;

        string Word(string line, Range cell)
        {
            var text = line.AsSpan(cell);
            if (!words.TryGetValue(text, out var word))
                words[text] = word = text.ToString();
            return word;
        }
    }

    private readonly record struct Key(string Item, string Attribute, NominalSize Nps, NominalSize Nps2, string Schedule, string Class)
    {
        /// <summary>From the sizes and a few letters: the names differ in their length and ends, and a full hash of four texts would take most of a look-up.</summary>
        public override int GetHashCode() => ((((((((((Nps.Eighths * 397) ^ Nps2.Eighths) * 31) ^ Ends(Item)) * 31) ^ Ends(Attribute)) * 31) ^ Ends(Schedule)) * 31) ^ Ends(Class)) & int.MaxValue;

        private static int Ends(string text) => text.Length == 0 ? 0 : (text.Length << 12) ^ (text[0] << 6) ^ text[^1] ^ (text[text.Length / 2] << 3);
    }

    /// <summary>One CSV file, held as rows and by key.</summary>
    private sealed class File
    {
        public File(string resource)
        {
            using var stream = typeof(StandardTable).Assembly.GetManifestResourceStream(resource)!;
            using var reader = new StreamReader(stream);
            var rows = Read(reader, resource);
            Rows = rows;
            ByKey = new(rows.Count);
            foreach (var row in rows)
            {
                if (!ByKey.TryAdd(new(row.Item, row.Attribute, row.Nps, row.Nps2, row.Schedule, row.Class), row))
                    throw new InvalidDataException($"{resource}: {row.Item} {row.Attribute} NPS {row.Nps} stands twice");
            }
        }

        public List<StandardRow> Rows { get; }

        public Dictionary<Key, StandardRow> ByKey { get; }
    }

    private static NominalSize Size(string line, Range cell) =>
        NominalSize.TryParse(line.AsSpan(cell), out var size) ? size : default;

    private static double? Number(string line, Range cell) =>
        double.TryParse(line.AsSpan(cell), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : null;
}
