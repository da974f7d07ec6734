using Rootgap.Findings;
using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What can't be from one leg to the next, told at reading.</summary>
internal static class LegOrder
{
    public static void Check(List<Leg> legs, ReadingErrors errors)
    {
        if (legs is [{ IsReturn: true } first, ..])
            errors.Add("impossible-value", first.Source["by"], first.Source.Path, "A return bend begins at the elbow of the leg before, and a run begins here.", "Write the leg that leads to it first.");
        for (var i = 0; i + 1 < legs.Count; i++)
        {
            var (leg, next) = (legs[i], legs[i + 1]);
            if (leg.To is ElbowPoint && leg.Direction.AngleTo(next.Direction) < Tolerance.Turn)
            {
                errors.Add("elbow-without-turn", leg.Source["to"], leg.Source.Path,
                    string.Create(CultureInfo.InvariantCulture, $"This elbow does not turn: the next leg goes the same way (within {Angles.ToDegrees(leg.Direction.AngleTo(next.Direction)):0.##} degrees)."),
                    "Change the direction of one of the two legs, or leave the elbow out.");
            }

            if (leg.To is WeldPoint && leg.End is { } end && next.Begin is { } begin && end != begin)
            {
                errors.Add("weld-marked-twice", next.Source["begin"], next.Source.Path,
                    $"This weld is marked {Word(end)} by the leg before and {Word(begin)} here.", "Mark it once.");
            }

            if (next.IsReturn && leg.To is not ElbowPoint { Bend: null, Radius: ElbowRadius.Long or ElbowRadius.Short })
                errors.Add("impossible-value", next.Source["by"], next.Source.Path, $"A return bend begins at an elbow of long or short radius, and the leg before leads to {Words.A(leg.To.Word)}.", "Write `to: elbow` on the leg before, or the distance here.");
            else if (next.IsReturn && next.To is ElbowPoint half && !half.Equals(leg.To))
                errors.Add("impossible-value", next.Source["to"], next.Source.Path, "The two halves of a return bend are of one radius.", "Write the same `radius:` on both legs.");
            if (next.MakeUp && !next.IsReturn && leg.To.IsPassedThrough | leg.To is WeldPoint)
                errors.Add("impossible-value", next.Source["by"], next.Source.Path, $"Nothing can be made up from the {leg.To.Word} before: there is no fitting.", "Write the distance.");
        }
    }

    private static string Word(WeldPlace place) => FileWords.Welds[(int)place];
}

/// <summary>Names between the runs: each once, and each one called there.</summary>
internal static class RunNames
{
    public static void Check(Drawing drawing, ReadingErrors errors)
    {
        var named = new Dictionary<string, Leg>(StringComparer.Ordinal);
        foreach (var leg in drawing.Runs.SelectMany(r => r.Legs))
        {
            if (leg.To.Name is { } name && !named.TryAdd(name, leg))
                errors.Add("name-twice", leg.Source["name"], leg.Source.Path, $"\"{name}\" is the name of two work points.", "Give each its own name.");
        }

        foreach (var twice in drawing.Runs.GroupBy(r => r.Name, StringComparer.Ordinal).Where(g => g.Count() > 1))
        {
            var run = twice.Last();
            errors.Add("name-twice", run.Source["run"], run.Source.Path, $"Two runs are named \"{run.Name}\".", "Give each its own name.");
        }

        var taken = new Dictionary<string, RowPath>(StringComparer.Ordinal);
        var unplaced = 0;
        foreach (var run in drawing.Runs)
        {
            if (run.Start.From is { } from)
                Use(from, run.Start.Source, "from");
            else if (run.Start.At is null && ++unplaced > 1)
                errors.Add("missing-key", run.Start.Source.Where, run.Source.Path + ".start", "A second run starts without a place: two cannot both stand at the origin.", "Add `at: {east: ..., north: ..., up: ...}`.");
            if (run.Legs is [.., { To: TieInPoint tie } last])
                Use(tie.With, last.Source, "with");
        }

        foreach (var run in drawing.Runs.Where(r => r.Start.From is { } from && named.ContainsKey(from)))
        {
            var seen = new HashSet<string>(StringComparer.Ordinal);
            for (var at = run; at?.Start.From is { } from; at = drawing.Runs.FirstOrDefault(r => r.Legs.Any(l => l.To.Name == from)))
            {
                if (seen.Add(at.Name))
                    continue;
                errors.Add("runs-in-a-circle", run.Start.Source["from"], run.Source.Path + ".start", $"Run \"{run.Name}\" starts from a run that starts, in the end, from itself.", "Give one of these runs a start of its own with `to:` and `at:`.");
                break;
            }
        }

        void Use(string name, SourceRow source, string key)
        {
            if (!named.ContainsKey(name))
            {
                var near = Findings.Nearest.To(name, named.Keys);
                errors.Add("unknown-name", source[key], source.Path, $"No tee, outlet or stub-in is named \"{name}\".",
                    near is not null ? $"Did you mean \"{near}\"?" : named.Count > 0 ? $"The names are: {string.Join(", ", named.Keys)}." : "Add `name:` to the leg where the branch stands.",
                    ReadingErrors.Spelling(source[key], name, Findings.Nearest.OnlyTo(name, named.Keys)));
            }
            else if (!taken.TryAdd(name, source.Path))
            {
                errors.Add("name-twice", source[key], source.Path, $"The free end of \"{name}\" is already taken, at {taken[name]}.", "A free end takes one run.");
            }
        }
    }
}
