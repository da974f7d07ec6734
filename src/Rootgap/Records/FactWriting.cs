using System.Globalization;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Records;

/// <summary>Writes one fact, key by key, as <see cref="FactReader"/> reads it.</summary>
internal static partial class FactWriting
{
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
                json.WriteString("step", FactJson.WordOf(step.Step));
                Maybe(json, "welder", step.Welder);
                Maybe(json, "procedure", step.Procedure);
                Made(json, step);
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
                    json.WriteStringValue(FactJson.WordOf(right));
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
            default:
                WritePaper(json, fact);
                break;
        }

        if (fact is DrawingFact { Deviation: { } deviation })
            Write(json, deviation);

        Maybe(json, "note", (fact as DrawingFact)?.Note);
        if (fact.Attached.Count > 0)
        {
            json.WriteStartArray("attached");
            foreach (var attached in fact.Attached)
            {
                json.WriteStartObject();
                json.WriteString("sha256", attached.Sha256);
                json.WriteString("name", attached.Name);
                json.WriteNumber("bytes", attached.Bytes);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

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
        json.WriteNumber(FactJson.UnitOf(reading), Shown(taken.Value));
        if (taken.Sd is { } sd)
            json.WriteNumber("sd", Shown(sd));
        json.WriteEndObject();

        // Degrees are rounded so that the same reading is written the same way however often it went through radians.
        double Shown(double value) => reading.IsAngle ? Math.Round(Angles.ToDegrees(value), 9) : value;
    }

    public static void Write(Utf8JsonWriter json, Signature? signature)
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

    public static string Written(DateTimeOffset time) => time.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    private static void Maybe(Utf8JsonWriter json, string key, string? value)
    {
        if (value is not null)
            json.WriteString(key, value);
    }
}
