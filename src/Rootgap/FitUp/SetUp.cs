using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>The attitudes in which a joint can be fitted.</summary>
public enum Attitude
{
    /// <summary>Upright, standing on its lowest end on a plate.</summary>
    OnEnd,

    /// <summary>Pipe axis level on stands, the new part's free face up.</summary>
    Level,

    /// <summary>As level, turned about the pipe, a quarter unless said otherwise.</summary>
    Rolled,

    /// <summary>Chained into a V-block, bolted to the fitting table, or in a pipe vice.</summary>
    Clamped,
}

/// <summary>What a support is.</summary>
public enum SupportKind
{
    Stand,

    /// <summary>A third stand, or a screw jack, set before the hook is let off.</summary>
    Third,

    /// <summary>A pull to the floor, or to a weight of one and a half times it.</summary>
    TieDown,

    /// <summary>The end that is stood on, on a plate.</summary>
    Base,

    /// <summary>A line to a post that keeps it from leaning.</summary>
    TieBack,

    Clamp,
}

/// <summary>Something that holds what stands.</summary>
/// <param name="Part">Id of the part that it is under, or holds.</param>
/// <param name="At">On the part's axis, as drawn.</param>
/// <param name="Before">What it carries or pulls before the new part is brought, kg; null where it is set for after, and where a mass is not known.</param>
/// <param name="After">With the new part on and the hook off, kg; null where a mass is not known.</param>
/// <param name="Along">How far from the nearer end of the part, mm.</param>
/// <param name="FromEnd">Index of that end.</param>
public sealed record FitStand(SupportKind Kind, string Part, Point At, double? Before, double? After, double Along = 0, int FromEnd = 0)
{
    /// <summary>Moment of the weight about a clamp, N m.</summary>
    public double? MomentBefore { get; init; }
    public double? MomentAfter { get; init; }

    /// <summary>The word in files; empty for a plain stand.</summary>
    public string Word => Kind switch
    {
        SupportKind.Third => "third",
        SupportKind.TieDown => "tie-down",
        SupportKind.Base => "base",
        SupportKind.TieBack => "tie-back",
        SupportKind.Clamp => "clamp",
        _ => "",
    };
}

/// <summary>Whether what lies on stands in one line keeps still on them.</summary>
/// <param name="Before">How far beside the upright plane through the axis the centre of mass lies, mm, before the new part is brought.</param>
/// <param name="After">With it on, mm.</param>
/// <param name="IsSteady">Friction on V-heads holds it, before and after.</param>
/// <param name="Moment">The larger moment of the weight about the axis, N m.</param>
/// <param name="Toward">Level direction toward which it would roll, unit; zero where it hardly would.</param>
/// <param name="KeptBy">What keeps it; empty where it is steady.</param>
public sealed record Rolling(double Before, double After, bool IsSteady, double Moment, Vector Toward, string KeptBy);

/// <summary>A joint's attitude on the floor.</summary>
/// <param name="Attitude">On end, level, rolled or clamped.</param>
/// <param name="Up">Unit: where up is in the shop, written in plant axes (the part keeps its plant coordinates; the shop is turned round it).</param>
/// <param name="Roll">How far the pipe is turned about its axis from level, degrees, what looked up going toward 3 o'clock; 0 on end and level.</param>
/// <param name="Floor">Any place on the floor, or on the plate that it stands on.</param>
/// <param name="Stands">What holds it; the first is that by which it is set level.</param>
/// <param name="Cautions">What a fitter must know before standing it so; empty when nothing speaks against it.</param>
public sealed record SetUp(Attitude Attitude, double Roll, Vector Up, Point Floor, IReadOnlyList<FitStand> Stands, IReadOnlyList<string> Cautions)
{
    /// <summary>Underside of the pipe over the floor, mm; 0 where it does not lie on stands.</summary>
    public double StandHeight { get; init; }

    /// <summary>Whether it keeps still on its stands; null where they do not stand in one line.</summary>
    public Rolling? Rolling { get; init; }

    /// <summary>What stands under it from the beginning or is set later, by the names that pictures and words give: S1, S2, S3.</summary>
    public IEnumerable<(string Name, FitStand Stand)> Named =>
        Stands.Where(s => s.Kind is SupportKind.Stand or SupportKind.Third).Select((s, i) => (FormattableString.Invariant($"S{i + 1}"), s));

    /// <summary>Id of the part that stands: by which everything is set level; empty where nothing stands.</summary>
    public string Base => Stands.Count > 0 ? Stands[0].Part : "";

    public double HeightOf(Point p) => (p - Floor).Dot(Up);

    /// <summary>The word for a set-up: on end, level, clamped, rolled (a quarter), or rolled with its degrees.</summary>
    public string Word => Attitude switch
    {
        Attitude.OnEnd => "on end",
        Attitude.Level => "level",
        Attitude.Clamped => "clamped",
        _ => Math.Abs(Roll - QuarterTurn) < 0.05 ? "rolled" : string.Create(CultureInfo.InvariantCulture, $"rolled {Roll:0.#}"),
    };

    internal const double QuarterTurn = 90;

    /// <summary>What a set-up may be called.</summary>
    public const string Words = "on end, level, clamped, rolled, or rolled with degrees such as rolled 270";

    /// <summary>Reads "on end", "level", "clamped", "rolled" or "rolled 270"; null where it is none of these.</summary>
    public static (Attitude Attitude, double Roll)? Parse(string word)
    {
        var text = word.Trim().ToUpperInvariant();
        switch (text)
        {
            case "ON END" or "ON-END":
                return (Attitude.OnEnd, 0);
            case "LEVEL":
                return (Attitude.Level, 0);
            case "CLAMPED":
                return (Attitude.Clamped, 0);
            case "ROLLED":
                return (Attitude.Rolled, QuarterTurn);
            default:
                return text.StartsWith("ROLLED ", StringComparison.Ordinal)
                    && double.TryParse(text.AsSpan(7), NumberStyles.Float, CultureInfo.InvariantCulture, out var roll) && Math.Abs(roll) <= 360
                    ? (Attitude.Rolled, roll) : null;
        }
    }

    /// <summary>Where up is when the pipe lies level: the side to which the free face looks; else the line's own up, or north where the line stands upright.</summary>
    /// <param name="about">Unit, along the pipe that lies level.</param>
    internal static Vector LevelUp(FitJoint joint, Vector about)
    {
        if (joint.Weld == FitWeld.Branch && joint.Header != Vector.Zero && Math.Abs(joint.Axis.Dot(about)) < 0.5)
            return joint.Axis.SquareTo(about).Unit;
        Vector[] wishes = [joint.Turn.IsStraight ? Vector.Zero : joint.Turn.Side, joint.Far?.Normal ?? Vector.Zero];
        foreach (var wish in wishes)
        {
            if (wish.SquareTo(about) is var side && side.Length > 0.5)
                return side.Unit;
        }

        return AsDrawnTop(about);
    }

    /// <summary>How far up is turned from level about a pipe, degrees, 0 to 360; 0 within the half degree that shims take up.</summary>
    internal static double RollOf(Vector level, Vector up, Vector about)
    {
        var roll = Angles.ToDegrees(Math.Atan2(up.Cross(level).Dot(about), level.Dot(up)));
        return Math.Abs(roll) < 0.5 ? 0 : Math.Round(roll < 0 ? roll + 360 : roll, 1);
    }

    /// <summary>The top of a line as drawn: nearest to up, or to north where it is within 5 degrees of upright.</summary>
    internal static Vector AsDrawnTop(Vector axis)
    {
        var up = Vector.Up.SquareTo(axis);
        return StandingJoint.FiveDegrees <= up.Length ? up.Unit : Vector.North.SquareTo(axis).Unit;
    }
}
