using Rootgap.Checks;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Checks;

/// <summary>A fault of one rule or one sheet costs itself alone, and is told as a fault of the program.</summary>
public class FaultInProgramTest
{
    private const string Rule = "fault-in-program";

    private const string Yaml = """
        drawing: P-1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: north, by: 1500, to: elbow}
              - {go: east, by: 1200, to: flange}
        """;

    /// <summary>Tells one thing, then fails.</summary>
    private sealed class Broken(Severity severity) : Rootgap.Checks.Rule
    {
        public override string Name => "broken";
        public override Severity Severity => severity;
        public override string Says => "What nobody can see.";
        public override string Why => "For this test.";

        public override IEnumerable<Finding> Check(Fabricating.Fabrication fabrication)
        {
            yield return Found(fabrication.Route.Drawing.Source, "drawing", "One thing.", "Nothing.");
            throw new InvalidOperationException("on\npurpose");
        }
    }

    /// <summary>Finds far more than anyone reads.</summary>
    private sealed class Endless : Rootgap.Checks.Rule
    {
        public int Told { get; private set; }

        public override string Name => "endless";
        public override Severity Severity => Severity.Warn;
        public override string Says => "Everything.";
        public override string Why => "For this test.";

        public override IEnumerable<Finding> Check(Fabricating.Fabrication fabrication)
        {
            while (true)
            {
                Told++;
                yield return Found(fabrication.Route.Drawing.Source, "drawing", $"Thing {Told}.", "Nothing.");
            }
        }
    }

    [Theory]
    [InlineData(Severity.Stop, Severity.Stop)]
    [InlineData(Severity.Warn, Severity.Warn)]
    [InlineData(Severity.Note, Severity.Warn)]
    public void A_rule_that_fails_costs_itself_alone_and_is_told(Severity rule, Severity told)
    {
        var fabrication = Given.Packet(Yaml).Fabrication;
        var sound = DeskCheck.Of(fabrication);
        var findings = DeskCheck.Of(fabrication, [new Broken(rule), .. DeskCheck.Rules]);
        var fault = Assert.Single(findings, f => f.Rule == Rule);
        Assert.Equal(told, fault.Severity);
        Assert.Contains("\"broken\"", fault.Message, StringComparison.Ordinal);
        Assert.Contains("InvalidOperationException: on purpose", fault.Message, StringComparison.Ordinal);
        Assert.Contains("What nobody can see.", fault.Remedy, StringComparison.Ordinal);
        Assert.True(fault.Where is { File: "given.yaml", Line: 1 });
        // What it told before it failed stays, and so does what all others tell.
        Assert.Equal(sound.Select(f => f.Message).Append("One thing.").Order(StringComparer.Ordinal), findings.Except([fault]).Select(f => f.Message).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Of_a_rule_that_finds_no_end_the_first_findings_are_told_and_that_there_are_more()
    {
        var rule = new Endless();
        var findings = DeskCheck.Of(Given.Packet(Yaml).Fabrication, [rule]);
        Assert.Equal(DeskCheck.MostOfOneRule + 1, findings.Count);
        Assert.Contains(findings, f => f.Message.Contains($"more than {DeskCheck.MostOfOneRule} findings", StringComparison.Ordinal));
        Assert.True(rule.Told <= DeskCheck.MostOfOneRule + 1);
    }

    [Fact]
    public void A_sheet_that_fails_costs_itself_alone_and_a_page_says_so_in_its_place()
    {
        var job = Given.Packet(Yaml).ToJob(Paper.A4);
        var pages = MissingSheet.Instead(job, "Cut list", () => throw new InvalidOperationException("on purpose"));
        var page = Assert.Single(pages);
        var words = SvgWriter.Write(page.Numbered(1, 1));
        Assert.Contains("NOT FOR FABRICATION", words, StringComparison.Ordinal);
        var told = Assert.Single(MissingSheet.Told(pages));
        Assert.Equal((Rule, Severity.Stop), (told.Rule, told.Severity));
        Assert.Contains("\"Cut list\"", told.Message, StringComparison.Ordinal);
        Assert.Empty(MissingSheet.Told(ShopPages.Of(job)));
    }

    [Fact]
    public void A_page_that_cannot_be_written_is_told_in_its_place_and_the_others_are_written()
    {
        var part = PacketPart.Of(Given.Packet(Yaml), Paper.A4);
        // A mark that fails when it is drawn: nothing of the page may be left in the file.
        var broken = part.Sheets[1] with { Marks = [null!, .. part.Sheets[1].Marks] };
        using var pdf = new MemoryStream();
        using var files = new Rootgap.Packets.PacketFiles("test", Paper.A4, name => name == Rootgap.Packets.PacketFiles.PdfName ? pdf : new MemoryStream());
        var faults = files.Add(part with { Sheets = [part.Sheets[0], broken, .. part.Sheets.Skip(2)] });
        files.Close();
        Assert.Single(faults);
        using var read = UglyToad.PdfPig.PdfDocument.Open(pdf.ToArray());
        Assert.Equal(files.Pages, read.NumberOfPages);
        Assert.Single(read.GetPages(), p => string.Join(' ', p.GetWords().Select(w => w.Text)).Contains("could not be drawn", StringComparison.Ordinal));
    }
}
