using System.Buffers;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;

namespace Rootgap.Tests;

/// <summary>Drawings as text, for tests that need not know how they are read.</summary>
public static class Given
{
    public static Packet Packet(string yaml)
    {
        var reading = DrawingReader.Read(yaml, "given.yaml");
        Assert.True(reading.Drawing is not null, string.Join('\n', reading.Errors.Select(e => $"{e.Where.Line}:{e.Where.Column} {e.Message} {e.Remedy}")) + "\n" + yaml);
        return Packets.Packet.Of(reading.Drawing!);
    }

    public static NominalSize Size(string text)
    {
        Assert.True(NominalSize.TryParse(text, out var size), text);
        return size;
    }

    /// <summary>One run in inches, without root gaps unless the shop says otherwise: as handbooks reckon.</summary>
    public static Packet Inches(string line, string start, params string[] legs) => Run("in", line, "root gap: 0", start, legs);

    public static Packet Millimetres(string line, string start, params string[] legs) => Run("mm", line, "root gap: 0", start, legs);

    public static Packet Run(string units, string line, string shop, string start, params string[] legs) => Packet($$"""
        drawing: T-1
        units: {{units}}
        line: {{{line}}}
        shop: {{{shop}}}
        runs:
          - run: main
            start: {to: {{start}}}
            legs:
              - {{string.Join("\n      - ", legs)}}
        """);

    /// <summary>The packet as other programs read it.</summary>
    public static string Json(Packet packet)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            PacketJson.Write(json, packet);
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }

    /// <summary>Cut lengths in line order, mm.</summary>
    public static double[] Lengths(Packet packet) => [.. packet.Fabrication.Cuts.Select(c => c.Length)];

    /// <summary>Cut lengths in line order, inches.</summary>
    public static double[] LengthsInInches(Packet packet) => [.. packet.Fabrication.Cuts.Select(c => c.Length / LengthText.Inch)];
}
