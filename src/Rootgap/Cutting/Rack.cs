namespace Rootgap.Cutting;

/// <summary>Where a length of pipe comes from.</summary>
public enum StockSource
{
    /// <summary>A full length on the rack, with mill ends.</summary>
    OnHand,

    /// <summary>A length that can be bought, as many as wanted, with mill ends.</summary>
    Buy,

    /// <summary>What an earlier job left: its ends are cut already.</summary>
    Remnant,

    /// <summary>A bar of the plan now being cut: pieces were taken from it, the rest is to be used.</summary>
    Begun,
}

/// <summary>Lengths of pipe to cut from: one bar, or several that are alike.</summary>
/// <param name="Id">The bar's mark; unique on the rack.</param>
/// <param name="Pipe">What pipe it is.</param>
/// <param name="Length">Full length, mm.</param>
/// <param name="Quantity">Bars in the row; null: as many as wanted (lengths that can be bought).</param>
/// <param name="Source">Where it comes from.</param>
public sealed record StockBar(string Id, PipeKind Pipe, double Length, int? Quantity, StockSource Source)
{
    /// <summary>Heat number; empty where it is not known. Bars without one may each be of another heat.</summary>
    public string Heat { get; init; } = "";

    /// <summary>Cost a metre; null where none is given.</summary>
    public double? Cost { get; init; }

    /// <summary>Who sells it; empty where it is not said.</summary>
    public string Supplier { get; init; } = "";

    /// <summary>Certificate asked for or had with it, for example <c>EN 10204 3.1</c>.</summary>
    public string Certificate { get; init; } = "";

    /// <summary>Multiplies the cost when plans are compared: under 1 is used rather, over 1 rather not. Default 1.</summary>
    public double Preference { get; init; } = 1;

    /// <summary>Bars of the row that are no longer there as the row has them, by name: begun, or of no use.</summary>
    public IReadOnlyList<string> Gone { get; init; } = [];

    /// <summary>Of a bar begun: its far end is as the mill left it.</summary>
    public bool FarEndIsMill { get; init; }

    /// <summary>The same as a stock file writes it: numbers of bars, <c>1-3, 7</c>.</summary>
    internal string GoneText
    {
        get
        {
            var numbers = Gone.Select(g => int.Parse(g.AsSpan(g.LastIndexOf('#') + 1), System.Globalization.CultureInfo.InvariantCulture)).Order().ToList();
            var parts = new List<string>();
            for (var i = 0; i < numbers.Count;)
            {
                var first = i++;
                while (i < numbers.Count && numbers[i] == numbers[i - 1] + 1)
                    i++;
                parts.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{numbers[first]}{(first + 1 < i ? $"-{numbers[i - 1]}" : "")}"));
            }

            return string.Join(", ", parts);
        }
    }

    /// <summary>Bars of the row that are there; null: as many as wanted.</summary>
    public int? Left => Quantity is { } n ? Math.Max(0, n - Gone.Count) : null;

    /// <summary>Ends that are as the mill left them: they are trimmed.</summary>
    public int MillEnds => Source is StockSource.OnHand or StockSource.Buy ? 2 : Source == StockSource.Begun && FarEndIsMill ? 1 : 0;

    /// <summary>Marks of the bars that are there: the row's own where it stands for one, else with a number. Lengths to buy have no end.</summary>
    public IEnumerable<string> Names()
    {
        if (Quantity == 1)
            return Gone.Count == 0 ? [Id] : [];
        return Enumerable.Range(1, Quantity ?? int.MaxValue).Select(n => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Id}#{n}")).Where(n => !Gone.Contains(n, StringComparer.OrdinalIgnoreCase));
    }
}

/// <summary>What a plan is judged by. In the order in which plans are compared unless the shop says otherwise.</summary>
public enum CuttingAim
{
    /// <summary>What the shop has before what it must buy: least cost of what is bought, then least cost of full bars taken from the rack; remnants count nothing.</summary>
    Rack,

    /// <summary>
    /// Least cost of bought and full bars, and worth of remnants, less the worth of all of them that does not go into pieces. What of it is too short to keep is the next aim.
    /// </summary>
    NetCost,

    /// <summary>Least scrap: what is left and too short to keep. No proof is claimed; it is improved with the bars at hand.</summary>
    Remnants,

    /// <summary>Fewest bars newly begun.</summary>
    Bars,

    /// <summary>Fewest different plans. No proof is claimed, a bound is told; where it stands before something that counts by bars, more bars are taken for fewer plans.</summary>
    SetUps,

    /// <summary>Least cost of all steel used, whatever is left of it.</summary>
    Cost,
}

/// <summary>The shop's rules for cutting. Every one has a default with its reason.</summary>
public sealed record CuttingRules
{
    /// <summary>Width of the saw cut, mm. Default 3 (common practice for a band saw or an abrasive wheel).</summary>
    public double Kerf { get; init; } = 3;

    /// <summary>Cut off each mill end of a full length, mm. Default 0: mill ends are used as they are unless the shop trims them.</summary>
    public double EndTrim { get; init; }

    /// <summary>Lost at each end of a piece that is bevelled, threaded or faced, mm. Default 0: the machine bevels to the finished length.</summary>
    public double FacingLoss { get; init; }

    /// <summary>Shortest remnant worth keeping, mm. Default 300 (common practice: the shortest that a saw's vice and a later job can use).</summary>
    public double ShortestRemnant { get; init; } = 300;

    /// <summary>What a metre of remnant is worth beside a metre of new pipe, 0 to 1. Default 0.5 (common practice: it may wait long for its job).</summary>
    public double RemnantValue { get; init; } = 0.5;

    /// <summary>Most different plans a size; null: no limit.</summary>
    public int? MostPlans { get; init; }

    /// <summary>Pieces of one spool come from one heat. Default no: the codes ask for the heat to be known, not to be one.</summary>
    public bool SpoolFromOneHeat { get; init; }

    /// <summary>On each bar the short pieces are cut first: a crooked mill end shows less in them. Default no: a long piece that is spoiled can still become short ones.</summary>
    public bool ShortPiecesFirst { get; init; }

    /// <summary>What lengths are printed in for the people at the saw.</summary>
    public Measure.Units Units { get; init; }

    /// <summary>What is best, the first first.</summary>
    public IReadOnlyList<CuttingAim> Order { get; init; } = Enum.GetValues<CuttingAim>();
}

/// <summary>A rule for some pieces: by mark, by spool or by drawing.</summary>
/// <param name="Drawing">Drawing's number; empty: any.</param>
/// <param name="Spool">Spool; empty: any.</param>
/// <param name="Piece">Piece's mark; empty: any.</param>
public sealed record PieceRule(string Drawing, string Spool, string Piece)
{
    /// <summary>Only from this heat.</summary>
    public string Heat { get; init; } = "";

    /// <summary>The pieces meant here come from one heat.</summary>
    public bool OneHeat { get; init; }

    /// <summary>Lower is cut sooner.</summary>
    public int? Priority { get; init; }

    /// <summary>The pieces are cut already and drop out.</summary>
    public bool IsCut { get; init; }

    public bool Means(Piece piece) =>
        (Drawing.Length == 0 || Drawing.Equals(piece.Drawing, StringComparison.OrdinalIgnoreCase))
        && (Spool.Length == 0 || Spool.Equals(piece.Spool, StringComparison.OrdinalIgnoreCase))
        && (Piece.Length == 0 || Piece.Equals(piece.Id, StringComparison.OrdinalIgnoreCase));
}

/// <summary>The stock file: what can be cut from, and by which rules.</summary>
public sealed record Rack(IReadOnlyList<StockBar> Bars, CuttingRules Rules)
{
    public IReadOnlyList<PieceRule> PieceRules { get; init; } = [];

    /// <summary>What was cut before, where this is a rack that has been cut from.</summary>
    public SawLog Log { get; init; } = SawLog.Empty;

    /// <summary>The row with this mark.</summary>
    public StockBar? Row(string id) => Bars.FirstOrDefault(b => b.Id.Equals(id, StringComparison.OrdinalIgnoreCase));

    /// <summary>The row that a bar belongs to: by its mark, or by the row's mark and a number that the row has; null where there is none, or the bar is there no longer.</summary>
    public StockBar? RowOfBar(string name)
    {
        var hash = name.LastIndexOf('#');
        var row = Row(name) is { Quantity: 1 } one ? one
            : 0 < hash && int.TryParse(name.AsSpan(hash + 1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n)
            && Row(name[..hash]) is { Quantity: not 1 } several && 1 <= n && n <= (several.Quantity ?? int.MaxValue) ? several : null;
        return row?.Gone.Contains(name, StringComparer.OrdinalIgnoreCase) == true ? null : row;
    }

    /// <summary>
    /// The rack of a shop that wrote none: every pipe of the drawings to be bought in the lengths of their shop's rules, as many as wanted.
    /// Where the drawings' shops have different saws, the widest cut counts.
    /// </summary>
    /// <param name="units">What lengths are printed in.</param>
    public static Rack ToBuy(IReadOnlyList<(IReadOnlyList<Piece> Pieces, Drawings.ShopRules Shop)> drawings, Measure.Units units = Measure.Units.Millimetres)
    {
        var bars = drawings.SelectMany(d => d.Pieces.SelectMany(p => d.Shop.Stock.Select(length => (p.Pipe, Length: length)))).Distinct().OrderBy(b => b.Pipe).ThenBy(b => b.Length);
        return new Rack(
            [.. bars.Select((b, i) => new StockBar(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"N{i + 1}"), b.Pipe, b.Length, null, StockSource.Buy))],
            new CuttingRules { Kerf = drawings.Select(d => d.Shop.Kerf).DefaultIfEmpty(new CuttingRules().Kerf).Max(), Units = units });
    }

    /// <summary>The pieces with the rack's rules upon them; those cut already left out.</summary>
    public List<Piece> Rule(IEnumerable<Piece> pieces)
    {
        var result = new List<Piece>();
        foreach (var piece in pieces)
        {
            var ruled = Rules.SpoolFromOneHeat && piece.Spool.Length > 0 ? piece with { OneHeat = $"spool {piece.Spool} of {piece.Drawing}" } : piece;
            var cut = false;
            foreach (var (i, rule) in PieceRules.Index())
            {
                if (!rule.Means(piece))
                    continue;
                cut |= rule.IsCut;
                ruled = ruled with
                {
                    Heat = rule.Heat.Length > 0 ? rule.Heat : ruled.Heat,
                    OneHeat = rule.OneHeat ? $"rule {i + 1} of the stock file" : ruled.OneHeat,
                    Priority = rule.Priority ?? ruled.Priority,
                };
            }

            if (!cut)
                result.Add(ruled);
        }

        return result;
    }
}
