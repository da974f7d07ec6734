using System.Globalization;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>A list of the papers as a table, for those who have sheets of their own.</summary>
/// <param name="Name">Also the name of its file: weld-list.</param>
/// <param name="Headings">Of the columns, in order.</param>
/// <param name="Rows">Heading to a number, a text or nothing; all rows have the same headings.</param>
public sealed record PaperTable(string Name, IReadOnlyList<string> Headings, IReadOnlyList<Dictionary<string, object?>> Rows);

/// <summary>The lists of a job: welds, examination, heats, what comes next, and all the rest.</summary>
public static class PaperTables
{
    private const string Day = "yyyy-MM-dd";

    /// <summary>All lists, in the order of the work.</summary>
    public static IReadOnlyList<PaperTable> Of(JobPapers papers) =>
    [
        Welds(papers.Welds), Heats(papers.Heats), FitUps(papers.Welds), Examinations(papers.Welds), Lots(papers.Lots), Welders(papers.Welds), Listed(papers.Welders), HeatTreatments(papers.Welds),
        Bolting(papers.Lines), Tests(papers.Lines), Releases(papers.Lines), Deviations(papers.Lines), Next(papers.Steps), Days(Progress.Of(papers.Welds)), Attached(papers), Findings(papers),
    ];

    public static PaperTable Welds(IEnumerable<WeldHistory> welds) => Table("weld-list", welds,
        ("drawing", w => w.Line.Number),
        ("revision", w => w.Line.Done.Drawing.Revision),
        ("weld", w => w.Name),
        ("spool", w => w.Spool),
        ("kind", w => PaperWords.Of(w.Joint.Kind)),
        ("place", w => w.IsField ? "site" : "shop"),
        ("size", w => w.Joint.Size.ToString()),
        ("wall mm", w => LengthText.Rounded(w.Joint.Wall, 2)),
        ("diameter-inches", w => w.DiameterInches),
        ("part 1", w => w.Heats[0].Part),
        ("heat 1", w => w.Heats[0].Heat),
        ("part 2", w => w.Heats.Count > 1 ? w.Heats[1].Part : null),
        ("heat 2", w => w.Heats.Count > 1 ? w.Heats[1].Heat : null),
        ("fit-up seen", w => Text(w.FitUp?.Time)),
        ("fit-up by", w => w.FitUp?.Who),
        ("welded", w => Text(w.Welded)),
        ("root", w => Stamps(w, Pass.Root)),
        ("fill", w => Stamps(w, Pass.Fill)),
        ("cap", w => Stamps(w, Pass.Cap)),
        ("procedure", w => Last(w, m => m.Procedure)),
        ("filler", w => Last(w, m => m.Filler)),
        ("preheat C", w => w.Made.LastOrDefault(m => m.Preheat is not null)?.Preheat),
        ("asked for", w => Some(w.Asked.Select(a => PaperWords.Of(a.Method)))),
        ("results", w => Some(w.Examinations.Select(e => $"{PaperWords.Of(e.Method)} {(e.IsAccepted ? "accepted" : "rejected")}{(e.Report is { } r ? $" {r}" : "")}"))),
        ("heat treatment", w => w.Treated?.Chart),
        ("state", w => PaperWords.Of(w.State)));

    public static PaperTable Heats(IEnumerable<HeatUse> uses) => Table("heats", uses,
        ("drawing", u => u.Line.Number),
        ("spool", u => u.Spool),
        ("part", u => u.Part),
        ("what", u => u.What),
        ("size", u => u.Size.ToString()),
        ("schedule", u => u.Schedule),
        ("material", u => u.Material),
        ("heat", u => u.Heat),
        ("certificates", u => Some(u.Certificates.Select(c => c.Number))),
        ("type", u => Some(u.Certificates.Select(c => c.Type ?? "").Where(t => t.Length > 0).Distinct(StringComparer.Ordinal))));

    public static PaperTable FitUps(IEnumerable<WeldHistory> welds) => Table("fit-up", welds.Where(w => w.FitUp is not null),
        ("drawing", w => w.Line.Number),
        ("weld", w => w.Name),
        ("seen", w => Text(w.FitUp!.Time)),
        ("by", w => w.FitUp!.Who),
        ("gap mm", w => w.FitUp!.Gap),
        ("hi-lo mm", w => w.FitUp!.HiLo),
        ("result", w => w.FitUp!.IsRefused ? "refused" : "accepted"),
        ("note", w => w.FitUp!.Note));

    public static PaperTable Examinations(IEnumerable<WeldHistory> welds) => Table("examination", welds.SelectMany(w => w.Examinations.Select(e => (w, e))),
        ("drawing", x => x.w.Line.Number),
        ("weld", x => x.w.Name),
        ("welders", x => Some(x.w.Welders)),
        ("method", x => PaperWords.Of(x.e.Method)),
        ("extent %", x => x.e.Extent),
        ("result", x => x.e.IsAccepted ? "accepted" : "rejected"),
        ("report", x => x.e.Report),
        ("found", x => x.e.Found),
        ("rejected mm", x => x.e.RejectedLength),
        ("by", x => x.e.Who),
        ("date", x => Text(x.e.Time)));

    public static PaperTable Lots(IEnumerable<Lot> lots) => Table("lots", lots.SelectMany(l => l.Welds.Select(w => (l, w))),
        ("lot", x => x.l.Name),
        ("method", x => PaperWords.Of(x.l.Method)),
        ("share %", x => x.l.Share),
        ("seed", x => (int)x.l.Seed),
        ("welder", x => Some(x.w.Welders)),
        ("weld", x => x.w.Name),
        ("place", x => x.w.IsField ? "site" : "shop"),
        ("round", x => x.w.Round),
        ("says", x => Lot.Says(x.w)),
        ("result", x => x.l.ResultOf(x.w)));

    public static PaperTable Welders(IEnumerable<WeldHistory> welds) => Table("welders", WelderRate.Of(welds),
        ("welder", r => r.Welder),
        ("welds", r => r.Welds),
        ("diameter-inches", r => r.DiameterInches),
        ("method", r => r.Method is { } m ? PaperWords.Of(m) : null),
        ("examined", r => r.Examined),
        ("rejected", r => r.Rejected),
        ("rate %", r => Rounded(r.Rate)),
        ("examined mm", r => Rounded(r.ExaminedLength)),
        ("rejected mm", r => Rounded(r.RejectedLength)),
        ("length rate %", r => Rounded(r.LengthRate)),
        ("rejects without length", r => r.WithoutLength));

    public static PaperTable HeatTreatments(IEnumerable<WeldHistory> welds) => Table("heat-treatment", welds.Where(w => w.Treated is not null),
        ("drawing", w => w.Line.Number),
        ("weld", w => w.Name),
        ("chart", w => w.Treated!.Chart),
        ("temperature C", w => w.Treated!.Temperature),
        ("minutes", w => w.Treated!.Minutes),
        ("by", w => w.Treated!.Who),
        ("date", w => Text(w.Treated!.Time)));

    public static PaperTable Bolting(IEnumerable<LineDone> lines) => Table("bolting", lines.SelectMany(l => l.Fabrication.Route.Joints.Where(j => j.Kind == JointKind.Bolted).Select(j => (l, j, b: l.Done.Counting<BoltedUp>(j.Id).LastOrDefault()))),
        ("drawing", x => x.l.Number),
        ("joint", x => x.j.Id),
        ("size", x => x.j.Size.ToString()),
        ("class", x => x.j.Class),
        ("bolted up", x => Text(x.b?.Time)),
        ("by", x => x.b?.Who),
        ("gasket", x => x.b?.Gasket),
        ("lubricant", x => x.b?.Lubricant),
        ("tool", x => x.b?.Tool),
        ("passes", x => x.b is null ? null : Some(x.b.Passes.Select(p => $"{p.Name} {p.Value}"))));

    public static PaperTable Tests(IEnumerable<LineDone> lines) => Table("tests", lines.SelectMany(l => l.Tests().Select(t => (l, t))),
        ("drawing", x => x.l.Number),
        ("pack", x => x.t.Pack),
        ("medium", x => FactJson.WordOf(x.t.Medium)),
        ("bar", x => x.t.Pressure),
        ("from", x => Minute(x.t.From)),
        ("to", x => Minute(x.t.To)),
        ("gauges", x => Some(x.t.Gauges)),
        ("result", x => x.t.HasPassed ? "passed" : "failed"),
        ("by", x => x.t.Who),
        ("date", x => Text(x.t.Time)));

    public static PaperTable Releases(IEnumerable<LineDone> lines) => Table("releases", lines.SelectMany(l => l.Fabrication.Spools.Select(s => (l, s, r: l.Done.Counting<Released>($"spool {s.Name}").LastOrDefault()))),
        ("drawing", x => x.l.Number),
        ("spool", x => x.s.Name),
        ("mass kg", x => Rounded(x.s.Mass)),
        ("released", x => Text(x.r?.Time)),
        ("by", x => x.r?.Who),
        ("taken on", x => x.r?.Deviation is { } d ? Some(d.Missing) : null),
        ("why", x => x.r?.Deviation?.Why),
        ("taken on by", x => x.r?.Deviation?.By));

    public static PaperTable Deviations(IEnumerable<LineDone> lines) => Table("deviations", lines.SelectMany(l => DrawingRecord.Counting(l.Done.Facts).Where(f => f.Deviation is not null).Select(f => (l, f))),
        ("drawing", x => x.l.Number),
        ("at", x => DrawingRecord.NameOf(x.f)),
        ("step", x => x.f is JointStep s ? PaperWords.Of(s.Step) : x.f.Kind),
        ("missing", x => Some(x.f.Deviation!.Missing)),
        ("why", x => x.f.Deviation!.Why),
        ("taken on by", x => x.f.Deviation!.By),
        ("done by", x => x.f.Who),
        ("date", x => Text(x.f.Time)));

    /// <summary>The welders' list, in the columns in which one is read: <see cref="IncomingLists.OfWelders"/>.</summary>
    public static PaperTable Listed(WelderList list) => Table("welder-list", list.Welders,
        ("stamp", w => w.Stamp),
        ("name", w => w.Name),
        ("procedures", w => w.Procedures.Count > 0 ? string.Join(' ', w.Procedures) : null),
        ("until", w => w.Until?.ToString(Day, CultureInfo.InvariantCulture)));

    /// <summary>Pictures and papers with what they go with.</summary>
    public static PaperTable Attached(JobPapers papers) => Table("attached", papers.Job.Facts.Where(e => e.Counts).SelectMany(e => e.Fact.Attached.Select(a => (e.Fact, Of: a))),
        ("name", x => x.Of.Name),
        ("drawing", x => (x.Fact as DrawingFact)?.Drawing.Number),
        ("goes with", x => x.Fact is DrawingFact f ? DrawingRecord.NameOf(f) : x.Fact is CertificateNoted c ? $"certificate {c.Number} of heat {c.Heat}" : null),
        ("entry", x => x.Fact.Kind),
        ("by", x => x.Fact.Who),
        ("day", x => x.Fact.Time.UtcDateTime.ToString(Day, CultureInfo.InvariantCulture)),
        ("bytes", x => x.Of.Bytes),
        ("sha256", x => x.Of.Sha256));

    public static PaperTable Next(IEnumerable<NextStep> steps) => Table("next", steps,
        ("drawing", s => s.Line.Number),
        ("what", s => s.Of.ToString().ToLowerInvariant()),
        ("name", s => s.Name),
        ("spool", s => s.Spool),
        ("next", s => s.Step),
        ("today", s => s.CanBeDone ? "yes" : "no"),
        ("missing", s => Some(s.Missing)));

    public static PaperTable Days(Progress progress) => Table("progress", progress.Days,
        ("day", d => d.Day.ToString(Day, CultureInfo.InvariantCulture)),
        ("welds", d => d.Welds),
        ("diameter-inches", d => d.Inches),
        ("welds so far", d => d.WeldsSoFar),
        ("diameter-inches so far", d => d.InchesSoFar),
        ("of welds", d => progress.Welds),
        ("of diameter-inches", d => progress.Inches));

    public static PaperTable Findings(JobPapers papers) => Table("findings", papers.Findings,
        ("at", f => f.At.ToString()),
        ("rule", f => f.Rule),
        ("what", f => f.Message),
        ("do", f => f.Remedy));

    /// <summary>All lists as one JSON object: name of the list to its rows.</summary>
    public static void Json(Stream to, IEnumerable<PaperTable> tables)
    {
        using var json = new Utf8JsonWriter(to, new JsonWriterOptions { Indented = true });
        json.WriteStartObject();
        foreach (var table in tables)
        {
            json.WriteStartArray(table.Name);
            foreach (var row in table.Rows)
            {
                json.WriteStartObject();
                foreach (var (heading, value) in row)
                {
                    switch (value)
                    {
                        case null: json.WriteNull(heading); break;
                        case int whole: json.WriteNumber(heading, whole); break;
                        case double number: json.WriteNumber(heading, number); break;
                        default: json.WriteString(heading, Convert.ToString(value, CultureInfo.InvariantCulture)); break;
                    }
                }

                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    public static void Csv(TextWriter to, PaperTable table) => CuttingPlanTables.Csv(to, table.Rows, table.Headings);

    /// <summary>A workbook with a sheet for each list.</summary>
    public static void Xlsx(Stream to, IEnumerable<PaperTable> tables) =>
        Workbook.Write(to, [.. tables.Select(t => (t.Name, t.Rows.Count > 0 ? t.Rows : (IEnumerable<Dictionary<string, object?>>)[t.Headings.ToDictionary(h => h, _ => (object?)null, StringComparer.Ordinal)]))]);

    private static PaperTable Table<T>(string name, IEnumerable<T> items, params (string Heading, Func<T, object?> Of)[] columns) =>
        new(name, [.. columns.Select(c => c.Heading)], [.. items.Select(i => columns.ToDictionary(c => c.Heading, c => c.Of(i), StringComparer.Ordinal))]);

    private static string? Text(DateTimeOffset? time) => time?.UtcDateTime.ToString(Day, CultureInfo.InvariantCulture);

    private static string? Minute(DateTimeOffset? time) => time?.UtcDateTime.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture);

    private static string? Some(IEnumerable<string> words) => string.Join("; ", words) is { Length: > 0 } text ? text : null;

    private static string? Stamps(WeldHistory weld, Pass pass) => Some(weld.WhoMade(pass));

    private static string? Last(WeldHistory weld, Func<JointStep, string?> of) => Some(weld.Made.Select(of).OfType<string>().Where(t => t.Length > 0).Distinct(StringComparer.Ordinal));

    private static double? Rounded(double? value) => value is { } v ? Math.Round(v, 1) : null;
}
