namespace Rootgap.Findings;

/// <summary>A finding as it is told in a list: with those of its rule that are told in one breath with it.</summary>
/// <param name="First">The finding.</param>
/// <param name="More">Notes of the same rule elsewhere; empty where it stands alone.</param>
public sealed record Told(Finding First, IReadOnlyList<Finding> More)
{
    /// <summary>Notes of one rule from this number on are gathered: six lengths from the table are one thing to know.</summary>
    private const int Many = 4;

    /// <summary>Stops, then warnings, then notes, what is accepted last; each in the order in which it came, many notes of one rule gathered at the first.</summary>
    public static IReadOnlyList<Told> Of(IEnumerable<Finding> findings)
    {
        var list = findings.ToList();
        var gathered = list.Where(IsNote).GroupBy(f => f.Rule, StringComparer.Ordinal).Where(g => g.Count() >= Many).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        return
        [
            .. list.OrderBy(f => f.AcceptedBecause is not null ? 3 : f.Severity switch { Severity.Stop => 0, Severity.Warn => 1, Severity.Note => 2, _ => throw new InvalidOperationException("The family of severities is closed.") })
                .Where(f => !IsNote(f) || !gathered.TryGetValue(f.Rule, out var all) || ReferenceEquals(all[0], f))
                .Select(f => new Told(f, IsNote(f) && gathered.TryGetValue(f.Rule, out var all) ? all[1..] : [])),
        ];
    }

    private static bool IsNote(Finding finding) => finding.Severity == Severity.Note && finding.AcceptedBecause is null;
}
