using System.Buffers;
using System.Text.Json;
using BenchmarkDotNet.Attributes;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;
using YamlDotNet.RepresentationModel;

namespace Rootgap.Bench.Packets;

/// <summary>From the drawing's text to packet.json, against parsing the same YAML with YamlDotNet alone: the ratio column is what counts. Target: at most 1.5.</summary>
[MemoryDiagnoser]
public class PacketBench
{
    private readonly ArrayBufferWriter<byte> _buffer = new(1 << 20);
    private string _text = "";
    private Fabrication _fabrication = null!;
    private Packet _packet = null!;

    [Params("chilled-supply", "recirculation", "drain")]
    public string Sample { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        _text = File.ReadAllText(Path.Combine(Samples.Folder, Sample + ".yaml"));
        _packet = Packet.Of(Read());
        _fabrication = Spooling.Of(Routing.Of(Read()));
    }

    [Benchmark(Baseline = true, Description = "YamlDotNet alone")]
    public YamlStream Yaml()
    {
        var yaml = new YamlStream();
        yaml.Load(new StringReader(_text));
        return yaml;
    }

    /// <summary>Read, place, make ready for the shop, write packet.json; the desk check is measured apart.</summary>
    [Benchmark(Description = "text to packet.json, without the desk check")]
    public int TextToPacket()
    {
        var fabrication = Spooling.Of(Routing.Of(Read()));
        return Write(new Packet { Drawing = fabrication.Route.Drawing, Fabrication = fabrication, Findings = [] });
    }

    [Benchmark(Description = "text to packet.json, with the desk check")]
    public int TextToCheckedPacket() => Write(Packet.Of(Read()));

    [Benchmark(Description = "desk check alone")]
    public int Check() => Rootgap.Checks.DeskCheck.Of(_fabrication).Count;

    [Benchmark(Description = "reading alone")]
    public Drawing Read() => DrawingReader.Read(_text, "x.yaml", Samples.Beside).Drawing!;

    [Benchmark(Description = "sheets, laid out")]
    public int Sheets() => ShopPages.Of(_packet.ToJob(Paper.A4)).Count;

    private int Write(Packet packet)
    {
        _buffer.ResetWrittenCount();
        using var json = new Utf8JsonWriter(_buffer, PacketJson.Writing);
        PacketJson.Write(json, packet);
        json.Flush();
        return _buffer.WrittenCount;
    }
}

/// <summary>The demo's drawings.</summary>
internal static class Samples
{
    public static string Folder { get; } = Find();

    public static byte[]? Beside(string name) => File.Exists(Path.Combine(Folder, name)) ? File.ReadAllBytes(Path.Combine(Folder, name)) : null;

    private static string Find([System.Runtime.CompilerServices.CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "samples", "hatchery"));
}
