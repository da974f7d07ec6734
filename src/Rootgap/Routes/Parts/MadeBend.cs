using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A bend that the shop makes of the line's own pipe, with a straight end on each side where the pipe before and behind is welded on: pulled round, or welded together of mitred pieces.</summary>
public sealed record MadeBend : Bent
{
    private MadeBendRow Row => ((ElbowPoint)Drawn).Bend!;

    /// <summary>Mitre welds in it; 0 where the pipe is pulled.</summary>
    public int Cuts => Row.Cuts;

    public bool IsMitred => Cuts > 0;

    /// <summary>Straight length at each end, mm.</summary>
    public double Straight => Row.Straight;

    /// <summary>Root gap that each mitre weld takes, mm.</summary>
    public double Gap { get; init; }

    /// <summary>Its radius lies within its own pipe: the inner side of its pieces would have no length (geometry).</summary>
    public bool IsImpossible => Radius <= Outside / 2;

    public override string Word => IsMitred ? "mitred bend" : "bend";

    public override string Name => IsMitred ? string.Create(CultureInfo.InvariantCulture, $"mitred bend, {Cuts} cuts") : "pulled bend";

    /// <summary>It is made of pipe, and the list has pipe for it.</summary>
    public override Ware Ware => Ware.Pipe;

    public override bool IsBySchedule => true;

    internal override int? Fits(MaterialItem row) => ItemSearch.Schedule(row, this)
        + (row.Material.Length > 0 && Line.Material.Length > 0 ? ItemSearch.Weigh(row.Material.Equals(Line.Material, StringComparison.OrdinalIgnoreCase), 2) : 0);

    /// <summary>Angle of each cut from square, radians: half of what the line turns at one mitre weld (ASME B31.3 304.2.3).</summary>
    public double Cut => IsMitred ? Turn / (2 * Cuts) : 0;

    /// <summary>Half the middle line of a middle piece, mm: R tan(cut).</summary>
    public double HalfPiece => Radius!.Value * Math.Tan(Cut);

    /// <summary>Length of the middle line: along the arc, or from weld to weld; straight ends included, mm.</summary>
    public override double Path => (IsMitred ? 2 * Cuts * HalfPiece : Radius!.Value * Turn) + (2 * Straight);

    /// <summary>Width of the saw cut between two mitred pieces, mm.</summary>
    public double Kerf { get; init; }

    /// <summary>What one slanted saw cut takes along the pipe, mm.</summary>
    public double KerfAlong => Kerf / Math.Cos(Cut);

    /// <summary>The pipe that it takes, mm: the mitred pieces lie head to foot in one length; each weld leaves out its gap, each cut takes the saw's width.</summary>
    public double PipeLength => Path + (Cuts * (KerfAlong - Gap));

    /// <summary>Lengths of a piece along its heel, its middle line and its throat, mm, before the gaps: a middle piece, or one of the two ends.</summary>
    public (double Heel, double Middle, double Throat) Piece(bool isEnd)
    {
        var (n, straight) = isEnd ? (1, Straight) : (2, 0);
        var (middle, more) = ((n * HalfPiece) + straight, n * Outside / 2 * Math.Tan(Cut));
        return (middle + more, middle, middle - more);
    }

    /// <summary>How far from its first end the bend begins and ends, mm along the pulled pipe: the marks for the bender.</summary>
    public (double Begin, double End) Marks => (Straight, Straight + (Radius!.Value * Turn));

    /// <summary>Corners of its middle line, its two ends included.</summary>
    private IReadOnlyList<Point> Corners
    {
        get
        {
            if (Arc is not { } arc)
                return [In.At, Out.At];
            var far = HalfPiece / Math.Sin(Cut);
            return [In.At, .. Enumerable.Range(0, Cuts).Select(i => arc.Centre + ((arc.On(Cut * ((2 * i) + 1)).At - arc.Centre).Unit * far)), Out.At];
        }
    }

    /// <summary>Where its mitre welds stand, and across which direction: the mean of the pieces on both sides.</summary>
    internal IEnumerable<(Point At, Vector Axis)> MitreWelds
    {
        get
        {
            var corners = Corners;
            for (var i = 1; i + 1 < corners.Count; i++)
                yield return (corners[i], ((corners[i] - corners[i - 1]).Unit + (corners[i + 1] - corners[i]).Unit).Unit);
        }
    }

    private IEnumerable<(Point From, Point To)> Stretches => Corners.Zip(Corners.Skip(1));

    /// <summary>Of a mitred bend its pieces, each out to the heel of its cuts.</summary>
    public override IReadOnlyList<Solid> Bodies
    {
        get
        {
            if (!IsMitred || Outside <= 0)
                return base.Bodies;
            var (corners, more) = (Corners, Outside / 2 * Math.Tan(Cut));
            var bodies = new List<Solid>();
            for (var i = 0; i + 1 < corners.Count; i++)
            {
                var along = corners[i + 1] - corners[i];
                if (along.Length <= Tolerance.Noise)
                    continue;
                var way = along.Unit;
                bodies.Add(Solid.Cylinder(i == 0 ? corners[i] : corners[i] - (way * more), i + 2 == corners.Count ? corners[i + 1] : corners[i + 1] + (way * more), Outside / 2));
            }

            return bodies;
        }
    }

    /// <summary>Its pieces as they are cut, mitre on mitre.</summary>
    public override IReadOnlyList<Solid> Picture
    {
        get
        {
            if (!IsMitred || Outside <= 0 || Corners is not { Count: > 2 } corners)
                return base.Picture;
            var mitres = MitreWelds.Select(w => w.Axis).ToList();
            var pieces = new List<Solid>();
            for (var i = 0; i + 1 < corners.Count; i++)
            {
                var way = (corners[i + 1] - corners[i]).Unit;
                var (isFirst, isLast) = (i == 0, i + 2 == corners.Count);
                pieces.Add(new Solid.Bar(corners[i], corners[i + 1], isFirst ? way : mitres[i - 1], Across(isFirst), Across(isLast)) { FarAxis = isLast ? way : mitres[i] });
            }

            return pieces;

            // A mitre is an ellipse: as wide as this in the bend's plane.
            double Across(bool isSquare) => isSquare ? Outside / 2 : Outside / 2 / Math.Cos(Cut);
        }
    }

    public override Mass? Mass => new(PerLength * Path, AlongMiddle);

    private static readonly Origin AlongMiddle = new Origin.Rule("geometry: the pipe along its middle line");

    public override Point Centre
    {
        get
        {
            if (!IsMitred)
                return base.Centre;
            var (sum, all) = (Vector.Zero, 0.0);
            foreach (var (from, to) in Stretches)
            {
                var length = from.To(to);
                sum += (from.Toward(to, 0.5) - Point.Origin) * length;
                all += length;
            }

            return all > 0 ? Point.Origin + (sum / all) : In.At;
        }
    }

    public override bool IsOtherKind(WareWords words) => false;

    internal static Station Station(StationMaking make, Situation s, ElbowPoint p, MadeBendRow row)
    {
        var turn = LineTurn.Of(make, s);
        var bend = make.Sized(s, new MadeBend { Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Turn = turn.Radians, Radius = row.Radius, Gap = make.Shop.RootGap, Kerf = make.Shop.Kerf });
        var item = make.Item(s, bend, out var stated);
        Term[] takeOff =
        [
            new(string.Create(CultureInfo.InvariantCulture, $"{(row.Cuts > 0 ? "mitred" : "pulled")} bend, {row.Radius:0.##} x tan({Angles.ToDegrees(turn.Radians):0.##}/2)"), -Tangent(row.Radius, turn.Radians), Origin.Drawing),
            .. row.Straight > 0 ? new Term[] { new("straight end of the bend", -row.Straight, Origin.Drawing) } : [],
        ];
        return turn.Station(s, bend, new(EndKind.Butt, takeOff), -takeOff.Sum(t => t.Mm), item, stated);
    }
}
