using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A union (MSS SP-83): a joint that can be undone, in a socket-weld or threaded line. Its length is the maker's.</summary>
public sealed record Union : InLine
{
    /// <summary>A union's nut against its pipe: for pictures only.</summary>
    private const double Nut = 1.9;

    public override bool IsWafer => false;

    public override string RatingClass => Line.FittingClass;

    public override string Word => "union";

    public override string Name => Ends == FittingEnds.Threaded ? "TH union" : "SW union";

    public override string DrawnAs => Name;

    public override Ware Ware => Ware.Union;

    public override IsometricSign Sign => IsometricSign.Box;

    public override IReadOnlyList<Solid> Picture => Path <= Tolerance.Noise || Outside <= 0
        ? Bodies
        : [.. Solid.Turned(In.At, -In.Face, (0, Outside * 0.65), (Path * 0.3, Outside * 0.65), (Path * 0.3, Outside * Nut / 2), (Path * 0.75, Outside * Nut / 2), (Path * 0.75, Outside * 0.65), (Path, Outside * 0.65))];

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Ends);

    internal override int? Fits(MaterialItem row) => ItemSearch.Ends(row, Ends) + ItemSearch.ForgedClass(row, this, Ends);

    internal static Station Station(StationMaking make, Situation s, UnionPoint p)
    {
        var union = make.Sized(s, new Union
        {
            Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Stated = p.Mass is { } kg ? new(kg, Origin.Drawing) : null,
            Ends = s.Line.Ends == FittingEnds.Threaded ? FittingEnds.Threaded : FittingEnds.Socket,
        });
        var item = make.Item(s, union, out var stated);
        return union.Made(make, s, HoleOrientation.Straddle, make.Measured(item, new("half of the union", -p.FaceToFace / 2, Origin.Drawing)), item, stated);
    }
}
