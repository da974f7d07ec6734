using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A cap: butt-welding by ASME B16.9, or forged by ASME B16.11. Its work point is its outer end.</summary>
public sealed record Cap : Component
{
    /// <summary>The limiting wall of caps is the extra-strong wall, printed to 0.01 in.: NPS 6 prints 0.43 in. for a wall of 0.432, mm.</summary>
    private const double LimitingWallRounding = 0.13;

    public Port Rim => Of(PortName.Weld);

    public override string Word => "cap";

    public override string Name => Line.Ends switch { FittingEnds.Socket => "SW cap", FittingEnds.Threaded => "TH cap", _ => "cap" };

    public override Ware Ware => Ware.Cap;

    public override string RatingClass => Line.Ends is FittingEnds.Socket or FittingEnds.Threaded ? Line.FittingClass : "";

    public override bool IsBySchedule => true;

    public override bool ShowsClock => false;

    public override MadeTo MadeTo => MadeTo.Nothing;

    public override IsometricSign Sign => IsometricSign.Cap;

    public override IReadOnlyList<Solid> Bodies => Outside > 0 && Path > Tolerance.Noise ? [Solid.Cylinder(Rim.At, WorkPoint, Outside / 2)] : [];

    public override IReadOnlyList<Solid> Picture
    {
        get
        {
            var (length, r) = (Path, Outside / 2);
            return [.. Solid.Turned(Rim.At, -Rim.Face, (0, r), (length * 0.45, r), (length * 0.75, r * 0.87), (length * 0.92, r * 0.6), (length, r * 0.25))];
        }
    }

    /// <summary>Length of the straight skirt before a 2:1 head, mm.</summary>
    private double Skirt => Math.Max(0, Path - (Outside / 4));

    public override Mass? Mass => new((HeadArea * Wall * Density) + (PerLength * Skirt), HeadAndSkirt);

    private static readonly Origin HeadAndSkirt = new Origin.Rule("geometry: a 2:1 head and its skirt");

    /// <summary>Surface of a 2:1 half ellipsoid of revolution through the middle of the wall, mm².</summary>
    private double HeadArea
    {
        get
        {
            var diameter = Outside - Wall;
            var e = Math.Sqrt(0.75);
            return Math.PI / 4 * diameter * diameter * (1 + ((1 - (e * e)) / e * Math.Atanh(e)));
        }
    }

    /// <summary>Of skirt and head; the shell of a 2:1 half ellipsoid has its centre c/(3k) (a³ - c³) over ½ (a + c²/√k asinh(√k/c)) from its rim, c = a/2, k = a² - c².</summary>
    public override Point Centre
    {
        get
        {
            var a = (Outside - Wall) / 2;
            if (a <= 0)
                return Rim.At.Toward(WorkPoint, 0.5);
            var c = a / 2;
            var k = (a * a) - (c * c);
            var height = c / (3 * k) * ((a * a * a) - (c * c * c)) / ((a + (c * c / Math.Sqrt(k) * Math.Asinh(Math.Sqrt(k) / c))) / 2);
            var (skirt, head) = (PerLength * Skirt, HeadArea * Wall * Density);
            var along = skirt + head > 0 ? ((skirt * Skirt / 2) + (head * (Skirt + height))) / (skirt + head) : Path / 2;
            return Rim.At - (Rim.Face * along);
        }
    }

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Line.Ends);

    internal override int? Fits(MaterialItem row) =>
        ItemSearch.Ends(row, Line.Ends) + ItemSearch.ForgedClass(row, this, Line.Ends) + ItemSearch.Schedule(row, this);

    internal static Station Station(StationMaking make, Situation s)
    {
        var cap = make.Sized(s, new Cap { Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source });
        var item = make.Item(s, cap, out var stated);
        var (end, length) = EndOf(make, s, item);
        var free = new PipeEnd(EndKind.Free, []);
        return Routes.Station.Plain(s, EndKind.Free) with
        {
            In = s.IsStart ? free : end,
            InPart = s.IsStart ? -1 : 0,
            Out = s.IsStart ? end : free,
            OutPart = s.IsStart ? 0 : -1,
            Parts = [cap with { Ways = [new(PortName.Weld, s.IsStart ? Way.Out : Way.In, length, cap.Outside, cap.Inside)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private static (PipeEnd End, double Length) EndOf(StationMaking make, Situation s, MaterialItem? item)
    {
        switch (s.Line.Ends)
        {
            case FittingEnds.Socket:
                // The work point is the cap's outer end: a socket's bottom lies one end wall from it.
                var wall = make.Measured(item, make.Book.Term(s.Source, "cap end wall", Standards.Forged.SocketCapEndWall, s.Size, @class: s.Line.FittingClass));
                return (make.Book.Socket(wall), -wall.Mm + make.SocketDepth(s, s.Size).Mm);
            case FittingEnds.Threaded:
                var length = make.Measured(item, make.Book.Term(s.Source, "cap length", Standards.Forged.ThreadedCapLength, s.Size, @class: s.Line.FittingClass));
                return (make.Book.Threaded(s.Source, s.Size, length), -length.Mm);
            default:
                // ASME B16.9: E up to the limiting wall, E1 above it.
                var isThick = make.Book.Try(ButtWeld.CapLimitingWall, s.Size) is { } limit && make.Book.Wall(s.Source, s.Size, s.Line.Schedule) > limit + LimitingWallRounding
                    && make.Book.Try(ButtWeld.CapLengthThick, s.Size) is not null;
                var term = make.Measured(item, make.Book.Term(s.Source, "cap length", isThick ? ButtWeld.CapLengthThick : ButtWeld.CapLength, s.Size));
                return (new(EndKind.Butt, [term]), -term.Mm);
        }
    }
}
