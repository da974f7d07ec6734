using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Records;

namespace Rootgap.Cli;

/// <summary>Facts of a job in a file: a list of them, what the server answers (<c>{"facts": [...]}</c>), or one fact a line.</summary>
internal static class FactsFile
{
    private const long Largest = 256 << 20;

    private static readonly JsonDocumentOptions Reading = new() { MaxDepth = 512 };

    /// <summary>The facts; null where the file cannot be read, which is told with its place.</summary>
    public static List<Fact>? Read(string file)
    {
        try
        {
            var text = FileText.Of(InputFile.Bytes(file, Largest)).Text;
            List<Fact> facts = [];
            var number = 0;
            foreach (var element in Elements(text, file))
            {
                number++;
                // What the server answers wraps each fact with its number.
                var (fact, wrong) = FactJson.Read(element.ValueKind == JsonValueKind.Object && element.TryGetProperty("fact", out var inner) && inner.ValueKind == JsonValueKind.Object ? inner : element);
                if (fact is null)
                {
                    Console.Error.WriteLine(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{file}: fact {number}: {wrong}"));
                    return null;
                }

                facts.Add(fact);
            }

            return facts;
        }
        catch (JsonException e)
        {
            Console.Error.WriteLine($"{file}: {FactJson.NotJson(e)}");
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"{file}: cannot be read: {e.Message}");
            return null;
        }
    }

    private static IEnumerable<JsonElement> Elements(string text, string file)
    {
        var whole = text.AsSpan().TrimStart();
        if (whole.Length > 0 && whole[0] == '[')
            return JsonDocument.Parse(text, Reading).RootElement.Clone().EnumerateArray();
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        // An answer of the server may be one line, or many.
        if (lines.Length == 1 || !lines[0].EndsWith('}'))
        {
            var root = JsonDocument.Parse(text, Reading).RootElement.Clone();
            return root.ValueKind == JsonValueKind.Object && root.TryGetProperty("facts", out var list) && list.ValueKind == JsonValueKind.Array ? list.EnumerateArray() : [root];
        }

        return lines.Select(line => JsonDocument.Parse(line, Reading).RootElement.Clone());
    }
}
