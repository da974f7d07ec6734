using System.Globalization;
using System.Text.Json;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A fit-up card, and what its readings say, as JSON. Lengths mm, angles degrees, masses kg.</summary>
public static class FitJson
{
    /// <summary>One joint, with the diagnosis where there were readings.</summary>
    public static void Write(Utf8JsonWriter json, FitCard card, Diagnosis? found, IReadOnlyList<string> say)
    {
        var joint = card.Standing;
        json.WriteStartObject();
        json.WriteString("joint", joint.Joint.Name);
        json.WriteString("set-up", joint.SetUp.Word);
        json.WriteString("held", joint.Joint.Held.Id);
        json.WriteString("new", joint.Joint.New.Id);
        Number(json, "mark", joint.Mark);
        Number(json, "lift", joint.Joint.Brought.Mass);
        Strings(json, "held parts", joint.Joint.HeldSide.Parts.Select(p => p.Id));
        Strings(json, "brought parts", joint.Joint.Brought.Parts.Select(p => p.Id));
        Frame(json, joint);
        json.WriteStartArray("targets");
        foreach (var target in card.Targets)
            Write(json, target);
        json.WriteEndArray();
        if (card.OfPart.Count > 0)
        {
            json.WriteStartArray("targets of the part");
            foreach (var target in card.OfPart)
                Write(json, target);
            json.WriteEndArray();
        }

        Write(json, "limits", card.Limits);
        FitOrderJson.Standing(json, joint.SetUp);
        if (joint.SetUp.Cautions.Count > 0)
            Strings(json, "cautions", joint.SetUp.Cautions);
        if (card.DrawnIn.Count > 0)
            Strings(json, "drawn in", card.DrawnIn);
        if (card.Kept.Count > 0)
        {
            json.WriteStartArray("kept");
            foreach (var kept in card.Kept)
            {
                json.WriteStartObject();
                json.WriteString("joint", kept.Joint);
                Error(json, "error", kept.Error);
                if (kept.Unseen.Count > 0)
                    Strings(json, "unseen", kept.Unseen.Select(i => PoseError.Names[i]));
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        if (card.EndOff is { } off)
        {
            json.WriteStartObject("spool end");
            json.WriteString("part", off.Part);
            Place(json, "shift", off.Shift);
            Number(json, "turn", Angles.ToDegrees(off.Turn));
            TakenBack(json, off.By);
            json.WriteEndObject();
        }

        if (found is not null)
            Write(json, joint, found, say);
        json.WriteEndObject();
    }

    internal static void TakenBack(Utf8JsonWriter json, IReadOnlyList<TakeBack> all)
    {
        json.WriteStartArray("taken back by");
        foreach (var by in all)
        {
            json.WriteStartObject();
            json.WriteString("joint", by.Joint);
            Error(json, "error", by.By);
            json.WriteBoolean("within", by.IsWithin);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    internal static void Error(Utf8JsonWriter json, string name, PoseError error)
    {
        json.WriteStartObject(name);
        for (var i = 0; i < 6; i++)
            Number(json, PoseError.Names[i], FitRecord.Shown(error[i], i));
        json.WriteEndObject();
    }

    // The joint's axes in plant directions, so that another program can place the same joint.
    private static void Frame(Utf8JsonWriter json, StandingJoint joint)
    {
        json.WriteStartObject("frame");
        Place(json, "centre", joint.Joint.Centre - Point.Origin);
        foreach (var (name, v) in (IEnumerable<(string, Vector)>)[("x", joint.Three), ("y", joint.Twelve), ("z", joint.Axis), ("up", joint.SetUp.Up)])
            Place(json, name, v);
        if (joint.Joint.Far is { } far)
        {
            if (joint.Joint.End is { } end)
                json.WriteString("end", end.Id);
            Place(json, "face", far.Centre - Point.Origin);
            Place(json, "normal", far.Normal);
            Number(json, "face outside", far.Outside);
        }
        Number(json, "gap", joint.Joint.Gap);
        Number(json, "outside", joint.Joint.Outside);
        Number(json, "inside", joint.Joint.Inside);
        json.WriteEndObject();
    }

    /// <summary>A place, or a direction, in plant axes; fine enough for directions that are used over metres.</summary>
    internal static void Place(Utf8JsonWriter json, string name, Vector v)
    {
        json.WriteStartObject(name);
        json.WriteNumber("east", Math.Round(v.X, 9) + 0.0);
        json.WriteNumber("north", Math.Round(v.Y, 9) + 0.0);
        json.WriteNumber("up", Math.Round(v.Z, 9) + 0.0);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Target target)
    {
        var reading = target.Reading;
        json.WriteStartObject();
        Names(json, reading);
        Number(json, Key(reading), Shown(reading, target.Value));
        Number(json, "drawn", Shown(reading, target.Drawn));
        Number(json, "allow", Shown(reading, target.Allow));
        Number(json, "sd", Shown(reading, reading.Sd));
        if (reading.Plus.Length > 0)
            json.WriteString("plus", reading.Plus);
        if (target.InLine is { } inLine)
            Number(json, "in line", Angles.ToDegrees(inLine));
        if (target.AtSpoolEnd > 0)
            Number(json, "at spool end", target.AtSpoolEnd);
        json.WriteEndObject();
    }

    private static void Names(Utf8JsonWriter json, Reading reading)
    {
        json.WriteString("read", reading.Name);
        if (reading.Position is { } at)
            json.WriteNumber("at", at);
        if (reading is Reading.Scale scale)
            Number(json, "station", scale.Station);
    }

    private static string Key(Reading reading) => reading switch
    {
        Reading.FaceLevelAlong => "along",
        Reading.FaceLevelAcross => "across",
        { IsAngle: true } => "deg",
        _ => "mm",
    };

    private static void Write(Utf8JsonWriter json, StandingJoint joint, Diagnosis found, IReadOnlyList<string> say)
    {
        json.WriteStartObject("error");
        for (var i = 0; i < 6; i++)
            Number(json, PoseError.Names[i], FitRecord.Shown(found.Error[i], i));
        json.WriteEndObject();
        json.WriteStartObject("sd");
        for (var i = 0; i < 6; i++)
            Number(json, PoseError.Names[i], FitRecord.Shown(found.Sd[i], i));
        json.WriteEndObject();
        Strings(json, "unseen", found.Unseen.Select(i => PoseError.Names[i]));
        json.WriteBoolean("within", found.Within);
        json.WriteString("verdict", Remedy.Of(found.Verdict));
        Write(json, "gaps", Remedy.Gaps(joint, found.Error));
        Write(json, "change", Remedy.Change(joint, found.Error));
        Number(json, "roll round pipe", Remedy.RollAround(joint, found.Error));
        json.WriteStartArray("again");
        foreach (var taken in found.Again.Concat(found.Alike))
        {
            json.WriteStartObject();
            Names(json, taken.Reading);
            Number(json, Key(taken.Reading), Shown(taken.Reading, taken.Value));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (found.Next.Count > 0)
        {
            json.WriteString("next", found.Next[0].Text);
            Strings(json, "next as a set", found.Next.Select(r => r.Text));
        }

        if (found.Outside.Count > 0)
            Strings(json, "outside", found.Outside.Select(t => t.Reading.Text).Distinct());
        Strings(json, "say", say);
    }

    private static void Write(Utf8JsonWriter json, string name, IReadOnlyDictionary<int, double> at)
    {
        json.WriteStartObject(name);
        foreach (var q in StandingJoint.Clock)
            Number(json, q.ToString(CultureInfo.InvariantCulture), at[q]);
        json.WriteEndObject();
    }

    internal static void Write(Utf8JsonWriter json, string name, FitTolerance tolerance)
    {
        json.WriteStartObject(name);
        Limit("tilt", Angles.ToDegrees(tolerance.Tilt.Value), tolerance.Tilt.Source);
        if (double.IsFinite(tolerance.Roll.Value))
            Limit("roll", Angles.ToDegrees(tolerance.Roll.Value), tolerance.Roll.Source);
        Limit("offset", tolerance.Shift.Value, tolerance.Shift.Source);
        Limit("gap", tolerance.Gap.Value, tolerance.Gap.Source);
        json.WriteEndObject();

        void Limit(string what, double value, string source)
        {
            json.WriteStartObject(what);
            Number(json, "allow", value);
            json.WriteString("source", source);
            json.WriteEndObject();
        }
    }

    internal static void Strings(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
            json.WriteStringValue(text);
        json.WriteEndArray();
    }

    // A millionth of a millimetre or a degree is enough to compare by.
    internal static void Number(Utf8JsonWriter json, string name, double value) => json.WriteNumber(name, Math.Round(value, 6) + 0.0);

    private static double Shown(Reading reading, double value) => reading.IsAngle ? Angles.ToDegrees(value) : value;
}
