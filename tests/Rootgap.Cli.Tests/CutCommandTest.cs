using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap cut</c> as its user calls it.</summary>
public class CutCommandTest
{
    private const string Rack = """
        stock:
          - {id: R1, size: 6, schedule: 40, material: A106-B, length: 6000, quantity: 2, heat: H1}
        """;

    [Fact]
    public void Two_drawings_and_a_rack_give_one_plan_in_every_form()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", Shop.Drawing("B-1"));
        shop.Write("rack.yaml", Rack);
        var call = shop.Run("cut", "a.yaml", "b.yaml", "--stock", "rack.yaml", "--out", "plan");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        foreach (var file in (string[])["cut.pdf", "labels.pdf", "buy.csv", "cut.json", "cut.csv", "cut.xlsx", "rack-after.yaml", "rack-after.csv"])
            Assert.True(new FileInfo(shop.At("plan", file)).Length > 0, file);
        using var plan = JsonDocument.Parse(File.ReadAllText(shop.At("plan", "cut.json")));
        var group = Assert.Single(plan.RootElement.GetProperty("groups").EnumerateArray().ToArray());
        Assert.True(group.GetProperty("proven").GetBoolean());
        var bar = Assert.Single(group.GetProperty("bars").EnumerateArray().ToArray());
        Assert.Equal(("R1", "H1"), (bar.GetProperty("stock").GetString(), bar.GetProperty("heat").GetString()));
        Assert.Equal(4, bar.GetProperty("pieces").GetArrayLength());

        // The stock after the cuts is a stock file, and the packet gives the same pieces as the drawing.
        Assert.InRange(shop.Run("packet", "a.yaml", "--out", "packet").Exit, 0, 1);
        var again = shop.Run("cut", Path.Combine("packet", "packet.json"), "--stock", Path.Combine("plan", "rack-after.yaml"), "--json");
        Assert.Equal((0, 0), (again.Exit, JsonDocument.Parse(again.Out).RootElement.GetProperty("unplaced").GetArrayLength()));
    }

    [Fact]
    public void A_piece_without_stock_ends_with_2_and_is_named()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("rack.csv", "id,size,schedule,material,length\nR1,6,80,A106-B,6000\n");
        var call = shop.Run("cut", "a.yaml", "--stock", "rack.csv", "--json");
        Assert.Equal(2, call.Exit);
        using var plan = JsonDocument.Parse(call.Out);
        Assert.All(plan.RootElement.GetProperty("unplaced").EnumerateArray(), u => Assert.Contains("not in 40", u.GetProperty("why").GetString(), StringComparison.Ordinal));
    }

    [Fact]
    public void A_stock_file_with_a_slip_ends_with_3_and_shows_the_line()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("rack.yaml", "stock:\n  - {id: R1, size: 6, schedule: 40, length: -6000}\n");
        var call = shop.Run("cut", "a.yaml", "--stock", "rack.yaml", "--json");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains("rack.yaml:2:", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_is_gone_on_from_as_often_as_wanted_with_the_first_stock_file()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", Shop.Drawing("B-1"));
        shop.Write("rack.yaml", Rack);
        string[] job = ["cut", "a.yaml", "b.yaml", "--stock", "rack.yaml"];
        Assert.Equal(0, shop.Run([.. job, "--out", "p1"]).Exit);
        var marks = Pieces(shop, "p1");
        Assert.Equal(4, marks.Count);

        // Both drawings have this mark: nothing is guessed.
        var mark = marks[0].Split(':')[1];
        var asked = shop.Run([.. job, "--after", "p1/cut.json", "--cut", mark, "--out", "p2"]);
        Assert.Equal(3, asked.Exit);
        Assert.Contains($"A-1 {mark}", asked.Error, StringComparison.Ordinal);
        Assert.Contains($"B-1 {mark}", asked.Error, StringComparison.Ordinal);
        Assert.Equal(0, shop.Run([.. job, "--after", "p1/cut.json", "--cut", marks[0], "--out", "p2"]).Exit);
        Assert.Equal(marks.Skip(1).Order(StringComparer.Ordinal), Pieces(shop, "p2").Order(StringComparer.Ordinal));
        var next = Pieces(shop, "p2")[0];
        Assert.Equal(0, shop.Run([.. job, "--after", "p2/cut.json", "--cut", next, "--out", "p3"]).Exit);
        Assert.Equal(marks.Except([marks[0], next]).Order(StringComparer.Ordinal), Pieces(shop, "p3").Order(StringComparer.Ordinal));
        Assert.Equal(3, shop.Run([.. job, "--after", "p2/cut.json", "--out-of-use", "R9", "--json"]).Exit);
        Assert.Equal(64, shop.Run([.. job, "--after", "p2/cut.json", "--heat", "R1", "--json"]).Exit);
    }

    [Fact]
    public async Task What_was_entered_in_the_app_is_known_without_being_told()
    {
        using var shop = new Shop();
        shop.Write("job/a.yaml", Shop.Drawing("A-1"));
        shop.Write("job/rack.yaml", Rack);
        string[] job = ["cut", "job", "--stock", "job/rack.yaml"];
        Assert.Equal(0, shop.Run([.. job, "--out", "p1"]).Exit);
        var marks = Pieces(shop, "p1");
        Assert.Equal(2, marks.Count);
        await shop.Keep("job", new PieceCut(Shop.Id(1), "Jo", DateTimeOffset.UnixEpoch, new("A-1", "0"), marks[0].Split(':')[1]) { From = new("rack.yaml", "R1#1", 1400) });

        var next = shop.Run([.. job, "--out", "p2"]);
        Assert.Contains("From the job's records: 1 of 1 cuts count.", next.Out, StringComparison.Ordinal);
        Assert.Equal(marks.Skip(1), Pieces(shop, "p2"));
        Assert.Contains("R1#1 rest", File.ReadAllText(shop.At("p2", "cut.json")), StringComparison.Ordinal);
        Assert.Equal(marks, Pieces(shop, Out(shop.Run([.. job, "--out", "p3", "--without-records"]), "p3")));

        // Both ways together: the plan of the first day is gone on from, and the tick counts with what is told here. Told twice is told once.
        Assert.Empty(Pieces(shop, Out(shop.Run([.. job, "--after", "p1/cut.json", "--cut", .. marks, "--out", "p4"]), "p4")));
        Assert.Equal(marks.Skip(1), Pieces(shop, Out(shop.Run([.. job, "--after", "p1/cut.json", "--cut", marks[0], "--out", "p5"]), "p5")));

        // A copy of the stock file elsewhere is known by its name only where the job has it; here its bars are whole, the piece is cut all the same.
        shop.Write("rack.yaml", Rack);
        var other = shop.Run("cut", "job", "--stock", "rack.yaml", "--out", "p6");
        Assert.Equal(marks.Skip(1), Pieces(shop, Out(other, "p6")));

        await shop.Keep("job", new BarNoted(Shop.Id(2), "Jo", DateTimeOffset.UnixEpoch, "rack.yaml", "R1#1") { IsOut = true }, new PieceCut(Shop.Id(3), "Jo", DateTimeOffset.UnixEpoch.AddHours(1), new("A-1", "0"), marks[0].Split(':')[1]) { From = new("rack.yaml", "R1#1", 1400), IsSpoiled = true });
        Assert.Equal(marks.Order(StringComparer.Ordinal), Pieces(shop, Out(shop.Run([.. job, "--out", "p7"]), "p7")).Order(StringComparer.Ordinal));
        Assert.DoesNotContain("\"R1#1", File.ReadAllText(shop.At("p7", "cut.json")).Split("cut_before")[0], StringComparison.Ordinal);

        Assert.Equal(64, shop.Run([.. job, "--out", "p8", "--records", "job", "--without-records"]).Exit);
        Assert.Equal(3, shop.Run([.. job, "--out", "p8", "--records", "p1"]).Exit);
        File.Delete(shop.At("job", ".rootgap", "records.db"));
        File.WriteAllText(shop.At("job", ".rootgap", "job.json"), """{"job": "x"}""");
        var unknown = shop.Run([.. job, "--out", "p9"]);
        Assert.Equal(1, unknown.Exit);
        Assert.Contains("what was entered in the app is not known", unknown.Error, StringComparison.Ordinal);
    }

    private static string Out(Call call, string folder)
    {
        Assert.True(call.Exit is 0 or 1, call.Error);
        return folder;
    }

    private static List<string> Pieces(Shop shop, string plan)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(shop.At(plan, "cut.json")));
        return [.. from g in json.RootElement.GetProperty("groups").EnumerateArray()
                   from b in g.GetProperty("bars").EnumerateArray()
                   from p in b.GetProperty("pieces").EnumerateArray()
                   select $"{p.GetProperty("drawing").GetString()}:{p.GetProperty("piece").GetString()}"];
    }

    [Fact]
    public void A_drawing_that_cannot_be_built_is_planned_only_when_asked_and_marked()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", Shop.Drawing("B-1", by: "300"));
        shop.Write("rack.yaml", Rack);
        Assert.Equal(2, shop.Run("check", "b.yaml").Exit);
        var left = shop.Run("cut", "a.yaml", "b.yaml", "--stock", "rack.yaml", "--out", "plan");
        Assert.Equal(2, left.Exit);
        Assert.Contains("B-1 can't be built as drawn", left.Error, StringComparison.Ordinal);
        Assert.All(Pieces(shop, "plan"), p => Assert.StartsWith("A-1:", p, StringComparison.Ordinal));
        var asked = shop.Run("cut", "a.yaml", "b.yaml", "--stock", "rack.yaml", "--out", "plan", "--despite-stop");
        Assert.Equal(2, asked.Exit);
        Assert.Contains(Pieces(shop, "plan"), p => p.StartsWith("B-1:", StringComparison.Ordinal));
        Assert.Contains("NOT FOR FABRICATION", File.ReadAllText(shop.At("plan", "cut.csv")), StringComparison.Ordinal);
        using var json = JsonDocument.Parse(File.ReadAllText(shop.At("plan", "cut.json")));
        Assert.Equal("B-1", Assert.Single(json.RootElement.GetProperty("not_for_fabrication").EnumerateArray().ToArray()).GetString());
    }

    [Fact]
    public void A_plain_instance_is_answered_as_JSON()
    {
        using var shop = new Shop();
        // 3 x 60 cannot share a bar of 100: 3 bars hold 60 + 40, 60 + 40, 60.
        shop.Write("i.txt", "2\n100\n60 3\n40 2\n");
        var call = shop.Run("cut", "--instance", "i.txt", "--json");
        Assert.Equal(0, call.Exit);
        using var answer = JsonDocument.Parse(call.Out);
        Assert.Equal((3, 3, true), (answer.RootElement.GetProperty("bars").GetInt32(), answer.RootElement.GetProperty("bound").GetInt32(), answer.RootElement.GetProperty("proven").GetBoolean()));
        Assert.Equal(3, answer.RootElement.GetProperty("patterns").EnumerateArray().Sum(p => p.GetProperty("count").GetInt32()));
    }

    [Theory]
    [InlineData("cut")]
    [InlineData("cut", "a.yaml")]
    [InlineData("cut", "a.yaml", "--stock", "rack.yaml")]
    [InlineData("cut", "a.yaml", "--stock", "rack.yaml", "--out", "plan", "--cut", "1-A")]
    [InlineData("cut", "a.yaml", "--instance", "i.txt")]
    [InlineData("cut", "--instance", "i.txt", "--time", "0")]
    public void Wrong_usage_ends_with_64(params string[] arguments)
    {
        using var shop = new Shop();
        Assert.Equal(64, shop.Run(arguments).Exit);
    }

    [Fact]
    public void A_file_that_is_not_there_ends_with_3()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        Assert.Equal(3, shop.Run("cut", "a.yaml", "--stock", "none.yaml", "--json").Exit);
        Assert.Equal(3, shop.Run("cut", "none.yaml", "--stock", "none.yaml", "--json").Exit);
        Assert.Equal(3, shop.Run("cut", "--instance", "none.txt", "--json").Exit);
    }
}
