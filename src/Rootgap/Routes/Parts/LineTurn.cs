using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>How the line turns at a work point, and whether a stock fitting turns so.</summary>
internal sealed record LineTurn(double Radians, bool Is90, bool Is45, bool IsSlope)
{
    /// <summary>The most that a bend made by the shop turns the line here, radians.</summary>
    private const double MostMade = 150 * Math.PI / 180;

    /// <summary>The turn at a work point; a line that turns back, or by more than a right angle, is told.</summary>
    public static LineTurn Of(StationMaking make, Situation s)
    {
        var turn = s.Next is { } next ? s.Direction.AngleTo(next) : Math.PI / 2;
        var is90 = Math.Abs(turn - (Math.PI / 2)) <= Tolerance.Turn;
        var is45 = Math.Abs(turn - (Math.PI / 4)) <= Tolerance.Turn;
        var isSlope = s.Next is { } way && (Slope.IsSlight(s.Direction) || Slope.IsSlight(way));
        if (turn >= Math.PI - Tolerance.Turn)
        {
            make.Stop(s, "turns-back-on-itself", "to", "The next leg goes straight back along this one.", "Mend the direction of this leg or the next; a return bend is written as two elbows with `by: return` between them.");
        }
        else if (isSlope && s.Point is not ElbowPoint { Bend: not null } && turn > (Math.PI / 2) + Tolerance.Turn && turn <= (Math.PI / 2) + Slope.Slight)
        {
            // A riser into a falling line: a stock elbow is set, and the welds take the slope up.
            is90 = true;
            make.Tell(s, "turn-over-90", Severity.Note, "to",
                string.Create(CultureInfo.InvariantCulture, $"With the slope the line turns by {Angles.ToDegrees(turn):0.##} degrees here; a stock elbow turns 90."), "Take the slope up in the two welds.");
        }
        else if (s.Point is ElbowPoint { Bend: not null } && turn > MostMade)
        {
            make.Stop(s, "turn-over-90", "to", string.Create(CultureInfo.InvariantCulture, $"The line turns by {Angles.ToDegrees(turn):0.##} degrees here: its middle lines meet too far out for one bend."), "Write two bends.");
        }
        else if (s.Point is not ElbowPoint { Bend: not null } && turn > (Math.PI / 2) + Tolerance.Turn)
        {
            make.Stop(s, "turn-over-90", "to", string.Create(CultureInfo.InvariantCulture, $"The line turns by {Angles.ToDegrees(turn):0.##} degrees here: no elbow turns more than 90."),
                "Use two elbows, or mend the direction of this leg or the next.");
        }

        return new(turn, is90, is45, isSlope);
    }

    /// <summary>Whether the forged elbow here is one of 45 degrees; another turn than 90 or 45 is told.</summary>
    public bool Forged(StationMaking make, Situation s)
    {
        if (Is90 || Is45)
            return Is45;
        if (IsSlope && (Math.Abs(Radians - (Math.PI / 2)) <= Slope.Slight || Math.Abs(Radians - (Math.PI / 4)) <= Slope.Slight))
        {
            var is45 = Radians < Math.PI / 3;
            make.Tell(s, "odd-turn-in-forged-fitting", Severity.Note, "to",
                string.Create(CultureInfo.InvariantCulture, $"With the slope the line turns by {Angles.ToDegrees(Radians):0.##} degrees here; the forged elbow turns {(is45 ? 45 : 90)}."), "Take the slope up in the two joints.");
            return is45;
        }

        make.Stop(s, "odd-turn-in-forged-fitting", "to", string.Create(CultureInfo.InvariantCulture, $"The line turns by {Angles.ToDegrees(Radians):0.##} degrees: socket-weld and threaded elbows turn 90 or 45 and cannot be cut."),
            "Make the turn 90 or 45, or use a butt-weld elbow (ends: butt).");
        return false;
    }

    /// <summary>The station of one part that turns the line, with the same end on both sides.</summary>
    public Station Station(Situation s, Bent part, PipeEnd end, double face, MaterialItem? item, bool isStated) => Routes.Station.Plain(s, end.Kind) with
    {
        In = end,
        InPart = 0,
        Out = end,
        OutPart = 0,
        Parts =
        [
            part with
            {
                Ways = [new(PortName.RunIn, Way.In, face, part.Outside, part.Inside), new(PortName.RunOut, Way.Out, face, part.Outside, part.Inside)],
            },
        ],
        Items = [item],
        IsItemStated = isStated,
    };
}
