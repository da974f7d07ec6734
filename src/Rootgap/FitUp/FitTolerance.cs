using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A limit and where it comes from: mm or radians.</summary>
public sealed record FitLimit(double Value, string Source);

/// <summary>What a shop has decided for itself; null leaves the published limit.</summary>
/// <param name="FaceAngle">Angle of a face, degrees.</param>
/// <param name="HoleRotation">Turning of a flange at its bolt circle, mm.</param>
/// <param name="HiLo">Internal step, mm.</param>
/// <param name="Gap">Root gap, mm either way.</param>
public sealed record FitShopLimits(double? FaceAngle = null, double? HoleRotation = null, double? HiLo = null, double? Gap = null)
{
    public static readonly FitShopLimits None = new();
}

/// <summary>How far off the new part may be at one joint: the strictest of the published limits, or the shop's own rule.</summary>
/// <param name="Tilt">Angle out of line in any direction, radians.</param>
/// <param name="Roll">Turn about the pipe, radians; infinite where turning changes nothing.</param>
/// <param name="Shift">Offset of the bores, mm.</param>
/// <param name="Gap">Change of the root gap at the centre, mm.</param>
public sealed record FitTolerance(FitLimit Tilt, FitLimit Roll, FitLimit Shift, FitLimit Gap)
{
    private static readonly Lazy<IReadOnlyList<Row>> Table = new(Read);

    private sealed record Row(string What, double From, double To, double Value, string Source);

    public static FitTolerance Of(FitJoint joint, double nps, FitShopLimits? shop = null)
    {
        var face = joint.Far?.Outside ?? joint.Outside;
        List<FitLimit> angles = [FaceAngle(face, nps)];
        if (joint.Holes is not null)
        {
            var faces = Find("flange faces", nps);
            angles.Add(new(faces.Value / 1000, faces.Source));
        }
        else if (joint.New.Kind is "elbow" or "tee" or "reducer" && TryFind("fitting off angle", nps) is { } off)
        {
            angles.Add(new(off.Value / face, off.Source));
        }
        var tilt = shop?.FaceAngle is { } own ? new FitLimit(Angles.ToRadians(own), ShopRule) : angles.MinBy(a => a.Value)!;
        var roll = joint.Holes is { } holes ? HoleRoll(holes, nps, shop)
            : joint.RollIsFree ? new FitLimit(double.PositiveInfinity, "turning it changes nothing") : tilt;
        return new FitTolerance(tilt, roll, Own(shop?.HiLo, "hi-lo", nps), Own(shop?.Gap, "gap", nps));
    }

    /// <summary>Step of the bores and change of the root gap at a butt weld that is read by gauges alone.</summary>
    /// <param name="hiLo">The shop's own step, mm; null for the published one.</param>
    public static (FitLimit HiLo, FitLimit Gap) OfSeam(double nps, double? hiLo) => (Own(hiLo, "hi-lo", nps), Own(null, "gap", nps));

    /// <summary>How far an end of a finished spool may be off, seen from another end: the linear limit along and across, the face's angle, and the holes.</summary>
    /// <param name="end">The end.</param>
    /// <param name="nps">The spool's largest size, inches.</param>
    /// <param name="linear">The shop's own linear limit, mm; null for the published one.</param>
    /// <param name="angle">The shop's own angle of a face, degrees.</param>
    public static FitTolerance OfEnd(OpenEnd end, double nps, double? linear, double? angle)
    {
        var length = linear is { } own ? new FitLimit(own, ShopRule) : Length(nps);
        List<FitLimit> angles = [FaceAngle(end.Outside, nps)];
        if (end.Holes is not null)
        {
            var faces = Find("flange faces", nps);
            angles.Add(new(faces.Value / 1000, faces.Source));
        }

        return new FitTolerance(
            angle is { } shop ? new FitLimit(Angles.ToRadians(shop), ShopRule) : angles.MinBy(a => a.Value)!,
            end.Holes is { } holes ? HoleRoll(holes, nps, null) : new FitLimit(double.PositiveInfinity, "turning it changes nothing"), length, length);
    }

    // The greater of so much across the face and so much per metre.
    private static FitLimit FaceAngle(double face, double nps)
    {
        var (least, slope) = (Find("face angle at least", nps), Find("face angle", nps));
        return slope.Value / 1000 < least.Value / face ? new(least.Value / face, least.Source) : new(slope.Value / 1000, slope.Source);
    }

    /// <summary>Linear limit on a finished spool, mm, by size: 3 to NPS 10, 5 to 24, 6 to 36, 2 more for each 12 in. above.</summary>
    public static FitLimit Length(double nps)
    {
        var row = TryFind("length", Math.Min(nps, 36)) ?? Table.Value.First(r => r.What == "length" && nps <= r.To);
        return new FitLimit(row.Value + (36 < nps ? 2 * Math.Ceiling((nps - 36) / 12) : 0), row.Source);
    }

    /// <summary>Whether an error is inside all limits; components that do not matter are not asked.</summary>
    public bool Holds(in PoseError e) =>
        e.Shift <= Shift.Value && Math.Abs(e.Z) <= Gap.Value && e.Tilt <= Tilt.Value && Math.Abs(e.Rz) <= Roll.Value;

    /// <summary>How much of each component is allowed, in the order of <see cref="PoseError.Names"/>.</summary>
    internal double[] Each => [Shift.Value, Shift.Value, Gap.Value, Tilt.Value, Tilt.Value, Roll.Value];

    private const string ShopRule = "the shop's own rule";

    private static FitLimit HoleRoll(FitHoles holes, double nps, FitShopLimits? shop)
    {
        var at = shop?.HoleRotation is { } own ? new FitLimit(own, ShopRule) : Own(null, "hole rotation", nps);
        return at with { Value = at.Value / (holes.Circle / 2) };
    }

    private static FitLimit Own(double? own, string what, double nps)
    {
        if (own is { } value)
            return new FitLimit(value, ShopRule);
        var row = Find(what, nps);
        return new FitLimit(row.Value, row.Source);
    }

    private static Row Find(string what, double nps) =>
        TryFind(what, nps) ?? throw new InvalidOperationException("No fit-up tolerance: " + what);

    private static Row? TryFind(string what, double nps)
    {
        foreach (var row in Table.Value)
        {
            if (row.What == what && row.From <= nps && nps <= row.To)
                return row;
        }
        return null;
    }

    private static List<Row> Read()
    {
        using var stream = typeof(FitTolerance).Assembly.GetManifestResourceStream("fit-tolerance")!;
        using var reader = new StreamReader(stream);
        reader.ReadLine();
        List<Row> rows = [];
        while (reader.ReadLine() is { } line)
        {
            // The source is the last cell and may hold commas.
            var cells = line.Split(',', 6);
            if (cells.Length == 6)
                rows.Add(new(cells[0], Number(cells[1]), Number(cells[2]), Number(cells[3]), cells[5]));
        }
        return rows;

        static double Number(string s) => double.Parse(s, CultureInfo.InvariantCulture);
    }
}
