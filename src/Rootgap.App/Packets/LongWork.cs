using System.Globalization;
using System.IO.Compression;
using System.Reflection;
using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using System.Text;
using System.Text.Json;
using Rootgap.App.Jobs;
using Rootgap.Cutting;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.App.Packets;

/// <summary>
/// The work that takes long, as the worker calls it (scripts/long-work.js): in a runtime of its own, beside the page. It knows nothing of the page;
/// the job's files are given first, then one method is called, which tells how far it is and hands over each file when it is made.
/// </summary>
[SupportedOSPlatform("browser")]
internal static partial class LongWork
{
    private const string Json = "application/json";
    private const string Csv = "text/csv";
    private const string Xlsx = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    private const string Pdf = "application/pdf";
    private const string Zip = "application/zip";

    private static readonly Dictionary<string, byte[]> Job = new(StringComparer.Ordinal);

    private static string Version { get; } = typeof(LongWork).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";

    [JSImport("told", "long-work")]
    private static partial void Told(string says, double share);

    [JSImport("made", "long-work")]
    private static partial void Made(string name, string type, byte[] content);

    /// <summary>A file of the job.</summary>
    [JSExport]
    internal static void Give(string path, byte[] content) => Job[path] = content;

    /// <summary>Makes the packet: the same files as <c>rootgap packet</c>, and what else is wanted.</summary>
    /// <param name="drawings">Their paths.</param>
    /// <param name="paper">Name of the paper.</param>
    /// <param name="who">Word of the reader whose pages are made; empty: all pages.</param>
    /// <param name="withModels">Also a glTF model of each drawing, in one archive.</param>
    /// <param name="withIsometrics">Also the isometric sheets as SVG, in one archive.</param>
    [JSExport]
    internal static void MakePacket(string[] drawings, string paper, string who, bool withModels, bool withIsometrics)
    {
        var sheet = Paper.Find(paper)!;
        var streams = new Dictionary<string, MemoryStream>(StringComparer.Ordinal);
        var reader = Readers.Words.FirstOrDefault(w => w.Word == who).Reader;
        using var files = new PacketFiles(Version, sheet, name => streams[name] = new MemoryStream(), reader);
        using var models = new Archive();
        using var isometrics = new Archive();
        var done = 0.0;
        var trouble = new List<string>();
        foreach (var path in drawings)
        {
            // Working out and drawing take about two thirds of a drawing's time, writing its pages the rest.
            var share = 1.0 / drawings.Length;
            Told($"{path}: working out", done);
            // One drawing that fails does not take the others with it: it is told at the end.
            try
            {
                Work(path, share);
            }
            catch (Exception e) when (ProgramFault.IsOne(e))
            {
                trouble.Add($"{path}: {e.Message}");
            }

            done += share;
        }

        Told("Finishing", done);
        trouble.AddRange(files.Close().Select(f => f.Message));
        foreach (var name in files.Names)
        {
            Made(name, name switch { PacketFiles.JsonName => Json, _ when name == files.SheetsName => Pdf, PacketFiles.XlsxName or PacketFiles.PapersName => Xlsx, _ => Csv }, streams[name].ToArray());
            streams.Remove(name);
        }

        if (withModels)
            Made("models.zip", Zip, models.Bytes());
        if (withIsometrics)
            Made("isometrics.zip", Zip, isometrics.Bytes());
        if (trouble.Count > 0)
            throw new InvalidOperationException("Not everything was made. " + string.Join(" ", trouble));

        void Work(string path, double share)
        {
            var drawing = Read(path).Drawing ?? throw new InvalidOperationException("it cannot be read. Open it and mend what stands there.");
            if (PacketPart.TryOf(drawing, sheet, out var fault, reader) is not { } part)
                throw new InvalidOperationException(fault!.Message);
            var (packet, number) = (part.Packet, drawing.Number);
            trouble.AddRange(files.Add(part, (page, of) => Told(string.Create(CultureInfo.InvariantCulture, $"{number}: page {page} of {of}"), done + ((0.65 + (0.3 * page / of)) * share))).Select(f => $"{path}: {f.Message}"));
            if (withModels)
            {
                Told($"{number}: the model", done + (0.95 * share));
                try
                {
                    models.Add(number, ".glb", Model.Glb(packet.Fabrication));
                }
                catch (FileNotFoundException)
                {
                    trouble.Add($"{number}: the part of the program that writes models is not on this device yet. Open the drawing's Model once with the shop in reach, then make the packet again.");
                }
            }

            if (withIsometrics)
            {
                Told($"{number}: the isometrics", done + (0.97 * share));
                foreach (var scene in new Booklet(number, IsometricPages.Of(packet.ToJob(sheet), withLists: true)).Scenes())
                    isometrics.Add(number, ".svg", Encoding.UTF8.GetBytes(SvgWriter.Write(scene)));
            }
        }
    }

    /// <summary>
    /// Plans the cutting of the whole job: the same plan as <c>rootgap cut</c> where the time is enough for it. A plan is handed over as soon as there is one,
    /// then better ones: who stops, keeps the last.
    /// </summary>
    /// <param name="drawings">Their paths.</param>
    /// <param name="rackPath">The rack's file; empty: lengths to buy as the drawings' shop rules have them.</param>
    /// <param name="seconds">Time for the search.</param>
    /// <param name="paper">Name of the paper.</param>
    /// <param name="labels">Size of the label stock (<see cref="CuttingLabels.TrySize"/>); empty: sheets to cut apart.</param>
    /// <param name="before">What was cut up to now, as a plan writes it.</param>
    [JSExport]
    internal static void PlanCutting(string[] drawings, string rackPath, double seconds, string paper, string labels, string before)
    {
        var all = new List<(IReadOnlyList<Piece> Pieces, ShopRules Shop)>();
        var isInches = true;
        var findings = new List<Finding>();
        foreach (var path in drawings)
        {
            Told($"{path}: working out", 0);
            var drawing = Read(path).Drawing ?? throw new InvalidOperationException($"{path} cannot be read. Open it and mend what stands there.");
            if (Packet.TryOf(drawing, out var fault) is not { } packet)
                findings.Add(fault!);
            else if (packet.IsBuildable)
            {
                all.Add(([.. Pieces.Of(packet.Fabrication, drawing.Number)], drawing.Shop));
                isInches &= drawing.Units == Units.Inches;
            }
            else
                findings.Add(Pieces.CannotBuild(drawing.Number, packet.Fabrication.Cuts.Count, isPlanned: false));
        }

        var pieces = all.SelectMany(d => d.Pieces).ToList();
        var rack = rackPath.Length == 0 ? Rack.ToBuy(all, isInches ? Units.Inches : Units.Millimetres) : RackOf(rackPath);
        var log = CuttingPlanJson.ReadLog(before);
        (pieces, rack) = (log.Wanted(pieces, findings), log.Left(rack));
        var wanted = rack.Rule(pieces);
        CuttingPlan? best = null;
        // A short search first, then longer ones: each begins anew, so that there is a plan to keep whenever the person stops.
        var spent = 0.0;
        for (var next = Math.Min(seconds, 2); ;)
        {
            var left = seconds - spent;
            var now = left - next < next ? left : next;
            var begun = spent;
            var plan = CuttingPlanner.Plan(wanted, rack, TimeSpan.FromSeconds(now), TimeProvider.System, p => Told(
                p.ToString(),
                Math.Min(1, (begun + (now * p.Group / p.Groups)) / seconds)));
            plan = plan with { Findings = [.. findings, .. plan.Findings] };
            if (best is null || plan.IsBetterThan(best) || (plan.IsProven && !best.IsProven))
            {
                best = plan;
                HandOver(plan, rack, Paper.Find(paper)!, CuttingLabels.TrySize(labels, out var label, out _) ? label : null);
            }

            spent += now;
            if (plan.IsProven || seconds - spent < 0.5)
                break;
            next = now * 4;
        }
    }

    private static void HandOver(CuttingPlan plan, Rack rack, Paper paper, Paper? label)
    {
        Make("cut.pdf", Pdf, to => new Booklet("Cutting plan", CuttingPages.Of(plan, paper)).WritePdf(to));
        Make("labels.pdf", Pdf, to => CuttingLabels.WritePdf(to, plan, paper, label));
        Make("buy.csv", Csv, to => Write(to, w => CuttingPlanTables.Csv(w, CuttingPlanTables.Rows(plan.Purchases), CuttingPlanTables.ToBuy)));
        Make("cut.csv", Csv, to => Write(to, w => CuttingPlanTables.Csv(w, CuttingPlanTables.Rows(plan))));
        Make("cut.xlsx", Xlsx, to => CuttingPlanTables.Xlsx(to, plan));
        Make("rack-after.yaml", "application/yaml", to => Write(to, w => CuttingPlanTables.Yaml(w, rack, plan)));
        // Last: a plan whose cut.json is there is whole.
        Make("cut.json", Json, to =>
        {
            using var json = new Utf8JsonWriter(to, PacketJson.Writing with { Indented = true });
            CuttingPlanJson.Write(json, plan, Version);
        });
    }

    private static void Make(string name, string type, Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        Made(name, type, stream.ToArray());
    }

    private static void Write(Stream to, Action<TextWriter> write)
    {
        using var writer = new StreamWriter(to, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true);
        write(writer);
    }

    private static DrawingReading Read(string path)
    {
        var reading = DrawingReader.Read(Job[path], path, beside => Job.GetValueOrDefault(Rootgap.Records.JobPath.Beside(path, beside)), out var text);
        var head = DrawingHead.Of(text);
        return reading.Drawing is { } drawing ? reading with { Drawing = drawing with { AlsoIn = [.. Job.Where(f => f.Key != path && IsYaml(f.Key) && DrawingHead.Of(FileText.Of(f.Value).Text) == head).Select(f => f.Key)] } } : reading;
    }

    private static bool IsYaml(string path) => path.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || path.EndsWith(".yml", StringComparison.OrdinalIgnoreCase);

    private static Rack RackOf(string path)
    {
        var reading = RackReader.Read(Job[path], path);
        return reading.Rack ?? throw new InvalidOperationException($"{path}: {string.Join(" ", reading.Errors.Take(3).Select(e => $"line {e.Where.Line}: {e.Message} {e.Remedy}"))}");
    }

    /// <summary>Files of several drawings in one archive; two drawings of one number do not write over each other.</summary>
    private sealed class Archive : IDisposable
    {
        private readonly MemoryStream stream = new();
        private readonly HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);
        private ZipArchive? zip;

        public void Add(string number, string ending, byte[] content)
        {
            zip ??= new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
            var name = string.Concat(number.Select(c => char.IsLetterOrDigit(c) || c is '-' or '.' ? c : '_'));
            var free = name + ending;
            for (var i = 2; !taken.Add(free); i++)
                free = string.Create(CultureInfo.InvariantCulture, $"{name}-{i}{ending}");
            var entry = zip.CreateEntry(free);
            entry.LastWriteTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);
            using var to = entry.Open();
            to.Write(content);
        }

        public byte[] Bytes()
        {
            zip?.Dispose();
            return stream.ToArray();
        }

        public void Dispose()
        {
            zip?.Dispose();
            stream.Dispose();
        }
    }
}
