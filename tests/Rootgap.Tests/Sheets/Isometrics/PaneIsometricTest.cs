using System.Xml.Linq;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>The isometric beside the table while somebody types, read back with the .NET XML reader.</summary>
public class PaneIsometricTest
{
    private static readonly SampleFile Written = SampleFile.Clean.Single(s => s.Name == "sea-water");

    private static Fabricating.Fabrication With(DrawingText text) => Packet.Of(text.Read(name => File.ReadAllBytes(Path.Combine(Written.Folder, name))).Partial!).Fabrication;

    private static string Drawn(PaneIsometric pane, DrawingText text, Effort effort) => pane.Svg(With(text), effort, 240, 180, 1);

    private static Dictionary<string, string> Parts(string svg, string @class) =>
        XDocument.Parse(svg).Descendants().Where(e => (string?)e.Attribute("class") == @class && e.Attribute("id") is not null).ToDictionary(e => e.Attribute("id")!.Value, e => e.ToString(), StringComparer.Ordinal);

    // Common practice on screens: nothing moves under the hand that writes.
    [Fact]
    public void While_a_figure_is_typed_all_others_stay_where_they_are()
    {
        var text = DrawingText.Of(Written.Text, Written.Name + ".yaml");
        var pane = new PaneIsometric();
        var before = Parts(Drawn(pane, text, Effort.Live), "dimension");
        var typed = text.Set("runs[0].legs[2]", "by", "4211");
        var after = Parts(Drawn(pane, typed, Effort.Live), "dimension");
        Assert.Equal(before.Keys.Order(StringComparer.Ordinal), after.Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["leg-1-3"], [.. before.Where(b => after[b.Key] != b.Value).Select(b => b.Key)]);
        Assert.Contains("4211", after["leg-1-3"], StringComparison.Ordinal);
    }

    [Fact]
    public void After_a_rest_the_picture_is_the_one_that_anybody_gets_who_opens_the_drawing()
    {
        var text = DrawingText.Of(Written.Text, Written.Name + ".yaml");
        var pane = new PaneIsometric();
        Drawn(pane, text, Effort.Live);
        var typed = text.Set("runs[0].legs[2]", "by", "4211");
        Drawn(pane, typed, Effort.Live);
        Assert.Equal(IsometricScreen.Pane(With(typed), Effort.Rest, 240, 180, 1), Drawn(pane, typed, Effort.Rest));
    }

    [Fact]
    public void A_line_with_another_leg_is_laid_out_anew()
    {
        var text = DrawingText.Of(Written.Text, Written.Name + ".yaml");
        var shorter = text.RemoveLeg(text.Runs.Count - 1, text.Runs[^1].Legs.Count - 1);
        var pane = new PaneIsometric();
        Drawn(pane, text, Effort.Live);
        Assert.Equal(Parts(IsometricScreen.Pane(With(shorter), Effort.Live, 240, 180, 1), "dimension").Keys.Order(StringComparer.Ordinal), Parts(Drawn(pane, shorter, Effort.Live), "dimension").Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Marks_of_the_picture_laid_out_last_go_along_with_their_parts_while_a_figure_is_typed()
    {
        var text = DrawingText.Of(Written.Text, Written.Name + ".yaml");
        var pane = new PaneIsometric();
        var rest = Drawn(pane, text, Effort.Rest);
        Assert.Empty(pane.Moves);
        string[] marks = [.. Parts(rest, "label").Keys.Where(k => k.StartsWith('W') || k.StartsWith("spool", StringComparison.Ordinal))];
        Assert.NotEmpty(marks);
        var live = Drawn(pane, text.Set("runs[0].legs[2]", "by", "4211"), Effort.Live);
        var moves = pane.Moves.Split(';').Select(m => m.Split(' ')).ToDictionary(m => m[0], m => (X: m[1], Y: m[2]), StringComparer.Ordinal);
        // The legs keep their lengths on the screen, and so the marks stand where they stood; they are not drawn again.
        Assert.All(marks.Where(moves.ContainsKey), m => Assert.Equal(("0", "0"), moves[m]));
        Assert.True(marks.Count(moves.ContainsKey) > 0.9 * marks.Length, "Marks are gone: " + string.Join(' ', marks.Where(m => !moves.ContainsKey(m))));
        Assert.DoesNotContain(Parts(live, "label").Keys, moves.ContainsKey);
    }
}
