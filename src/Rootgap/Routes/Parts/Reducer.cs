using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A reducer by ASME B16.9 or a swage by MSS SP-95, concentric or eccentric.</summary>
public sealed record Reducer : Component
{
    /// <summary>
    /// A reducer against the tube of its large end, by the ratio of its ends: a published rule gives 1, 0.94, 0.91 and 0.89 for one to four sizes of reduction.
    /// </summary>
    private const double Base = 0.725;

    private const double Slope = 0.335;

    public bool IsEccentric { get; init; }

    /// <summary>Unit direction square to the line, from the axis to the flat side; zero for a concentric one.</summary>
    public Vector Flat { get; init; }

    public Port In => Of(PortName.RunIn);

    public Port Out => Of(PortName.RunOut);

    /// <summary>A swage, whose ends may go into sockets and threads.</summary>
    public bool IsSwage => ((ReducerPoint)Drawn).Swage is not null;

    public override string Word => IsSwage ? "swage" : "reducer";

    public override string Name => Word + (IsEccentric ? " eccentric" : " concentric");

    public override Ware Ware => IsSwage ? Ware.Swage : Ware.Reducer;

    public override bool IsBySchedule => true;

    public override bool IsTwoWalled => true;

    public override bool ShowsClock => IsEccentric;

    public override IEnumerable<Point> Measured => [In.At, Out.At];

    public override MadeTo MadeTo => MadeTo.EndToEnd;

    public override IsometricSign Sign => IsometricSign.Reducer;

    public override IReadOnlyList<Solid> Bodies => Outside > 0 && (Out.At - In.At).Dot(Out.Face) > Tolerance.Noise
        ? [new Solid.Bar(In.At, Out.At, Out.Face, In.Outside / 2, Out.Outside / 2)]
        : [];

    public override Mass? Mass => new(PerLength * Path * (Base + (Slope * Size2.Inches / Size.Inches)), Cone);

    private static readonly Origin Cone = new Origin.Rule("geometry: a tube drawn to a cone");

    /// <summary>Of a wall that goes evenly from the one end's tube to the other's: the metal at a place is as (D - t) t there.</summary>
    public override Point Centre
    {
        get
        {
            double Metal(double share)
            {
                var outside = In.Outside + ((Out.Outside - In.Outside) * share);
                var wall = (outside - (In.Bore + ((Out.Bore - In.Bore) * share))) / 2;
                return (outside - wall) * wall;
            }

            // Both are cubic at the most: Simpson's rule is exact.
            var (a, b, c) = (Metal(0), Metal(0.5), Metal(1));
            var sum = (a + (4 * b) + c) / 6;
            return In.At.Toward(Out.At, sum > 0 ? ((2 * b) + c) / 6 / sum : 0.5);
        }
    }

    public override bool IsOtherKind(WareWords words) => words.IsEccentric is { } eccentric && eccentric != IsEccentric;

    internal override int? Fits(MaterialItem row) =>
        row.Size2 != Size2 && !row.Size2.IsNone ? null : ItemSearch.Weigh((row.Words.IsEccentric ?? false) == IsEccentric, 4) + ItemSearch.Schedule(row, this);

    internal static Station Station(StationMaking make, Situation s, ReducerPoint p)
    {
        var (large, small) = p.Size > s.Size ? (p.Size, s.Size) : (s.Size, p.Size);
        var reducer = make.Sized(s, new Reducer { Size = large, Size2 = small, Line = s.Line, Drawn = p, Source = s.Source, IsEccentric = p.IsEccentric });
        var item = make.Item(s, reducer, out var stated);
        Term length;
        if (large == small)
        {
            make.Stop(s, "reducer-without-change", "size", $"This {p.Word} leaves the size at NPS {small}.", $"Give the new size, or take the {p.Word} out.");
            length = new(p.Word + " length", 0, Origin.NotKnown);
        }
        else
        {
            length = p.Length is { } given ? new(p.Word + " length", -given, Origin.Drawing)
                : make.Measured(item, p.Swage is null ? make.Book.Term(s.Source, "reducer length", ButtWeld.ReducerLength, large, small) : make.Book.Term(s.Source, "swage length", ButtWeld.SwageLength, large));
        }

        var flat = p.IsEccentric ? FlatSide(make, s, p) : Vector.Zero;
        PartEnd Of(PortName name, Way way, double along, NominalSize size)
        {
            var (outside, wall) = make.Tube(s, size, isBySchedule: true);
            return new(name, way, along, outside, Math.Max(0, outside - (2 * wall)));
        }

        // How an end is made where the drawing does not say: as the line's fittings take the pipe.
        EndKind End(NominalSize size) => p.Swage is not { } swage ? EndKind.Butt
            : ((size == large ? swage.Large : swage.Small) ?? s.Line.Ends switch { FittingEnds.Socket => SwageEnd.Plain, FittingEnds.Threaded => SwageEnd.Threaded, _ => SwageEnd.Bevel }) switch
            {
                SwageEnd.Plain => EndKind.PlainMale,
                SwageEnd.Threaded => EndKind.ThreadedMale,
                _ => EndKind.Butt,
            };

        return Routes.Station.Plain(s, EndKind.Butt) with
        {
            In = new(End(s.Size), [length]),
            InPart = 0,
            Out = new(End(p.Size), []),
            OutPart = 0,
            OutSize = p.Size,
            // The flat side goes straight on; the centreline moves by half the difference of the diameters (common practice).
            Step = flat * ((make.Book.Outside(s.Source, s.Size) - make.Book.Outside(s.Source, p.Size)) / 2),
            Parts = [reducer with { Flat = flat, Ways = [Of(PortName.RunIn, Way.In, -length.Mm, s.Size), Of(PortName.RunOut, Way.Out, 0, p.Size)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private static Vector FlatSide(StationMaking make, Situation s, ReducerPoint p)
    {
        if (p.Flat is not { } flat)
        {
            make.Stop(s, "eccentric-flat-missing", "kind", $"This eccentric {p.Word} does not say which side is flat: the centreline steps to that side.", "Add `flat: top`, `flat: bottom` or a direction.");
            return Vector.Zero;
        }

        var side = flat.SquareTo(s.Direction);
        if (side.Length >= 0.5)
            return side.Unit;
        make.Stop(s, "eccentric-flat-along-line", "flat", "The flat side lies along the line itself.", "On an upright line name the side by the compass: flat: north.");
        return Vector.Zero;
    }
}
