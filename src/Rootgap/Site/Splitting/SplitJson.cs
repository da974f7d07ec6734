using System.Text.Json;
using Rootgap.Drawings;

namespace Rootgap.Site.Splitting;

/// <summary>The plans as other programs read them: mm, kg, legs from nought as in the packet. This writer is the contract.</summary>
public static class SplitJson
{
    public static void Write(Utf8JsonWriter json, Split split, Drawing drawing)
    {
        json.WriteStartObject();
        json.WriteStartArray("plans");
        foreach (var plan in split.Plans)
        {
            json.WriteStartObject();
            json.WriteNumber("cost", Math.Round(plan.Cost, 6));
            json.WriteBoolean("proven", plan.IsProven);
            json.WriteStartArray("marks");
            foreach (var mark in plan.Marks)
            {
                json.WriteStartObject();
                json.WriteString("run", drawing.Runs[mark.Place.Run].Name);
                json.WriteNumber("leg", mark.Place.Leg);
                if (mark.Place.Along is { } along)
                    json.WriteNumber("weld", Math.Round(along, 4));
                json.WriteString(mark.Place.AtBegin ? "begin" : "end", SplitWords.Of(mark.Kind));
                if (mark.IsThere)
                    json.WriteBoolean("stays", true);
                json.WriteString("why", SplitWords.Of(mark, drawing));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("spools");
            foreach (var spool in plan.Spools)
            {
                json.WriteStartObject();
                json.WriteString("spool", spool.Name);
                Box(json, "box", spool.Box);
                if (spool.DrawnBox is { } drawn)
                    Box(json, "drawn box", drawn);
                json.WriteNumber("mass", Math.Round(spool.Mass, 4));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("places");
        foreach (var place in split.Places)
        {
            json.WriteStartObject();
            json.WriteString("place", place.Name);
            json.WriteNumber("field", Math.Round(place.Cost(finalFit: false), 6));
            if (place.CanBeFinalFit)
                json.WriteNumber("final-fit", Math.Round(place.Cost(finalFit: true), 6));
            if (place.Stays is { } stays)
                json.WriteString("stays", SplitWords.Of(stays));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("say");
        foreach (var line in split.Say)
            json.WriteStringValue(line);
        json.WriteEndArray();
        json.WriteEndObject();
    }
    private static void Box(Utf8JsonWriter json, string name, IReadOnlyList<double> sides)
    {
        json.WriteStartArray(name);
        foreach (var side in sides)
            json.WriteNumberValue(Math.Round(side, 3));
        json.WriteEndArray();
    }
}
