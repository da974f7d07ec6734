using BenchmarkDotNet.Attributes;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;
using YamlDotNet.RepresentationModel;

namespace Rootgap.Bench.Live;

/// <summary>What a keystroke in a drawing of 40 legs costs, step by step, against parsing the same YAML with YamlDotNet alone. An interpreted engine in a browser takes many times as long: aim at 9 ms for all.</summary>
[MemoryDiagnoser]
public class LiveBench
{
    private string _text = "";
    private Drawing _drawing = null!;
    private Fabrication _fabrication = null!;
    private readonly PaneIsometric _pane = new();

    [GlobalSetup]
    public void Setup()
    {
        _text = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "hot-water.yaml"));
        _drawing = Read();
        _fabrication = Fabricate();
    }

    [Benchmark(Baseline = true, Description = "YamlDotNet alone")]
    public YamlStream Yaml()
    {
        var yaml = new YamlStream();
        yaml.Load(new StringReader(_text));
        return yaml;
    }

    [Benchmark(Description = "reading")]
    public Drawing Read() => DrawingReader.Read(_text, "hot-water.yaml").Drawing!;

    [Benchmark(Description = "placing and spools")]
    public Fabrication Fabricate() => Spooling.Of(Routing.Of(_drawing));

    [Benchmark(Description = "desk check")]
    public int Check() => DeskCheck.Of(_fabrication).Count;

    [Benchmark(Description = "isometric for the screen, live")]
    public string Live() => _pane.Svg(_fabrication, Effort.Live, 160, 130, 1);

    [Benchmark(Description = "isometric for the screen, full")]
    public string Full() => _pane.Svg(_fabrication, Effort.Full, 160, 130, 1);

    [Benchmark(Description = "a keystroke: text to findings and live isometric")]
    public string Keystroke()
    {
        var packet = Packet.Of(Read());
        return _pane.Svg(packet.Fabrication, Effort.Live, 160, 130, 1) + packet.Findings.Count;
    }

    [Benchmark(Description = "isometric sheets")]
    public int Sheets() => IsometricPages.Of(Packet.Of(_drawing).ToJob(Paper.A4), withLists: false).Count;
}
