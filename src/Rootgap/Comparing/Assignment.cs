namespace Rootgap.Comparing;

/// <summary>The best assignment of rows to columns.</summary>
/// <remarks>Shortest augmenting paths with potentials (Kuhn 1955, Munkres 1957): rows squared times columns steps.</remarks>
internal static class Assignment
{
    /// <summary>The column of each row, so that the sum of the costs is least. There are at least as many columns as rows.</summary>
    public static int[] Of(int rows, int columns, Func<int, int, double> cost)
    {
        var (u, v) = (new double[rows + 1], new double[columns + 1]);
        var (rowOf, way) = (new int[columns + 1], new int[columns + 1]);
        for (var row = 1; row <= rows; row++)
        {
            rowOf[0] = row;
            var column = 0;
            var least = new double[columns + 1];
            Array.Fill(least, double.PositiveInfinity);
            var used = new bool[columns + 1];
            do
            {
                used[column] = true;
                var (at, next, delta) = (rowOf[column], 0, double.PositiveInfinity);
                for (var j = 1; j <= columns; j++)
                {
                    if (used[j])
                        continue;
                    var reduced = cost(at - 1, j - 1) - u[at] - v[j];
                    if (reduced < least[j])
                        (least[j], way[j]) = (reduced, column);
                    if (least[j] < delta)
                        (delta, next) = (least[j], j);
                }

                for (var j = 0; j <= columns; j++)
                {
                    if (used[j])
                    {
                        u[rowOf[j]] += delta;
                        v[j] -= delta;
                    }
                    else
                    {
                        least[j] -= delta;
                    }
                }

                column = next;
            }
            while (rowOf[column] != 0);

            for (; column != 0; column = way[column])
                rowOf[column] = rowOf[way[column]];
        }

        var columnOf = new int[rows];
        for (var j = 1; j <= columns; j++)
        {
            if (rowOf[j] > 0)
                columnOf[rowOf[j] - 1] = j - 1;
        }

        return columnOf;
    }
}
