using System.Globalization;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using Rootgap.Tests.Sheets.Isometrics;

namespace Rootgap.Tests.Sheets;

/// <summary>All sheets of random drawings, judged from the files: what is drawn as <see cref="SheetJudge"/> does, and what must not be missing.</summary>
[Trait("pace", "slow")]
public class CleanSheetsTest(ITestOutputHelper output)
{
    /// <summary>Random drawings, always the same ones: ROOTGAP_DRAWINGS=500 takes more, ROOTGAP_SEEDS=204,240 those alone.</summary>
    private static int Drawings => int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_DRAWINGS"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 6;

    private static IEnumerable<int> Seeds => Environment.GetEnvironmentVariable("ROOTGAP_SEEDS") is { Length: > 0 } chosen
        ? chosen.Split(',').Select(seed => int.Parse(seed, CultureInfo.InvariantCulture)) : Enumerable.Range(1, Drawings).Union(Crossed);

    // In these a tape ran through what a card's picture says at its foot, and a leg through a sling's name.
    // In 204 the views had less room than their figures and were made smaller, letters and all; in 130 a dimension line ran through a figure; in 430 marks stood on lines.
    private static readonly int[] Crossed = [15, 40, 130, 204, 430];

    // One drawing in five is long.
    private static Packet Drawing(int seed)
    {
        var bytes = new byte[1200];
        new Random(seed).NextBytes(bytes);
        return SketchMaking.Of(new Choices(bytes), seed % 5 == 0 ? 40 : 10).Packet();
    }

    [Fact]
    public void The_sheets_of_random_drawings_are_clean() =>
        Judge(Seeds.Select(seed => (string.Create(CultureInfo.InvariantCulture, $"seed {seed}"), Drawing(seed))));

    [Fact]
    public void The_sheets_of_the_samples_are_clean() => Judge(SampleFile.Clean.Select(s => (s.Name, s.Packet())));

    private void Judge(IEnumerable<(string Name, Packet Packet)> drawings)
    {
        var faults = new List<(string Kind, string Page, string Fault)>();
        var sheets = new SortedDictionary<string, (int Sheets, int Clean)>(StringComparer.Ordinal);
        foreach (var (name, packet) in drawings)
        {
            foreach (var (kind, page, found) in Sheets(packet))
            {
                var (count, clean) = sheets.GetValueOrDefault(kind);
                sheets[kind] = (count + 1, clean + (found.Count == 0 ? 1 : 0));
                faults.AddRange(found.Select(f => (kind, $"{name}, {page}", f)));
            }
        }

        var (all, good) = (sheets.Values.Sum(s => s.Sheets), sheets.Values.Sum(s => s.Clean));
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{good} of {all} sheets are clean, {100.0 * good / all:0.00} %"));
        foreach (var (kind, (count, clean)) in sheets)
            output.WriteLine($"  {kind}: {clean} of {count}");
        foreach (var group in faults.GroupBy(f => (f.Kind, Fault: f.Fault[..f.Fault.IndexOf(':', StringComparison.Ordinal)])).OrderByDescending(g => g.Count()))
        {
            output.WriteLine($"{group.Key.Kind}, {group.Key.Fault}: {group.Count()} on {group.Select(f => f.Page).Distinct(StringComparer.Ordinal).Count()} sheets");
            foreach (var (_, page, fault) in group.Take(12))
                output.WriteLine($"    {page}: {fault}");
        }

        Assert.True(good >= Share * all, $"{good} of {all} sheets are clean; {string.Join("\n", faults.Take(10).Select(f => $"{f.Page}: {f.Fault}"))}");
    }

    private const double Share = 0.99;

    private static IEnumerable<(string Kind, string Page, List<string> Faults)> Sheets(Packet packet)
    {
        var job = packet.ToJob(packet.Drawing.Units == Units.Inches ? Paper.Letter : Paper.A4);
        var lists = new JobPages();
        lists.Add(job);
        var pages = ShopPages.Of(job).Concat(lists.Lists(job.Paper, Reader.All)).ToList();
        var read = pages.Select(p => (Page: p, Sheet: new SheetReader(SvgWriter.Write(p.Numbered(8, 88))))).ToList();
        foreach (var (page, sheet) in read)
        {
            var found = SheetJudge.Faults(sheet);
            if (page.Fault.Length > 0)
                found.Add("not drawn: " + page.Fault);
            if (sheet.Words.Exists(w => w.Text.StartsWith("No room in the picture", StringComparison.Ordinal) || w.Text.StartsWith("No room on the views", StringComparison.Ordinal)))
                found.Add("missing: no room for " + string.Join("; ", sheet.Words.Where(w => w.Class.EndsWith("/list", StringComparison.Ordinal) || w.Text.StartsWith("No room on", StringComparison.Ordinal)).Select(w => w.Text)));
            if (found.Count > 0 && Environment.GetEnvironmentVariable("ROOTGAP_UNCLEAN") is { Length: > 0 } folder)
            {
                using var pdf = File.Create(Path.Combine(folder, $"{page.Block.Drawing} {string.Concat(page.Block.Title.Where(c => char.IsLetterOrDigit(c) || c is ' ' or '-'))} {Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(string.Concat(found))))[..6]}.pdf"));
                PdfWriter.Write(pdf, page.Block.Title, [page.Numbered(8, 88)]);
            }

            yield return (Kind(page), page.Block.Title, found);
        }

        // What must stand somewhere: on the isometric, on the spools' own sheets, on the cards.
        var missing = Missing(packet, read).ToList();
        if (missing.Count > 0)
            yield return ("all sheets together", "the packet", missing);
    }

    private static string Kind(Page page)
    {
        var title = page.Block.Title;
        return page.Block.Spool.Length > 0 ? title == "spool " + page.Block.Spool ? "spool" : title.EndsWith("back", StringComparison.Ordinal) ? "spool, back" : "cards"
            : char.IsDigit(title.FirstOrDefault(c => !char.IsLetter(c))) || title.StartsWith("Piece", StringComparison.Ordinal) ? "template" : title.Split(' ')[0].TrimEnd(',', ':');
    }

    private static IEnumerable<string> Missing(Packet packet, List<(Page Page, SheetReader Sheet)> read)
    {
        var f = packet.Fabrication;
        var drawn = read.Where(r => r.Page.Block.Title.StartsWith("Isometric", StringComparison.Ordinal)).SelectMany(r => r.Sheet.Words).Where(w => w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
        foreach (var name in f.Route.Joints.Select(j => j.Id).Concat(f.Cuts.Select(c => c.Piece)).Concat(f.Spools.Select(s => "Spool " + s.Name)).Concat(f.Route.Components.Select(c => c.Item?.Item.ToString(CultureInfo.InvariantCulture) ?? c.Id)).Distinct(StringComparer.Ordinal))
        {
            if (!drawn.Contains(name))
                yield return $"missing: {name} on the isometric";
        }

        var text = string.Join('\n', drawn);
        // A leg that falls is dimensioned level.
        foreach (var mm in f.Route.Runs.SelectMany(r => r.Distances.Select((d, i) => d / Math.Sqrt(1 + (r.Run.Legs[i].Slope * r.Run.Legs[i].Slope)))))
        {
            var length = packet.Drawing.Units == Units.Inches ? LengthText.FeetInches(mm) : mm.ToString("0.#", CultureInfo.InvariantCulture);
            if (!text.Contains(length, StringComparison.Ordinal))
                yield return $"missing: the dimension {length} on the isometric";
        }

        foreach (var spool in f.Spools.Where(s => s.Cuts.Count + s.Components.Count <= SpoolSheet.MostDrawn))
        {
            var own = read.Where(r => r.Page.Block.Spool == spool.Name).ToList();
            var picture = own.SelectMany(r => r.Sheet.Words).Where(w => w.Class.StartsWith("isometric", StringComparison.Ordinal)).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
            foreach (var name in spool.Joints.Concat(spool.Ends).Select(j => j.Id).Concat(spool.Cuts.Select(c => c.Piece)).Distinct(StringComparer.Ordinal))
            {
                if (!picture.Contains(name))
                    yield return $"missing: {name} in the isometric of spool {spool.Name}";
            }

            var words = own.SelectMany(r => r.Sheet.Words).Select(w => w.Text).ToHashSet(StringComparer.Ordinal);
            foreach (var name in spool.Cuts.Select(c => c.Piece).Concat(spool.Components.Select(c => c.Id)))
            {
                if (!words.Contains(name))
                    yield return $"missing: {name} on the sheet of spool {spool.Name}";
            }
        }
    }
}
