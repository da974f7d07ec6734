using System.Globalization;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Cutting;

/// <summary>One piece of pipe to be cut from stock.</summary>
/// <param name="Id">The mark on the piece, such as <c>1-A</c>; unique in its drawing.</param>
/// <param name="Drawing">The drawing's number.</param>
/// <param name="Pipe">What pipe it is.</param>
/// <param name="Length">Finished length, mm.</param>
public sealed record Piece(string Id, string Drawing, PipeKind Pipe, double Length)
{
    /// <summary>The job that it is cut for, where one plan is made for several; empty where it is one job.</summary>
    public string Job { get; init; } = "";

    /// <summary>The spool it belongs to; empty where it has none.</summary>
    public string Spool { get; init; } = "";

    /// <summary>Only from a bar of this heat; empty: from any.</summary>
    public string Heat { get; init; } = "";

    /// <summary>Pieces with the same word here must all come from one heat; empty: no such rule.</summary>
    public string OneHeat { get; init; } = "";

    /// <summary>Ends that are bevelled, threaded or faced: each loses the rules' facing loss.</summary>
    public int FacedEnds { get; init; }

    /// <summary>How the end at its start is prepared and which joint it comes to, for its label: <c>bevel, W3</c>.</summary>
    public string AtStart { get; init; } = "";

    /// <summary>The same of its other end.</summary>
    public string AtEnd { get; init; } = "";

    /// <summary>Lower is cut sooner. Default 0.</summary>
    public int Priority { get; init; }

    /// <summary>Drawing and mark: the piece's name among the pieces of a whole job.</summary>
    public string FullName => NameOf(Drawing, Id);

    /// <summary>What can't be built as drawn is cut only when asked, and never unmarked.</summary>
    public bool NotForFabrication { get; init; }

    internal static string NameOf(string drawing, string id) => drawing.Length == 0 ? id : $"{drawing} {id}";
}

/// <summary>What makes two lengths of pipe the same ware: nothing is ever cut from a bar of another.</summary>
/// <param name="Size">Nominal size as the trade writes it: <c>6</c>, <c>1-1/2</c>.</param>
/// <param name="Schedule"><c>40</c>, <c>STD</c>, <c>10S</c>, or a wall such as <c>7.11 mm</c>.</param>
/// <param name="Material">Grade; empty where it is not known.</param>
public sealed record PipeKind(string Size, string Schedule, string Material) : IComparable<PipeKind>
{
    /// <summary>Spellings made equal: DN150 is 6, "Sch 40" is 40, a106-b is A106-B.</summary>
    public static PipeKind Of(string size, string schedule, string material)
    {
        var word = schedule.Trim().ToUpperInvariant();
        foreach (var start in (string[])["SCHEDULE", "SCH.", "SCH"])
        {
            if (word.StartsWith(start, StringComparison.Ordinal))
            {
                word = word[start.Length..].Trim();
                break;
            }
        }

        return new(NominalSize.TryParse(size, out var known) ? known.ToString() : size.Trim(), word, material.Trim().ToUpperInvariant());
    }

    public int CompareTo(PipeKind? other)
    {
        if (other is null)
            return 1;
        var size = Inches(Size).CompareTo(Inches(other.Size));
        if (size == 0)
            size = string.CompareOrdinal(Size, other.Size);
        if (size == 0)
            size = string.CompareOrdinal(Schedule, other.Schedule);
        return size != 0 ? size : string.CompareOrdinal(Material, other.Material);
    }

    public static bool operator <(PipeKind a, PipeKind b) => a.CompareTo(b) < 0;
    public static bool operator >(PipeKind a, PipeKind b) => a.CompareTo(b) > 0;
    public static bool operator <=(PipeKind a, PipeKind b) => a.CompareTo(b) <= 0;
    public static bool operator >=(PipeKind a, PipeKind b) => a.CompareTo(b) >= 0;

    public override string ToString() => $"NPS {Size} schedule {Schedule}{(Material.Length > 0 ? " " + Material : "")}";

    private static double Inches(string size) => NominalSize.TryParse(size, out var known) ? known.Inches : double.MaxValue;
}

/// <summary>Takes the pieces from fabricated drawings and from packets.</summary>
public static class Pieces
{
    /// <summary>What is told of a drawing that cannot be built as drawn: its pieces are left out of a plan, or are in it and marked.</summary>
    public static Finding CannotBuild(string drawing, int pieces, bool isPlanned) => new("not-for-fabrication", Severity.Stop, drawing, default,
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{drawing} can't be built as drawn: its {pieces} {(pieces == 1 ? "piece is" : "pieces are")} {(isPlanned ? "planned and marked NOT FOR FABRICATION" : "left out of the plan")}."),
        isPlanned ? "Mend the drawing and plan again before anything is cut." : "Mend what rootgap check says, or plan it with --despite-stop to see what it would take.");

    /// <summary>The cut pieces of one drawing.</summary>
    /// <param name="isBuildable">False: the pieces are marked NOT FOR FABRICATION.</param>
    public static IEnumerable<Piece> Of(Fabrication fabrication, string drawing, bool isBuildable = true) => OfCuts(fabrication, drawing, isBuildable).Concat(fabrication.MadeBends.Select(b =>
        new Piece(b.Piece, drawing, PipeKind.Of(b.Bend.Size.ToString(), b.Bend.Line.Schedule.ToString(), b.Bend.Line.Material), b.Bend.PipeLength)
        {
            Spool = b.Spool,
            FacedEnds = 2,
            AtStart = $"{EndPreparation.Bevel(b.Bend.Wall, fabrication.Units).Brief}, {b.Bend.Word}",
            AtEnd = $"{EndPreparation.Bevel(b.Bend.Wall, fabrication.Units).Brief}, {b.Bend.Word}",
            NotForFabrication = !isBuildable,
        }));

    private static IEnumerable<Piece> OfCuts(Fabrication fabrication, string drawing, bool isBuildable) => fabrication.Cuts.Where(c => c.IsCut).Select(c =>
        new Piece(c.Piece, drawing, PipeKind.Of(c.Pipe.Size.ToString(), c.Pipe.Line.Schedule.ToString(), c.Pipe.Line.Material), c.SawLength)
        {
            Spool = c.Spool,
            FacedEnds = Faced(c.AtStart.Word) + Faced(c.AtEnd.Word),
            AtStart = End(c.AtStart.Brief, fabrication.Route, c.Pipe, isStart: true),
            AtEnd = End(c.AtEnd.Brief, fabrication.Route, c.Pipe, isStart: false),
            NotForFabrication = !isBuildable,
        });

    // The joint nearer to this end than to the other one.
    private static string End(string word, Route route, PipePiece pipe, bool isStart) =>
        route.Joints.Where(j => j.Between.Contains(pipe.Id, StringComparer.Ordinal) && ((j.At - pipe.Start).Length <= (j.At - pipe.End).Length) == isStart)
            .MinBy(j => (j.At - (isStart ? pipe.Start : pipe.End)).Length) is { } joint ? $"{word}, {joint.Id}" : word;

    /// <summary>The cut pieces of every drawing in a packet.json.</summary>
    /// <exception cref="FormatException">The text is no packet, with what is wrong and where.</exception>
    public static List<Piece> OfPacket(string json, string file)
    {
        try
        {
            using var document = JsonDocument.Parse(json);
            if (document.RootElement.ValueKind != JsonValueKind.Object || !document.RootElement.TryGetProperty("drawings", out var drawings) || drawings.ValueKind != JsonValueKind.Array)
                throw new FormatException($"{file}: this is no packet: it has no list \"drawings\".");
            var pieces = new List<Piece>();
            var d = 0;
            foreach (var drawing in drawings.EnumerateArray())
            {
                var number = Text(drawing, "drawing");
                var c = 0;
                var stopped = drawing.TryGetProperty("buildable", out var buildable) && buildable.ValueKind == JsonValueKind.False;
                if (drawing.TryGetProperty("cuts", out var cuts) && cuts.ValueKind == JsonValueKind.Array)
                {
                    foreach (var cut in cuts.EnumerateArray().Where(c => !(c.ValueKind == JsonValueKind.Object && c.TryGetProperty("nipple", out var bought) && bought.ValueKind == JsonValueKind.True)))
                        pieces.Add(Read(cut, number, string.Create(CultureInfo.InvariantCulture, $"{file}: drawings[{d}].cuts[{c++}]")) with { NotForFabrication = stopped });
                }

                if (drawing.TryGetProperty("components", out var components) && components.ValueKind == JsonValueKind.Array)
                {
                    foreach (var component in components.EnumerateArray())
                    {
                        if (component.ValueKind == JsonValueKind.Object && component.TryGetProperty("made of pipe", out var made))
                            pieces.Add(Read(made, number, string.Create(CultureInfo.InvariantCulture, $"{file}: drawings[{d}], a bend made of pipe")) with { NotForFabrication = stopped });
                    }
                }

                d++;
            }

            return pieces;
        }
        catch (JsonException e)
        {
            throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"{file}:{(e.LineNumber ?? 0) + 1}: this is not JSON: {e.Message}"), e);
        }
    }

    private static Piece Read(JsonElement cut, string drawing, string where)
    {
        var id = Text(cut, "piece");
        if (id.Length == 0)
            throw new FormatException($"{where} has no \"piece\".");
        if (!cut.TryGetProperty("length", out var length) || length.ValueKind != JsonValueKind.Number)
            throw new FormatException($"{where} (piece {id}) has no \"length\" in millimetres.");
        // A set-on end is sawn longer than its sum: the sides of the saddle reach below the header's top.
        var saddle = cut.TryGetProperty("saddle", out var besides) && besides.ValueKind == JsonValueKind.Number ? besides.GetDouble() : 0;
        var faced = 0;
        var words = new List<string>();
        if (cut.TryGetProperty("ends", out var ends) && ends.ValueKind == JsonValueKind.Array)
        {
            words.AddRange(ends.EnumerateArray().Where(e => e.ValueKind == JsonValueKind.String).Select(e => e.GetString()!));
            foreach (var end in ends.EnumerateArray())
                faced += end.ValueKind == JsonValueKind.String ? Faced(end.GetString()!) : 0;
        }

        return new Piece(id, drawing, PipeKind.Of(Text(cut, "size"), Text(cut, "schedule"), Text(cut, "material")), length.GetDouble() + saddle)
        {
            Spool = Text(cut, "spool"),
            Heat = Text(cut, "heat"),
            FacedEnds = faced,
            AtStart = words.ElementAtOrDefault(0) ?? "",
            AtEnd = words.ElementAtOrDefault(1) ?? "",
        };
    }

    private static int Faced(string end) => end is "bevel" or "threaded" ? 1 : 0;

    private static string Text(JsonElement element, string key) => element.ValueKind == JsonValueKind.Object && element.TryGetProperty(key, out var value)
        ? value.ValueKind switch { JsonValueKind.String => value.GetString()!.Trim(), JsonValueKind.Number => value.GetRawText(), _ => "" }
        : "";
}
