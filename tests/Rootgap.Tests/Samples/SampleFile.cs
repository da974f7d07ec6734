using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Samples;

/// <summary>A drawing file under samples/, read as the command line reads it: files named in it lie beside it.</summary>
public sealed record SampleFile(string Path)
{
    public static IReadOnlyList<SampleFile> All { get; } =
    [
        .. Directory.EnumerateFiles(Repository.At("samples"), "*.yaml", SearchOption.AllDirectories)
            .Where(f => File.ReadLines(f).Any(l => l.StartsWith("drawing:", StringComparison.Ordinal)) && !DrawingHead.IsOfSurvey(File.ReadAllText(f)))
            .Order(StringComparer.Ordinal).Select(f => new SampleFile(f)),
    ];

    public static IEnumerable<SampleFile> Clean => All.Where(s => !s.Path.Contains("mistakes", StringComparison.Ordinal));

    public string Name => System.IO.Path.GetFileNameWithoutExtension(Path);

    public string Folder => System.IO.Path.GetDirectoryName(Path)!;

    public string Text => File.ReadAllText(Path);

    public DrawingReading Read() => DrawingReader.Read(Text, Name + ".yaml", Beside);

    public Packet Packet()
    {
        var reading = Read();
        Assert.True(reading.Drawing is not null, $"{Name}: {string.Join("; ", reading.Errors.Select(e => $"{e.Where.Line}: {e.Message}"))}");
        return Rootgap.Packets.Packet.Of(reading.Drawing!);
    }

    private byte[]? Beside(string name)
    {
        var path = System.IO.Path.Combine(Folder, name);
        return File.Exists(path) ? File.ReadAllBytes(path) : null;
    }

    public override string ToString() => Name;
}
