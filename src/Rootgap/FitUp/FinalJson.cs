using System.Text.Json;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A spool's final check as JSON. Lengths mm, angles degrees; places and directions in plant axes as drawn.</summary>
public static class FinalJson
{
    /// <summary>The check, with what is left by the joints as made and what the readings say.</summary>
    public static void Write(Utf8JsonWriter json, FinalCheck check, FinalCheck? tacked, IReadOnlyList<EndLeft> left, FinalFound? found, IReadOnlyList<string> say)
    {
        json.WriteStartObject();
        json.WriteString("spool", check.Spool.Spool.Name);
        json.WriteString("state", check.IsWelded ? "welded" : "tacked");
        if (check.DrawnIn.Count > 0)
            FitJson.Strings(json, "drawn in", check.DrawnIn);
        if (check.Base is { } from)
            json.WriteString("base", from.Name);
        json.WriteStartArray("ends");
        foreach (var end in check.Ends)
            Write(json, end, check.Limits[end.Name]);
        json.WriteEndArray();
        json.WriteStartArray("targets");
        foreach (var target in check.Targets)
        {
            json.WriteStartObject();
            Names(json, target.Reading);
            Value(json, target.Reading, target.Value);
            if (tacked is not null && Math.Abs(tacked.Of(target.Reading).Value - target.Value) > 1e-6)
                FitJson.Number(json, "tacked", Shown(target.Reading, tacked.Of(target.Reading).Value));
            FitJson.Number(json, "allow", Shown(target.Reading, target.Allow));
            FitJson.Number(json, "sd", Shown(target.Reading, target.Reading.Sd));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (left.Any(l => l.Error != PoseError.None))
        {
            json.WriteStartArray("left");
            foreach (var end in left)
            {
                json.WriteStartObject();
                json.WriteString("end", end.End.Name);
                FitJson.Error(json, "error", end.Error);
                json.WriteBoolean("within", end.IsWithin);
                FitJson.TakenBack(json, end.By);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        if (found is not null)
            Write(json, found, say);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, OpenEnd end, FitTolerance limits)
    {
        json.WriteStartObject();
        json.WriteString("end", end.Name);
        json.WriteString("part", end.Part.Id);
        FitJson.Place(json, "centre", end.Centre - Point.Origin);
        foreach (var (name, way) in new[] { ("x", end.Three), ("y", end.Twelve), ("z", end.Normal) })
            FitJson.Place(json, name, way);
        FitJson.Number(json, "outside", end.Outside);
        FitJson.Write(json, "limits", limits);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, FinalFound found, IReadOnlyList<string> say)
    {
        json.WriteStartArray("found");
        foreach (var end in found.Ends)
        {
            json.WriteStartObject();
            json.WriteString("end", end.End.Name);
            FitJson.Error(json, "error", end.Error);
            FitJson.Error(json, "sd", PoseError.From([.. end.Sd]));
            FitJson.Strings(json, "unseen", end.Unseen.Select(i => PoseError.Names[i]));
            json.WriteBoolean("within", end.Verdict == Verdict.Within);
            json.WriteString("verdict", Remedy.Of(end.Verdict));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteBoolean("within", found.Verdict == Verdict.Within);
        json.WriteString("verdict", Remedy.Of(found.Verdict));
        FitJson.Strings(json, "again", found.Again.Concat(found.Alike).Select(t => t.Reading.Text).Distinct());
        FitJson.Strings(json, "outside", found.Ends.SelectMany(e => e.Outside).Select(t => t.Reading.Text).Distinct());
        FitJson.Strings(json, "next as a set", found.Next.Select(r => r.Text));
        FitJson.Strings(json, "say", say);
    }

    // As a readings file has it.
    private static void Names(Utf8JsonWriter json, EndReading reading)
    {
        json.WriteString("read", reading.Name);
        switch (reading)
        {
            case EndReading.Tape t:
                json.WriteString("from", t.From.ToString());
                json.WriteString("to", t.To.ToString());
                if (t.IsDiagonal)
                    json.WriteBoolean("diagonal", true);
                break;
            case EndReading.Height h:
                json.WriteString("from", h.From.ToString());
                json.WriteString("to", h.To.ToString());
                break;
            case EndReading.Offset o:
                json.WriteString("to", o.Lip.ToString());
                json.WriteString("way", o.IsAcross ? "across" : "along");
                FitJson.Place(json, "plus", o.Toward);
                break;
            default:
                json.WriteString("of", reading.Ends[0]);
                break;
        }
    }

    private static void Value(Utf8JsonWriter json, EndReading reading, double value) =>
        FitJson.Number(json, reading is EndReading.FaceLevel level ? level.IsAcross ? "across" : "along" : reading.IsAngle ? "deg" : "mm", Shown(reading, value));

    private static double Shown(EndReading reading, double value) => reading.IsAngle ? Angles.ToDegrees(value) : value;
}
