using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.App.FitUp;

/// <summary>Readings as the page names them and as a fitter types them, in millimetres or feet and inches; angles in degrees. What a value looks like: <see cref="FitWords.Show"/>.</summary>
public static class ReadingWords
{
    /// <summary>The reading's name in the page: gap-12, scale-to-pipe-300, face-level-along.</summary>
    public static string Key(Reading reading) => string.Create(CultureInfo.InvariantCulture, $"{reading.Name.Replace(' ', '-')}{reading switch
    {
        Reading.Scale s => string.Create(CultureInfo.InvariantCulture, $"-{s.Station:0}"),
        Reading.FaceLevelAlong => "-along",
        Reading.FaceLevelAcross => "-across",
        Reading.Height { At: null } => "-middle",
        { Position: { } at } => string.Create(CultureInfo.InvariantCulture, $"-{at}"),
        _ => "",
    }}");

    /// <summary>Where on the joint, beside the kind of reading.</summary>
    public static string At(Reading reading, Units units) => reading switch
    {
        Reading.Scale s => s.Station < 0 ? Length(-s.Station, units) + " ahead" : Length(s.Station, units) + " back",
        Reading.FaceLevelAlong => "along",
        Reading.FaceLevelAcross => "across",
        Reading.Height { At: null } => "middle",
        { Position: { } at } => at.ToString(CultureInfo.InvariantCulture),
        _ => "",
    };

    /// <summary>What is read, and from where to where.</summary>
    public static string Where(Reading reading, StandingJoint joint, Units units)
    {
        var (held, brought) = (joint.Joint.Held.Label, joint.Joint.New.Label);
        return reading switch
        {
            Reading.Gap => "between the bevel noses",
            Reading.HiLo => $"step of the insides; plus where {brought} stands out",
            Reading.Tape => joint.Joint.Weld == FitWeld.Branch
                ? $"from the mark on {held}, {Length(joint.Mark, units)} along it, straight to the lip of {brought}'s free face"
                : $"from the mark {Length(joint.Mark, units)} back on {held}, straight to the lip of {brought}'s free face",
            Reading.Scale => $"scale flat on {brought}'s free face, in the plane of the bend: square from it down to the pipe's outside",
            Reading.FaceLevelAlong => "slope of the free face along the bend; plus where the throat, or 12, is higher",
            Reading.FaceLevelAcross => "slope of the free face across the bend; plus where the 3 o'clock end is higher",
            Reading.Height => joint.SetUp.Attitude == Attitude.OnEnd ? "above the plate it stands on" : "above the floor",
            Reading.Plumb => $"level, from the plumb line at the lip to the mark on {held}",
            Reading.Holes => joint.Joint.Holes is { MidHeight: true } ? "slope across the left and right pin near mid-height; plus where the 3 o'clock one is higher" : "slope across the two pins that straddle the top; plus where the 3 o'clock one is higher",
            Reading.FlatLevel => "slope along the reducer's flat; plus where its far end is higher",
            Reading.HoleLine => "turn of the line over the two pins against plant north; plus clockwise, looking at the face",
            Reading.Square => $"tongue on {brought}'s face, blade {(units == Units.Inches ? LengthText.FeetInches(300) : "300 mm")} along the pipe; plus where the blade's far end stands farther off",
            Reading.StraightEdge => $"step of the outsides over the weld; plus where {brought} stands out",
            Reading.EndTape => $"from the lip of {joint.Joint.HeldEnd?.Label}'s open end straight to the lip of {brought}'s free face",
            Reading.OutOfSquare => $"{brought} by itself, before it is fitted: its free face against a square on its weld end, across the whole face; plus where the face stands out",
            Reading.OutOfRound => $"{brought} by itself, before it is fitted: greatest less least diameter of its weld end",
            Reading.TurnMark => $"round the outside, from the mark on {held} to the mark on {brought}; plus clockwise, looking into {brought}",
            _ => $"from {held}'s far lip on the other side to {brought}'s lip",
        };
    }

    public static string Unit(Reading reading, Units units) => reading.IsAngle || units == Units.Inches ? "" : "mm";

    /// <summary>Reads what was typed: mm or radians; null with what is wrong.</summary>
    public static double? Read(Reading reading, string typed, Units units, out string wrong) => Read(reading.IsAngle, typed, units, out wrong);

    /// <summary>Reads an angle or a length that was typed: mm or radians; null with what is wrong.</summary>
    public static double? Read(bool isAngle, string typed, Units units, out string wrong)
    {
        wrong = "";
        var text = typed.Trim();
        if (isAngle)
        {
            if (double.TryParse(text.TrimEnd('°').Replace(',', '.').Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees) && Math.Abs(degrees) <= 360)
                return Angles.ToRadians(degrees);
            wrong = $"\"{text}\" is no angle: write degrees such as 0.3 or -0.3.";
            return null;
        }

        if (LengthText.TryParse(units == Units.Millimetres ? text.Replace(',', '.') : text, units, out var mm))
            return mm;
        wrong = units == Units.Inches ? $"\"{text}\" is no length: write such as 2'-0 1/8, 24 1/8 or 0.125." : $"\"{text}\" is no length: write millimetres such as 612.5.";
        return null;
    }

    private static string Length(double mm, Units units) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.WholeMillimetres(mm);
}
