using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>What stands in a straight line with two ends of its own, its work point in the middle: a valve, a strainer, a plate between two flanges.</summary>
public abstract record InLine : Component
{
    private protected InLine()
    {
    }

    /// <summary>How it takes the line: between flanges, or welded or screwed in.</summary>
    public required FittingEnds Ends { get; init; }

    /// <summary>Its mass as drawn or by a published list, with where it comes from; null where nobody knows it.</summary>
    public Mass? Stated { get; init; }

    /// <summary>Whether it is held between two flanges by the studs of both.</summary>
    public abstract bool IsWafer { get; }

    public override string DrawnAs => $"{Name} {(IsWafer ? "wafer" : Ends.ToString().ToLowerInvariant())}";

    public Port In => Of(PortName.RunIn);

    public Port Out => Of(PortName.RunOut);

    public override string RatingClass => Ends switch
    {
        FittingEnds.Flanged => Line.Class,
        FittingEnds.Butt or FittingEnds.Socket or FittingEnds.Threaded => "",
        _ => throw new InvalidOperationException("The family of ends is closed."),
    };

    public sealed override bool IsLoose => Ends == FittingEnds.Flanged;

    public sealed override bool HasFacing => Ends == FittingEnds.Flanged;

    public sealed override bool ShowsClock => true;

    public sealed override MadeTo MadeTo => MadeTo.FaceToFace;

    public sealed override double ExtraGrip => IsWafer ? Path : 0;

    /// <summary>Its ends' tube; between flanges the space of those, since no standard gives the body's shape.</summary>
    public override IReadOnlyList<Solid> Bodies => Path > Tolerance.Noise && In.Outside > 0 ? [Solid.Cylinder(In.At, Out.At, In.Outside / 2)] : [];

    public override Mass? Mass => Stated;

    public sealed override Point Centre => In.At.Toward(Out.At, 0.5);

    /// <summary>The station where it stands, half its length from the work point to each side.</summary>
    /// <param name="more">What a flanged one is longer at each end than half its length, as terms of the sum.</param>
    private protected Station Made(StationMaking make, Situation s, HoleOrientation holes, Term half, MaterialItem? item, bool stated, params IReadOnlyList<Term> more) =>
        Ends == FittingEnds.Flanged ? Bolted(make, s, this, holes, [half, .. more], item, stated) : Joined(s, this, Ends switch
        {
            FittingEnds.Socket => make.Book.Socket(half, make.IntoSocket(s, s.Size)),
            FittingEnds.Threaded => make.Book.Threaded(s.Source, s.Size, half),
            _ => new(EndKind.Butt, [half]),
        }, half.Mm, item, stated);

    /// <summary>The station where its own ends take the pipe.</summary>
    /// <param name="end">How they do.</param>
    /// <param name="face">From the work point to its own end, negative, mm.</param>
    private protected static Station Joined(Situation s, InLine body, PipeEnd end, double face, MaterialItem? item, bool stated) => Routes.Station.Plain(s, end.Kind) with
    {
        In = end,
        InPart = 0,
        Out = end,
        OutPart = 0,
        Parts = [body with { Ways = [new(PortName.RunIn, Way.In, -face, body.Outside, body.Inside), new(PortName.RunOut, Way.Out, -face, body.Outside, body.Inside)] }],
        Items = [item],
        IsItemStated = stated,
    };

    private static Station Bolted(StationMaking make, Situation s, InLine body, HoleOrientation holes, IReadOnlyList<Term> half, MaterialItem? item, bool stated)
    {
        var mate = FlangeEnd.Of(make, s, holes, isWhatTheLegNames: body is InLineItem { IsPlate: true } && make.NamesFlange(s));
        var (gasket, origin) = Gasket.Thickness(make, s);
        var (inside, bore) = (-half.Sum(t => t.Mm), body.Inside);
        var whole = new PipeEnd(mate.Pipe.Kind, [.. mate.Pipe.TakeOff, new("gasket", -gasket, origin), .. half]);
        var face = inside + gasket;
        var wide = mate.Flange.Shape?.Plate ?? body.Outside;
        var before = Gasket.Between(make, s, new(PortName.RunIn, Way.In, face, 0, bore), new(PortName.RunOut, Way.In, inside, 0, bore, -1));
        var after = Gasket.Between(make, s, new(PortName.RunIn, Way.Out, inside, 0, bore, -1), new(PortName.RunOut, Way.Out, face, 0, bore));
        var placed = body with { Ways = [new(PortName.RunIn, Way.In, inside, wide, bore), new(PortName.RunOut, Way.Out, inside, wide, bore)] };
        var seal = make.Found(before);
        var laps = mate.Flange.ExtraGrip;
        return Routes.Station.Plain(s, mate.Pipe.Kind) with
        {
            In = whole,
            InPart = 0,
            Out = whole,
            OutPart = 4,
            Parts = [mate.At(Way.In, face, isFaceFirst: false), before, placed, after, mate.At(Way.Out, face, isFaceFirst: true)],
            Items = [mate.Item, seal, item, seal, mate.Item],
            IsItemStated = stated || mate.IsStated,
            Named = mate.IsStated ? 0 : 2,
            // The studs of a wafer body go from flange to flange, past it and its second gasket; those of any other take hold of its own flanges.
            Boltings =
            [
                new(0, 2, Way.In, inside + (gasket / 2), gasket, body.IsWafer ? (2 * inside) + gasket + (2 * laps) : laps, SharesStuds: false, ByOthers: false),
                new(2, 4, Way.Out, inside + (gasket / 2), gasket, body.IsWafer ? 0 : laps, SharesStuds: body.IsWafer, ByOthers: false),
            ],
        };
    }
}
