using System.Buffers;
using System.Globalization;
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
            json.WriteRawValue(unknown.Json);
            return;
        }

        json.WriteStartObject();
        json.WriteString("id", fact.Id);
        json.WriteString("fact", fact.Kind);
        json.WriteString("who", fact.Who);
        json.WriteString("when", fact.When.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
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
            case LookedAt looked:
                json.WriteString("of", looked.Of);
                json.WriteBoolean("holds", looked.Holds);
                json.WriteString("as", looked.As);
                break;
            case Withdrawn withdrawn:
                json.WriteString("withdraws", withdrawn.Fact);
                json.WriteString("why", withdrawn.Why);
                break;
        }

        Maybe(json, "note", (fact as DrawingFact)?.Note);
        foreach (var (key, raw) in fact.More)
        {
            json.WritePropertyName(key);
            json.WriteRawValue(raw);
        }

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
            using var document = JsonDocument.Parse(text);
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

    /// <summary>What is wrong with text that is no JSON, with line and column from 1.</summary>
    public static string NotJson(JsonException e) =>
        string.Create(CultureInfo.InvariantCulture, $"line {e.LineNumber + 1}, column {e.BytePositionInLine + 1}: this is not JSON. {e.Message.Split(" LineNumber:", StringSplitOptions.None)[0]}");

    /// <summary>Whether two written facts say the same; the order of keys and the writing of numbers and signs do not matter.</summary>
    public static bool Same(string one, string other)
    {
        if (one == other)
            return true;
        using var a = JsonDocument.Parse(one);
        using var b = JsonDocument.Parse(other);
        return JsonElement.DeepEquals(a.RootElement, b.RootElement);
    }
}
