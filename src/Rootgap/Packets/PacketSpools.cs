using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>What the shop makes of the line, as <c>packet.json</c> has it: pieces with their sums, spools, material and bolts.</summary>
internal static class PacketSpools
{
    public static void Write(Utf8JsonWriter json, Route route, Cut cut)
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
        json.Text("material", pipe.Line.Material);
        if (!cut.IsCut)
            json.WriteBoolean("nipple", value: true);
        json.Number("length", cut.Length);
        json.Number("extra", cut.Extra);
        if (cut.Saddle > 0)
        {
            json.Number("saddle", cut.Saddle);
            json.Number("saw", cut.SawLength);
        }

        json.Number("mass", cut.Mass);
        json.WriteStartArray("ends");
        json.WriteStringValue(cut.AtStart.Word);
        json.WriteStringValue(cut.AtEnd.Word);
        json.WriteEndArray();
        json.WriteStartArray("sum");
        foreach (var term in cut.Sum)
        {
            json.WriteStartObject();
            json.WriteString("what", term.What);
            json.Number("mm", term.Mm);
            json.Text("source", Wording.Of(term.Origin));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("ports");
        foreach (var (at, face) in new[] { (pipe.Start, -pipe.Direction), (pipe.End, pipe.Direction) })
        {
            json.WriteStartObject();
            json.Coordinates(at - Point.Origin);
            json.WriteStartObject(PacketFigures.Face);
            json.Coordinates(face, PacketFigures.DirectionDecimals);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, Spool spool)
    {
        json.WriteStartObject();
        json.WriteString("spool", spool.Name);
        json.Number("mass", spool.Mass);
        if (spool.Unweighed.Count > 0)
            json.Ids("unweighed", spool.Unweighed);
        json.WriteStartObject("centre");
        json.Coordinates(spool.CentreOfMass - Point.Origin);
        json.WriteEndObject();
        json.WriteStartArray("box");
        foreach (var side in new[] { spool.Box.X, spool.Box.Y, spool.Box.Z })
            json.Number(side);
        json.WriteEndArray();
        json.Ids("pieces", spool.Cuts.Select(c => c.Piece));
        json.Ids("components", spool.Components.Select(c => c.Id));
        json.Ids("joints", spool.Joints.Select(j => j.Id));
        if (spool.Attachments.Any())
            json.Ids("attachments", spool.Attachments.Select(j => j.Id));
        if (spool.Supports.Count > 0)
            json.Ids("supports", spool.Supports.Select(s => s.Id));
        json.Number("paint area m2", spool.PaintArea / 1e6);
        json.Number("content litres", spool.Content / 1e6);
        json.WriteStartArray("lengths");
        foreach (var l in spool.Lengths)
        {
            json.WriteStartObject();
            json.WriteNumber("leg", l.Leg);
            json.Number("as fitted", l.AsFitted);
            json.WriteNumber("welds", l.Welds);
            json.Number("after welding low", l.Low);
            json.Number("after welding high", l.High);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, MaterialRow row)
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
            json.Number("listed", listed);
        json.Number("needed", row.Needed);
        json.WriteString("unit", row.IsLength ? "m" : "each");
        if ((row.Item is null ? -row.Needed : row.Difference) is { } difference)
            json.Number("difference", difference);
        json.Ids("used by", row.UsedBy);
        if (row.IsGuess)
            json.WriteBoolean("guessed", value: true);
        if (row.Disagreements.Count > 0)
            json.Ids("disagreements", row.Disagreements);
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, BoltSet set)
    {
        json.WriteStartObject();
        json.WriteString("joint", set.Joint.Id);
        json.WriteString("size", set.Size.ToString());
        json.WriteNumber("count", set.Count);
        if (set.Length > 0)
            json.Number("length", set.Length);
        json.WriteEndObject();
    }
}
