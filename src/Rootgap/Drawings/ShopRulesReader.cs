using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Reads the shop's rules, from the drawing or from a file beside it.</summary>
internal static class ShopRulesReader
{
    private static readonly Shape File = new("shop file", [.. DrawingShape.Shop.Keys, new("units", Kind.Choice, "Unit of bare numbers.", Words: ["mm", "in"]), new("shop", Kind.Map, "The rules.", Of: DrawingShape.Shop)]);

    public static ShopRules Read(Fields top, string file, Func<string, byte[]?>? beside, Units units, ReadingErrors errors)
    {
        var usual = ShopRules.Usual(units);
        switch (top.Node("shop"))
        {
            case null:
                return usual;
            case YamlText name:
                if (beside?.Invoke(name.Value) is not { } bytes)
                {
                    top.Error("file-not-found", "shop", $"The shop file \"{name.Value}\" is not there.", "Give its path beside the drawing file, in the job's folder, or write the rules here.");
                    return usual;
                }

                var before = errors.Count;
                var text = FileText.Read(bytes, name.Value, "shop", errors);
                if (errors.Count > before)
                    return usual;
                var root = YamlTree.Read(text, name.Value, (where, message, remedy) => errors.Add("not-yaml", where, "shop", message, remedy));
                if (root is null)
                    return usual;
                // A shop file has units of its own, millimetres unless it says otherwise: many drawings share it.
                units = root is YamlMap m && (m["units"] as YamlText)?.Value.Trim() == "in" ? Units.Inches : Units.Millimetres;
                if (Fields.Open(root, File, errors, units, "shop", root.Where) is not { } outer)
                    return usual;
                outer.Word("units", ["mm", "in"]);
                return outer.Has("shop") ? outer.Inner("shop", DrawingShape.Shop) is { } inner ? Rules(inner, usual, units, errors) : usual : Rules(outer, usual, units, errors);
            default:
                return top.Inner("shop", DrawingShape.Shop) is { } f ? Rules(f, usual, units, errors) : usual;
        }
    }

    private static ShopRules Rules(Fields f, ShopRules usual, Units units, ReadingErrors errors)
    {
        var envelope = f.Has("envelope") ? f.Inner("envelope", DrawingShape.Envelope) : null;
        return usual with
        {
            RootGap = f.Length("root gap") ?? usual.RootGap,
            BranchGap = f.Length("branch gap"),
            OutletGap = f.Length("outlet gap") ?? usual.OutletGap,
            Shrinkage = f.Length("shrinkage"),
            MakeUpGapIgnored = f.Word("makeup gap", ["counted", "ignored"]) == "ignored",
            FinalFitExtra = f.Length("final fit extra") ?? usual.FinalFitExtra,
            Kerf = f.Length("kerf") ?? usual.Kerf,
            ShortestPipe = f.Length("shortest pipe") ?? usual.ShortestPipe,
            Stock = f.Lengths("stock") ?? usual.Stock,
            EnvelopeLength = envelope?.Length("length", 1) ?? usual.EnvelopeLength,
            EnvelopeWidth = envelope?.Length("width", 1) ?? usual.EnvelopeWidth,
            EnvelopeHeight = envelope?.Length("height", 1) ?? usual.EnvelopeHeight,
            EnvelopeMass = envelope?.Mass("mass") ?? usual.EnvelopeMass,
            SocketGap = f.Length("socket gap") ?? usual.SocketGap,
            WeldSpacing = f.Length("weld spacing"),
            HiLo = f.Length("hi-lo") ?? usual.HiLo,
            GapVariation = f.Length("gap variation", Tolerance.Noise) ?? usual.GapVariation,
            OnEndLimit = f.Length("on end limit") ?? usual.OnEndLimit,
            OnEndHeight = f.Number("on end height") ?? usual.OnEndHeight,
            StandHeight = f.Length("stand height") ?? usual.StandHeight,
            HighestStand = f.Length("highest stand") ?? usual.HighestStand,
            ViceLimit = f.Number("vice limit") ?? usual.ViceLimit,
            LinearTolerance = f.Length("linear tolerance", Tolerance.Noise),
            AngularTolerance = f.Angle("angular tolerance"),
            MeasuredTakeOffs = Measured(f),
            Forecast = SiteRulesReader.Forecast(f, usual.Forecast),
            Split = SiteRulesReader.Split(f, usual.Split),
            HoldPoints = Held(f, units, errors),
            Bolting = PaperRulesReader.Bolting(f),
            Welding = PaperRulesReader.Welding(f, usual.Welding),
            Source = f.Source,
        };
    }

    private static List<HoldPoint> Held(Fields f, Units units, ReadingErrors errors)
    {
        List<HoldPoint> points = [];
        if (f.Node("hold points") is not YamlList list)
        {
            if (f.Has("hold points"))
                f.Error("wrong-type", "hold points", "Hold points are a list.", "Write - {before: welded, needs: fit-up seen, by: inspector}.");
            return points;
        }

        for (var i = 0; i < list.Items.Count; i++)
        {
            if (Fields.Open(list.Items[i], DrawingShape.HoldPoint, errors, units, $"hold points[{i}]", f.Source.Where) is { } point
                && point.Word("before", HoldPoint.Steps) is { } before && point.Word("needs", HoldPoint.Words) is { } needs)
                points.Add(new(before, needs, point.Text("by") ?? ""));
        }

        return points;
    }

    private static Dictionary<int, double> Measured(Fields f)
    {
        var measured = new Dictionary<int, double>();
        if (f.Node("measured") is null)
            return measured;
        if (f.Node("measured") is not YamlMap map)
        {
            f.Error("wrong-type", "measured", "Measured take-offs are written {item 2: {take-off: 230.5}}.", "Name each material item.");
            return measured;
        }

        var shape = new Shape("measured take-off", new Key("take-off", Kind.Length, "Centre to end, as measured.", IsRequired: true));
        var keys = new Shape("list of measured items", [.. map.Pairs.Select(p => new Key(p.Key.Value, Kind.Map, "A measured item.", Of: shape))]);
        var items = f.Inner("measured", keys)!;
        foreach (var (key, _) in map.Pairs)
        {
            var number = key.Value.StartsWith("item ", StringComparison.Ordinal) ? key.Value[5..] : key.Value;
            if (!int.TryParse(number, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var item))
                items.Error("unknown-key", key.Value, $"\"{key.Value}\" is not a material item.", "Write `item 2`.");
            else if (items.Inner(key.Value, shape) is { } one && one.Length("take-off") is { } takeOff)
                measured[item] = takeOff;
        }

        return measured;
    }
}
