using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>What a welder made, and how much of it was rejected. A weld of two welders counts for both.</summary>
/// <param name="Welds">Made by him, those that were repaired or cut out since among them.</param>
/// <param name="Examined">Welds of his that were examined by a method.</param>
/// <param name="Rejected">Of these, welds whose first result was a reject.</param>
/// <param name="ExaminedLength">Length of weld that was looked at, mm: the girth outside times the extent.</param>
/// <param name="RejectedLength">Length that was rejected as noted, mm.</param>
/// <param name="WithoutLength">Rejected welds for which nobody noted a length: <paramref name="RejectedLength"/> lacks them.</param>
public sealed record WelderRate(string Welder, int Welds, double DiameterInches, ExaminationMethod? Method, int Examined, int Rejected, double ExaminedLength, double RejectedLength, int WithoutLength)
{
    /// <summary>%, in welds; null where nothing was examined.</summary>
    public double? Rate => Examined > 0 ? 100.0 * Rejected / Examined : null;

    /// <summary>%, in length; null where nothing was examined.</summary>
    public double? LengthRate => ExaminedLength > 0 ? 100 * RejectedLength / ExaminedLength : null;

    /// <summary>By welder, then by method; one row without a method for whoever had nothing examined.</summary>
    public static IReadOnlyList<WelderRate> Of(IEnumerable<WeldHistory> welds)
    {
        var made = welds.Where(w => w.IsMade).SelectMany(w => (w.Welders.Count > 0 ? w.Welders : [Lot.NoStamp]).Select(s => (Stamp: s, Weld: w)))
            .GroupBy(w => w.Stamp, StringComparer.OrdinalIgnoreCase).OrderBy(g => g.Key, StringComparer.Ordinal);
        List<WelderRate> rates = [];
        foreach (var his in made)
        {
            var count = his.Count();
            var inches = his.Sum(w => w.Weld.DiameterInches);
            var methods = his.SelectMany(w => w.Weld.Examinations.Select(e => e.Method)).Distinct().Order().ToList();
            if (methods.Count == 0)
                rates.Add(new(his.Key, count, inches, null, 0, 0, 0, 0, 0));
            foreach (var method in methods)
            {
                var firsts = his.Select(w => (w.Weld, First: w.Weld.Examinations.FirstOrDefault(e => e.Method == method))).Where(w => w.First is not null).ToList();
                var bad = firsts.Where(w => !w.First!.IsAccepted).ToList();
                rates.Add(new(his.Key, count, inches, method, firsts.Count, bad.Count,
                    firsts.Sum(w => w.First!.Extent / 100 * Math.PI * w.Weld.Outside), bad.Sum(w => w.First!.RejectedLength ?? 0), bad.Count(w => w.First!.RejectedLength is null)));
            }
        }

        return rates;
    }
}
