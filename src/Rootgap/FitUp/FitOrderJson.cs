using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>An order of work as JSON: what <c>fit-order --json</c> prints, and <c>fit --after</c> reads.</summary>
public static class FitOrderJson
{
    /// <summary>The orders of work of some spools.</summary>
    /// <param name="isPlanned">They are the planner's, nobody's own.</param>
    public static void Write(Utf8JsonWriter json, IReadOnlyList<(Spool Spool, FitSpool Fit, IReadOnlyList<FitStep> Steps)> plans, bool isBuildable, bool isPlanned = true)
    {
        json.WriteStartObject();
        json.WriteBoolean("buildable", isBuildable);
        json.WriteStartArray("spools");
        foreach (var (spool, fit, steps) in plans)
        {
            json.WriteStartObject();
            json.WriteString("spool", spool.Name);
            json.WriteNumber("turn-overs", steps.Sum(s => s.TurnOvers));
            json.WriteBoolean("all orders compared", isPlanned && FitOrder.LooksAtAll(fit));
            json.WriteStartArray("steps");
            foreach (var card in FitWork.Cards(fit, steps))
                Step(json, card);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Step(Utf8JsonWriter json, FitCard card)
    {
        var (s, setUp) = (card.Step, card.Step.SetUp);
        json.WriteStartObject();
        json.WriteNumber("number", s.Number);
        json.WriteString("joint", s.Joint.Name);
        json.WriteString("held", s.Joint.Held.Id);
        json.WriteString("new", s.Joint.New.Id);
        json.WriteString("set-up", setUp.Word);
        json.WriteNumber("turn-overs", s.TurnOvers);
        json.WriteBoolean("can roll", s.CanRoll);
        FitJson.Number(json, "lift", s.Lift);
        Side(json, "held assembly", s.Joint.HeldSide);
        Side(json, "brought assembly", s.Joint.Brought);
        Standing(json, setUp);
        json.WriteStartArray("reads");
        foreach (var target in card.Targets)
            json.WriteStringValue(target.Reading.Short);
        json.WriteEndArray();
        if (setUp.Cautions.Count > 0)
            FitJson.Strings(json, "cautions", setUp.Cautions);
        if (s.InTheWay.Count > 0)
            FitJson.Strings(json, "in the way", s.InTheWay);
        json.WriteEndObject();
    }

    private static void Side(Utf8JsonWriter json, string name, Assembly assembly)
    {
        json.WriteStartObject(name);
        FitJson.Strings(json, "parts", assembly.Parts.Select(p => p.Id));
        FitJson.Number(json, "mass", assembly.Mass);
        if (assembly.Unknown.Count > 0)
            FitJson.Strings(json, "unknown", assembly.Unknown);
        if (assembly.Mass > 0)
            FitJson.Place(json, "centre", assembly.Centre - Point.Origin);
        json.WriteEndObject();
    }

    /// <summary>How it stands: which way up, on what, and whether it keeps still.</summary>
    internal static void Standing(Utf8JsonWriter json, SetUp setUp)
    {
        FitJson.Place(json, "up", setUp.Up);
        if (setUp.StandHeight > 0)
            FitJson.Number(json, "stand height", setUp.StandHeight);
        json.WriteStartArray("stands");
        foreach (var stand in setUp.Stands)
        {
            json.WriteStartObject();
            json.WriteString("part", stand.Part);
            FitJson.Place(json, "at", stand.At - Point.Origin);
            if (stand.Before is { } before)
                FitJson.Number(json, "before", before);
            if (stand.After is { } after)
                FitJson.Number(json, "after", after);
            if (stand.Word.Length > 0)
                json.WriteString("kind", stand.Word);
            if (stand.MomentBefore is { } momentBefore)
                FitJson.Number(json, "moment before", momentBefore);
            if (stand.MomentAfter is { } momentAfter)
                FitJson.Number(json, "moment after", momentAfter);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (setUp.Rolling is not { } roll)
            return;
        json.WriteStartObject("roll");
        FitJson.Number(json, "before", roll.Before);
        FitJson.Number(json, "after", roll.After);
        json.WriteBoolean("steady", roll.IsSteady);
        FitJson.Number(json, "moment", roll.Moment);
        if (roll.KeptBy.Length > 0)
            json.WriteString("kept by", roll.KeptBy);
        json.WriteEndObject();
    }

    /// <summary>The steps of an order file up to a joint, that joint's own step the last.</summary>
    /// <returns>The steps, or what is wrong with the file.</returns>
    public static (IReadOnlyList<FitStep>? Steps, string Wrong) Read(string text, FitSpool spool, string joint)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(text);
        }
        catch (JsonException e)
        {
            return (null, $"it is no JSON: {e.Message}");
        }

        using (document)
        {
            try
            {
                if (Spools(document.RootElement).FirstOrDefault(s => Steps(s).Any(t => Text(t, "joint") == joint)) is not { ValueKind: JsonValueKind.Object } own)
                    return (null, $"no step of it is {joint}.");
                return Rebuilt(own, spool, joint);
            }
            catch (Exception e) when (e is KeyNotFoundException or InvalidOperationException or FormatException)
            {
                return (null, $"it is not what `fit-order --json` prints: {e.Message}");
            }
        }
    }

    // The whole answer, one spool of it, or the steps alone.
    private static JsonElement[] Spools(JsonElement root) =>
        root.ValueKind == JsonValueKind.Object && root.TryGetProperty("spools", out var spools) ? [.. spools.EnumerateArray()] : [root];

    private static JsonElement[] Steps(JsonElement spool) => [.. (spool.ValueKind == JsonValueKind.Array ? spool : spool.GetProperty("steps")).EnumerateArray()];

    private static string Text(JsonElement element, string name) => element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString()! : "";

    private static (IReadOnlyList<FitStep>? Steps, string Wrong) Rebuilt(JsonElement own, FitSpool spool, string joint)
    {
        List<FitStep> steps = [];
        var construction = spool.Begin();
        foreach (var element in Steps(own))
        {
            var name = Text(element, "joint");
            if (spool.Welds.FirstOrDefault(w => w.Id == name) is not { } weld)
                return (null, $"{name} is no weld of spool {spool.Spool.Name}.");
            if (construction.Made.Contains(name))
                return (null, $"{name} stands in it twice.");
            var held = Text(element, "held");
            if (!weld.Between.Contains(held))
                return (null, $"{name} does not join {held}.");
            var (heldSide, other) = (construction.Of(held), construction.Of(weld.Between[0] == held ? weld.Between[1] : weld.Between[0]));
            var fit = spool.Fitting.Of(weld, spool.Fitting.Part(held), heldSide, heldSide == other ? Assembly.None : other, _ => Motion.None);
            if (SetUp.Parse(Text(element, "set-up")) is not var (attitude, roll))
                return (null, $"{name} has the set-up \"{Text(element, "set-up")}\", which is none.");
            var setUp = SetUpOf(element, spool, fit, attitude, roll);
            if (setUp is null)
                return (null, $"at {name} nothing says what it stands on.");
            steps.Add(new(steps.Count + 1, weld, fit, setUp, element.TryGetProperty("turn-overs", out var turns) ? turns.GetInt32() : 0, element.TryGetProperty("can roll", out var rolls) && rolls.GetBoolean(), []));
            if (name == joint)
                return (steps, "");
            construction = construction.Join(new StandingJoint(fit, setUp), setUp.Base, PoseError.None);
        }

        return (null, $"no step of it is {joint}.");
    }

    private static SetUp? SetUpOf(JsonElement element, FitSpool spool, FitJoint fit, Attitude attitude, double roll)
    {
        List<FitStand> stands = [];
        foreach (var stand in element.GetProperty("stands").EnumerateArray())
        {
            var part = Text(stand, "part");
            if (!fit.Both.Contains(part))
                return null;
            var at = Point.Origin + VectorOf(stand.GetProperty("at"));
            var kind = Text(stand, "kind") switch
            {
                "third" => SupportKind.Third,
                "tie-down" => SupportKind.TieDown,
                "base" => SupportKind.Base,
                "tie-back" => SupportKind.TieBack,
                "clamp" => SupportKind.Clamp,
                _ => SupportKind.Stand,
            };
            var (along, end) = StandLine.Found(spool.Fitting.Part(part), at);
            stands.Add(new(kind, part, at, Number(stand, "before"), Number(stand, "after"), along, end) { MomentBefore = Number(stand, "moment before"), MomentAfter = Number(stand, "moment after") });
        }

        if (stands.Count == 0)
            return null;
        var up = VectorOf(element.GetProperty("up")).Unit;
        var height = Number(element, "stand height") ?? 0;
        var first = spool.Fitting.Part(stands[0].Part);
        var floor = stands[0].Kind == SupportKind.Stand ? stands[0].At - (up * ((first.Outside / 2) + height)) : stands[0].At;
        return new(attitude, roll, up, floor, stands, []) { StandHeight = height };
    }

    private static double? Number(JsonElement element, string name) => element.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;

    private static Vector VectorOf(JsonElement e) => new(e.GetProperty("east").GetDouble(), e.GetProperty("north").GetDouble(), e.GetProperty("up").GetDouble());
}
