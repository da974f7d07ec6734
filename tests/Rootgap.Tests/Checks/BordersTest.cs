namespace Rootgap.Tests.Checks;

/// <summary>Where each rule begins: just inside it is silent, just outside it speaks, and how gravely. The figures are what the rule's page says; geometry is worked out beside them.</summary>
public class BordersTest
{
    // arctan(50/3000) = 0.955 degrees, arctan(55/3000) = 1.050.
    [Theory]
    [InlineData(50, "note")]
    [InlineData(55, "")]
    public void A_direction_is_nearly_on_an_axis_within_one_degree(int east, string told) =>
        Desk.Tells("nearly-on-axis", told, Desk.Drawing($"{{go: {{north: 3000, east: {east}}}, to: flange}}"));

    // arctan(50/1000) = 2.86 degrees, arctan(54/1000) = 3.09.
    [Theory]
    [InlineData("{go: north, by: 1450, to: elbow}", "{north: 1000, east: 50}", "warn")]
    [InlineData("{go: north, by: 1450, to: elbow}", "{north: 1000, east: 54}", "")]
    [InlineData("{go: north, by: 1450, fall: 1:100, to: elbow}", "north, by: 1000", "note")]
    public void An_elbow_is_nearly_straight_under_three_degrees_and_a_change_of_slope_is_a_note(string first, string go, string told) =>
        Desk.Tells("nearly-straight", told, Desk.Drawing($"{first}\n{{go: {go}, to: flange}}"));

    // arctan(33/1000) = 1.89 degrees, arctan(38/1000) = 2.18.
    [Theory]
    [InlineData(33, "")]
    [InlineData(38, "note")]
    [InlineData(1000, "note")]
    public void A_fitting_is_rolled_from_two_degrees(int up, string told) =>
        Desk.Tells("rolled-fitting", told, Desk.Drawing($"{{go: north, by: 1450, to: elbow}}\n{{go: {{east: 1000, up: {up}}}, to: flange}}"));

    // A vector 40 by 30 is 50 long and a mere direction; 60 by 45 is 75 and has sizes. Three, four, five: 600 by 450 is 750 long; 1080 is 1.44 times, 1200 is 1.6 times.
    [Theory]
    [InlineData("north: 40, east: 30", 55, "")]
    [InlineData("north: 60, east: 45", 82, "stop")]
    [InlineData("north: 600, east: 450", 1080, "stop")]
    [InlineData("north: 600, east: 450", 1200, "")]
    [InlineData("north: 600, east: 450", 1050, "stop")]
    public void A_vector_of_sizes_that_nearly_makes_the_length_is_held_against_it(string vector, int by, string told) =>
        Desk.Tells("skew-length-misstated", told, Desk.Drawing($"{{go: {{{vector}}}, by: {by}, to: flange}}"));

    private static string Facing(string at, string go = "north, by: 2000") => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            start: {to: flange, at: { {{at}} } }
            legs:
              - {go: {{go}}, to: flange}
        """;

    // Eight mm are room for a gasket or a root gap; a clear space over 20 on one axis may be meant; ends over 100 apart have nothing to do with each other. tan 4.5 = 0.0787, tan 5.5 = 0.0963.
    [Theory]
    [InlineData("north: 2007", "")]
    [InlineData("north: 2009", "warn")]
    [InlineData("north: 2018", "warn")]
    [InlineData("north: 2022", "note")]
    [InlineData("north: 2095", "note")]
    [InlineData("north: 2105", "")]
    [InlineData("north: 2003.2, east: 95", "warn")]
    [InlineData("north: 2003.2, east: 105", "")]
    public void Ends_nearly_meet_within_100(string at, string told) => Desk.Tells("ends-nearly-meet", told, Facing(at));

    [Theory]
    [InlineData("{north: 1000, east: 78.7}", "warn")]
    [InlineData("{north: 1000, east: 96.3}", "")]
    public void Ends_look_at_each_other_within_five_degrees(string go, string told) => Desk.Tells("ends-nearly-meet", told, Facing("north: 2003.2, east: 12", go));

    [Theory]
    [InlineData("north: 2007, up: 25", "warn")]
    [InlineData("north: 2009, up: 25", "")]
    public void Elevations_do_not_meet_where_the_ends_meet_in_plan(string at, string told) => Desk.Tells("elevations-do-not-meet", told, Facing(at));

    // ASME B36.10M: schedule 40 at NPS 6 is 7.11, and the mill may be an eighth under it: 6.22.
    [Theory]
    [InlineData(6.3, "")]
    [InlineData(6.1, "stop")]
    public void A_wall_in_millimetres_is_a_schedule_within_the_mills_tolerance(double wall, string told) => Desk.Tells("item-schedule-mismatch", told, Desk.Drawing("{go: up, by: 1450, to: open}",
        "materials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m}]", $"size: 6, schedule: {{wall: {wall}}}, class: 150", "to: open"));

    // ASME B36.10M: 7.11 and 10.97 at NPS 6. A reducer has the wall of each end.
    [Theory]
    [InlineData("schedule: 80, to: flange", "warn")]
    [InlineData("to: reducer, size: 4}\n{go: north, by: 900, schedule: 80, to: flange", "note")]
    public void A_step_beside_a_fitting_of_two_walls_is_a_note(string legs, string told) =>
        Desk.Tells("wall-step", told, Desk.Drawing($"{{go: up, by: 1450, to: elbow}}\n{{go: north, by: 3200, {legs}}}"));

    // ASME B16.9: 229 from centre to end.
    [Theory]
    [InlineData(233.8, "")]
    [InlineData(234.2, "warn")]
    [InlineData(224.2, "")]
    [InlineData(223.8, "warn")]
    public void A_measured_take_off_is_unusual_over_5_from_the_table(double measured, string told) => Desk.Tells("measured-take-off-unusual", told, Desk.Drawing("{go: up, by: 1450, to: elbow}\n{go: north, by: 3200, to: open}", $$"""
        shop: {measured: {item 2: {take-off: {{measured}} } } }
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
        """, start: "to: open"));

    // ASME B36.10M: NPS 1 is 33.4 outside, five of them are 167.
    [Theory]
    [InlineData(33, "warn")]
    [InlineData(34, "")]
    [InlineData(166, "")]
    [InlineData(168, "warn")]
    public void A_union_is_one_to_five_outsides_long(int length, string told) =>
        Desk.Tells("union-length-unusual", told, Desk.Drawing($"{{go: up, by: 900, to: union, face to face: {length}}}\n{{go: up, by: 900, to: open, ends: threaded}}", line: "size: 1, schedule: 80, class: 150, ends: threaded", start: "to: open, ends: threaded"));

    private static string Branch(string name, string go) => Desk.Drawing($$"""
        {go: east, by: 1500, to: stub-in, name: {{name}}, size: 3, branch: {{go}}}
        {go: east, by: 1500, to: flange}
        """) + $$"""

              - run: {{name}}
                start: {from: {{name}}}
                legs:
                  - {go: {{go}}, by: 900, to: flange}
            """;

    // The part of a direction that goes up: 0.45 and 0.55 of it.
    [Theory]
    [InlineData("drain", "{north: 893, up: 450}", "")]
    [InlineData("drain", "{north: 835, up: 550}", "warn")]
    [InlineData("vent", "{north: 893, down: 450}", "")]
    [InlineData("vent", "{north: 835, down: 550}", "warn")]
    public void A_drain_that_rises_plainly_and_a_vent_that_falls_plainly_are_told(string name, string go, string told) => Desk.Tells("drain-or-vent-wrong-way", told, Branch(name, go));

    private static string Eccentric(string flat, string leg, string more) => Desk.Drawing($"{{go: north, by: 1500, {leg}to: reducer, size: 4, kind: eccentric, flat: {flat}}}\n{{go: north, by: 1500, {leg}to: flange}}", more);

    // sin 50 = 0.766 and sin 40 = 0.643 of the flat's direction up. arctan(1/12) = 4.8 degrees, arctan(1/11) = 5.2.
    [Theory]
    [InlineData("{up: 766, east: 643}", "", "service: {fluid: steam}", "note")]
    [InlineData("{up: 643, east: 766}", "", "service: {fluid: steam}", "")]
    [InlineData("{down: 766, east: 643}", "", "title: pump suction", "warn")]
    [InlineData("{down: 643, east: 766}", "", "title: pump suction", "")]
    [InlineData("top", "fall: 1:12, ", "", "note")]
    [InlineData("top", "fall: 1:11, ", "", "")]
    public void The_flat_of_a_level_eccentric_is_on_the_wrong_side(string flat, string leg, string more, string told) => Desk.Tells("eccentric-flat-against-service", told, Eccentric(flat, leg, more));

    [Theory]
    [InlineData(0.8, "warn")]
    [InlineData(1.2, "note")]
    [InlineData(9.5, "note")]
    [InlineData(10.5, "")]
    public void A_point_is_too_near_under_10_and_nothing_under_1(double by, string told) =>
        Desk.Tells("point-too-near", told, Desk.Drawing($"{{go: north, by: 1000, to: point}}\n{{go: north, by: {by}, to: point}}\n{{go: north, by: 1000, to: flange}}"));

    private static string Legs(params int[] by) => Desk.Drawing(string.Join('\n', by.Select((b, i) => $"{{go: {(i % 2 == 0 ? "north" : "east")}, by: {b}, to: {(i == by.Length - 1 ? "flange" : "elbow")}}}")));

    // 3700 is 4.1 times 900, 3500 is 3.9 times; a tenth of either lies among the others. 190 and 770: 4.05 times, 200 and 770: 3.85.
    [Theory]
    [InlineData("note", 300, 800, 900, 3700)]
    [InlineData("", 300, 800, 900, 3500)]
    [InlineData("", 300, 900, 3700)]
    [InlineData("note", 190, 770, 1500, 2000)]
    [InlineData("", 200, 770, 1500, 2000)]
    public void A_leg_stands_out_at_four_times_the_next_among_four(string told, params int[] by) => Desk.Tells("figure-ten-times-off", told, Legs(by));

    private static string Listed(double metres, params int[] by) => Legs(by).Replace("runs:", $"materials: [{{item: 1, what: pipe, size: 6, schedule: 40, quantity: {metres} m}}]\nruns:", StringComparison.Ordinal);

    // ASME B16.5 and B16.9: 89 + 229 of fittings and two root gaps of 3.2 off each leg. 2000 and 20 000 make 21.351 m of pipe; 2000 for the second make 3.351, and a quarter with an offcut of 0.6 over it 4.789.
    // 4000 and 5000 make 8.351 m; a tenth of the first saves 3.6, and a list that is short by three quarters of that holds 5.651.
    [Theory]
    [InlineData(4.7, "warn", 2000, 20000)]
    [InlineData(4.9, "", 2000, 20000)]
    [InlineData(5.6, "warn", 4000, 5000)]
    [InlineData(5.7, "", 4000, 5000)]
    public void A_figure_is_ten_times_off_where_the_list_says_so(double metres, string told, params int[] by) => Desk.Tells("figure-ten-times-off", told, Listed(metres, by));

    // Two elbows made up to each other are 229 + 229 and one root gap of 3.2 apart.
    [Theory]
    [InlineData(465.8, "")]
    [InlineData(466.8, "warn")]
    [InlineData(510.7, "warn")]
    [InlineData(511.7, "")]
    public void A_ring_of_pipe_is_5_to_50_more_than_made_up(double by, string told) =>
        Desk.Tells("makeup-ring-hidden", told, Desk.Drawing($"{{go: north, by: 1450, to: elbow}}\n{{go: east, by: {by}, to: elbow}}\n{{go: up, by: 900, to: flange}}"));

    // NPS 6 is 168.3 outside: two pipes side by side touch at 168.3, and 5 of it are let go.
    [Theory]
    [InlineData(162, "stop")]
    [InlineData(164.5, "")]
    public void Pipes_lie_in_each_other_by_more_than_5(double apart, string told) => Desk.Tells("runs-through-another", told, Desk.Drawing("{go: north, by: 2000, to: open}", start: "to: open") + $$"""

              - run: other
                start: {to: open, at: {east: {{apart}}, north: 0, up: 0} }
                legs:
                  - {go: north, by: 2000, to: open}
            """);

    private static string Two(double apart) => Desk.Drawing($$"""
        {go: north, by: 1000, to: outlet, name: A, size: 1, branch: up}
        {go: north, by: {{apart}}, to: outlet, name: B, size: 1, branch: up}
        {go: north, by: 1000, to: flange}
        """);

    // ASME B36.10M: NPS 1 is 33.4 outside; 25 clear is common practice.
    [Theory]
    [InlineData(33, "stop")]
    [InlineData(34, "note")]
    [InlineData(57, "note")]
    [InlineData(60, "")]
    public void Branches_are_too_close_under_25_clear(double apart, string told) => Desk.Tells("branches-too-close", told, Two(apart));

    // One figure off: any of the points on the way could be the wrong one. Five are named, six tell nothing; the finding itself names eight.
    [Theory]
    [InlineData(5, "warn", false)]
    [InlineData(6, "", false)]
    [InlineData(8, "", false)]
    [InlineData(9, "", true)]
    public void Five_places_that_could_explain_an_error_are_named(int legs, string told, bool more)
    {
        var yaml = Desk.Drawing(string.Concat(Enumerable.Range(1, legs).Select(i => $"{{go: north, by: {1000 + (i * 111)}, to: {(i == legs ? $"elbow}}\n{{go: up, by: 900, to: flange, at: {{north: {(1000 * legs) + (111 * legs * (legs + 1) / 2) + 337}, up: 900}}" : "point")}}}\n")), start: "to: flange");
        Desk.Tells("closing-error-explained", told, yaml);
        Assert.Equal(more, Desk.Finds("does-not-close", "", yaml).Remedy.Contains("more. ", StringComparison.Ordinal));
    }

    // ASME B31.1 table 121.5: NPS 6 with water 5.2 m. arctan(1/6) = 9.5 degrees, arctan(1/5.5) = 10.3.
    [Theory]
    [InlineData("by: 5100", "")]
    [InlineData("by: 5300", "note")]
    [InlineData("by: 9000, rise: 1:6", "note")]
    [InlineData("by: 9000, rise: 1:5.5", "")]
    public void A_level_leg_is_long_over_the_span_of_its_size(string by, string told) => Desk.Tells("long-leg-unsupported", told, Desk.Drawing($"{{go: north, {by}, to: flange}}"));

    // arctan(1/28) = 2.05 degrees, arctan(1/30) = 1.91.
    [Theory]
    [InlineData(28, "note")]
    [InlineData(30, "")]
    public void A_low_point_lies_between_falls_over_two_degrees(int one, string told) =>
        Desk.Tells("low-point-without-drain", told, Desk.Drawing($"{{go: north, by: 1500, fall: 1:{one}, to: elbow}}\n{{go: east, by: 1500, to: elbow}}\n{{go: north, by: 1500, rise: 1:{one}, to: flange}}"));

    // A weld at each end of a piece: one piece between two flanges has two, an elbow between makes four.
    [Theory]
    [InlineData("1-1/2", "{go: north, by: 900, to: flange}", "")]
    [InlineData("1-1/2", "{go: north, by: 900, to: weld}\n{go: north, by: 900, to: flange}", "note")]
    [InlineData("2", "{go: north, by: 900, to: weld}\n{go: north, by: 900, to: flange}", "")]
    public void Small_bore_in_the_shop_is_NPS_1_and_a_half_with_three_welds(string size, string legs, string told) => Desk.Tells("small-bore-in-shop", told, Desk.Drawing(legs, line: $"size: {size}, schedule: 80, class: 150"));

    [Theory]
    [InlineData("1-1/2", "3", "note")]
    [InlineData("1-1/2", "2-1/2", "")]
    [InlineData("2", "6", "")]
    public void A_small_branch_is_NPS_1_and_a_half_on_twice_its_size(string branch, string header, string told) => Desk.Tells("small-branch-unsupported", told, Desk.Drawing($$"""
        {go: north, by: 1500, to: outlet, name: B, size: {{branch}}, branch: up}
        {go: north, by: 1500, to: flange}
        """, line: $"size: {header}, schedule: 40, class: 150") + $$"""

              - run: branch
                start: {from: B}
                legs:
                  - {go: up, by: 900, to: valve, kind: gate}
                  - {go: up, by: 900, to: flange}
            """);

    // ASME B31.3 304.2.3 (c): 25 / tan 22.5 + 168.3 / 2 = 144.5. Three nominal sizes of 6 in. are 457.2.
    [Theory]
    [InlineData("mitred bend, cuts: 2, bend radius: 146", "note", false)]
    [InlineData("mitred bend, cuts: 2, bend radius: 143", "warn", true)]
    [InlineData("bend, bend radius: 455", "warn", false)]
    [InlineData("bend, bend radius: 459", "", false)]
    public void A_bend_is_tight_by_its_radius(string bend, string told, bool wants)
    {
        var yaml = Desk.Drawing($"{{go: north, by: 2000, to: {bend}}}\n{{go: east, by: 1500, to: open}}", start: "to: open");
        Desk.Tells("bend-made-in-shop", told, yaml);
        if (told.Length > 0)
            Assert.Equal(wants, Desk.Finds("bend-made-in-shop", "", yaml).Message.Contains("wants a radius", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("slip-on-in-high-class", "flange: SO, class: 600", true)]
    [InlineData("slip-on-in-high-class", "flange: SO, class: 300", false)]
    [InlineData("flat-face-in-high-class", "facing: FF, class: 300", true)]
    [InlineData("flat-face-in-high-class", "facing: FF, class: 150", false)]
    public void A_flange_is_of_no_use_in_a_high_class(string rule, string line, bool isFound)
    {
        var yaml = Desk.Drawing("{go: north, by: 1500, to: flange}", line: $"size: 6, schedule: 40, {line}");
        if (isFound)
            Desk.Finds(rule, "", yaml);
        else
            Desk.IsSilent(rule, yaml);
    }

    [Theory]
    [InlineData("2", "")]
    [InlineData("2-1/2", "note")]
    public void Socket_and_thread_end_at_NPS_2(string size, string told)
    {
        Desk.Tells("small-fitting-too-large", told, Desk.Drawing("{go: up, by: 1450, to: elbow}\n{go: north, by: 3200, to: flange}", line: $"size: {size}, schedule: 80, class: 150, ends: socket"));
        Desk.Tells("small-flange-kind-too-large", told, Desk.Drawing("{go: north, by: 3200, to: flange}", line: $"size: {size}, schedule: 80, class: 150, flange: SW"));
    }

    // ASME B16.9: the elbow's pipe begins at 232.2. ASME B16.11: a class 3000 elbow of NPS 2 is 38 to the bottom of its socket, which is 16 deep, and the hole of NPS 1 takes 16.7 beside it.
    [Theory]
    [InlineData("{go: north, by: 200, to: outlet, size: 2, branch: up}", "size: 6, schedule: 40, class: 150", "stop")]
    [InlineData("{go: north, by: 50, to: outlet, size: 1, branch: up, ends: socket}", "size: 2, schedule: 80, class: 150, ends: socket", "stop")]
    [InlineData("{go: north, by: 68, to: outlet, size: 1, branch: up, ends: socket}", "size: 2, schedule: 80, class: 150, ends: socket", "warn")]
    [InlineData("{go: north, by: 72, to: outlet, size: 1, branch: up, ends: socket}", "size: 2, schedule: 80, class: 150, ends: socket", "")]
    public void A_branch_on_a_fitting_is_a_stop_and_its_hole_in_a_joint_a_warning(string leg, string line, string told) =>
        Desk.Tells("branch-on-fitting", told, Desk.Drawing($"{{go: up, by: 1450, to: elbow}}\n{leg}\n{{go: north, by: 1500, to: flange}}", line: line));

    [Theory]
    [InlineData("to: tee, branch: up", "warn")]
    [InlineData("to: outlet, size: 1, ends: threaded, branch: up", "note")]
    public void An_open_branch_that_may_take_a_gauge_is_a_note(string point, string told) => Desk.Tells("open-branch", told, Desk.Drawing($"{{go: east, by: 1500, {point}}}\n{{go: east, by: 900, to: flange}}"));

    [Fact]
    public void What_asks_for_nothing_of_the_line_is_a_note()
    {
        Desk.Tells("service-incomplete", "note", Desk.Drawing("{go: up, by: 1000, to: flange}"));
        Desk.Tells("accept-unused", "note", Desk.Drawing("{go: up, by: 1000, to: flange}", "accept: [{rule: pipe-too-short, why: it holds}]"));
    }

    // Two hundred of one rule are told, and then that there are more.
    [Theory]
    [InlineData(200, 200)]
    [InlineData(201, 201)]
    [InlineData(230, 201)]
    public void Two_hundred_findings_of_one_rule_are_told(int points, int told) => Assert.Equal(told,
        Desk.Packet(Desk.Drawing(string.Concat(Enumerable.Repeat("{go: north, by: 5, to: point}\n", points)) + "{go: north, by: 900, to: flange}")).Findings.Count(f => f.Rule == "point-too-near"));

    // A turn of 100 degrees in two cuts is 25 a cut: ASME B31.3 304.2.3 (a) holds to 22.5.
    [Theory]
    [InlineData("{go: {east: 984.8, south: 173.6}, by: 1500, to: open}", true)]
    [InlineData("{go: east, by: 1500, to: open}", false)]
    public void A_mitre_is_cut_by_22_5_degrees_at_most(string next, bool isOver) => Assert.Equal(isOver,
        Desk.Finds("bend-made-in-shop", "", Desk.Drawing($"{{go: north, by: 2000, to: mitred bend, cuts: 2, bend radius: 381}}\n{next}", start: "to: open")).Message.Contains("Over 22.5", StringComparison.Ordinal));

    // A quarter round NPS 6 is 132 over its surface: two of NPS 3 (88.9) are 43 clear, two of NPS 4 (114.3) 18.
    [Theory]
    [InlineData("3", "")]
    [InlineData("4", "note")]
    public void Branches_round_a_pipe_stand_apart_over_its_surface(string size, string told) => Desk.Tells("branches-too-close", told, Desk.Drawing($$"""
        {go: north, by: 1000, to: outlet, name: A, size: {{size}}, branch: up}
        {go: north, by: 1, to: outlet, name: B, size: {{size}}, branch: east}
        {go: north, by: 1000, to: flange}
        """));

    // Geometry: along a fall of 1:50 a level 3000 is 0.6 longer, of 1:30 1.7.
    [Theory]
    [InlineData("1:50", "")]
    [InlineData("1:30", "note")]
    public void A_slope_is_level_or_true_where_it_makes_more_than_a_millimetre(string fall, string told) => Desk.Tells("slope-level-or-true", told, Desk.Drawing($"{{go: north, by: 3000, fall: \"{fall}\", to: flange}}"));

    // ASME B16.9: 229 and a root gap of 3.2, there the pipe begins.
    [Theory]
    [InlineData(222, true)]
    [InlineData(232, false)]
    public void A_dimension_point_lies_in_a_fitting(int by, bool isFound)
    {
        var yaml = Desk.Drawing($"{{go: up, by: 1450, to: elbow}}\n{{go: north, by: {by}, to: point}}\n{{go: north, by: 2000, to: flange}}");
        if (isFound)
            Desk.Finds("point-in-fitting", "runs[0].legs[1]", yaml);
        else
            Desk.IsSilent("point-in-fitting", yaml);
    }
}
