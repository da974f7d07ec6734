using Rootgap.Drawings;

namespace Rootgap.FitUp;

/// <summary>The shop's rules for standing things up. mm, kg; all are common practice, and a shop may write its own where the drawing file has a key.</summary>
public sealed record FitRules
{
    /// <summary>Longest piece that is stood on end.</summary>
    public double OnEndLimit { get; init; } = 1200;

    /// <summary>Stands: underside of the pipe over the floor.</summary>
    public double StandHeight { get; init; } = 900;

    /// <summary>Highest that stands are screwed up.</summary>
    public double HighestStand { get; init; } = 1250;

    /// <summary>What hangs down stays clear of the floor by this.</summary>
    public double OverFloor { get; init; } = 50;

    /// <summary>Heaviest that is held in a pipe vice, with all that is on it.</summary>
    public double ViceLimit { get; init; } = 25;

    /// <summary>A stand keeps clear of ends and welds by this.</summary>
    public double Clear { get; init; } = 100;

    /// <summary>Least distance between two stands; half the longer piece besides.</summary>
    public double Apart { get; init; } = 300;

    /// <summary>Least share of the weight on each of two stands, and of three.</summary>
    public double ShareOfTwo { get; init; } = 0.2;

    public double ShareOfThree { get; init; } = 0.1;

    /// <summary>By how much a part's mass may differ from what is reckoned.</summary>
    public double MassSpread { get; init; } = 0.1;

    /// <summary>On end it stands free up to this share of the base's radius; tied back up to twice of it.</summary>
    public double FreeShare { get; init; } = 1.0 / 3;

    /// <summary>On end it stands free up to this height of its centre, in diameters of the base.</summary>
    public double FreeHeight { get; init; } = 3;

    /// <summary>
    /// On V-heads in one line it keeps still while its centre is this share of the pipe's diameter from the upright plane through the axis: a 90 degree V-head with friction
    /// 0.15 holds a tenth, half of which is kept.
    /// </summary>
    public double SteadyBeside { get; init; } = 0.05;

    /// <summary>What a chain clamp holds at the pipe's outside against rolling, N; more is held by a third stand off the line where there is a place for one (common practice).</summary>
    public double ChainGrip { get; init; } = 1000;

    /// <summary>What one chain holds against the moment of a weight, N m: its grip at the outside of the pipe, given in mm.</summary>
    public double ChainMoment(double outside) => ChainGrip * outside / 2000;

    /// <summary>What a pipe vice on the bench holds of the weight that overhangs, N m (common practice).</summary>
    public double ViceGrip { get; init; } = 100;

    /// <summary>And while its centre is no higher over the axis than this share of the diameter.</summary>
    public double SteadyOver { get; init; } = 0.5;

    public static FitRules Of(ShopRules shop) => new()
    {
        OnEndLimit = shop.OnEndLimit, StandHeight = shop.StandHeight, HighestStand = Math.Max(shop.HighestStand, shop.StandHeight), ViceLimit = shop.ViceLimit, FreeHeight = shop.OnEndHeight,
    };
}
