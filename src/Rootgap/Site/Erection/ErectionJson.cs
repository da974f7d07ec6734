using System.Text.Json;
using Rootgap.Measure;

namespace Rootgap.Site.Erection;

/// <summary>The order of erection as other programs read it: mm, kg, degrees. This writer is the contract.</summary>
public static class ErectionJson
{
    public static void Write(Utf8JsonWriter json, string drawing, IReadOnlyList<ErectionStep> steps, IReadOnlyList<string> wrong)
    {
        json.WriteStartObject();
        json.WriteString("drawing", drawing);
        json.WriteStartArray("steps");
        foreach (var step in steps)
            Step(json, step);
        json.WriteEndArray();
        Texts(json, "wrong", wrong);
        json.WriteEndObject();
    }

    private static void Step(Utf8JsonWriter json, ErectionStep step)
    {
        json.WriteStartObject();
        json.WriteNumber("step", step.Number);
        if (step.Sets.Count > 0)
            Texts(json, "sets", step.Sets.Select(s => s.Id));
        else
            json.WriteString(step.Body is null ? "closes" : "body", step.Name);
        if (step.Body is { } body)
        {
            json.WriteNumber("mass", Math.Round(body.Mass, 3));
            Place(json, "lifting centre", body.Centre);
            Texts(json, "unweighed", body.Unweighed);
            Texts(json, "joints", step.Joints.Select(j => j.Id));
            if (step.RestsOn.Count > 0)
            {
                json.WriteStartArray("rests on");
                foreach (var (support, bears) in step.RestsOn)
                {
                    json.WriteStartObject();
                    json.WriteString("support", support.Id);
                    Place(json, "at", support.At);
                    json.WriteNumber("underside", Math.Round(support.Underside, 1));
                    json.WriteNumber("bears", Math.Round(bears, 2));
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteBoolean("steady", step.Stands is not null);
            json.WriteStartArray("stands");
            foreach (var stand in step.Stands ?? [])
            {
                json.WriteStartObject();
                json.WriteString("piece", stand.Piece);
                json.WriteNumber("along", Math.Round(stand.Along, 1));
                Place(json, "at", stand.At);
                json.WriteNumber("underside", Math.Round(stand.Underside, 1));
                json.WriteNumber("bears", Math.Round(stand.Bears, 2));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteBoolean("comes in", step.Way is not null);
        }

        json.WriteStartArray("readings");
        foreach (var reading in step.Readings)
        {
            json.WriteStartObject();
            json.WriteString("read", reading.What);
            json.WriteString("target", reading.Target);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Texts(json, "holds", step.Holds);
        json.WriteEndObject();
    }

    private static void Place(Utf8JsonWriter json, string name, Point at)
    {
        json.WriteStartObject(name);
        json.WriteNumber("east", Math.Round(at.X, 1));
        json.WriteNumber("north", Math.Round(at.Y, 1));
        json.WriteNumber("up", Math.Round(at.Z, 1));
        json.WriteEndObject();
    }

    private static void Texts(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
            json.WriteStringValue(text);
        json.WriteEndArray();
    }
}
