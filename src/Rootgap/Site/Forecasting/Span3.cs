using Rootgap.Measure;

namespace Rootgap.Site.Forecasting;

/// <summary>The directions that some given ones make up between them.</summary>
internal sealed class Span3
{
    /// <summary>About 3 degrees: what lies nearer is no direction of its own.</summary>
    public const double Least = 0.05;

    private readonly List<Vector> square = [];

    public int Count => square.Count;

    /// <summary>Takes a direction in; false where the others make it up already.</summary>
    public bool Add(Vector direction)
    {
        var left = Left(direction);
        if (left.Length < Least)
            return false;
        square.Add(left.Unit);
        return true;
    }

    /// <summary>The part of a unit direction that is square to all taken in.</summary>
    public Vector Left(Vector direction)
    {
        foreach (var s in square)
            direction = direction.SquareTo(s);
        return direction;
    }
}
