using System.Text.Json;
using System.Text.Json.Nodes;
using Rootgap.App.Tests.Harness;
using Rootgap.Packets;
using Rootgap.Sheets;
using UglyToad.PdfPig;

namespace Rootgap.App.Tests;

/// <summary>The packet made in the browser against the one that the engine makes on this machine, as the command line does.</summary>
public class PacketTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    // Millimetres with three runs; feet and inches with a list in CSV; a list in a workbook.
    private static readonly string[] Chosen = ["chilled-supply.yaml", "oxygen.yaml", "pump-suction.yaml"];

    [Fact]
    public async Task The_packet_of_the_browser_has_every_number_and_word_of_the_command_lines()
    {
        var here = Here();
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await tablet.IsKept();
        await tablet.AllSent();
        // With no server within reach: all of it is made in the browser.
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await tablet.Turn("packet");
        await page.GetByRole(AriaRole.Button, new() { Name = "None", Exact = true }).ClickAsync();
        foreach (var file in Chosen)
            await page.GetByLabel(Pages.Sample(file).Drawing.Number).CheckAsync();
        await page.Locator("#make-packet").ClickAsync();
        await page.Locator("#save-json").WaitForAsync(new() { Timeout = 120_000 });

        var json = JsonNode.Parse(await Save(page, "save-json"))!;
        var wanted = JsonNode.Parse(here["packet.json"])!;
        json["rootgap"] = wanted["rootgap"]!.DeepClone();
        Assert.Equal(wanted.ToJsonString(new() { WriteIndented = true }), json.ToJsonString(new() { WriteIndented = true }));
        Assert.Equal(here["cut-list.csv"], await Save(page, "save-csv"));
        Assert.Equal(Words(here["shop.pdf"]), Words(await Save(page, "save-pdf")));
        Assert.Equal(Cells(here["cut-list.xlsx"]), Cells(await Save(page, "save-xlsx")));

        // One reader's sheets alone.
        await page.Locator("#packet-for").SelectOptionAsync("saw");
        await page.Locator("#make-packet").ClickAsync();
        await Assertions.Expect(page.GetByText("saw.pdf")).ToBeVisibleAsync(new() { Timeout = 120_000 });
        Assert.Equal(Words(Here(Reader.Saw)["saw.pdf"]), Words(await Save(page, "save-pdf")));
    }

    [Fact]
    public async Task Models_come_with_the_part_of_the_program_that_writes_them_and_without_it_all_else_is_made()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await tablet.IsKept();
        await tablet.AllSent();
        await tablet.Context.SetOfflineAsync(true);
        await tablet.Turn("packet");
        await page.GetByRole(AriaRole.Button, new() { Name = "None", Exact = true }).ClickAsync();
        await page.GetByLabel(Pages.Sample(Chosen[0]).Drawing.Number).CheckAsync();
        await page.Locator("#packet-for").SelectOptionAsync("saw");
        await page.GetByLabel("Also the models").CheckAsync();
        await page.Locator("#make-packet").ClickAsync();
        // Only what comes at rest is not here yet; on a slow machine it may be.
        await Assertions.Expect(page.GetByText("Open the drawing's Model once").Or(page.GetByText("models.zip")).First).ToBeVisibleAsync(new() { Timeout = 120_000 });
        await Assertions.Expect(page.GetByText("saw.pdf")).ToBeVisibleAsync();
        await tablet.Context.SetOfflineAsync(false);
        await page.Locator("#make-packet").ClickAsync();
        await Assertions.Expect(page.GetByText("models.zip")).ToBeVisibleAsync(new() { Timeout = 120_000 });
        using var archive = new System.IO.Compression.ZipArchive(new MemoryStream(await Save(page, "save-zip")));
        using var model = archive.Entries.Single().Open();
        var magic = new byte[4];
        await model.ReadExactlyAsync(magic, TestContext.Current.CancellationToken);
        // glTF 2.0, 4.4.2: a binary begins with the word glTF.
        Assert.Equal("glTF"u8.ToArray(), magic);
    }

    /// <summary>The same files as <c>rootgap packet</c>: both go through <see cref="PacketFiles"/>.</summary>
    private static Dictionary<string, byte[]> Here(Reader who = Reader.All)
    {
        var streams = new Dictionary<string, MemoryStream>(StringComparer.Ordinal);
        using (var files = new PacketFiles("", Paper.A4, name => streams[name] = new MemoryStream(), who))
        {
            foreach (var file in Chosen)
                files.Add(PacketPart.Of(Pages.Sample(file), Paper.A4, who));
            files.Close();
        }

        return streams.ToDictionary(s => s.Key, s => s.Value.ToArray(), StringComparer.Ordinal);
    }

    private static async Task<byte[]> Save(IPage page, string button)
    {
        var download = await page.RunAndWaitForDownloadAsync(() => page.Locator("#" + button).ClickAsync());
        return await File.ReadAllBytesAsync(await download.PathAsync());
    }

    private static List<string> Words(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        return [.. document.GetPages().SelectMany(p => p.GetWords().Select(w => FormattableString.Invariant($"{p.Number} {w.BoundingBox.Left:0.0} {w.BoundingBox.Bottom:0.0} {w.Text}")))];
    }

    /// <summary>The sheet's XML: every cell with its value; the archive around it holds times.</summary>
    private static string Cells(byte[] xlsx)
    {
        using var archive = new System.IO.Compression.ZipArchive(new MemoryStream(xlsx));
        using var reader = new StreamReader(archive.Entries.First(e => e.FullName.EndsWith("sheet1.xml", StringComparison.Ordinal)).Open());
        return reader.ReadToEnd();
    }
}
