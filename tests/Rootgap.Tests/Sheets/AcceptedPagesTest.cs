using System.Globalization;
using System.Text;
using Rootgap.Cutting;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;
using Rootgap.Site.Surveys;
using Rootgap.Tests.Samples;
using Rootgap.Tests.Sheets.Isometrics;

namespace Rootgap.Tests.Sheets;

/// <summary>
/// Words and figures of every kind of sheet, page by page and row by row as they stand on paper, as a person has read them and accepted them; of what is drawn, how much and where. A change that is
/// meant is accepted by running this once with ROOTGAP_ACCEPT=1; then read the difference before it is committed.
/// </summary>
public class AcceptedPagesTest
{
    private static readonly string Folder = Repository.At("samples", "hatchery", "accepted");

    private static SampleFile Sample(string name) => SampleFile.Clean.Single(s => s.Name == name);

    // One in millimetres, one in feet and inches: cover, isometric, lists, spools, fit-up cards and the final check.
    [Theory]
    [InlineData("chilled-supply")]
    [InlineData("pump-suction")]
    public void The_shop_packet_says_what_was_accepted(string name)
    {
        var job = Sample(name).Packet().ToJob(Paper.A4);
        var lists = new JobPages();
        lists.Add(job);
        Same($"{name}.shop", [.. lists.Cover(Paper.A4, [(Reader.Saw, 2), (Reader.Fitter, 5)], new Dictionary<string, (int, int)>(StringComparer.Ordinal)), .. lists.Lists(Paper.A4, Reader.All), .. ShopPages.Of(job)]);
    }

    [Fact]
    public void The_site_sheets_say_what_was_accepted()
    {
        var packet = Sample("chilled-supply").Packet();
        var (job, line) = (packet.ToJob(Paper.A4), SiteLine.Of(packet.Fabrication));
        var survey = SurveyReading.Read(line, "survey.yaml", File.ReadAllBytes(Repository.At("samples", "hatchery", "chilled-supply-survey.yaml"))).Survey;
        var closing = LineClosing.Of(line, survey!).Closing!;
        Same("chilled-supply.site",
        [
            .. ErectionPages.Of(job, line, ErectionOrder.Of(line), []), .. SurveySheets.Of(job, line, new()), .. ClosingSheets.Of(job, closing, new ClosingWords(Units.Millimetres).Say(closing)), .. AsBuiltSheets.Of(job, closing.Adjustment),
        ]);
    }

    [Fact]
    public void The_cutting_sheets_and_labels_say_what_was_accepted()
    {
        var rack = RackReader.Read(File.ReadAllBytes(Repository.At("samples", "hatchery", "rack.yaml")), "rack.yaml").Rack!;
        var pieces = Pieces.Of(Sample("chilled-supply").Packet().Fabrication, "CHW-201").ToList();
        var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        Same("cutting", [.. CuttingPages.Of(plan, Paper.A4), .. CuttingLabels.Of(plan, Paper.A4)]);
    }

    [Fact]
    public void The_templates_say_what_was_accepted()
    {
        TitleBlock Block(string title) => new("T-1", "0", title);
        Template[] templates =
        [
            Template.BranchEnd("Branch", 168.3, 114.3, 51.13, Angles.ToRadians(60), 0), Template.Mitre("Mitre", 168.3, Math.PI / 8),
            Template.CutElbow("Elbow", 168.3, 229, Math.PI / 3), Template.Trim("Trim", 168.3, 9, 12, 9, 6),
        ];
        Same("templates", [.. templates.SelectMany(t => TemplateSheets.Of(t, Block(t.Title), Paper.A4))]);
    }

    // Lengths of tape over a bend cannot be printed as a strip that lies flat; the hole in the header is not torn over sheets where one holds it.
    [Fact]
    public void An_elbow_has_one_page_and_a_branch_its_strip_and_its_hole_on_one_sheet()
    {
        Assert.Single(TemplateSheets.Of(Template.CutElbow("Elbow", 168.3, 229, Math.PI / 3), new("T-1", "0", "Elbow"), Paper.A4));
        // Strip, hole, what is said and the table: all on one sheet, and none on another.
        var branch = Assert.Single(TemplateSheets.Of(Template.BranchEnd("Branch", 323.8, 114.3, 54.76, Math.PI / 2, 0), new("T-1", "0", "Branch"), Paper.A4));
        Assert.Superset(new HashSet<string>(["hole in the header", "Ordinates, for laying out by hand", "Caution", "control line 100 mm"], StringComparer.Ordinal), Drawn.Texts(branch.Marks).Select(t => t.Content).ToHashSet(StringComparer.Ordinal));
        Assert.Empty(SheetJudge.Faults(new SheetReader(SvgWriter.Write(branch.Numbered(1, 1)))));
    }

    // By Pythagoras: header radius 161.9, branch bore radius 54.76, so the sides reach down to 152.36 of the centreline, which is 6 in. within a sixteenth.
    [Fact]
    public void What_a_template_says_is_in_the_drawing_s_units()
    {
        IEnumerable<string> Said(Units units) => Template.BranchEnd("Branch", 323.8, 114.3, 54.76, Math.PI / 2, 0, units).Notes;
        var shortest = Math.Sqrt((161.9 * 161.9) - (54.76 * 54.76));
        Assert.Contains(Said(Units.Millimetres), n => n.Contains(string.Create(CultureInfo.InvariantCulture, $"lies {shortest:0.0} mm from"), StringComparison.Ordinal));
        Assert.Contains(Said(Units.Inches), n => n.Contains("lies 6\" from", StringComparison.Ordinal));
    }

    [Fact]
    public void Elbows_that_are_cut_alike_have_one_template() =>
        Assert.StartsWith("C3, C4: ", Assert.Single(Templates.Of(Sample("drain").Packet().Fabrication), t => t.Title.Contains("cut to", StringComparison.Ordinal)).Title, StringComparison.Ordinal);

    // 9 in. long radius elbow, 60 degrees: the girth of 6.625 in. is 20.81 in., ASME B36.10M.
    [Fact]
    public void A_template_of_a_drawing_in_inches_is_in_inches_throughout()
    {
        var texts = Drawn.Texts(TemplateSheets.Of(Template.CutElbow("Elbow", 6.625 * 25.4, 9 * 25.4, Math.PI / 3), new("T-1", "0", "Elbow"), Paper.Letter, Units.Inches)[0].Marks).Select(t => t.Content).ToList();
        Assert.Contains("Ordinate, inches", texts);
        Assert.DoesNotContain(texts, t => t.Contains("mm", StringComparison.Ordinal));
        Assert.Contains("1'-8 13/16\"", texts);
    }

    // 3/8, 1/2, 3/8 and 1/4 in. at the quarters: what is printed is what was read, to the sixteenth.
    [Fact]
    public void A_trim_in_inches_is_in_inches_in_its_caution_too()
    {
        const double Inch = 25.4;
        var trim = Template.Trim("Trim", 6.625 * Inch, 0.375 * Inch, 0.5 * Inch, 0.375 * Inch, 0.25 * Inch, Units.Inches);
        var texts = TemplateSheets.Of(trim, new("T-1", "0", "Trim"), Paper.Letter, Units.Inches).SelectMany(p => Drawn.Texts(p.Marks)).Select(t => t.Content).ToList();
        Assert.Contains("Ordinate, inches", texts);
        Assert.DoesNotContain(texts, t => t.Contains("mm", StringComparison.Ordinal));
        Assert.Contains("3/8\"", texts);
        var caution = Template.Trim("Trim", 6.625 * Inch, 0.5 * Inch, 0.25 * Inch, 0.5 * Inch, 0.25 * Inch, Units.Inches).Caution;
        Assert.Contains("1/2\", 1/4\", 1/2\", 1/4\";", caution, StringComparison.Ordinal);
        Assert.DoesNotContain("mm", caution, StringComparison.Ordinal);
    }

    private static void Same(string name, IReadOnlyList<Page> pages)
    {
        var text = new StringBuilder();
        foreach (var (scene, i) in new Booklet(name, pages).Scenes().Select((s, i) => (s, i + 1)))
        {
            text.Append(CultureInfo.InvariantCulture, $"=== {i}: {scene.Title}\n");
            foreach (var row in Drawn.TextBoxes(scene.Marks).GroupBy(t => Math.Round(t.Box.Bottom)).OrderBy(g => g.Key))
                text.AppendJoin("  |  ", row.OrderBy(t => t.Box.Left).Select(t => t.Text)).Append('\n');
            var lines = Drawn.Lines(scene.Marks);
            var length = lines.Sum(l => l.A.To(l.B));
            if (length > 0)
            {
                var (x, y) = (lines.Sum(l => (l.A.X + l.B.X) / 2 * l.A.To(l.B)) / length, lines.Sum(l => (l.A.Y + l.B.Y) / 2 * l.A.To(l.B)) / length);
                text.Append(CultureInfo.InvariantCulture, $"--- {lines.Count} lines, {length:0} mm, about {x:0}, {y:0}\n");
            }
        }

        var file = Path.Combine(Folder, name + ".txt");
        if (Environment.GetEnvironmentVariable("ROOTGAP_ACCEPT") == "1")
            File.WriteAllText(file, text.ToString());
        Assert.True(File.Exists(file), $"{file} is not there: read the sheets, then accept them with ROOTGAP_ACCEPT=1.");
        Assert.Equal(File.ReadAllText(file), text.ToString(), StringComparer.Ordinal);
    }
}
