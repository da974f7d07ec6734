using System.Globalization;
using Rootgap.Comparing;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Comparing;

/// <summary>Revision pairs made by program out of the sample drawings: each kind of change in each place where it can be, its effect known from how it was made.</summary>
[Trait("pace", "slow")]
public class MadePairsTest
{
    /// <summary>A leg with a plain distance in millimetres that ends the row's own pipe, and the spool of that pipe.</summary>
    private static IEnumerable<(SampleFile Sample, DrawingText Text, Rootgap.Fabricating.Fabrication Was, string Path, double By, string Spool)> Places()
    {
        foreach (var sample in SampleFile.Clean)
        {
            var text = DrawingText.Of(sample.Text, sample.Name + ".yaml");
            var was = sample.Packet().Fabrication;
            foreach (var cut in was.Cuts.Where(c => c.IsCut))
            {
                var leg = was.Route.Runs[cut.Pipe.Run].Run.Legs[cut.Pipe.FirstLeg];
                if (leg.Source.Text("by") is { } by && double.TryParse(by, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm) && was.Units == Units.Millimetres)
                    yield return (sample, text, was, leg.Source.Path.ToString(), mm, cut.Spool);
            }
        }
    }

    private static Comparison Compare(SampleFile sample, Rootgap.Fabricating.Fabrication was, string now)
    {
        var reading = DrawingReader.Read(now, sample.Name + ".yaml", name => File.Exists(Path.Combine(sample.Folder, name)) ? File.ReadAllBytes(Path.Combine(sample.Folder, name)) : null);
        Assert.True(reading.Drawing is not null, string.Join("; ", reading.Errors.Select(e => e.Message)));
        return Comparison.Of(was, Packet.Of(reading.Drawing!).Fabrication);
    }

    private static string Touched(Comparison c) => string.Join(' ', c.Spools.Where(s => s.IsTouched).Select(s => s.New ?? "-" + s.Old).Order(StringComparer.Ordinal));

    private static string With(double mm) => mm.ToString("0.##", CultureInfo.InvariantCulture);

    // Shops saw to 1 mm: 0.6 longer is the same piece, 60 longer is another, and of the spools only the one with that pipe is another.
    [Fact]
    public void A_pipe_longer_by_less_than_a_saw_s_tolerance_changes_nothing_and_by_more_its_own_spool()
    {
        var pairs = 0;
        foreach (var (sample, text, was, path, by, spool) in Places())
        {
            Assert.Equal("", Touched(Compare(sample, was, text.Set(path, "by", With(by + 0.6)).Text)));
            Assert.Equal(spool, Touched(Compare(sample, was, text.Set(path, "by", With(by + 60)).Text)));
            pairs += 2;
        }

        Assert.InRange(pairs, 80, int.MaxValue);
    }

    [Fact]
    public void A_point_in_a_leg_another_name_for_the_run_and_another_revision_change_nothing()
    {
        var pairs = 0;
        foreach (var places in Places().GroupBy(p => p.Sample.Name, StringComparer.Ordinal))
        {
            var (sample, text, was, path, by, _) = places.First(p => p.By > 500);
            var (run, leg) = (int.Parse(path[5..path.IndexOf(']', StringComparison.Ordinal)], CultureInfo.InvariantCulture), int.Parse(path[(path.LastIndexOf('[') + 1)..^1], CultureInfo.InvariantCulture));
            var row = text.Runs[run].Legs[leg];
            var point = text.Set(path, "by", With(by - 150)).InsertLeg(run, leg).Set(path, "go", row["go"]).Set(path, "by", "150").Set(path, "to", "point");
            if (row["fall"].Length > 0)
                point = point.Set(path, "fall", row["fall"]);
            if (row["begin"].Length > 0)
                point = point.Set(path, "begin", row["begin"]).Set(path.Replace($"legs[{leg}]", $"legs[{leg + 1}]", StringComparison.Ordinal), "begin", null);
            foreach (var now in new[] { point.Text, text.Set($"runs[{run}]", "run", "another name").Text, text.Set("", "revision", "99").Text })
            {
                Assert.Equal("", Touched(Compare(sample, was, now)));
                pairs++;
            }
        }

        Assert.InRange(pairs, 15, int.MaxValue);
    }
}
