using System.CommandLine;
using System.Globalization;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums bolts</c>: the order in which a flange is drawn up, and the torque of a given bolt stress.</summary>
internal static class BoltSums
{
    private static readonly Option<string?> Count = new("--count") { Description = "Bolts of the flange: a multiple of four." };
    private static readonly Option<string?> Size = new("--size") { Description = "Diameter of the bolt: 3/4, 1-1/8; M20 (coarse thread), M36x3; with --area as a figure also a length, such as \"20 mm\"." };
    private static readonly Option<string?> Stress = new("--stress") { Description = "Target stress of the bolts, of the bolting procedure: \"345 MPa\", \"50 ksi\"." };
    private static readonly Option<string?> Area = new("--area") { Description = "On which area the stress is meant: root or stress; or the area itself, \"0.334 in2\"." };
    private static readonly Option<string?> NutFactor = new("--nut-factor") { Description = "Torque against diameter and load, of the lubricant and the procedure." };
    private static readonly Option<string?> Load = new("--load") { Description = "Load of one bolt, in place of stress and area: \"74.3 kN\", \"24525 lbf\"." };

    public static Command Create() => SumsAsked.With(
        new Command("bolts", "The order of tightening with its passes, and torque = nut factor × diameter × load for the load or stress that the bolting procedure gives.\n\nExample: rootgap sums bolts --count 8 --size 3/4 --stress \"345 MPa\" --area stress --nut-factor 0.17")
        {
            Count, Size, Stress, Area, NutFactor, Load,
        }, Of);

    private static SumsAnswer? Of(SumsAsked asked)
    {
        var answer = new SumsAnswer("bolts");
        var count = asked.Whole(Count, 1, 1000);
        if (count is { } n && !StarOrder.Has(n))
            return asked.Refused("--count: the bolts of a flange are a multiple of four, 4 to 100.");
        if (count is { } bolts)
            Order(asked, answer, bolts);
        if (asked.Text(Size) is not null || asked.Text(Load) is not null || asked.Text(Stress) is not null)
            Torque(asked, answer, count);
        else if (count is null)
            return asked.Refused("Nothing is asked: give --count for the order, or --size with --stress, --area and --nut-factor for the torque.");
        answer.Says.Add("Load, lubricant and torque are the bolting procedure's. Never pull flanges together by their bolts: bring the pipe to the flange first.");
        return answer;
    }

    private static void Torque(SumsAsked asked, SumsAnswer answer, int? count)
    {
        var diameter = Diameter(asked);
        var factor = asked.Of(NutFactor, Quantity.Number);
        var load = asked.Of(Load, Quantity.Force);
        var stress = asked.Of(Stress, Quantity.Stress);
        if (asked.IsRefused)
            return;
        if (load is null && stress is null)
        {
            answer.Says.Add("Torque: by the bolting procedure. None is worked out without its stress, area and nut factor.");
            return;
        }

        if (load is null)
        {
            if (AreaOf(asked) is not { } area)
                return;
            answer.Given.Add(Sum.Given("stress", stress!.Value, Quantity.Stress));
            answer.Given.Add(area);
            load = stress.Value * area.Value;
        }
        else
        {
            answer.Given.Add(Sum.Given("load", load.Value, Quantity.Force));
        }

        if (diameter is null || factor is null)
        {
            asked.Refuse("A torque needs --size and --nut-factor too.");
            return;
        }

        answer.Given.Add(Sum.Given("diameter", diameter.Value, Quantity.Length));
        answer.Given.Add(Sum.Given("nut factor", factor.Value, Quantity.Number));
        var one = new BoltLoad(load.Value, diameter.Value, factor.Value);
        answer.Figures.AddRange(one.Sums(asked.Units));
        if (count is not { } n)
            return;
        answer.Figures.Add(new("load of all bolts", one.Load * n, Quantity.Force, string.Create(CultureInfo.InvariantCulture, $"{n} × load of one bolt"), ""));
        foreach (var (name, share, _) in StarOrder.Passes.Where(p => p is { Share: not null, IsStar: true }))
            answer.Figures.Add(new($"torque of the pass at {name}", one.TorqueSet(asked.Units) * share!.Value, Quantity.Torque, $"{name} of the torque to set", ""));
    }

    private static double? Diameter(SumsAsked asked)
    {
        if (asked.Text(Size) is not { } text)
            return null;
        if (IsMetric(text))
            return double.Parse(text[1..].Split('x', 'X')[0], CultureInfo.InvariantCulture);
        return InInches(text) is { } bolt ? bolt.Inches * LengthText.Inch : asked.Length(Size);
    }

    /// <summary>M20, M36x3.</summary>
    private static bool IsMetric(string text) =>
        text.Length is > 1 and < 10 && text[0] is 'M' or 'm' && text[1..].Split('x', 'X') is { Length: 1 or 2 } parts
        && Array.TrueForAll(parts, p => double.TryParse(p, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm) && mm > 0);

    private static NominalSize? InInches(string text) =>
        NominalSize.TryParse(text, out var bolt) && !text.StartsWith("DN", StringComparison.OrdinalIgnoreCase) ? bolt : null;

    private static Sum? AreaOf(SumsAsked asked)
    {
        var text = asked.Text(Area);
        if (text is not ("root" or "stress" or null))
            return asked.Of(Area, Quantity.Area) is { } given ? Sum.Given("area", given, Quantity.Area) : null;
        if (text is null)
        {
            asked.Refuse("On which area is the stress meant? Say --area root (ASME PCC-1's table) or --area stress: they differ by 4 to 11 %.");
            return null;
        }

        var which = text == "root" ? BoltArea.Root : BoltArea.Stress;
        var size = asked.Text(Size) ?? "";
        var found = IsMetric(size) ? BoltLoad.AreaOf(size.ToUpperInvariant().Replace('X', 'x'), which) : BoltLoad.AreaOf(InInches(size) ?? default, which);
        if (found is { Mm: { } mm } row)
            return new($"{text} area", mm, Quantity.Area, "", row.Source);
        asked.Refuse($"--size: the tables have no {text} area of a bolt of this size. Give the area itself: --area \"0.334 in2\".");
        return null;
    }

    private static void Order(SumsAsked asked, SumsAnswer answer, int count)
    {
        var order = StarOrder.Of(count);
        answer.Given.Add(Sum.Given("bolts", count, Quantity.Number));
        answer.MoreWords.Add("order  " + string.Join(" ", order));
        answer.MoreWords.Add("       " + StarOrder.Source(count));
        answer.MoreWords.Add("passes " + string.Join("; ", StarOrder.Passes.Select(p => p.Name + (p is { Share: not null, IsStar: true } ? " by the star" : ""))));
        answer.MoreWords.Add("       " + StarOrder.PassesSource);
        answer.MoreJson = json =>
        {
            json.WriteStartArray("order");
            foreach (var hole in order)
                json.WriteNumberValue(hole);
            json.WriteEndArray();
            json.WriteString("order from", StarOrder.Source(count));
            json.WriteStartArray("passes");
            foreach (var (name, share, isStar) in StarOrder.Passes)
            {
                json.WriteStartObject();
                json.WriteString("pass", name);
                if (share is { } part)
                    json.WriteNumber("share", part);
                json.WriteString("order", isStar ? "star" : "round");
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteString("passes from", StarOrder.PassesSource);
        };
    }
}
