using System.CommandLine;
using System.Globalization;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums test</c>: heads, volumes, stored energy and the figures that a test pressure is held against.</summary>
internal static class TestSums
{
    private static readonly Option<string?> Medium = new("--medium") { Description = "water (default) or air; nitrogen counts as air." };
    private static readonly Option<string?> Pressure = new("--pressure") { Description = "Test pressure, the engineer's: \"15 bar\", \"225 psi\"." };
    private static readonly Option<string?> At = new("--at") { Description = "Height at which that pressure is asked; default 0." };
    private static readonly Option<string[]> Height = new("--height") { Description = "Heights at which the pressure is wanted: the gauge, the lowest and the highest point. More than one may be given.", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string?> Design = new("--design") { Description = "Design pressure: what the test pressure has to be at the least." };
    private static readonly Option<string?> StressRatio = new("--stress-ratio") { Description = "Allowable stress at the test against that at the design temperature, from the engineer: a hotter design asks for more water pressure." };
    private static readonly Option<string?> Class = new("--class") { Description = "Flange class: what flanged joints may be tested to." };
    private static readonly Option<string?> Group = new("--group") { Description = "Its rating group by ASME B16.5; default 1.1, carbon steel." };
    private static readonly Option<string?> Volume = new("--volume") { Description = "Volume under test: \"1 m3\", \"400 gal\"." };
    private static readonly Option<string?> Size = new("--size") { Description = "Pipe, in place of --volume: its nominal size." };
    private static readonly Option<string?> Schedule = new("--schedule") { Description = "Its schedule." };
    private static readonly Option<string?> Length = new("--length") { Description = "Its length." };
    private static readonly Option<string?> Density = new("--density") { Description = "Of the liquid, kg/m3; default 1000, fresh water." };
    private static readonly Option<string?> Kappa = new("--kappa") { Description = "Ratio of the specific heats; default 1.4." };
    private static readonly Option<string?> Atmosphere = new("--atmosphere") { Description = "Air round about, absolute; default 101 kPa (ASME PCC-2)." };

    private const double FreshWater = 1000;

    static TestSums() => Medium.AcceptOnlyFromAmong("water", "air", "nitrogen");

    public static Command Create() => SumsAsked.With(
        new Command("test", "The sums of a pressure test: pressures at other heights, water in the pipe, what the test pressure is held against, the energy that pressed air holds. The pressure, and every distance, is the test engineer's.\n\nExamples:\n  rootgap sums test --pressure \"15 bar\" --at 900 --height 850 3300 3687\n  rootgap sums test --medium air --pressure \"10 bar\" --volume \"1 m3\"\n  rootgap sums test --design \"10 bar\" --class 150 --size 6 --schedule 40 --length \"10 m\"")
        {
            Medium, Pressure, At, Height, Design, StressRatio, Class, Group, Volume, Size, Schedule, Length, Density, Kappa, Atmosphere,
        }, Of);

    private static SumsAnswer? Of(SumsAsked asked)
    {
        var answer = new SumsAnswer("test");
        var medium = asked.Text(Medium) is "air" or "nitrogen" ? TestMedium.Air : TestMedium.Water;
        var pressure = asked.Of(Pressure, Quantity.Pressure);
        if (pressure is { } bar)
            answer.Given.Add(Sum.Given("test pressure", bar, Quantity.Pressure));
        var heavy = (asked.Of(Density, Quantity.Number) ?? FreshWater) / FreshWater;
        if (asked.Text(Density) is not null && medium == TestMedium.Water)
            answer.Given.Add(new("density, kg/m³", heavy * FreshWater, Quantity.Number, "", Sum.GivenHere));
        Heads(asked, answer, medium, pressure, heavy);
        Limits(asked, answer, medium, pressure);
        var volume = VolumeOf(asked, answer);
        if (volume is { } mm3 && medium == TestMedium.Water)
            answer.Figures.Add(new("mass of water", mm3 * PressureTest.WaterDensity * heavy, Quantity.Mass, heavy == 1 ? "volume × 1 kg a litre" : "volume × density", heavy == 1 ? "fresh water" : Sum.GivenHere));
        if (medium == TestMedium.Air && pressure is { } p && volume is { } v)
            answer.Figures.AddRange(PressureTest.EnergySums(p, v, asked.Of(Kappa, Quantity.Number, 1.01) ?? PressureTest.Kappa, asked.Of(Atmosphere, Quantity.Pressure) ?? PressureTest.Atmosphere));
        if (asked.IsRefused)
            return null;
        if (answer.Figures.Count == 0)
            return asked.Refused("Nothing can be worked out from that: give --pressure with --height, or --design, or --class, or --volume.");
        answer.Says.Add(medium == TestMedium.Air
            ? "Pressed air is stored energy: it is let go all at once where something fails. The test, its steps and every distance are the test engineer's."
            : "The pressure, its hold and who may be near are the test engineer's.");
        return answer;
    }

    private static void Heads(SumsAsked asked, SumsAnswer answer, TestMedium medium, double? pressure, double heavy)
    {
        var heights = asked.Lengths(Height, mayBeNegative: true);
        var at = asked.Length(At, mayBeNegative: true) ?? 0;
        if (heights.Count == 0)
            return;
        if (pressure is not { } bar)
        {
            asked.Refuse("--height needs the --pressure.");
            return;
        }

        answer.Given.Add(Sum.Given("asked at height", at, Quantity.Length));
        foreach (var height in heights)
        {
            answer.Figures.Add(new($"pressure at height {LengthText.In(asked.Units, height)}", PressureTest.At(bar, at, height, medium, heavy), Quantity.Pressure,
                medium == TestMedium.Water ? $"test pressure + (asked at − height) × 0.0981 bar a metre{(heavy == 1 ? "" : " × density / 1000")}" : "the same at every height: air weighs next to nothing", "fresh water, 9.81 m/s²"));
        }
    }

    private static void Limits(SumsAsked asked, SumsAnswer answer, TestMedium medium, double? pressure)
    {
        if (asked.Of(Design, Quantity.Pressure) is { } design)
        {
            answer.Given.Add(Sum.Given("design pressure", design, Quantity.Pressure));
            var ratio = asked.Of(StressRatio, Quantity.Number);
            if (ratio is { } given)
                answer.Given.Add(Sum.Given("stress ratio", given, Quantity.Number));
            answer.Figures.Add(medium == TestMedium.Water
                ? new("test pressure at the least", PressureTest.Least(design, medium, ratio ?? 1), Quantity.Pressure, $"1.5 × design pressure{(ratio is null ? "" : " × stress ratio")}", PressureTest.WaterSource)
                : new("test pressure at the least", PressureTest.Least(design, medium), Quantity.Pressure, "1.1 × design pressure", PressureTest.AirSource));
        }

        if (medium == TestMedium.Air && pressure is { } test)
            answer.Figures.Add(new("relief set at the most", PressureTest.Relief(test), Quantity.Pressure, "test pressure + the lesser of 3.45 bar and 10 %", PressureTest.ReliefSource));
        if (asked.Text(Class) is not { } @class)
            return;
        var group = asked.Text(Group) ?? "1.1";
        var cold = TestWords.Cold(asked.Units);
        if (Ratings.Of(group, @class, Ratings.Ambient, asked.Units) is not { } rating)
        {
            asked.Refuse($"--class: the tables here have no rating of class {@class}, group {group}, at {cold}: not checked. Look it up in ASME B16.5 table 2-{group}.");
            return;
        }

        answer.Given.Add(new($"class {@class}, group {group}, at {cold}", rating, Quantity.Pressure, "", "ASME B16.5"));
        answer.Figures.Add(new("flanged joints tested to at the most", PressureTest.MostOfFlanges(rating, asked.Units), Quantity.Pressure, asked.Units == Units.Inches ? "1.5 × rating, up to the next 25 psi" : "1.5 × rating, up to the next bar", PressureTest.FlangeSource));
    }

    private static double? VolumeOf(SumsAsked asked, SumsAnswer answer)
    {
        if (asked.Of(Volume, Quantity.Volume) is { } given)
        {
            answer.Given.Add(Sum.Given("volume", given, Quantity.Volume));
            return given;
        }

        if (asked.Size(Size) is not { } size)
            return null;
        if (asked.Text(Schedule) is not { } text || asked.Length(Length) is not { } length)
        {
            asked.Refuse("--size needs --schedule and --length for a volume.");
            return null;
        }

        if (Pipes.ScheduleName(text) is not { } name || Pipes.Wall(size, name) is not { } wall || Pipes.OutsideDiameter(size) is not { } outside)
        {
            asked.Refuse($"NPS {size} has no schedule {text}. The schedules are: {string.Join(", ", Pipes.Schedules)}.");
            return null;
        }

        var bore = outside.In(asked.Units) - (2 * wall.In(asked.Units));
        answer.Given.Add(new("bore", bore, Quantity.Length, "outside − 2 × wall", outside.Source));
        answer.Given.Add(Sum.Given("length", length, Quantity.Length));
        var volume = Math.PI / 4 * bore * bore * length;
        answer.Figures.Add(new("volume", volume, Quantity.Volume, "pi / 4 × bore² × length", "geometry"));
        return volume;
    }
}
