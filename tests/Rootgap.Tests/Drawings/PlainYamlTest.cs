using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

/// <summary>The fast reader against YamlDotNet: wherever it gives a tree, the library gives the same one, places included.</summary>
public class PlainYamlTest
{
    private const string Sample = """
        drawing: CHW-118-01            # the number
        title: Chilled water, pump discharge
        line:
          size: 6
          schedule: {wall: 7.11}
        shop: {root gap: 3.2, stock: [6000, 12000]}   # rules
        materials:
          - {item: 1, what: "stud \"x\"", quantity: 9.6 m}
          - item: 2
            what: 'elbow 90''s'
        runs:
        - run: main
          start: {to: flange, at: {east: 12400, north: 3150,
                  up: 900}}
          legs:
            - {go: up, by: 4'-9 1/2", to: elbow}
            # a comment
            - {go: {east: 600, up: 600}, to: elbow}
            - go: east
              by: 57-1/2"
              fall: 1:100
              to: flange
        """;

    private static readonly string[] Edits = [" ", "", "\n", ":", "#", ",", "{", "}", "[", "]", "\"", "'", "-", "- ", ": ", " #", "&a", "*a", "|", "\n  ", "\n- ", "?", "!", "x", "..", "--", "%"];

    [Fact]
    public void A_drawing_as_people_write_it_is_plain()
    {
        Assert.NotNull(PlainYaml.Read(Sample, "x.yaml"));
        Same(Sample);
    }

    [Fact]
    public void Whatever_the_fast_reader_accepts_the_library_reads_alike() =>
        Gen.Select(Gen.Int[0, Sample.Length - 1], Gen.Int[0, Edits.Length - 1].Select(i => Edits[i]), Gen.Int[0, 3])
            .Array[1, 3].Holds(edits =>
            {
                var text = Sample;
                foreach (var (at, with, less) in edits)
                {
                    var from = Math.Min(at, text.Length);
                    text = text[..from] + with + text[Math.Min(text.Length, from + less)..];
                }

                Same(text);
            }, iter: 20_000);

    private static void Same(string text)
    {
        if (PlainYaml.Read(text, "x.yaml") is not { } plain)
            return;
        var errors = new List<string>();
        var library = YamlTree.ReadAny(text, "x.yaml", (where, message, _) => errors.Add(message));
        Assert.True(errors.Count == 0, $"the library refuses it: {string.Join(" ", errors)}\n{text}");
        Assert.Equal(Write(library!), Write(plain));
    }

    private static string Write(YamlNode node) => node switch
    {
        YamlText t => $"{Place(t)}{(t.Quoted ? "q" : "")}\"{t.Value}\"",
        YamlList l => $"{Place(l)}[{string.Join(", ", l.Items.Select(Write))}]",
        YamlMap m => $"{Place(m)}{{{string.Join(", ", m.Pairs.Select(p => $"{Write(p.Key)}: {Write(p.Value)}"))}}}",
        _ => "",
    };

    private static string Place(YamlNode node) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{node.Where.Line}:{node.Where.Column}-{node.Where.EndColumn} ");
}
