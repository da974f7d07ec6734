using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Reads one leg.</summary>
internal static class LegReader
{
    private static readonly string[] Terminal = ["flange", "weld", "cap", "open", "tie-in"];

    /// <param name="isWhole">False where something is missing or not understood at the leg's end; it then ends at a plain weld, for a picture only.</param>
    /// <returns>Null where the leg's direction or distance is not known.</returns>
    public static Leg? Read(
        YamlNode node, string path, int index, bool isLast, Line line, Units units, ReadingErrors errors, Place parent, Func<Line, Fields, bool, Line> with, out bool isWhole)
    {
        isWhole = false;
        if (Fields.Open(node, DrawingShape.Leg, errors, units, path, parent) is not { } f)
            return null;
        var word = f.Word("to", DrawingShape.ToWords);
        if (word is not null)
            CheckKeys(f, word);
        var go = f.Direction("go", out var isSkew);
        var makeUp = f.Has("by") && f.Text("by") is { } by && by.Equals("makeup", StringComparison.OrdinalIgnoreCase);
        var distance = makeUp ? null : f.Length("by", Tolerance.Noise);
        var slope = SlopeOf(f, go, isSkew);
        if (!f.Has("by") && !isSkew && f.Has("go"))
            f.Error("missing-key", "by", "This leg has no distance.", "Add `by:` with the distance to the next work point, or `by: makeup`.");
        var to = word is null ? null : PointOf(f, word);
        var begin = Weld(f, "begin");
        var end = Weld(f, "end");
        if (makeUp && begin is not null)
            f.Error("key-does-not-fit", "begin", "A leg made up fitting to fitting has one weld, its `end`.", "Write `end:` instead of `begin:`.");
        if (makeUp && to is { IsPassedThrough: true } or WeldPoint or OpenPoint && makeUp)
            f.Error("impossible-value", "by", $"Nothing can be made up to {Article(word!)}: there is no fitting at this end.", "Write the distance.");
        if (word is not null && !isLast && word is "flange" or "cap" or "open" or "tie-in" && !isLast)
            f.Error("impossible-value", "to", $"{Article(word!, capital: true)} ends a run, and more legs follow.", word == "flange" ? "Write `joint` for two flanges inside a run." : "Put it on the last leg.",
                word == "flange" ? f.Source.Replace("to", "joint", "the flange inside the run is now a joint of two") : null);
        if (isLast && to is ElbowPoint or OutletPoint or StubInPoint or DimensionPoint && isLast)
            f.Error("impossible-value", "to", $"A run cannot end at {Article(word!)}.", $"Add the next leg, or end with: {string.Join(", ", Terminal)}.");
        if (isLast && to is TeePoint { EnterBranch: true })
            f.Error("impossible-value", "to", "A run cannot end at a tee entered by its branch: the next leg tells which way its run lies.", "Add the next leg.");
        var takesSize = to is ReducerPoint or OutletPoint or StubInPoint or TeePoint { EnterBranch: true };
        var states = takesSize ? null : f.Size("size");
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
            Slope = slope,
            To = to ?? new WeldPoint(Continues: null),
            Begin = begin,
            End = end,
            Spool = f.Text("spool"),
            Item = f.Whole("item"),
            PipeItem = f.Whole("pipe item"),
            Line = with(line, f, to is not (OpenPoint or ValvePoint or OutletPoint)),
            StatesSize = states,
            At = at,
            Source = f.Source,
        };
    }

    public static OpenEnds OpenEndsOf(Fields f) => f.Word("ends", DrawingShape.OpenEnds) switch
    {
        "plain" => OpenEnds.Plain,
        "threaded" => OpenEnds.Threaded,
        _ => OpenEnds.Bevel,
    };

    private static string Article(string word, bool capital = false) => (capital ? "A" : "a") + (word[0] is 'a' or 'e' or 'o' ? "n " : " ") + word;

    private static void CheckKeys(Fields f, string word)
    {
        var fits = DrawingShape.KeysOf[word];
        foreach (var key in f.Keys)
        {
            if (fits.Contains(key.Value))
                continue;
            var others = DrawingShape.KeysOf.Where(p => p.Value.Contains(key.Value)).Select(p => p.Key).ToList();
            if (others.Count > 0)
                f.Error("key-does-not-fit", key.Value, $"\"{key.Value}\" does not go with {Article(word)}.", $"It goes with: {string.Join(", ", others)}.");
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

    private static WeldPlace? Weld(Fields f, string key) => f.Word(key, DrawingShape.Welds) switch
    {
        "shop" => WeldPlace.Shop,
        "field" => WeldPlace.Field,
        "final-fit" => WeldPlace.FinalFit,
        _ => null,
    };

    private static WorkPoint? PointOf(Fields f, string word)
    {
        switch (word)
        {
            case "elbow":
                return new ElbowPoint(f.Word("radius", DrawingShape.Radii) switch
                {
                    "short" => ElbowRadius.Short,
                    "3d" => ElbowRadius.ThreeD,
                    "5d" => ElbowRadius.FiveD,
                    _ => ElbowRadius.Long,
                });
            case "tee":
                var enters = f.Word("enter", ["run", "branch"]) == "branch";
                var branch = f.Direction("branch", out _);
                if (enters && f.Has("branch"))
                    f.Error("key-does-not-fit", "branch", "A tee entered by its branch has no other branch.", "Leave `branch` out: the next leg takes one run end, a run `from` its name the other.");
                else if (!enters && !f.Has("branch"))
                    f.Error("missing-key", "to", "This tee has no branch direction.", "Add `branch:` with a direction, such as branch: east.");
                if (!enters && f.Has("size"))
                    f.Error("key-does-not-fit", "size", "A tee has the size of its line.", "Write `branch size:` for a reducing tee.");
                return !enters && branch is null ? null : new TeePoint(f.Text("name"), branch, f.Size("branch size"), enters, enters ? f.Size("size") : null);
            case "reducer":
                if (!f.Has("size"))
                    f.Error("missing-key", "to", "This reducer has no size.", "Add `size:`, the size from here on.");
                var eccentric = f.Word("kind", DrawingShape.ReducerKinds) == "eccentric";
                if (f.Has("flat") && !eccentric)
                {
                    var change = f.Has("kind") ? f.Source.Replace("kind", "eccentric", "the reducer is now eccentric") is { } other ? other with { IsJudgement = true } : null : f.Source.Add("to", "kind", "eccentric", "the reducer is now eccentric");
                    f.Error("key-does-not-fit", "flat", "Only an eccentric reducer has a flat side.", "Add `kind: eccentric`, or leave `flat` out.", change);
                }

                var flat = f.Flat();
                return f.Size("size") is { } size ? new ReducerPoint(size, eccentric, flat) : null;
            case "outlet" or "stub-in":
                if (!f.Has("branch"))
                    f.Error("missing-key", "to", $"This {word} has no branch direction.", "Add `branch:` with a direction, such as branch: up.");
                if (!f.Has("size"))
                    f.Error("missing-key", "to", $"This {word} has no size.", "Add `size:`, the size of the branch.");
                if (f.Direction("branch", out _) is not { } side || f.Size("size") is not { } branchSize)
                    return null;
                return word == "stub-in"
                    ? new StubInPoint(f.Text("name"), side, branchSize, f.YesNo("pad") ?? false)
                    : new OutletPoint(f.Text("name"), side, branchSize, Ends(f, DrawingShape.FittingEnds, FittingEnds.Butt));
            case "flange":
                return new FlangePoint(f.Holes(), f.Word("bolting", ["here", "by others"]) == "by others");
            case "joint":
                return new FlangedJointPoint(f.Holes());
            case "valve":
                return ValveOf(f);
            case "weld":
                return new WeldPoint(f.Text("continues"));
            case "cap":
                return new CapPoint();
            case "open":
                return new OpenPoint(OpenEndsOf(f), f.Text("continues"));
            case "point":
                return new DimensionPoint();
            default:
                if (f.Text("with") is { } with)
                    return new TieInPoint(with);
                f.Error("missing-key", "to", "This tie-in does not say with what.", "Add `with:` and the name of a tee, outlet or stub-in.");
                return null;
        }
    }

    private static ValvePoint? ValveOf(Fields f)
    {
        if (!f.Has("kind"))
            f.Error("missing-key", "to", "This valve has no kind.", $"Add `kind:`, one of: {string.Join(", ", DrawingShape.ValveKinds)}.");
        var kind = f.Word("kind", DrawingShape.ValveKinds) switch
        {
            "gate" => ValveKind.Gate,
            "globe" => ValveKind.Globe,
            "check" => ValveKind.Check,
            "ball" => ValveKind.Ball,
            "butterfly" => ValveKind.Butterfly,
            _ => (ValveKind?)null,
        };
        var valve = (f.Length("face to face", Tolerance.Noise), f.Direction("stem", out _), f.Number("mass"), f.Holes());
        return kind is null ? null : new ValvePoint(kind.Value, Ends(f, DrawingShape.ValveEnds, FittingEnds.Flanged), valve.Item1, valve.Item2, valve.Item3, valve.Item4);
    }

    private static FittingEnds Ends(Fields f, string[] words, FittingEnds otherwise) => f.Word("ends", words) switch
    {
        "butt" => FittingEnds.Butt,
        "socket" => FittingEnds.Socket,
        "threaded" => FittingEnds.Threaded,
        "flanged" => FittingEnds.Flanged,
        _ => otherwise,
    };
}
