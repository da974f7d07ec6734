using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Records;

namespace Rootgap.App.Spools;

/// <summary>How the shop's pages call things.</summary>
public static class SpoolWords
{
    /// <summary>A spool's state with a sign that can be told apart without its colour.</summary>
    public static (string Sign, string Word, string Class) Of(SpoolState state) => state switch
    {
        SpoolState.NotBegun => ("○", "not begun", "plain"),
        SpoolState.Cutting => ("◔", "cutting", "note"),
        SpoolState.Fitting => ("◑", "fitting", "note"),
        SpoolState.Tacked => ("◕", "tacked", "warn"),
        SpoolState.Welded => ("●", "welded", "note"),
        _ => ("✓", "checked", "good"),
    };

    public static string Of(Step step) => step switch { Step.Fitted => "fitted", Step.Tacked => "tacked", Step.Welded => "welded", _ => "checked" };

    /// <summary>What was done, in words.</summary>
    public static string Says(DrawingFact fact, Look.Choices choices) => fact switch
    {
        PieceCut cut => $"{cut.Piece} {(cut.IsSpoiled ? "spoiled" : "cut")}{(cut.From is { } from ? $" from bar {from.Bar}" : "")}{(cut.Heat is { } heat ? $", heat {heat}" : cut.From is null ? ", no heat noted" : "")}{(cut.Length is { } length ? $", measured {choices.LengthWithUnit(length)}" : "")}",
        HeatNoted heat => $"{heat.Component} heat {heat.Heat}",
        JointStep step => $"{step.Joint} {Of(step.Step)}{(step.Welder is { } welder ? $" by {welder}" : "")}",
        ReadingsTaken readings => $"{readings.Joint} read{(readings.IsWelded ? " after welding" : "")}: {string.Join(", ", readings.Readings.Select(r => r.Reading.Text))}",
        _ => Offline.FactWords.Of(fact),
    };

    /// <summary>Mass as a rigger wants it: rounded to 0.1 kg, and in pounds where lengths are in feet.</summary>
    public static string Mass(double kg, Units units) => units == Units.Inches
        ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{LengthText.Millimetres(kg, 1)} kg ({kg / 0.45359237:0} lb)")
        : LengthText.Millimetres(kg, 1) + " kg";

    /// <summary>A pipe item: what a heat number is remembered for.</summary>
    public static string PipeOf(Cut cut) => $"NPS {cut.Pipe.Size}, schedule {cut.Pipe.Line.Schedule}, {cut.Pipe.Line.Material}";

    /// <summary>The lifting caution, with what is to be lifted.</summary>
    public static string Lifting(Spool spool, Units units) =>
        $"Lifting: {Mass(spool.Mass, units)} complete{(spool.Unweighed.Count > 0 ? $", without {string.Join(", ", spool.Unweighed)}, whose mass nobody has given: take it from the maker's sheet" : "")}. Rated gear, slung at the centre of mass, by the site's lifting rules; nobody under the load. Tack welds hold nothing up.";
}
