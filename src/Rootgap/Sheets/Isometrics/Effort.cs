namespace Rootgap.Sheets;

/// <summary>How much work an isometric is worth.</summary>
/// <param name="Trials">Most lengths of legs that are tried while lines are brought away from each other.</param>
/// <param name="Again">How often labels that stand badly look for a better place.</param>
/// <param name="Marks">Whether welds, items, pieces and spools are written too, or only what the drawing itself says: dimensions, sizes, ends and levels.</param>
/// <param name="OneView">Whether it is seen as all sheets of its drawing are, with north the same way.</param>
public sealed record Effort(int Trials, int Again, bool Marks = true, bool OneView = false)
{
    /// <summary>For paper.</summary>
    public static readonly Effort Full = new(1500, 2, OneView: true);

    /// <summary>For the screen when nobody types: the page stands still while it is drawn, in a browser for ten times as long as elsewhere.</summary>
    public static readonly Effort Rest = new(400, 1);

    /// <summary>For the screen while somebody types: the same line and dimensions, without the marks of the shop.</summary>
    public static readonly Effort Live = new(120, 0, Marks: false);
}
