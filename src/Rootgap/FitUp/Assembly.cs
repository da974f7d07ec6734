using System.Collections.Immutable;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What hangs together at one moment: one part as it was picked up, or parts that are tacked to each other. As drawn; plant axes, mm, kg.</summary>
public sealed record Assembly
{
    /// <summary>Nothing: what a weld brings whose two sides hang together already.</summary>
    public static readonly Assembly None = Of([]);

    private Assembly()
    {
    }

    /// <summary>Its parts, along the line.</summary>
    public required ImmutableArray<FitPart> Parts { get; init; }

    /// <summary>kg; at least, where <see cref="Unknown"/> names parts.</summary>
    public required double Mass { get; init; }

    /// <summary>Ids of the parts whose mass nobody knows.</summary>
    public required IReadOnlyList<string> Unknown { get; init; }

    /// <summary>Centre of mass of the parts whose mass is known; the middle of the parts' centres where none is.</summary>
    public required Point Centre { get; init; }

    /// <summary>Its parts' ids in a row: two assemblies of the same parts are the same.</summary>
    public required string Key { get; init; }

    public bool Equals(Assembly? other) => other is not null && other.Key == Key;

    public override int GetHashCode() => string.GetHashCode(Key, StringComparison.Ordinal);

    public required bool HasPipe { get; init; }

    public bool IsSingle => Parts.Length == 1;

    /// <summary>Its parts as they are called in the shop: "2-B C3".</summary>
    public string Label => string.Join(' ', Parts.Select(p => p.Label));

    public bool Contains(string id)
    {
        foreach (var part in Parts)
        {
            if (part.Id == id)
                return true;
        }

        return false;
    }

    public static Assembly Of(IEnumerable<FitPart> parts)
    {
        var all = parts.OrderBy(p => p.Order).ToList();
        var mass = 0.0;
        Vector moment = Vector.Zero, middle = Vector.Zero;
        foreach (var part in all)
        {
            mass += part.Mass ?? 0;
            moment += (part.Centre - Point.Origin) * (part.Mass ?? 0);
            middle += part.Centre - Point.Origin;
        }

        return new()
        {
            Parts = [.. all],
            HasPipe = all.Exists(p => p.IsPipe),
            Key = string.Join(' ', all.Select(p => p.Id)),
            Mass = mass,
            Unknown = [.. all.Where(p => p.Mass is null).Select(p => p.Id)],
            Centre = mass > 0 ? Point.Origin + (moment / mass) : all.Count > 0 ? Point.Origin + (middle / all.Count) : Point.Origin,
        };
    }

    public Assembly With(Assembly other) => Of([.. Parts, .. other.Parts]);
}
