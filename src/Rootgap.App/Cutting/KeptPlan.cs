using System.Text.Json;
using System.Text.Json.Nodes;
using Rootgap.App.Offline;
using Rootgap.Cutting;
using Rootgap.Records;

namespace Rootgap.App.Cutting;

/// <summary>A cutting plan as this browser keeps it for a job. What was cut before it stands in the plan itself.</summary>
/// <param name="Json">The plan, cut.json.</param>
/// <param name="Rack">Path of the rack it was made from; empty for lengths to buy.</param>
public sealed record KeptPlan(string Json, string Rack)
{
    /// <summary>Name of the file that holds what is not in cut.json.</summary>
    public const string Name = "plan-from.json";

    public CuttingPlan Plan { get; } = CuttingPlanJson.Read(Json);

    public IEnumerable<CutPosition> Pieces => Plan.Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces);

    /// <summary>What the job's facts say of this plan: pieces cut by it, pieces whose cut was taken back since, heat numbers found.</summary>
    /// <param name="cutOf">By a piece's full name its cut that counts; null where it is not cut.</param>
    public SawReport Told(Func<string, PieceCut?> cutOf) => new()
    {
        Cut = [.. Pieces.Where(p => cutOf(p.Piece.FullName) is not null).Select(p => p.Piece.FullName)],
        Spoiled = [.. Plan.Log.Good.Where(p => cutOf(p.FullName) is null).Select(p => p.FullName)],
        Heats = [.. from g in Plan.Groups
                    from b in g.Bars
                    let heat = b.Pieces.Select(p => cutOf(p.Piece.FullName)?.Heat ?? "").LastOrDefault(h => h.Length > 0)
                    where heat is not null && heat != b.Stock.Heat
                    select (b.Name, heat)],
    };

    /// <summary>What goes into <see cref="Name"/>.</summary>
    public static string Text(string rack) => new JsonObject { ["rack"] = rack }.ToJsonString();

    /// <summary>Reads a plan back; null where it was kept by a version that wrote otherwise.</summary>
    public static KeptPlan? Of(string? plan, string? beside)
    {
        if (plan is null || beside is null)
            return null;
        try
        {
            return new(plan, JsonNode.Parse(beside)?["rack"]?.GetValue<string>() ?? "");
        }
        catch (Exception e) when (e is FormatException or JsonException or InvalidOperationException)
        {
            return null;
        }
    }
}
