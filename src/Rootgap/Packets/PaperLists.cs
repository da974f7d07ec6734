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
            Figure(w.Metal?.Area, 2), Figure(w.Mass, 4), w.Metal is null ? null : w.Filler.Process, w.Metal is null ? null : w.Filler.Efficiency, Figure(w.ToBuy, 4), Figure(w.Hours, 2), w.Metal?.Source, w.Metal is null ? null : w.Filler.Source, w.Hours is null ? null : w.HoursPerInch!.Source,
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
        packet => packet.Fabrication.Spools.Where(s => s.Mass >= Lift.From || packet.Drawing.Lift.Any(r => s.Cuts.Any(c => c.Piece == r.Piece))).Select(s => Lift.Of(packet.Fabrication, s)).SelectMany(l => l.Holds.Count > 0 ? l.Holds.Select(h => Row(packet, l, h)) : [Row(packet, l, null)]));

    public static IReadOnlyList<PaperList> All { get; } = [Welds, Bolting, Lifting];

    private static object?[] Row(Packet packet, Lift l, LiftHold? h) =>
    [
        packet.Drawing.Number, packet.Drawing.Revision, l.Spool.Name, Figure(l.Spool.Mass, 2), Figure(l.Mass, 2), string.Join(' ', l.Spool.Unweighed), h?.Name, h?.Cut.Piece, Figure(h?.Along, 1), Figure(h?.Leg, 1),
        Figure(h?.ToLevel is { } angle ? Angles.ToDegrees(angle) : null, 1), Figure(h?.Lifts, 2), Figure(h?.Pull, 2), string.Join(' ', LiftWords.Of(l, packet.Drawing.Units)),
    ];

    private static double? Figure(double? value, int decimals) => value is { } number ? LengthText.Rounded(number, decimals) : null;
}
