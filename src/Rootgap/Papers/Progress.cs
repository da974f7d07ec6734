using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>What was welded on one day (UTC), and all up to it.</summary>
/// <param name="Welds">Welds of that day; a repair is no weld more.</param>
/// <param name="Inches">Diameter-inches of that day's butt welds.</param>
public sealed record DayOfWelding(DateOnly Day, int Welds, double Inches, int WeldsSoFar, double InchesSoFar);

/// <summary>How much of the welding is done: in welds, and in diameter-inches of butt welds. Sockets and branches count as welds only.</summary>
public sealed record Progress(int Welds, int Made, double Inches, double InchesMade, double ShopInches, double ShopInchesMade, IReadOnlyList<DayOfWelding> Days)
{
    public static Progress Of(IEnumerable<WeldHistory> welds)
    {
        // What is cut out and not welded again is to be made.
        var now = welds.Where(w => w.IsNow).ToList();
        var made = now.Where(w => w.IsMade || w.Mark.Repair > 0).ToList();
        var shop = now.Where(w => w.Joint.Place == Drawings.WeldPlace.Shop).ToList();
        var first = welds.Where(w => w is { IsMade: true, Mark.Repair: 0, Welded: not null } && w.State != WeldState.CutOut)
            .GroupBy(w => DateOnly.FromDateTime(w.Made[0].Time.UtcDateTime)).OrderBy(g => g.Key);
        List<DayOfWelding> days = [];
        foreach (var day in first)
        {
            var inches = day.Sum(w => w.DiameterInches);
            days.Add(new(day.Key, day.Count(), inches, day.Count() + (days.Count > 0 ? days[^1].WeldsSoFar : 0), inches + (days.Count > 0 ? days[^1].InchesSoFar : 0)));
        }

        return new(now.Count, made.Count, now.Sum(w => w.DiameterInches), made.Sum(w => w.DiameterInches), shop.Sum(w => w.DiameterInches),
            shop.Where(made.Contains).Sum(w => w.DiameterInches), days);
    }
}
