using System.Globalization;
using System.Text;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What was read at a joint and what was said of it, as one entry of the joint's record. A joint measured again gets another entry; nothing is overwritten.</summary>
public static class FitRecord
{
    /// <summary>The entry as YAML, to be appended to the record.</summary>
    public static string Entry(StandingJoint joint, IReadOnlyList<Taken> taken, Diagnosis found, IReadOnlyList<string> say, string drawing, string revision, DateTimeOffset at)
    {
        var text = new StringBuilder();
        var c = CultureInfo.InvariantCulture;
        text.Append(c, $"- joint: {joint.Joint.Name}\n  drawing: {Quoted(drawing)}\n  revision: {Quoted(revision)}\n  taken: {Quoted(at.ToString("yyyy-MM-ddTHH:mm:sszzz", c))}\n");
        text.Append(c, $"{(joint.Joint.IsWelded ? "  state: welded\n" : "")}  set-up: {joint.SetUp.Word}\n  held: {joint.Joint.Held.Id}\n  new: {joint.Joint.New.Id}\n  mark: {joint.Mark:0.###}\n  readings:\n");
        foreach (var t in taken)
            text.Append(c, $"    - {Line(t)}\n");
        text.Append("  error: {");
        for (var i = 0; i < 6; i++)
            text.Append(c, $"{(i > 0 ? ", " : "")}{PoseError.Names[i]}: {Shown(found.Error[i], i):0.####}");
        text.Append("}\n  sd: {");
        for (var i = 0; i < 6; i++)
            text.Append(c, $"{(i > 0 ? ", " : "")}{PoseError.Names[i]}: {Shown(found.Sd[i], i):0.####}");
        text.Append(c, $"}}\n  unseen: [{string.Join(", ", found.Unseen.Select(i => PoseError.Names[i]))}]\n  within: {(found.Within ? "true" : "false")}\n  say:\n");
        foreach (var line in say)
            text.Append("    - ").Append(Quoted(line)).Append('\n');
        return text.ToString();
    }

    /// <summary>A reading as a readings file has it.</summary>
    public static string Line(Taken taken)
    {
        var reading = taken.Reading;
        var value = reading.IsAngle ? Angles.ToDegrees(taken.Value) : taken.Value;
        var sd = taken.Sd is { } s ? FormattableString.Invariant($", sd: {(reading.IsAngle ? Angles.ToDegrees(s) : s):0.####}") : "";
        return reading switch
        {
            Reading.FaceLevelAlong => FormattableString.Invariant($"{{read: face level, along: {value:0.####}{sd}}}"),
            Reading.FaceLevelAcross => FormattableString.Invariant($"{{read: face level, across: {value:0.####}{sd}}}"),
            { IsAngle: true } => FormattableString.Invariant($"{{read: {reading.Name}, deg: {value:0.####}{sd}}}"),
            Reading.Scale scale => FormattableString.Invariant($"{{read: scale to pipe, station: {scale.Station:0.###}, mm: {value:0.####}{sd}}}"),
            { Position: { } at } => FormattableString.Invariant($"{{read: {reading.Name}, at: {at}, mm: {value:0.####}{sd}}}"),
            _ => FormattableString.Invariant($"{{read: {reading.Name}, mm: {value:0.####}{sd}}}"),
        };
    }

    /// <summary>A component of an error as people and files have it: mm and degrees.</summary>
    public static double Shown(double value, int component) => component < 3 ? value : Angles.ToDegrees(value);

    private static string Quoted(string text) => "\"" + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";
}
