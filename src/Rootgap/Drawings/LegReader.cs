using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Reads one leg.</summary>
internal static class LegReader
{
    /// <param name="isWhole">False where something is missing or not understood at the leg's end; it then ends at a plain weld, or turns in a plain elbow, for a picture only.</param>
    /// <returns>Null where the leg's direction or distance is not known.</returns>
    public static Leg? Read(
        YamlNode node, string path, int index, bool isLast, Line line, Units units, ReadingErrors errors, Place parent, Func<Line, Fields, bool, Line> with, out bool isWhole)
    {
        isWhole = false;
        if (Fields.Open(node, DrawingShape.Leg, errors, units, path, parent) is not { } f)
            return null;
        var kind = f.Word("to", DrawingShape.ToWords) is { } written ? WorkPointKind.Of(written) : null;
        var word = kind?.Word;
        if (kind is not null)
            CheckKeys(f, kind);
        var go = f.Direction("go", out var isSkew);
        var makeUp = f.Has("by") && f.Text("by") is { } by && by.Equals("makeup", StringComparison.OrdinalIgnoreCase);
        var isReturn = f.Has("by") && f.Text("by") is { } width && width.Equals("return", StringComparison.OrdinalIgnoreCase);
        makeUp |= isReturn;
        var nipple = kind is { HasOwnNipple: true } ? null : f.Length("nipple", Tolerance.Noise);
        var distance = makeUp ? null : f.Length("by", Tolerance.Noise);
        var slope = SlopeOf(f, go, isSkew);
        if (!f.Has("by") && !isSkew && f.Has("go"))
            f.Error("missing-key", "by", "This leg has no distance.", "Add `by:` with the distance to the next work point, or `by: makeup`.");
        var to = kind?.Read(f);
        if (to is { Written.HasOwnEnds: true } && !f.Has("ends") && FileWords.FlangelessClasses.Contains(f.Text("class") ?? line.Class))
        {
            // Nobody writes that a class 800 valve has no flanges: it takes its pipe as the fittings beside it do.
            var ends = line.Ends == FittingEnds.Threaded ? FittingEnds.Threaded : FittingEnds.Socket;
            to = to switch { ValvePoint { IsWafer: null } valve => valve with { Ends = ends }, InLineItemPoint item => item with { Ends = ends }, _ => to };
        }

        var begin = Weld(f, "begin");
        var end = Weld(f, "end");
        foreach (var key in (string[])["begin", "end", "begin number", "end number", "nipple", "item", "pipe item"])
        {
            if (isReturn && f.Has(key))
                f.Error("key-does-not-fit", key, "A return bend is one fitting: within it there is no pipe and no weld.", key == "item" ? "Write its item on the leg before." : $"Take `{key}:` out.");
        }

        if (isReturn && to is not null and not ElbowPoint { Bend: null })
            f.Error("impossible-value", "to", $"A return bend ends in its second half, and this leg leads to {Words.A(word!)}.", "Write `to: elbow`, and what follows on the next leg.");
        if (makeUp && !isReturn && nipple is null && begin is not null)
            f.Error("key-does-not-fit", "begin", "A leg made up fitting to fitting has one weld, its `end`.", "Write `end:` instead of `begin:`.");
        if (makeUp && to is { Written.CanBeMadeUpTo: false } && (nipple is null || to is not OpenPoint))
            f.Error("impossible-value", "by", $"Nothing can be made up to {Words.A(word!)}: there is no fitting at this end.", "Write the distance.");
        if (kind is { EndsRun: true } && !isLast)
            f.Error("impossible-value", "to", $"{Words.A(word!, capital: true)} ends a run, and more legs follow.", word == "flange" ? "Write `joint` for two flanges inside a run." : "Put it on the last leg.",
                word == "flange" ? f.Source.Replace("to", "joint", "the flange inside the run is now a joint of two") : null);
        if (isLast && to is { CanEndRun: false } and not TeePoint)
            f.Error("impossible-value", "to", $"A run cannot end at {Words.A(word!)}.", $"Add the next leg, or end with: {string.Join(", ", WorkPointKind.All.Where(k => k.EndsRun || k == WeldPoint.OfFile).Select(k => k.Word))}.");
        if (isLast && to is TeePoint { CanEndRun: false })
            f.Error("impossible-value", "to", "A run cannot end at a tee entered by its branch: the next leg tells which way its run lies.", "Add the next leg.");
        var states = to is { TakesSize: true } ? null : f.Size("size");
        var at = f.PlaceAt("at");
        if (go is null || (distance is null && !makeUp && !isSkew))
            return null;
        isWhole = to is not null;
        return new Leg
        {
            Index = index,
            Go = go.Value,
            IsSkew = isSkew,
            By = distance,
            MakeUp = makeUp,
            IsReturn = isReturn,
            Slope = slope,
            Note = f.Text("note") ?? "",
            To = to ?? (kind is { TurnsLine: true } ? new ElbowPoint(ElbowRadius.Long) : new WeldPoint(Continues: null)),
            Begin = begin,
            End = end,
            BeginNumber = f.Text("begin number") ?? "",
            EndNumber = f.Text("end number") ?? "",
            Nipple = nipple,
            Spool = f.Text("spool"),
            Item = f.Whole("item"),
            PipeItem = f.Whole("pipe item"),
            Line = with(line, f, to is not { Written.HasOwnEnds: true }),
            StatesSize = states,
            At = at,
            IsOutForTest = f.Word("test", ["out"]) is not null,
            Source = f.Source,
        };
    }

    private static void CheckKeys(Fields f, WorkPointKind kind)
    {
        foreach (var key in f.Keys)
        {
            if (kind.Keys.Contains(key.Value))
                continue;
            var others = DrawingShape.KeysOf.Where(p => p.Value.Contains(key.Value)).Select(p => p.Key).ToList();
            if (others.Count > 0)
                f.Error("key-does-not-fit", key.Value, $"\"{key.Value}\" does not go with {Words.A(kind.Word)}.", $"It goes with: {string.Join(", ", others)}.");
        }
    }

    private static double SlopeOf(Fields f, Vector? go, bool isSkew)
    {
        var (fall, rise) = (f.Slope("fall"), f.Slope("rise"));
        if (fall is not null && rise is not null)
            f.Error("impossible-value", "rise", "A leg cannot both fall and rise.", "Keep one of the two.");
        var key = fall is not null ? "fall" : "rise";
        if ((fall ?? rise) is not null && go is { } g && g.Z != 0)
            f.Error("impossible-value", key, $"Only a level leg can {key}: this one goes {(isSkew ? "up or down by its vector" : "up or down")}.", "Leave the slope out, or write the leg level.");
        return rise ?? -(fall ?? 0);
    }

    private static WeldPlace? Weld(Fields f, string key) => f.Word(key, FileWords.Welds) switch
    {
        "shop" => WeldPlace.Shop,
        "field" => WeldPlace.Field,
        "final-fit" => WeldPlace.FinalFit,
        _ => null,
    };
}
