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
            Write(json, fact);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    public static void Write(Utf8JsonWriter json, Fact fact)
    {
        if (fact is UnknownFact unknown)
        {
            json.WriteRawValue(unknown.Json, skipInputValidation: true);
            return;
        }

        json.WriteStartObject();
        json.WriteString("id", fact.Id);
        json.WriteString("fact", fact.Kind);
        json.WriteString("who", fact.Who);
        json.WriteString("when", Written(fact.When));
        if (fact is DrawingFact about)
        {
            json.WriteString("drawing", about.Drawing.Number);
            json.WriteString("revision", about.Drawing.Revision);
            WriteIds(json, "version", about.Versions);
        }

        switch (fact)
        {
            case FileSaved file:
                Write(json, file);
                break;
            case PieceCut cut:
                json.WriteString("piece", cut.Piece);
                Maybe(json, "heat", cut.Heat);
                if (cut.Length is { } length)
                    json.WriteNumber("length", length);
                if (cut.IsSpoiled)
                    json.WriteBoolean("spoiled", true);
                if (cut.From is { } from)
                {
                    json.WriteStartObject("from");
                    json.WriteString("stock", from.Stock);
                    json.WriteString("bar", from.Bar);
                    json.WriteNumber("to", from.To);
                    json.WriteEndObject();
                }

                break;
            case BarNoted bar:
                json.WriteString("stock", bar.Stock);
                json.WriteString("bar", bar.Bar);
                if (bar.IsOut)
                    json.WriteBoolean("out", true);
                Maybe(json, "heat", bar.Heat);
                Maybe(json, "note", bar.Note);
                break;
            case HeatNoted heat:
                json.WriteString("component", heat.Component);
                json.WriteString("heat", heat.Heat);
                break;
            case ReadingsTaken taken:
                json.WriteString("joint", taken.Joint);
                json.WriteString("set-up", taken.SetUp);
                json.WriteString("held", taken.Held);
                if (taken.Mark is { } mark)
                    json.WriteNumber("mark", mark);
                if (taken.IsWelded)
                    json.WriteString("state", "welded");
                json.WriteStartArray("readings");
                foreach (var reading in taken.Readings)
                    Write(json, reading);
                json.WriteEndArray();
                Maybe(json, "first", taken.First);
                break;
            case JointStep step:
                json.WriteString("joint", step.Joint);
                json.WriteString("step", WordOf(step.Step));
                Maybe(json, "welder", step.Welder);
                Maybe(json, "procedure", step.Procedure);
                break;
            case SpoolRead read:
                json.WriteString("spool", read.Spool);
                json.WriteString("base", read.Base);
                if (read.IsTacked)
                    json.WriteBoolean("tacked", true);
                json.WriteString("row", read.Row);
                break;
            case SurveyRead read:
                json.WriteString("row", read.Row);
                break;
            case SurveySet set:
                json.WriteString("head", set.Head);
                break;
            case EndAsBuilt built:
                json.WriteString("end", built.End);
                Write(json, "off", built.Off);
                Write(json, "sd", built.Sd);
                break;
            case ErectionDone done:
                json.WriteString("step", done.Step);
                break;
            case LookedAt looked:
                json.WriteString("of", looked.Of);
                json.WriteBoolean("holds", looked.Holds);
                json.WriteString("as", looked.As);
                break;
            case Withdrawn withdrawn:
                json.WriteString("withdraws", withdrawn.Fact);
                json.WriteString("why", withdrawn.Why);
                break;
            case PersonNamed person:
                json.WriteString("person", person.Person);
                json.WriteString("name", person.Name);
                Maybe(json, "stamp", person.Stamp);
                json.WriteString("role", person.Role);
                json.WriteStartArray("may");
                foreach (var right in person.May)
                    json.WriteStringValue(WordOf(right));
                json.WriteEndArray();
                break;
            case DeviceEnrolled device:
                json.WriteString("device", device.Device);
                json.WriteString("name", device.Name);
                json.WriteString("key", device.Key);
                break;
            case Revoked revoked:
                json.WriteString("revokes", revoked.Of);
                json.WriteString("why", revoked.Why);
                break;
        }

        Maybe(json, "note", (fact as DrawingFact)?.Note);
        foreach (var (key, raw) in fact.More)
        {
            json.WritePropertyName(key);
            json.WriteRawValue(raw, skipInputValidation: true);
        }

        Write(json, fact.Signed);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, FileSaved file)
    {
        json.WriteString("path", file.Path);
        if (file.Content is null)
            json.WriteBoolean("removed", true);
        else if (file.Text is { } text)
            json.WriteString("text", text);
        else
            json.WriteBase64String("base64", file.Content);
        WriteIds(json, "base", file.Bases);
    }

    private static void WriteIds(Utf8JsonWriter json, string key, IReadOnlyList<string> ids)
    {
        if (ids is [var only])
        {
            json.WriteString(key, only);
        }
        else if (ids.Count > 1)
        {
            json.WriteStartArray(key);
            foreach (var id in ids)
                json.WriteStringValue(id);
            json.WriteEndArray();
        }
    }

    // mm and degrees; degrees are rounded so that the same is written the same however often it went through radians.
    private static void Write(Utf8JsonWriter json, string key, in PoseError six)
    {
        json.WriteStartObject(key);
        for (var i = 0; i < 6; i++)
            json.WriteNumber(PoseError.Names[i], i < 3 ? six[i] : Math.Round(Angles.ToDegrees(six[i]), 9));
        json.WriteEndObject();
    }

    // The words of a readings file (FitReadings): degrees and mm.
    private static void Write(Utf8JsonWriter json, Taken taken)
    {
        var reading = taken.Reading;
        json.WriteStartObject();
        json.WriteString("read", reading.Name);
        if (reading.Position is { } at)
            json.WriteNumber("at", at);
        if (reading is Reading.Scale scale)
            json.WriteNumber("station", scale.Station);
        json.WriteNumber(UnitOf(reading), Shown(taken.Value));
        if (taken.Sd is { } sd)
            json.WriteNumber("sd", Shown(sd));
        json.WriteEndObject();

        // Degrees are rounded so that the same reading is written the same way however often it went through radians.
        double Shown(double value) => reading.IsAngle ? Math.Round(Angles.ToDegrees(value), 9) : value;
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

    private static void Maybe(Utf8JsonWriter json, string key, string? value)
    {
        if (value is not null)
            json.WriteString(key, value);
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
            json.WriteString("when", Written(when));
            foreach (var (key, value) in more)
                json.WriteString(key, value);
            Write(json, signed);
            json.WriteEndObject();
        }

        return Read(buffer.WrittenMemory).Fact ?? throw new ArgumentException("What is asked cannot be written.", nameof(more));
    }

    private static void Write(Utf8JsonWriter json, Signature? signature)
    {
        if (signature is not { } signed)
            return;
        json.WriteStartObject("signed");
        json.WriteString("job", signed.Job);
        json.WriteString("device", signed.Device);
        json.WriteString("person", signed.Person);
        Maybe(json, "proof", signed.Proof);
        json.WriteString("value", signed.Value);
        json.WriteEndObject();
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
                    json.WriteString("when", Written(when));
                else if (property.Name != "signed")
                    property.WriteTo(json);
            }

            json.WriteEndObject();
        }

        return Read(buffer.WrittenMemory).Fact ?? throw new InvalidOperationException("A fact that was read cannot be read again.");
    }

    private static string Written(DateTimeOffset time) => time.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

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
