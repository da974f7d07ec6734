using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A flange at the end of a pipe: what it takes off, and the flange itself before it is placed.</summary>
/// <param name="Pipe">How the pipe ends in it: terms from the contact face.</param>
/// <param name="Length">Contact face to the end that is welded, or to the hub's end, mm.</param>
internal sealed record FlangeEnd(PipeEnd Pipe, double Length, Flange Flange, MaterialItem? Item, bool IsStated)
{
    public static FlangeTable TableOf(FlangeKind kind) => kind switch
    {
        FlangeKind.WeldNeck => FlangeTable.WeldNeck,
        FlangeKind.SlipOn => FlangeTable.SlipOn,
        FlangeKind.SocketWeld => FlangeTable.SocketWeld,
        FlangeKind.Threaded => FlangeTable.Threaded,
        FlangeKind.LapJoint => FlangeTable.LapJoint,
        _ => throw new InvalidOperationException("The family of flanges is closed."),
    };

    /// <summary>Of classes 150 and 300 the raised face is thin and counts in the thickness (ASME B16.5).</summary>
    public static bool IsThin(Line line) => line.Class is "150" or "300";

    /// <summary>The flange at a work point. Only where it is what the leg speaks of does the leg's <c>item</c> name it.</summary>
    public static FlangeEnd Of(StationMaking make, Situation s, HoleOrientation holes, bool isWhatTheLegNames)
    {
        var kind = s.Line.Flange;
        var (shape, bolts) = FlangeShape.Of(make, s, kind);
        var flange = make.Sized(s, new Flange { Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Kind = kind, Shape = shape, Bolts = bolts, Orientation = holes });
        var stated = false;
        var item = isWhatTheLegNames ? make.Item(s, flange, out stated) : make.Found(flange);
        var (pipe, length, stub) = Takes(make, s, kind, item);
        return new(pipe, length, flange with { Stub = stub }, item, stated);
    }

    private static (PipeEnd Pipe, double Length, StubEnd? Stub) Takes(StationMaking make, Situation s, FlangeKind kind, MaterialItem? item)
    {
        var (book, @class) = (make.Book, s.Line.Class);
        var through = TableOf(kind).ThroughHub;
        Term[] Hub() => Facing(make, s, make.Measured(item, book.Term(s.Source, "flange length through hub", through, s.Size, @class: @class)));
        switch (kind)
        {
            case FlangeKind.SlipOn:
                var wall = Math.Min(PipeEnds.SlipOnMost.Of(default)!.In(book.Units), book.Wall(s.Source, s.Size, s.Line.Schedule));
                return (new(EndKind.SlipOn, [new("slip-on setback by the wall", -wall, Origin.CommonPractice), new("slip-on setback for the weld", -PipeEnds.SlipOnSetBack.Of(default)!.In(book.Units), Origin.CommonPractice)]),
                    book.Find(s.Source, through, s.Size, @class: @class).Mm, null);
            case FlangeKind.SocketWeld:
                var hub = Hub();
                var (depth, origin) = book.Find(s.Source, FlangeTable.SocketDepth, s.Size, @class: @class);
                return (book.Socket([.. hub, new("depth of the socket", depth, origin)]), -hub.Sum(t => t.Mm), null);
            case FlangeKind.Threaded:
                var threaded = Hub();
                return (book.Threaded(s.Source, s.Size, threaded), -threaded.Sum(t => t.Mm), null);
            case FlangeKind.LapJoint:
                var length = make.Measured(item, book.Term(s.Source, "stub end length", ButtWeld.StubEndLength, s.Size));
                book.Find(s.Source, through, s.Size, @class: @class);
                return (new(EndKind.Butt, [length]), -length.Mm, new(book.Try(ButtWeld.StubEndLap, s.Size), make.Tube(s, s.Size, isBySchedule: true).Wall, -length.Mm));
            case FlangeKind.WeldNeck:
                var neck = Hub();
                return (new(EndKind.Butt, neck), -neck.Sum(t => t.Mm), null);
            default:
                throw new InvalidOperationException("The family of flanges is closed.");
        }
    }

    /// <summary>
    /// The table's length has the raised face. A ring-joint flange's contact face is its extreme face, which stands out by the groove's depth instead;
    /// a flat face of class 400 up has neither (ASME B16.5 6.4).
    /// </summary>
    private static Term[] Facing(StationMaking make, Situation s, Term through)
    {
        if (s.Line.Facing == Drawings.Facing.Raised || through.Origin is Origin.Measured || (s.Line.Facing == Drawings.Facing.Flat && IsThin(s.Line)))
            return [through];
        var (raised, origin) = make.Book.Find(s.Source, FlangeTable.RaisedFaceHeight, s.Size, @class: s.Line.Class);
        var flat = new Term("less the raised face", raised, origin);
        return s.Line.Facing == Drawings.Facing.Flat
            ? [through, flat]
            : [through, flat, make.Book.Term(s.Source, "ring-joint face", FlangeTable.GrooveDepth, s.Size, @class: s.Line.Class)];
    }

    /// <summary>The flange with its ends along a way, its contact face so far from the work point.</summary>
    /// <param name="isFaceFirst">In the order of the line, the face comes before the neck.</param>
    public Flange At(Way way, double face, bool isFaceFirst)
    {
        var contact = new PartEnd(PortName.Face, way, face, Flange.Shape?.Plate ?? Flange.Outside, Flange.Inside, -1);
        var neck = new PartEnd(PortName.Weld, way, face + Length, Flange.Outside, Flange.Inside);
        return Flange with { Ways = isFaceFirst ? [contact, neck] : [neck, contact] };
    }

    /// <summary>An end flange, mating with something not in this drawing.</summary>
    public static Station EndStation(StationMaking make, Situation s, FlangePoint p)
    {
        var end = Of(make, s, p.Holes, isWhatTheLegNames: true);
        var gasket = Gasket.Thickness(make, s).Mm;
        var back = s.IsStart ? Way.Out : Way.In;
        var flange = end.At(back, 0, isFaceFirst: s.IsStart);
        var (near, far) = (new PartEnd(PortName.RunIn, back, -gasket, 0, flange.Inside, -1), new PartEnd(PortName.RunOut, back, 0, 0, flange.Inside));
        var seal = s.IsStart ? Gasket.Between(make, s, near, far) : Gasket.Between(make, s, far with { Name = PortName.RunIn }, near with { Name = PortName.RunOut });
        Component[] parts = p.BoltingByOthers ? [flange] : s.IsStart ? [seal, flange] : [flange, seal];
        if (p.IsBlinded && BlindFlange.At(make, s, back, -gasket) is var blind)
            parts = s.IsStart ? [blind, .. parts] : [.. parts, blind];
        var at = Array.IndexOf(parts, flange);
        var closes = !p.IsBlinded ? -1 : s.IsStart ? 0 : parts.Length - 1;
        var free = new PipeEnd(EndKind.Free, []);
        return Station.Plain(s, EndKind.Free) with
        {
            In = s.IsStart ? free : end.Pipe,
            InPart = s.IsStart ? -1 : at,
            Out = s.IsStart ? end.Pipe : free,
            OutPart = s.IsStart ? at : -1,
            Parts = parts,
            Items = [.. parts.Select((part, i) => i == at ? end.Item : make.Found(part))],
            IsItemStated = end.IsStated,
            Named = at,
            Boltings = [new(at, closes, back, -gasket / 2, gasket, flange.ExtraGrip, SharesStuds: false, p.BoltingByOthers)],
        };
    }

    /// <summary>Two flanges face to face; the work point is the middle of the gasket.</summary>
    public static Station JointStation(StationMaking make, Situation s, FlangedJointPoint p)
    {
        var end = Of(make, s, p.Holes, isWhatTheLegNames: true);
        var (gasket, origin) = Gasket.Thickness(make, s);
        var half = gasket / 2;
        var whole = new PipeEnd(end.Pipe.Kind, [.. end.Pipe.TakeOff, new("half the gasket", -half, origin)]);
        var seal = Gasket.Between(make, s, new(PortName.RunIn, Way.In, half, 0, end.Flange.Inside), new(PortName.RunOut, Way.Out, half, 0, end.Flange.Inside));
        return Station.Plain(s, end.Pipe.Kind) with
        {
            In = whole,
            InPart = 0,
            Out = whole,
            OutPart = 2,
            Parts = [end.At(Way.In, half, isFaceFirst: false), seal, end.At(Way.Out, half, isFaceFirst: true)],
            Items = [end.Item, make.Found(seal), end.Item],
            IsItemStated = end.IsStated,
            Boltings = [new(0, 2, Way.In, 0, gasket, 2 * end.Flange.ExtraGrip, SharesStuds: false, ByOthers: false)],
        };
    }
}
