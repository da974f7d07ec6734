using System.Text.Json;

namespace Rootgap.Records;

internal static partial class FactWriting
{
    private static void WritePaper(Utf8JsonWriter json, Fact fact)
    {
        switch (fact)
        {
            case FitUpSeen seen:
                Write(json, seen);
                Maybe(json, "gap", seen.Gap);
                Maybe(json, "hi-lo", seen.HiLo);
                Maybe(json, "readings", seen.Over);
                Maybe(json, "refused", seen.IsRefused);
                break;
            case Examined examined:
                Write(json, examined);
                json.WriteString("method", FactJson.WordOf(examined.Method));
                json.WriteBoolean("accepted", examined.IsAccepted);
                json.WriteNumber("extent", examined.Extent);
                Maybe(json, "report", examined.Report);
                Maybe(json, "found", examined.Found);
                Maybe(json, "rejected-length", examined.RejectedLength);
                break;
            case HeatTreated treated:
                Write(json, treated);
                json.WriteString("chart", treated.Chart);
                Maybe(json, "temperature", treated.Temperature);
                Maybe(json, "minutes", treated.Minutes);
                break;
            case Repair repair:
                Write(json, repair);
                json.WriteBoolean("cut-out", repair.IsCutOut);
                Maybe(json, "why", repair.Why);
                break;
            case WeldsDrawn drawn:
                Write(json, drawn);
                break;
            case CertificateNoted certificate:
                json.WriteString("heat", certificate.Heat);
                json.WriteString("number", certificate.Number);
                Maybe(json, "type", certificate.Type);
                Maybe(json, "product", certificate.Product);
                Maybe(json, "size", certificate.Size);
                Maybe(json, "schedule", certificate.Schedule);
                Maybe(json, "material", certificate.Material);
                break;
            case WelderNoted welder:
                json.WriteString("stamp", welder.Stamp);
                Maybe(json, "name", welder.Name);
                Maybe(json, "procedures", welder.Procedures);
                Maybe(json, "until", welder.Until);
                break;
            case BoltedUp bolted:
                json.WriteString("joint", bolted.Joint);
                Maybe(json, "gasket", bolted.Gasket);
                Maybe(json, "lubricant", bolted.Lubricant);
                Maybe(json, "tool", bolted.Tool);
                if (bolted.Passes.Count > 0)
                {
                    json.WriteStartArray("passes");
                    foreach (var pass in bolted.Passes)
                    {
                        json.WriteStartObject();
                        json.WriteString("pass", pass.Name);
                        json.WriteString("value", pass.Value);
                        json.WriteEndObject();
                    }

                    json.WriteEndArray();
                }

                break;
            case Tested tested:
                json.WriteString("pack", tested.Pack);
                json.WriteString("medium", FactJson.WordOf(tested.Medium));
                json.WriteNumber("bar", tested.Pressure);
                json.WriteBoolean("passed", tested.HasPassed);
                if (tested.From is { } from)
                    json.WriteString("from", Written(from));
                if (tested.To is { } to)
                    json.WriteString("to", Written(to));
                Maybe(json, "gauges", tested.Gauges);
                break;
            case Released released:
                json.WriteString("spool", released.Spool);
                break;
            case Coated coated:
                json.WriteString("spool", coated.Spool);
                json.WriteString("with", FactJson.WordOf(coated.Coating));
                break;
            case NoteTaken note:
                json.WriteString("about", note.About);
                break;
            case PaperTicked ticked:
                json.WriteString("paper", ticked.Paper);
                if (ticked.Page > 1)
                    json.WriteNumber("page", ticked.Page);
                Maybe(json, "ticked", [.. ticked.Ticked.Select(t => t.ToString())]);
                Maybe(json, "taken back", [.. ticked.TakenBack.Select(t => t.ToString())]);
                break;
        }
    }

    private static void Made(Utf8JsonWriter json, JointStep step)
    {
        Weld(json, step.Weld);
        if (step.Passes.Count > 0)
        {
            json.WriteStartArray("passes");
            foreach (var passes in step.Passes)
            {
                json.WriteStartObject();
                json.WriteString("welder", passes.Welder);
                json.WriteStartArray("made");
                foreach (var pass in passes.Made)
                    json.WriteStringValue(FactJson.WordOf(pass));
                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        Maybe(json, "filler", step.Filler);
        Maybe(json, "preheat", step.Preheat);
        if (step.IsField is { } isField)
            json.WriteString("at", isField ? "site" : "shop");
    }

    private static void Write(Utf8JsonWriter json, WeldFact fact)
    {
        json.WriteString("joint", fact.Joint);
        Weld(json, fact.Weld);
    }

    private static void Weld(Utf8JsonWriter json, WeldMark mark)
    {
        if (mark != WeldMark.First)
            json.WriteString("weld", mark.ToString());
    }

    private static void Write(Utf8JsonWriter json, WeldsDrawn drawn)
    {
        json.WriteString("lot", drawn.Lot);
        json.WriteString("method", FactJson.WordOf(drawn.Method));
        json.WriteNumber("share", drawn.Share);
        json.WriteNumber("seed", drawn.Seed);
        json.WriteNumber("round", drawn.Round);
        Maybe(json, "since", drawn.Since);
        Maybe(json, "until", drawn.Until);
        Maybe(json, "for", drawn.For);
        json.WriteStartArray("welds");
        foreach (var weld in drawn.Welds)
        {
            json.WriteStartObject();
            json.WriteString("joint", weld.Joint);
            Weld(json, weld.Weld);
            json.WriteString("welder", weld.Welder);
            json.WriteString("at", weld.IsField ? "site" : "shop");
            Maybe(json, "drawn", weld.IsDrawn);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Deviation deviation)
    {
        json.WriteStartObject("deviation");
        Maybe(json, "missing", deviation.Missing);
        json.WriteString("why", deviation.Why);
        json.WriteString("by", deviation.By);
        json.WriteEndObject();
    }

    private static void Maybe(Utf8JsonWriter json, string key, double? value)
    {
        if (value is { } number)
            json.WriteNumber(key, number);
    }

    private static void Maybe(Utf8JsonWriter json, string key, DateOnly? value)
    {
        if (value is { } day)
            json.WriteString(key, day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
    }

    private static void Maybe(Utf8JsonWriter json, string key, bool value)
    {
        if (value)
            json.WriteBoolean(key, value);
    }

    private static void Maybe(Utf8JsonWriter json, string key, IReadOnlyList<string> words)
    {
        if (words.Count == 0)
            return;
        json.WriteStartArray(key);
        foreach (var word in words)
            json.WriteStringValue(word);
        json.WriteEndArray();
    }
}
