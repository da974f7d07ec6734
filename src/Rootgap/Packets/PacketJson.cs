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
        json.Text("revision", drawing.Revision);
        json.Text("title", drawing.Title);
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
        json.Text("file", finding.Where.File ?? "");
        if (finding.Where.IsKnown)
        {
            json.WriteNumber("line", finding.Where.Line);
            json.WriteNumber("column", finding.Where.Column);
        }

        json.WriteString("message", finding.Message);
        json.Text("otherwise", finding.Otherwise);
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
            PacketParts.Write(json, run);
        json.WriteEndArray();
        json.WriteStartArray("components");
        foreach (var c in route.Components)
            PacketParts.Write(json, f, c);
        json.WriteEndArray();
        json.WriteStartArray("cuts");
        foreach (var cut in f.Cuts)
            PacketSpools.Write(json, route, cut);
        json.WriteEndArray();
        json.WriteStartArray("joints");
        foreach (var joint in route.Joints)
            PacketParts.Write(json, f, joint);
        json.WriteEndArray();
        if (route.Attachments.Any())
        {
            // Welds of what is put on a pipe part nothing: whoever counts the joints of the line counts none of them.
            json.WriteStartArray("attachments");
            foreach (var joint in route.Attachments)
                PacketParts.Write(json, f, joint);
            json.WriteEndArray();
        }

        if (route.Supports.Count > 0)
        {
            json.WriteStartArray("supports");
            foreach (var support in route.Supports)
                PacketParts.Write(json, f, support);
            json.WriteEndArray();
        }

        if (route.Pads.Count > 0)
        {
            json.WriteStartArray("pads");
            foreach (var pad in route.Pads)
                PacketParts.Write(json, f, pad);
            json.WriteEndArray();
        }

        json.WriteStartArray("spools");
        foreach (var spool in f.Spools)
            PacketSpools.Write(json, spool);
        json.WriteEndArray();
        json.WriteStartArray("materials");
        foreach (var row in f.Materials)
            PacketSpools.Write(json, row);
        json.WriteEndArray();
        json.WriteStartArray("bolting");
        foreach (var set in f.Bolting)
            PacketSpools.Write(json, set);
        json.WriteEndArray();
    }
}
