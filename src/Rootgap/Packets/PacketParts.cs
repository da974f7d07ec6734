using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>What the line is made of, as <c>packet.json</c> has it: runs, components, supports, pads and the joints between them.</summary>
internal static class PacketParts
{
    public static void Write(Utf8JsonWriter json, RunLine run)
    {
        json.WriteStartObject();
        json.WriteString("run", run.Run.Name);
        json.WriteStartArray("points");
        foreach (var point in run.Points)
        {
            json.WriteStartObject();
            json.Coordinates(point - Point.Origin);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, Fabrication f, Component c)
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
            json.Number("mass", mass.Kg);
            json.WriteString("mass source", Wording.Of(mass.Origin));
        }

        if (c is Flange { HoleLine: { } line } flange)
        {
            json.WriteStartObject("holes straddle");
            json.Coordinates(line, PacketFigures.DirectionDecimals);
            if (flange.Orientation.Turn != 0)
                json.Number("turned", Angles.ToDegrees(flange.Orientation.Turn));
            // Not straddled: a hole stands on the line itself.
            if (flange.Orientation.OnCentre)
                json.WriteBoolean("on centre", true);
            json.WriteEndObject();
        }

        json.WriteStartArray("ports");
        foreach (var port in c.Ports)
        {
            json.WriteStartObject();
            json.Coordinates(port.At - Point.Origin);
            json.WriteStartObject(PacketFigures.Face);
            json.Coordinates(port.Face, PacketFigures.DirectionDecimals);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The pipe that a bend is made of, and how it is marked or cut.</summary>
    public static void Write(Utf8JsonWriter json, Fabrication f, MadeBend bend)
    {
        json.WriteStartObject("made of pipe");
        json.WriteString("piece", f.MadeBends.First(b => b.Bend.Id == bend.Id).Piece);
        json.WriteString("size", bend.Size.ToString());
        json.WriteString("schedule", bend.Line.Schedule.ToString());
        if (bend.Line.Material.Length > 0)
            json.WriteString("material", bend.Line.Material);
        json.Number("length", bend.PipeLength);
        json.WriteStartArray("ends");
        json.WriteStringValue("bevel");
        json.WriteStringValue("bevel");
        json.WriteEndArray();
        if (bend.IsMitred)
        {
            json.Number("cut angle", Angles.ToDegrees(bend.Cut));
            Piece("end pieces", 2, isEnd: true);
            if (bend.Cuts > 1)
                Piece("middle pieces", bend.Cuts - 1, isEnd: false);
        }
        else
        {
            json.Number("bend begins", bend.Marks.Begin);
            json.Number("bend ends", bend.Marks.End);
        }

        json.WriteEndObject();

        void Piece(string name, int count, bool isEnd)
        {
            var (heel, middle, throat) = bend.Piece(isEnd);
            json.WriteStartObject(name);
            json.WriteNumber("count", count);
            json.Number("heel", heel);
            json.Number("middle", middle);
            json.Number("throat", throat);
            json.WriteEndObject();
        }
    }

    public static void Write(Utf8JsonWriter json, Bent bent)
    {
        json.Number("angle", Angles.ToDegrees(bent.Turn));
        if (bent.Radius is not { } radius)
            return;
        json.Number("radius", radius);
        // Without it a chain built from radius and turn would miss the ends.
        if (bent.StraightEnd > Tolerance.Noise)
            json.Number("straight", bent.StraightEnd);
        if (!bent.IsCut)
            return;
        var half = bent.Outside / 2;
        json.WriteStartObject("cut from stock");
        json.Number("throat", (radius - half) * bent.Turn);
        json.Number("middle", radius * bent.Turn);
        json.Number("back", (radius + half) * bent.Turn);
        json.WriteEndObject();
    }

    /// <summary>The word of the file for a kind of joint.</summary>
    public static string WordOf(JointKind kind) => kind switch
    {
        JointKind.Butt => "butt",
        JointKind.Socket => "socket",
        JointKind.Fillet => "fillet",
        JointKind.Branch => "branch",
        JointKind.Threaded => "threaded",
        JointKind.Attachment => "attachment",
        _ => "bolted",
    };

    public static void Write(Utf8JsonWriter json, Fabrication f, Joint joint)
    {
        json.WriteStartObject();
        json.WriteString("joint", joint.Id);
        json.Text("office", joint.Office);
        json.WriteString("kind", WordOf(joint.Kind));
        json.WriteString("place", Words.Of(joint.Place));
        json.WriteString("size", joint.Size.ToString());
        if (joint.Wall > 0)
            json.Number("wall", joint.Wall);
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
        json.Coordinates(joint.At - Point.Origin);
        json.WriteEndObject();
        if (joint.Gap > 0)
            json.Number("gap", joint.Gap);
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, Fabrication f, Support s)
    {
        json.WriteStartObject();
        json.WriteString("support", s.Id);
        json.Text("tag", s.Drawn.Tag);
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
        json.Coordinates(s.At - Point.Origin);
        json.WriteEndObject();
        if (s.Side is { } side)
        {
            json.WriteStartObject("side");
            json.Coordinates(side, PacketFigures.DirectionDecimals);
            json.WriteEndObject();
        }

        json.WriteBoolean("carries", s.Carries);
        json.Number("underside", s.Underside);
        if (s.Steel is { } steel)
            json.Number("steel", steel);
        if (s.Drawn.Length is { } length)
            json.Number("length", length);
        if (s.Mass is { } mass)
            json.Number("mass", mass.Kg);
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, Fabrication f, Pad pad)
    {
        json.WriteStartObject();
        json.WriteString("pad", pad.Id);
        json.WriteString("weld", pad.Weld.Id);
        json.Text("branch", pad.Branch ?? "");
        json.WriteString("size", pad.Size.ToString());
        if (pad.Item is { } item)
            json.WriteNumber("item", item.Item);
        json.WriteString("pipe", pad.Pipe);
        if (pad.IsOfSpool && f.SpoolOf.TryGetValue(pad.Pipe, out var spool))
            json.WriteString("spool", spool);
        json.WriteString("run", f.Route.Runs[pad.Run].Run.Name);
        json.WriteNumber("leg", pad.Leg);
        if (pad.Width is { } width)
            json.Number("width", width);
        json.Number("thickness", pad.Thickness);
        if (pad.Mass is { } mass)
            json.Number("mass", mass.Kg);
        json.WriteEndObject();
    }
}
