using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Sums;

/// <summary>On which area of a thread a bolt stress is meant.</summary>
public enum BoltArea
{
    /// <summary>At the root of the thread: ASME PCC-1's own table stands on it.</summary>
    Root,

    /// <summary>The tensile stress area, 4 to 11 % more.</summary>
    Stress,
}

/// <summary>What a bolt is drawn to, by those who answer for the joint.</summary>
/// <param name="Stress">Target stress, N/mm².</param>
/// <param name="Area">On which area it is meant.</param>
/// <param name="NutFactor">Torque against diameter and load.</param>
/// <param name="Source">Whose figures they are.</param>
public sealed record BoltingRule(double Stress, BoltArea Area, double NutFactor, string Source)
{
    /// <summary>For which the nut factor holds; empty where it is not said.</summary>
    public string Lubricant { get; init; } = "";
}

/// <summary>The load of a bolt and the torque that gives it: torque = nut factor × diameter × load.</summary>
/// <param name="Load">N.</param>
/// <param name="Diameter">mm.</param>
public sealed record BoltLoad(double Load, double Diameter, double NutFactor)
{
    public const string Rule = "fasteners makers' charts; ASME PCC-1 section 12";

    /// <summary>N m.</summary>
    public double Torque => NutFactor * Diameter / 1000 * Load;

    /// <summary>As it is set on a wrench: to 5 N m, or to 5 ft lb.</summary>
    public double TorqueSet(Units units)
    {
        var step = units == Units.Inches ? 5 * Amount.PoundForce * 12 * LengthText.Inch / 1000 : 5;
        return Math.Max(1, Math.Round(Torque / step, MidpointRounding.AwayFromZero)) * step;
    }

    /// <summary>The area of a thread; null where the table has no such bolt.</summary>
    public static StandardRow? AreaOf(NominalSize bolt, BoltArea area) =>
        StandardTable.Find("bolts", "bolt", area == BoltArea.Root ? "root area" : "stress area", bolt);

    /// <summary>The area of a metric thread, by its name: <c>M20</c> is the coarse one, <c>M36x3</c> of 3 mm pitch; null where the table has none.</summary>
    public static StandardRow? AreaOf(string metric, BoltArea area) =>
        StandardTable.Find("metric-bolts", "metric bolt", area == BoltArea.Root ? "root area" : "stress area", default, @class: metric);

    /// <summary>A bolt under a rule; null where the table has no such bolt.</summary>
    public static BoltLoad? Of(NominalSize bolt, BoltingRule rule) =>
        AreaOf(bolt, rule.Area) is { Mm: { } area } ? new(rule.Stress * area, bolt.Inches * LengthText.Inch, rule.NutFactor) : null;

    public IEnumerable<Sum> Sums(Units units)
    {
        yield return new("load of one bolt", Load, Quantity.Force, "stress × area", "");
        yield return new("torque", Torque, Quantity.Torque, "nut factor × diameter × load", Rule);
        yield return new("torque to set", TorqueSet(units), Quantity.Torque, units == Units.Inches ? "to the next 5 ft lb" : "to the next 5 N m", "");
    }
}
