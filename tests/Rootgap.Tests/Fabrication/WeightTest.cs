using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Standards;

namespace Rootgap.Tests.Fabrication;

/// <summary>Masses of a packet's components against published lists (sources row by row in <c>Published/butt-weld-mass.csv</c> and <c>Published/flange-mass.csv</c>).</summary>
public class WeightTest
{
    private const double Pound = 0.45359237;

    private static double Published(StandardRow row) => row.Mm ?? row.Inches!.Value * Pound;

    private static double MassOf(string line, string name, params string[] legs)
    {
        var packet = Given.Millimetres(line, "open", legs);
        var component = packet.Fabrication.Route.Components.First(c => c.Name == name);
        return packet.Fabrication.Masses[component.Id].Kg;
    }

    private static double Computed(StandardRow row)
    {
        var line = $"size: {row.Nps}, schedule: {row.Schedule}, material: A106-B";
        return row.Item switch
        {
            "elbow 90 LR" => MassOf(line, row.Item, "{go: east, by: 3000, to: elbow}", "{go: north, by: 3000, to: open}"),
            "elbow 90 SR" => MassOf(line, row.Item, "{go: east, by: 3000, to: elbow, radius: short}", "{go: north, by: 3000, to: open}"),
            "elbow 45 LR" => MassOf(line, row.Item, "{go: east, by: 3000, to: elbow}", "{go: {north: 3000, east: 3000}, to: open}"),
            "tee" => MassOf(line, row.Item, "{go: east, by: 3000, to: tee, branch: up}", "{go: east, by: 3000, to: open}"),
            "reducing tee" => MassOf(line, row.Item, $"{{go: east, by: 3000, to: tee, branch: up, branch size: {row.Nps2}}}", "{go: east, by: 3000, to: open}"),
            "reducer" => MassOf(line, "reducer concentric", $"{{go: east, by: 3000, to: reducer, size: {row.Nps2}}}", "{go: east, by: 3000, to: open}"),
            "cap" => MassOf(line, row.Item, "{go: east, by: 3000, to: cap}"),
            _ => throw new InvalidOperationException(row.Item),
        };
    }

    /// <summary>
    /// How far a list may lie from the computed mass, per cent. 5 is the aim; wider where the lists themselves scatter more:
    /// 45 degree elbows come from one chart in kilograms rounded to 0.01, 0.1 or whole ones that puts NPS 2-1/2 XS 20 % below and 12 XS 10 % below half of the
    /// 90 degree elbow of another; reducing tees below NPS 3 and of NPS 5 and 6 weigh in theirs up to half as much again as the straight tee of the handbook.
    /// </summary>
    private static double Allowed(StandardRow row) => row.Item switch
    {
        "elbow 45 LR" => row.Nps.Inches < 4 ? 14 : row.Nps.Inches == 12 && row.Schedule == "XS" ? 9 : row.Nps.Inches == 14 ? 8 : 6,
        "reducing tee" => row.Nps.Inches < 3 ? 50 : row.Nps.Inches is 5 or 6 ? 25 : 8,
        _ => 5,
    };

    [Fact]
    public void Butt_weld_fittings_weigh_what_the_published_lists_say()
    {
        var misses = new List<string>();
        foreach (var row in PublishedMasses.Fittings)
        {
            var (published, computed) = (Published(row), Computed(row));
            // Half a unit of the last place printed: hundredths of a pound or of a kilogram, whole kilograms from NPS 8 in the chart of 45 degree elbows.
            var rounding = row.Item == "elbow 45 LR" && row.Nps.Inches >= 8 ? 0.5 : 0.005;
            if (Math.Abs(computed - published) - rounding > published * Allowed(row) / 100)
                misses.Add(FormattableString.Invariant($"{row.Item} {row.Nps} x {row.Nps2} {row.Schedule}: listed {published:F2}, computed {computed:F2}, {(computed / published) - 1:P1}"));
        }

        Assert.True(misses.Count == 0, string.Join('\n', misses));
    }

    /// <summary>A published rule of thumb (hiteshsteel.com, butt weld fitting weight): reducing tees 94, 91, 89 and 86 % of the straight tee for one to four sizes of reduction.</summary>
    [Theory]
    [InlineData("6", "5", 0.94)]
    [InlineData("6", "4", 0.91)]
    [InlineData("6", "3-1/2", 0.89)]
    [InlineData("6", "3", 0.86)]
    [InlineData("10", "8", 0.94)]
    [InlineData("10", "6", 0.91)]
    [InlineData("12", "10", 0.94)]
    public void A_reducing_tee_is_lighter_than_the_straight_one_as_published(string run, string branch, double share)
    {
        var line = $"size: {run}, schedule: 40, material: A106-B";
        var straight = MassOf(line, "tee", "{go: east, by: 3000, to: tee, branch: up}", "{go: east, by: 3000, to: open}");
        var reducing = MassOf(line, "reducing tee", $"{{go: east, by: 3000, to: tee, branch: up, branch size: {branch}}}", "{go: east, by: 3000, to: open}");
        Assert.Equal(share, reducing / straight, 0.035);
    }

    /// <summary>The same page: a reducer weighs what pipe of its large end and length does, and 94, 91, 89 % of that for two to four sizes of reduction.</summary>
    [Theory]
    [InlineData("6", "5", 1)]
    [InlineData("6", "4", 0.94)]
    [InlineData("6", "3-1/2", 0.91)]
    [InlineData("6", "3", 0.89)]
    [InlineData("10", "8", 1)]
    [InlineData("10", "6", 0.94)]
    [InlineData("12", "6", 0.91)]
    public void A_reducer_weighs_the_published_share_of_its_large_ends_pipe(string large, string small, double share)
    {
        var line = $"size: {large}, schedule: 40, material: A106-B";
        var packet = Given.Millimetres(line, "open", $"{{go: east, by: 3000, to: reducer, size: {small}}}", "{go: east, by: 3000, to: open}");
        var reducer = packet.Fabrication.Route.Components[0];
        var pipe = packet.Fabrication.Cuts[0];
        var length = reducer.Ports[0].At.To(reducer.Ports[1].At);
        Assert.Equal(share, packet.Fabrication.Masses[reducer.Id].Kg / (pipe.Mass / pipe.Length * length), 0.05);
    }

    /// <summary>A tee weighs the same whichever way the line goes through it.</summary>
    [Fact]
    public void A_tee_entered_by_its_branch_weighs_as_much()
    {
        const string Line = "size: 8, schedule: 40, material: A106-B";
        Assert.Equal(
            MassOf(Line, "tee", "{go: east, by: 3000, to: tee, branch: up}", "{go: east, by: 3000, to: open}"),
            MassOf(Line, "tee", "{go: east, by: 3000, to: tee, name: T, enter: branch}", "{go: north, by: 3000, to: open}"), 1e-9);
    }

    /// <summary>Austenitic stainless is 8000 kg/m3 against 7850 (ASME B36.19M: about 2 % heavier).</summary>
    [Fact]
    public void Stainless_weighs_two_per_cent_more()
    {
        string[] legs = ["{go: east, by: 3000, to: elbow}", "{go: north, by: 3000, to: open}"];
        Assert.Equal(1.02, MassOf("size: 4, schedule: 40S, material: A312-TP316L", "elbow 90 LR", legs) / MassOf("size: 4, schedule: 40S, material: A106-B", "elbow 90 LR", legs), 0.002);
    }

    private static double Flange(StandardRow row)
    {
        var packet = Given.Millimetres($"size: {row.Nps}, schedule: STD, class: {row.Class}, flange: {row.Item[7..]}, material: A106-B", "flange", "{go: east, by: 3000, to: open}");
        return packet.Fabrication.Masses[packet.Fabrication.Route.Components.First(c => c.Name == row.Item).Id].Kg;
    }

    /// <summary>
    /// Two lists of welding-neck flanges; one is in whole pounds, one in whole kilograms. The computed mass lies within 5 % of the stretch between them, their
    /// rounding added, but: class 300 NPS 18 to 24, where both lists are heavier by 6 to 9 % than their own dimensions, and class 600 up to NPS 6 (6 to 18 %, small
    /// forgings being made well over the least dimensions). Below NPS 1-1/2 the rounding
    /// leaves nothing to check, and NPS 3-1/2 is listed with the mass of NPS 3.
    /// </summary>
    [Fact]
    public void Welding_neck_flanges_weigh_what_two_published_lists_say()
    {
        var misses = new List<string>();
        foreach (var lists in PublishedMasses.Flanges.Where(r => r.Item == "flange WN" && r.Nps.Inches is >= 1.5 and not 3.5).GroupBy(r => (r.Nps, r.Class)))
        {
            var (low, high) = (lists.Min(r => r.Figure) - 0.5, lists.Max(r => r.Figure) + 0.5);
            var below = lists.Key switch
            {
                { Class: "300", Nps.Inches: >= 18 } => 0.90,
                { Class: "600", Nps.Inches: <= 6 } => 0.82,
                _ => 0.95,
            };
            var computed = Flange(lists.First());
            if (computed < low * below || computed > high * 1.05)
                misses.Add(FormattableString.Invariant($"WN {lists.Key.Class} {lists.Key.Nps}: listed {string.Join(" and ", lists.Select(r => r.Figure))}, computed {computed:F2}"));
        }

        Assert.True(misses.Count == 0, string.Join('\n', misses));
    }

    /// <summary>One list of slip-on flanges, in whole pounds converted by 0.45. Within 8 % in classes 150 and 300, 15 % in 600, where the list runs 10 to 19 % over the dimensions.</summary>
    [Fact]
    public void Slip_on_flanges_weigh_about_what_a_published_list_says()
    {
        var misses = new List<string>();
        foreach (var row in PublishedMasses.Flanges.Where(r => r.Item == "flange SO" && r.Nps.Inches >= 2 && r.Nps.Inches is not 3.5))
        {
            var (listed, computed) = (row.Figure, Flange(row));
            if (Math.Abs(computed - listed) - 0.25 > listed * (row.Class == "600" ? 0.15 : 0.08))
                misses.Add(FormattableString.Invariant($"SO {row.Class} {row.Nps}: listed {listed}, computed {computed:F2}, {(computed / listed) - 1:P1}"));
        }

        Assert.True(misses.Count == 0, string.Join('\n', misses));
    }
}
