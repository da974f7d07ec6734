using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Sums;

/// <summary>How much of what is bought becomes weld metal, and how long a weld takes, by published planning figures.</summary>
/// <param name="Process">A name of <see cref="Processes"/>.</param>
/// <param name="Efficiency">Weld metal against filler bought, 0 to 1.</param>
public sealed record Filler(string Process, double Efficiency, string Source)
{
    public const string Stick = "stick";

    /// <summary>The shop's rules name no process: it is reckoned as for this one, and whoever buys has to be told.</summary>
    public bool IsAssumed { get; init; }

    private const string Table = "filler";

    /// <summary>Names of the processes that have a figure.</summary>
    public static IReadOnlyList<string> Processes { get; } = [Stick, "solid wire", "flux-cored with gas", "flux-cored without gas", "rod", "submerged arc"];

    /// <summary>A process by the table; null where it has none of that name.</summary>
    public static Filler? Of(string process) =>
        StandardTable.Find(Table, "filler " + process, "efficiency", default) is { } row ? new(process, row.Figure, row.Source) : null;

    /// <summary>Stick electrodes by their length and the stub that is thrown away, mm.</summary>
    public static Filler Sticks(double length, double stub)
    {
        var burnt = StandardTable.Find(Table, "filler stick", "efficiency of the burnt part", default)!;
        return new(Stick, burnt.Figure * (length - stub) / length, $"{burnt.Figure} × (length − stub) / length; {burnt.Source}");
    }

    /// <summary>What is to be bought for so much weld metal, kg.</summary>
    public double ToBuy(double metal) => metal / Efficiency;

    /// <summary>Published hours for a diameter-inch of butt weld by hand (cut, fitted and welded), by wall; null where none was read for the wall.</summary>
    public static StandardRow? HoursPerInch(double wall) =>
        StandardTable.Rows(Table).FirstOrDefault(r => r.Item == "weld hours" && Between(r.Class, wall));

    private static bool Between(string band, double wall)
    {
        var ends = band.Split(" to ");
        return ends is [var low, var high]
            && double.Parse(low, System.Globalization.CultureInfo.InvariantCulture) is var from && double.Parse(high, System.Globalization.CultureInfo.InvariantCulture) is var upTo
            && wall > from && wall <= upTo + 0.01;
    }
}
