using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>An integrally reinforced branch outlet, set on a header that goes through (MSS SP-97).</summary>
public sealed record Outlet : Component
{
    private const double Share = 2;

    /// <summary>How it takes the branch's pipe.</summary>
    public required FittingEnds Ends { get; init; }

    /// <summary>Where it stands on its header.</summary>
    public Port Foot => Of(PortName.Weld);

    public Port Branch => Of(PortName.Branch);

    public override string Word => "outlet";

    /// <summary>A half coupling, and no outlet shaped to its header.</summary>
    public bool IsHalfCoupling => ((OutletPoint)Drawn).IsHalfCoupling;

    public override string Name => IsHalfCoupling ? (Ends == FittingEnds.Threaded ? "TH half coupling" : "SW half coupling") : Ends switch { FittingEnds.Socket => "outlet socket", FittingEnds.Threaded => "outlet threaded", _ => "outlet butt" };

    public override Ware Ware => IsHalfCoupling ? Ware.HalfCoupling : Ware.Outlet;

    public override string RatingClass => Ends is FittingEnds.Socket or FittingEnds.Threaded ? Line.FittingClass : "";

    public override bool IsTwoWalled => true;

    public override bool ShowsClock => true;

    public override bool LiesAlongLine => false;

    public override MadeTo MadeTo => MadeTo.Nothing;

    public override IsometricSign Sign => IsometricSign.Outlet;

    private double Height => Foot.At.To(Branch.At);

    public override IReadOnlyList<Solid> Bodies => Outside > 0 && Height > Tolerance.Noise ? [Solid.Cylinder(Foot.At, Branch.At, Outside / 2) with { IsSetOn = true }] : [];

    /// <summary>Wider at its foot; no standard gives the shape.</summary>
    public override IReadOnlyList<Solid> Picture =>
        [.. Solid.Turned(Foot.At, Branch.Face, (0, Outside * 0.725), (Height * 0.75, Outside * 0.575), (Height, Outside * 0.5)).Select(b => b with { IsSetOn = true })];

    public override Mass? Mass => new(PerLength * Path * Share, TwiceTheTube);

    private static readonly Origin TwiceTheTube = new Origin.Rule("estimate: twice the branch's tube");

    public override Point Centre => Foot.At.Toward(Branch.At, 0.5);

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Ends);

    /// <summary>Lists write the branch first or the header first: 2 x 12, 12 x 2.</summary>
    internal override bool IsListedIn(MaterialItem row) => row.Size == Size || IsHeaderFirst(row);

    private bool IsHeaderFirst(MaterialItem row) => row.Size == Size2 && row.Size2 == Size;

    internal override int? Fits(MaterialItem row) =>
        ItemSearch.Ends(row, Ends) + (row.Size2.IsNone ? 0 : ItemSearch.Weigh(row.Size2 == Size2 || IsHeaderFirst(row), 4)) + ItemSearch.ForgedClass(row, this, Ends);

    internal static Station Station(StationMaking make, Situation s, OutletPoint p)
    {
        StubIn.CheckSize(make, s, p.Size);
        var (outside, wall) = make.Tube(s, p.Size, p.Ends == FittingEnds.Butt);
        var outlet = new Outlet { Size = p.Size, Size2 = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Ends = p.Ends, Outside = outside, Wall = wall };
        var item = make.Item(s, outlet, out var stated);
        var lean = Lean.Of(s.Direction, p.Branch);
        var half = make.HalfHeader(s, lean);
        var gap = make.Shop.OutletGap > 0 ? new Term[] { new("outlet gap", -lean.Along(make.Shop.OutletGap), Origin.ShopRule) } : [];
        var foot = half.Mm + gap.Sum(t => t.Mm);
        if (!lean.IsSquare && p.Height is null)
            make.Stop(s, "not-in-the-standard", "branch", "MSS SP-97 and ASME B16.11 give heights for outlets that stand square on their header.", "Add `height:` from the maker's sheet: from the header's outside to the outlet's end, along the branch.");
        var height = make.Measured(item, p.Height is { } own ? new("outlet height", -own, Origin.Drawing) : !lean.IsSquare ? new("outlet height", 0, Origin.NotKnown) : (p.Ends, p.IsHalfCoupling) switch
        {
            (FittingEnds.Socket, true) => make.Book.Term(s.Source, "half coupling, to the bottom of its socket", Standards.Forged.SocketHalfCoupling, p.Size, @class: s.Line.FittingClass),
            (_, true) => make.Book.Term(s.Source, "half coupling", Standards.Forged.ThreadedHalfCoupling, p.Size, @class: s.Line.FittingClass),
            (FittingEnds.Socket, _) => make.Book.Term(s.Source, "outlet height", Outlets.SocketHeight, p.Size, @class: s.Line.FittingClass),
            (FittingEnds.Threaded, _) => make.Book.Term(s.Source, "outlet height", Outlets.ThreadedHeight, p.Size, @class: s.Line.FittingClass),
            _ => make.Book.Term(s.Source, "outlet height", Outlets.ButtHeight, p.Size, schedule: WeightOf(make, s, p.Size)),
        });
        var branch = p.Ends switch
        {
            FittingEnds.Socket => make.Book.Socket(p.IsHalfCoupling ? [half, .. gap, height] : [half, .. gap, height, make.IntoSocket(s, p.Size)]),
            FittingEnds.Threaded => make.Book.Threaded(s.Source, p.Size, [half, .. gap, height]),
            _ => new(EndKind.Butt, [half, .. gap, height]),
        };
        // The table measures a half coupling to the bottom of its socket; its own end is a socket's depth farther.
        var end = -height.Mm + (p is { IsHalfCoupling: true, Ends: FittingEnds.Socket } ? make.SocketDepth(s, p.Size).Mm : 0);
        return Routes.Station.Plain(s, EndKind.Passing) with
        {
            Branch = branch,
            BranchPart = 0,
            BranchSize = p.Size,
            Parts =
            [
                outlet with
                {
                    Ways = [new(PortName.Weld, Way.Branch, -foot, outside, outlet.Inside, -1), new(PortName.Branch, Way.Branch, -foot + end, outside, outlet.Inside)],
                },
            ],
            Items = [item],
            IsItemStated = stated,
        };
    }

    /// <summary>The outlet's weight class for the branch pipe's wall: up to standard wall STD, above it XS, above that 160 (MSS SP-97).</summary>
    private static string WeightOf(StationMaking make, Situation s, NominalSize size)
    {
        var wall = make.Book.Wall(s.Source, size, s.Line.Schedule);
        foreach (var weight in new[] { "STD", "XS" })
        {
            if (make.Book.Try(PipeTable.Wall, size, schedule: weight) is { } limit && wall <= limit + 0.01)
                return weight;
        }

        return "160";
    }
}
