using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Tests.Findings;

/// <summary>Changes written into a drawing's text: what is asked changes, and nothing else.</summary>
public class MendingTest
{
    private static IReadOnlyList<Finding> Check(string text)
    {
        var reading = DrawingReader.Read(text, "test.yaml");
        return reading.Drawing is { } drawing ? Packet.Of(drawing).Findings : reading.Errors;
    }

    private static string Mend(string text, params string[] rules) =>
        Mending.Apply(text, Check(text).Where(f => f.Change is not null && rules.Contains(f.Rule)).Select(f => f.Change!)).Text;

    private const string Untidy = """
        # A comment at the top.
        drawing: T-1
        revision: 2      # a comment behind a value
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        shop:
          final fit extra: 0   # nothing
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 1.2 m}   # short
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40}
          - item: 3
            what: flange WN RF
            size: 6
            class: 150
            bore: 40
            quantity: 1
          - {item: 4, what: cap , size: 6 }
        accept:
          - {rule: "no-final-fitt", why: test}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: up, by: 1450, to: elbow, end: final-fit}
              - {go: north,   by: 461.2,   to: elbow}     # fitting on fitting
              - {end: field, go: up, by: 900, to: point}
              - go: up
                by: 900
                begin: field   # no weld here
                to: point
              - {go: up, by: 400, to: flange}
        """;

    private const string Tidy = """
        # A comment at the top.
        drawing: T-1
        revision: 2      # a comment behind a value
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        shop:
          final fit extra: 100 mm   # nothing
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 3.1 m}   # short
          - {item: 2, what: elbow 90 LR, quantity: 2, size: 6, schedule: 40}
          - item: 3
            what: flange WN RF
            size: 6
            class: 150
            bore: 40
            quantity: 2
          - {item: 4, what: cap , size: 6 }
        accept:
          - {rule: no-final-fit, why: test}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: up, by: 1450, to: elbow, end: final-fit}
              - {go: north,   by: makeup,   to: elbow}     # fitting on fitting
              - {go: up, by: 900, to: point}
              - go: up
                by: 900
                to: point
              - {go: up, by: 400, to: flange}
        """;

    [Fact]
    public void Every_mechanical_remedy_is_written_and_nothing_else() => Assert.Equal(Tidy, Mend(Untidy, [.. Check(Untidy).Select(f => f.Rule)]));

    [Fact]
    public void Windows_line_ends_stay() =>
        Assert.Equal(Tidy.ReplaceLineEndings("\r\n"), Mend(Untidy.ReplaceLineEndings("\r\n"), [.. Check(Untidy).Select(f => f.Rule)]));

    [Fact]
    public void A_misspelt_key_is_mended() => Assert.Contains("revision: 2", Mend(Tidy.Replace("revision:", "revison:", StringComparison.Ordinal), "unknown-key"), StringComparison.Ordinal);

    [Fact]
    public void A_misspelt_word_is_mended() => Assert.Equal(Tidy, Mend(Tidy.Replace("to: elbow, end", "to: elbwo, end", StringComparison.Ordinal), "unknown-word"));

    [Fact]
    public void A_reducer_with_a_flat_side_becomes_eccentric_in_braces_and_in_lines()
    {
        const string Braces = "{go: up, by: 900, to: reducer, size: 4, flat: north}";
        var text = Tidy.Replace("{go: up, by: 400, to: flange}", Braces + "\n      - {go: up, by: 400, to: flange}", StringComparison.Ordinal);
        Assert.Contains("to: reducer, kind: eccentric, size: 4, flat: north}", Mend(text, "key-does-not-fit"), StringComparison.Ordinal);
        var lines = text.Replace(Braces, "go: up\n        by: 900\n        to: reducer\n        size: 4\n        flat: north", StringComparison.Ordinal);
        Assert.Contains("        to: reducer\n        kind: eccentric\n        size: 4\n", Mend(lines, "key-does-not-fit"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_misspelt_name_of_a_branch_is_mended()
    {
        var text = Desk("from: T11");
        Assert.Contains("{from: T1}", Mend(text, "unknown-name"), StringComparison.Ordinal);
        static string Desk(string from) => Checks.Desk.Drawing("{go: up, by: 900, to: tee, name: T1, branch: north}\n{go: up, by: 900, to: flange}") +
            $"\n  - run: branch\n    start: {{{from}}}\n    legs:\n      - {{go: north, by: 900, to: flange}}";
    }

    [Fact]
    public void Of_two_changes_of_one_place_the_first_is_made()
    {
        var place = new Place("f", 1, 1, 4);
        var (text, made) = Mending.Apply("abc def", [new(place, "x", ""), new(place with { Column = 2 }, "y", ""), new(new("f", 1, 5, 8), "z", "")]);
        Assert.Equal("x z", text);
        Assert.Equal(2, made.Count);
    }

    [Fact]
    public void A_change_outside_the_text_is_left_out() =>
        Assert.Equal("abc", Mending.Apply("abc", [new(new("f", 7, 1, 2), "x", ""), new(new("f", 1, 3, 9), "x", "")]).Text);

    // Whatever stretches are replaced, what lies between them is as it was.
    [Fact]
    public void What_lies_between_changes_stays() => Gen.Int[0, 9].Array[0, 6].Holds(columns =>
    {
        const string Line = "0123456789";
        var changes = columns.Distinct().Select(c => new Change(new("f", 1, c + 1, c + 2), "<>", "")).ToList();
        var expected = string.Concat(Line.Select((c, i) => columns.Contains(i) ? "<>" : c.ToString()));
        return Mending.Apply(Line, changes).Text == expected;
    });
}
