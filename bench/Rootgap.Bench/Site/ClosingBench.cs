using System.Text;
using BenchmarkDotNet.Attributes;
using Rootgap.Bench.Packets;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Routes;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Bench.Site;

/// <summary>A survey of the demo with some 60 readings to its closings, and beside it what is asked for only when it is shown. Target for the closing: 50 ms.</summary>
[MemoryDiagnoser]
public class ClosingBench
{
    private SiteLine _line = null!;
    private Survey _survey = null!;
    private LineClosing _closing = null!;

    [GlobalSetup]
    public void Setup()
    {
        var file = Path.Combine(Samples.Folder, "chilled-supply.yaml");
        var drawing = DrawingReader.Read(File.ReadAllText(file), file, beside => File.ReadAllBytes(Path.Combine(Samples.Folder, beside))).Drawing!;
        _line = SiteLine.Of(Spooling.Of(Routing.Of(drawing)));
        var survey = File.ReadAllBytes(Path.Combine(Samples.Folder, "chilled-supply-survey.yaml"));
        _survey = SurveyReading.Read(_line, "survey.yaml", survey).Survey;
        _survey = _survey with { Readings = [.. _survey.Readings.Take(60)] };
        _closing = Closing()!;
    }

    [Benchmark(Description = "adjustment and closings")]
    public LineClosing? Closing() => LineClosing.Of(_line, _survey).Closing;

    [Benchmark(Description = "next reading")]
    public NextReading? Next() => new ReadingSearch(_closing.Adjustment, _closing.Closures[0]).Best();

    [Benchmark(Description = "least movement")]
    public LeastMovement Movement() => LeastMovement.Of(_closing.Adjustment, _closing.Closures);
}
