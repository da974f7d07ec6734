using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums</c>: the sums of the papers from sizes alone, without a drawing.</summary>
internal static class SumsCommand
{
    public static Command Create() =>
        new("sums", "Sums of the papers from sizes alone, without a drawing: weld metal and what to buy, bolt load, torque and order, heads and stored energy of a test, loads of slings, how many welds are examined. Every figure with its sum and its source, in mm and in inches.\n\nExamples:\n  rootgap sums weld --size 6 --schedule 40 --process stick\n  rootgap sums bolts --count 8 --size 3/4 --stress \"50 ksi\" --area root --nut-factor 0.16\n  rootgap sums test --medium air --pressure \"10 bar\" --volume \"1 m3\"\n  rootgap sums lift --mass \"1000 kg\" --span 2000 --angle 60\n  rootgap sums sample --welds 40 --share 10 --rejected 1 0")
        {
            WeldSums.Create(),
            BoltSums.Create(),
            TestSums.Create(),
            LiftSums.Create(),
            SampleSums.Create(),
        };
}

/// <summary>What was found, ready to be told.</summary>
internal sealed record SumsAnswer(string Name)
{
    public List<Sum> Given { get; } = [];

    public List<Sum> Figures { get; } = [];

    /// <summary>Sentences under the figures: what is to be seen to, and who decides.</summary>
    public List<string> Says { get; } = [];

    /// <summary>What else the answer has, as JSON and as words.</summary>
    public Action<Utf8JsonWriter>? MoreJson { get; set; }

    public List<string> MoreWords { get; } = [];
}

/// <summary>The options of one call while they are read; what is wrong is gathered, so that all of it is told at once.</summary>
internal sealed class SumsAsked(ParseResult result, Units units)
{
    private readonly List<string> wrong = [];

    public Units Units => units;

    public static Option<string> UnitsOption()
    {
        var option = new Option<string>("--units") { Description = "In which units bare numbers are read and the text is written: mm or in. JSON has both.", DefaultValueFactory = _ => "mm" };
        option.AcceptOnlyFromAmong("mm", "in");
        return option;
    }

    /// <summary>A command that reads its options, works, and tells the answer.</summary>
    public static Command With(Command command, Func<SumsAsked, SumsAnswer?> work)
    {
        var unitsOption = UnitsOption();
        var jsonOption = JsonOption.Create();
        command.Options.Add(unitsOption);
        command.Options.Add(jsonOption);
        command.SetAction(parsed =>
        {
            var asked = new SumsAsked(parsed, parsed.GetValue(unitsOption) == "in" ? Units.Inches : Units.Millimetres);
            if (work(asked) is not { } answer || asked.wrong.Count > 0)
            {
                foreach (var line in asked.wrong)
                    Console.Error.WriteLine(line);
                return ExitCode.Usage;
            }

            Tell(answer, asked.Units, parsed.GetValue(jsonOption));
            return ExitCode.Done;
        });
        return command;
    }

    public void Refuse(string why) => wrong.Add(why);

    /// <summary>Null so that the caller ends: something was refused.</summary>
    public SumsAnswer? Refused(string why)
    {
        Refuse(why);
        return null;
    }

    public bool IsRefused => wrong.Count > 0;

    public double? Length(Option<string?> option, bool mayBeNegative = false)
    {
        if (result.GetValue(option) is not { } text)
            return null;
        return Length(option.Name, text, mayBeNegative);
    }

    private double? Length(string name, string text, bool mayBeNegative)
    {
        if (LengthText.TryParse(text, units, out var mm) && (mayBeNegative || mm >= 0))
            return mm;
        Refuse($"{name}: \"{text}\" is not a length{(mayBeNegative ? "" : " of 0 or more")}. Write a number, or a length with its unit: 3.2, \"1/8 in\", \"2.5 m\", \"4'-6\\\"\".");
        return null;
    }

    public IReadOnlyList<double> Lengths(Option<string[]> option, bool mayBeNegative = false) =>
        [.. (result.GetValue(option) ?? []).Select(text => Length(option.Name, text, mayBeNegative)).OfType<double>()];

    public double? Of(Option<string?> option, Quantity quantity, double least = double.Epsilon)
    {
        if (result.GetValue(option) is not { } text)
            return null;
        if (Amount.TryParse(text, quantity, units, out var amount) && amount >= least)
            return amount;
        Refuse($"{option.Name}: \"{text}\" is not read{(least > 0 ? ", or is not above 0" : "")}. Write the figure with its unit{(Amount.Words(quantity) is { Length: > 0 } words ? $": {words}" : "")}.");
        return null;
    }

    public double? Degrees(Option<string?> option, double most) => result.GetValue(option) is { } text ? Degrees(option.Name, text, most) : null;

    public IReadOnlyList<double> AllDegrees(Option<string[]> option, double most) =>
        [.. (result.GetValue(option) ?? []).Select(text => Degrees(option.Name, text, most)).OfType<double>()];

    private double? Degrees(string name, string text, double most)
    {
        if (double.TryParse(text.TrimEnd('°'), NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees) && degrees >= 0 && degrees <= most)
            return Angles.ToRadians(degrees);
        Refuse($"{name}: \"{text}\" is not an angle from 0 to {most.ToString(CultureInfo.InvariantCulture)} degrees.");
        return null;
    }

    public int? Whole(Option<string?> option, int least, int most) => result.GetValue(option) is { } text ? Whole(option.Name, text, least, most) : null;

    public IReadOnlyList<int> Wholes(Option<string[]> option, int least, int most) =>
        [.. (result.GetValue(option) ?? []).Select(text => Whole(option.Name, text, least, most)).OfType<int>()];

    private int? Whole(string name, string text, int least, int most)
    {
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most)
            return number;
        Refuse(string.Create(CultureInfo.InvariantCulture, $"{name}: \"{text}\" is not a whole number from {least} to {most}."));
        return null;
    }

    public string? Text(Option<string?> option) => result.GetValue(option);

    public bool Yes(Option<bool> option) => result.GetValue(option);

    public NominalSize? Size(Option<string?> option)
    {
        if (result.GetValue(option) is not { } text)
            return null;
        if (NominalSize.TryParse(text, out var size))
            return size;
        Refuse($"{option.Name}: \"{text}\" is not a nominal size, such as 6, 1-1/2 or DN150.");
        return null;
    }

    private static void Tell(SumsAnswer answer, Units units, bool asJson)
    {
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            json.WriteStartObject();
            json.WriteString("sums", answer.Name);
            SumsJson.Write(json, "given", answer.Given);
            SumsJson.Write(json, "figures", answer.Figures);
            answer.MoreJson?.Invoke(json);
            json.WriteStartArray("says");
            foreach (var line in answer.Says)
                json.WriteStringValue(line);
            json.WriteEndArray();
            json.WriteEndObject();
            return;
        }

        var width = answer.Given.Concat(answer.Figures).Select(s => s.Name.Length).DefaultIfEmpty().Max();
        foreach (var sum in answer.Given.Concat(answer.Figures))
        {
            var says = sum.Says(units);
            var rest = string.Join("; ", new[] { sum.How.Length > 0 ? "= " + sum.How : "", sum.Source }.Where(t => t.Length > 0));
            Console.Out.WriteLine($"{sum.Name.PadRight(width)}  {says,-14}  {rest}".TrimEnd());
        }

        foreach (var line in answer.MoreWords.Concat(answer.Says))
            Console.Out.WriteLine(line);
    }
}
