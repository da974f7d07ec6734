using System.Xml.Linq;
using Rootgap.Comparing;
using Rootgap.Sheets;
using Rootgap.Tests.Checks;
using Made = Rootgap.Fabricating.Fabrication;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>Two revisions on one drawing. Lengths are the drawing's figures less take-offs of ASME B16.9 and B16.5 (NPS 6: elbow 229, class 150 weld neck 89) and gaps of 3.2, so a leg that is 40 shorter makes a piece that is 40 shorter.</summary>
public class ChangedPartTest
{
    private const string Legs = """
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: elbow, end: field}
        {go: up, by: 1000, to: elbow}
        {go: east, by: 2000, to: flange}
        """;

    private static Made Of(string legs) => Desk.Packet(Desk.Drawing(legs)).Fabrication;

    private static (IReadOnlyDictionary<string, ChangedPart> Parts, List<XElement> Drawn) Draw(string legs, params string[] cut)
    {
        var (old, now) = (Of(Legs), Of(legs));
        var comparison = Comparison.Of(old, now);
        var parts = ChangedPart.Of(comparison, cut: CutAlready.Of(comparison, [.. cut.Select(c => CutPiece.Parse(c, out _)!.Value)]));
        return (parts, [.. XDocument.Parse(SvgWriter.Write(IsometricScreen.Compared(now, parts)!)).Descendants()]);
    }

    private static XElement Group(List<XElement> drawn, string id) => drawn.Single(e => (string?)e.Attribute("id") == id);

    private static string Words(List<XElement> drawn, string id) => string.Join(" | ", Group(drawn, id + "-label").Elements().Where(e => e.Name.LocalName == "text").Select(e => e.Value));

    [Fact]
    public void A_drawing_and_itself_show_nothing()
    {
        var (parts, drawn) = Draw(Legs);
        Assert.Empty(parts);
        Assert.DoesNotContain(drawn, e => ((string?)e.Attribute("class"))?.Contains("revised", StringComparison.Ordinal) == true);
    }

    [Fact]
    public void A_piece_that_is_not_cut_says_how_much_shorter_it_is_in_the_drawing_s_own_ink()
    {
        var (parts, drawn) = Draw(Legs.Replace("3200", "3160", StringComparison.Ordinal));
        var (name, part) = Assert.Single(parts);
        Assert.Equal(("1-B", Change.Changed), (name, part.Change));
        Assert.Equal("40.0 shorter", part.Words[0]);
        Assert.Contains("40.0 shorter", Words(drawn, "1-B"), StringComparison.Ordinal);
        Assert.All(Group(drawn, "1-B").Elements().Attributes("stroke"), a => Assert.Equal(Ink.Black.ToString(), a.Value));
    }

    [Fact]
    public void A_piece_that_is_cut_and_too_long_is_red_and_says_what_comes_off()
    {
        var (parts, drawn) = Draw(Legs.Replace("3200", "3160", StringComparison.Ordinal), "1-B");
        Assert.Equal(Change.Trim, parts["1-B"].Change);
        Assert.StartsWith("trim 40.0", Words(drawn, "1-B")[Words(drawn, "1-B").IndexOf("trim", StringComparison.Ordinal)..], StringComparison.Ordinal);
        Assert.All(Group(drawn, "1-B").Elements().Attributes("stroke"), a => Assert.Equal(Ink.Accent.ToString(), a.Value));
        Assert.DoesNotContain(Group(drawn, "1-B").Elements(), e => e.Attribute("stroke-dasharray") is not null);
    }

    [Fact]
    public void A_piece_that_is_cut_and_too_short_is_a_broken_red_line()
    {
        var (parts, drawn) = Draw(Legs.Replace("3200", "3350", StringComparison.Ordinal), "1-B");
        Assert.Equal(Change.Spoiled, parts["1-B"].Change);
        Assert.All(Group(drawn, "1-B").Elements().Where(e => e.Attribute("stroke") is not null), e => Assert.NotNull(e.Attribute("stroke-dasharray")));
        Assert.Contains("revised spoiled", (string)Group(drawn, "1-B").Attribute("class")!, StringComparison.Ordinal);
    }

    [Fact]
    public void What_two_more_legs_bring_is_new_and_what_stays_is_as_it_was()
    {
        var (parts, drawn) = Draw(Legs.Replace("{go: up, by: 1000, to: elbow}", "{go: up, by: 1000, to: elbow}\n{go: west, by: 700, to: elbow}\n{go: up, by: 800, to: elbow}", StringComparison.Ordinal));
        var added = parts.Where(p => p.Value.Change == Change.Added).Select(p => p.Key).ToList();
        // Two pieces and two elbows with their five welds: see ComparisonTest.
        Assert.Equal(9, added.Count);
        Assert.All(added, id => Assert.Contains("new", Words(drawn, id), StringComparison.Ordinal));
        Assert.DoesNotContain("1-B", parts.Keys);
    }

    [Fact]
    public void The_pane_of_the_screen_says_the_same()
    {
        var (old, now) = (Of(Legs), Of(Legs.Replace("3200", "3160", StringComparison.Ordinal)));
        var parts = ChangedPart.Of(Comparison.Of(old, now));
        var drawn = XDocument.Parse(IsometricScreen.Pane(now, Effort.Full, 160, 130, 1, parts)).Descendants().ToList();
        Assert.Contains("40.0 shorter", Words(drawn, "1-B"), StringComparison.Ordinal);
    }
}
