using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A socket-weld or threaded coupling (ASME B16.11): it joins two pipes, and its work point is its middle.</summary>
public sealed record Coupling : InLine
{
    /// <summary>Outside diameter of its body, mm; null where no table has it.</summary>
    public required double? Diameter { get; init; }

    public override bool IsWafer => false;

    public override string RatingClass => Line.FittingClass;

    public override string Word => "coupling";

    public override string Name => Ends == FittingEnds.Threaded ? "TH coupling" : "SW coupling";

    public override string DrawnAs => Name;

    public override Ware Ware => Ware.Coupling;

    public override IsometricSign Sign => IsometricSign.Box;

    public override IReadOnlyList<Solid> Bodies =>
        Path > Tolerance.Noise && Outside > 0 ? [Solid.Cylinder(In.At, Out.At, Math.Max(Diameter ?? 0, Outside) / 2)] : [];

    public override Mass? Mass => ForgedBody.TubeOf(this, Diameter, Path, Density);

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Ends);

    internal override int? Fits(MaterialItem row) => ItemSearch.Ends(row, Ends) + ItemSearch.ForgedClass(row, this, Ends);

    internal static Station Station(StationMaking make, Situation s)
    {
        // A line of butt welds takes a coupling by its sockets.
        var ends = s.Line.Ends == FittingEnds.Threaded ? FittingEnds.Threaded : FittingEnds.Socket;
        var isThreaded = ends == FittingEnds.Threaded;
        var coupling = make.Sized(s, new Coupling
        {
            Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Ends = ends,
            Diameter = isThreaded ? make.Book.Try(Standards.Forged.ThreadedCouplingOutside, s.Size, @class: s.Line.FittingClass) : ForgedBody.Of(make, Standards.Forged.SocketElbow90, s).Diameter,
        });
        var item = make.Item(s, coupling, out var stated);
        var (mm, origin) = make.Book.Find(s.Source, isThreaded ? Standards.Forged.ThreadedCoupling : Standards.Forged.SocketCoupling, s.Size, @class: s.Line.FittingClass);
        var half = make.Measured(item, new(isThreaded ? "half the coupling" : "half the coupling, to the bottom of its socket", -mm / 2, origin));
        return isThreaded
            ? Joined(s, coupling, make.Book.Threaded(s.Source, s.Size, half), half.Mm, item, stated)
            : Joined(s, coupling, make.Book.Socket(half), half.Mm - make.SocketDepth(s, s.Size).Mm, item, stated);
    }
}
