namespace Rootgap.Cli.Tests;

/// <summary>The papers on the command line: put on record, held back, drawn, listed, handed over.</summary>
public class PapersCommandsTest
{
    private const string Hold = "shop: {hold points: [{before: welded, needs: fit-up seen}]}";

    private static Shop Job(string extra = Hold)
    {
        var shop = new Shop();
        shop.Write("job/line.yaml", Shop.Drawing("T-1", extra: extra));
        return shop;
    }

    [Fact]
    public void A_weld_is_held_until_its_word_is_on_record_or_somebody_takes_it_on()
    {
        using var shop = Job();
        var held = shop.Run("record", "job", "welded", "W1", "welder=K1", "--who", "Jo");
        Assert.Equal(2, held.Exit);
        Assert.Contains("W1: its fit-up is not seen", held.Error, StringComparison.Ordinal);
        Assert.Contains("--despite", held.Error, StringComparison.Ordinal);

        Assert.Equal(0, shop.Run("record", "job", "fit-up-seen", "W1", "gap=3", "--who", "Ines").Exit);
        Assert.Equal(0, shop.Run("record", "job", "welded", "W1", "root=K1", "fill=K2", "cap=K2", "--who", "Jo").Exit);
        Assert.Equal(0, shop.Run("record", "job", "welded", "W2", "welder=K1", "--who", "Jo", "--despite", "night shift", "--by", "Bo").Exit);
        var welds = shop.Run("welds", "job");
        Assert.Contains("K1 + K2", welds.Out, StringComparison.Ordinal);
        Assert.Contains("today: cut 1-A", shop.Run("today", "job", "--picture", "welded.svg").Out, StringComparison.Ordinal);
        Assert.Contains("welds: 2 of 3", File.ReadAllText(shop.At("welded.svg")), StringComparison.Ordinal);
        Assert.Contains("written as .svg, .pdf or .png", shop.Run("today", "job", "--picture", "welded.bmp").Error, StringComparison.Ordinal);

        Assert.Equal(0, shop.Run("record", "job", "repair", "W1", "why=pores", "--who", "Ines").Exit);
        Assert.Equal(0, shop.Run("record", "job", "fit-up-seen", "W1", "--who", "Ines").Exit);
        Assert.Equal(0, shop.Run("record", "job", "welded", "W1", "welder=K3", "--who", "Jo").Exit);
        Assert.Contains("T-1 W1 R1", shop.Run("welds", "job").Out, StringComparison.Ordinal);

        var drawn = shop.Run("lots", "job", "--draw", "--share", "50", "--seed", "7", "--who", "Ines");
        Assert.Contains("seed 7, 1 draw; 2 welds", drawn.Out, StringComparison.Ordinal);

        var book = shop.Run("handover", "job", "--drawing", "T-1", "--out", "book");
        Assert.Equal(1, book.Exit);
        Assert.Contains("Release: spool 1: not released", book.Out, StringComparison.Ordinal);
        foreach (var file in new[] { "handover.pdf", "handover.xlsx", "handover.json", "weld-list.csv", "deviations.csv" })
            Assert.True(new FileInfo(shop.At("book", file)).Length > 0, file);
        Assert.Contains("night shift", File.ReadAllText(shop.At("book", "deviations.csv")), StringComparison.Ordinal);
    }

    // As docs/record.md has it: of a test, bar is its pressure and to its end; of a cut piece, bar is the stock's mark and to a place along it.
    [Fact]
    public void A_test_is_put_on_record_with_its_pressure_and_its_hours()
    {
        using var shop = Job("test: {pack: TP-4}");
        var call = shop.Run("record", "job", "tested", "TP-4", "medium=water", "bar=22.5", "passed=yes", "from=2026-11-25T10:00:00Z", "to=2026-11-25T10:30:00Z", "gauges=G1,G2", "--who", "Ines", "--despite", "shown here", "--by", "Bo");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        Assert.Equal(0, shop.Run("lists", "job", "--out", "lists").Exit);
        var row = File.ReadAllText(shop.At("lists", "tests.csv"));
        Assert.Contains("22.5", row, StringComparison.Ordinal);
        Assert.Contains("G1", row, StringComparison.Ordinal);
    }

    // An inspector finds every paper that the book names: beside it, under its sign.
    [Fact]
    public void Papers_of_the_entries_are_handed_over_beside_the_book_under_their_signs()
    {
        using var shop = Job("");
        var paper = "%PDF-1.4 mill certificate"u8.ToArray();
        File.WriteAllBytes(shop.At("mill.pdf"), paper);
        Assert.Equal(0, shop.Run("record", "job", "examined", "W1", "method=visual", "accepted=yes", "report=VT-1", "--who", "Ines", "--attach", "mill.pdf").Exit);
        shop.Run("handover", "job", "--drawing", "T-1", "--out", "book");
        Assert.Equal(paper, File.ReadAllBytes(shop.At("book", "T-1-P1.pdf")));
    }

    [Fact]
    public void What_cannot_be_put_on_record_is_told_and_nothing_is_kept()
    {
        using var shop = Job();
        foreach (var (arguments, told) in new[]
        {
            ("welded W9 welder=K1", "T-1 has no joint W9. It has: W1"),
            ("hammered W1", "\"hammered\" is none of"),
            ("welded W1 colour=red", "\"colour\" is no key of welded"),
            ("welded W1 preheat=hot", "preheat: \"hot\" is not a number"),
            ("examined W1 method=guess accepted=yes", "method \"guess\" is not one of"),
            ("repair", "repair what?"),
        })
        {
            var call = shop.Run(["record", "job", .. arguments.Split(' '), "--who", "Jo"]);
            Assert.Equal(64, call.Exit);
            Assert.Contains(told, call.Error, StringComparison.Ordinal);
        }

        Assert.False(File.Exists(shop.At("job", ".rootgap", "records.db")));
    }

    [Fact]
    public void Lists_come_in_and_facts_come_in_and_the_same_fact_is_kept_once()
    {
        using var shop = Job("");
        shop.Write("c.csv", "heat,certificate,size\nH1,C-1,8\n");
        Assert.Equal(0, shop.Run("certificates", "job", "c.csv", "--who", "Stu").Exit);
        Assert.Equal(0, shop.Run("record", "job", "cut", "1-A", "heat=H1", "--who", "Jo").Exit);
        var today = shop.Run("today", "job");
        Assert.Equal(1, today.Exit);
        Assert.Contains("certificate C-1 says NPS 8 where the part is NPS 6", today.Out, StringComparison.Ordinal);

        shop.Write("f.json", """{"id":"5f0f2a52-8f2b-4a3c-9d2d-3f1f6f2a9b01","fact":"joint-step","who":"Jo","when":"2026-02-01T10:00:00Z","drawing":"T-1","revision":"0","joint":"W1","step":"welded","welder":"K1"}""");
        Assert.Contains("1 facts kept, 0 were", shop.Run("record", "job", "--facts", "f.json").Out, StringComparison.Ordinal);
        Assert.Contains("0 facts kept, 1 were", shop.Run("record", "job", "--facts", "f.json").Out, StringComparison.Ordinal);
        Assert.Contains("K1: 1 welds, 6 diameter-inches", shop.Run("welds", "job").Out, StringComparison.Ordinal);

        Assert.Equal(3, shop.Run("certificates", "job", "f.json", "--who", "Stu").Exit);
        shop.Write("job/line.yaml", "drawing: T-1\nruns: oops\n");
        Assert.Equal(3, shop.Run("lists", "job", "--out", "l").Exit);
    }
}
