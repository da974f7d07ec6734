using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Json.Schema;
using Rootgap.Drawings;
using Rootgap.Tests.Samples;
using YamlDotNet.Core;
using YamlDotNet.RepresentationModel;
using YamlNode = YamlDotNet.RepresentationModel.YamlNode;

namespace Rootgap.Tests.Drawings;

/// <summary>The JSON Schema that ships with the project, validated by an independent validator (JsonSchema.Net).</summary>
public partial class SchemaTest
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(DrawingSchema.Text());

    public static TheoryData<string> Names => [.. SampleFile.All.Select(s => s.Name)];

    [Fact]
    public void The_committed_schema_is_the_one_that_the_code_makes() =>
        Assert.True(DrawingSchema.Text() == File.ReadAllText(Repository.At("schema", "drawing.schema.json")),
            "schema/drawing.schema.json is stale: run `dotnet run --project tools/Rootgap.Docs` and commit what it writes.");

    [Theory]
    [MemberData(nameof(Names))]
    public void Every_sample_is_valid(string name)
    {
        var result = Schema.Evaluate(Json(SampleFile.All.Single(s => s.Name == name).Text), new EvaluationOptions { OutputFormat = OutputFormat.List });
        var errors = result.Details?.Where(d => d.Errors is { Count: > 0 }).Select(d => $"{d.InstanceLocation}: {string.Join(", ", d.Errors!.Values)}") ?? [];
        Assert.True(result.IsValid, string.Join('\n', errors));
    }

    [Fact]
    public void The_example_of_the_format_is_valid() => Assert.True(IsValid(Example));

    /// <summary>The schema has no key or word that the reader does not know, and the other way round: what it calls valid here the reader reads.</summary>
    [Fact]
    public void The_example_of_the_format_is_read() => Assert.Empty(DrawingReader.Read(Example, "example.yaml").Errors);

    [Theory]
    [InlineData("drawing: CHW-118-01", "number: CHW-118-01", "a key that there is not")]
    [InlineData("size: 6\n", "size: six\n", "a size in a word")]
    [InlineData("schedule: 40\n", "schedule: 41\n", "a schedule that the standards do not have")]
    [InlineData("  schedule: 40\n", "", "a line without its schedule")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: upwards, by: 1450, to: elbow}", "a direction that there is not")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: up, to: elbow}", "a direction without a distance")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: up, by: 1450, to: bend}", "a work point that there is not")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: up, by: -1450, to: elbow}", "a distance with a minus sign")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: up, by: 1450, to: elbow, kind: gate}", "an elbow with a valve's kind")]
    [InlineData("{go: up, by: 1450, to: elbow}", "{go: up, by: 1450, to: elbow, fall: steep}", "a slope in a word")]
    [InlineData("to: tee, name: T1, branch: east", "to: tee, name: T1", "a tee without a branch")]
    [InlineData("to: tee, name: T1, branch: east", "to: tee, name: T1, branch: east, enter: branch", "a tee entered by its branch that has another")]
    [InlineData("to: valve, kind: gate", "to: valve", "a valve without a kind")]
    [InlineData("to: valve, kind: gate", "to: valve, kind: eccentric", "a valve with a reducer's kind")]
    [InlineData("end: final-fit", "end: finalfit", "a weld that there is not")]
    [InlineData("{east: 600, up: 600}", "{east: 600, skyward: 600}", "a vector in a seventh direction")]
    [InlineData("start: {from: T1}", "start: {from: T1, at: {east: 0}}", "a start from a name with a place of its own")]
    [InlineData("start: {to: flange,", "start: {to: elbow,", "a run that starts at an elbow")]
    [InlineData("makeup gap: counted", "makeup gap: maybe", "a rule of the shop with a word that there is not")]
    [InlineData("item: 1, what: pipe,", "item: one, what: pipe,", "an item without a number")]
    public void A_broken_drawing_is_not_valid_and_the_reader_refuses_it_too(string good, string bad, string what)
    {
        var broken = Example.Replace(good, bad, StringComparison.Ordinal);
        Assert.False(Example == broken, "the example does not hold what is to be broken");
        Assert.False(IsValid(broken), what);
        Assert.NotEmpty(DrawingReader.Read(broken, "broken.yaml").Errors);
    }

    private static bool IsValid(string yaml) => Schema.Evaluate(Json(yaml)).IsValid;

    private const string Example = """
        drawing: CHW-118-01
        revision: 2
        title: Chilled water
        units: mm
        line:
          size: 6
          schedule: 40
          class: 150
          material: A106-B
          flange: WN
          gasket: 3.2
        service: {fluid: chilled water, design pressure: 10 bar, design temperature: 50 C, code: B31.3, examination: 5 %}
        shop:
          root gap: 3.2
          makeup gap: counted
          stock: [6000, 12000]
          envelope: {length: 12000, width: 2400, height: 2400, mass: 3000}
          measured: {item 2: {take-off: 230.5}}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 9.6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 3}
          - {item: 3, what: reducer, size: 8 x 6, schedule: 40, quantity: 1}
        runs:
          - run: main
            start: {to: flange, at: {east: 12400, north: 3150, up: 900}}
            legs:
              - {go: up, by: 1450, to: elbow}
              - {go: north, by: "10'-6 1/2\"", to: tee, name: T1, branch: east}
              - {go: north, by: 2600, to: elbow, end: final-fit}
              - {go: {east: 600, up: 600}, to: elbow}
              - {go: east, by: makeup, to: flange, holes: straddle, holes from: up}
          - run: drain
            start: {from: T1}
            legs:
              - {go: east, by: 900, to: valve, kind: gate}
              - {go: east, by: 450, fall: 1:100, to: reducer, size: DN100, kind: eccentric, flat: top}
              - {go: east, by: 450, to: flange}

        """;

    private static JsonElement Json(string yaml)
    {
        var stream = new YamlStream();
        stream.Load(new StringReader(yaml));
        return JsonSerializer.SerializeToElement(Node(stream.Documents[0].RootNode));
    }

    private static JsonNode? Node(YamlNode node)
    {
        switch (node)
        {
            case YamlMappingNode map:
                var o = new JsonObject();
                foreach (var (key, value) in map.Children)
                    o.Add(((YamlScalarNode)key).Value!, Node(value));
                return o;
            case YamlSequenceNode list:
                return new JsonArray([.. list.Children.Select(Node)]);
            default:
                var scalar = (YamlScalarNode)node;
                return scalar.Style == ScalarStyle.Plain ? Plain(scalar.Value!) : scalar.Value;
        }
    }

    /// <summary>YAML 1.2.2, section 10.3.2: what a plain scalar is under the core schema, which editors use.</summary>
    private static JsonNode? Plain(string text) => text switch
    {
        "" or "~" or "null" or "Null" or "NULL" => null,
        "true" or "True" or "TRUE" => true,
        "false" or "False" or "FALSE" => false,
        _ when Integer().IsMatch(text) => long.Parse(text, CultureInfo.InvariantCulture),
        _ when Float().IsMatch(text) => double.Parse(text, CultureInfo.InvariantCulture),
        _ => text,
    };

    [GeneratedRegex("^[-+]?[0-9]+$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Integer();

    [GeneratedRegex("^[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Float();
}
