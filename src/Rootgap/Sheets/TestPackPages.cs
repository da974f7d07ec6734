using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>What is on record of a pack's test.</summary>
/// <param name="Restored">How a joint was bolted up after it; null where it was not.</param>
public sealed record TestDone(Tested Test, Func<string, BoltedUp?> Restored)
{
    internal string Result(Units units) => $"{(Test.HasPassed ? "passed" : "FAILED")}, {Amount.Say(Quantity.Pressure, Test.Pressure, units)}";

    internal static string Hour(DateTimeOffset? time) => time?.UtcDateTime.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture) ?? "";
}

/// <summary>The test pack of a drawing: limits, heads, vents and drains, what stays wet; the record, the punch list and what is put back, for the pen.</summary>
public static class TestPackPages
{
    private static readonly TextStyle Dense = TextStyle.Small;

    /// <param name="pack">All drawings that are tested together; null: this one alone.</param>
    /// <param name="done">What is on record of the test; null: its fields are for the pen.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, IReadOnlyList<Fabrication>? pack = null, TestDone? done = null) =>
        MissingSheet.Instead(job, "Test pack", () => One(job, TestPack.Of(job.Fabrication, pack), done));

    private static IReadOnlyList<Page> One(ShopJob job, TestPack pack, TestDone? done)
    {
        var block = job.Block($"{TestWords.Name(pack)}: {TestWords.Medium(pack)}");
        Action<Flow>[] Parts(double high, bool isTight) =>
        [
            flow => Limits(flow, job, pack), flow => flow.Figure(TestPicture.Of(pack, flow.Width, high)), flow => Ends(flow, job, pack), flow => Heads(flow, job, pack), flow => Wet(flow, job, pack),
            flow => ValvesAndSupports(flow, job, pack), flow => Cautions(flow, pack), flow => Steps(flow, job, pack, done, isTight), flow => After(flow, job, pack, done, isTight),
        ];
        // One large sheet in two columns where it holds all, if need be with a lower picture and lower boxes; else as many small ones as it takes.
        var sheet = job.Paper.Larger.Landscape;
        var area = block.Content(sheet);
        var width = (area.Width - Between) / 2;
        foreach (var parts in Pictures.Select(p => Parts(p.High, p.IsTight)))
        {
            for (var left = parts.Length - 1; left > 0; left--)
            {
                var columns = new[] { parts[..left], parts[left..] }.Select(some => Flow.Column(width, flow => Array.ForEach(some, part => part(flow)))).ToList();
                if (columns.TrueForAll(c => c.Height <= area.Height))
                    return [Page.Draw(sheet, block, (canvas, box) => canvas.Place(columns[0], new(box.X, box.Y)).Place(columns[1], new(box.Right - width, box.Y)))];
            }
        }

        var small = new Flow(job.Paper, block);
        Array.ForEach(Parts(TestPicture.Height(pack), false), part => part(small));
        return small.Pages;
    }

    private const double Between = 8;

    /// <summary>Heights of the picture, mm, and whether the boxes are low: the first with which one large sheet holds all.</summary>
    private static readonly (double High, bool IsTight)[] Pictures = [(110, false), (90, false), (75, false), (60, false), (48, false), (48, true), (34, true)];

    private static void Limits(Flow flow, ShopJob job, TestPack pack)
    {
        var units = job.Drawing.Units;
        var unit = TestWords.Unit(units);
        flow.Fields(4,
            new Field("Test pressure", pack.Pressure is { } bar ? $"{TestWords.Bar(units, bar)} {unit}" : ""),
            new Field($"Asked at EL{(pack.Asked.At is null && pack.Asked.Gauge is null ? " (not given: the top)" : "")}", TestWords.Up(units, pack.AskedAt)),
            new Field("Hold", pack.Asked.Hold),
            new Field("Pressure, hold and distance set by (test engineer)"));
        if (pack.Numbers.Count > 1)
            flow.Paragraph($"One pack: {string.Join(", ", pack.Numbers)}. Heads, ratings and energy are of all of it; limits, pockets and water of {job.Drawing.Number}.", Dense);
        if (pack.Apart.Count > 0)
            flow.Warning(string.Join("; ", pack.Apart) + ". The test engineer says what is tested together.", "Not one test as drawn");
    }

    private static void Ends(Flow flow, ShopJob job, TestPack pack)
    {
        var units = job.Drawing.Units;
        flow.Table(new Table(
            ["", new("Limit", ColumnWidth.Share(2)), new("Bolts, gasket", ColumnWidth.Share()), new("Blind thickness", ColumnWidth.Of(24)), "In", "Out"],
            pack.Limits.Select(l => new Row(new Cell(l.Name) { Bold = true }, TestWords.Of(l), TestWords.Bolts(l, units), "", l.IsForTest ? Cell.Box() : "", l.IsForTest ? Cell.Box() : "")))
        { Style = Dense, WhenEmpty = "no end", RowHeight = 6, LeastRowHeight = 5.2 });
    }

    private static void Heads(Flow flow, ShopJob job, TestPack pack)
    {
        var units = job.Drawing.Units;
        var unit = TestWords.Unit(units);
        flow.Beside(
            (1, left => left.Table(new Table(
                [new(pack.IsAir ? "Pressure" : "Head of water", ColumnWidth.Share()), new("EL", Anchor.End), new(unit, Anchor.End)],
                pack.Heads.DistinctBy(h => (h.What, Math.Round(h.Height))).Select(h => new Row(h.What, TestWords.Up(units, h.Height), new Cell(TestWords.Bar(units, h.Bar)) { Bold = true })))
            { Style = Dense })),
            (1, right => right.Table(new Table(
                [new("Held against", ColumnWidth.Share()), new("", ColumnWidth.Share())],
                TestWords.Held(pack, units).Select(h => new Row(h.What, new Cell(h.Says) { Bold = h.Says.Contains("NOT", StringComparison.Ordinal) || h.Says.Contains("GONE", StringComparison.Ordinal) })))
            { Style = TextStyle.Small })));
        flow.Fields(4,
            new Field("Volume of the bore", TestWords.Volume(units, pack.Volume) + (pack.Numbers.Count > 1 ? $"; pack {TestWords.Volume(units, pack.PackVolume)}" : "")),
            new Field(pack.IsAir ? "Stored energy" : "Water in it", pack.IsAir ? pack.Pressure is { } p ? TestWords.Energy(PressureTest.StoredEnergy(p, pack.PackVolume), units) : "" : LiftWords.Mass(units, pack.WaterMass)),
            new Field("Taken out", pack.Out.Count > 0 ? string.Join(", ", pack.Out.Select(c => LengthText.Say(units, $"{c.Id} {c.Name}, {c.Path:len} long"))) : "nothing marked"),
            new Field("Not counted", "bodies of valves"));
    }

    // What stays in it.
    private static void Wet(Flow flow, ShopJob job, TestPack pack)
    {
        if (!pack.IsAir)
            flow.Heading("Vents, drains, what stays", 3).Bullets(Dense, TestWords.Pockets(pack, job.Drawing.Units));
    }

    // Beside each other where there are both.
    private static void ValvesAndSupports(Flow flow, ShopJob job, TestPack pack)
    {
        var isLoaded = pack.Supports.Any(s => s.Full > 0) && !pack.IsAir;
        if (pack.Valves.Count > 0 && isLoaded)
            flow.Beside((1, Valves), (1.3, Full));
        else if (isLoaded)
            Full(flow);
        else if (pack.Valves.Count > 0)
            Valves(flow);
        if (pack.Supports.Count > 0 && !pack.IsAir)
        {
            var unreckoned = pack.Supports.Where(s => s.Full <= 0).Select(s => s.Support.Tag).ToList();
            flow.Paragraph(SpanLoads.Says + (unreckoned.Count > 0 ? $" NOT RECKONED, as no straight stretch leads from them to another support, and not unloaded: {string.Join(", ", unreckoned)}." : ""), TextStyle.Small);
        }

        void Valves(Flow f) => f.Heading(pack.Valves.All(v => v is Valve) ? "Valves" : "Valves and what stays in the line", 3).Ticks(Dense, pack.Valves.Select(v => TestWords.Of(v, pack)));

        void Full(Flow f) => f.Heading("Supports, full of water", 3).Table(new Table(
            ["Support", "Kind", new("Empty", Anchor.End), new("Full", Anchor.End), new("Seen", ColumnWidth.Share())],
            pack.Supports.Where(s => s.Full > 0).Select(s => new Row(new Cell(s.Support.Tag) { Bold = true }, s.Support.Name, LiftWords.Mass(job.Drawing.Units, s.Empty), new Cell(LiftWords.Mass(job.Drawing.Units, s.Full)) { Bold = true }, Cell.Box())))
        { Style = Dense });
    }

    private static void Cautions(Flow flow, TestPack pack) =>
        flow.Paragraph($"{(pack.IsAir ? "Gas test" : "Pressure test")}. {string.Join(" ", TestWords.Cautions(pack))}", TextStyle.Strong with { Height = 3 });

    private static void Steps(Flow flow, ShopJob job, TestPack pack, TestDone? done, bool isTight)
    {
        var units = job.Drawing.Units;
        flow.Heading("Record of the test", 2).Table(new Table(
            [new("", Anchor.End), new("To do", ColumnWidth.Share()), new("Value", ColumnWidth.Of(24)), new("Time", ColumnWidth.Of(20)), new("By", ColumnWidth.Of(28))],
            TestWords.Steps(pack).Select((s, i) => new Row(new Cell((i + 1).ToString(CultureInfo.InvariantCulture)) { Bold = true }, s, "", "", "")))
        { Style = Dense, RowHeight = 6.6, LeastRowHeight = 6 });
        Boxes(flow, isTight, new Field("Gauge 1, calibrated to", done?.Test.Gauges.ElementAtOrDefault(0) ?? ""), new Field("Gauge 2, calibrated to", done?.Test.Gauges.ElementAtOrDefault(1) ?? ""), new Field("Temperature, steel and medium"), new Field("Result", done?.Result(units) ?? ""));
        if (done is not null)
            flow.Fields(3, new Field("From", TestDone.Hour(done.Test.From)), new Field("To", TestDone.Hour(done.Test.To)), new Field("On record by", done.Test.Who));
    }

    private static void After(Flow flow, ShopJob job, TestPack pack, TestDone? done, bool isTight)
    {
        var units = job.Drawing.Units;
        flow.Beside((1, f => f.Heading("Punch list: A test, B start-up, C after", 3).Table(new Table(
            ["A/B/C", new("What, where", ColumnWidth.Share()), new("Done, by", ColumnWidth.Of(20))],
            Enumerable.Range(0, 4).Select(_ => new Row("", "", "")))
        { Style = TextStyle.Small, RowHeight = 6.6 })), (1, f => f.Heading("Put back after the test", 3).Table(new Table(
            [new("Joint"), new("What", ColumnWidth.Share()), new("New gasket", done is null ? ColumnWidth.Fit : ColumnWidth.Of(24)), new("Bolted up, by", ColumnWidth.Of(22))],
            pack.Opened.Select(b => new Row(new Cell(b.Joint.Id) { Bold = true }, Wording.Between(job.Fabrication, b.Joint), done?.Restored(b.Joint.Id) is { } up ? new Cell(up.Gasket ?? "not noted") : Cell.Box(LengthText.Say(units, $"{b.Joint.Gap:gap}")), done?.Restored(b.Joint.Id) is { } by ? $"{by.Who}, {by.Time.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}" : ""))
                .Concat(pack.Out.Select(c => new Row(new Cell(c.Id) { Bold = true }, c.Name + " back in", "", "")))
                .Concat(pack.Limits.Where(l => l.Kind == LimitKind.Cap).Select(l => new Row(new Cell("limit " + l.Name) { Bold = true }, "cap or plug out", "", "")))
                .Concat(pack.Bores.SelectMany(b => b.Vents.Concat(b.Drains)).Distinct().Where(l => l.Kind == LimitKind.Screwed).Select(l => new Row(new Cell("limit " + l.Name) { Bold = true }, $"{l.Part?.Id} screwed in again, sealed", "", ""))))
        { Style = TextStyle.Small, RowHeight = 6.6, WhenEmpty = "nothing" })));
        Boxes(flow, isTight, new Field("Welds accepted"), new Field("Test engineer"), new Field("Client"), new Field("Restored, blinds counted out"));
    }

    private static void Boxes(Flow flow, bool isTight, params IReadOnlyList<Field> fields) => _ = isTight ? flow.LowFields(4, fields) : flow.Fields(4, fields);
}
