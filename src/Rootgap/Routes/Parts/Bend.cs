using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Pipe bent to a radius of five nominal sizes; made to any turn.</summary>
public sealed record Bend : Bent
{
    private const double RadiiOf5D = 5 * LengthText.Inch;

    private static readonly Origin FiveSizes = new Origin.Rule("radius of five nominal sizes");

    public override string Word => "elbow";

    public override string Name => "bend 5D";

    public override Ware Ware => Ware.Elbow;

    public override bool IsBySchedule => true;

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Line.Ends) || words.Radius is { } listed && listed != ElbowRadius.FiveD;

    internal override int? Fits(MaterialItem row) =>
        ItemSearch.Weigh((row.Words.Radius ?? ElbowRadius.Long) == ElbowRadius.FiveD, 8) + (row.Words.Angle is null ? 0 : 4)
        + ItemSearch.Ends(row, Line.Ends) + ItemSearch.ForgedClass(row, this, Line.Ends) + ItemSearch.Schedule(row, this);

    internal static Station Station(StationMaking make, Situation s, LineTurn turn)
    {
        var radius = RadiiOf5D * s.Size.Inches;
        var bend = make.Sized(s, new Bend { Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Turn = turn.Radians, Radius = radius });
        var item = make.Item(s, bend, out var stated);
        var takeOff = make.Measured(item, turn.Is90 ? new("bend take-off", -radius, FiveSizes) : Elbow.CutTerm(radius, turn.Radians, FiveSizes));
        return turn.Station(s, bend, new(EndKind.Butt, [takeOff]), -takeOff.Mm, item, stated);
    }
}
