using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A threaded plug with a hexagon head (ASME B16.11), screwed into the fitting before it. Its work point is its outer end.</summary>
public sealed record Plug : Component
{
    /// <summary>Thread, head and the head's width across flats, mm.</summary>
    public required (double Thread, double Head, double Flats) Shape { get; init; }

    /// <summary>Where it comes out of the fitting that it is screwed into.</summary>
    public Port Rim => Of(PortName.Weld);

    public override string Word => "plug";

    public override string Name => "TH plug";

    public override Ware Ware => Ware.Plug;

    public override string RatingClass => "";

    public override bool ShowsClock => false;

    public override MadeTo MadeTo => MadeTo.Nothing;

    public override IsometricSign Sign => IsometricSign.Cap;

    /// <summary>What stands out of the fitting.</summary>
    public override IReadOnlyList<Solid> Bodies => Path > Tolerance.Noise && Outside > 0 ? [Solid.Cylinder(Rim.At, WorkPoint, Math.Max(Outside, Shape.Flats) / 2)] : [];

    /// <summary>A hexagon of the head's flats and height, and the thread as a round bar.</summary>
    public override Mass? Mass => new(Density * ((Math.Sqrt(3) / 2 * Shape.Flats * Shape.Flats * Shape.Head) + (Math.PI / 4 * Outside * Outside * Shape.Thread)), HexagonAndThread);

    private static readonly Origin HexagonAndThread = new Origin.Rule("geometry: a hexagon and a round thread");

    public override Point Centre => Rim.At.Toward(WorkPoint, 0.5);

    internal override int? Fits(MaterialItem row) => row.Words.Ends == FittingEnds.Socket ? null : 0;

    internal static Station Station(StationMaking make, Situation s)
    {
        double Value(Dimension dimension) => make.Book.Try(dimension, s.Size) ?? 0;
        var (outside, _) = make.Tube(s, s.Size, isBySchedule: false);
        var plug = new Plug
        {
            Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Outside = outside, Wall = outside / 2,
            Shape = (Value(Standards.Forged.PlugThread), Value(Standards.Forged.PlugHead), Value(Standards.Forged.PlugFlats)),
        };
        var item = make.Item(s, plug, out var stated);
        Term[] length =
        [
            make.Book.Term(s.Source, "plug, its head", Standards.Forged.PlugHead, s.Size),
            make.Book.Term(s.Source, "plug, its thread", Standards.Forged.PlugThread, s.Size),
        ];
        var engaged = make.Book.Find(s.Source, Threads.NormalEngagement, s.Size).Mm;
        return Routes.Station.Plain(s, EndKind.Free) with
        {
            In = new(EndKind.ThreadedMale, length),
            InPart = 0,
            Parts = [plug with { Ways = [new(PortName.Weld, Way.In, Math.Max(0, -length.Sum(t => t.Mm) - engaged), outside, 0)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }
}
