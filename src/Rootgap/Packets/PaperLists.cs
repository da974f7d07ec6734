using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Packets;

/// <summary>A list of the papers as rows, for those who have sheets of their own: millimetres, kg, N m.</summary>
/// <param name="Name">Of the CSV file and of the workbook's sheet.</param>
/// <param name="Columns">In order; each row has as many cells.</param>
public sealed record PaperList(string Name, IReadOnlyList<string> Columns, Func<Packet, IEnumerable<object?[]>> Rows)
{
    public string FileName => Name + ".csv";

    public string Header => string.Join(',', Columns);

    /// <summary>One row as a line of a CSV file.</summary>
    public static string Csv(object?[] row) => string.Join(',', row.Select(c => CsvText.Cell(c switch
    {
        null => "",
        double number => number.ToString("0.####", CultureInfo.InvariantCulture),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => c.ToString() ?? "",
    })));

    /// <summary>Rows as the workbook writes them.</summary>
    public IEnumerable<Dictionary<string, object?>> Sheet(IEnumerable<object?[]> rows) => rows.Select(row => new Dictionary<string, object?>(Columns.Zip(row, KeyValuePair.Create), StringComparer.Ordinal));
}

/// <summary>Every list of the papers.</summary>
public static class PaperLists
{
    /// <summary>One row a weld: what it takes.</summary>
    private static readonly PaperList Welds = new("welds",
        ["drawing", "revision", "weld", "kind", "place", "size", "wall mm", "gap mm", "diameter-inches", "section mm2", "weld metal kg", "filler", "efficiency", "to buy kg", "hours", "metal from", "efficiency from", "hours from"],
        packet => Quantities.Of(packet.Fabrication).Welds.Select(w => new object?[]
        {
            packet.Drawing.Number, packet.Drawing.Revision, w.Joint.Id, w.Joint.Kind.ToString().ToLowerInvariant(), Words.Of(w.Joint.Place), w.Joint.Size.ToString(), Figure(w.Joint.Wall, 2), Figure(w.Joint.Gap, 2), w.DiameterInches,
            Figure(w.Metal?.Area, 2), Figure(w.Mass, 4), w.Metal is null ? null : w.Filler.Process, w.Metal is null ? null : w.Filler.Efficiency, Figure(w.ToBuy, 4), Figure(w.Hours, 2), w.Metal?.Source, w.Metal is null ? null : w.Filler.Source, w.Hours is null ? w.Joint.Kind == JointKind.Butt ? "no published figure for this wall" : null : w.HoursPerInch!.Source,
        }));

    /// <summary>One row a bolted joint.</summary>
    private static readonly PaperList Bolting = new("bolting",
        ["drawing", "revision", "joint", "size", "class", "bolts", "bolt", "stud length mm", "gasket", "gasket mm", "hole mm", "bolt circle mm", "order", "order from", "load kN", "torque N m", "torque from"],
        packet => BoltedJoint.Of(packet.Fabrication).Select(b => new object?[]
        {
            packet.Drawing.Number, packet.Drawing.Revision, b.Joint.Id, b.Joint.Size.ToString(), b.Joint.Class, b.Pattern?.Count, b.Pattern?.Bolt.ToString(), b.Studs is { Length: > 0 } s ? s.Length : null,
            b.Joint.ByOthers ? "by others" : b.Gasket?.Item?.What ?? "gasket", Figure(b.Joint.Gap, 2), Figure(b.Pattern?.HoleDiameter, 2), Figure(b.Pattern?.Circle, 2),
            b.Order is { } order ? string.Join(' ', order) : null, b.Order is { } o ? StarOrder.Source(o.Count) : null,
            Figure(b.Load?.Load / 1000, 2), b.Load?.TorqueSet(Units.Millimetres), b.Load is null ? BoltedJoint.ByProcedure : packet.Drawing.Shop.Bolting!.Source,
        }));

    /// <summary>One row a sling.</summary>
    private static readonly PaperList Lifting = new("lifting",
        ["drawing", "revision", "spool", "mass kg", "mass with a tenth kg", "not in the mass", "sling", "piece", "from the piece's start mm", "leg mm", "to level degrees", "lifts kg", "pull kg", "says"],
        packet => packet.Fabrication.Spools.Where(s => Lift.IsAsked(packet.Fabrication, s)).Select(s => Lift.Of(packet.Fabrication, s)).SelectMany(l => l.Holds.Count > 0 ? l.Holds.Select(h => Row(packet, l, h)) : [Row(packet, l, null)]));

    /// <summary>One row a limit, a head, a pocket, a valve, a thing taken out, a support of the pressure test, and a gasket that is renewed after it.</summary>
    public static readonly PaperList Tests = new("test",
        ["drawing", "revision", "pack", "row", "name", "says", "east mm", "north mm", "up mm", "size", "bar", "litres", "kg"],
        packet => packet.Drawing.Test.Source != SourceRow.None || packet.Drawing.Service.TestPressure.Length > 0 ? RowsOf(packet, TestPack.Of(packet.Fabrication)) : []);

    public static IReadOnlyList<PaperList> All { get; } = [Welds, Bolting, Lifting, Tests];

    /// <summary>The rows of one test.</summary>
    public static IEnumerable<object?[]> RowsOf(Packet packet, TestPack pack)
    {
        var units = packet.Drawing.Units;
        object?[] Row(string row, string name, string says, Point? at, double? up, string? size = null, double? bar = null, double? litres = null, double? kg = null) =>
            [packet.Drawing.Number, packet.Drawing.Revision, TestWords.Name(pack), row, name, says, Figure(at?.X, 1), Figure(at?.Y, 1), Figure(up ?? at?.Z, 1), size, Figure(bar, 3), Figure(litres / 1e6, 2), Figure(kg, 1)];
        foreach (var l in pack.Limits)
            yield return Row("limit", l.Name, TestWords.Of(l), l.At, null, l.Size.ToString());
        foreach (var h in pack.Heads)
            yield return Row("head", "", h.What, null, h.Height, bar: h.Bar);
        foreach (var p in pack.Pockets)
            yield return Row(p.IsHigh ? "high pocket" : "low pocket", p.Limit?.Name ?? "", TestWords.Of(p, pack, units), p.At, p.Height, p.Size.ToString(), litres: p.Stays);
        foreach (var v in pack.Valves)
            yield return Row(v is Valve ? "valve" : "stays in", v.Id, TestWords.Of(v, pack), v.WorkPoint, null, v.Size.ToString());
        foreach (var c in pack.Out)
            yield return Row("taken out", c.Id, c.Name, c.WorkPoint, null, c.Size.ToString());
        foreach (var s in pack.Supports.Where(s => s.Full > 0))
            yield return Row("support", s.Support.Tag, "full of water", s.Support.At, null, kg: s.Full);
        foreach (var b in pack.Opened)
            yield return Row("new gasket", b.Joint.Id, "opened for the test", b.Joint.At, null, b.Joint.Size.ToString());
        yield return Row("volume", "", "of the bore", null, null, litres: pack.Volume, kg: pack.IsAir ? null : pack.WaterMass);
    }

    private static object?[] Row(Packet packet, Lift l, LiftHold? h) =>
    [
        packet.Drawing.Number, packet.Drawing.Revision, l.Spool.Name, Figure(l.Spool.Mass, 2), Figure(l.Mass, 2), string.Join(' ', l.Spool.Unweighed), h?.Name, h?.Cut.Piece, Figure(h?.Along, 1), Figure(h?.Leg, 1),
        Figure(h?.ToLevel is { } angle ? Angles.ToDegrees(angle) : null, 1), Figure(h?.Lifts, 2), Figure(h?.Pull, 2), string.Join(' ', LiftWords.Of(l, packet.Drawing.Units)),
    ];

    private static double? Figure(double? value, int decimals) => value is { } number ? LengthText.Rounded(number, decimals) : null;
}
