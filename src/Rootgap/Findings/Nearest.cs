namespace Rootgap.Findings;

/// <summary>The nearest valid word to what somebody wrote.</summary>
public static class Nearest
{
    /// <summary>The candidate with the fewest typing slips from <paramref name="word"/>, or null where none is near (more than a third of the word, at least two slips).</summary>
    public static string? To(string word, IEnumerable<string> candidates)
    {
        if (word.Length > 40)
            return null;
        string? best = null;
        var fewest = Math.Max(2, word.Length / 3) + 1;
        foreach (var candidate in candidates)
        {
            var slips = Slips(word, candidate);
            if (slips < fewest)
                (best, fewest) = (candidate, slips);
        }

        return best;
    }

    /// <summary>The nearest candidate where no other is as near: what may be written into a file unasked.</summary>
    public static string? OnlyTo(string word, IReadOnlyCollection<string> candidates)
    {
        if (To(word, candidates) is not { } best)
            return null;
        var fewest = Slips(word, best);
        return candidates.Any(c => c != best && Slips(word, c) <= fewest) ? null : best;
    }

    /// <summary>Insertions, deletions, replacements and swaps of neighbours between two words, case aside (optimal string alignment).</summary>
    private static int Slips(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
            d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++)
            d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                var same = char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]);
                var cost = Math.Min(Math.Min(d[i - 1, j], d[i, j - 1]) + 1, d[i - 1, j - 1] + (same ? 0 : 1));
                if (i > 1 && j > 1 && char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 2]) && char.ToLowerInvariant(a[i - 2]) == char.ToLowerInvariant(b[j - 1]))
                    cost = Math.Min(cost, d[i - 2, j - 2] + 1);
                d[i, j] = cost;
            }
        }

        return d[a.Length, b.Length];
    }
}
