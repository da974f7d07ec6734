using System.Text.Json;
using System.Text.Json.Serialization;

namespace Rootgap.App.FitUp;

/// <summary>What is being entered at one joint and not yet kept as a fact: lives in the browser, so that a closed tab loses nothing.</summary>
public sealed record EntryDraft
{
    /// <summary>The set-up's word; empty: as planned, or as in the readings already taken.</summary>
    public string SetUp { get; set; } = "";

    /// <summary>Id of the part held; empty: the usual one.</summary>
    public string Held { get; set; } = "";

    /// <summary>Distance of the marks, mm; null: the usual one.</summary>
    public double? Mark { get; set; }

    /// <summary>Read after welding, or while tacked; null: as what was done at the joint says.</summary>
    public bool? IsWelded { get; set; }

    /// <summary>The next reading begins a going-over of its own.</summary>
    public bool IsAnew { get; set; }

    /// <summary>Typed and not finished, by the reading's name.</summary>
    public Dictionary<string, string> Typed { get; set; } = new(StringComparer.Ordinal);

    public string Write() => JsonSerializer.Serialize(this, EntryDraftJson.Default.EntryDraft);

    public static EntryDraft Read(string? json)
    {
        try
        {
            return json is null ? new() : JsonSerializer.Deserialize(json, EntryDraftJson.Default.EntryDraft) ?? new();
        }
        catch (JsonException)
        {
            return new();
        }
    }
}

[JsonSerializable(typeof(EntryDraft))]
internal sealed partial class EntryDraftJson : JsonSerializerContext;
