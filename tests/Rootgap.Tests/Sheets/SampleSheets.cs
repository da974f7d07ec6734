using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets;

/// <summary>A small document with one of everything, for tests and for looking at.</summary>
internal static class SampleSheets
{
    public static TitleBlock Block(string title) => new("12-P-1042-A1A", "B", title)
    {
        Project = "Boiler house, unit 3\nCooling water return",
        Fields = [new("Line", "6\"-CWR-1042"), new("Spool", "SP-02"), new("Material", "A106 Gr. B")],
    };

    public static Booklet Packet(Paper paper) => new("12-P-1042-A1A revision B", [.. Words(paper).Pages, Drawing(paper.Larger.Landscape), .. CutList(paper, 60).Pages, Card(paper)]);

    public static Flow Words(Paper paper) => new Flow(paper, Block("Cover and findings") with { Notice = "NOT FOR FABRICATION" })
        .Fields(3, new("Drawing", "12-P-1042-A1A"), new("Revision", "B"), new("Date of issue"), new("Service", "Cooling water return, from the condenser to the tower basin"), new("Test pressure", "15.5", "bar"), new("Measured", "", "mm"))
        .Heading("Findings")
        .Paragraph("The drawing cannot be built as it stands. Leg 4 is 212 mm from centre to centre, but its two elbows alone take off 2 × 152.4 mm. Move the branch outlet or use short radius elbows.")
        .Bullets("Leg 4: shorter than its take-offs by 92.8 mm.", "Weld W7: the pipe piece would be 38 mm long; the shop's rule is 75 mm or one outside diameter, whichever is larger, so that two welds do not lie in each other's heat.")
        .Warning("Depressurise, drain and isolate before any work on a line that has been in service. Hot work needs the site's permit. The qualified welding procedure and the governing code come before anything written here.")
        .Heading("Before the first cut", 2)
        .Steps("Check the heat number on the pipe against the material list.", "Check that the end is square: no more than 1.5 mm out across the diameter.", "Mark the cut from the square end.")
        .Heading("Tick when done", 2)
        .Ticks("Material check signed", "Bevels ground back to clean metal for 25 mm inside and outside, no mill scale, oil or paint left on the land")
        .BlankBox("Remarks", 25);

    public static Page Drawing(Paper paper) => Page.Draw(paper, Block("Spool SP-02"), (canvas, area) =>
    {
        var (a, b, c) = (new Spot(area.X + 40, area.Bottom - 40), new Spot(area.X + 140, area.Bottom - 98), new Spot(area.X + 220, area.Bottom - 52));
        canvas.Group("SP-02", "spool", g => g
            .Polyline([a, b, c], LineStyle.Thick)
            .Stroke(Shape.Arc(a, 12, 0, Math.PI * 1.5), LineStyle.Accent, "W1", "weld")
            .Stroke(Shape.Ellipse(c, 18, 7, Math.PI / 6), LineStyle.Medium with { Dash = Dash.Dashed })
            .Line(a, new(c.X, a.Y), LineStyle.Thin with { Dash = Dash.Chain })
            .Stroke(Shape.From(a.X, a.Y - 60).CurveTo(new(a.X + 20, a.Y - 90), new(a.X + 40, a.Y - 30), new(a.X + 60, a.Y - 60)), LineStyle.Medium with { Dash = Dash.Dotted }));
        canvas.Dimension(a, b, 14, "1247 (4'-1 1/8\")").Dimension(b, c, 14, "992").Dimension(c, new(c.X, c.Y + 30), -12, "300").Dimension(new(area.Right - 60, area.Y + 30), new(area.Right - 55, area.Y + 30), 8, "5");
        canvas.Arrow(new(area.Right - 20, area.Y + 40), new(area.Right - 20, area.Y + 15)).Text("N", area.Right - 20, area.Y + 10, TextStyle.Heading, Anchor.Middle);
        canvas.Label("W2", b, TextStyle.Strong).Text("leans 12.5°", b.Moved(30, 40), TextStyle.Small, Anchor.Start, 0.4);
        canvas.Fill(Shape.Circle(new(area.Right - 60, area.Bottom - 30), 10) + Shape.Polygon(new Spot(area.Right - 65, area.Bottom - 35), new Spot(area.Right - 65, area.Bottom - 25), new Spot(area.Right - 55, area.Bottom - 25), new Spot(area.Right - 55, area.Bottom - 35)), Ink.Grey);
        canvas.TextIn(new(area.X, area.Y, 80, 30), "North is to the upper right. Work from the dimensions; do not scale this sheet.", TextStyle.Small);
    });

    public static Flow CutList(Paper paper, int pieces) => new Flow(paper, Block("Cut list"))
        .Paragraph("Cut lengths are from end to end after bevelling; the gap is already taken off.")
        .Table(new Table(
            ["Piece", "Size", new("How the length comes about", ColumnWidth.Share()), new("Cut, mm", Anchor.End), new("Heat number", ColumnWidth.Of(30)), "Done"],
            [.. Enumerable.Range(1, pieces).Select(i => new Row($"P{i}", "6\" Sch 40", $"{1000 + i} − 228.6 (elbow) − 114.3 (tee) − 2 × 3.2 (gaps)", i % 7 == 0 ? Cell.Warn($"{650.7 + i}") : $"{650.7 + i}", "", Cell.Box()) { Id = $"P{i}" }),
                new Row("Total", "", "", "41.318 m") { Strong = true }])
        { Style = TextStyle.Small, RowHeight = 9 });

    public static Page Card(Paper paper)
    {
        var joint = new Canvas().Rectangle(new(0, 0, 60, 50)).Circle(new(30, 25), 20, LineStyle.Thick).Arrow(new(30, 25), new(30, 5)).Text("12", 30, 46, TextStyle.Small, Anchor.Middle).ToFigure(60, 50);
        var flow = new Flow(paper, Block("Fit-up card, weld W2"))
            .Beside((1, left => left.Figure(joint, "Seen from the pipe, top up")),
                (1.2, right => right.Heading("Targets", 3).Table(new Table(["Reading", new("Target, mm", Anchor.End), "Read"], [new Row("Gap at 12", "3.2 ± 0.8", ""), new Row("Gap at 6", "3.2 ± 0.8", "")]) { RowHeight = 10 })))
            .Figure(joint)
            .Table(new Table(["Nothing", "here"], []));
        return flow.Pages[0];
    }
}
