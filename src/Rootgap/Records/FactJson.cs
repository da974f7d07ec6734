using System.Buffers;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Records;

/// <summary>A fact as far as it could be read.</summary>
/// <param name="Wrong">Where and what is wrong, and what to write instead; null where nothing is.</param>
public readonly record struct FactReading(Fact? Fact, string? Wrong);

/// <summary>The written form of a fact: one JSON object. It is the same in the browser, on the way and in the server's store.</summary>
public static class FactJson
{
    /// <summary>Largest fact, bytes of its written form; a file's content comes on top.</summary>
    public const int Largest = 1 << 20;

    /// <summary>How deep values may lie in each other in a fact that is taken in. Whoever reads facts must read deeper: see <see cref="Deep"/>.</summary>
    public const int Deepest = 16;

    /// <summary>How far a clock may be ahead and still be taken.</summary>
    public static readonly TimeSpan Ahead = TimeSpan.FromMinutes(10);

    /// <summary>For reading what was kept: deeper than anything that was ever taken in, with what facts are wrapped in.</summary>
    public static readonly JsonDocumentOptions Deep = new() { MaxDepth = 512 };

    // Facts are no part of a page: what people type stays readable.
    private static readonly JsonWriterOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string Text(Fact fact)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
            FactWriting.Write(json, fact);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    internal static string UnitOf(Reading reading) => reading switch
    {
        Reading.FaceLevelAlong => "along",
        Reading.FaceLevelAcross => "across",
        { IsAngle: true } => "deg",
        _ => "mm",
    };

    internal static string WordOf(Step step) => step switch
    {
        Step.Fitted => "fitted",
        Step.Tacked => "tacked",
        Step.Welded => "welded",
        _ => "checked",
    };

    internal static string WordOf(Pass pass) => pass switch { Pass.Root => "root", Pass.Fill => "fill", _ => "cap" };

    internal static string WordOf(ExaminationMethod method) => method switch
    {
        ExaminationMethod.Visual => "visual",
        ExaminationMethod.Penetrant => "penetrant",
        ExaminationMethod.Magnetic => "magnetic",
        ExaminationMethod.Radiography => "radiography",
        ExaminationMethod.Ultrasonic => "ultrasonic",
        ExaminationMethod.Hardness => "hardness",
        ExaminationMethod.AlloyCheck => "alloy check",
        _ => "other",
    };

    internal static string WordOf(TestMedium medium) => medium switch { TestMedium.Water => "water", TestMedium.Air => "air", _ => "other" };

    internal static string WordOf(Coating coating) => coating == Coating.Painted ? "paint" : "insulation";

    internal static string WordOf(Right right) => right switch
    {
        Right.Fit => "fit",
        Right.Weld => "weld",
        Right.Examine => "examine",
        Right.Draw => "draw",
        _ => "people",
    };

    /// <summary>
    /// What a device signs of a fact: its JSON without the signature's value, keys of every object in the order of their UTF-16, no blanks, numbers as the shortest
    /// decimal that gives the same double. So it is the same however often it was written and read.
    /// </summary>
    public static byte[] SignedBytes(Fact fact)
    {
        using var document = JsonDocument.Parse(Text(fact), Deep);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
            Sorted(json, document.RootElement, isFact: true, isSigned: false);
        return buffer.WrittenSpan.ToArray();

        static void Sorted(Utf8JsonWriter json, JsonElement element, bool isFact, bool isSigned)
        {
            switch (element.ValueKind)
            {
                case JsonValueKind.Object:
                    json.WriteStartObject();
                    foreach (var property in element.EnumerateObject().OrderBy(p => p.Name, StringComparer.Ordinal))
                    {
                        if (isSigned && property.Name == "value")
                            continue;
                        json.WritePropertyName(property.Name);
                        Sorted(json, property.Value, isFact: false, isSigned: isFact && property.Name == "signed");
                    }

                    json.WriteEndObject();
                    break;
                case JsonValueKind.Array:
                    json.WriteStartArray();
                    foreach (var item in element.EnumerateArray())
                        Sorted(json, item, isFact: false, isSigned: false);
                    json.WriteEndArray();
                    break;
                case JsonValueKind.Number when element.TryGetDouble(out var number) && double.IsFinite(number):
                    json.WriteNumberValue(number);
                    break;
                case JsonValueKind.String:
                    json.WriteStringValue(element.GetString());
                    break;
                default:
                    json.WriteRawValue(element.GetRawText(), skipInputValidation: true);
                    break;
            }
        }
    }

    /// <summary>Reads one fact from text; where it is no JSON, says at which line and column.</summary>
    public static FactReading Read(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text, Deep);
            return Read(document.RootElement);
        }
        catch (JsonException e)
        {
            return new(null, NotJson(e));
        }
    }

    /// <summary>Reads one fact from its UTF-8.</summary>
    public static FactReading Read(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            using var document = JsonDocument.Parse(utf8, Deep);
            return Read(document.RootElement);
        }
        catch (JsonException e)
        {
            return new(null, NotJson(e));
        }
    }

    /// <summary>Reads one fact.</summary>
    public static FactReading Read(JsonElement element)
    {
        var reader = new FactReader(element);
        var fact = reader.Fact();
        return reader.Wrong is null ? new(fact, null) : new(null, reader.Wrong);
    }

    /// <summary>Something that is asked of a server as a fact would be said, so that it can be signed; it is not kept.</summary>
    public static Fact Ask(string id, string who, DateTimeOffset when, Signature? signed, params IReadOnlyList<(string Key, string Value)> more)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
        {
            json.WriteStartObject();
            json.WriteString("id", id);
            json.WriteString("fact", "ask");
            json.WriteString("who", who);
            json.WriteString("when", FactWriting.Written(when));
            foreach (var (key, value) in more)
                json.WriteString(key, value);
            FactWriting.Write(json, signed);
            json.WriteEndObject();
        }

        return Read(buffer.WrittenMemory).Fact ?? throw new ArgumentException("What is asked cannot be written.", nameof(more));
    }

    /// <summary>The same said anew by somebody, with an id and a time of its own, not signed.</summary>
    public static Fact Anew(Fact fact, string id, string who, DateTimeOffset when)
    {
        using var document = JsonDocument.Parse(Text(fact), Deep);
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer, Plain))
        {
            json.WriteStartObject();
            foreach (var property in document.RootElement.EnumerateObject())
            {
                if (property.Name == "id")
                    json.WriteString("id", id);
                else if (property.Name == "who")
                    json.WriteString("who", who);
                else if (property.Name == "when")
                    json.WriteString("when", FactWriting.Written(when));
                else if (property.Name != "signed")
                    property.WriteTo(json);
            }

            json.WriteEndObject();
        }

        return Read(buffer.WrittenMemory).Fact ?? throw new InvalidOperationException("A fact that was read cannot be read again.");
    }

    /// <summary>Reads a fact that somebody brings, by the rules of the door: what is kept must be readable by everybody for good.</summary>
    /// <param name="now">The clock of whoever takes it in.</param>
    public static FactReading Take(JsonElement element, DateTimeOffset now)
    {
        if (Deepest < DepthOf(element, Deepest + 1))
            return new(null, string.Create(CultureInfo.InvariantCulture, $"Its values lie more than {Deepest} deep in each other. Write it flatter."));
        var reading = Read(element);
        if (reading.Fact is not { } fact)
            return reading;
        var length = JsonMarshal.GetRawUtf8Value(element).Length;
        // Base64 takes four bytes for three, and text at most six for one (\u0000).
        var most = fact is FileSaved ? Largest + (6 * FileSaved.Largest) : Largest;
        if (most < length)
            return new(null, string.Create(CultureInfo.InvariantCulture, $"It is {length} bytes long; a fact has at most {Largest} (1 MB). Write it as several."));
        if (now + Ahead < fact.When)
            return new(null, string.Create(CultureInfo.InvariantCulture, $"when says {fact.When:yyyy-MM-dd HH:mm}Z, and by the shop's clock it is {now.UtcDateTime:yyyy-MM-dd HH:mm}Z. Set the clock of the device, and enter it anew."));
        return reading;
    }

    private static int DepthOf(JsonElement element, int most)
    {
        if (most == 0 || element.ValueKind is not (JsonValueKind.Object or JsonValueKind.Array))
            return 0;
        var deepest = 0;
        foreach (var value in element.ValueKind == JsonValueKind.Object ? element.EnumerateObject().Select(p => p.Value) : element.EnumerateArray())
            deepest = Math.Max(deepest, DepthOf(value, most - 1));
        return deepest + 1;
    }

    /// <summary>What is wrong with text that is no JSON, with line and column from 1.</summary>
    public static string NotJson(JsonException e) =>
        string.Create(CultureInfo.InvariantCulture, $"line {e.LineNumber + 1}, column {e.BytePositionInLine + 1}: this is not JSON. {e.Message.Split(" LineNumber:", StringSplitOptions.None)[0]}");

    /// <summary>Whether two written facts say the same; the order of keys and the writing of numbers and signs do not matter.</summary>
    public static bool Same(string one, string other)
    {
        if (one == other)
            return true;
        using var a = JsonDocument.Parse(one, Deep);
        using var b = JsonDocument.Parse(other, Deep);
        return JsonElement.DeepEquals(a.RootElement, b.RootElement);
    }
}
