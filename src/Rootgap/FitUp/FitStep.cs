namespace Rootgap.FitUp;

/// <summary>One joint in the order of work, as drawn.</summary>
/// <param name="Number">1, 2, ... in the order of work.</param>
/// <param name="Weld">The weld.</param>
/// <param name="Joint">The joint with the assembly that is held and the one that is brought.</param>
/// <param name="SetUp">How it stands.</param>
/// <param name="TurnOvers">How many tacked-up assemblies have to be turned over before it.</param>
/// <param name="CanRoll">Whether the weld can be rolled: everything joined so far swings clear of the floor about the pipe.</param>
/// <param name="InTheWay">Parts already joined that leave no room at a tack; nothing when the order is right.</param>
public sealed record FitStep(int Number, Routes.Joint Weld, FitJoint Joint, SetUp SetUp, int TurnOvers, bool CanRoll, IReadOnlyList<string> InTheWay)
{
    /// <summary>Mass that is brought to it, kg; at least, where parts of it have no known mass.</summary>
    public double Lift => Joint.Brought.Mass;
}
