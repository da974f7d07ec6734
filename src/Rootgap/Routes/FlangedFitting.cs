using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <content>Flanges, flanged joints and valves.</content>
internal sealed partial class Fitting
{
    /// <summary>What a flange takes off: contact face to pipe; with the flange's own length, and the name of its table.</summary>
    private (PipeEnd End, double Length, string Name) Flange(Situation s, NominalSize size, MaterialItem? item)
    {
        var @class = s.Line.Class;
        switch (s.Line.Flange)
        {
            case FlangeKind.SlipOn:
                var wall = Math.Min(SlipOnMost, book.Wall(s.Source, size, s.Line.Schedule));
                var hub = book.Find(s.Source, "flanges", "flange SO", "length through hub", size, @class: @class).Mm;
                return (new(EndKind.SlipOn, [new("pipe short of the face by its wall, 6 mm at most", -wall, "common practice"), new("and for the weld", -SlipOnSetBack, "common practice")]), hub, "flange SO");
            case FlangeKind.SocketWeld:
                var through = Facing(s, size, Measured(item, book.Term(s.Source, "flange length through hub", "flanges", "flange SW", "length through hub", size, @class: @class)));
                var (depth, source) = book.Find(s.Source, "flanges", "flange SW", "socket depth", size, @class: @class);
                return (book.Socket([.. through, new("depth of the socket", depth, source)]), -through.Sum(t => t.Mm), "flange SW");
            case FlangeKind.Threaded:
                var threaded = Facing(s, size, Measured(item, book.Term(s.Source, "flange length through hub", "flanges", "flange TH", "length through hub", size, @class: @class)));
                return (book.Threaded(s.Source, size, threaded), -threaded.Sum(t => t.Mm), "flange TH");
            case FlangeKind.LapJoint:
                var stub = Measured(item, book.Term(s.Source, "stub end length", "butt-weld", "stub end", "F long", size));
                book.Find(s.Source, "flanges", "flange LJ", "length through hub", size, @class: @class);
                return (new(EndKind.Butt, [stub]), -stub.Mm, "flange LJ");
            default:
                var neck = Facing(s, size, Measured(item, book.Term(s.Source, "flange length through hub", "flanges", "flange WN", "length through hub", size, @class: @class)));
                return (new(EndKind.Butt, neck), -neck.Sum(t => t.Mm), "flange WN");
        }
    }

    /// <summary>
    /// The table's length has the raised face. A ring-joint flange's contact face is its extreme face, which stands out by the groove's depth instead;
    /// a flat face of class 400 up has neither (ASME B16.5 6.4).
    /// </summary>
    private Term[] Facing(Situation s, NominalSize size, Term through)
    {
        if (s.Line.Facing == Drawings.Facing.Raised || through.Source == "measured on the fitting")
            return [through];
        var isThin = s.Line.Class is "150" or "300";
        if (s.Line.Facing == Drawings.Facing.Flat && isThin)
            return [through];
        var (raised, source) = book.Find(s.Source, "flanges", "flange", "raised face height", size, @class: s.Line.Class);
        var flat = new Term("less the raised face", raised, source);
        return s.Line.Facing == Drawings.Facing.Flat
            ? [through, flat]
            : [through, flat, book.Term(s.Source, "ring-joint face", "flanges", "flange RTJ", "groove depth", size, @class: s.Line.Class)];
    }

    private double Gasket(Situation s, NominalSize size) =>
        s.Line.Gasket
        ?? (s.Line.Facing == Drawings.Facing.RingJoint ? book.Try("flanges", "flange RTJ", "ring stand-off", size, @class: s.Line.Class) : null)
        ?? Line.UsualGasket;

    private Part FlangePart(Situation s, NominalSize size, string name, params PartEnd[] ends) => new(Ware.Flange, name, size, ends) { HasHoles = true };

    private static Part GasketPart(NominalSize size, params PartEnd[] ends) => new(Ware.Gasket, "gasket", size, ends) { IsLoose = true };

    private Station EndFlange(Situation s, FlangePoint p)
    {
        var probe = FlangePart(s, s.Size, "flange " + Word(s.Line.Flange));
        var item = Item(s, probe, out var stated);
        var (end, length, name) = Flange(s, s.Size, item);
        var gasket = Gasket(s, s.Size);
        var back = s.IsStart ? Way.Out : Way.In;
        var flange = FlangePart(s, s.Size, name, s.IsStart ? [new(back, 0, -1), new(back, length)] : [new(back, length), new(back, 0, -1)]);
        var seal = GasketPart(s.Size, s.IsStart ? [new(back, -gasket, -1), new(back, 0)] : [new(back, 0), new(back, -gasket, -1)]);
        var parts = p.BoltingByOthers ? new[] { flange } : s.IsStart ? [seal, flange] : [flange, seal];
        var at = s.IsStart && !p.BoltingByOthers ? 1 : 0;
        return Plain(s, EndKind.Free) with
        {
            In = s.IsStart ? new(EndKind.Free, []) : end,
            InPart = s.IsStart ? -1 : at,
            Out = s.IsStart ? end : new(EndKind.Free, []),
            OutPart = s.IsStart ? at : -1,
            Parts = parts,
            Items = [.. parts.Select((part, i) => i == at ? item : ItemSearch.Find(drawing.Materials, part, s.Line))],
            IsItemStated = stated,
            Boltings = [new(at, -1, back, -gasket / 2, gasket, 0, SharesStuds: false, p.BoltingByOthers)],
        };
    }

    private static string Word(FlangeKind kind) => DrawingShape.FlangeKinds[(int)kind];

    private Station FlangedJoint(Situation s)
    {
        var probe = FlangePart(s, s.Size, "flange " + Word(s.Line.Flange));
        var item = Item(s, probe, out var stated);
        var (end, length, name) = Flange(s, s.Size, item);
        var gasket = Gasket(s, s.Size);
        var half = gasket / 2;
        var whole = new PipeEnd(end.Kind, [.. end.TakeOff, new("half the gasket", -half, GasketSource(s))]);
        Part[] parts =
        [
            FlangePart(s, s.Size, name, new(Way.In, half + length), new(Way.In, half, -1)),
            GasketPart(s.Size, new(Way.In, half), new(Way.Out, half)),
            FlangePart(s, s.Size, name, new(Way.Out, half, -1), new(Way.Out, half + length)),
        ];
        return Plain(s, end.Kind) with
        {
            In = whole,
            InPart = 0,
            Out = whole,
            OutPart = 2,
            Parts = parts,
            Items = [item, ItemSearch.Find(drawing.Materials, parts[1], s.Line), item],
            IsItemStated = stated,
            Boltings = [new(0, 2, Way.In, 0, gasket, 0, SharesStuds: false, ByOthers: false)],
        };
    }

    private static string GasketSource(Situation s) => s.Line.Gasket is null ? "common practice" : "drawing";

    private Station Valve(Situation s, ValvePoint p)
    {
        var name = "valve " + DrawingShape.ValveKinds[(int)p.Kind];
        var probe = new Part(Ware.Valve, name, s.Size) { IsLoose = p.Ends == FittingEnds.Flanged, Joins = p.Ends };
        var item = Item(s, probe, out var stated);
        var half = HalfValve(s, p, name, item);
        var inside = -half.Mm;
        if (p.Ends != FittingEnds.Flanged)
        {
            var end = p.Ends switch
            {
                FittingEnds.Socket => book.Socket(half, new("depth of the socket", SocketDepth(s, s.Size), "ASME B16.11")),
                FittingEnds.Threaded => book.Threaded(s.Source, s.Size, half),
                _ => new(EndKind.Butt, [half]),
            };
            return Plain(s, end.Kind) with
            {
                In = end,
                InPart = 0,
                Out = end,
                OutPart = 0,
                Parts = [probe with { Ends = [new(Way.In, inside), new(Way.Out, inside)] }],
                Items = [item],
                IsItemStated = stated,
            };
        }

        var flangeItem = ItemSearch.Find(drawing.Materials, FlangePart(s, s.Size, "flange " + Word(s.Line.Flange)), s.Line);
        var (mate, length, flangeName) = Flange(s, s.Size, flangeItem);
        var gasket = Gasket(s, s.Size);
        var whole = new PipeEnd(mate.Kind, [.. mate.TakeOff, new("gasket", -gasket, GasketSource(s)), half]);
        var face = inside + gasket;
        Part[] parts =
        [
            FlangePart(s, s.Size, flangeName, new(Way.In, face + length), new(Way.In, face, -1)),
            GasketPart(s.Size, new(Way.In, face), new(Way.In, inside, -1)),
            probe with { Ends = [new(Way.In, inside), new(Way.Out, inside)] },
            GasketPart(s.Size, new(Way.Out, inside, -1), new(Way.Out, face)),
            FlangePart(s, s.Size, flangeName, new(Way.Out, face, -1), new(Way.Out, face + length)),
        ];
        var seal = ItemSearch.Find(drawing.Materials, parts[1], s.Line);
        var isWafer = p.Kind == ValveKind.Butterfly;
        return Plain(s, mate.Kind) with
        {
            In = whole,
            InPart = 0,
            Out = whole,
            OutPart = 4,
            Parts = parts,
            Items = [flangeItem, seal, item, seal, flangeItem],
            IsItemStated = stated,
            Boltings =
            [
                new(0, 2, Way.In, inside + (gasket / 2), gasket, isWafer ? (2 * inside) + gasket : 0, SharesStuds: false, ByOthers: false),
                new(2, 4, Way.Out, inside + (gasket / 2), gasket, 0, SharesStuds: isWafer, ByOthers: false),
            ],
        };
    }

    private Term HalfValve(Situation s, ValvePoint p, string name, MaterialItem? item)
    {
        if (p.FaceToFace is { } given)
            return new("half the valve's face to face", -given / 2, "drawing");
        if (item is not null && drawing.Shop.MeasuredTakeOffs.TryGetValue(item.Item, out var measured))
            return new("half the valve's face to face", -measured, "measured on the valve");
        if (p.Ends is FittingEnds.Socket or FittingEnds.Threaded)
        {
            Stop(s, "valve-length-unknown", "to", "No standard gives the length of a socket-weld or threaded valve.", "Add `face to face:` from the maker's sheet.");
            return new("half the valve's face to face", 0, "not known");
        }

        var attribute = p.Ends == FittingEnds.Butt ? "end to end" : "face to face";
        var (mm, source) = book.Find(s.Source, "valves", name, attribute, s.Size, @class: s.Line.Class);
        if (s.Line.Facing == Drawings.Facing.RingJoint && p.Ends == FittingEnds.Flanged)
        {
            findings.Add(new("ring-joint-valve-length", Severity.Warn, s.Source.Path, s.Source["to"], "The table's face to face is for raised faces; a ring-joint valve is longer.",
                "Add `face to face:` over the extreme faces from the maker's sheet."));
        }

        return new("half the valve's face to face", -mm / 2, source);
    }
}
