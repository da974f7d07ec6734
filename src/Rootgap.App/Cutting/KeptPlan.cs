using System.Text.Json;
using System.Text.Json.Nodes;
using Rootgap.App.Offline;
using Rootgap.Cutting;
using Rootgap.Records;

namespace Rootgap.App.Cutting;

/// <summary>A cutting plan as this browser keeps it for a job. What was cut before it stands in the plan itself, what was cut by it in the job's facts.</summary>
/// <param name="Json">The plan, cut.json.</param>
/// <param name="Rack">Path of the rack it was made from; empty for lengths to buy.</param>
/// <param name="Instead">Bars that were taken in another's place: the planned one's mark, and that of the one taken.</param>
public sealed record KeptPlan(string Json, string Rack, IReadOnlyDictionary<string, string> Instead)
{
    /// <summary>Name of the file that holds what is not in cut.json.</summary>
    public const string Name = "plan-from.json";

    public CuttingPlan Plan { get; } = CuttingPlanJson.Read(Json);

    public IEnumerable<CutBar> Bars => Plan.Groups.SelectMany(g => g.Bars);

    public IEnumerable<CutPosition> Pieces => Bars.SelectMany(b => b.Pieces);

    /// <summary>Where a planned cut is made: on the planned bar, or the one that was taken in its place.</summary>
    public CutFrom From(CutBar bar, CutPosition position)
    {
        var (name, begun) = SteelOf(bar);
        return new(Rack, name, begun + position.To);
    }

    /// <summary>The bar that a planned bar's pieces are really cut from, and where on it the plan's places begin.</summary>
    public (string Bar, double Begun) SteelOf(CutBar bar) => Instead.TryGetValue(bar.Name, out var taken) ? (taken, 0) : Plan.SteelOf(bar);

    /// <summary>What has come to pass since that makes the plan no good any more for what is not cut yet, in words; empty while it is good.</summary>
    /// <param name="now">What is told of the saw up to now.</param>
    /// <param name="isDone">Whether a planned piece came off the saw, good or not.</param>
    /// <param name="isSpoiled">Whether it was spoiled.</param>
    public IReadOnlyList<string> Overtaken(SawLog now, Func<CutBar, CutPosition, bool> isDone, Func<CutBar, CutPosition, bool> isSpoiled)
    {
        var why = new List<string>();
        var bars = now.Bars.ToDictionary(b => b.Name, StringComparer.OrdinalIgnoreCase);
        foreach (var bar in Bars)
        {
            why.AddRange(bar.Pieces.Where(p => isSpoiled(bar, p)).Select(p => $"{p.Piece.FullName} was spoiled and is wanted again"));
            if (bar.Pieces.All(p => isDone(bar, p)))
                continue;
            var (name, begun) = SteelOf(bar);
            var told = bars.GetValueOrDefault(name);
            if (told is { IsOut: true })
                why.Add($"bar {name} is of no use");
            else if (!Instead.ContainsKey(bar.Name) && Instead.Values.Contains(name, StringComparer.OrdinalIgnoreCase))
                why.Add($"bar {name} was taken for other pieces");
            else if (told is not null && Math.Max(begun, bar.Pieces.Where(p => isDone(bar, p)).Select(p => begun + p.To).DefaultIfEmpty(0).Max()) + 0.05 < told.Gone)
                why.Add($"something else was cut from bar {name}");
            else if (told is { Heat.Length: > 0 } && bar.Pieces.Any(p => p.Piece.Heat.Length > 0 && !p.Piece.Heat.Equals(told.Heat, StringComparison.OrdinalIgnoreCase)))
                why.Add($"bar {name} is of heat {told.Heat}, and not what its pieces must be of");
        }

        return why;
    }

    /// <summary>What goes into <see cref="Name"/>.</summary>
    public static string Text(string rack, IReadOnlyDictionary<string, string> instead) => new JsonObject
    {
        ["rack"] = rack,
        ["instead"] = new JsonObject(instead.Select(i => KeyValuePair.Create(i.Key, (JsonNode?)JsonValue.Create(i.Value)))),
    }.ToJsonString();

    /// <summary>Reads a plan back; null where it was kept by a version that wrote otherwise.</summary>
    public static KeptPlan? Of(string? plan, string? beside)
    {
        if (plan is null || beside is null)
            return null;
        try
        {
            var from = JsonNode.Parse(beside);
            return new(plan, from?["rack"]?.GetValue<string>() ?? "", (from?["instead"] as JsonObject ?? []).ToDictionary(i => i.Key, i => i.Value?.GetValue<string>() ?? "", StringComparer.OrdinalIgnoreCase));
        }
        catch (Exception e) when (e is FormatException or JsonException or InvalidOperationException)
        {
            return null;
        }
    }
}
