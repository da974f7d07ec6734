using System.Globalization;
using Rootgap.Records;

namespace Rootgap.Papers;

/// <summary>The welders' list of a job: who may weld by which procedure, until when, as whoever keeps the list says. It qualifies nobody.</summary>
public sealed class WelderList
{
    private readonly Dictionary<string, WelderNoted> byStamp;

    private WelderList(IEnumerable<WelderNoted> welders) =>
        byStamp = welders.GroupBy(w => w.Stamp.Trim(), StringComparer.OrdinalIgnoreCase).ToDictionary(g => g.Key, g => g.Last(), StringComparer.OrdinalIgnoreCase);

    /// <summary>By stamp; the last word on each.</summary>
    public IReadOnlyList<WelderNoted> Welders => [.. byStamp.Values.OrderBy(w => w.Stamp, StringComparer.OrdinalIgnoreCase)];

    /// <summary>There is no list: then nobody is held against it.</summary>
    public bool IsEmpty => byStamp.Count == 0;

    public static WelderList Of(JobRecord job) => new(job.Facts.Where(e => e.Counts).Select(e => e.Fact).OfType<WelderNoted>());

    /// <summary>What the list says of a stamp; null where it says nothing.</summary>
    public WelderNoted? Find(string stamp) => byStamp.GetValueOrDefault(stamp.Trim());

    /// <summary>Who may weld by a procedure on a day; those of whom the list names no procedure among them.</summary>
    /// <param name="procedure">Null or empty: by any.</param>
    public IEnumerable<WelderNoted> Who(string? procedure, DateOnly day) => Welders.Where(w => WhyNot(w.Stamp, procedure, day) is null);

    /// <summary>Why a stamp does not fit: "is on no welders' list", "is qualified until ..."; null where it does, or there is no list.</summary>
    public string? WhyNot(string stamp, string? procedure, DateOnly day) =>
        IsEmpty ? null
        : Find(stamp) is not { } welder ? "is on no welders' list"
        : welder.Until < day ? $"is qualified until {Day(welder.Until.Value)}, and the weld is of {Day(day)}"
        : welder.Procedures.Count > 0 && procedure is { Length: > 0 } && !welder.Procedures.Contains(procedure.Trim(), StringComparer.OrdinalIgnoreCase) ? $"is on the list for {string.Join(", ", welder.Procedures)}, not for {procedure.Trim()}"
        : null;

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
