using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>The attitudes in which a joint can be fitted.</summary>
public enum Attitude
{
    /// <summary>Pipe axis upright, standing on its far squared end.</summary>
    OnEnd,

    /// <summary>Pipe axis level on two stands, the new part's free face up.</summary>
    Level,

    /// <summary>As level, turned about the pipe, a quarter unless said otherwise: the new part leads sideways, toward 3 o'clock.</summary>
    Rolled,
}

/// <summary>A stand under the held pipe.</summary>
/// <param name="FromWeld">Distance back from the weld's centre along the pipe, mm.</param>
/// <param name="Load">kg, with the new part on; below zero the pipe would tip.</param>
public sealed record FitStand(double FromWeld, double Load);

/// <summary>A joint's attitude on the floor.</summary>
/// <param name="Attitude">On end, level or rolled.</param>
/// <param name="Up">Unit: where up is in the shop, written in plant axes (the part keeps its plant coordinates; the shop is turned round it).</param>
/// <param name="Roll">How far the pipe is turned about its axis from level, degrees, what looked up going toward 3 o'clock; 0 on end and level.</param>
/// <param name="Floor">Any place on the floor.</param>
/// <param name="Stands">The stands; none on end.</param>
/// <param name="Cautions">What a fitter must know before standing it so; empty when nothing speaks against it.</param>
public sealed record SetUp(Attitude Attitude, double Roll, Vector Up, Point Floor, IReadOnlyList<FitStand> Stands, IReadOnlyList<string> Cautions)
{
    /// <summary>Underside of the pipe above the floor on stands, mm: a comfortable working height (shop rule).</summary>
    public const double DefaultHeight = 900;

    /// <summary>Longest piece that is stood on end, mm (shop rule).</summary>
    public const double LongestOnEnd = 1200;

    public double HeightOf(Point p) => (p - Floor).Dot(Up);

    /// <summary>The word for a set-up: on end, level, rolled (a quarter), or rolled with its degrees.</summary>
    public string Word => Attitude switch
    {
        Attitude.OnEnd => "on end",
        Attitude.Level => "level",
        _ => Math.Abs(Roll - QuarterTurn) < 0.05 ? "rolled" : Text($"rolled {Roll:0.#}"),
    };

    private const double QuarterTurn = 90;

    /// <summary>Reads "on end", "level", "rolled" or "rolled 270"; null where it is none of these.</summary>
    public static (Attitude Attitude, double Roll)? Parse(string word)
    {
        var text = word.Trim().ToUpperInvariant();
        switch (text)
        {
            case "ON END" or "ON-END":
                return (Attitude.OnEnd, 0);
            case "LEVEL":
                return (Attitude.Level, 0);
            case "ROLLED":
                return (Attitude.Rolled, QuarterTurn);
            default:
                return text.StartsWith("ROLLED ", StringComparison.Ordinal)
                    && double.TryParse(text.AsSpan(7), NumberStyles.Float, CultureInfo.InvariantCulture, out var roll) && Math.Abs(roll) <= 360
                    ? (Attitude.Rolled, roll) : null;
        }
    }

    /// <summary>The attitude a single joint is fitted in when nobody chose: short pieces that stand safely on end, all others level.</summary>
    public static SetUp Usual(FitJoint joint)
    {
        var onEnd = Of(joint, Attitude.OnEnd);
        return onEnd.Cautions.Count == 0 ? onEnd : Of(joint, Attitude.Level);
    }

    public static SetUp Of(FitJoint joint, Attitude attitude, double roll = QuarterTurn, double height = DefaultHeight) => attitude switch
    {
        Attitude.OnEnd => OnEnd(joint),
        Attitude.Level => OnStands(joint, attitude, 0, height),
        Attitude.Rolled => OnStands(joint, attitude, roll, height),
        _ => throw new ArgumentOutOfRangeException(nameof(attitude)),
    };

    /// <summary>A set-up with a given up direction, as the order of work plans it: level, or rolled by what that direction asks for.</summary>
    public static SetUp Of(FitJoint joint, Attitude attitude, Vector up)
    {
        if (attitude == Attitude.OnEnd)
            return OnEnd(joint);
        var (level, about) = (LevelUp(joint), RollAxis(joint));
        var roll = Angles.ToDegrees(Math.Atan2(up.Cross(level).Dot(about), level.Dot(up.SquareTo(about).Unit)));
        // Half a degree is what shims take up; 270 reads better than -90.
        return Math.Abs(roll) < 0.5 ? Of(joint, Attitude.Level) : Of(joint, Attitude.Rolled, Math.Round(roll < 0 ? roll + 360 : roll, 1));
    }

    private static SetUp OnEnd(FitJoint joint)
    {
        List<string> cautions = [];
        if (joint.HeldStraight <= 0 || !joint.HeldTurn.IsStraight || joint.Weld == FitWeld.Branch)
            cautions.Add(Text($"{joint.Held.Id} is not a straight pipe: it has no squared end to stand on"));
        else if (joint.OnEndLimit < joint.HeldStraight)
            cautions.Add(Text($"{joint.Held.Id} is {joint.HeldStraight:0} mm long, over {joint.OnEndLimit:0} mm: too tall to stand on end"));
        var mass = joint.Held.Mass + joint.New.Mass;
        if (mass > 0)
        {
            var centre = Balance(joint);
            var off = (centre - joint.HeldFar.Centre).SquareTo(joint.Axis).Length;
            // A third of the base circle's radius to spare: the shop's rule for standing safely.
            if (joint.HeldFar.Outside / 2 * 2 / 3 < off)
                cautions.Add(Text($"the centre of mass of both parts is {off:0} mm off the middle of the base: it would tip"));
        }
        return new SetUp(Attitude.OnEnd, 0, joint.Axis, joint.HeldFar.Centre, [], cautions);
    }

    private static SetUp OnStands(FitJoint joint, Attitude attitude, double roll, double height)
    {
        // Turning the pipe so that what looked up goes toward 3 o'clock turns the shop's up the other way round the part.
        var up = LevelUp(joint).Turned(RollAxis(joint), -Angles.ToRadians(roll));
        if (joint.Weld == FitWeld.Branch)
            return new SetUp(attitude, roll, up, joint.Centre - (joint.Axis * (joint.HeaderOutside / 2)) - (up * (height + (joint.HeaderOutside / 2))), HeaderStands(joint), []);
        var (stands, cautions) = PipeStands(joint);
        return new SetUp(attitude, roll, up, joint.Centre - (up * (height + (joint.Outside / 2))), stands, cautions);
    }

    private static Point Balance(FitJoint joint) =>
        joint.Held.Centre.Toward(joint.New.Centre, joint.New.Mass / (joint.Held.Mass + joint.New.Mass));

    // Two stands about a fifth of the length from each end. Where the new part would lift the far one, the near stand goes closer to the weld;
    // where even that does not hold, a third support under the new part is asked for.
    private static (IReadOnlyList<FitStand>, IReadOnlyList<string>) PipeStands(FitJoint joint)
    {
        var length = joint.HeldStraight;
        if (length <= 0)
            return ([], [Text($"{joint.Held.Id} is a fitting: hold it on a V-block or by the pipe it is already tacked to")]);
        var mass = joint.Held.Mass + joint.New.Mass;
        var end = joint.Centre - (joint.Axis * (joint.Gap / 2));
        var back = mass > 0 ? -(Balance(joint) - end).Dot(joint.Axis) : length / 2;
        var far = 0.8 * length;
        foreach (var share in (double[])[0.2, 0.15, 0.1, 0.05])
        {
            var near = share * length;
            var farLoad = mass * (back - near) / (far - near);
            if (mass <= 0 || (0 < farLoad && farLoad < mass))
                return ([new(near, mass - farLoad), new(far, farLoad)], []);
        }
        var tip = 0.05 * length;
        var lifts = mass * (back - tip) / (far - tip);
        return ([new(tip, mass - lifts), new(far, lifts)], [Text($"{joint.New.Id} outweighs the pipe behind the near stand: put a third stand under it, or hold it from above, before letting go")]);
    }

    private static IReadOnlyList<FitStand> HeaderStands(FitJoint joint)
    {
        var mass = joint.Held.Mass + joint.New.Mass;
        return [new(0, mass)];
    }

    // Where up is when the pipe lies level: the new part's side; a straight part keeps the line's own up, or north where the line stands upright.
    private static Vector LevelUp(FitJoint joint)
    {
        if (joint.Weld == FitWeld.Branch)
            return joint.Axis;
        return joint.Turn.IsStraight ? AsDrawnTop(joint.Axis) : joint.Turn.Side;
    }

    private static Vector RollAxis(FitJoint joint) => joint.Weld == FitWeld.Branch ? joint.Header : joint.Axis;

    /// <summary>The top of a line as drawn: nearest to up, or to north where it is within 5 degrees of upright.</summary>
    internal static Vector AsDrawnTop(Vector axis)
    {
        var up = Vector.Up.SquareTo(axis);
        return StandingJoint.FiveDegrees <= up.Length ? up.Unit : Vector.North.SquareTo(axis).Unit;
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
