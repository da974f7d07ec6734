namespace Rootgap.Sheets;

/// <summary>How much work an isometric is worth.</summary>
/// <param name="Trials">Most lengths of legs that are tried while lines are brought away from each other.</param>
/// <param name="Again">How often labels that stand badly look for a better place.</param>
public sealed record Effort(int Trials, int Again)
{
    /// <summary>For paper, and for the screen when nobody types.</summary>
    public static readonly Effort Full = new(1500, 2);

    /// <summary>For the screen while somebody types: the same picture, where it is not crowded.</summary>
    public static readonly Effort Live = new(120, 0);
}
