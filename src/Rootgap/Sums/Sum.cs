using Rootgap.Measure;

namespace Rootgap.Sums;

/// <summary>A figure with the sum by which it was found, so that anyone can check it with a pencil.</summary>
/// <param name="Name">What it is, in a few words; the sums of others call it so.</param>
/// <param name="Value">In the unit of <see cref="Quantity"/>.</param>
/// <param name="Of">What it is an amount of.</param>
/// <param name="How">The sum in words and signs; empty where it was given.</param>
/// <param name="Source">Where the rule or the figure comes from.</param>
public sealed record Sum(string Name, double Value, Quantity Of, string How = "", string Source = "")
{
    /// <summary>Where a figure comes from that whoever asked has given.</summary>
    public const string GivenHere = "given";

    /// <summary>A figure that was given.</summary>
    public static Sum Given(string name, double value, Quantity of) => new(name, value, of, "", GivenHere);

    /// <summary>The figure in words, in one system of units.</summary>
    public string Says(Units units) => Amount.Say(Of, Value, units);
}
