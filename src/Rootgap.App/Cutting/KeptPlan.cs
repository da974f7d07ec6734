using System.Text.Json;
using System.Text.Json.Nodes;
using Rootgap.App.Offline;
using Rootgap.Cutting;
using Rootgap.Records;

namespace Rootgap.App.Cutting;

/// <summary>A cutting plan as this browser keeps it for a job, with the plans before it that were cut in part.</summary>
/// <param name="Json">The plan, cut.json.</param>
/// <param name="Rack">Path of the rack it was made from; empty for lengths to buy.</param>
/// <param name="Before">Earlier plans, the first first, each with the pieces that were cut by it when the next was made.</param>
public sealed record KeptPlan(string Json, string Rack, IReadOnlyList<(string Plan, IReadOnlyList<string> Cut)> Before)
{
    /// <summary>Name of the file that holds what is not in cut.json.</summary>
    public const string Name = "plan-before.json";

    public CuttingPlan Plan { get; } = CuttingPlanJson.Read(Json);

    public IEnumerable<CutPosition> Pieces => Plan.Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces);

    /// <summary>The plan whose rests are gone on from: this one and those before it, with what is cut by now.</summary>
    public IReadOnlyList<(string Plan, IReadOnlyList<string> Cut)> With(IReadOnlyList<string> cut) => [.. Before, (Json, cut)];

    /// <summary>What goes into <see cref="Name"/>.</summary>
    public static string Text(string rack, IReadOnlyList<(string Plan, IReadOnlyList<string> Cut)> before) => new JsonObject
    {
        ["rack"] = rack,
        ["before"] = new JsonArray([.. before.Select(b => (JsonNode)new JsonObject
        {
            ["plan"] = b.Plan,
            ["cut"] = new JsonArray([.. b.Cut.Select(c => (JsonNode)JsonValue.Create(c))]),
        })]),
    }.ToJsonString();

    /// <summary>Reads a plan back; null where it was kept by a version that wrote otherwise.</summary>
    public static KeptPlan? Of(string? plan, string? beside)
    {
        if (plan is null)
            return null;
        try
        {
            var root = beside is null ? null : JsonNode.Parse(beside);
            return new(plan, root?["rack"]?.GetValue<string>() ?? "",
                [.. (root?["before"]?.AsArray() ?? []).Select(b => (b!["plan"]!.GetValue<string>(), (IReadOnlyList<string>)[.. b["cut"]!.AsArray().Select(c => c!.GetValue<string>())]))]);
        }
        catch (Exception e) when (e is FormatException or JsonException or InvalidOperationException or NullReferenceException)
        {
            return null;
        }
    }
}
