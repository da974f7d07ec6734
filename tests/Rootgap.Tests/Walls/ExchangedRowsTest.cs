using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Walls;

/// <summary>
/// Drawings in which somebody slipped a row: item numbers, sizes and words are right and stand in the wrong place. All of them are read as whole drawings,
/// so that every rule, sheet and model meets parts of the wrong kind and size.
/// </summary>
[Trait("pace", "slow")]
public partial class ExchangedRowsTest
{
    private static readonly string[] Texts = [.. Samples.SampleFile.Clean.Select(s => s.Text), Lists];

    /// <summary>A list that has two rows of each kind, so that there is something to exchange.</summary>
    private const string Lists = """
        drawing: X-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 9 m}
          - {item: 2, what: pipe, size: 3, schedule: 40, material: A106-B, quantity: 3 m}
          - {item: 3, what: elbow 90 LR, size: 6, quantity: 2}
          - {item: 4, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
          - {item: 5, what: flange WN RF, size: 3, class: 150, bore: 40, quantity: 1}
          - {item: 6, what: tee, size: 6 x 3, quantity: 1}
          - {item: 7, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 8, what: stud bolt, size: 3/4, length: 100, quantity: 16}
          - {item: 9, what: gate valve, size: 6, class: 150, quantity: 1}
          - {item: 10, what: cap, size: 6, quantity: 1}
        runs:
          - run: main
            start: {to: flange, item: 4, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: north, by: 1500, to: elbow, item: 3, pipe item: 1}
              - {go: east, by: 1200, to: tee, item: 6, name: T1, branch: up}
              - {go: east, by: 1200, to: valve, kind: gate, item: 9, stem: up}
              - {go: east, by: 1200, to: elbow, item: 3, end: final-fit}
              - {go: down, by: 1200, to: cap, item: 10}
          - run: side
            size: 3
            start: {from: T1}
            legs:
              - {go: up, by: 700, to: flange, item: 5, pipe item: 2}
        """;

    /// <summary>A drawing in which values of one key changed places, some times over, or one took the place of another.</summary>
    private static readonly Gen<string> Exchanged = Gen.Select(Gen.Int[0, Texts.Length - 1], Gen.Select(Gen.Int[0, 99_999], Gen.Int[0, 99_999], Gen.Int[0, 5]).Array[1, 4], (which, changes) =>
    {
        var text = Texts[which];
        foreach (var (one, other, kind) in changes)
        {
            var values = Values().Matches(text);
            var first = values[one % values.Count];
            // Of the same key, in four of six cases: the rest asks what a value means where it cannot stand.
            var second = values.Where(v => kind < 4 ? v.Groups["key"].Value == first.Groups["key"].Value : v.Groups["key"].Value != first.Groups["key"].Value).ElementAtOrDefault(other % values.Count) ?? values[other % values.Count];
            var (a, b) = (first.Groups["value"], second.Groups["value"]);
            if (a.Index > b.Index)
                (a, b) = (b, a);
            if (a.Index == b.Index)
                continue;
            text = text[..a.Index] + b.Value + text[(a.Index + a.Length)..b.Index] + (kind % 2 == 0 ? a.Value : b.Value) + text[(b.Index + b.Length)..];
        }

        return text;
    });

    [Fact]
    public void Rows_that_changed_places_are_told_and_no_rule_no_sheet_and_no_model_fails_over_them()
    {
        var whole = 0;
        Exchanged.Holds(text => Answer(text, ref whole), iter: 200, print: t => t);
        Assert.True(whole > 50, $"Only {whole} drawings could be read: the generator no longer reaches the rules.");
    }

    internal static void Answer(string text, ref int whole)
    {
        var reading = DrawingReader.Read(text, "x.yaml", Drawings.MutationTest.Beside);
        if (reading.Partial is not { } drawing)
            return;
        Interlocked.Increment(ref whole);
        var packet = Packet.Of(drawing);
        Assert.Empty(packet.Findings.Where(f => f.Rule == ProgramFault.Rule).Select(f => f.Message));
        var part = PacketPart.Of(packet, packet.Fabrication.Cuts.Count % 8 == 0 ? Paper.A4 : null);
        Assert.Empty(part.Faults.Select(f => f.Message));
        Model.Glb(packet.Fabrication, packet.IsBuildable, out var missing);
        Assert.True(missing.Count == 0 || !packet.IsBuildable, string.Join(", ", missing));
        var fitting = new FitJoints(packet.Fabrication);
        foreach (var spool in packet.Fabrication.Spools)
            FitOrder.Of(fitting.OfSpool(spool));
    }

    [GeneratedRegex(@"(?<key>item|pipe item|size|size 2|what|to|schedule|class|kind|go|branch|by|quantity|bore|length|end|begin|spool|ends|flange|face to face|stem|flat|facing): (?<value>[^,{}\[\]#\n]+)", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 10_000)]
    private static partial Regex Values();
}
