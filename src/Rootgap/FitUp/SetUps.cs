using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>The set-up of a joint by itself, when no order of work says how it stands.</summary>
public static class SetUps
{
    /// <summary>The attitude in which two parts alone are fitted when nobody chose: short pieces that stand safely on end, all others level.</summary>
    public static SetUp Usual(FitJoints fitting, FitJoint joint)
    {
        var standing = new Stances(joint, fitting.Net, fitting.Rules);
        return standing.OnEnd() is { Footing: Footing.Free } upright ? standing.Named(upright) : Of(fitting, joint, Attitude.Level);
    }

    /// <summary>The set-up of a joint in an attitude that somebody asks for; what speaks against it stands among its cautions.</summary>
    public static SetUp Of(FitJoints fitting, FitJoint joint, Attitude attitude, double roll = SetUp.QuarterTurn)
    {
        var standing = new Stances(joint, fitting.Net, fitting.Rules);
        if (attitude == Attitude.OnEnd)
        {
            if (standing.OnEnd() is { } upright)
                return standing.Named(upright);
            // A pipe too tall or too heavy on top may still be asked for: its far end is what it would stand on.
            return new(Attitude.OnEnd, 0, joint.Axis, joint.HeldFar.Centre, [new(SupportKind.Base, joint.Held.Id, joint.HeldFar.Centre, joint.HeldSide.Mass, joint.Both.Mass)], [standing.WhyNot(Attitude.OnEnd)]);
        }

        if (attitude == Attitude.Clamped)
            return standing.Named(standing.Clamped(SetUp.LevelUp(joint, joint.Axis)));
        var about = joint.Header != Vector.Zero ? joint.Header : joint.Axis;
        roll = attitude == Attitude.Level ? 0 : roll;
        // Turning the pipe so that what looked up goes toward 3 o'clock turns the shop's up the other way round the part.
        var up = SetUp.LevelUp(joint, about).Turned(about, -Angles.ToRadians(roll));
        if (standing.OnStands(up, about) is { } stance)
            return standing.Named(stance) with { Attitude = attitude, Roll = roll };
        var axis = joint.Header != Vector.Zero ? joint.Centre - (joint.Axis * ((joint.Gap / 2) + (joint.HeaderOutside / 2))) : joint.Centre;
        var height = fitting.Rules.StandHeight;
        return new(attitude, roll, up, axis - (up * (height + ((joint.Header != Vector.Zero ? joint.HeaderOutside : joint.Outside) / 2))),
            [standing.Clamped(up).Stands[0]], [standing.WhyNot(attitude)])
        { StandHeight = height };
    }

    /// <summary>Why a joint cannot stand in an attitude.</summary>
    public static void Refused(FitJoints fitting, FitJoint joint, Attitude attitude, out string why) => why = new Stances(joint, fitting.Net, fitting.Rules).WhyNot(attitude);

    /// <summary>Whether anything square stands under the joint, so that it can be asked for on end.</summary>
    public static bool HasBase(FitJoint joint) => joint.Weld != FitWeld.Branch && joint.HeldStraight > 0 && joint.HeldTurn.IsStraight;
}
