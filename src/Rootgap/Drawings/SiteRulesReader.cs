using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Reads what the drawing or the shop says of forecast and split.</summary>
internal static class SiteRulesReader
{
    /// <summary>The limits under <c>forecast</c>, on top of those that hold already.</summary>
    public static ForecastRules Forecast(Fields of, ForecastRules usual)
    {
        if (!of.Has("forecast") || of.Inner("forecast", DrawingShape.Forecast) is not { } f)
            return usual;
        var other = f.Has("other") ? f.Inner("other", DrawingShape.ForecastOther) : null;
        var weld = f.Has("weld") ? f.Inner("weld", DrawingShape.ForecastWeld) : null;
        var bolted = f.Has("bolted") ? f.Inner("bolted", DrawingShape.ForecastBolted) : null;
        var spool = f.Has("spool") ? f.Inner("spool", DrawingShape.ForecastOther) : null;
        return usual with
        {
            OtherPosition = other?.Spread("position") ?? usual.OtherPosition,
            OtherAngle = other?.SpreadAngle("angle") ?? usual.OtherAngle,
            WeldShift = weld?.Spread("hi-lo") ?? usual.WeldShift,
            WeldGap = weld?.Spread("gap") ?? usual.WeldGap,
            WeldAngle = weld?.SpreadAngle("angle") ?? usual.WeldAngle,
            WeldRoll = weld?.SpreadAngle("roll") ?? usual.WeldRoll,
            Shrinkage = f.Spread("shrinkage") ?? usual.Shrinkage,
            BoltedShift = bolted?.Spread("shift") ?? usual.BoltedShift,
            BoltedAngle = bolted?.SpreadAngle("angle") ?? usual.BoltedAngle,
            BoltedRoll = bolted?.SpreadAngle("roll") ?? usual.BoltedRoll,
            Valve = f.Spread("valve") ?? usual.Valve,
            SpoolPosition = spool?.Spread("position") ?? usual.SpoolPosition,
            SpoolAngle = spool?.SpreadAngle("angle") ?? usual.SpoolAngle,
            Cut = f.Spread("cut") ?? usual.Cut,
            Fitting = f.Spread("fitting") ?? usual.Fitting,
            Reducer = f.Spread("reducer") ?? usual.Reducer,
            Flange = f.Spread("flange") ?? usual.Flange,
            Set = f.SpreadAngle("set") ?? usual.Set,
            InLine = Spools(f, "in line") ?? usual.InLine,
            Height = f.Spread("height") ?? usual.Height,
            Supports = f.Names("supports") ?? usual.Supports,
            Level = Spools(f, "level") ?? usual.Level,
        };
    }

    /// <summary>What stands under <c>split</c>, on top of what holds already.</summary>
    public static SplitRules Split(Fields of, SplitRules usual)
    {
        if (!of.Has("split") || of.Inner("split", DrawingShape.Split) is not { } f)
            return usual;
        return usual with
        {
            Every = f.Length("every", 10) ?? usual.Every,
            AllDirections = f.Word("directions", ["one", "all"]) is { } word ? word == "all" : usual.AllDirections,
            Floor = f.PlaceAt("floor")?.Z ?? usual.Floor,
            Field = f.Number("field") ?? usual.Field,
            FinalFit = f.Number("final-fit") ?? usual.FinalFit,
            NewPlace = f.Number("new place") ?? usual.NewPlace,
            OffLevel = f.Number("off level") ?? usual.OffLevel,
            NearFitting = f.Number("near fitting") ?? usual.NearFitting,
            High = f.Number("high") ?? usual.High,
            ThreeDirections = f.Number("three directions") ?? usual.ThreeDirections,
        };
    }

    private static List<string>? Spools(Fields f, string key)
    {
        var names = f.Names(key);
        return names is null ? null : [.. names.Select(n => n.StartsWith("spool ", StringComparison.OrdinalIgnoreCase) ? n[6..].Trim() : n)];
    }
}
