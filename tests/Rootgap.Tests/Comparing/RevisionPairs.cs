namespace Rootgap.Tests.Comparing;

/// <summary>Two revisions of a drawing with what the second changes, as one finds it with pencil and paper.</summary>
/// <param name="Touched">Spools of the new drawing that are touched, with blanks between; <c>-Name</c> is one that is gone.</param>
/// <param name="Cut">What becomes of the pieces of the old drawing when all are cut; those that are usable in their own place as they are stand not here.</param>
internal sealed record RevisionPair(string Says, string Old, string New, string Touched, string Cut)
{
    public override string ToString() => Says;
}

/// <summary>Pairs of revisions, made by changing one of three lines.</summary>
internal static class RevisionPairs
{
    /// <summary>One run over a wall: spool 1 to the field weld, spool 2 behind it. 1-A 1450, 1-B 3200, 2-A 1000, 2-B 2000 from work point to work point.</summary>
    public const string Wall = """
        drawing: W-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: up, by: 1450, to: elbow}
              - {go: north, by: 3200, to: elbow, end: field}
              - {go: up, by: 1000, to: elbow}
              - {go: east, by: 2000, to: flange}

        """;

    /// <summary>A header (one piece of 4000 and one behind the tee) with an outlet up, a stub-in to the east and a tee to the west, each with its branch: one spool.</summary>
    public const string Header = """
        drawing: H-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: header
            start: {to: flange}
            legs:
              - {go: north, by: 1000, to: outlet, name: O1, branch: up, size: 2}
              - {go: north, by: 1200, to: stub-in, name: S1, branch: east, size: 3}
              - {go: north, by: 1400, to: tee, name: T1, branch: west, branch size: 4}
              - {go: north, by: 1500, to: flange}
          - run: vent
            start: {from: O1}
            legs:
              - {go: up, by: 500, to: flange}
          - run: drain
            start: {from: S1}
            legs:
              - {go: east, by: 700, to: elbow}
              - {go: down, by: 800, to: flange}
          - run: feed
            start: {from: T1}
            legs:
              - {go: west, by: 900, to: elbow}
              - {go: north, by: 1100, to: flange}

        """;

    /// <summary>Two spools of the same pipe, one after the other, parted by a field weld in the middle of a straight.</summary>
    public const string Two = """
        drawing: T-1
        revision: 1
        line: {size: 4, schedule: 40, class: 150, material: A106-B}
        shop: {final fit extra: 100}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 1500, to: elbow}
              - {go: north, by: 1200, to: weld, end: field}
              - {go: north, by: 1300, to: elbow}
              - {go: east, by: 900, to: flange}

        """;

    /// <summary>An eccentric reducer and a flanged valve.</summary>
    public const string Suction = """
        drawing: S-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 800, to: reducer, size: 4, kind: eccentric, flat: up}
              - {go: east, by: 900, to: valve, kind: gate, stem: up, face to face: 292}
              - {go: east, by: 1000, to: elbow}
              - {go: north, by: 700, to: flange}

        """;

    /// <summary>A header (one piece) with a drain in one row and a leaning branch, and behind a mitred bend a second pipe with a welded shoe: one spool. 1-A runs through the drain and the branch.</summary>
    public const string Rows = """
        drawing: R-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: header
            start: {to: flange}
            legs:
              - {go: north, by: 1000, to: drain, branch: down, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 62, mass: 2}
              - {go: north, by: 1200, to: stub-in, name: S1, branch: {north: 1, up: 1}, size: 3}
              - {go: north, by: 1500, to: mitred bend, cuts: 3, bend radius: 305, straight: 80}
              - {go: east, by: 1100, to: support, kind: shoe, height: 100, mass: 4}
              - {go: east, by: 900, to: flange}
          - run: branch
            start: {from: S1}
            legs:
              - {go: {north: 1, up: 1}, by: 900, to: flange}

        """;

    public static IEnumerable<RevisionPair> All => OfTheWall().Concat(OfTheHeader()).Concat(OfTheSuction()).Concat(OfTwo()).Concat(OfTheRows());

    private static RevisionPair Pair(string old, string says, string touched, string cut, params (string From, string To)[] changes)
    {
        var now = old;
        foreach (var (from, to) in changes)
        {
            if (!now.Contains(from, StringComparison.Ordinal))
                throw new ArgumentException($"{says}: the drawing has no {from}");
            now = now.Replace(from, to, StringComparison.Ordinal);
        }

        return new(says, old, now, touched, cut);
    }

    private static IEnumerable<RevisionPair> OfTheWall()
    {
        RevisionPair Of(string says, string touched, string cut, params (string, string)[] changes) => Pair(Wall, says, touched, cut, changes);
        yield return Of("another revision and nothing else", "", "", ("revision: 1", "revision: 2"));
        yield return Of("the run renamed", "", "", ("run: main", "run: over the wall"));
        yield return Of("a point in a leg", "", "", ("{go: north, by: 3200,", "{go: north, by: 1200, to: point}\n      - {go: north, by: 2000,"));
        yield return Of("the line moved east as it is", "", "", ("east: 0", "east: 500"));
        yield return Of("the line built looking east instead of north", "", "", ("north, by: 3200", "east, by: 3200"), ("go: east, by: 2000", "go: south, by: 2000"));
        yield return Of("a leg 150 longer", "1", "1-B spoiled", ("3200", "3350"));
        yield return Of("a leg 150 shorter", "1", "1-B trim 150 at W4", ("3200", "3050"));
        yield return Of("a leg 0.8 longer, within what a shop saws to", "", "", ("3200", "3200.8"));
        yield return Of("a leg 1.6 shorter", "1", "1-B trim 1.6 at W4", ("3200", "3198.4"));
        yield return Of("two legs change places: each piece is followed to its other place", "1", "", ("up, by: 1450", "up, by: 3060"), ("north, by: 3200", "north, by: 1590"));
        yield return Of("the last leg to the other side: no piece changes, the spool does", "2", "", ("go: east, by: 2000", "go: west, by: 2000"));
        yield return Of("the second spool goes down instead of up", "2", "", ("go: up, by: 1000", "go: down, by: 1000"));
        yield return Of("the holes of the first flange turned", "1", "", ("{to: flange, at", "{to: flange, holes: on-centre, at"));
        yield return Of("the flanges of another class, 10 longer in the millimetre column of B16.5", "1 2", "1-A trim 10 at W2, 2-B trim 10 at W8", ("class: 150", "class: 300"));
        yield return Of("the whole line of a heavier wall", "1 2", "1-A spoiled, 1-B spoiled, 2-A spoiled, 2-B spoiled", ("schedule: 40", "schedule: 80"));
        yield return Of("the whole line of another material", "1 2", "1-A spoiled, 1-B spoiled, 2-A spoiled, 2-B spoiled", ("A106-B", "A312-TP316L"));
        yield return Of("a short-radius elbow: both pieces are too short, and the long one serves for the other", "1", "1-A spoiled, 1-B as 1-A trim 1533 at W4", ("by: 1450, to: elbow", "by: 1450, to: elbow, radius: short"));
        yield return Of("the field weld made in the shop", "-1 1", "", (", end: field", ""));
        yield return Of("a weld moved to the site", "2 3", "", ("by: 1000, to: elbow", "by: 1000, to: elbow, end: field"));
        yield return Of("a jog of two legs put in", "2", "", ("{go: up, by: 1000, to: elbow}", "{go: up, by: 1000, to: elbow}\n      - {go: west, by: 700, to: elbow}\n      - {go: up, by: 800, to: elbow}"));
        yield return Of("a flanged joint in front of the first leg", "1 2", "1-A trim 611.6 at W2", ("      - {go: up, by: 1450", "      - {go: up, by: 700, to: joint}\n      - {go: up, by: 750"));
        yield return Of("the first flange a weld to what stands", "1", "1-A spoiled", ("start: {to: flange, at", "start: {to: weld, at"));
        yield return Of("the line written from its other end", "", "", ("""
                start: {to: flange, at: {east: 0, north: 0, up: 0}}
                legs:
                  - {go: up, by: 1450, to: elbow}
                  - {go: north, by: 3200, to: elbow, end: field}
                  - {go: up, by: 1000, to: elbow}
                  - {go: east, by: 2000, to: flange}
            """, """
                start: {to: flange, at: {east: 2000, north: 3200, up: 2450}}
                legs:
                  - {go: west, by: 2000, to: elbow}
                  - {go: down, by: 1000, to: elbow, begin: shop}
                  - {go: south, by: 3200, to: elbow, begin: field}
                  - {go: down, by: 1450, to: flange}
            """));
    }

    private static IEnumerable<RevisionPair> OfTheHeader()
    {
        RevisionPair Of(string says, string touched, string cut, params (string, string)[] changes) => Pair(Header, says, touched, cut, changes);
        yield return Of("branches named and written otherwise", "", "", ("O1", "gauge"), ("S1", "low point"), ("run: feed", "run: to tank"));
        yield return Of("branches put in another order", "", "", ("  - run: vent\n    start: {from: O1}\n    legs:\n      - {go: up, by: 500, to: flange}\n", ""), ("{go: north, by: 1100, to: flange}\n", "{go: north, by: 1100, to: flange}\n  - run: vent\n    start: {from: O1}\n    legs:\n      - {go: up, by: 500, to: flange}\n"));
        yield return Of("the outlet moved along the header", "1", "1-A spoiled", ("by: 1000, to: outlet", "by: 1100, to: outlet"), ("by: 1200, to: stub-in", "by: 1100, to: stub-in"));
        yield return Of("the outlet to the other side", "1", "1-A spoiled", ("branch: up, size: 2", "branch: down, size: 2"), ("{go: up, by: 500", "{go: down, by: 500"));
        yield return Of("the stub-in larger", "1", "1-A spoiled, 1-D spoiled, 1-E spoiled", ("branch: east, size: 3", "branch: east, size: 4"));
        yield return Of("the outlet taken out", "1", "1-A spoiled, 1-C spoiled", ("      - {go: north, by: 1000, to: outlet, name: O1, branch: up, size: 2}\n      - {go: north, by: 1200", "      - {go: north, by: 2200"), ("  - run: vent\n    start: {from: O1}\n    legs:\n      - {go: up, by: 500, to: flange}\n", ""));
        yield return Of("a second outlet put in", "1", "1-A holes 1", ("by: 1400, to: tee", "by: 400, to: outlet, name: O2, branch: up, size: 1}\n      - {go: north, by: 1000, to: tee"), ("  - run: drain", "  - run: second\n    start: {from: O2}\n    legs:\n      - {go: up, by: 300, to: cap}\n  - run: drain"));
        yield return Of("the header 200 shorter behind the last hole", "1", "1-A trim 200 at W3", ("by: 1400, to: tee", "by: 1200, to: tee"));
        yield return Of("the header 200 shorter before the first hole", "1", "1-A trim 200 at W1", ("by: 1000, to: outlet", "by: 800, to: outlet"));
        yield return Of("the tee's branch to the other side", "1", "", ("branch: west", "branch: east"), ("{go: west, by: 900", "{go: east, by: 900"));
        yield return Of("the drain turned round at its elbow", "1", "", ("{go: down, by: 800", "{go: north, by: 800"));
        yield return Of("the whole to the other hand", "1", "1-A spoiled", ("branch: east", "branch: west"), ("{go: east, by: 700", "{go: west, by: 700"), ("branch: west, branch size", "branch: east, branch size"), ("{go: west, by: 900", "{go: east, by: 900"));
        yield return Of("the whole turned a quarter about the upright", "", "", ("go: north, by: 1", "go: east, by: 1"), ("branch: east, size", "branch: south, size"), ("{go: east, by: 700", "{go: south, by: 700"), ("branch: west", "branch: north"), ("{go: west, by: 900", "{go: north, by: 900"));
    }

    private static IEnumerable<RevisionPair> OfTheSuction()
    {
        RevisionPair Of(string says, string touched, string cut, params (string, string)[] changes) => Pair(Suction, says, touched, cut, changes);
        yield return Of("the flat side of the reducer turned: with eight holes in its flanges the same spool, bolted in otherwise", "", "", ("flat: up", "flat: down"));
        yield return Of("the stem of the valve turned", "", "", ("stem: up", "stem: north"));
        yield return Of("a concentric reducer", "1", "", (", kind: eccentric, flat: up", ""));
        yield return Of("the valve 80 longer by its maker's sheet", "1 2", "1-B trim 40 at W4, 2-A trim 40 at W6", ("face to face: 292", "face to face: 372"));
    }

    private static IEnumerable<RevisionPair> OfTheRows()
    {
        RevisionPair Of(string says, string touched, string cut, params (string, string)[] changes) => Pair(Rows, says, touched, cut, changes);
        const string Drain = "to: drain, branch: down, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 62, mass: 2}";
        yield return Of("the drain written out as an outlet and a run", "", "", (Drain, "to: outlet, name: D1, branch: down, size: 3/4, ends: threaded}"), ("  - run: branch", """
              - run: low point
                schedule: 80
                ends: threaded
                start: {from: D1}
                legs:
                  - {go: down, by: makeup, nipple: 100, to: valve, kind: gate, ends: threaded, face to face: 62, mass: 2}
                  - {go: down, by: makeup, to: plug}
              - run: branch
            """));
        yield return Of("the drain at the side: its hole stands otherwise against the branch's", "1", "1-A spoiled", ("branch: down", "branch: east"));
        yield return Of("the drain farther along", "1", "1-A spoiled", ("by: 1000, to: drain", "by: 1100, to: drain"), ("by: 1200, to: stub-in", "by: 1100, to: stub-in"));
        yield return Of("a longer nipple in the drain", "1", "1-D spoiled", ("nipple: 100", "nipple: 150"));
        yield return Of("the drain without its valve", "1", "1-D spoiled", ("nipple: 100, face to face: 62, mass: 2", "valve: none"));
        yield return Of("the branch leans the other way", "1", "1-A spoiled", ("branch: {north: 1, up: 1}", "branch: {south: 1, up: 1}"), ("go: {north: 1, up: 1}", "go: {south: 1, up: 1}"));
        // The leg of 900 stays: half the header and the gap along the branch, 87.35 / sin, are 22.6 less, and its pipe is as much longer.
        yield return Of("the branch leans by 60 degrees instead of 45", "1", "1-A spoiled, 1-C spoiled", ("branch: {north: 1, up: 1}", "branch: {north: 1, up: 1.7320508}"), ("go: {north: 1, up: 1}", "go: {north: 1, up: 1.7320508}"));
        yield return Of("the mitred bend of two cuts: both pipes stay as they are", "1", "", ("cuts: 3", "cuts: 2"));
        yield return Of("the bend wider by 50: both pipes are 50 shorter", "1", "1-A trim 50 at W3, 1-B trim 50 at W5", ("bend radius: 305", "bend radius: 355"));
        yield return Of("the bend pulled and not mitred", "1", "", ("mitred bend, cuts: 3", "bend"));
        yield return Of("a blind on the last flange", "", "", ("by: 900, to: flange}\n  - run", "by: 900, to: flange, blinded: yes}\n  - run"));
        yield return Of("the shoe moved by 200: its weld, and no piece", "1", "", ("by: 1100, to: support", "by: 1300, to: support"), ("{go: east, by: 900", "{go: east, by: 700"));
        yield return Of("heat treatment after welding and a paint in the line data", "", "", ("runs:", "service: {heat treatment: by the procedure, paint: system 2}\nruns:"));
        yield return Of("the whole written to the other hand", "1", "", ("go: east, by", "go: west, by"));
    }

    private static IEnumerable<RevisionPair> OfTwo()
    {
        RevisionPair Of(string says, string touched, string cut, params (string, string)[] changes) => Pair(Two, says, touched, cut, changes);
        yield return Of("the field weld made last, with extra", "1", "1-B spoiled", ("end: field", "end: final-fit"));
        yield return Of("the field weld moved by 100: each of the two pieces serves at the other place", "1 2", "1-B as 2-A, 2-A as 1-B", ("by: 1200", "by: 1300"), ("by: 1300, to: elbow", "by: 1200, to: elbow"));
        yield return Of("a spool named", "", "", ("by: 1500, to: elbow", "by: 1500, to: elbow, spool: north"));
        yield return Of("the material list comes later", "", "", ("runs:", "materials: [{item: 1, what: pipe, size: 4, schedule: 40, material: A106-B, quantity: 5 m}]\nruns:"));
        yield return Of("the first spool turned against the second: a weld at site stands otherwise, and no spool does", "", "", ("{go: east, by: 1500", "{go: up, by: 1500"));
        yield return Of("the last flange a weld to what stands", "2", "2-B spoiled", ("by: 900, to: flange", "by: 900, to: weld"));
    }
}
