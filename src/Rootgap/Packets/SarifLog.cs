using System.Text.Json;
using Rootgap.Checks;
using Rootgap.Findings;

namespace Rootgap.Packets;

/// <summary>Writes findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), for those who keep drawings under version control.</summary>
public static class SarifLog
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private static readonly Dictionary<string, int> IndexOf =
        DeskCheck.Rules.Select((rule, i) => (rule.Name, i)).ToDictionary(r => r.Name, r => r.i, StringComparer.Ordinal);

    /// <summary>Begins the log with all rules; the findings of each drawing follow, then <see cref="End"/>.</summary>
    public static void Begin(Utf8JsonWriter json, string version)
    {
        json.WriteStartObject();
        json.WriteString("$schema", Schema);
        json.WriteString("version", "2.1.0");
        json.WriteStartArray("runs");
        json.WriteStartObject();
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "rootgap");
        json.WriteString("version", version);
        json.WriteStartArray("rules");
        foreach (var rule in DeskCheck.Rules)
        {
            json.WriteStartObject();
            json.WriteString("id", rule.Name);
            Text(json, "shortDescription", rule.Says);
            Text(json, "fullDescription", rule.Why);
            Text(json, "help", $"{rule.Says} {rule.Why} To accept a finding, give the reason in the drawing: accept: [{{rule: {rule.Name}, at: leg 3 of main, why: the reason}}].");
            json.WriteStartObject("defaultConfiguration");
            json.WriteString("level", Level(rule.Severity));
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteString("columnKind", "utf16CodeUnits");
        json.WriteStartArray("results");
    }

    /// <summary>The findings of one drawing, in their order.</summary>
    /// <param name="file">The drawing's file, for findings that name none.</param>
    public static void Write(Utf8JsonWriter json, string file, IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings)
            Write(json, file, finding);
    }

    public static void End(Utf8JsonWriter json)
    {
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
    }

    private static void Write(Utf8JsonWriter json, string file, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", finding.Rule);
        // What keeps a file from being read is no rule of the desk check.
        if (IndexOf.TryGetValue(finding.Rule, out var index))
            json.WriteNumber("ruleIndex", index);
        json.WriteString("level", Level(finding.Severity));
        Text(json, "message", finding.Otherwise.Length > 0 ? $"{finding.Message} Otherwise: {finding.Otherwise} Do: {finding.Remedy}" : $"{finding.Message} Do: {finding.Remedy}");
        json.WriteStartArray("locations");
        json.WriteStartObject();
        json.WriteStartObject("physicalLocation");
        var where = finding.Where;
        Artifact(json, string.IsNullOrEmpty(where.File) ? file : PathBeside(file, where.File));
        if (where.IsKnown)
            Region(json, "region", where, IsText(where.File));
        json.WriteEndObject();
        if (!finding.At.IsDrawing)
        {
            json.WriteStartArray("logicalLocations");
            json.WriteStartObject();
            json.WriteString("fullyQualifiedName", finding.At.ToString());
            json.WriteEndObject();
            json.WriteEndArray();
        }

        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteStartArray("suppressions");
        if (finding.AcceptedBecause is { } why)
        {
            json.WriteStartObject();
            json.WriteString("kind", "inSource");
            json.WriteString("justification", why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        // A whole entry goes with its comma, and that needs the text.
        if (finding.Change is { TakesOutEntry: false } change)
            Fix(json, file, change);
        json.WriteEndObject();
    }

    private static void Fix(Utf8JsonWriter json, string file, Change change)
    {
        json.WriteStartArray("fixes");
        json.WriteStartObject();
        Text(json, "description", change.Says);
        json.WriteStartArray("artifactChanges");
        json.WriteStartObject();
        Artifact(json, PathBeside(file, change.At.File));
        json.WriteStartArray("replacements");
        json.WriteStartObject();
        Region(json, "deletedRegion", change.At, withColumns: true);
        Text(json, "insertedContent", change.NewText);
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
    }

    private static void Region(Utf8JsonWriter json, string name, Place at, bool withColumns)
    {
        json.WriteStartObject(name);
        json.WriteNumber("startLine", at.Line);
        // In a sheet the column is a cell, not a character.
        if (withColumns)
        {
            json.WriteNumber("startColumn", at.Column);
            json.WriteNumber("endColumn", Math.Max(at.Column, at.EndColumn));
        }

        json.WriteEndObject();
    }

    private static bool IsText(string file) => !file.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase) && !file.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);

    private static void Artifact(Utf8JsonWriter json, string file)
    {
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", Uri.EscapeDataString(file.Replace('\\', '/')).Replace("%2F", "/", StringComparison.Ordinal).Replace("%3A", ":", StringComparison.Ordinal));
        json.WriteEndObject();
    }

    /// <summary>A shop or material file is named by its path beside the drawing.</summary>
    private static string PathBeside(string drawing, string file)
    {
        if (file == drawing || file.Length == 0)
            return drawing;
        var cut = drawing.LastIndexOfAny(['/', '\\']);
        return cut < 0 ? file : string.Concat(drawing.AsSpan(0, cut + 1), file);
    }

    private static void Text(Utf8JsonWriter json, string name, string text)
    {
        json.WriteStartObject(name);
        json.WriteString("text", text);
        json.WriteEndObject();
    }

    private static string Level(Severity severity) => severity switch { Severity.Stop => "error", Severity.Warn => "warning", _ => "note" };
}
