using System.Text.RegularExpressions;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Drawings;

/// <summary>Reads what the drawing or the shop says for the papers: pressure test, lifting, bolting, welding.</summary>
internal static class PaperRulesReader
{
    public static TestRules Test(Fields top, Service service)
    {
        if (!top.Has("test") || top.Inner("test", DrawingShape.Test) is not { } f)
            return new() { MediumWritten = Medium(service) };
        return new()
        {
            Pack = f.Text("pack") ?? "",
            MediumWritten = f.Word("medium", FileWords.TestMedia) ?? Medium(service),
            Pressure = Read(f, "pressure", Quantity.Pressure, "15 bar, 225 psi, 1.5 MPa") is null ? "" : f.Text("pressure")!,
            At = f.PlaceAt("at")?.Z,
            Gauge = f.PlaceAt("gauge")?.Z,
            StressRatio = Above(f, "stress ratio"),
            Hold = f.Text("hold") ?? "",
            Source = f.Source,
        };
    }

    /// <summary>The medium where the line data speak of it: "pneumatic with nitrogen" beside the test package or the test pressure; null where they say none, or two.</summary>
    private static string? Medium(Service service)
    {
        var says = service.TestPackage + " " + service.TestPressure;
        bool Has(string words) => Regex.IsMatch(says, $"\\b(?:{words})", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant, TimeSpan.FromSeconds(1));
        var (water, gas) = (Has("hydro(?:static|test)|with (?:clean |fresh |treated |potable )?water"), Has("pneumatic|with (?:dry |oil-free |clean )*(?:air|nitrogen)"));
        return (water, gas) switch
        {
            (true, false) => "water",
            (false, true) => Has("nitrogen") ? "nitrogen" : "air",
            _ => null,
        };
    }

    public static List<LiftRow> Lift(Fields top, ReadingErrors errors, Units units)
    {
        var rows = new List<LiftRow>();
        if (top.Node("lift") is not YamlList list)
        {
            if (top.Has("lift"))
                top.Error("wrong-type", "lift", "Lifting points are a list.", "Write - {piece: 3-B, at: 400}.");
            return rows;
        }

        for (var i = 0; i < list.Items.Count; i++)
        {
            if (Fields.Open(list.Items[i], DrawingShape.LiftPoint, errors, units, $"lift[{i}]", top.Where) is { } f && f.Text("piece") is { } piece && f.Length("at") is { } at)
                rows.Add(new(piece, at, f.Length("sling", 1), f.Source));
        }

        return rows;
    }

    public static BoltingRule? Bolting(Fields shop)
    {
        if (!shop.Has("bolting") || shop.Inner("bolting", DrawingShape.Bolting) is not { } f)
            return null;
        var (stress, area, factor, lubricant) = (Read(f, "stress", Quantity.Stress, "345 MPa, 50 ksi"), f.Word("area", FileWords.BoltAreas), Above(f, "nut factor"), f.Text("lubricant"));
        return stress is null || area is null || factor is null || f.Text("source") is not { } source
            ? null
            : new(stress.Value, area == "root" ? BoltArea.Root : BoltArea.Stress, factor.Value, source) { Lubricant = lubricant ?? "" };
    }

    public static WeldingFigures Welding(Fields shop, WeldingFigures usual)
    {
        if (!shop.Has("welding") || shop.Inner("welding", DrawingShape.Welding) is not { } f)
            return usual;
        var efficiency = Above(f, "efficiency");
        if (efficiency > 1)
            f.Error("impossible-value", "efficiency", "More weld metal than was bought cannot be.", "Write a share from 0 to 1, such as 0.6.");
        var (electrode, stub) = (f.Length("electrode", 1), f.Length("stub") ?? usual.Stub);
        if (electrode <= stub)
            f.Error("impossible-value", "electrode", "The stub is as long as the electrode.", "Write the electrode's whole length, such as 350 mm.");
        return usual with
        {
            Process = f.Word("process", FileWords.Fillers) ?? usual.Process,
            FieldProcess = f.Word("field process", FileWords.Fillers),
            Electrode = electrode,
            Stub = stub,
            Efficiency = efficiency,
            Cap = f.Length("cap") ?? usual.Cap,
            Root = f.Length("root") ?? usual.Root,
        };
    }

    private static double? Above(Fields f, string key)
    {
        var number = f.Number(key);
        if (number is 0)
            f.Error("impossible-value", key, $"\"{key}\" is above 0.", "Write the figure, or leave the key out.");
        return number is > 0 ? number : null;
    }

    private static double? Read(Fields f, string key, Quantity quantity, string write)
    {
        if (f.Text(key) is not { } text)
            return null;
        if (Amount.TryParse(text, quantity, null, out var amount) && amount > 0)
            return amount;
        f.Error("wrong-type", key, $"\"{text}\" is not read as a {key}.", $"Write the figure with its unit: {write}.");
        return null;
    }
}
