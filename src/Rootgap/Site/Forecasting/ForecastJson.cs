using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Forecasting;

/// <summary>The forecast as other programs read it: mm and degrees. This writer is the contract.</summary>
public static class ForecastJson
{
    /// <param name="units">Of the sentences: <c>say</c>.</param>
    public static void Write(Utf8JsonWriter json, Forecast forecast, Units units)
    {
        json.WriteStartObject();
        json.WriteString("spools", forecast.Asked.AsWelded ? "as welded" : "checked");
        json.WriteNumber("drawn", forecast.Asked.Draws);
        json.WriteNumber("seed", forecast.Asked.Seed);
        json.WriteStartArray("closings");
        foreach (var closing in forecast.Closings)
        {
            json.WriteStartObject();
            json.WriteString("joint", closing.Opening.Joint.Id);
            Joints(json, "from", closing.Opening.From);
            Figures(json, closing.Opening);
            json.WriteNumber("extra needed", Round(closing.ExtraNeeded));
            json.WriteNumber("extra", Round(closing.Extra));
            if (closing.Closes is { } closes)
                json.WriteNumber("closes", closes);
            if (forecast.AsDrawn?.Closings.FirstOrDefault(c => c.Opening.Joint.Id == closing.Opening.Joint.Id) is { } drawn)
            {
                json.WriteStartObject("as drawn");
                json.WriteNumber("length 95", Round(drawn.Opening.Length95));
                json.WriteNumber("extra needed", Round(drawn.ExtraNeeded));
                if (drawn.Closes is { } before)
                    json.WriteNumber("closes", before);
                json.WriteEndObject();
            }

            json.WriteStartArray("better");
            foreach (var better in closing.Better)
            {
                json.WriteStartObject();
                json.WriteString("do", better.What);
                json.WriteNumber("closes", better.Closes);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            Shares(json, closing.Opening);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("rigid");
        foreach (var loop in forecast.Rigid)
        {
            json.WriteStartObject();
            Joints(json, "between", loop.From);
            json.WriteString("joint", loop.Joint.Id);
            Figures(json, loop);
            Shares(json, loop);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("say");
        foreach (var line in new ForecastWords(units).Of(forecast))
            json.WriteStringValue(line);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Joints(Utf8JsonWriter json, string name, IReadOnlyList<Joint> joints)
    {
        json.WriteStartArray(name);
        foreach (var joint in joints)
            json.WriteStringValue(joint.Id);
        json.WriteEndArray();
    }

    private static void Figures(Utf8JsonWriter json, ForecastOpening opening)
    {
        Six(json, "first-order", opening.FirstOrder);
        if (opening.Draws is { } draws)
            Six(json, "draws", draws);
        if (opening.Known != PoseError.None)
            Six(json, "as built", k => opening.Known[k]);
        json.WriteNumber("length 95", Round(opening.Length95));
        json.WriteStartObject("across 95");
        json.WriteNumber("x", Round(opening.Across95X));
        json.WriteNumber("y", Round(opening.Across95Y));
        json.WriteNumber("tilt", Round(Angles.ToDegrees(opening.Tilt95)));
        json.WriteEndObject();
        json.WriteStartObject("taken up");
        json.WriteNumber("x", Round(opening.TakenUpX));
        json.WriteNumber("y", Round(opening.TakenUpY));
        json.WriteEndObject();
        json.WriteStartArray("missing");
        foreach (var missing in opening.Missing)
        {
            json.WriteStartObject();
            json.WriteStartObject("direction");
            json.WriteNumber("east", Round(missing.Direction.X));
            json.WriteNumber("north", Round(missing.Direction.Y));
            json.WriteNumber("up", Round(missing.Direction.Z));
            json.WriteEndObject();
            json.WriteNumber("opening 95", Round(missing.Opening95));
            json.WriteNumber("taken up", Round(missing.TakenUp));
            json.WriteStartArray("legs");
            foreach (var leg in missing.Legs)
                json.WriteStringValue(leg.Path.ToString());
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Six(Utf8JsonWriter json, string name, OpeningDeviation sd) => Six(json, name, k => sd[k]);

    private static void Six(Utf8JsonWriter json, string name, Func<int, double> of)
    {
        json.WriteStartObject(name);
        for (var k = 0; k < 6; k++)
            json.WriteNumber(PoseError.Names[k], Round(k < 3 ? of(k) : Angles.ToDegrees(of(k))));
        json.WriteEndObject();
    }

    private static void Shares(Utf8JsonWriter json, ForecastOpening opening)
    {
        json.WriteStartArray("shares");
        foreach (var share in opening.Shares)
        {
            json.WriteStartObject();
            json.WriteString("at", share.At);
            json.WriteString("error", share.Error);
            json.WriteString("of", share.Of);
            json.WriteNumber("share", Round(share.Share));
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static double Round(double value) => Math.Round(value, 6);
}
