using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Records;

namespace Rootgap.Tests.Records;

/// <summary>Facts as people in a shop would make them, few enough names that they often speak of the same thing.</summary>
internal static class FactGens
{
    public static string Id(int n) => $"{n:x8}-0000-4000-8000-000000000000";

    public static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    private static readonly Gen<string> Words = Gen.OneOf("1-A", "1-B", "2-A", "W1", "W2", "E 3 ½″", "\"quoted\" \\ <b>", "línea/кто");

    private static readonly Gen<double> Numbers = Gen.Int[1, 99_999].Select(n => n / 8.0);

    private static readonly Gen<Reading> Readings = Gen.OneOf<Reading>(
        Gen.OneOf(StandingJoint.Clock.ToArray()).Select(at => (Reading)new Reading.Tape(at)),
        Gen.OneOf(StandingJoint.Clock.ToArray()).Select(at => (Reading)new Reading.Gap(at)),
        Numbers.Select(s => (Reading)new Reading.Scale(s)),
        Gen.Const((Reading)new Reading.FaceLevelAlong()),
        Gen.Const((Reading)new Reading.FaceLevelAcross()),
        Gen.Const((Reading)new Reading.Holes()),
        Gen.Const((Reading)new Reading.OutOfSquare(3)),
        Gen.Const((Reading)new Reading.OutOfRound()),
        Gen.Const((Reading)new Reading.Height(null)));

    private static readonly Gen<Taken> Takens = Gen.Select(Readings, Gen.Double[-1.5, 1.5], Gen.Bool, (r, v, s) => new Taken(r, v, s ? 0.01 : null));

    /// <summary>One fact with the id of its number; it may speak of others by theirs.</summary>
    public static Gen<Fact> One(int number, int of) => Gen.Select(Bare(number, of), Words.List[0, 2], (fact, names) =>
        fact is UnknownFact ? fact : fact with { Attached = [.. names.Select((n, i) => Attachment.Of(n, [(byte)i, (byte)number]))] });

    private static Gen<Fact> Bare(int number, int of) =>
        from minute in Gen.Int[0, 5]
        from other in Gen.Int[0, of - 1]
        from second in Gen.Int[0, of - 1]
        from word in Words
        from revision in Gen.OneOf("", "1", "2")
        from length in Numbers
        from taken in Takens.List[0, 4]
        from step in Gen.Enum<Step>()
        from bytes in Gen.Byte.Array[0, 8]
        from kind in Gen.Int[0, 26]
        let id = Id(number)
        let when = Noon.AddMinutes(minute)
        let drawing = new DrawingRef("D-1", revision)
        select kind switch
        {
            0 => new PieceCut(id, "Jo", when, drawing, word, word, length) { Versions = [Id(other)], IsSpoiled = length > 500, From = length > 300 ? new("rack.yaml", word, length) : null },
            1 => new HeatNoted(id, "Jo", when, drawing, word, "A1"),
            2 => new ReadingsTaken(id, "Ann", when, drawing, word, "rolled 270", "P1", length, taken) { IsWelded = length > 500 },
            3 => new JointStep(id, "Jo", when, drawing, word, step) { Welder = "S1", Note = word },
            4 => new Withdrawn(id, "Jo", when, Id(other), word),
            5 => new UnknownFact(id, "Jo", when, "hung", $$$"""{"id":"{{{id}}}","fact":"hung","who":"Jo","when":"2026-11-25T12:00:00.000Z","crane":{"t":1.50,"a":[1,null,"é"]}}"""),
            7 => new LookedAt(id, "Ann", when, drawing, Id(other), length > 6000, word) { Versions = [.. new[] { Id(other), Id(second) }.Distinct()], Note = word },
            8 => new RevisionTaken(id, "Jo", when, drawing) { Versions = [Id(second)] },
            9 => new ErectionDone(id, "Jo", when, drawing, word) { Versions = [Id(second)], Note = word },
            11 => new SpoolRead(id, "Ann", when, drawing, word, "P1 north", $"{{read: tape, from: P1 north 12, to: C5 12, mm: {length}}}") { IsTacked = length > 500, Versions = [Id(second)], Note = word },
            12 => new JointStep(id, "Jo", when, drawing, word, Step.Welded)
            {
                Weld = new(other % 3, second % 3),
                Passes = [new(word, [Pass.Root]), new("K7", [Pass.Fill, Pass.Cap])],
                Filler = word,
                Preheat = length > 500 ? 20.5 : null,
                IsField = length > 900 ? null : length > 300,
                Deviation = length > 300 ? new([word, "W1: its fit-up is not seen"], word, "Ann") : null,
                Versions = [Id(second)],
            },
            13 => new FitUpSeen(id, "Ann", when, drawing, word) { Weld = new(0, other % 3), Gap = 3.25, HiLo = length > 500 ? 0.5 : null, Over = length > 500 ? Id(other) : null, IsRefused = length > 800, Note = word },
            14 => new Examined(id, "Ann", when, drawing, word, (ExaminationMethod)(other % 8), length > 500) { Weld = new(second % 2, 0), Extent = 12.5, Report = word, Found = length > 500 ? null : word, RejectedLength = length > 500 ? null : 25 },
            15 => new HeatTreated(id, "Jo", when, drawing, word, "C-1") { Temperature = 620, Minutes = length > 500 ? 60 : null, Versions = [Id(second)] },
            16 => new Repair(id, "Ann", when, drawing, word, length > 500) { Why = word, Weld = new(0, other % 2) },
            17 => new WeldsDrawn(id, "Ann", when, drawing, word, ExaminationMethod.Radiography, 12.5, 1234567, other, [new(word, WeldMark.First, "K7 + K12", length > 500, length > 300)]) { For = length > 500 ? "D-1 W1" : null, Since = length > 300 ? new(2026, 3, 1) : null, Until = length > 800 ? new(2026, 3, 31) : null },
            18 => new CertificateNoted(id, "Jo", when, word, "C-1") { Type = "3.1", Size = "6", Schedule = length > 500 ? "40" : null, Material = word, Product = word },
            19 => new BoltedUp(id, "Jo", when, drawing, word) { Gasket = word, Tool = "T1", Lubricant = length > 500 ? word : null, Passes = [new("30 %", "70 N m"), new("100 %", word)] },
            20 => new Tested(id, "Ann", when, drawing, word, (TestMedium)(other % 3), 22.5, length > 500) { From = when, To = length > 500 ? when.AddHours(1) : null, Gauges = [word, "G2"] },
            21 => new Released(id, "Ann", when, drawing, word) { Deviation = length > 500 ? null : new([word], "client wants it", "Bo") },
            22 => new Coated(id, "Jo", when, drawing, word, length > 500 ? Coating.Painted : Coating.Insulated) { Note = word },
            24 => new WelderNoted(id, "Jo", when, word) { Name = word, Procedures = length > 500 ? [] : ["WPS-4", word], Until = length > 500 ? null : new(2027, 3, 31) },
            23 => new NoteTaken(id, "Jo", when, drawing, length > 500 ? "" : word) { Note = word },
            26 => new PaperTicked(id, "Jo", when, drawing, word) { Page = 1 + other % 3, Ticked = [new(other * 7, 10_000), new(0, second)], TakenBack = length > 500 ? [] : [new(1250, 8430)] },
            10 => new BarNoted(id, "Jo", when, "rack.yaml", word) { IsOut = length > 500, Heat = word, Note = word },
            6 => new FileSaved(id, "Jo", when, "b.xlsx", bytes, other == number ? [] : [Id(other)]),
            _ => (Fact)FileSaved.OfText(id, "Jo", when, "a.yaml", word, [.. new[] { other, second }.Where(o => o != number).Distinct().Select(Id)]),
        };

    public static readonly Gen<Fact[]> Jobs = Gen.Int[1, 24].SelectMany(n => Many(n));

    private static Gen<Fact[]> Many(int n)
    {
        var facts = Gen.Const(Array.Empty<Fact>());
        for (var i = 0; i < n; i++)
        {
            var number = i;
            facts = Gen.Select(facts, One(number, n), (list, f) => (Fact[])[.. list, f]);
        }

        return facts;
    }
}
