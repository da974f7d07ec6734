using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Drawings;

/// <summary>
/// Files as they arrive when something went wrong: bytes flipped, lines lost and doubled, words swapped, figures of absurd size.
/// Every one of them is answered, with a packet or with errors that have a place.
/// </summary>
[Trait("pace", "slow")]
public class MutationTest
{
    /// <summary>Every work point, most keys and most notations of the drawing file in one.</summary>
    private const string Everything = """
        drawing: M-1
        revision: 2
        title: Everything
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
        service: {fluid: water, design pressure: 10 bar, design temperature: 50 C, code: B31.3, examination: 5 %}
        shop: {root gap: 3.2, shrinkage: 1.6, final fit extra: 100, kerf: 3, stock: [6000, 12000], measured: {item 2: {take-off: 230.5}},
          envelope: {length: 12000, width: 2400, height: 2400, mass: 3000}}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 9.6 m}
          - {item: 2, what: elbow 90 LR, size: 6, quantity: 3}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        runs:
        - run: main
          start: {to: flange, at: {east: 12400, north: 3150, up: 900}, holes: on-centre}
          legs:
          - {go: up, by: 1450, to: elbow, item: 2}
          - {go: north, by: 3200, to: tee, name: T1, branch: east, branch size: 3}
          - {go: north, by: 2600, to: elbow, radius: 3d, end: final-fit}
          - {go: {east: 600, up: 600}, to: elbow, spool: NORTH}
          - {go: east, by: makeup, to: reducer, size: 4, kind: eccentric, flat: bottom}
          - go: east
            by: 4'-9 1/2"
            to: valve
            kind: gate
            fall: 1:100
            stem: up
          - {go: east, by: "1.45 m", fall: 1:100, to: outlet, size: 1-1/2, branch: north, ends: socket, name: O1}
          - {go: east, by: 57-1/2", fall: 1:100, to: stub-in, size: DN50, branch: south, pad: yes, name: S1}
          - {go: east, by: 700, fall: 1:100, to: point}
          - {go: east, by: 900, fall: 1:100, to: weld}
          - {go: east, by: 900, fall: 1:100, to: joint, flange: SO, begin: field}
          - {go: east, by: 900, fall: 1:100, to: cap}
        - run: drain
          start: {from: T1}
          legs:
          - {go: east, by: 900, to: valve, kind: butterfly, face to face: 60}
          - {go: east, by: 450, to: tee, enter: branch, name: T2}
          - {go: up, by: 1000, to: elbow}
          - {go: east, by: 800, to: elbow}
          - {go: down, by: 2000, to: elbow}
          - {go: west, by: 800, to: elbow}
          - {go: up, by: 1000, to: tie-in, with: T2}
        - run: small
          start: {from: O1}
          ends: socket
          flange: SW
          legs:
          - {go: north, by: 300, to: elbow}
          - {go: up, by: 400, to: flange, bolting: by others}
        - run: stub
          start: {from: S1}
          legs: [{go: south, by: 900, to: open, ends: threaded, continues: M-2}]
        accept:
          - {rule: pipe-too-short, at: "runs[0].legs[1]", why: agreed with the shop}
        """;

    /// <summary>What is put where something stood: figures and words that a reader trips over.</summary>
    private static readonly string[] Oddities =
    [
        "999999999999999999999999", "1e308", "-1e308", "1e-320", "NaN", "Infinity", "-0", "0", "0.0000001", "1/0", "0/0", "1:0", "0:1", "100000 km", "99999999", "2147483648",
        "-1", ".", "''", "\"", "'", "~", "null", "{}", "[]", "{", "}", "[", "]", "*a", "&a", "!!binary x", "<<: *a", "|", ">", "- ", "? ", ": ", "#", "%", "@", "`", "\t", "\0", "\r", "\u2028",
        "½", "４", "\u0661\u0662", "′", "″", "\ufeff", "\ud83d\ude00", "\u202e", "e\u0301", "ß", "İ", "DN0", "DN99999999999", "NPS", "48", "1/8", "24", "makeup", "T1", "north", "{north: 1e300}",
        "{east: 0.0000001, up: 99999999}", "{north: 1, south: 1}", "elbow", "tie-in", "flange", "butterfly", "RTJ", "{wall: 0.001}", "{wall: 500}", "XXS", "2500", "100 %", "360", "-89.99",
    ];

    private static readonly string[] Texts = Samples();

    /// <summary>A text and what is done to it; the choices shrink with the bytes they are read from.</summary>
    private static readonly Gen<string> Mutants = Gen.Byte.Array[12, 40].Select(Mutant);

    internal static Gen<string> Damaged => Mutants;

    [Fact]
    public void Whatever_a_file_has_become_it_is_answered_with_a_packet_or_with_errors_in_their_places() =>
        Mutants.Holds(text => Answer(text, sheets: text.Length % 12 == 0), iter: 400);

    [Theory]
    [InlineData("[", 20_000)]
    [InlineData("{a: ", 20_000)]
    [InlineData("- ", 20_000)]
    [InlineData("? ", 20_000)]
    [InlineData("a:\n ", 3_000)]
    [InlineData("!x ", 20_000)]
    [InlineData("&a ", 20_000)]
    [InlineData("\"", 20_001)]
    [InlineData("#", 200_000)]
    [InlineData("\n", 200_000)]
    [InlineData("\u00a0", 200_000)]
    public void A_file_of_one_thing_over_and_over_is_answered(string thing, int times)
    {
        var many = new StringBuilder(thing.Length * times).Insert(0, thing, times).ToString();
        Answer(many);
        Answer("drawing: " + many);
        Answer("drawing: X\nruns:\n  - " + many);
    }

    [Fact]
    public void A_mapping_that_names_itself_over_and_over_does_not_grow_without_end()
    {
        var text = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
        for (var i = 1; i < 12; i++)
            text.Append(CultureInfo.InvariantCulture, $"a{i}: &a{i} [{string.Join(", ", Enumerable.Repeat($"*a{i - 1}", 9))}]\n");
        Answer(text + "drawing: X\n");
    }

    /// <summary>A stub-in's run that goes along its header has no end of its saddle: its template must not be drawn for ever.</summary>
    [Theory]
    [InlineData("east")]
    [InlineData("west")]
    [InlineData("{east: 1000, north: 1}")]
    public void A_branch_along_its_header_is_answered_and_has_no_template(string go)
    {
        var drawing = DrawingReader.Read($$"""
            drawing: X
            line: {size: 8, schedule: 40}
            runs:
            - {run: main, start: {to: open}, legs: [{go: east, by: 900, to: stub-in, branch: north, size: 6, name: A}, {go: east, by: 900, to: open}]}
            - {run: b, start: {from: A}, legs: [{go: {{go}}, by: 900, to: open}]}
            """, "x.yaml").Drawing!;
        var packet = Packet.Of(drawing);
        Assert.False(packet.IsBuildable);
        Assert.Empty(Rootgap.Fabricating.Templates.Of(packet.Fabrication));
    }

    /// <summary>Fittings that no standard has measure nothing: both ends of such a part are one, and the sheets are drawn all the same.</summary>
    [Fact]
    public void A_part_of_no_length_is_answered() =>
        Answer("""
            drawing: X
            line: {size: 1/8, schedule: 40}
            runs:
            - run: main
              start: {to: weld}
              legs:
              - {go: east, by: 900, to: valve, kind: ball, ends: butt}
              - {go: east, by: 900, to: elbow}
              - {go: west, by: 900, to: elbow}
              - {go: {east: 1, up: 1}, by: makeup, to: elbow}
              - {go: {west: 1, down: 1}, by: makeup, to: flange}
            """);

    /// <summary>Throws where a text is not answered: errors with places, or a packet whose file can be written and read.</summary>
    private static void Answer(string text) => Answer(text, sheets: true);

    private static void Answer(string text, bool sheets)
    {
        var reading = DrawingReader.Read(text, "m.yaml", Beside);
        if (reading.Drawing is not { } drawing)
        {
            Assert.NotEmpty(reading.Errors);
            Assert.All(reading.Errors, Placed);
            return;
        }

        var packet = Packet.Of(drawing);
        Assert.All(packet.Findings, f => Assert.True(f.Message.Length > 0));
        if (sheets)
            Assert.NotEmpty(ShopPages.Of(packet.ToJob(Paper.A4)));
        using var written = new MemoryStream();
        using (var json = new Utf8JsonWriter(written))
        {
            // A number that is not finite is refused by the writer.
            PacketJson.Begin(json, "test");
            PacketJson.Write(json, packet);
            PacketJson.End(json);
        }

        using var back = JsonDocument.Parse(written.ToArray());
        Assert.Equal(1, back.RootElement.GetProperty("drawings").GetArrayLength());
    }

    private static void Placed(Finding error)
    {
        Assert.True(error.Where is { Line: >= 1, Column: >= 1, File: not null }, $"{error.Rule} has no place: {error.Message}");
        Assert.True(error.Message.Length > 0 && error.Remedy.Length > 0, error.Rule);
    }

    internal static byte[]? Beside(string name) =>
        name is "shop.yaml" or "pump-suction.csv" or "oxygen.xlsx" ? File.ReadAllBytes(Repository.At("samples", "hatchery", name)) : null;

    private static string[] Samples() =>
        [Everything, .. Directory.EnumerateFiles(Repository.At("samples"), "*.yaml", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(File.ReadAllText)];

    private static string Mutant(byte[] choices)
    {
        var next = 0;
        int Below(int count)
        {
            var value = 0;
            for (var i = 0; i < 3; i++)
                value = (value << 8) | (next < choices.Length ? choices[next++] : 0);
            return count <= 0 ? 0 : value % count;
        }

        var text = Texts[Below(Texts.Length)];
        for (var changes = 1 + Below(3); changes > 0; changes--)
            text = Change(text, Below);
        return text;
    }

    private static string Change(string text, Func<int, int> below)
    {
        switch (below(16))
        {
            case 0:
                var bytes = Encoding.UTF8.GetBytes(text);
                if (bytes.Length > 0)
                    bytes[below(bytes.Length)] ^= (byte)(1 << below(8));
                return Encoding.UTF8.GetString(bytes);
            case 1:
                var lost = text.Split('\n').ToList();
                lost.RemoveAt(below(lost.Count));
                return string.Join('\n', lost);
            case 2:
                var doubled = text.Split('\n').ToList();
                doubled.Insert(below(doubled.Count), doubled[below(doubled.Count)]);
                return string.Join('\n', doubled);
            case 3:
                var (a, b) = (WordAt(text, below(text.Length)), WordAt(text, below(text.Length)));
                var (first, second) = a.From <= b.From ? (a, b) : (b, a);
                return second.From < first.To
                    ? text
                    : text[..first.From] + text[second.From..second.To] + text[first.To..second.From] + text[first.From..first.To] + text[second.To..];
            case 4:
                var at = below(text.Length);
                return text[..at] + Oddities[below(Oddities.Length)] + text[at..];
            case 5:
                var cut = below(text.Length);
                return text[..cut];
            case 6:
                var from = below(text.Length);
                var to = Math.Min(text.Length, from + below(40));
                return text[..from] + text[to..];
            case 7:
                var place = below(text.Length);
                var deep = 1 << below(13);
                return text[..place] + new string("[{-"[below(3)], deep) + text[place..];
            case 8 or 9 or 10 or 11:
                // A figure that could have been meant.
                var figure = text.IndexOfAny([.. "0123456789"], below(text.Length));
                return figure < 0 ? text : text[..figure] + below(3000).ToString(CultureInfo.InvariantCulture) + text[(figure + 1)..];
            case 12 or 13:
                // A word that is right elsewhere.
                var (there, here) = (WordAt(text, below(text.Length)), WordAt(text, below(text.Length)));
                return text[..here.From] + text[there.From..there.To] + text[here.To..];
            default:
                var word = WordAt(text, below(text.Length));
                return text[..word.From] + Oddities[below(Oddities.Length)] + text[word.To..];
        }
    }

    /// <summary>The word at a place: letters and figures that hang together.</summary>
    private static (int From, int To) WordAt(string text, int at)
    {
        static bool Inside(char c) => char.IsLetterOrDigit(c) || c is '.' or '-' or '/';
        if (text.Length == 0)
            return (0, 0);
        while (at < text.Length - 1 && !Inside(text[at]))
            at++;
        var (from, to) = (at, at);
        while (from > 0 && Inside(text[from - 1]))
            from--;
        while (to < text.Length && Inside(text[to]))
            to++;
        return (from, Math.Max(to, from));
    }
}
