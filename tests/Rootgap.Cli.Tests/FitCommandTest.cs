using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap fit</c> as its user calls it.</summary>
public class FitCommandTest
{
    private const string Readings = """
        joint: W2
        readings:
          - {read: tape, at: 3, mm: 581.4}
          - {read: tape, at: 9, mm: 577.4}
          - {read: gap, at: 12, mm: 3.2}
          - {read: gap, at: 3, mm: 4.1}
          - {read: gap, at: 9, mm: 2.3}
          - {read: face level, across: 0.1}
        """;

    [Fact]
    public void Without_readings_the_targets_are_given_and_nothing_is_written()
    {
        using var shop = new Shop();
        var call = shop.Run("fit", shop.Write("a.yaml", Shop.Drawing("A-1")), "--joint", "W2", "--set-up", "level", "--json");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        using var json = JsonDocument.Parse(call.Out);
        var root = json.RootElement;
        Assert.Equal(("W2", "level", 300.0), (root.GetProperty("joint").GetString(), root.GetProperty("set-up").GetString(), root.GetProperty("mark").GetDouble()));
        Assert.False(root.TryGetProperty("error", out _));
        // ASME B16.9 mm column and B36.10M, NPS 6: 229 - 168.3 / 2.
        Assert.All(root.GetProperty("targets").EnumerateArray().Where(t => t.GetProperty("read").GetString() == "scale to pipe"), t => Assert.Equal(144.85, t.GetProperty("mm").GetDouble(), 0.05));
        Assert.Equal(["a.yaml"], Directory.EnumerateFiles(shop.Folder).Select(Path.GetFileName));
    }

    [Fact]
    public void Readings_are_diagnosed_and_kept_beside_the_drawing_each_time()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("w2.yaml", Readings);
        string[] command = ["fit", "a.yaml", "--joint", "W2", "--set-up", "level", "--readings", "w2.yaml", "--json"];
        var call = shop.Run(command);
        Assert.Equal((1, ""), (call.Exit, call.Error));
        using var json = JsonDocument.Parse(call.Out);
        // The gap is 1.8 wider at 3 than at 9 o'clock on an inside of 154.1: swung by 0.67 degrees.
        Assert.Equal(0.67, json.RootElement.GetProperty("error").GetProperty("ry").GetDouble(), 0.1);
        Assert.False(json.RootElement.GetProperty("within").GetBoolean());
        Assert.NotEmpty(json.RootElement.GetProperty("say").EnumerateArray());
        var record = shop.At("a.W2.readings.yaml");
        var first = File.ReadAllText(record);
        shop.Run(command);
        Assert.StartsWith(first, File.ReadAllText(record), StringComparison.Ordinal);
        Assert.Equal(2, File.ReadAllLines(record).Count(l => l.StartsWith("- joint: W2", StringComparison.Ordinal)));
        // The record is itself a readings file.
        Assert.Equal(1, shop.Run("fit", "a.yaml", "--joint", "W2", "--readings", "a.W2.readings.yaml", "--no-record").Exit);
        Assert.Equal(2, File.ReadAllLines(record).Count(l => l.StartsWith("- joint: W2", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("at: 3, mm: 581.4", "at: 8, mm: 581.4", "w2.yaml:3:", "no mark at \"8\"")]
    [InlineData("at: 3, mm: 581.4", "at: 3, mm: 581400", "w2.yaml:3:", "longer than the whole spool")]
    [InlineData("read: gap, at: 12", "read: gpa, at: 12", "w2.yaml:5:", "Did you mean \"gap\"")]
    public void A_bad_reading_is_told_with_file_line_and_column(string good, string bad, string place, string says)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("w2.yaml", Readings.Replace(good, bad, StringComparison.Ordinal));
        var call = shop.Run("fit", "a.yaml", "--joint", "W2", "--readings", "w2.yaml");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains(place, call.Error, StringComparison.Ordinal);
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_joint_is_wrong_usage_and_the_nearest_is_named()
    {
        using var shop = new Shop();
        var call = shop.Run("fit", shop.Write("a.yaml", Shop.Drawing("A-1")), "--joint", "W22");
        Assert.Equal(64, call.Exit);
        Assert.Contains("no joint W22", call.Error, StringComparison.Ordinal);
        Assert.Contains("W1 to W3", call.Error, StringComparison.Ordinal);
    }

    // What was typed in the app stands beside what is given in files: the final check is judged by it, and the cards stand on it.
    [Fact]
    public async Task What_was_entered_in_the_app_counts_where_no_file_says_otherwise()
    {
        using var shop = new Shop();
        const string File = "job/a.yaml";
        shop.Write(File, Shop.Drawing("A-1", extra: "shop: {shrinkage: 2}"));
        string[] final = ["fit", File, "--final", "1", "--json"];
        var plain = shop.Run(final);
        Assert.Equal((0, ""), (plain.Exit, plain.Error));
        using var json = JsonDocument.Parse(plain.Out);
        var (name, rows) = (json.RootElement.GetProperty("base").GetString()!, json.RootElement.GetProperty("targets").EnumerateArray().Select(Row).ToList());
        var order = shop.Run("fit-order", File, "--json").Out;
        await shop.Keep("job", [.. rows.Select((r, i) => new SpoolRead(Shop.Id(i + 1), "Ann", DateTimeOffset.UnixEpoch.AddMinutes(i), new("A-1", "0"), "1", name, r))]);

        var judged = shop.Run(final);
        Assert.Equal((0, ""), (judged.Exit, judged.Error));
        using var found = JsonDocument.Parse(judged.Out);
        Assert.Equal("within", found.RootElement.GetProperty("verdict").GetString());
        Assert.Equal(plain.Out, shop.Run([.. final, "--without-records"]).Out);
        // The same readings as a file, and that they are on record twice changes nothing; nothing is written beside the drawing by asking.
        shop.Write("final.yaml", $"spool: 1\nbase: {name}\nreadings:\n{string.Concat(rows.Select(r => $"  - {r}\n"))}");
        Assert.Equal(judged.Out, shop.Run([.. final, "--readings", "final.yaml", "--no-record"]).Out);
        Assert.Equal(["a.yaml"], Directory.EnumerateFiles(shop.At("job")).Select(Path.GetFileName));
        // One of them read 20 more since: it contradicts the others, here as there.
        var far = rows[0][..rows[0].LastIndexOf(' ')] + FormattableString.Invariant($" {json.RootElement.GetProperty("targets")[0].GetProperty("mm").GetDouble() + 20}}}");
        await shop.Keep("job", new SpoolRead(Shop.Id(90), "Ann", DateTimeOffset.UnixEpoch.AddHours(2), new("A-1", "0"), "1", name, far));
        Assert.Equal(1, shop.Run(final).Exit);

        // Welded out of the planned order, it stands first, and the next card is shorter by what it has drawn in.
        var last = JsonDocument.Parse(order).RootElement.GetProperty("spools")[0].GetProperty("steps").EnumerateArray().Select(s => s.GetProperty("joint").GetString()!).Last();
        await shop.Keep("job", new JointStep(Shop.Id(91), "Ann", DateTimeOffset.UnixEpoch.AddHours(3), new("A-1", "0"), last, Step.Welded));
        var anew = JsonDocument.Parse(shop.Run("fit-order", File, "--json").Out).RootElement.GetProperty("spools")[0].GetProperty("steps").EnumerateArray().Select(s => s.GetProperty("joint").GetString()!).ToList();
        Assert.Equal(last, anew[0]);
        var next = shop.Run("fit", File, "--joint", anew[1]);
        Assert.Equal((0, ""), (next.Exit, next.Error));
        Assert.Contains($"{last} is welded and has drawn in", next.Out, StringComparison.Ordinal);
        Assert.Equal(order, shop.Run("fit-order", File, "--json", "--without-records").Out);
        // Where the records are not in the folder it is said, and the drawing counts.
        System.IO.File.Delete(shop.At("job", ".rootgap", "records.db"));
        System.IO.File.WriteAllText(shop.At("job", ".rootgap", "job.json"), """{"job": "x"}""");
        var unknown = shop.Run(final);
        Assert.Equal((0, plain.Out), (unknown.Exit, unknown.Out));
        Assert.Contains("--without-records", unknown.Error, StringComparison.Ordinal);
    }

    // A target as a row of a readings file.
    private static string Row(JsonElement target) => $"{{{string.Join(", ", target.EnumerateObject().Where(p => p.Name is not ("allow" or "sd" or "tacked" or "diagonal" or "plus")).Select(p => $"{p.Name}: {p.Value}"))}}}";

    // What is read of the elbow itself stands among what is asked for, and in the answer: as on its card.
    [Fact]
    public void What_is_read_of_the_part_itself_is_listed_and_asked_for()
    {
        using var shop = new Shop();
        string[] command = ["fit", shop.Write("a.yaml", Shop.Drawing("A-1")), "--joint", "W2", "--set-up", "level", "--json", "--no-record"];
        using var json = JsonDocument.Parse(shop.Run(command).Out);
        Assert.Equal(["out of square 12", "out of square 3", "out of round "], json.RootElement.GetProperty("targets of the part").EnumerateArray()
            .Select(t => $"{t.GetProperty("read").GetString()} {(t.TryGetProperty("at", out var at) ? at.GetInt32() : "")}"));
        var asked = shop.Type(string.Concat(Enumerable.Repeat("\n", json.RootElement.GetProperty("targets").GetArrayLength())) + "1.5\n\n0.4\n", [.. command, "--ask"]);
        using var told = JsonDocument.Parse(asked.Out);
        Assert.Contains(told.RootElement.GetProperty("say").EnumerateArray(), s => s.GetString()!.Contains("made out of square, 1.5 mm out at 12", StringComparison.Ordinal));
        Assert.Contains(told.RootElement.GetProperty("say").EnumerateArray(), s => s.GetString()!.Contains("out of round by 0.4 mm", StringComparison.Ordinal));
        Assert.Contains("out of round", shop.Run([.. command[..^2], "--no-record"]).Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("card.svg", "<svg")]
    [InlineData("card.pdf", "%PDF")]
    public void A_card_is_written_in_the_form_its_name_asks_for(string name, string begins)
    {
        using var shop = new Shop();
        Assert.Equal(0, shop.Run("fit", shop.Write("a.yaml", Shop.Drawing("A-1")), "--joint", "W2", "--card", name).Exit);
        Assert.Contains(begins, File.ReadAllText(shop.At(name))[..400], StringComparison.Ordinal);
    }

    [Fact]
    public void A_set_up_that_does_not_exist_is_wrong_usage()
    {
        using var shop = new Shop();
        var call = shop.Run("fit", shop.Write("a.yaml", Shop.Drawing("A-1")), "--joint", "W2", "--set-up", "upside down");
        Assert.Equal(64, call.Exit);
        Assert.Contains("is not a set-up", call.Error, StringComparison.Ordinal);
    }
}
