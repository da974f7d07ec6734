using System.Globalization;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

/// <summary>
/// A job lived through: lines with a flange at their end, people, devices, a revision in the middle, welds drawn for examination after it. What was done is also written down as plain words for the independent count, which knows nothing of the engine.
/// </summary>
internal sealed class LivedJob
{
    /// <summary>What happened, in plain words: drawing, revision, joint or piece, which weld, what, who's stamp, what came out.</summary>
    public sealed record Happened(string Id, int Drawing, int Revision, string At, string Weld, string What, string Stamp, string Result, DateTimeOffset When);

    private static readonly string[] People = [.. Enumerable.Range(1, 12).Select(i => $"P{i}")];

    private readonly Random random;
    private readonly List<Rootgap.Records.Fact> facts = [];
    private readonly HashSet<int> revised = [];
    private readonly DateTimeOffset begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private int next;

    public LivedJob(int drawings, int wanted, int seed)
    {
        random = new(seed);
        Drawings = drawings;
        for (var d = 0; d < drawings; d++)
            Save(d, 1);
        var (half, threeQuarters) = (wanted / 2, wanted * 3 / 4);
        while (facts.Count < wanted)
        {
            if (half > 0 && facts.Count >= half)
            {
                half = 0;
                // Every third line comes in a new revision: leg 2 is longer.
                for (var d = 0; d < drawings; d += 3)
                {
                    Save(d, 2);
                    revised.Add(d);
                    facts.Add(new RevisionTaken(Next(), "Foreman", Now, new(Number(d), "2")) { Versions = [VersionOf(d, 2)] });
                }
            }

            if (threeQuarters > 0 && facts.Count >= threeQuarters)
            {
                threeQuarters = 0;
                for (var d = 0; d < drawings; d++)
                    DrawWelds(d);
            }

            Something(random.Next(drawings));
        }
    }

    public int Drawings { get; }

    public List<Happened> Words { get; } = [];

    /// <summary>Ids of what is taken back.</summary>
    public List<(string Id, string Of)> TakenBack { get; } = [];

    public int Revision(int drawing) => revised.Contains(drawing) ? 2 : 1;

    public static int Elbows(int drawing) => 3 + (drawing % 5);

    /// <summary>Two an elbow, and the flange's.</summary>
    public static int Welds(int drawing) => (2 * Elbows(drawing)) + 1;

    // What chance draws is looked at elsewhere: here it matters what a draw, once made, asks for.
    private void DrawWelds(int d)
    {
        var (id, revision) = (Next(), Revision(d));
        List<WeldInDraw> welds = [];
        for (var n = 1; n <= Welds(d); n++)
        {
            var (c, r) = CountedByHand.MarkNow(this, d, $"W{n}");
            welds.Add(new($"W{n}", new(c, r), "K1", false, random.Next(3) == 0));
            if (welds[^1].IsDrawn)
                Words.Add(new(id, d, revision, $"W{n}", string.Create(CultureInfo.InvariantCulture, $"{c}.{r}"), "drawn", "", "", Now));
        }

        facts.Add(new WeldsDrawn(id, "Ines", Now, new(Number(d), revision.ToString(CultureInfo.InvariantCulture)), Number(d), ExaminationMethod.Radiography, 33, 7, 0, welds) { Versions = [VersionOf(d, revision)] });
    }

    public static string Number(int drawing) => string.Create(CultureInfo.InvariantCulture, $"L-{drawing + 1:00}");

    private DateTimeOffset Now => begin.AddMinutes(next * 7);

    private static string VersionOf(int drawing, int revision) => FactGens.Id(900_000 + (drawing * 10) + revision);

    private string Next() => FactGens.Id(++next);

    private void Save(int d, int revision) => facts.Add(FileSaved.OfText(VersionOf(d, revision), "Office", Now, Number(d) + ".yaml",
        PaperJob.Line(Elbows(d), Number(d), revision.ToString(CultureInfo.InvariantCulture), longer: revision == 2 ? 2 : null, end: "flange"), revision == 2 ? [VersionOf(d, 1)] : []));

    private void Something(int d)
    {
        var revision = Revision(d);
        var drawing = new DrawingRef(Number(d), revision.ToString(CultureInfo.InvariantCulture));
        string[] versions = [VersionOf(d, revision)];
        var joint = $"W{random.Next(1, Welds(d) + 1)}";
        var who = People[random.Next(People.Length)];
        var stamp = $"K{random.Next(1, 7)}";
        var mark = CountedByHand.MarkNow(this, d, joint);
        var (c, r) = mark;
        var weld = new WeldMark(c, r);
        var id = Next();
        switch (random.Next(16))
        {
            case 0:
            case 1:
                var piece = $"1-{(char)('A' + random.Next(Elbows(d) + 1))}";
                Add(new PieceCut(id, who, Now, drawing, piece, $"H{random.Next(1, 9)}") { Versions = versions }, piece, "", "cut", "", "");
                break;
            case 2:
                Add(new JointStep(id, who, Now, drawing, joint, Step.Tacked) { Weld = weld, Versions = versions }, joint, Text(mark), "tacked", "", "");
                break;
            case 3:
                Add(new FitUpSeen(id, who, Now, drawing, joint) { Weld = weld, Versions = versions }, joint, Text(mark), "seen", "", "");
                break;
            case 4:
            case 5:
            case 6:
            case 7:
                Add(new JointStep(id, who, Now, drawing, joint, Step.Welded) { Welder = stamp, Weld = weld, Versions = versions }, joint, Text(mark), "welded", stamp, "");
                break;
            case 8:
            case 9:
                var good = random.Next(5) > 0;
                Add(new Examined(id, who, Now, drawing, joint, ExaminationMethod.Radiography, good) { Weld = weld, Versions = versions }, joint, Text(mark), "examined", "", good ? "good" : "bad");
                break;
            case 10:
                var cutOut = random.Next(3) == 0;
                Add(new Repair(id, who, Now, drawing, joint, cutOut) { Weld = weld, Versions = versions }, joint, Text(mark), cutOut ? "cut out" : "repaired", "", "");
                break;
            case 11:
                var chart = $"C-{random.Next(1, 99)}";
                Add(new HeatTreated(id, who, Now, drawing, joint, chart) { Temperature = 620, Minutes = 60, Weld = weld, Versions = versions }, joint, Text(mark), "heat treated", "", chart);
                break;
            case 12:
                Add(new BoltedUp(id, who, Now, drawing, "B1") { Gasket = "spiral wound 4 in.", Versions = versions }, "B1", "", "bolted up", "", "");
                break;
            case 13:
                var passed = random.Next(3) > 0;
                Add(new Tested(id, who, Now, drawing, $"TP-{d}", TestMedium.Water, 15, passed) { Versions = versions }, "line", "", "tested", "", passed ? "good" : "bad");
                break;
            case 14:
                Add(new Released(id, who, Now, drawing, "1") { Versions = versions }, "spool", "", "released", "", "");
                break;
            default:
                if (Words.Count == 0)
                    break;
                var of = random.Next(4) == 0 && TakenBack.Count > 0 ? TakenBack[random.Next(TakenBack.Count)].Id : Words[random.Next(Words.Count)].Id;
                facts.Add(new Withdrawn(id, who, Now, of, "mistaken"));
                TakenBack.Add((id, of));
                break;
        }

        void Add(DrawingFact fact, string at, string which, string what, string by, string result)
        {
            facts.Add(fact);
            Words.Add(new(fact.Id, d, revision, at, which, what, by, result, fact.When));
        }

        static string Text((int C, int R) m) => string.Create(CultureInfo.InvariantCulture, $"{m.C}.{m.R}");
    }

    /// <summary>The facts as they come in from five devices: each keeps its own order now and then, none waits for another.</summary>
    public IEnumerable<Rootgap.Records.Fact> Arriving(int seed)
    {
        var shuffle = new Random(seed);
        var devices = facts.GroupBy(_ => shuffle.Next(5)).Select(g => new Queue<Rootgap.Records.Fact>(shuffle.Next(2) == 0 ? g : g.OrderBy(_ => shuffle.Next()))).ToList();
        var end = Now.AddDays(1);
        for (long seq = 1; devices.Exists(d => d.Count > 0); seq++)
        {
            var open = devices.Where(d => d.Count > 0).ToList();
            yield return open[shuffle.Next(open.Count)].Dequeue() with { Kept = new(seq, end) };
        }
    }

    public JobPapers Papers(int seed)
    {
        var record = JobRecord.Of(Arriving(seed));
        var following = new Following();
        return new(record, [.. Enumerable.Range(0, Drawings).Select(d =>
        {
            var file = record.Files[Number(d) + ".yaml"];
            var reading = Rootgap.Drawings.DrawingReader.Read(file.Latest!.Text!, file.Path);
            var made = Rootgap.Fabricating.Spooling.Of(Rootgap.Routes.Routing.Of(reading.Drawing!));
            return new LineDone(file.Path, made, following.Of(record, file.Path, made, [file.Latest.Id]));
        })]);
    }
}
