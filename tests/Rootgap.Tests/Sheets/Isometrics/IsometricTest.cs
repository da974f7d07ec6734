using System.Diagnostics;
using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets.Isometrics;

public class IsometricTest
{
    [Fact]
    public void Probe()
    {
        var random = new Random(1);
        var (n, overlaps, onPipe, listed, labels, pages) = (0, 0, 0, 0, 0, 0);
        var times = new List<double>();
        var dir = Environment.GetEnvironmentVariable("PROBE_OUT");
        var count = int.Parse(Environment.GetEnvironmentVariable("PROBE_N") ?? "60", CultureInfo.InvariantCulture);
        for (var i = 0; i < count; i++)
        {
            var bytes = new byte[1200];
            random.NextBytes(bytes);
            var sketch = SketchMaking.Of(new Choices(bytes), 60);
            var packet = sketch.Packet();
            var watch = Stopwatch.StartNew();
            var made = IsometricPages.Of(packet.ToJob(Paper.A4), withLists: true);
            times.Add(watch.Elapsed.TotalMilliseconds / made.Count);
            var scenes = new Booklet("x", made).Scenes().ToList();
            for (var p = 0; p < scenes.Count; p++)
            {
                if (!scenes[p].Title.Contains("Isometric", StringComparison.Ordinal))
                    continue;
                pages++;
                var svg = SvgWriter.Write(scenes[p]);
                var reader = new SheetReader(svg);
                var bad = false;
                var o = 0;
                for (var a = 0; a < reader.Words.Count; a++)
                {
                    for (var b = a + 1; b < reader.Words.Count; b++)
                    {
                        if (SheetReader.Overlap(reader.Words[a].Corners, reader.Words[b].Corners))
                            o++;
                    }
                }

                var q = 0;
                foreach (var w in reader.Words)
                {
                    foreach (var s in reader.Strokes)
                    {
                        if ((s.Class.Contains("piece", StringComparison.Ordinal) || s.Class.Contains("component", StringComparison.Ordinal) || s.Class.Contains("joint", StringComparison.Ordinal)) && SheetReader.Overlap(w.Corners, SheetReader.Room(s.A, s.B, s.Half)))
                        {
                            q++;
                            break;
                        }
                    }
                }

                var l = reader.Words.Count(w => w.Class.EndsWith("list", StringComparison.Ordinal));
                labels += reader.Ids.Count(x => x.EndsWith("-label", StringComparison.Ordinal) || x.StartsWith("leg-", StringComparison.Ordinal));
                (overlaps, onPipe, listed) = (overlaps + o, onPipe + q, listed + Math.Max(0, l - 1));
                bad = o + q + l > 0;
                if (dir is not null && (bad || i < 6))
                    File.WriteAllText(Path.Combine(dir, $"r{i}-{p}{(bad ? "-bad" : "")}.svg"), svg);
                if (bad)
                    Console.WriteLine($"{i} page {p} legs {sketch.Legs.Length}: overlaps {o}, on pipe {q}, listed {l - 1}");
                n++;
            }
        }

        times.Sort();
        Console.WriteLine($"sheets {n}, overlaps {overlaps}, on pipe {onPipe}, listed {listed} of {labels}; ms a sheet median {times[times.Count / 2]:0.0}, 90% {times[times.Count * 9 / 10]:0.0}, most {times[^1]:0.0}");
    }
}
