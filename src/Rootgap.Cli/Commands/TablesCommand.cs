using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.Standards;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap tables</c>: every standard table that the program uses, so that anyone can compare it with the book.</summary>
internal static class TablesCommand
{
    private const string Header = "standard,item,nps,nps2,schedule,class,attribute,value_mm,value_in,source";

    public static Command Create()
    {
        var folder = OutOption.Folder("Folder for the tables, one CSV file each.");
        var json = JsonOption.Create();
        var command = new Command("tables", "Write every standard table the program uses as CSV, with its sources, to compare with the book.\n\nExample: rootgap tables --out tables") { folder, json };
        command.SetAction(result => Run(result.GetValue(folder)!, result.GetValue(json)));
        return command;
    }

    private static int Run(string folder, bool asJson)
    {
        using var output = new OutputFolder(folder);
        var written = new List<(string File, int Rows)>();
        foreach (var name in StandardTable.Names)
        {
            var text = new StringBuilder(Header).Append('\n');
            foreach (var r in StandardTable.Rows(name))
            {
                text.Append(CultureInfo.InvariantCulture, $"{r.Standard},{r.Item},{Size(r.Nps)},{Size(r.Nps2)},{r.Schedule},{r.Class},{r.Attribute},{r.Mm},{r.Inches},{r.Source}{(r.Checked.Length > 0 ? " (checked: " + r.Checked + ")" : "")}\n");
            }

            output.Write(name + ".csv", Encoding.UTF8.GetBytes(text.ToString()));
            written.Add((output.PathOf(name + ".csv"), StandardTable.Rows(name).Count));
        }

        output.Commit();

        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            json.WriteStartObject();
            json.WriteStartArray("tables");
            foreach (var (file, rows) in written)
            {
                json.WriteStartObject();
                json.WriteString("file", file);
                json.WriteNumber("rows", rows);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }
        else
        {
            foreach (var (file, rows) in written)
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}: {rows} values"));
        }

        return ExitCode.Done;
    }

    private static string Size(Measure.NominalSize size) => size.IsNone ? "" : size.ToString();
}
