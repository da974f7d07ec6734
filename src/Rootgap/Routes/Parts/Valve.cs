using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A valve; its work point is its centre.</summary>
public sealed record Valve : InLine
{
    public required ValveKind Kind { get; init; }

    /// <summary>Direction of the stem as drawn; null where the drawing does not say.</summary>
    public Vector? StemDrawn { get; init; }

    /// <summary>So much longer than the table's length between flanges a butterfly valve has flanges of its own (EN 558: series 13 is 1.6 to 2.5 times as long as series 20).</summary>
    private const double OwnFlanges = 1.4;

    /// <summary>By its drawing; a butterfly valve also where the drawing does not call it flanged, or its length is not that of one with flanges of its own.</summary>
    public override bool IsWafer => Ends == FittingEnds.Flanged && Drawn is ValvePoint drawn && (drawn.IsWafer == true || (Kind == ValveKind.Butterfly && !(drawn.IsWafer == false && drawn.FaceToFace > BetweenFlanges * OwnFlanges)));

    /// <summary>The table's length of a butterfly valve of its size between two flanges, mm; null where it has none.</summary>
    private double? BetweenFlanges => Valves.ButterflyFlanged.Of(Size, @class: Line.Class)?.In(Units.Millimetres);

    public override string Word => "valve";

    public override string Name => "valve " + Words.Of(Kind);

    public override Ware Ware => Ware.Valve;

    /// <summary>A flanged one has the class of its flanges; another one the class that its own row gives, since the line's is that of its flanges.</summary>
    public override string RatingClass => Ends == FittingEnds.Flanged || Source.Has("class") ? Line.Class : "";

    public override IsometricSign Sign => IsometricSign.Valve;

    /// <summary>Two bells that meet in the middle, and a stem with its wheel: it says that it is a valve, not which.</summary>
    public override IReadOnlyList<Solid> Picture
    {
        get
        {
            var (length, r, axis) = (Path, Outside / 2, -In.Face);
            if (length <= Tolerance.Noise || r <= 0)
                return [];
            var body = Kind == ValveKind.Butterfly ? Solid.Turned(In.At, axis, (0, r * 1.4), (length, r * 1.4)) : Solid.Turned(In.At, axis, (0, r * 1.25), (length / 2, r * 0.55), (length, r * 1.25));
            return Kind == ValveKind.Check ? [.. body] : [.. Solid.Turned(WorkPoint, Stem, (r * 0.4, r * 0.18), (r * 2.6, r * 0.18), (r * 2.6, r * 0.9), (r * 2.8, r * 0.9)), .. body];
        }
    }

    /// <summary>Unit direction of the stem, square to the line: as drawn, or up.</summary>
    public Vector Stem => (StemDrawn ?? Vector.Up).SquareTo(In.Face) is var stem && stem.Length > 0.1 ? stem.Unit : In.Face.AnySquare();

    /// <summary>How far the stem and its wheel reach from the middle of the line, mm: some three sizes and a hand's room more (common practice; a vendor's drawing has the figure).</summary>
    public double StemReach => (3 * Size.Inches * LengthText.Inch) + 100;

    /// <summary>Its length by the table, mm; null where no table has it.</summary>
    public double? TableLength(Units units) =>
        Ends switch
        {
            FittingEnds.Flanged when IsWafer == (Kind == ValveKind.Butterfly) => TableOf(Kind).Flanged,
            FittingEnds.Flanged => null,
            FittingEnds.Butt => TableOf(Kind).Butt,
            FittingEnds.Socket or FittingEnds.Threaded => null,
            _ => throw new InvalidOperationException("The family of ends is closed."),
        } is { } table ? table.Of(Size, @class: Line.Class)?.In(units) : null;

    /// <summary>Between two flanges or with flanges of its own it has another length, other studs, one gasket or two.</summary>
    public override bool IsOtherKind(WareWords words) =>
        (words.Valve is { } kind && kind != Kind) || (words.Ends is { } ends && ends != Ends) || (Ends == FittingEnds.Flanged && words.IsWafer is { } wafer && wafer != IsWafer);

    internal override int? Fits(MaterialItem row) =>
        row.Words.Valve is { } kind && kind != Kind ? null : ItemSearch.Ends(row, Ends) + ItemSearch.FlangeClass(row, Line);

    private static (Dimension Flanged, Dimension? Butt, Dimension? Mass) TableOf(ValveKind kind) => kind switch
    {
        ValveKind.Gate => (Valves.GateFlanged, Valves.GateButt, Valves.GateMass),
        ValveKind.Globe => (Valves.GlobeFlanged, Valves.GlobeButt, Valves.GlobeMass),
        ValveKind.Check => (Valves.CheckFlanged, Valves.CheckButt, Valves.CheckMass),
        ValveKind.Ball => (Valves.BallFlanged, Valves.BallButt, Valves.BallMass),
        ValveKind.Butterfly => (Valves.ButterflyFlanged, null, null),
        _ => throw new InvalidOperationException("The family of valves is closed."),
    };

    internal static Station Station(StationMaking make, Situation s, ValvePoint p)
    {
        var valve = make.Sized(s, new Valve
        {
            Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Kind = p.Kind, Ends = p.Ends, StemDrawn = p.Stem, Stated = MassOf(s, p),
        });
        var item = make.Item(s, valve, out var stated);
        var half = Half(make, s, p, item, valve.TableLength(make.Book.Units));
        return valve.Made(make, s, p.Holes, half, item, stated, RingFace(make, s, half));
    }

    /// <summary>
    /// What each end stands out more with a ring-joint face than the table's raised one: the depth of its groove, where the raised face of classes 150 and 300 counts in
    /// the thickness and that of higher classes, a quarter of an inch, does not (ASME B16.10 table 10, from memory: NPS 4 class 600 3 mm in all, NPS 6 class 300 16 mm).
    /// </summary>
    private static Term[] RingFace(StationMaking make, Situation s, Term half)
    {
        if (s.Line.Facing != Facing.RingJoint || half.Origin is not Origin.Table || FlangeTable.GrooveDepth.Of(s.Size, @class: s.Line.Class) is null)
            return [];
        var face = make.Book.Term(s.Source, "ring-joint face", FlangeTable.GrooveDepth, s.Size, @class: s.Line.Class);
        return FlangeEnd.IsThin(s.Line) ? [face] : [face, new("less the raised face", LengthText.Inch / 4, new Origin.Rule("ASME B16.10: 1/4 in. from class 400 up, from memory"))];
    }

    private static Mass? MassOf(Situation s, ValvePoint p) =>
        p.Mass is { } kg ? new(kg, Origin.Drawing)
        : p.IsWafer == true ? null
        : TableOf(p.Kind).Mass?.Of(s.Size, @class: s.Line.Class) is { } row ? new(row.Figure, new Origin.Table(row))
        : null;

    private static Term Half(StationMaking make, Situation s, ValvePoint p, MaterialItem? item, double? tableLength)
    {
        const string What = "half the valve's face to face";
        if (p.FaceToFace is { } given)
            return new(What, -given / 2, Origin.Drawing);
        if (item is not null && make.Shop.MeasuredTakeOffs.TryGetValue(item.Item, out var measured))
            return new(What, -measured, new Origin.Measured("valve", item.Item, tableLength / 2));
        if (p.Ends is FittingEnds.Socket or FittingEnds.Threaded)
        {
            make.Stop(s, "valve-length-unknown", "to", "No standard gives the length of a socket-weld or threaded valve.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotKnown);
        }

        if (p.IsWafer == true && p.Kind != ValveKind.Butterfly)
        {
            make.Stop(s, "valve-length-unknown", "to", $"No table here gives the length of a {Words.Of(p.Kind)} valve between flanges.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotKnown);
        }

        var (flanged, butt, _) = TableOf(p.Kind);
        if ((p.Ends == FittingEnds.Butt ? butt : flanged) is not { } dimension)
        {
            make.Stop(s, "not-in-the-standard", "to", $"No table gives the end to end of a butt-weld {Words.Of(p.Kind)} valve.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotInTheStandard);
        }

        if (dimension.Of(s.Size, @class: s.Line.Class) is null)
        {
            make.Stop(s, "valve-length-unknown", "to", $"The tables here have no length of a {Words.Of(p.Kind)} valve NPS {s.Size} class {s.Line.Class}.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotKnown);
        }

        var (mm, origin) = make.Book.Find(s.Source, dimension, s.Size, @class: s.Line.Class);
        if (s.Line.Facing == Facing.RingJoint && p.Ends == FittingEnds.Flanged && FlangeTable.GrooveDepth.Of(s.Size, @class: s.Line.Class) is null)
        {
            make.Tell(s, "ring-joint-valve-length", Severity.Warn, "to", "The table's face to face is for raised faces; a ring-joint valve is longer.",
                "Add `face to face:` over the extreme faces from the maker's sheet.");
        }

        return new(What, -mm / 2, origin);
    }
}
