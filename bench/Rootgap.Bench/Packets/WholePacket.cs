using System.Globalization;
using Rootgap.Bench.Cutting;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Sheets;
using YamlDotNet.RepresentationModel;

namespace Rootgap.Bench.Packets;

/// <summary>The whole packet of the demo, several times in one process: what the first costs is for the greater part compiling, what the last costs is the work itself.
/// The time that the process has worked, on one core, beside the time that YamlDotNet takes to parse the same seven files.</summary>
internal static class WholePacket
{
    public static void Run(int rounds)
    {
        var files = Directory.GetFiles(Samples.Folder, "*.yaml").Where(f => File.ReadAllText(f).Contains("runs:", StringComparison.Ordinal)).Order(StringComparer.Ordinal)
            .Select(f => (Name: Path.GetFileName(f), Text: File.ReadAllText(f))).ToList();
        Console.WriteLine("round   read  packet  sheets  writing  whole, s   allocated, MB   held, MB   pages");
        for (var round = 1; round <= rounds; round++)
        {
            double read = 0, packet = 0, sheets = 0, writing = 0;
            var before = GC.GetTotalAllocatedBytes();
            using var packets = new PacketFiles("0", Paper.A4, _ => new MemoryStream());
            foreach (var (name, text) in files)
            {
                var at = Clock();
                var drawing = DrawingReader.Read(text, name, Samples.Beside).Drawing!;
                Spend(ref read, ref at);
                var made = Packet.TryOf(drawing, out _)!;
                Spend(ref packet, ref at);
                var part = PacketPart.Of(made, Paper.A4);
                Spend(ref sheets, ref at);
                packets.Add(part);
                Spend(ref writing, ref at);
            }

            var end = Clock();
            packets.Close();
            Spend(ref writing, ref end);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{round,5} {read,6:0.000} {packet,7:0.000} {sheets,7:0.000} {writing,8:0.000} {read + packet + sheets + writing,9:0.000} {(GC.GetTotalAllocatedBytes() - before) / 1e6,15:0} {GC.GetTotalMemory(true) / 1e6,10:0} {packets.Pages,7}"));
        }

        const int Many = 20;
        var parsing = Clock();
        for (var i = 0; i < Many; i++)
        {
            foreach (var (_, text) in files)
                new YamlStream().Load(new StringReader(text));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"YamlDotNet over the same files: {(Clock() - parsing) / Many:0.0000} s"));
    }

    private static double Clock() => (double)OwnTime.Clock.GetTimestamp() / OwnTime.Clock.TimestampFrequency;

    private static void Spend(ref double sum, ref double at)
    {
        var now = Clock();
        (sum, at) = (sum + now - at, now);
    }
}
