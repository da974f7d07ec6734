using System.Globalization;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Cli.Commands;

/// <summary>The result of <c>rootgap fit</c>, as JSON and as text. Lengths mm, angles degrees.</summary>
internal static class FitOutput
{
    public static void Write(Utf8JsonWriter json, StandingJoint joint, FitTolerance tolerance, IReadOnlyList<Target> targets, Diagnosis? found, IReadOnlyList<string> say)
    {
        json.WriteStartObject();
        json.WriteString("joint", joint.Joint.Name);
        json.WriteString("set-up", joint.SetUp.Word);
        json.WriteString("held", joint.Joint.Held.Id);
        json.WriteString("new", joint.Joint.New.Id);
        Number(json, "mark", joint.Mark);
        Frame(json, joint);
        json.WriteStartArray("targets");
        foreach (var target in targets)
            Write(json, target);
        json.WriteEndArray();
        Write(json, "limits", tolerance);
        if (joint.SetUp.Stands.Count > 0)
        {
            json.WriteStartArray("stands");
            foreach (var stand in joint.SetUp.Stands)
            {
                json.WriteStartObject();
                Number(json, "from weld", stand.FromWeld);
                Number(json, "load", stand.Load);
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        if (joint.SetUp.Cautions.Count > 0)
            Strings(json, "cautions", joint.SetUp.Cautions);
        if (found is not null)
            Write(json, joint, found, say);
        json.WriteEndObject();
    }

    // The joint's axes in plant directions, so that another program can place the same joint.
    private static void Frame(Utf8JsonWriter json, StandingJoint joint)
    {
        json.WriteStartObject("frame");
        Place(json, "centre", joint.Joint.Centre.X, joint.Joint.Centre.Y, joint.Joint.Centre.Z);
        foreach (var (name, v) in (IEnumerable<(string, Vector)>)[("x", joint.Three), ("y", joint.Twelve), ("z", joint.Axis), ("up", joint.SetUp.Up)])
            Place(json, name, v.X, v.Y, v.Z);
        if (joint.Joint.Far is { } far)
        {
            Place(json, "face", far.Centre.X, far.Centre.Y, far.Centre.Z);
            Place(json, "normal", far.Normal.X, far.Normal.Y, far.Normal.Z);
            Number(json, "face outside", far.Outside);
        }
        Number(json, "gap", joint.Joint.Gap);
        Number(json, "outside", joint.Joint.Outside);
        Number(json, "inside", joint.Joint.Inside);
        json.WriteEndObject();
    }

    private static void Place(Utf8JsonWriter json, string name, double x, double y, double z)
    {
        json.WriteStartObject(name);
        json.WriteNumber("east", Math.Round(x, 6) + 0.0);
        json.WriteNumber("north", Math.Round(y, 6) + 0.0);
        json.WriteNumber("up", Math.Round(z, 6) + 0.0);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Target target)
    {
        var reading = target.Reading;
        json.WriteStartObject();
        Names(json, reading);
        Number(json, Key(reading), Shown(reading, target.Value));
        Number(json, "allow", Shown(reading, target.Allow));
        Number(json, "sd", Shown(reading, reading.Sd));
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
        if (found.Next is { } next)
            json.WriteString("next", next.Text);
        Strings(json, "say", say);
    }

    private static void Write(Utf8JsonWriter json, string name, IReadOnlyDictionary<int, double> at)
    {
        json.WriteStartObject(name);
        foreach (var q in StandingJoint.Clock)
            Number(json, q.ToString(CultureInfo.InvariantCulture), at[q]);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, string name, FitTolerance tolerance)
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

    private static void Strings(Utf8JsonWriter json, string name, IEnumerable<string> texts)
    {
        json.WriteStartArray(name);
        foreach (var text in texts)
            json.WriteStringValue(text);
        json.WriteEndArray();
    }

    // A millionth of a millimetre or a degree is enough to compare by.
    private static void Number(Utf8JsonWriter json, string name, double value) => json.WriteNumber(name, Math.Round(value, 6) + 0.0);

    private static string Show(Reading reading, double value) => reading.IsAngle ? Text($"{Angles.ToDegrees(value):0.00}") : Text($"{value:0.0}");

    private static double Shown(Reading reading, double value) => reading.IsAngle ? Angles.ToDegrees(value) : value;

    public static void Print(
        TextWriter to, StandingJoint joint, FitTolerance tolerance, IReadOnlyList<Target> targets, IReadOnlyList<Taken>? taken, Diagnosis? found, IReadOnlyList<string> say)
    {
        var j = joint.Joint;
        to.WriteLine(Text($"{j.Name}  NPS {j.Size}  {j.Held.Kind} {j.Held.Id} held, {j.New.Kind} {j.New.Id} brought to it; {joint.SetUp.Word}, root gap {j.Gap:0.0}{(joint.HasMarks ? Text($", marks {joint.Mark:0} back") : "")}"));
        foreach (var caution in joint.SetUp.Cautions)
            to.WriteLine("  mind: " + caution + ".");
        foreach (var stand in joint.SetUp.Stands)
            to.WriteLine(Text($"  stand {stand.FromWeld:0} mm back from the weld, carries {stand.Load:0} kg"));
        to.WriteLine();
        to.WriteLine($"  {"reading",-22}{"should be",11}{"allowed",9}{"in line",9}{"read",10}   seen with");
        foreach (var target in targets)
        {
            var r = target.Reading;
            var unit = r.IsAngle ? "°" : " ";
            var read = taken?.FirstOrDefault(t => t.Reading == r);
            var again = found is not null && read is not null && found.Again.Contains(read) ? " ?" : "";
            to.WriteLine(Text($"  {r.Text,-22}{Show(r, target.Value),10}{unit}{Show(r, target.Allow),8}{unit}{(target.InLine is { } l ? Text($"{Angles.ToDegrees(l):0.00}°") : ""),9}{(read is null ? "" : Show(r, read.Value) + again),10}   {r.SeenWith}"));
        }
        if (j.BranchAt is var (along, round))
            to.WriteLine(Text($"  branch centre {along:0.0} mm from the far end of {j.Held.Id}, {round:0.0} mm round its outside from the top as drawn, clockwise from that end"));
        if (j.Holes is { } holes)
            to.WriteLine(Text($"  pins: {holes.ReadAcross:0.0} apart{(holes.MidHeight ? " (left and right, near mid-height)" : "")}; the chord between neighbours is {holes.Chord:0.0}, half of it {holes.Chord / 2:0.0}"));
        to.WriteLine(Text($"  limits: face {Angles.ToDegrees(tolerance.Tilt.Value):0.00}° ({tolerance.Tilt.Source}); step {tolerance.Shift.Value:0.0} mm ({tolerance.Shift.Source}); gap {tolerance.Gap.Value:0.0} mm ({tolerance.Gap.Source})"));
        if (found is null)
            return;
        to.WriteLine();
        for (var i = 0; i < 6; i++)
        {
            var (value, sd) = (FitRecord.Shown(found.Error[i], i), FitRecord.Shown(found.Sd[i], i));
            to.WriteLine(found.Unseen.Contains(i)
                ? Text($"  {Remedy.Words[i],-30} not seen by these readings")
                : Text($"  {Remedy.Words[i],-30}{value,8:0.00} ± {sd:0.00} {(i < 3 ? "mm" : "degrees")}"));
        }
        to.WriteLine();
        foreach (var line in say)
            to.WriteLine("  " + line);
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
