using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A branch pipe set on its header and welded: no component of its own, the pipe itself ends on the header.</summary>
internal static class StubIn
{
    public static Station Station(StationMaking make, Situation s, StubInPoint p)
    {
        CheckSize(make, s, p.Size);
        var lean = Lean.Of(s.Direction, p.Branch);
        return Routes.Station.Plain(s, EndKind.Passing) with
        {
            Branch = new(EndKind.SetOn, [make.HalfHeader(s, lean), .. make.Shop.BranchRootGap > 0 ? new Term[] { new(lean.IsSquare ? "branch gap" : "branch gap, along the branch", -lean.Along(make.Shop.BranchRootGap), Origin.ShopRule) } : []]),
            BranchSize = p.Size,
        };
    }

    /// <summary>A branch that is set on a header is no larger than it.</summary>
    public static void CheckSize(StationMaking make, Situation s, NominalSize size)
    {
        if (size > s.Size)
            make.Stop(s, "branch-larger-than-run", "size", $"This {s.Point.Word} is NPS {size}, larger than its header, NPS {s.Size}.", "Use a tee with a reducer, or mend the size.");
    }
}
