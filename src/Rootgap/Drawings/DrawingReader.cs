using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What came of reading a drawing file.</summary>
/// <param name="Drawing">Null where the file has errors.</param>
/// <param name="Errors">Every error of the file, in its order; empty where the drawing was read.</param>
public sealed record DrawingReading(Drawing? Drawing, IReadOnlyList<Finding> Errors)
{
    /// <summary>
    /// The drawing as far as it is understood, for a picture while it is being written; the same as <see cref="Drawing"/> where there are no errors,
    /// null where not even the line's size is known. Nothing may be built from it.
    /// </summary>
    public Drawing? Partial { get; init; } = Drawing;
}

/// <summary>Reads the drawing file. All errors are told in one go, each with its place, what was expected and the nearest valid word.</summary>
public static class DrawingReader
{
    /// <summary>Runs of a drawing that are worked out: a sheet of paper shows a few dozen.</summary>
    public const int MostRuns = 1000;

    /// <summary>Legs of a drawing that are worked out, all runs together.</summary>
    public const int MostLegs = 5000;

    /// <summary>Reads a file as it lies on the disk.</summary>
    /// <param name="text">Its text, also where it has errors.</param>
    public static DrawingReading Read(ReadOnlySpan<byte> bytes, string file, Func<string, byte[]?>? beside, out string text)
    {
        var errors = new ReadingErrors();
        text = FileText.Read(bytes, file, "", errors);
        return errors.Count > 0 ? new(null, errors.InOrder) : Read(text, file, beside);
    }

    /// <param name="text">The YAML text.</param>
    /// <param name="file">Its name, for the messages.</param>
    /// <param name="beside">Gives the bytes of a shop or material file named in the drawing, by its path beside it; null where there is none.</param>
    public static DrawingReading Read(string text, string file, Func<string, byte[]?>? beside = null)
    {
        var errors = new ReadingErrors();
        var root = YamlTree.Read(text, file, (where, message, remedy) => errors.Add("not-yaml", where, "", message, remedy));
        return Read(root, file, beside, errors);
    }

    /// <summary>Reads a tree; <paramref name="errors"/> holds what was found while making it.</summary>
    internal static DrawingReading Read(YamlNode? root, string file, Func<string, byte[]?>? beside, ReadingErrors errors)
    {
        var reading = new Reading(file, beside, errors);
        var drawing = reading.Drawing(root);
        return errors.Count == 0 && drawing is not null ? new(drawing, []) : new(null, errors.InOrder) { Partial = reading.Partial is { } partial ? PartialDrawing.Of(partial) : null };
    }

    private sealed class Reading(string file, Func<string, byte[]?>? beside, ReadingErrors errors)
    {
        private readonly List<Run> understood = [];
        private Units units;

        /// <summary>The drawing with all that was understood of it, before its runs are made to end well; null where the line is not known.</summary>
        public Drawing? Partial { get; private set; }

        public Drawing? Drawing(YamlNode? root)
        {
            if (root is null)
            {
                if (errors.Count == 0)
                    errors.Add("not-yaml", new(file, 1, 1, 2), "", "The file is empty.", "Begin with `drawing: NUMBER`.");
                return null;
            }

            if (root is YamlMap map && (map["units"] as YamlText)?.Value.Trim() == "in")
                units = Units.Inches;
            if (Fields.Open(root, DrawingShape.Drawing, errors, units, "", root.Where) is not { } top)
                return null;
            top.Word("units", ["mm", "in"]);
            var line = LineOf(top.Node("line"), "line", top.Where);
            var shop = ShopRulesReader.Read(top, file, beside, units, errors);
            shop = shop with { Forecast = SiteRulesReader.Forecast(top, shop.Forecast), Split = SiteRulesReader.Split(top, shop.Split) };
            var materials = MaterialListReader.Read(top, beside, units, errors);
            var runs = line is null ? [] : Runs(top, line);
            var number = top.Text("drawing") ?? "";
            var service = ServiceOf(top);
            var all = line is null ? null
                : new Drawing
                {
                    Number = number,
                    Revision = top.Text("revision") ?? "",
                    Title = top.Text("title") ?? "",
                    Units = units,
                    Line = line,
                    Service = service,
                    Shop = shop,
                    Materials = materials,
                    Runs = Drains.Expanded(runs),
                    Test = PaperRulesReader.Test(top, service),
                    Lift = PaperRulesReader.Lift(top, errors, units),
                    Accepted = Accepted(top),
                    Source = top.Source,
                };
            var drawing = number.Length > 0 ? all : null;
            if (top.Has("drawing") && drawing is null && top.Text("drawing") is "")
                top.Error("missing-key", "drawing", "The drawing has no number.", "Write the number from the title block.");
            if (drawing is not null)
                RunNames.Check(drawing, errors);
            if (all is not null && errors.Count > 0)
                Partial = all with { Runs = Drains.Expanded(understood) };
            return drawing;
        }

        private static Service ServiceOf(Fields top)
        {
            if (!top.Has("service"))
                return new();
            return top.Inner("service", DrawingShape.Service) is not { } s
                ? new()
                : new()
                {
                    Fluid = s.Text("fluid") ?? "",
                    DesignPressure = s.Text("design pressure") ?? "",
                    DesignTemperature = s.Text("design temperature") ?? "",
                    OperatingPressure = s.Text("operating pressure") ?? "",
                    OperatingTemperature = s.Text("operating temperature") ?? "",
                    TestPressure = s.Text("test pressure") ?? "",
                    Code = s.Text("code") ?? "",
                    Examination = s.Text("examination") ?? "",
                    LineNumber = s.Text("line number") ?? "",
                    PipeClass = s.Text("pipe class") ?? "",
                    HeatTreatment = s.Text("heat treatment") ?? "",
                    Paint = s.Text("paint") ?? "",
                    Insulation = s.Text("insulation") ?? "",
                    InsulationThickness = s.Length("insulation thickness", Tolerance.Noise),
                    Tracing = s.Text("tracing") ?? "",
                    Lining = s.Text("lining") ?? "",
                    Cleanliness = s.Text("cleanliness") ?? "",
                    Area = s.Text("area") ?? "",
                    TestPackage = s.Text("test package") ?? "",
                    Source = s.Source,
                };
        }

        private Line? LineOf(YamlNode? node, string path, Place parent)
        {
            if (node is null || Fields.Open(node, DrawingShape.Line, errors, units, path, parent) is not { } f)
                return null;
            if (f.Size("size") is not { } size)
            {
                if (!f.Has("size"))
                    f.Error("missing-key", "size", "The line has no size.", "Add `size:`, such as 6 or DN150.");
                return null;
            }

            if (!f.Has("schedule"))
                f.Error("missing-key", "schedule", "The line has no schedule.", "Add `schedule:`, such as 40, STD or {wall: 7.11}.");

            var bare = new Line(size, new Schedule(""), "150", "", FlangeKind.WeldNeck, Facing.Raised, FittingEnds.Butt, "3000", null);
            return Bored(With(bare, f), f);
        }

        /// <summary>The line; told where its wall leaves no bore in its size.</summary>
        private static Line Bored(Line line, Fields f)
        {
            if (line.Schedule.Wall is { } wall && Standards.Pipes.OutsideDiameter(line.Size)?.Mm is { } outside && 2 * wall >= outside)
                f.Error("impossible-value", f.Has("schedule") ? "schedule" : "size", FormattableString.Invariant($"A wall of {wall:0.##} mm leaves no bore in NPS {line.Size}, which is {outside:0.#} mm outside."), "Give the wall in the drawing's units, less than half the outside diameter.");
            return line;
        }

        /// <summary>A line with whatever a run or a leg says otherwise; the size is not touched.</summary>
        private static Line With(Line line, Fields f, bool fittingEnds = true) => line with
        {
            Schedule = f.Schedule("schedule") ?? line.Schedule,
            Class = f.Text("class") ?? line.Class,
            Material = f.Text("material") ?? line.Material,
            Flange = f.Word("flange", FileWords.FlangeKinds) switch
            {
                "WN" => FlangeKind.WeldNeck,
                "SO" => FlangeKind.SlipOn,
                "SW" => FlangeKind.SocketWeld,
                "TH" => FlangeKind.Threaded,
                "LJ" => FlangeKind.LapJoint,
                _ => line.Flange,
            },
            Facing = f.Word("facing", FileWords.Facings) switch
            {
                "RF" => Facing.Raised,
                "FF" => Facing.Flat,
                "RTJ" => Facing.RingJoint,
                _ => line.Facing,
            },
            Gasket = f.Length("gasket") ?? line.Gasket,
            Ends = fittingEnds ? EndsOf(f, FileWords.FittingEnds) ?? line.Ends : line.Ends,
            // A class that only forged fittings have is theirs, whichever key says it.
            FittingClass = f.Text("fitting class") ?? (f.Text("class") is { } said && FileWords.ForgedClasses.Contains(said) ? said : line.FittingClass),
        };

        private static FittingEnds? EndsOf(Fields f, string[] words) => f.Word("ends", words) switch
        {
            "butt" => FittingEnds.Butt,
            "socket" => FittingEnds.Socket,
            "threaded" => FittingEnds.Threaded,
            "flanged" => FittingEnds.Flanged,
            _ => null,
        };

        private List<Run> Runs(Fields top, Line line)
        {
            var runs = new List<Run>();
            if (top.Node("runs") is not YamlList list)
            {
                if (top.Has("runs"))
                    top.Error("wrong-type", "runs", "The runs are a list.", "Begin each run with `- run: NAME`.");
                return runs;
            }

            if (list.Items.Count == 0)
                top.Error("missing-key", "runs", "There is no run.", "Begin a run with `- run: NAME`.");
            var count = list.Items.Sum(i => ((i as YamlMap)?["legs"] as YamlList)?.Items.Count ?? 0);
            if (list.Items.Count > MostRuns || count > MostLegs)
            {
                top.Error("too-large", "runs", list.Items.Count > MostRuns ? FormattableString.Invariant($"The drawing has {list.Items.Count} runs; {MostRuns} can be worked out.") : FormattableString.Invariant($"The drawing has {count} legs; {MostLegs} can be worked out."), "Part it into several drawings, as an isometric on paper is: `continues` says where the line goes on.");
                return runs;
            }

            for (var i = 0; i < list.Items.Count; i++)
            {
                if (RunOf(list.Items[i], $"runs[{i}]", line, top.Where) is { } run)
                    runs.Add(run);
            }

            return runs;
        }

        private Run? RunOf(YamlNode node, string path, Line drawingLine, Place parent)
        {
            if (Fields.Open(node, DrawingShape.Run, errors, units, path, parent) is not { } f)
                return null;
            var size = f.Size("size");
            var line = With(drawingLine, f) with { Size = size ?? drawingLine.Size };
            if (f.Has("schedule") || f.Has("size"))
                Bored(line, f);
            var name = f.Text("run") ?? "";
            var flow = f.Word("flow", ["along", "against"]);
            var start = f.Has("start") ? StartOf(f, path, line) : null;
            var legs = new List<Leg>();
            var (areWhole, first) = (true, int.MaxValue);
            if (f.Node("legs") is YamlList list)
            {
                if (list.Items.Count == 0)
                    f.Error("missing-key", "legs", "This run has no leg.", "Write one row a leg: {go: north, by: 1200, to: elbow}.");
                for (var i = 0; i < list.Items.Count; i++)
                {
                    if (LegReader.Read(list.Items[i], $"{path}.legs[{i}]", i, i == list.Items.Count - 1, line, units, errors, node.Where, With, out var isWhole) is { } leg)
                        legs.Add(leg);
                    else
                        first = Math.Min(first, i);
                    areWhole &= isWhole;
                }

                if (areWhole && start is not null)
                    LegOrder.Check(legs, errors);
            }
            else if (f.Has("legs"))
            {
                f.Error("wrong-type", "legs", "The legs are a list.", "Write one row a leg: - {go: north, by: 1200, to: elbow}.");
            }

            var run = new Run
            {
                Name = name,
                Start = start ?? new(new OpenPoint(OpenEnds.Bevel, Continues: null), From: null, At: null, f.Source),
                Legs = legs,
                Line = line,
                FlowsAlong = flow is null ? null : flow == "along",
                Source = f.Source,
            };
            understood.Add(first == int.MaxValue ? run : run with { Legs = [.. legs.TakeWhile(l => l.Index < first)] });
            return start is null ? null : run;
        }

        private RunStart? StartOf(Fields run, string path, Line line)
        {
            if (run.Inner("start", DrawingShape.Start) is not { } f)
                return null;
            var from = f.Text("from");
            var at = f.PlaceAt("at");
            if (from is not null)
            {
                foreach (var key in f.Keys.Where(k => k.Value is not "from" && DrawingShape.Start.Has(k.Value)))
                    f.Error("key-does-not-fit", key.Value, $"A start from \"{from}\" has no \"{key.Value}\".", "Its place and its end are those of the other run: leave the key out.");
                return new(null, from, null, f.Source);
            }

            if (!f.Has("to"))
            {
                f.Error("missing-key", "to", "Nothing is said to stand at the start.", "Write {to: flange, at: {...}}, or {from: NAME} for the free end of a tee, outlet or stub-in.");
                return null;
            }

            var word = f.Word("to", DrawingShape.StartWords);
            var point = word is null ? null : WorkPointKind.Of(word)?.Read(f);
            string[] allowed = ["to", "at", "item", "spool", .. word is not null && DrawingShape.KeysOf.TryGetValue(word, out var keys) ? keys : []];
            foreach (var key in f.Keys.Where(k => word is not null && DrawingShape.Start.Has(k.Value) && !allowed.Contains(k.Value)))
                f.Error("key-does-not-fit", key.Value, $"\"{key.Value}\" does not go with a start at {word}.", $"Its keys are: {string.Join(", ", allowed)}.");
            return point is null ? null : new(point, null, at, f.Source) { Item = f.Whole("item"), Spool = f.Text("spool") };
        }

        private List<Acceptance> Accepted(Fields top)
        {
            var accepted = new List<Acceptance>();
            if (top.Node("accept") is not YamlList list)
            {
                if (top.Has("accept"))
                    top.Error("wrong-type", "accept", "Accepted findings are a list.", "Write - {rule: NAME, at: runs[0].legs[2], why: the reason}.");
                return accepted;
            }

            for (var i = 0; i < list.Items.Count; i++)
            {
                if (Fields.Open(list.Items[i], DrawingShape.Accept, errors, units, $"accept[{i}]", top.Where) is not { } f || f.Text("rule") is not { } rule || f.Text("why") is not { } why)
                    continue;
                if (why.Any(char.IsLetterOrDigit))
                    accepted.Add(new(rule, f.Text("at") ?? "", why, f.Source));
                else
                    f.Error("missing-key", "why", "This acceptance gives no reason.", "Write who agreed to it and why: it stays on the cover sheet.");
            }

            return accepted;
        }
    }
}
