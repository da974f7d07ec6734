using System.Collections.Concurrent;
using System.Globalization;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Drawings;

/// <summary>What each field of a row may hold, in the order in which a fitter fills them. What is written in a field that does not fit is offered last, so that it can be taken out.</summary>
public static class Offers
{
    private static readonly string[] YesNo = ["yes", "no"];

    /// <summary>The fields of the drawing's head.</summary>
    public static IReadOnlyList<Offer> Top(DrawingText text) => Plain(DrawingShape.Drawing, text.Top, ("units", "mm"));

    public static IReadOnlyList<Offer> Line(DrawingText text)
    {
        var size = SizeOf(text.Line["size"]);
        return [.. LineFields(DrawingShape.Line, text.Line, size, text.Line).Select(o => o with { IsRequired = o.Key is "size" or "schedule" }), .. Unfitting(DrawingShape.Line, text.Line, DrawingShape.Line.Names)];
    }

    public static IReadOnlyList<Offer> Service(DrawingText text) => Plain(DrawingShape.Service, text.Service);

    /// <summary>The shop's rules, with the defaults of <see cref="ShopRules"/>.</summary>
    public static IReadOnlyList<Offer> Shop(DrawingText text)
    {
        var usual = new ShopRules();
        return Plain(DrawingShape.Shop, text.Shop, ("root gap", Mm(usual.RootGap)), ("shrinkage", "0"), ("makeup gap", "counted"), ("final fit extra", Mm(usual.FinalFitExtra)), ("kerf", Mm(usual.Kerf)),
            ("shortest pipe", Mm(usual.ShortestPipe)), ("stock", string.Join(", ", usual.Stock.Select(Mm))), ("socket gap", Mm(usual.SocketGap)), ("hi-lo", Mm(usual.HiLo)), ("gap variation", Mm(usual.GapVariation)), ("on end limit", Mm(usual.OnEndLimit)));

        string Mm(double mm) => text.Units == Units.Millimetres ? mm.ToString("0.##", CultureInfo.InvariantCulture) : mm.ToString("0.##", CultureInfo.InvariantCulture) + " mm";
    }

    public static IReadOnlyList<Offer> Envelope(DrawingText text)
    {
        var usual = new ShopRules();
        return Plain(DrawingShape.Envelope, text.Envelope, ("length", $"{usual.EnvelopeLength} mm"), ("width", $"{usual.EnvelopeWidth} mm"), ("height", $"{usual.EnvelopeHeight} mm"), ("mass", usual.EnvelopeMass.ToString(CultureInfo.InvariantCulture)));
    }

    /// <summary>The fields of a run's own row.</summary>
    public static IReadOnlyList<Offer> Run(DrawingText text, int run)
    {
        var row = text.Runs[run].Row;
        var size = SizeAt(text, run, 0);
        return [Of(DrawingShape.Run, "run"), Of(DrawingShape.Run, "flow"), .. LineFields(DrawingShape.Run, row, size, text.Line), .. Unfitting(DrawingShape.Run, row, DrawingShape.Run.Names)];
    }

    /// <summary>The fields of a run's start: what stands there and where, or the name from which it starts.</summary>
    public static IReadOnlyList<Offer> Start(DrawingText text, int run)
    {
        var row = text.Runs[run].Start;
        var offers = new List<Offer>();
        var (to, from) = (row["to"], row["from"]);
        var free = FreeNames(text, from);
        if (from.Length == 0 || to.Length > 0)
            offers.Add(Of(DrawingShape.Start, "to") with { IsRequired = true });
        if (to.Length == 0 && (free.Count > 0 || from.Length > 0))
            offers.Add(Of(DrawingShape.Start, "from", words: free, kind: OfferKind.Choice));
        if (from.Length == 0)
        {
            var isFirst = text.Runs.Where(r => r.Index != run && r.Start["from"].Length == 0).All(r => r.Start["at"].Length > 0);
            offers.Add(Of(DrawingShape.Start, "at", isFirst ? "east 0 north 0 up 0" : null) with { IsRequired = !isFirst });
            foreach (var key in DrawingShape.KeysOf.GetValueOrDefault(to) ?? [])
            {
                if (!DrawingShape.Start.Has(key) || (key == "holes from" && row["holes"].Length == 0))
                    continue;
                offers.Add(key == "ends" ? Of(DrawingShape.Start, key, to == "open" ? "bevel" : null, to == "open" ? FileWords.OpenEnds : FileWords.FittingEnds) : WithUsual(DrawingShape.Start, key));
            }

            offers.Add(Of(DrawingShape.Start, "item", words: Items(text, WareOf(to))));
            offers.Add(Of(DrawingShape.Start, "spool", words: Spools(text)));
        }

        return [.. offers, .. Unfitting(DrawingShape.Start, row, offers.Select(o => o.Key))];
    }

    /// <summary>The fields of a leg; of a new blank row where <paramref name="leg"/> is the number of legs.</summary>
    public static IReadOnlyList<Offer> Leg(DrawingText text, int run, int leg)
    {
        var legs = text.Runs[run].Legs;
        var row = leg < legs.Count ? legs[leg] : new WrittenRow("", 0, new Dictionary<string, string>(StringComparer.Ordinal));
        return [.. new LegOffers(text, run, leg, row).All()];
    }

    /// <summary>The fields of a row of the material list; of a new row where <paramref name="item"/> is their number.</summary>
    public static IReadOnlyList<Offer> Material(DrawingText text, int item)
    {
        var row = item < text.Materials.Count ? text.Materials[item] : new WrittenRow("", 0, new Dictionary<string, string>(StringComparer.Ordinal));
        var words = WareWords.Of(row["what"]);
        var size = SizeOf(row["size"].Split(['x', 'X', '×'])[0]);
        var numbers = text.Materials.Select(m => int.TryParse(m["item"], NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 0).DefaultIfEmpty().Max();
        string[] keys = row["what"].Length == 0 ? [.. DrawingShape.Item.Names] : words.Ware switch
        {
            Ware.Pipe => ["item", "what", "size", "schedule", "material", "quantity", "unit", "heat", "note"],
            Ware.Flange => ["item", "what", "size", "class", "bore", "material", "quantity", "heat", "note"],
            Ware.Gasket => ["item", "what", "size", "class", "thickness", "material", "quantity", "note"],
            Ware.StudBolt => ["item", "what", "size", "length", "material", "quantity", "note"],
            Ware.Valve => ["item", "what", "size", "class", "material", "quantity", "heat", "note"],
            _ => [.. DrawingShape.Item.Names.Where(k => k is not ("bore" or "length" or "thickness" or "unit"))],
        };
        var offers = keys.Select(key => key switch
        {
            "item" => Of(DrawingShape.Item, key, words: row["item"].Length > 0 ? [] : [(numbers + 1).ToString(CultureInfo.InvariantCulture)]),
            "what" => Of(DrawingShape.Item, key, words: Wares),
            "size" or "size 2" => Of(DrawingShape.Item, key, words: words.Ware == Ware.StudBolt ? BoltSizes : PipeSizes),
            "schedule" or "bore" => Of(DrawingShape.Item, key, words: Schedules(size)),
            "class" => Of(DrawingShape.Item, key, words: words.Ends is FittingEnds.Socket or FittingEnds.Threaded ? FittingClasses(words.Ends == FittingEnds.Socket) : FlangeClasses(size)),
            "unit" => Of(DrawingShape.Item, key, words: ["m", "mm", "ft", "in", "each"]),
            _ => Of(DrawingShape.Item, key),
        }).ToList();
        return [.. offers, .. Unfitting(DrawingShape.Item, row, offers.Select(o => o.Key))];
    }

    internal static string[] Wares { get; } =
    [
        "pipe", "elbow 90 LR", "elbow 45 LR", "elbow 90 SR", "tee", "reducing tee", "reducer concentric", "reducer eccentric", "cap", "flange WN RF", "flange SO RF", "flange SW RF", "flange TH RF", "flange LJ",
        "stub end", "gasket spiral wound", "gasket flat", "stud bolt", "valve gate flanged", "valve globe flanged", "valve check swing flanged", "valve ball flanged", "valve butterfly wafer",
        "outlet butt", "outlet socket", "outlet threaded", "elbow 90 SW", "elbow 45 SW", "tee SW", "cap SW", "elbow 90 TH", "elbow 45 TH", "tee TH", "cap TH", "pad", "shoe", "guide", "anchor", "hanger", "trunnion", "lug", "clamp",
    ];

    internal static Offer Of(Shape shape, string name, string? usual = null, IReadOnlyList<string>? words = null, OfferKind? kind = null)
    {
        var key = shape.Keys.First(k => k.Name == name);
        return new(name, key.Says, kind ?? KindOf(key.Kind), words ?? key.Words ?? Usual(key.Kind), key.IsRequired, usual);
    }

    /// <summary>A field whose default the format tells.</summary>
    internal static Offer WithUsual(Shape shape, string key) => Of(shape, key, key switch
    {
        "holes" => "straddle",
        "bolting" => "here",
        "radius" => "long",
        "pad" => "no",
        "enter" => "run",
        _ => null,
    });

    /// <summary>What is written and does not fit.</summary>
    internal static IEnumerable<Offer> Unfitting(Shape shape, WrittenRow row, IEnumerable<string> fitting) => row.Cells.Keys.Except(fitting, StringComparer.Ordinal)
        .Select(key => shape.Has(key) ? Of(shape, key) with { IsRequired = false } : new Offer(key, $"A {shape.Name} has no such key.", OfferKind.Text, [], IsRequired: false, Default: null));

    /// <summary>The fields that a line, a run and a leg share; what the outer row says is their default.</summary>
    internal static IEnumerable<Offer> LineFields(Shape shape, WrittenRow row, NominalSize size, WrittenRow outer)
    {
        string? Outer(string key, string? usual = null) => !ReferenceEquals(row, outer) && outer[key] is { Length: > 0 } said ? said : usual;
        var ends = row["ends"] is { Length: > 0 } own ? own : outer["ends"];
        if (shape != DrawingShape.Leg)
            yield return Of(shape, "size", Outer("size"));
        yield return Of(shape, "schedule", Outer("schedule"), Schedules(size));
        yield return Of(shape, "class", Outer("class", "150"), FlangeClasses(size));
        yield return Of(shape, "material", Outer("material"), Materials);
        yield return Of(shape, "flange", Outer("flange", "WN"));
        yield return Of(shape, "facing", Outer("facing", "RF"));
        yield return Of(shape, "gasket", Outer("gasket", "3.2 mm"));
        if (shape == DrawingShape.Leg)
            yield break;
        yield return Of(shape, "ends", Outer("ends", "butt"), FileWords.FittingEnds);
        if (ends is "socket" or "threaded")
            yield return Of(shape, "fitting class", Outer("fitting class", "3000"), FittingClasses(ends == "socket"));
    }

    internal static IReadOnlyList<string> Schedules(NominalSize size) => size.IsNone ? Pipes.Schedules : Remembered("schedules", size, s => Pipes.Schedules.Where(name => Pipes.Wall(s, name) is not null));

    internal static IReadOnlyList<string> FlangeClasses(NominalSize size) => Remembered("classes", size, s => StandardTable.Rows("flanges")
        .Where(r => r.Item == "flange" && r.Attribute == "outside diameter" && (s.IsNone || r.Nps == s)).Select(r => r.Class).Distinct(StringComparer.Ordinal));

    /// <summary>Sizes to which a butt-weld fitting of the standard reduces from a line's; a reducer also those to which it enlarges.</summary>
    internal static IReadOnlyList<string> ReducedSizes(string item, NominalSize size) => Remembered(item, size, s =>
    {
        var rows = StandardTable.Rows("butt-weld").Where(r => r.Item == item && r.Attribute == (item == "reducer" ? "H" : "M")).ToList();
        return rows.Where(r => r.Nps == s).Select(r => r.Nps2).Concat(item == "reducer" ? rows.Where(r => r.Nps2 == s).Select(r => r.Nps) : []).Distinct().Order().Select(n => n.ToString());
    });

    /// <summary>Answers of the tables given before: an editor asks the same at every keystroke.</summary>
    private static readonly ConcurrentDictionary<(string, NominalSize), string[]> Answered = new();

    private static string[] Remembered(string what, NominalSize size, Func<NominalSize, IEnumerable<string>> find) =>
        Answered.TryGetValue((what, size), out var known) ? known : Answered[(what, size)] = [.. find(size)];

    internal static IReadOnlyList<string> FittingClasses(bool isSocket) => isSocket ? ["3000", "6000", "9000"] : ["2000", "3000", "6000"];

    internal static readonly string[] PipeSizes = [.. NominalSize.PipeSizes.Select(s => s.ToString())];

    /// <summary>Names of tees, outlets and stub-ins at whose free end a run can still begin.</summary>
    public static IReadOnlyList<string> FreeBranches(DrawingText text) => FreeNames(text, "");

    /// <summary>Whether what stands at a leg's end has a branch of its own, by its word in the file.</summary>
    public static bool HasBranch(string to) => WorkPointKind.Of(to) is { HasOwnNipple: false } kind && kind.Keys.Contains("branch");

    /// <summary>Names at whose free end no run starts or ends yet, and <paramref name="own"/>.</summary>
    internal static List<string> FreeNames(DrawingText text, string own)
    {
        var taken = text.Runs.Select(r => r.Start["from"]).Concat(text.Runs.SelectMany(r => r.Legs).Where(l => l["to"] == "tie-in").Select(l => l["with"])).Where(n => n != own).ToHashSet(StringComparer.Ordinal);
        return [.. text.Runs.SelectMany(r => r.Legs).Where(l => HasBranch(l["to"])).Select(l => l["name"]).Where(n => n.Length > 0 && !taken.Contains(n)).Distinct(StringComparer.Ordinal)];
    }

    internal static Ware? WareOf(string to) => WorkPointKind.Of(to)?.Ware;

    /// <summary>Numbers of the rows of the material list that are a ware.</summary>
    internal static IReadOnlyList<string> Items(DrawingText text, Ware? ware) => ware is null ? [] : [.. text.Materials.Where(m => WareWords.Of(m["what"]).Ware == ware).Select(m => m["item"])];

    internal static IReadOnlyList<string> Spools(DrawingText text) =>
        [.. text.Runs.SelectMany(r => r.Legs.Prepend(r.Start)).Select(l => l["spool"]).Where(s => s.Length > 0).Distinct(StringComparer.Ordinal)];

    /// <summary>Size of the line where a leg begins, as far as the rows before it say.</summary>
    internal static NominalSize SizeAt(DrawingText text, int run, int leg, int depth = 0)
    {
        var written = text.Runs[run];
        var size = SizeOf(written.Row["size"]) is { IsNone: false } own ? own : SizeOf(text.Line["size"]);
        if (written.Start["from"] is { Length: > 0 } from && depth < 20)
        {
            foreach (var host in text.Runs)
            {
                for (var i = 0; i < host.Legs.Count; i++)
                {
                    var row = host.Legs[i];
                    if (row["name"] != from)
                        continue;
                    var branch = SizeOf(row["to"] == "tee" ? row["enter"] == "branch" ? row["size"] : row["branch size"] : row["size"]);
                    size = branch.IsNone ? SizeAt(text, host.Index, i, depth + 1) : branch;
                }
            }
        }

        foreach (var row in written.Legs.Take(leg))
        {
            if ((row["to"] == "reducer" || row["enter"] == "branch") && SizeOf(row["size"]) is { IsNone: false } next)
                size = next;
        }

        return size;
    }

    internal static NominalSize SizeOf(string text) => NominalSize.TryParse(text, out var size) && size.IsPipeSize ? size : default;

    /// <summary>Pipe materials in daily use (common practice).</summary>
    private static readonly string[] Materials = ["A106-B", "A53-B", "A312-TP304L", "A312-TP316L", "A333-6", "A335-P11"];

    private static readonly string[] BoltSizes = ["1/2", "5/8", "3/4", "7/8", "1", "1-1/8", "1-1/4", "1-3/8", "1-1/2"];

    private static List<Offer> Plain(Shape shape, WrittenRow row, params (string Key, string Usual)[] usual)
    {
        var offers = shape.Keys.Where(k => k.Kind is not (Kind.Map or Kind.List)).Select(k => Of(shape, k.Name, usual.FirstOrDefault(u => u.Key == k.Name).Usual)).ToList();
        return [.. offers, .. Unfitting(shape, row, offers.Select(o => o.Key))];
    }

    private static OfferKind KindOf(Kind kind) => kind switch
    {
        Kind.Whole => OfferKind.Whole,
        Kind.Number or Kind.Mass => OfferKind.Number,
        Kind.Length => OfferKind.Length,
        Kind.Lengths => OfferKind.Lengths,
        Kind.Size or Kind.Sizes => OfferKind.Size,
        Kind.Schedule => OfferKind.Schedule,
        Kind.Direction or Kind.Go or Kind.Flat => OfferKind.Direction,
        Kind.By => OfferKind.By,
        Kind.Angle => OfferKind.Angle,
        Kind.Choice => OfferKind.Choice,
        Kind.YesNo => OfferKind.YesNo,
        Kind.Slope => OfferKind.Slope,
        Kind.Quantity => OfferKind.Quantity,
        Kind.Place => OfferKind.Place,
        Kind.Holes => OfferKind.Holes,
        Kind.Materials or Kind.ShopFile => OfferKind.File,
        _ => OfferKind.Text,
    };

    private static IReadOnlyList<string> Usual(Kind kind) => kind switch
    {
        Kind.Direction or Kind.Go => FileWords.Directions,
        Kind.Flat => ["top", "bottom", .. FileWords.Directions],
        Kind.By => ["makeup", "return"],
        Kind.YesNo => YesNo,
        Kind.Slope => ["1:100", "1:200", "1:50"],
        Kind.Holes => ["straddle", "on-centre"],
        Kind.Plate => InLineItemPoint.InJoints,
        Kind.Size or Kind.Sizes => PipeSizes,
        Kind.Schedule => Pipes.Schedules,
        _ => [],
    };
}
