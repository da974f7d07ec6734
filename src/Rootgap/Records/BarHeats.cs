using Rootgap.Cutting;

namespace Rootgap.Records;

/// <summary>
/// The heats of the bars that pieces were cut from, so that a heat is written down once and goes with every piece: what was found on the bar, else what was read at the saw
/// at another piece of it, else what the stock file said when the piece was cut.
/// </summary>
internal sealed class BarHeats(JobRecord job)
{
    private readonly Dictionary<string, string> racks = new(StringComparer.Ordinal); // by version of the stock file and bar; empty where it says none
    private readonly Dictionary<string, Rack?> read = new(StringComparer.Ordinal);
    private Dictionary<string, string>? said;

    /// <summary>The heat of the bar that a piece came from; null where nobody noted the bar, or its heat is not known.</summary>
    public string? Of(PieceCut cut)
    {
        if (cut.From is not { } from)
            return null;
        said ??= Said();
        return said.GetValueOrDefault(Key(from.Stock, from.Bar)) ?? OfRack(from, cut.Time);
    }

    private static string Key(string stock, string bar) => $"{stock.ToUpperInvariant()}\n{bar.ToUpperInvariant()}";

    private Dictionary<string, string> Said()
    {
        var heats = new Dictionary<string, string>(StringComparer.Ordinal);
        var counting = job.Facts.Where(e => e.Counts).Select(e => e.Fact).ToList();
        foreach (var cut in counting.OfType<PieceCut>())
        {
            if (cut is { From: { } from, Heat: { } heat } && heat.Trim().Length > 0)
                heats[Key(from.Stock, from.Bar)] = heat.Trim();
        }

        // Whoever looked at the bar itself has the word.
        foreach (var noted in counting.OfType<BarNoted>())
        {
            if (noted.Heat?.Trim() is { Length: > 0 } heat)
                heats[Key(noted.Stock, noted.Bar)] = heat;
        }

        return heats;
    }

    // A bar that is used up is taken out of the file one day, and its mark may go to another: the version that stood when it was cut is asked first.
    private string? OfRack(CutFrom from, DateTimeOffset time)
    {
        if (job.Files.Values.FirstOrDefault(f => f.Path.Equals(from.Stock, StringComparison.OrdinalIgnoreCase)) is not { } file)
            return null;
        var versions = file.Versions.Where(v => v.Counts && !v.Fact.IsRemoved).Select(v => v.Fact).ToList();
        foreach (var version in versions.Where(v => v.Time <= time).Reverse().Concat(versions.Where(v => v.Time > time)))
        {
            var key = $"{version.Id}\n{from.Bar}";
            if (!racks.TryGetValue(key, out var heat))
                racks[key] = heat = RackOf(version)?.RowOfBar(from.Bar)?.Heat.Trim() ?? "";
            if (heat.Length > 0)
                return heat;
        }

        return null;
    }

    private Rack? RackOf(FileSaved version)
    {
        if (!read.TryGetValue(version.Id, out var rack))
            read[version.Id] = rack = version.Content is { } content ? RackReader.Read(content, version.Path).Rack : null;
        return rack;
    }
}
