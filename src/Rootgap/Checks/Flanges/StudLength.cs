using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class StudLength : Rule
{
    /// <summary>Studs come in steps of about 5 mm or a quarter inch, and tables differ by one step, mm.</summary>
    private const double OneStep = 7;

    /// <summary>A stud that is longer by more than this stands out of its nuts too far, mm.</summary>
    private const double TooLong = 13;

    public override string Name => "stud-length";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Studs are listed shorter or much longer than the flanges, the gasket and the nuts take.";
    public override string Why => "A short stud does not fill its nut; a long one takes no tensioner and rusts fast (ASME B16.5 tables of stud lengths; full engagement: ASME B31.3 335.2.3).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        if (materials.Count == 0)
            yield break;
        HashSet<string>? told = null;
        foreach (var set in fabrication.Bolting)
        {
            if (set.Length <= 0 || Nearest(materials, set) is not { Length: { } listed } item || !IsOff(listed, set.Length))
                continue;
            var fitsAnother = fabrication.Bolting.Any(b => b.Size == item.Size && b.Length > 0 && !IsOff(listed, b.Length));
            var row = fitsAnother ? set.Joint.Source : item.Source;
            if (!(told ??= []).Add(row.Path))
                continue;
            var off = listed - set.Length;
            yield return Found(row, fitsAnother ? "to" : "length",
                FormattableString.Invariant($"Joint {set.Joint.Id}, NPS {set.Joint.Size} class {set.Joint.Class}: studs {set.Size} x {set.Length:0} needed, {listed:0} listed: {Math.Abs(off):0} {(off < 0 ? "short" : "too long")}."),
                "List the length that the joint takes.", off < 0 ? "The nuts are not filled." : "The ends stick out of the nuts.", off < 0 ? null : Severity.Warn);
        }
    }

    private static bool IsOff(double listed, double needed) => listed < needed - OneStep || listed > needed + TooLong;

    private static MaterialItem? Nearest(IReadOnlyList<MaterialItem> materials, BoltSet set)
    {
        MaterialItem? nearest = null;
        foreach (var item in materials)
        {
            if (item.Words.Ware == Ware.StudBolt && item.Size == set.Size && item.Length is { } length && (nearest is null || Math.Abs(length - set.Length) < Math.Abs(nearest.Length!.Value - set.Length)))
                nearest = item;
        }

        return nearest;
    }
}
