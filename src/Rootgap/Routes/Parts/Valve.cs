using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A valve; its work point is its centre.</summary>
public sealed record Valve : Component
{
    public required ValveKind Kind { get; init; }

    /// <summary>How it takes the line: between flanges, or welded or screwed in.</summary>
    public required FittingEnds Ends { get; init; }

    /// <summary>Direction of the stem as drawn; null where the drawing does not say.</summary>
    public Vector? StemDrawn { get; init; }

    /// <summary>Its mass as drawn or by the published list, with where it comes from; null where nobody knows it.</summary>
    public Mass? Stated { get; init; }

    public Port In => Of(PortName.RunIn);

    public Port Out => Of(PortName.RunOut);

    /// <summary>Whether it is held between two flanges by the studs of both: a wafer body.</summary>
    public bool IsWafer => Kind == ValveKind.Butterfly && Ends == FittingEnds.Flanged;

    public override string Word => "valve";

    public override string Name => "valve " + Words.Of(Kind);

    public override Ware Ware => Ware.Valve;

    public override string RatingClass => Ends == FittingEnds.Flanged ? Line.Class : "";

    public override bool IsLoose => Ends == FittingEnds.Flanged;

    public override bool ShowsClock => true;

    public override IsometricSign Sign => IsometricSign.Valve;

    public override double ExtraGrip => IsWafer ? Path : 0;

    /// <summary>Its ends' tube; of a flanged valve the space of its flanges, since no standard gives the body's shape.</summary>
    public override IReadOnlyList<Solid> Bodies => Path > Tolerance.Noise && In.Outside > 0 ? [Solid.Cylinder(In.At, Out.At, In.Outside / 2)] : [];

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

    public override Mass? Mass => Stated;

    public override Point Centre => In.At.Toward(Out.At, 0.5);

    public override bool IsOtherKind(WareWords words) => (words.Valve is { } kind && kind != Kind) || (words.Ends is { } ends && ends != Ends);

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
        var half = Half(make, s, p, item);
        return p.Ends == FittingEnds.Flanged ? Bolted(make, s, p, valve, half, item, stated) : Joined(make, s, p, valve, half, item, stated);
    }

    private static Mass? MassOf(Situation s, ValvePoint p) =>
        p.Mass is { } kg ? new(kg, Origin.Drawing)
        : TableOf(p.Kind).Mass?.Of(s.Size, @class: s.Line.Class) is { } row ? new(row.Figure, new Origin.Table(row))
        : null;

    private static Station Joined(StationMaking make, Situation s, ValvePoint p, Valve valve, Term half, MaterialItem? item, bool stated)
    {
        var end = p.Ends switch
        {
            FittingEnds.Socket => make.Book.Socket(half, make.IntoSocket(s, s.Size)),
            FittingEnds.Threaded => make.Book.Threaded(s.Source, s.Size, half),
            _ => new(EndKind.Butt, [half]),
        };
        return Routes.Station.Plain(s, end.Kind) with
        {
            In = end,
            InPart = 0,
            Out = end,
            OutPart = 0,
            Parts = [valve with { Ways = [new(PortName.RunIn, Way.In, -half.Mm, valve.Outside, valve.Inside), new(PortName.RunOut, Way.Out, -half.Mm, valve.Outside, valve.Inside)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private static Station Bolted(StationMaking make, Situation s, ValvePoint p, Valve valve, Term half, MaterialItem? item, bool stated)
    {
        var mate = FlangeEnd.Of(make, s, p.Holes, isWhatTheLegNames: false);
        var (gasket, origin) = Gasket.Thickness(make, s);
        var (inside, bore) = (-half.Mm, valve.Inside);
        var whole = new PipeEnd(mate.Pipe.Kind, [.. mate.Pipe.TakeOff, new("gasket", -gasket, origin), half]);
        var face = inside + gasket;
        var wide = mate.Flange.Shape?.Plate ?? valve.Outside;
        var before = Gasket.Between(make, s, new(PortName.RunIn, Way.In, face, 0, bore), new(PortName.RunOut, Way.In, inside, 0, bore, -1));
        var after = Gasket.Between(make, s, new(PortName.RunIn, Way.Out, inside, 0, bore, -1), new(PortName.RunOut, Way.Out, face, 0, bore));
        var body = valve with { Ways = [new(PortName.RunIn, Way.In, inside, wide, bore), new(PortName.RunOut, Way.Out, inside, wide, bore)] };
        var seal = make.Found(before);
        var laps = mate.Flange.ExtraGrip;
        return Routes.Station.Plain(s, mate.Pipe.Kind) with
        {
            In = whole,
            InPart = 0,
            Out = whole,
            OutPart = 4,
            Parts = [mate.At(Way.In, face, isFaceFirst: false), before, body, after, mate.At(Way.Out, face, isFaceFirst: true)],
            Items = [mate.Item, seal, item, seal, mate.Item],
            IsItemStated = stated,
            Named = 2,
            // The studs of a wafer valve go from flange to flange, past the valve and its second gasket; those of any other take hold of its own flanges.
            Boltings =
            [
                new(0, 2, Way.In, inside + (gasket / 2), gasket, valve.IsWafer ? (2 * inside) + gasket + (2 * laps) : laps, SharesStuds: false, ByOthers: false),
                new(2, 4, Way.Out, inside + (gasket / 2), gasket, valve.IsWafer ? 0 : laps, SharesStuds: valve.IsWafer, ByOthers: false),
            ],
        };
    }

    private static Term Half(StationMaking make, Situation s, ValvePoint p, MaterialItem? item)
    {
        const string What = "half the valve's face to face";
        if (p.FaceToFace is { } given)
            return new(What, -given / 2, Origin.Drawing);
        if (item is not null && make.Shop.MeasuredTakeOffs.TryGetValue(item.Item, out var measured))
            return new(What, -measured, new Origin.Measured("valve"));
        if (p.Ends is FittingEnds.Socket or FittingEnds.Threaded)
        {
            make.Stop(s, "valve-length-unknown", "to", "No standard gives the length of a socket-weld or threaded valve.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotKnown);
        }

        var (flanged, butt, _) = TableOf(p.Kind);
        if ((p.Ends == FittingEnds.Butt ? butt : flanged) is not { } dimension)
        {
            make.Stop(s, "not-in-the-standard", "to", $"No table gives the end to end of a butt-weld {Words.Of(p.Kind)} valve.", "Add `face to face:` from the maker's sheet.");
            return new(What, 0, Origin.NotInTheStandard);
        }

        var (mm, origin) = make.Book.Find(s.Source, dimension, s.Size, @class: s.Line.Class);
        if (s.Line.Facing == Facing.RingJoint && p.Ends == FittingEnds.Flanged)
        {
            make.Tell(s, "ring-joint-valve-length", Severity.Warn, "to", "The table's face to face is for raised faces; a ring-joint valve is longer.",
                "Add `face to face:` over the extreme faces from the maker's sheet.");
        }

        return new(What, -mm / 2, origin);
    }
}
