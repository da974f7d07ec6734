using System.Globalization;
using Rootgap.Cutting.Solver;

namespace Rootgap.Cutting;

/// <summary>A plain cutting-stock task as it is published: one length of bar, as many as wanted, no kerf, fewest bars.</summary>
/// <param name="Bar">Length of the bar, in the instance's own unit.</param>
/// <param name="Kinds">Lengths and how many of each are wanted.</param>
public sealed record PlainInstance(decimal Bar, IReadOnlyList<(decimal Length, int Demand)> Kinds)
{
    private const int MostKinds = 100_000;

    /// <summary>Reads the text: number of kinds, length of the bar, then a line "length demand" for each kind.</summary>
    /// <exception cref="FormatException">Says the line and what is wrong there.</exception>
    public static PlainInstance Parse(string text)
    {
        var lines = new List<(int Number, string[] Words)>();
        var number = 0;
        foreach (var line in text.Split('\n'))
        {
            number++;
            var words = line.Split((char[])[' ', '\t', '\r', ',', ';'], StringSplitOptions.RemoveEmptyEntries);
            if (words.Length > 0)
                lines.Add((number, words));
        }

        if (lines.Count < 2)
            throw new FormatException("line 1: the file has the number of kinds in its first line and the length of the bar in its second.");
        var (at, first) = lines[0];
        if (!int.TryParse(first[0], NumberStyles.None, CultureInfo.InvariantCulture, out var count) || count > MostKinds)
            throw Wrong(at, $"\"{first[0]}\" is no number of kinds (a whole number up to {MostKinds.ToString(CultureInfo.InvariantCulture)}).");
        var bar = Positive(lines[1].Number, lines[1].Words[0], "length of a bar");
        var kinds = new List<(decimal, int)>();
        foreach (var (where, words) in lines.Skip(2))
        {
            if (kinds.Count == count)
                throw Wrong(where, $"the first line says {count.ToString(CultureInfo.InvariantCulture)} kinds, and here is one more.");
            if (words.Length < 2)
                throw Wrong(where, "a kind is written as its length and how many are wanted.");
            var length = Positive(where, words[0], "length");
            if (!int.TryParse(words[1], NumberStyles.None, CultureInfo.InvariantCulture, out var demand) || demand > 1_000_000)
                throw Wrong(where, $"\"{words[1]}\" is no number of pieces (a whole number up to 1000000).");
            if (bar < length)
                throw Wrong(where, $"a piece of {length.ToString(CultureInfo.InvariantCulture)} does not fit into a bar of {bar.ToString(CultureInfo.InvariantCulture)}.");
            kinds.Add((length, demand));
        }

        return kinds.Count == count ? new(bar, kinds) : throw Wrong(number, $"the first line says {count.ToString(CultureInfo.InvariantCulture)} kinds, and there are {kinds.Count.ToString(CultureInfo.InvariantCulture)}.");
    }

    /// <summary>The fewest bars, within the time given.</summary>
    public PlainSolution Solve(TimeSpan limit, TimeProvider? clock = null, CancellationToken stop = default)
    {
        var effort = new Effort(clock, limit, stop);
        var scale = Scale();
        var problem = PackingProblem.Classic([.. Kinds.Select(k => ((long)(k.Length * scale), k.Demand))], (long)(Bar * scale));
        var result = new BarSearch(problem, effort).Run();
        var patterns = result.Best!.Bars
            .GroupBy(b => string.Join(',', b.Pattern.Kinds.Zip(b.Pattern.Counts, (k, c) => string.Create(CultureInfo.InvariantCulture, $"{k}x{c}"))), StringComparer.Ordinal)
            .Select(g => (Count: g.Sum(b => b.Times), g.First().Pattern))
            .OrderByDescending(p => p.Count).ThenBy(p => p.Pattern.Kinds[0])
            .Select(p => new PlainPattern(p.Count, [.. p.Pattern.Kinds.Zip(p.Pattern.Counts, (k, c) => (problem.Length[k] / scale, c))]))
            .ToList();
        var bars = patterns.Sum(p => p.Count);
        return new PlainSolution(bars, result.Proven ? bars : (int)result.Bound[0], result.Proven, effort.Elapsed.TotalSeconds, patterns);
    }

    // Decimals become whole numbers: the most decimals written decide.
    private decimal Scale()
    {
        var decimals = Kinds.Select(k => k.Length).Append(Bar).Max(Decimals);
        decimal scale = 1;
        for (var d = 0; d < decimals; d++)
            scale *= 10;
        return scale;
    }

    private static int Decimals(decimal value)
    {
        var n = 0;
        for (; value != decimal.Truncate(value); value *= 10)
            n++;
        return n;
    }

    private static decimal Positive(int line, string text, string what) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value) && value is > 0 and <= 1_000_000_000 && Decimals(value) <= 4
            ? value
            : throw Wrong(line, $"\"{text}\" is no {what} (a number above 0, up to 1000000000, at most 4 decimals).");

    private static FormatException Wrong(int line, string what) => new(string.Create(CultureInfo.InvariantCulture, $"line {line}: {what}"));
}

/// <summary>A plan of bars for a plain instance.</summary>
/// <param name="Bars">Bars used.</param>
/// <param name="Bound">No plan uses fewer.</param>
/// <param name="Proven">Bars and bound are equal, and the bound was proven.</param>
public sealed record PlainSolution(int Bars, int Bound, bool Proven, double Seconds, IReadOnlyList<PlainPattern> Patterns);

/// <summary>Bars cut alike: how many, and what from each.</summary>
public sealed record PlainPattern(int Count, IReadOnlyList<(decimal Length, int Count)> Cuts);
