using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets;

/// <summary>The lists over all drawings: their figures are those of the steel, and of each other.</summary>
public class ListsTest
{
    private static List<string> Words(Reader who, params Packet[] packets) => [.. new Booklet("x", PagesOf(who, packets)).Scenes().SelectMany(s => Drawn.Texts(s.Marks)).Select(t => t.Content)];

    private static IReadOnlyList<Page> PagesOf(Reader who, params Packet[] packets)
    {
        var lists = new JobPages();
        foreach (var packet in packets)
            lists.Add(packet.ToJob(Paper.A4));
        return lists.Lists(Paper.A4, who);
    }

    private static string Line(Reader who, params Packet[] packets) => string.Join(' ', Words(who, packets));

    private static Packet Saddled(string quantity = "") => Given.Packet($$"""
        drawing: S-1
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        {{quantity}}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0} }
            legs:
              - {go: north, by: 1500, to: stub-in, name: S1, branch: up, size: 4}
              - {go: north, by: 1500, to: flange}
          - run: branch
            start: {from: S1}
            legs:
              - {go: up, by: 800, to: flange}
        """);

    // The sides of the saddle reach below the header's top: the saw leaves that on, the store gives it out, and the sum says it.
    [Fact]
    public void Pipe_with_a_saddle_is_given_out_as_long_as_it_is_sawn_and_its_sum_says_what_the_saw_leaves_on()
    {
        var packet = Saddled();
        var branch = Assert.Single(packet.Fabrication.Cuts, c => c.Saddle > 0);
        // The bore of NPS 4 schedule 40 (102.26) on NPS 6 (168.3), square: 84.15 - sqrt(84.15^2 - 51.13^2) = 17.3 mm (ASME B36.10, by hand).
        Assert.Equal(17.3, branch.Saddle, 0.05);
        Assert.Equal(branch.SawLength / 1000, packet.Fabrication.Materials.Single(m => m is { IsLength: true } && m.Size == branch.Pipe.Size).Needed, 1e-9);
        Assert.Contains($"; saw {LengthText.In(Units.Millimetres, branch.SawLength)}", Line(Reader.Saw, packet), StringComparison.Ordinal);
    }

    // What the saw takes is the shop's (a band saw takes 1 to 3 mm: common practice) and in no length.
    [Fact]
    public void The_saw_list_says_what_the_saw_takes_beside_the_lengths()
    {
        var words = Line(Reader.Saw, Saddled("shop: {kerf: 2.4}"));
        Assert.Contains("the saw takes 2.4 mm besides at each cut", words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_process_that_nobody_gave_is_not_bought_for_without_a_word()
    {
        var silent = Line(Reader.Inspector, Saddled());
        Assert.Contains("process not given; as for stick", silent, StringComparison.Ordinal);
        var given = Line(Reader.Inspector, Saddled("shop: {welding: {process: rod}}"));
        Assert.DoesNotContain("not given", given, StringComparison.Ordinal);
        Assert.DoesNotContain("not given", Line(Reader.Inspector, Saddled("shop: {welding: {electrode: 350}}")), StringComparison.Ordinal);
    }

    [Fact]
    public void A_nipple_into_the_tee_that_its_run_ties_into_keeps_the_length_at_which_it_is_bought()
    {
        // ASME B16.11, NPS 3/4 class 3000: centre to bottom of socket 19 mm (0.75 in); 1/16 in. off the bottom (B31.1 figure, common practice).
        var tied = Tied("by: makeup");
        var nipple = Assert.Single(tied.Fabrication.Cuts, c => !c.IsCut);
        Assert.Equal(3 * 25.4, nipple.Length, 0.01);
        var (leg, start) = (tied.Fabrication.Route.Runs[1].Distances[^1], nipple.Sum[0].Mm);
        Assert.Equal(leg, start);
        Assert.InRange(leg / 25.4, 3.75, 3.875);
        // Written out, the leg is that long and no other; and what it is bought at stands in the list.
        Assert.DoesNotContain(Tied($"by: {leg / 25.4:0.0000}").Findings, f => f.Rule == "nipple-length");
        Assert.Contains(Tied("by: 3").Findings, f => f.Rule == "nipple-length");

        static Packet Tied(string by) => Given.Packet($$"""
            drawing: N-1
            units: in
            line: {size: 3/4, schedule: 80, class: 150, ends: socket, fitting class: 3000}
            runs:
              - run: main
                start: {to: open, ends: plain, at: {east: 0, north: 0, up: 0} }
                legs:
                  - {go: north, by: 20, to: tee, name: T1, branch: up}
                  - {go: north, by: 20, to: open, ends: plain}
              - run: fall
                start: {to: open, ends: plain, at: {east: 0, north: 20, up: 3.8125} }
                legs:
                  - {go: down, {{by}}, nipple: 3, to: tie-in, with: T1}
            """);
    }

    // Two drawings' worth of unlike parts without a list: gate valves with sockets and with threads, nipples of two walls.
    private static Packet Unlisted => Given.Packet("""
        drawing: U-1
        units: in
        line: {size: 3/4, schedule: 80, class: 150, material: A106-B, ends: socket, fitting class: 3000}
        runs:
          - run: main
            start: {to: open, ends: threaded, at: {east: 0, north: 0, up: 0} }
            legs:
              - {go: north, by: makeup, nipple: 3, to: valve, kind: gate, ends: socket, class: 800, face to face: 3.5}
              - {go: north, by: makeup, nipple: 3, to: valve, kind: gate, ends: threaded, class: 800, face to face: 3.5}
              - {go: north, by: makeup, nipple: 3, schedule: 160, to: coupling}
              - {go: north, by: 20, to: open, ends: plain}
        """);

    [Fact]
    public void Without_a_list_the_store_reads_schedule_class_and_ends_of_what_is_drawn_and_inches_in_a_drawing_in_inches()
    {
        var words = Words(Reader.Store, Unlisted);
        Assert.Contains("gate socket", words);
        Assert.Contains("gate threaded", words);
        Assert.DoesNotContain(words, w => w.Contains("76", StringComparison.Ordinal));
        var line = string.Join(' ', words);
        Assert.Contains("sch 80, 3\", A106-B 2", line, StringComparison.Ordinal);
        Assert.Contains("sch 160, 3\", A106-B 1", line, StringComparison.Ordinal);
        Assert.Contains("class 800", line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(95, true)]
    [InlineData(100, false)]
    public void Studs_that_the_list_has_another_step_long_than_their_joints_take_are_told_at_the_counter(int listed, bool isTold)
    {
        // ASME B16.5 table 7 (class 150): NPS 6 takes eight studs 3/4 x 100 mm.
        var packet = Given.Packet($$"""
            drawing: B-1
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            materials:
              - {item: 1, what: stud bolt, size: 3/4, length: {{listed}}, quantity: 8}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0} }
                legs: [{go: north, by: 1000, to: open}]
            """);
        var line = Line(Reader.Store, packet);
        Assert.Equal(isTold, line.Contains("its list says", StringComparison.Ordinal));
        Assert.Contains("8 × 3/4 × 100", line, StringComparison.Ordinal);
    }

    [Fact]
    public void Threads_are_counted_as_threads_and_of_welds_that_are_no_butt_welds_nothing_is_said_to_take_no_time()
    {
        var line = Line(Reader.Inspector, Unlisted);
        var joints = Unlisted.Fabrication.Route.Joints;
        var threads = joints.Count(j => j.Kind == Rootgap.Routes.JointKind.Threaded);
        Assert.InRange(threads, 1, joints.Count - 1);
        Assert.Contains($"{joints.Count - threads} welds, {threads} threads, 0 bolted joints", line, StringComparison.Ordinal);
        Assert.DoesNotContain("0.0", Words(Reader.Inspector, Unlisted));
        Assert.DoesNotContain("0", Words(Reader.Inspector, Unlisted));
        Assert.Contains("hours, butt", line, StringComparison.Ordinal);
    }

    // A foot-pound is no newton metre: 151 of the one is 205 of the other.
    [Theory]
    [InlineData("in", "ft lb", "1/16\" high or low, 1/32\" parallel", "holes 1/8\"")]
    [InlineData("mm", "N m", "1.5 mm high or low, 0.8 mm parallel", "holes 3 mm")]
    public void The_torques_of_a_single_drawing_have_their_unit_and_the_limits_are_on_a_rule(string units, string torque, string limits, string holes)
    {
        var packet = Given.Run(units, "size: 6, schedule: 40, class: 150", "bolting: {stress: 50 ksi, area: root, nut factor: 0.16, source: the shop's card}", "flange", $"{{go: north, by: {(units == "in" ? 40 : 1000)}, to: open}}");
        var line = Line(Reader.Site, packet);
        Assert.Contains($"torque in {torque}", line, StringComparison.Ordinal);
        Assert.Contains(limits, line, StringComparison.Ordinal);
        Assert.Contains(holes, line, StringComparison.Ordinal);
        if (units == "in")
            Assert.DoesNotContain(" mm", line, StringComparison.Ordinal);
    }

    [Fact]
    public void The_cover_says_which_lengths_are_to_be_asked_before_the_saw_and_counts_what_the_lists_count()
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 900, to: valve, kind: gate}", "{go: north, by: 900, to: elbow}", "{go: up, by: 500, to: open}");
        var lists = new JobPages();
        lists.Add(packet.ToJob(Paper.A4));
        var line = string.Join(' ', lists.Cover(Paper.A4, [], new Dictionary<string, (int, int)>()).SelectMany(p => Drawn.Texts(p.Marks)).Select(t => t.Content));
        Assert.Contains("valve lengths are the table's: hold", line, StringComparison.Ordinal);
        Assert.Contains("main, leg 1", line, StringComparison.Ordinal);
        Assert.DoesNotContain("face to face", line, StringComparison.Ordinal);
        Assert.DoesNotContain("rootgap check", line, StringComparison.Ordinal);
    }

    // Whole inches at the end of a line and their fraction on the next are read as whole inches.
    [Theory]
    [InlineData("12 × 7/8 × 4 1/2\"", 12)]
    [InlineData("8 holes 7/8 on 14 1/4\", marks 1 3/8\" back", 20)]
    [InlineData("PS-3 2'-2 5/8\" from the end", 18)]
    public void A_fraction_stays_with_its_inches(string text, double width)
    {
        var lines = TextStyle.Small.Wrap(text, width);
        Assert.True(lines.Count > 1, "one line");
        Assert.Equal(text, string.Join(' ', lines));
        Assert.All(lines.Skip(1), l => Assert.DoesNotMatch(@"^\d+/\d+", l.StartsWith("7/8", StringComparison.Ordinal) ? "" : l));
    }
}
