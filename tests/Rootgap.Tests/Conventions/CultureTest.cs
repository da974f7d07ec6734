using System.Globalization;
using Rootgap.Packets;

namespace Rootgap.Tests.Conventions;

/// <summary>Nothing that is read or written depends on the machine's language: 1146.4 stays 1146.4 where people write 1146,4.</summary>
public class CultureTest
{
    private static T InCommaCulture<T>(Func<T> work)
    {
        var before = CultureInfo.CurrentCulture;
        // Made here, since the tests run without the system's cultures.
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NumberGroupSeparator = ".";
        comma.NumberFormat.NegativeSign = "\u2212";
        comma.NumberFormat.PercentDecimalSeparator = ",";
        CultureInfo.CurrentCulture = comma;
        try
        {
            Assert.Equal("1,5", FormattableString.CurrentCulture($"{1.5}"));
            return work();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static string Everything(string yaml)
    {
        var packet = Given.Packet(yaml);
        return string.Join('\n', [Given.Json(packet), .. CutRow.Of(packet).Select(CutListFiles.Csv)]);
    }

    [Fact]
    public void A_packet_is_the_same_under_a_decimal_comma() => Gens.Sketches.Holds(sketch =>
    {
        var yaml = sketch.Yaml();
        Assert.Equal(Everything(yaml), InCommaCulture(() => Everything(yaml)));
    }, iter: 60, threads: 1);

    [Fact]
    public void Reading_errors_are_the_same_under_a_decimal_comma()
    {
        const string Yaml = """
            drawing: E
            line: {size: 6.3, schedule: {wall: 7,11}}
            runs:
              - run: m
                start: {to: open, at: {east: 1,5}}
                legs:
                  - {go: north, by: 12.5, to: elbow}
                  - {go: {north: 1000, east: 3.5}, to: open, fall: 1.5:100, mass: 1,5}
            """;
        static string Errors() => string.Join('\n', Rootgap.Drawings.DrawingReader.Read(Yaml, "e.yaml").Errors.Select(e => $"{e.Where} {e.Message} {e.Remedy}"));
        Assert.Equal(Errors(), InCommaCulture(Errors));
        Assert.NotEmpty(Errors());
    }
}
