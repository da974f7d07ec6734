using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Cli.Commands;

/// <summary>The result of <c>rootgap fit</c> as text.</summary>
internal static class FitOutput
{
    public static void Print(TextWriter to, FitCard card, IReadOnlyList<Taken>? taken, Diagnosis? found, IReadOnlyList<string> say, FitWords words)
    {
        var joint = card.Standing;
        var j = joint.Joint;
        to.WriteLine(words.Head(card));
        foreach (var line in words.Standing(card))
            to.WriteLine("  " + line);
        foreach (var line in words.Kept(card))
            to.WriteLine("  " + line);
        to.WriteLine();
        var hasKept = card.Targets.Any(t => Math.Abs(t.Value - t.Drawn) > 1e-6);
        to.WriteLine($"  {"reading",-22}{"should be",14}{(hasKept ? $"{"as drawn",12}" : "")}{"allowed",12}{"in line",9}{"read",14}   seen with");
        foreach (var target in card.Targets.Concat(card.OfPart))
        {
            var r = target.Reading;
            var read = taken?.FirstOrDefault(t => t.Reading == r);
            var again = found is not null && read is not null && found.Again.Contains(read) ? " ?" : "";
            to.WriteLine(Text($"  {r.Text,-22}{words.Show(r, target.Value),14}{(hasKept ? $"{words.Show(r, target.Drawn),12}" : "")}{"±" + words.ShowSmall(r, target.Allow),12}{(target.InLine is { } l ? Text($"{Angles.ToDegrees(l) + 0.0:0.00}°") : ""),9}{(read is null ? "" : words.Show(r, read.Value) + again),14}   {r.SeenWith}{(r is Reading.EndTape ? $", from the lip of {words.NameOf(j.HeldEnd!.Id)}" : "")}{(r.Plus.Length > 0 ? "; " + r.Plus : "")}"));
        }

        foreach (var line in words.Besides(card))
            to.WriteLine("  " + line);
        to.WriteLine(Text($"  limits: face {Angles.ToDegrees(card.Limits.Tilt.Value):0.00}° ({card.Limits.Tilt.Source}); step {words.Small(card.Limits.Shift.Value)} ({card.Limits.Shift.Source}); gap {words.Small(card.Limits.Gap.Value)} ({card.Limits.Gap.Source})"));
        if (found is null)
            return;
        to.WriteLine();
        for (var i = 0; i < 6; i++)
        {
            var (value, sd) = (FitRecord.Shown(found.Error[i], i), FitRecord.Shown(found.Sd[i], i));
            to.WriteLine(found.Unseen.Contains(i)
                ? Text($"  {Remedy.Words[i],-30} not seen by these readings")
                : Text($"  {Remedy.Words[i],-30}{(i < 3 ? words.Signed(value) : Text($"{value + 0.0:0.00}°")),10} ± {(i < 3 ? words.Small(sd) : Text($"{sd:0.00}°"))}"));
        }
        to.WriteLine();
        foreach (var line in say)
            to.WriteLine("  " + line);
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
