using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>
/// A 180 degree return by ASME B16.9, in one piece. Its work point is the corner where the middle line of its first end meets the line along its crown, as if two
/// elbows stood there; the second corner lies as far beside it as the return is wide.
/// </summary>
public sealed record ReturnBend : Bent
{
    public required ElbowRadius Style { get; init; }

    /// <summary>Unit direction across the return, from its first end to its second.</summary>
    public required Vector Crown { get; init; }

    /// <summary>From the middle of one end to the middle of the other, mm: O of ASME B16.9.</summary>
    public double Width => In.At.To(Out.At);

    public override string Word => "return";

    public override string Name => Style == ElbowRadius.Short ? "return SR" : "return LR";

    public override Ware Ware => Ware.Return;

    public override bool IsBySchedule => true;

    public override Vector Side => Crown;

    /// <summary>The corner behind the crown.</summary>
    public Point SecondCorner => WorkPoint + (Out.At - In.At);

    public override IEnumerable<(Point From, Point To)> MiddleLines => [(In.At, WorkPoint), (WorkPoint, SecondCorner), (SecondCorner, Out.At)];

    public override IEnumerable<Point> Measured => [WorkPoint, SecondCorner];

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(FittingEnds.Butt) || (words.Radius ?? ElbowRadius.Long) != Style;

    internal override int? Fits(MaterialItem row) => ItemSearch.Weigh((row.Words.Radius ?? ElbowRadius.Long) == Style, 8) + ItemSearch.Ends(row, FittingEnds.Butt) + ItemSearch.Schedule(row, this);

    /// <summary>The station at which it begins.</summary>
    /// <param name="behind">Unit direction of the leg behind it.</param>
    internal static Station Station(StationMaking make, Situation s, ElbowPoint p, Vector behind)
    {
        var across = s.Next!.Value;
        CheckTurn(make, s, s.Direction.AngleTo(across));
        if (s.Line.Ends != FittingEnds.Butt)
            make.Stop(s, "odd-turn-in-forged-fitting", "to", "A return bend here: ASME B16.9 has it with butt ends, and socket-weld and threaded fittings turn 90 or 45.", "Write two elbows, or a return with butt ends (ends: butt).");
        if (s.Direction.AngleTo(behind) is var turn && turn < Math.PI - Tolerance.Turn)
            make.Stop(s, "return-not-back", "to", string.Create(CultureInfo.InvariantCulture, $"A return bend turns the line by 180 degrees, and behind it the line goes {Angles.ToDegrees(turn):0.##} degrees off the way it came."), "Mend the direction of a leg, or write two elbows.");
        // Its arc is half as wide as the return, and takes that much off each leg.
        var half = make.Book.Term(s.Source, "half the return's centre to centre", p.Radius == ElbowRadius.Short ? ButtWeld.ReturnShort : ButtWeld.ReturnLong, s.Size);
        half = half with { Mm = half.Mm / 2 };
        var part = make.Sized(s, new ReturnBend { Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, Style = p.Radius, Turn = Math.PI, Crown = across, Radius = -half.Mm });
        var item = make.Item(s, part, out var stated);
        var takeOff = make.Measured(item, half);
        return Routes.Station.Plain(s, EndKind.Butt) with
        {
            In = new(EndKind.Butt, [takeOff]),
            InPart = 0,
            Out = new(EndKind.Butt, [half]),
            OutPart = 0,
            Parts =
            [
                part with
                {
                    Ways = [new(PortName.RunIn, Way.In, -takeOff.Mm, part.Outside, part.Inside), new(PortName.RunOut, Way.BehindReturn, -takeOff.Mm, part.Outside, part.Inside)],
                },
            ],
            Items = [item],
            IsItemStated = stated,
        };
    }

    /// <summary>The station at which it ends: its part stands at the one before.</summary>
    /// <param name="before">The station at which it begins.</param>
    internal static Station SecondHalf(StationMaking make, Situation s, Station before)
    {
        CheckTurn(make, s, s.Direction.AngleTo(s.Next!.Value));
        return Routes.Station.Plain(s, EndKind.Butt) with
        {
            In = before.Out,
            InPart = 0,
            Out = before.In,
            OutPart = 0,
            EndsReturn = true,
        };
    }

    private static void CheckTurn(StationMaking make, Situation s, double turn)
    {
        if (Math.Abs(turn - (Math.PI / 2)) > Tolerance.Turn)
            make.Stop(s, "return-not-back", "to", string.Create(CultureInfo.InvariantCulture, $"The crown of a return bend lies square to its ends, and the line turns by {Angles.ToDegrees(turn):0.##} degrees here."), "Mend the direction of this leg or the next.");
    }
}
