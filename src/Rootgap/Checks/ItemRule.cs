using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>What a row of the material list is used for: a component, or a piece of pipe.</summary>
/// <param name="Line">What its leg is made of, or would be.</param>
/// <param name="RunLine">What the run is made of where no leg says otherwise.</param>
internal readonly record struct ItemUse(Part Part, Line Line, Line RunLine, SourceRow Source)
{
    public bool IsStated => !Part.IsItemGuessed;

    public NominalSize Size => Part.Size;

    public NominalSize Size2 => Part is Component c ? c.Size2 : default;
}

/// <summary>A rule that holds the material list against the drawing, use by use; it is silent where the drawing has no list.</summary>
/// <remarks>
/// Where every use of a row speaks against it, the row is wrong and the finding stands there. Where only some do, or where a leg says something else than
/// its run and the row agrees with the run, those legs are wrong and the findings stand at them.
/// </remarks>
public abstract class ItemRule : Rule
{
    /// <summary>The key of the material row that is held against the drawing.</summary>
    protected abstract string Key { get; }

    /// <summary>The key with which a leg may say otherwise than the line; empty where there is none.</summary>
    protected virtual string LegKey => Key;

    protected virtual string Remedy => "Mend the material row, or the leg that uses it.";

    protected virtual string Otherwise => "The wrong part is ordered, and found out on the day of fitting.";

    /// <summary>What speaks against the row, as in "class 300 listed, 150 drawn"; null where nothing does.</summary>
    private protected abstract string? Against(MaterialItem item, in ItemUse use, Route route);

    /// <summary>What the row's <see cref="Key"/> says when it is brought to what is drawn; null where that is not mechanical.</summary>
    private protected virtual (string NewText, string Says)? ChangeOf(MaterialItem item, in ItemUse use) => null;

    /// <summary>Whether the leg itself says what the row speaks against, while the row agrees with the run: then the leg stands alone.</summary>
    private protected virtual bool LegStandsAlone(MaterialItem item, in ItemUse use, Route route) =>
        LegKey.Length > 0 && use.Source.Has(LegKey) && Against(item, use with { Line = use.RunLine with { Size = use.Size } }, route) is null;

    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        if (route.Drawing.Materials.Count == 0)
            return [];
        List<(MaterialItem Item, ItemUse Use, string Says)>? against = null;
        foreach (var c in route.Components)
        {
            if (c.Item is { } item)
                Hold(item, new(c, c.Line, route.Runs[c.Run].Run.Line, c.Source));
        }

        foreach (var p in route.Pipes)
        {
            if (p.Item is { } item)
                Hold(item, new(p, p.Line, route.Runs[p.Run].Run.Line, route.Runs[p.Run].Run.Legs[p.FirstLeg].Source));
        }

        return against is null ? [] : Told(route, against);

        void Hold(MaterialItem item, in ItemUse use)
        {
            if (Against(item, use, route) is { } says)
                (against ??= []).Add((item, use, says));
        }
    }

    private List<Finding> Told(Route route, List<(MaterialItem Item, ItemUse Use, string Says)> against)
    {
        var findings = new List<Finding>();
        var told = new HashSet<(Findings.RowPath, string)>();
        foreach (var (item, use, says) in against)
        {
            var all = 0;
            foreach (var c in route.Components)
                all += ReferenceEquals(c.Item, item) ? 1 : 0;
            foreach (var p in route.Pipes)
                all += ReferenceEquals(p.Item, item) ? 1 : 0;
            var wrong = against.Count(a => ReferenceEquals(a.Item, item));
            var row = wrong == all && !LegStandsAlone(item, use, route) ? item.Source : use.Source;
            if (!told.Add((row.Path, says)))
                continue;
            var key = row != use.Source ? Key : LegKey.Length > 0 && row.Has(LegKey) ? LegKey : row.Has("item") ? "item" : "to";
            var change = row == item.Source ? ChangeOf(item, use) : null;
            findings.Add(Found(row, key, row == item.Source
                ? FormattableString.Invariant($"Item {item.Item}, {item.What}: {says}.")
                : FormattableString.Invariant($"The {use.Part.Name} here is item {item.Item}, {item.What}: {says}."), Remedy, Otherwise) with
            {
                Change = change is { } text ? row.Replace(Key, text.NewText, text.Says) : null,
                InSheet = change is { } cell ? row.InSheet(Key, cell.NewText, cell.Says) : null,
            });
        }

        return findings;
    }
}
