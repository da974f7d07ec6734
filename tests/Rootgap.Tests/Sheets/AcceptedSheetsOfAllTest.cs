using System.Text;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;
using Rootgap.Site.Surveys;
using Rootgap.Tests.Site;

namespace Rootgap.Tests.Sheets;

/// <summary>Every sheet of the accepted drawings as it is drawn, kind by kind.</summary>
public class AcceptedSheetsOfAllTest
{
    private static ShopJob Job(Packet packet) => packet.ToJob(packet.Drawing.Units == Units.Inches ? Paper.Letter : Paper.A4);

    private static string Svg(IEnumerable<Page> pages) => string.Concat(pages.Select((p, i) => SvgWriter.Write(p.Numbered(i + 1, 99))));

    [Fact]
    [Trait("pace", "slow")]
    public void The_shop_packets_are_the_accepted_ones() => Accepted.Same("accepted-shop.txt", Accepted.Few.SelectMany(d =>
    {
        var job = Job(d.Packet);
        return ShopPages.Of(job).GroupBy(p => p.Block.Reader).Select(g => ($"{d.Name}, {g.Key.Tab()}", Svg(g)));
    }));

    [Fact]
    public void The_lists_over_all_drawings_are_the_accepted_ones() => Accepted.Same("accepted-lists.txt", new[] { Paper.A4, Paper.Letter }.Select(paper =>
    {
        var lists = new JobPages();
        var drawings = Accepted.Drawings;
        foreach (var (_, packet) in drawings)
            lists.Add(packet.ToJob(paper));
        var firsts = drawings.Select((d, i) => (d.Packet.Drawing.Number, i)).DistinctBy(d => d.Number).ToDictionary(d => d.Number, d => (d.i + 1, d.i % 3 == 0 ? 0 : d.i + 40), StringComparer.Ordinal);
        return (paper.Name, Svg([.. lists.Cover(paper, [(Reader.Saw, 2), (Reader.Fitter, 5)], firsts), .. lists.Lists(paper, Reader.All)]));
    }));

    [Fact]
    public void The_erection_cards_are_the_accepted_ones() => Accepted.Same("accepted-erection.txt", Accepted.Few.Select(d =>
        (d.Name, SiteLine.Of(d.Packet.Fabrication) is var line ? Svg(ErectionPages.Of(Job(d.Packet), line, ErectionOrder.Of(line), [])) : "")));

    [Fact]
    [Trait("pace", "slow")]
    public void The_site_sheets_are_the_accepted_ones() => Accepted.Same("accepted-site.txt", Accepted.Fewest.SelectMany(d =>
    {
        var (job, line) = (Job(d.Packet), SiteLine.Of(d.Packet.Fabrication));
        var closing = LineClosing.Of(line, AcceptedSiteTest.Surveyed(line)).Closing;
        return new[]
        {
            ($"{d.Name}, survey", Svg(SurveySheets.Of(job, line, new()))),
            ($"{d.Name}, closing", closing is null ? "" : Svg([.. ClosingSheets.Of(job, closing, new ClosingWords(d.Packet.Drawing.Units).Say(closing)), .. AsBuiltSheets.Of(job, closing.Adjustment)])),
        };
    }));

    [Fact]
    public void The_models_and_lists_as_data_are_the_accepted_ones() => Accepted.Same("accepted-data.txt", Accepted.Drawings.Concat(Accepted.Mistakes).Select(d =>
    {
        var text = new StringBuilder(Given.Json(d.Packet)).Append(Convert.ToHexString(Model.Glb(d.Packet.Fabrication)));
        foreach (var row in CutRow.Of(d.Packet))
            text.Append(CutListFiles.Csv(row)).Append('\n');
        foreach (var list in PaperLists.All)
        {
            foreach (var row in list.Rows(d.Packet))
                text.Append(PaperList.Csv(row)).Append('\n');
        }

        foreach (var template in Templates.Of(d.Packet.Fabrication))
            text.AppendJoin('\n', template.Notes);
        return (d.Name, text.ToString());
    }));
}
