using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Drawings;

/// <summary>Whatever is in the file, reading it never fails otherwise than with errors that have a place, a message and a remedy.</summary>
public class DamagedDrawingTest
{
    private static readonly string[] Scraps =
        ["{", "}", "[", "]", ":", ": ", ",", "-", "- ", "\"", "'", "#", "&a ", "*a", "|\n", ">\n", "!!x ", "\t", "\n", "\n\n    ", "0", "-1", "1e9", "99999999", "7/0", "~", "null", "north", "elbow", "tee", "T1", "makeup", "\u00e9", "\u0000", "%", "@", "?"];

    private static readonly Gen<string> Damaged = Gen.Select(Gens.Sketches, Gen.Select(Gen.Int[0, 100_000], Gen.Int[0, 60], Gen.Int[0, Scraps.Length - 1]).Array[1, 4], (sketch, damages) =>
    {
        var text = sketch.Yaml();
        foreach (var (where, length, scrap) in damages)
        {
            var at = where % (text.Length + 1);
            var cut = Math.Min(length % 3 == 0 ? length : length % 4, text.Length - at);
            text = text[..at] + Scraps[scrap] + text[(at + cut)..];
        }

        return text;
    });

    [Fact]
    public void A_damaged_drawing_is_read_or_refused_with_places_and_remedies() => Damaged.Holds(text =>
    {
        var reading = DrawingReader.Read(text, "damaged.yaml");
        Assert.Equal(reading.Drawing is null, reading.Errors.Count > 0);
        foreach (var error in reading.Errors)
        {
            Assert.True(error.Where is { Line: >= 1, Column: >= 1 } && error.Where.EndColumn > error.Where.Column, $"{error.Where} {error.Message}");
            Assert.True(error.Message.Length > 5 && error.Remedy.Length > 5, error.Message);
        }

        // What is read is worked through to the end, however odd.
        if (reading.Drawing is { } drawing)
        {
            var packet = Packet.Of(drawing);
            var json = Given.Json(packet);
            Assert.DoesNotContain("NaN", json, StringComparison.Ordinal);
            Assert.All(packet.Fabrication.Cuts, c => Assert.True(double.IsFinite(c.Length)));
        }
    }, iter: 1500, print: t => t);

    [Fact]
    public void Any_text_at_all_is_read_or_refused() => Gen.Int[0, Scraps.Length - 1].Select(i => Scraps[i]).Array[0, 40].Select(string.Concat).Holds(text =>
        Assert.NotNull(DrawingReader.Read(text, "any.yaml").Errors), iter: 1000);
}
