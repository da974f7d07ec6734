using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Site.Splitting;

/// <summary>Plans in plain words, with the reasons behind the cost.</summary>
public static class SplitWords
{
    public static IEnumerable<string> Of(Split split, Drawing drawing)
    {
        for (var i = 0; i < split.Plans.Count; i++)
        {
            var plan = split.Plans[i];
            yield return Say($"plan {i + 1}: {plan.Cost:0.##} inches{(plan.IsProven ? i == 0 ? ", proven the cheapest" : "" : ", not proven")}");
            foreach (var mark in plan.Marks)
                yield return "  " + Of(mark, drawing);
            foreach (var spool in plan.Spools)
                yield return Say($"  spool {spool.Name}: {Box(spool.Box, drawing.Units)}, {spool.Mass:0.#} kg{(spool.Inches > 0 ? ", three directions" : "")}{(spool.DrawnBox is { } drawn ? $"; as measured, by the drawing {Box(drawn, drawing.Units)}" : "")}");
        }

        foreach (var line in split.Say)
            yield return line;
    }

    /// <summary>A mark as people say it, with its cost's terms.</summary>
    public static string Of(SplitMark mark, Drawing drawing)
    {
        var place = mark.Place;
        var where = place.Along is { } along
            ? $"a new {Of(mark.Kind)} weld {LengthText.In(drawing.Units, along)} along leg {place.Leg + 1} of {drawing.Runs[place.Run].Name}"
            : $"{place.Name} {Of(mark.Kind)}, at the {(place.AtBegin ? "begin" : "end")} of leg {place.Leg + 1} of {drawing.Runs[place.Run].Name}";
        return $"{where}{(mark.IsThere ? " (marked already)" : "")}: {string.Join(" + ", mark.Cost.Where(t => t.Mm > 0).Select(t => Say($"{t.Mm:0.##} {t.What}")))}";
    }

    public static string Of(WeldPlace kind) => kind == WeldPlace.FinalFit ? "final-fit" : kind == WeldPlace.Field ? "field" : "shop";

    /// <summary>A box as people say it, its sides as they stand in the list.</summary>
    public static string Box(IReadOnlyList<double> sides, Units units) => string.Join(" x ", sides.Select(b => units == Units.Inches ? LengthText.FeetInches(b) : LengthText.Millimetres(b, 0)));

    private static string Say(FormattableString text) => FormattableString.Invariant(text);
}
