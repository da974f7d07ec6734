using System.Text.Encodings.Web;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>Writes <c>packet.json</c>: the contract that other programs read. Lengths mm, masses kg, angles degrees; what is not known is left out.</summary>
public static class PacketJson
{
    /// <summary>Lengths, masses and angles to 0.0001; directions to a nano-radian, since they may be drawn out over metres.</summary>
    private const int Decimals = 4;

    private const int DirectionDecimals = 9;

    private static readonly JsonEncodedText East = JsonEncodedText.Encode("east");
    private static readonly JsonEncodedText North = JsonEncodedText.Encode("north");
    private static readonly JsonEncodedText Up = JsonEncodedText.Encode("up");
    private static readonly JsonEncodedText Face = JsonEncodedText.Encode("face");

    /// <summary>How our JSON is written: plain letters as they are, and no second look at a structure that the code fixes.</summary>
    public static JsonWriterOptions Writing { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true };

    /// <summary>Begins the file; one packet a drawing follows, then <see cref="End"/>.</summary>
    public static void Begin(Utf8JsonWriter json, string version)
    {
        json.WriteStartObject();
        json.WriteString("rootgap", version);
        json.WriteStartArray("drawings");
    }

    public static void End(Utf8JsonWriter json)
    {
        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
    }

    public static void Write(Utf8JsonWriter json, Packet packet)
    {
        var drawing = packet.Drawing;
        json.WriteStartObject();
        json.WriteString("drawing", drawing.Number);
        Text(json, "revision", drawing.Revision);
        Text(json, "title", drawing.Title);
        json.WriteString("units", drawing.Units == Units.Inches ? "in" : "mm");
        json.WriteBoolean("buildable", packet.IsBuildable);
        var data = drawing.Service.LineData(drawing.Units).ToList();
        if (data.Count > 0)
        {
            json.WriteStartObject("line data");
            foreach (var (key, says) in data)
                json.WriteString(key, says);
            json.WriteEndObject();
        }

        json.WriteStartArray("findings");
        foreach (var finding in packet.Findings)
            Write(json, finding);
        json.WriteEndArray();
        if (packet.Fabrication is { } f)
            Body(json, f);
        json.WriteEndObject();
    }

    /// <summary>One finding, as in the packet and in the output of <c>check --json</c>.</summary>
    public static void Write(Utf8JsonWriter json, Finding finding)
    {
        json.WriteStartObject();
        json.WriteString("rule", finding.Rule);
        json.WriteString("severity", finding.Severity switch { Severity.Stop => "stop", Severity.Warn => "warn", _ => "note" });
        json.WriteString("at", finding.At.ToString());
        Text(json, "file", finding.Where.File ?? "");
        if (finding.Where.IsKnown)
        {
            json.WriteNumber("line", finding.Where.Line);
            json.WriteNumber("column", finding.Where.Column);
        }

        json.WriteString("message", finding.Message);
        Text(json, "otherwise", finding.Otherwise);
        json.WriteString("remedy", finding.Remedy);
        if (finding.Change is { } change)
            json.WriteString("fix", change.Says);
        if (finding.AcceptedBecause is { } why)
            json.WriteString("accepted", why);
        json.WriteEndObject();
    }

    private static void Body(Utf8JsonWriter json, Fabrication f)
    {
        var route = f.Route;
        json.WriteStartArray("runs");
        foreach (var run in route.Runs)
            Write(json, run);
        json.WriteEndArray();
        json.WriteStartArray("components");
        foreach (var c in route.Components)
            Write(json, f, c);
        json.WriteEndArray();
        json.WriteStartArray("cuts");
        foreach (var cut in f.Cuts)
            Write(json, route, cut);
        json.WriteEndArray();
        json.WriteStartArray("joints");
        foreach (var joint in route.Joints)
            Write(json, f, joint);
        json.WriteEndArray();
        if (route.Attachments.Any())
        {
            // Welds of what is put on a pipe part nothing: whoever counts the joints of the line counts none of them.
            json.WriteStartArray("attachments");
            foreach (var joint in route.Attachments)
                Write(json, f, joint);
            json.WriteEndArray();
        }

        if (route.Supports.Count > 0)
        {
            json.WriteStartArray("supports");
            foreach (var support in route.Supports)
                Write(json, f, support);
            json.WriteEndArray();
        }

        if (route.Pads.Count > 0)
        {
            json.WriteStartArray("pads");
            foreach (var pad in route.Pads)
                Write(json, f, pad);
            json.WriteEndArray();
        }

        json.WriteStartArray("spools");
        foreach (var spool in f.Spools)
            Write(json, spool);
        json.WriteEndArray();
        json.WriteStartArray("materials");
        foreach (var row in f.Materials)
            Write(json, row);
        json.WriteEndArray();
        json.WriteStartArray("bolting");
        foreach (var set in f.Bolting)
            Write(json, set);
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, RunLine run)
    {
        json.WriteStartObject();
        json.WriteString("run", run.Run.Name);
        json.WriteStartArray("points");
        foreach (var point in run.Points)
        {
            json.WriteStartObject();
            Coordinates(json, point - Point.Origin);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Fabrication f, Component c)
    {
        json.WriteStartObject();
        json.WriteString("id", c.Id);
        json.WriteString("kind", c.Word);
        json.WriteString("name", c.Name);
        json.WriteString("size", c.Size.ToString());
        if (!c.Size2.IsNone)
            json.WriteString("size 2", c.Size2.ToString());
        if (c.Item is { } item)
        {
            json.WriteNumber("item", item.Item);
            if (c.IsItemGuessed)
                json.WriteBoolean("item guessed", value: true);
        }

        if (f.SpoolOf.TryGetValue(c.Id, out var spool))
            json.WriteString("spool", spool);
        json.WriteString("run", f.Route.Runs[c.Run].Run.Name);
        if (c.Leg >= 0)
            json.WriteNumber("leg", c.Leg);
        if (c is Bent bent)
            Write(json, bent);
        if (c is MadeBend made)
            Write(json, f, made);

        if (f.Masses.TryGetValue(c.Id, out var mass))
        {
            Number(json, "mass", mass.Kg);
            json.WriteString("mass source", Wording.Of(mass.Origin));
        }

        if (c is Flange { HoleLine: { } line } flange)
        {
            json.WriteStartObject("holes straddle");
            Coordinates(json, line, DirectionDecimals);
            if (flange.Orientation.Turn != 0)
                Number(json, "turned", Angles.ToDegrees(flange.Orientation.Turn));
            // Not straddled: a hole stands on the line itself.
            if (flange.Orientation.OnCentre)
                json.WriteBoolean("on centre", true);
            json.WriteEndObject();
        }

        json.WriteStartArray("ports");
        foreach (var port in c.Ports)
        {
            json.WriteStartObject();
            Coordinates(json, port.At - Point.Origin);
            json.WriteStartObject(Face);
            Coordinates(json, port.Face, DirectionDecimals);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The pipe that a bend is made of, and how it is marked or cut.</summary>
    private static void Write(Utf8JsonWriter json, Fabrication f, MadeBend bend)
    {
        json.WriteStartObject("made of pipe");
        json.WriteString("piece", f.MadeBends.First(b => b.Bend.Id == bend.Id).Piece);
        json.WriteString("size", bend.Size.ToString());
        json.WriteString("schedule", bend.Line.Schedule.ToString());
        if (bend.Line.Material.Length > 0)
            json.WriteString("material", bend.Line.Material);
        Number(json, "length", bend.PipeLength);
        json.WriteStartArray("ends");
        json.WriteStringValue("bevel");
        json.WriteStringValue("bevel");
        json.WriteEndArray();
        if (bend.IsMitred)
        {
            Number(json, "cut angle", Angles.ToDegrees(bend.Cut));
            Piece("end pieces", 2, isEnd: true);
            if (bend.Cuts > 1)
                Piece("middle pieces", bend.Cuts - 1, isEnd: false);
        }
        else
        {
            Number(json, "bend begins", bend.Marks.Begin);
            Number(json, "bend ends", bend.Marks.End);
        }

        json.WriteEndObject();

        void Piece(string name, int count, bool isEnd)
        {
            var (heel, middle, throat) = bend.Piece(isEnd);
            json.WriteStartObject(name);
            json.WriteNumber("count", count);
            Number(json, "heel", heel);
            Number(json, "middle", middle);
            Number(json, "throat", throat);
            json.WriteEndObject();
        }
    }

    private static void Write(Utf8JsonWriter json, Bent bent)
    {
        Number(json, "angle", Angles.ToDegrees(bent.Turn));
        if (bent.Radius is not { } radius)
            return;
        Number(json, "radius", radius);
        // Without it a chain built from radius and turn would miss the ends.
        if (bent.StraightEnd > Tolerance.Noise)
            Number(json, "straight", bent.StraightEnd);
        if (!bent.IsCut)
            return;
        var half = bent.Outside / 2;
        json.WriteStartObject("cut from stock");
        Number(json, "throat", (radius - half) * bent.Turn);
        Number(json, "middle", radius * bent.Turn);
        Number(json, "back", (radius + half) * bent.Turn);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Route route, Cut cut)
    {
        var pipe = cut.Pipe;
        json.WriteStartObject();
        json.WriteString("piece", cut.Piece);
        json.WriteString("id", pipe.Id);
        json.WriteString("spool", cut.Spool);
        if (pipe.Item is { } item)
            json.WriteNumber("item", item.Item);
        json.WriteString("run", route.Runs[pipe.Run].Run.Name);
        json.WriteNumber("leg", pipe.FirstLeg);
        if (pipe.LastLeg != pipe.FirstLeg)
            json.WriteNumber("last leg", pipe.LastLeg);
        json.WriteString("size", pipe.Size.ToString());
        json.WriteString("schedule", pipe.Line.Schedule.ToString());
        Text(json, "material", pipe.Line.Material);
        if (!cut.IsCut)
            json.WriteBoolean("nipple", value: true);
        Number(json, "length", cut.Length);
        Number(json, "extra", cut.Extra);
        if (cut.Saddle > 0)
        {
            Number(json, "saddle", cut.Saddle);
            Number(json, "saw", cut.SawLength);
        }

        Number(json, "mass", cut.Mass);
        json.WriteStartArray("ends");
        json.WriteStringValue(cut.AtStart.Word);
        json.WriteStringValue(cut.AtEnd.Word);
        json.WriteEndArray();
        json.WriteStartArray("sum");
        foreach (var term in cut.Sum)
        {
            json.WriteStartObject();
            json.WriteString("what", term.What);
            Number(json, "mm", term.Mm);
            Text(json, "source", Wording.Of(term.Origin));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("ports");
        foreach (var (at, face) in new[] { (pipe.Start, -pipe.Direction), (pipe.End, pipe.Direction) })
        {
            json.WriteStartObject();
            Coordinates(json, at - Point.Origin);
            json.WriteStartObject(Face);
            Coordinates(json, face, DirectionDecimals);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The word of the file for a kind of joint.</summary>
    internal static string WordOf(JointKind kind) => kind switch
    {
        JointKind.Butt => "butt",
        JointKind.Socket => "socket",
        JointKind.Fillet => "fillet",
        JointKind.Branch => "branch",
        JointKind.Threaded => "threaded",
        JointKind.Attachment => "attachment",
        _ => "bolted",
    };

    private static void Write(Utf8JsonWriter json, Fabrication f, Joint joint)
    {
        json.WriteStartObject();
        json.WriteString("joint", joint.Id);
        Text(json, "office", joint.Office);
        json.WriteString("kind", WordOf(joint.Kind));
        json.WriteString("place", Words.Of(joint.Place));
        json.WriteString("size", joint.Size.ToString());
        if (joint.Wall > 0)
            Number(json, "wall", joint.Wall);
        json.WriteStartArray("between");
        foreach (var id in joint.Between)
            json.WriteStringValue(id);
        json.WriteEndArray();
        if (joint is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted } && f.SpoolOf.TryGetValue(joint.Between[0], out var spool))
            json.WriteString("spool", spool);
        json.WriteString("run", f.Route.Runs[joint.Run].Run.Name);
        if (joint.Leg >= 0)
            json.WriteNumber("leg", joint.Leg);
        json.WriteStartObject("at");
        Coordinates(json, joint.At - Point.Origin);
        json.WriteEndObject();
        if (joint.Gap > 0)
            Number(json, "gap", joint.Gap);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Fabrication f, Support s)
    {
        json.WriteStartObject();
        json.WriteString("support", s.Id);
        Text(json, "tag", s.Drawn.Tag);
        json.WriteString("kind", s.Name);
        json.WriteString("attach", s.Drawn.IsWelded ? "welded" : "clamped");
        if (s.Weld is { } weld)
            json.WriteString("weld", weld.Id);
        json.WriteString("size", s.Size.ToString());
        if (s.Item is { } item)
        {
            json.WriteNumber("item", item.Item);
            if (s.IsItemGuessed)
                json.WriteBoolean("item guessed", value: true);
        }

        json.WriteString("pipe", s.Pipe);
        if (f.SpoolOf.TryGetValue(s.Pipe, out var spool))
            json.WriteString("spool", spool);
        json.WriteString("run", f.Route.Runs[s.Run].Run.Name);
        json.WriteNumber("leg", s.Leg);
        json.WriteStartObject("at");
        Coordinates(json, s.At - Point.Origin);
        json.WriteEndObject();
        if (s.Side is { } side)
        {
            json.WriteStartObject("side");
            Coordinates(json, side, DirectionDecimals);
            json.WriteEndObject();
        }

        json.WriteBoolean("carries", s.Carries);
        Number(json, "underside", s.Underside);
        if (s.Steel is { } steel)
            Number(json, "steel", steel);
        if (s.Drawn.Length is { } length)
            Number(json, "length", length);
        if (s.Mass is { } mass)
            Number(json, "mass", mass.Kg);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Fabrication f, Pad pad)
    {
        json.WriteStartObject();
        json.WriteString("pad", pad.Id);
        json.WriteString("weld", pad.Weld.Id);
        Text(json, "branch", pad.Branch ?? "");
        json.WriteString("size", pad.Size.ToString());
        if (pad.Item is { } item)
            json.WriteNumber("item", item.Item);
        json.WriteString("pipe", pad.Pipe);
        if (pad.IsOfSpool && f.SpoolOf.TryGetValue(pad.Pipe, out var spool))
            json.WriteString("spool", spool);
        json.WriteString("run", f.Route.Runs[pad.Run].Run.Name);
        json.WriteNumber("leg", pad.Leg);
        if (pad.Width is { } width)
            Number(json, "width", width);
        Number(json, "thickness", pad.Thickness);
        if (pad.Mass is { } mass)
            Number(json, "mass", mass.Kg);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Spool spool)
    {
        json.WriteStartObject();
        json.WriteString("spool", spool.Name);
        Number(json, "mass", spool.Mass);
        if (spool.Unweighed.Count > 0)
            Ids(json, "unweighed", spool.Unweighed);
        json.WriteStartObject("centre");
        Coordinates(json, spool.CentreOfMass - Point.Origin);
        json.WriteEndObject();
        json.WriteStartArray("box");
        foreach (var side in new[] { spool.Box.X, spool.Box.Y, spool.Box.Z })
            Number(json, side);
        json.WriteEndArray();
        Ids(json, "pieces", spool.Cuts.Select(c => c.Piece));
        Ids(json, "components", spool.Components.Select(c => c.Id));
        Ids(json, "joints", spool.Joints.Select(j => j.Id));
        if (spool.Attachments.Any())
            Ids(json, "attachments", spool.Attachments.Select(j => j.Id));
        if (spool.Supports.Count > 0)
            Ids(json, "supports", spool.Supports.Select(s => s.Id));
        Number(json, "paint area m2", spool.PaintArea / 1e6);
        Number(json, "content litres", spool.Content / 1e6);
        json.WriteStartArray("lengths");
        foreach (var l in spool.Lengths)
        {
            json.WriteStartObject();
            json.WriteNumber("leg", l.Leg);
            Number(json, "as fitted", l.AsFitted);
            json.WriteNumber("welds", l.Welds);
            Number(json, "after welding low", l.Low);
            Number(json, "after welding high", l.High);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, MaterialRow row)
    {
        json.WriteStartObject();
        if (row.Item is { } item)
            json.WriteNumber("item", item.Item);
        json.WriteString("what", row.What);
        if (!row.Size.IsNone)
            json.WriteString("size", row.Size2.IsNone ? row.Size.ToString() : $"{row.Size} x {row.Size2}");
        if (row.Item is null)
            json.WriteNumber("listed", 0);
        else if (row.Listed is { } listed)
            Number(json, "listed", listed);
        Number(json, "needed", row.Needed);
        json.WriteString("unit", row.IsLength ? "m" : "each");
        if ((row.Item is null ? -row.Needed : row.Difference) is { } difference)
            Number(json, "difference", difference);
        Ids(json, "used by", row.UsedBy);
        if (row.IsGuess)
            json.WriteBoolean("guessed", value: true);
        if (row.Disagreements.Count > 0)
            Ids(json, "disagreements", row.Disagreements);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, BoltSet set)
    {
        json.WriteStartObject();
        json.WriteString("joint", set.Joint.Id);
        json.WriteString("size", set.Size.ToString());
        json.WriteNumber("count", set.Count);
        if (set.Length > 0)
            Number(json, "length", set.Length);
        json.WriteEndObject();
    }

    private static void Ids(Utf8JsonWriter json, string name, IEnumerable<string> ids)
    {
        json.WriteStartArray(name);
        foreach (var id in ids)
            json.WriteStringValue(id);
        json.WriteEndArray();
    }

    private static void Coordinates(Utf8JsonWriter json, Vector v, int decimals = Decimals)
    {
        json.WritePropertyName(East);
        Number(json, v.X, decimals);
        json.WritePropertyName(North);
        Number(json, v.Y, decimals);
        json.WritePropertyName(Up);
        Number(json, v.Z, decimals);
    }

    private static void Number(Utf8JsonWriter json, string name, double value)
    {
        json.WritePropertyName(name);
        Number(json, value);
    }

    /// <summary>A number to so many decimals, written as digits: finding the shortest form of a double takes longer than all else here.</summary>
    private static void Number(Utf8JsonWriter json, double value, int decimals = Decimals)
    {
        var scaled = Math.Round(value * (decimals == Decimals ? 1e4 : 1e9), MidpointRounding.AwayFromZero);
        if (!(Math.Abs(scaled) < 1e18))
        {
            json.WriteNumberValue(value);
            return;
        }

        Span<byte> digits = stackalloc byte[24];
        var number = (ulong)Math.Abs((long)scaled);
        var at = digits.Length;
        var isFraction = false;
        for (var place = 0; place <= decimals || number > 0; place++)
        {
            var digit = (byte)('0' + (number % 10));
            number /= 10;
            if (place == decimals && isFraction)
                digits[--at] = (byte)'.';
            isFraction |= digit != '0';
            if (place >= decimals || isFraction)
                digits[--at] = digit;
        }

        if (scaled < 0)
            digits[--at] = (byte)'-';
        json.WriteRawValue(digits[at..], skipInputValidation: true);
    }

    private static void Text(Utf8JsonWriter json, string name, string value)
    {
        if (value.Length > 0)
            json.WriteString(name, value);
    }
}
