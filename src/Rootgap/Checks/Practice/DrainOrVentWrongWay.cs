using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A drain that rises or a vent that hangs.</summary>
internal sealed class DrainOrVentWrongWay : Rule
{
    private const double Plainly = 0.5;

    /// <summary>What a run climbs by at least to have a low and a high stretch, mm.</summary>
    private const double Storey = 500;

    public override string Name => "drain-or-vent-wrong-way";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A run or branch called a drain leaves its header upwards, or one called a vent downwards; a drain stands where the line is highest and nothing vents it, or a vent where it is lowest and nothing drains it; a note says drain, drip or low point, or vent or high point, of a branch that points the other way; or a run that only falls, or only rises, has its drain above its vent.";
    public override string Why => "Water leaves at the bottom and air at the top (common practice): up and down are changed over.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var pocket in Pocket.AllOf(route, 1))
        {
            var legs = route.Runs[pocket.Run].Run.Legs;
            if (pocket.HasBranch)
                continue;
            for (var l = pocket.FirstLeg; l < pocket.LastLeg; l++)
            {
                if (legs[l].To is OutletPoint { Drain.IsVent: false })
                    yield return Found(legs[l].Source, "to", "This drain stands at the highest stretch of its run, where air stays and no water.", "See whether a vent is meant.", "Air stays in the line.");
            }
        }

        foreach (var run in route.Runs)
        {
            var (lowest, highest) = (run.Points.Min(p => p.Z), run.Points.Max(p => p.Z));
            foreach (var (leg, z) in run.Run.Legs.Select((leg, i) => (leg, run.Points[i + 1].Z)))
            {
                // A line that falls along all its length has its vent somewhere on it.
                if (leg.To is OutletPoint { Drain.IsVent: true } && z <= lowest + Tolerance.Closing && highest - z > Storey && !run.Run.Legs.Where((l, i) => l.To is OutletPoint { Drain.IsVent: false } && run.Points[i + 1].Z <= z + Tolerance.Closing).Any())
                    yield return Found(leg.Source, "to", "This vent stands where its run is lowest, where water stays and no air, and nothing drains it there.", "See whether a drain is meant.", "Water stays in the line.");
            }
        }

        foreach (var run in route.Runs)
        {
            foreach (var leg in run.Run.Legs)
            {
                if (leg.To is not (OutletPoint { Drain: null } or StubInPoint or TeePoint { Branch: not null }) || leg.Note.Length == 0)
                    continue;
                var (drain, vent) = (Drains(leg.Note), Vents(leg.Note));
                if (drain == vent)
                    continue;
                var points = leg.To switch { OutletPoint o => o.Branch.Unit.Z, StubInPoint s => s.Branch.Unit.Z, TeePoint t => t.Branch!.Value.Unit.Z, _ => 0 };
                if (drain ? points > Plainly : points < -Plainly)
                    yield return Found(leg.Source, "branch", $"The note says \"{leg.Note}\", and this branch points {(drain ? "up" : "down")}.", "See the direction on the drawing.", drain ? "The line cannot be emptied." : "Air stays in the line.");
            }

            if (ChangedOver(run) is { } changed)
                yield return Found(changed.Source, "to", "This run goes one way, up or down, and its drain stands above its vent.", "See which is the drain and which the vent.", "Water stays in the line, and air.");

            if (run.Run.Start.From is not { } from || run.Directions.Count == 0)
                continue;
            var (drains, vents) = (Drains(run.Run.Name) || Drains(from), Vents(run.Run.Name) || Vents(from));
            var up = run.Directions[0].Z;
            if (drains == vents || !(drains ? up > Plainly : up < -Plainly))
                continue;
            yield return Found(run.Run.Legs[0].Source, "go", drains ? "This drain goes up from its header." : "This vent goes down from its header.", "See the direction on the drawing.", drains ? "The line cannot be emptied." : "Air stays in the line.");
        }
    }

    /// <summary>The drain of a run that never turns back in height and has its vent below it; null where there is none.</summary>
    private static Leg? ChangedOver(RunLine run)
    {
        if (run.Directions.Any(d => d.Z > Tolerance.Noise) && run.Directions.Any(d => d.Z < -Tolerance.Noise))
            return null;
        var places = run.Run.Legs.Select((leg, i) => (Leg: leg, run.Points[i + 1].Z)).ToList();
        var drains = places.FindAll(p => p.Leg.To is OutletPoint { Drain.IsVent: false });
        var vents = places.FindAll(p => p.Leg.To is OutletPoint { Drain.IsVent: true });
        return drains is [var drain] && vents is [var vent] && drain.Z > vent.Z + Tolerance.Closing ? drain.Leg : null;
    }

    private static bool Drains(string text) => IsWord(text, "drain") || IsWord(text, "drip") || text.Contains("low point", StringComparison.OrdinalIgnoreCase);

    private static bool Vents(string text) => IsWord(text, "vent") || text.Contains("high point", StringComparison.OrdinalIgnoreCase);

    /// <summary>As a word of its own: ventilation is no vent.</summary>
    private static bool IsWord(string text, string word) => text.Split(' ', '-', '_', '.').Any(w => w.Equals(word, StringComparison.OrdinalIgnoreCase) || w.Equals(word + "s", StringComparison.OrdinalIgnoreCase));
}
