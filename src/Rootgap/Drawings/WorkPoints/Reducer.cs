using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>A reducer; its work point is the far end.</summary>
/// <param name="Flat">The flat side of an eccentric one as a direction; null where none is stated.</param>
public sealed record ReducerPoint(NominalSize Size, bool IsEccentric, Vector? Flat) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("reducer", ["kind", "flat"], Read)
    {
        Ware = Ware.Reducer,
        Required = ["size"],
        Choices = [("kind", FileWords.ReducerKinds)],
    };

    internal override WorkPointKind Written => OfFile;

    internal override bool TakesSize => true;

    private static ReducerPoint? Read(Fields f)
    {
        if (!f.Has("size"))
            f.Error("missing-key", "to", "This reducer has no size.", "Add `size:`, the size from here on.");
        var eccentric = f.Word("kind", FileWords.ReducerKinds) == "eccentric";
        if (f.Has("flat") && !eccentric)
        {
            var change = f.Has("kind") ? f.Source.Replace("kind", "eccentric", "the reducer is now eccentric") is { } other ? other with { IsJudgement = true } : null : f.Source.Add("to", "kind", "eccentric", "the reducer is now eccentric");
            f.Error("key-does-not-fit", "flat", "Only an eccentric reducer has a flat side.", "Add `kind: eccentric`, or leave `flat` out.", change);
        }

        var flat = f.Flat();
        return f.Size("size") is { } size ? new(size, eccentric, flat) : null;
    }
}
