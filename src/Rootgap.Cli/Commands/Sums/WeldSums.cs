using System.CommandLine;
using Rootgap.Measure;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums weld</c>: how much metal a weld takes and what is bought for it.</summary>
internal static class WeldSums
{
    private static readonly Option<string?> Size = new("--size") { Description = "Nominal size of the pipe. Without --size and --outside it is a straight seam, by the metre." };
    private static readonly Option<string?> Schedule = new("--schedule") { Description = "Its schedule." };
    private static readonly Option<string?> Outside = new("--outside") { Description = "Outside diameter, in place of --size." };
    private static readonly Option<string?> Wall = new("--wall") { Description = "Wall or plate thickness, in place of --schedule." };
    private static readonly Option<string?> Gap = new("--gap") { Description = "Root gap; default 3.2 mm." };
    private static readonly Option<string?> Land = new("--land") { Description = "Land; default by ASME B16.25, 1.6 mm." };
    private static readonly Option<string?> Bevel = new("--bevel") { Description = "Bevel of each side in degrees from square; default by ASME B16.25: square to 3 mm, 37.5 to 22 mm, compound above." };
    private static readonly Option<string?> Sides = new("--sides") { Description = "Sides that are bevelled: 2 (default) or 1." };
    private static readonly Option<string?> Cap = new("--cap") { Description = "Height of the cap; default 1.5 mm, 0 for none." };
    private static readonly Option<string?> Overlap = new("--overlap") { Description = "How much wider than the groove the cap is, both sides together; default 3 mm." };
    private static readonly Option<string?> Root = new("--root") { Description = "Height of the root inside; default 1 mm, 0 for none." };
    private static readonly Option<string?> Fillet = new("--fillet") { Description = "A fillet with legs of this length, in place of a butt weld." };
    private static readonly Option<bool> Socket = new("--socket") { Description = "The fillet of a socket, in place of a butt weld." };
    private static readonly Option<bool> SlipOn = new("--slip-on") { Description = "The two fillets of a slip-on flange, in place of a butt weld." };
    private static readonly Option<string?> Density = new("--density") { Description = "Of the metal, kg/m3; default 7850." };
    private static readonly Option<string?> Length = new("--length") { Description = "Of a straight seam." };
    private static readonly Option<string?> Welds = new("--welds") { Description = "So many of them." };
    private static readonly Option<string?> Process = new("--process") { Description = $"What is bought: {string.Join(", ", Filler.Processes)}." };
    private static readonly Option<string?> Electrode = new("--electrode") { Description = "Length of the stick electrodes." };
    private static readonly Option<string?> Stub = new("--stub") { Description = "Length of the stubs that are thrown away; default 50 mm." };
    private static readonly Option<string?> Efficiency = new("--efficiency") { Description = "Weld metal against what is bought, 0 to 1, where the shop has its own figure." };

    public static Command Create() => SumsAsked.With(
        new Command("weld", "Weld metal of a joint, each part of its section by the circle that its own centroid runs, and what is bought for it. Planning figures.\n\nExamples:\n  rootgap sums weld --size 6 --schedule 40 --process stick --electrode 350 --stub 50\n  rootgap sums weld --units in --fillet 0.5 --length 12\n  rootgap sums weld --wall 7.94 --gap 3.175 --land 0 --bevel 30 --cap 0 --root 0")
        {
            Size, Schedule, Outside, Wall, Gap, Land, Bevel, Sides, Cap, Overlap, Root, Fillet, Socket, SlipOn, Density, Length, Welds, Process, Electrode, Stub, Efficiency,
        }, Of);

    private static SumsAnswer? Of(SumsAsked asked)
    {
        var answer = new SumsAnswer("weld");
        var outside = OutsideOf(asked, answer);
        var leg = asked.Length(Fillet);
        var wall = WallOf(asked, answer, outside is not null);
        if (asked.IsRefused)
            return null;
        if (leg is null && wall is not > 0)
            return asked.Refused("There is no wall: give --size with --schedule, or --wall, or a fillet by --fillet.");
        if ((asked.Yes(Socket) || asked.Yes(SlipOn)) && outside is null)
            return asked.Refused("A socket and a slip-on flange go round a pipe: give --size or --outside.");
        if (outside is { } d && wall is { } t && t * 2 > d)
            return asked.Refused("The wall is thicker than half the outside diameter.");

        var radius = outside / 2;
        var metal = leg is { } legs ? Told(WeldMetal.Fillet(legs, radius), Sum.Given("leg", legs, Quantity.Length))
            : asked.Yes(Socket) ? WeldMetal.Socket(wall!.Value, radius!.Value)
            : asked.Yes(SlipOn) ? WeldMetal.SlipOn(wall!.Value, radius!.Value)
            : Butt(asked, answer, wall!.Value, radius - wall);
        if (asked.Of(Density, Quantity.Number) is { } density)
        {
            answer.Given.Add(new("density, kg/m³", density, Quantity.Number, "", Sum.GivenHere));
            metal = metal with { Density = density * 1e-9 };
        }

        answer.Figures.AddRange(metal.Sums());
        var mass = Whole(asked, answer, metal);
        if (asked.IsRefused)
            return null;
        Buy(asked, answer, mass);
        answer.Says.Add("Planning figures: the welding procedure says the joint's shape, and the shop's own use is the better measure.");
        return answer;

        WeldMetal Told(WeldMetal made, Sum given)
        {
            answer.Given.Add(given);
            return made;
        }
    }

    private static double? OutsideOf(SumsAsked asked, SumsAnswer answer)
    {
        if (asked.Length(Outside) is { } given)
        {
            answer.Given.Add(Sum.Given("outside diameter", given, Quantity.Length));
            return given;
        }

        if (asked.Size(Size) is not { } size)
            return null;
        if (Pipes.OutsideDiameter(size) is not { } row)
        {
            asked.Refuse($"--size: no pipe has the size {size}. ASME B36.10M has NPS 1/8 to 48.");
            return null;
        }

        answer.Given.Add(new($"outside diameter, NPS {size}", row.In(asked.Units), Quantity.Length, "", row.Source));
        return row.In(asked.Units);
    }

    private static double? WallOf(SumsAsked asked, SumsAnswer answer, bool isPipe)
    {
        if (asked.Length(Wall) is { } given)
        {
            answer.Given.Add(Sum.Given("wall", given, Quantity.Length));
            return given;
        }

        if (asked.Text(Schedule) is not { } text)
            return null;
        var size = asked.Size(Size);
        if (!isPipe || size is null)
        {
            asked.Refuse("--schedule goes with --size.");
            return null;
        }

        if (Pipes.ScheduleName(text) is not { } name || Pipes.Wall(size.Value, name) is not { } row)
        {
            asked.Refuse($"NPS {size} has no schedule {text}. The schedules are: {string.Join(", ", Pipes.Schedules)}.");
            return null;
        }

        answer.Given.Add(new($"wall, schedule {name}", row.In(asked.Units), Quantity.Length, "", row.Source));
        return row.In(asked.Units);
    }

    private static WeldMetal Butt(SumsAsked asked, SumsAnswer answer, double wall, double? inside)
    {
        var gap = asked.Length(Gap) ?? (asked.Units == Units.Inches ? LengthText.Inch / 8 : 3.2);
        var groove = Groove.Usual(wall, gap);
        if (asked.Degrees(Bevel, 60) is { } bevel)
            groove = new(wall, gap, bevel > 0 ? Math.Min(groove.Land, PipeEnds.Land.Of(default)!.Figure) : wall, bevel);
        if (asked.Length(Land) is { } land)
        {
            if (land > wall)
                asked.Refuse("--land: the land is higher than the wall.");
            groove = groove with { Land = land };
        }

        if (asked.Whole(Sides, 1, 2) is { } sides)
            groove = groove with { Sides = sides };
        var (cap, root) = (asked.Length(Cap) ?? WeldMetal.UsualCap, asked.Length(Root) ?? WeldMetal.UsualRoot);
        answer.Given.Add(Sum.Given("gap", gap, Quantity.Length));
        answer.Given.Add(Sum.Given("land", groove.Land, Quantity.Length));
        answer.Given.Add(Sum.Given("bevel", groove.Bevel, Quantity.Angle));
        if (groove.SteeperFrom is { } knee)
        {
            answer.Given.Add(new("knee", knee, Quantity.Length, "", "ASME B16.25 figure 3, from memory"));
            answer.Given.Add(new("upper bevel", groove.UpperBevel, Quantity.Angle, "", "ASME B16.25 figure 3, from memory"));
        }

        answer.Given.Add(Sum.Given("cap", cap, Quantity.Length));
        answer.Given.Add(Sum.Given("root", root, Quantity.Length));
        return WeldMetal.Butt(groove, inside, cap, root, asked.Length(Overlap) ?? WeldMetal.CapOverlap);
    }

    /// <summary>Of all welds, or of the length of a seam, kg; null where there is neither.</summary>
    private static double? Whole(SumsAsked asked, SumsAnswer answer, WeldMetal metal)
    {
        var welds = asked.Whole(Welds, 1, 1_000_000);
        var length = asked.Length(Length);
        if (metal.Mass is { } one)
        {
            if (length is not null)
                asked.Refuse("--length is of a straight seam; a pipe's weld is as long as it is round.");
            if (welds is { } n)
                answer.Figures.Add(new("mass of all welds", one * n, Quantity.Mass, $"{n} × mass of weld metal", ""));
            return one * (welds ?? 1);
        }

        if (length is not { } mm)
            return welds is null ? null : Missing();
        answer.Given.Add(Sum.Given("length of the seam", mm, Quantity.Length));
        var whole = metal.PerLength * mm * (welds ?? 1);
        answer.Figures.Add(new("mass of the seam", whole, Quantity.Mass, $"mass of weld metal × length{(welds > 1 ? $" × {welds}" : "")}", ""));
        return whole;

        double? Missing()
        {
            asked.Refuse("--welds of a straight seam needs its --length.");
            return null;
        }
    }

    private static void Buy(SumsAsked asked, SumsAnswer answer, double? mass)
    {
        var own = asked.Of(Efficiency, Quantity.Number);
        if (own is > 1)
            asked.Refuse("--efficiency is a share from 0 to 1.");
        var electrode = asked.Length(Electrode);
        var stub = asked.Length(Stub) ?? 50;
        var process = asked.Text(Process) ?? (electrode is not null ? Filler.Stick : own is not null ? "filler" : null);
        if (process is null)
            return;
        var filler = own is { } share ? new Filler(process, share, Sum.GivenHere)
            : electrode is { } length && process == Filler.Stick ? length > stub ? Filler.Sticks(length, stub) : null
            : Filler.Of(process);
        if (filler is null)
        {
            asked.Refuse(electrode is not null ? "--stub is longer than --electrode." : $"--process: \"{process}\" has no figure here. There are: {string.Join(", ", Filler.Processes)}; or give --efficiency.");
            return;
        }

        answer.Figures.Add(new($"efficiency of {process}", filler.Efficiency, Quantity.Number, "", filler.Source));
        if (mass is { } kg)
            answer.Figures.Add(new($"{process} to buy", filler.ToBuy(kg), Quantity.Mass, "mass / efficiency", ""));
        else
            answer.Says.Add("Give --length for what is to be bought.");
    }
}
