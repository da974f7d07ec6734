using System.Text.Json;
using Rootgap.Measure;
using Rootgap.Site.Surveys;

namespace Rootgap.Site.Closing;

/// <summary>Writes a closing as data: the contract of <c>rootgap close --json</c>. Lengths mm, angles degrees.</summary>
public static class ClosingJson
{
    private static readonly string[] PoseNames = ["east", "north", "up", "re", "rn", "ru"];

    public static void Write(Utf8JsonWriter json, LineClosing closing, IReadOnlyList<string> say)
    {
        var adjustment = closing.Adjustment;
        var line = adjustment.Line;
        json.WriteStartObject();
        json.WriteStartArray("bodies");
        foreach (var body in line.Bodies.Where(b => line.Ends.Any(e => e.Body == b)))
        {
            var (shift, turn, sd) = adjustment.PoseOf(body);
            json.WriteStartObject();
            json.WriteString("body", body.Name);
            Six(json, "pose", PoseNames, [shift.X, shift.Y, shift.Z, turn.X, turn.Y, turn.Z]);
            Six(json, "sd", PoseNames, sd);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("ends");
        foreach (var end in line.Ends)
        {
            json.WriteStartObject();
            json.WriteString("end", end.Name);
            Place(json, "at", adjustment.Standing.Face(end) - Point.Origin, 4);
            Place(json, "face", adjustment.Standing.Normal(end), 9);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("joints");
        foreach (var joint in closing.Joints)
        {
            json.WriteStartObject();
            json.WriteString("joint", joint.Joint.Id);
            json.WriteString("state", joint.State);
            Six(json, "off", FitUp.PoseError.Names, [.. Enumerable.Range(0, 6).Select(i => joint.Off[i])]);
            Six(json, "sd", FitUp.PoseError.Names, [.. joint.Sd]);
            json.WriteBoolean("within", joint.IsWithin);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("readings");
        foreach (var reading in adjustment.Readings)
            Write(json, reading);
        json.WriteEndArray();
        if (closing.Again is var (again, without))
        {
            json.WriteStartObject("again");
            json.WriteNumber("i", again.Taken.Entry);
            json.WriteString("of", again.Taken.Reading.Word);
            Closings(json, without);
            json.WriteEndObject();
        }

        Unseen(json, closing);
        if (closing.Next is { } next)
        {
            json.WriteStartObject("next");
            json.WriteString("closing", next.Closing.Joint.Id);
            json.WriteStartObject("reading");
            Write(json, next.Reading);
            json.WriteEndObject();
            Number(json, "before", next.Before);
            Number(json, "after", next.After);
            json.WriteEndObject();
        }

        Closings(json, closing.Closures);
        if (closing.Movement.IsNeeded)
            Moves(json, closing);
        json.WriteStartArray("say");
        foreach (var sentence in say)
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Adjusted reading)
    {
        json.WriteStartObject();
        json.WriteNumber("i", reading.Taken.Entry);
        json.WriteString("of", reading.Taken.Reading.Word);
        Number(json, "residual", reading.Taken.Reading.IsAngle ? Angles.ToDegrees(reading.Residual) : reading.Residual);
        Number(json, "standardised", reading.Standardised);
        json.WriteBoolean("questioned", reading.IsQuestioned);
        if (reading.IsUnchecked)
            json.WriteBoolean("unchecked", value: true);
        json.WriteEndObject();
    }

    /// <summary>The keys of a reading, as in a survey file.</summary>
    private static void Write(Utf8JsonWriter json, SiteReading reading)
    {
        foreach (var (key, values) in ReadingText.Of(reading))
        {
            if (values.Count == 1)
            {
                json.WriteString(key, values[0]);
                continue;
            }

            json.WriteStartArray(key);
            foreach (var value in values)
                json.WriteStringValue(value);
            json.WriteEndArray();
        }

        // A point is asked for one coordinate: its name stands where the figure goes.
        if (reading is SiteReading.Coordinate c)
            json.WriteString("of", c.Word);
    }

    private static void Unseen(Utf8JsonWriter json, LineClosing closing)
    {
        json.WriteStartArray("unseen");
        foreach (var body in closing.Adjustment.Line.Bodies)
        {
            foreach (var i in closing.Adjustment.UnseenOf(body))
                One(body.Name, PoseNames[i]);
        }

        foreach (var closure in closing.Closures)
        {
            foreach (var i in closure.Unseen)
                One(closure.Joint.Id, Closure.Names[i]);
        }

        json.WriteEndArray();

        void One(string of, string what)
        {
            json.WriteStartObject();
            json.WriteString("of", of);
            json.WriteString("what", what);
            json.WriteEndObject();
        }
    }

    private static void Closings(Utf8JsonWriter json, IReadOnlyList<Closure> closures)
    {
        json.WriteStartArray("closings");
        foreach (var c in closures)
        {
            json.WriteStartObject();
            json.WriteString("joint", c.Joint.Id);
            Quarters(json, "cut off", [c.Opening.Round[0], c.Opening.Round[4], c.Opening.Round[8], c.Opening.Round[12]]);
            json.WriteStartArray("round");
            foreach (var mm in c.Opening.Round)
                json.WriteNumberValue(Rounded(mm));
            json.WriteEndArray();
            Number(json, "mean", c.Opening.Mean);
            json.WriteStartObject("sd");
            for (var i = 0; i < c.Sd.Count; i++)
                Number(json, Closure.Names[i], i < 3 ? c.Sd[i] : Angles.ToDegrees(c.Sd[i]));
            json.WriteEndObject();
            Number(json, "angle", Angles.ToDegrees(c.Opening.Angle));
            Number(json, "tilt x", Angles.ToDegrees(c.Opening.TiltX));
            Number(json, "tilt y", Angles.ToDegrees(c.Opening.TiltY));
            json.WriteStartObject("offset");
            Number(json, "12", c.Opening.OffsetUp);
            Number(json, "3", c.Opening.OffsetSide);
            json.WriteEndObject();
            Number(json, "short", c.Opening.Short);
            json.WriteStartObject("verdict");
            json.WriteString("length", Word(c.Length));
            json.WriteString("angle", Word(c.Angle));
            json.WriteString("offset", Word(c.Offset));
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>A verdict in words.</summary>
    public static string Word(Verdict verdict) => verdict switch { Verdict.Closes => "closes", Verdict.DoesNotClose => "does not close", _ => "not known yet" };

    private static void Moves(Utf8JsonWriter json, LineClosing closing)
    {
        var movement = closing.Movement;
        json.WriteStartArray("moves");
        foreach (var moved in movement.Moves)
        {
            foreach (var body in moved.Bodies)
            {
                json.WriteStartObject();
                json.WriteString("body", body.Name);
                Six(json, "by", PoseNames, [moved.Shift.X, moved.Shift.Y, moved.Shift.Z, moved.Turn.X, moved.Turn.Y, moved.Turn.Z], 6);
                var heights = SupportHeight.Of(closing, moved, body).ToList();
                if (heights.Count > 0)
                {
                    json.WriteStartArray("supports");
                    foreach (var height in heights)
                    {
                        json.WriteStartObject();
                        json.WriteString("support", height.Support.Id);
                        Number(json, "underside", height.After);
                        Number(json, "by", height.After - height.Before);
                        json.WriteEndObject();
                    }

                    json.WriteEndArray();
                }

                json.WriteEndObject();
            }
        }

        json.WriteEndArray();
        json.WriteStartArray("after");
        foreach (var joint in closing.Joints.Where(j => j.State != "made"))
        {
            var after = JointAfter.Of(closing, joint.Joint);
            json.WriteStartObject();
            json.WriteString("joint", joint.Joint.Id);
            Number(json, "x", after.Side);
            Number(json, "y", after.Up);
            Number(json, "roll mm", after.RollMm);
            Quarters(json, after.IsCut ? "cut off" : "gaps", after.Gaps);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (movement.Remaining.Count == 0 && movement.IsSettled)
            return;
        json.WriteStartArray("remains");
        foreach (var remains in movement.Remaining)
        {
            json.WriteStartObject();
            json.WriteString("joint", remains.Joint);
            json.WriteString("what", remains.What);
            Number(json, "over", remains.Over);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteBoolean("settled", movement.IsSettled);
    }

    private static void Six(Utf8JsonWriter json, string name, IReadOnlyList<string> names, double[] values, int decimals = 5)
    {
        json.WriteStartObject(name);
        for (var i = 0; i < 6; i++)
            json.WriteNumber(names[i], Rounded(i < 3 ? values[i] : Angles.ToDegrees(values[i]), i < 3 ? decimals : 7));
        json.WriteEndObject();
    }

    private static void Place(Utf8JsonWriter json, string name, Vector v, int decimals)
    {
        json.WriteStartObject(name);
        json.WriteNumber("east", Rounded(v.X, decimals));
        json.WriteNumber("north", Rounded(v.Y, decimals));
        json.WriteNumber("up", Rounded(v.Z, decimals));
        json.WriteEndObject();
    }

    private static void Quarters(Utf8JsonWriter json, string name, IReadOnlyList<double> values)
    {
        json.WriteStartObject(name);
        foreach (var (word, i) in new[] { "12", "3", "6", "9" }.Select((w, i) => (w, i)))
            Number(json, word, values[i]);
        json.WriteEndObject();
    }

    private static void Number(Utf8JsonWriter json, string name, double value) => json.WriteNumber(name, Rounded(value));

    private static double Rounded(double value, int decimals = 5)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return double.IsFinite(rounded) ? rounded == 0 ? 0 : rounded : 0;
    }
}
