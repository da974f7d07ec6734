using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>An elbow: butt-welding by ASME B16.9, cut from the next larger stock elbow where the turn is odd, or forged by ASME B16.11.</summary>
public sealed record Elbow : Bent
{
    public required ElbowRadius Style { get; init; }

    /// <summary>Turn of the stock elbow, degrees: 90 or 45.</summary>
    public required int Stock { get; init; }

    public bool IsCutFromStock { get; init; }

    /// <summary>Its table where it is forged; null for a butt-welding elbow.</summary>
    public ForgedBody? Forged { get; init; }

    public override bool IsCut => IsCutFromStock;

    public override string Word => "elbow";

    public override string Name => Forged?.Table.Item ?? string.Create(CultureInfo.InvariantCulture, $"elbow {Stock} {StyleWord}");

    private string StyleWord => Style switch
    {
        ElbowRadius.Short => "SR",
        ElbowRadius.ThreeD => "3D",
        ElbowRadius.Long => "LR",
        _ => throw new InvalidOperationException("A pipe bent to five nominal sizes is a bend."),
    };

    public override Ware Ware => Ware.Elbow;

    public override string RatingClass => Forged is null ? "" : Line.FittingClass;

    public override bool IsBySchedule => true;

    public override Mass? Mass => Forged is { } body ? body.MassOf(this, Density) ?? base.Mass : base.Mass;

    public override bool IsOtherKind(WareWords words) =>
        words.EndsDiffer(Line.Ends) || (words.Angle is { } listed && listed != Stock) || (Forged is null ? (words.Radius ?? ElbowRadius.Long) != Style : words.Radius is not null);

    internal override int? Fits(MaterialItem row)
    {
        var words = row.Words;
        if (words.Angle is { } angle && angle != Stock)
            return null;
        return ItemSearch.Weigh((words.Radius ?? ElbowRadius.Long) == Style, 8) + (words.Angle is null ? 0 : 4)
            + ItemSearch.Ends(row, Line.Ends) + ItemSearch.ForgedClass(row, this, Line.Ends) + ItemSearch.Schedule(row, this);
    }

    private static (Dimension Full, Dimension? Half) TableOf(ElbowRadius style) => style switch
    {
        ElbowRadius.Short => (ButtWeld.Elbow90Short, null),
        ElbowRadius.ThreeD => (ButtWeld.Elbow90ThreeD, ButtWeld.Elbow45ThreeD),
        ElbowRadius.Long => (ButtWeld.Elbow90Long, ButtWeld.Elbow45Long),
        _ => throw new InvalidOperationException("A pipe bent to five nominal sizes is a bend."),
    };

    internal static Station Station(StationMaking make, Situation s, ElbowPoint p)
    {
        var turn = LineTurn.Of(make, s);
        if (s.Line.Ends != FittingEnds.Butt)
            return ForgedStation(make, s, turn);
        if (p.Radius == ElbowRadius.FiveD)
            return Bend.Station(make, s, turn);
        var (full, half) = TableOf(p.Radius);
        var isHalf = half is not null && (turn.Is45 || turn.Radians < Math.PI / 4);
        var isStock = turn.Is90 || (turn.Is45 && isHalf);
        var (radius, origin) = make.Book.Find(s.Source, full, s.Size);
        var elbow = make.Sized(s, new Elbow
        {
            Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Style = p.Radius, Stock = isHalf ? 45 : 90, IsCutFromStock = !isStock, Turn = turn.Radians, Radius = radius,
        });
        var item = make.Item(s, elbow, out var stated);
        var takeOff = turn.Is90 ? new Term("elbow take-off", -radius, origin)
            : isStock ? make.Book.Term(s.Source, "elbow take-off", half!, s.Size)
            : CutTerm(radius, turn.Radians, origin);
        if (isStock)
            takeOff = make.Measured(item, takeOff);
        return turn.Station(s, elbow, new(EndKind.Butt, [takeOff]), -takeOff.Mm, item, stated);
    }

    internal static Term CutTerm(double radius, double turn, Origin origin) => new(
        string.Create(CultureInfo.InvariantCulture, $"cut elbow take-off, {radius:0.0#} x tan({Angles.ToDegrees(turn):0.##}/2)"), -Tangent(radius, turn), origin);

    /// <summary>A socket-weld or threaded elbow: ASME B16.11 has 90 and 45 only, and they cannot be cut.</summary>
    private static Station ForgedStation(StationMaking make, Situation s, LineTurn turn)
    {
        var is45 = turn.Forged(make, s);
        var isSocket = s.Line.Ends == FittingEnds.Socket;
        var table = (isSocket, is45) switch
        {
            (true, true) => Standards.Forged.SocketElbow45,
            (true, false) => Standards.Forged.SocketElbow90,
            (false, true) => Standards.Forged.ThreadedElbow45,
            (false, false) => Standards.Forged.ThreadedElbow90,
        };
        var elbow = make.Sized(s, new Elbow
        {
            Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Style = ElbowRadius.Long, Stock = is45 ? 45 : 90, Turn = turn.Radians, Forged = ForgedBody.Of(make, table, s),
        });
        var item = make.Item(s, elbow, out var stated);
        var (end, face) = ForgedBody.End(make, s, table, item, s.Size);
        return turn.Station(s, elbow, end, face, item, stated);
    }
}
