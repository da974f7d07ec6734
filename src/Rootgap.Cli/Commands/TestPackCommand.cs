using System.CommandLine;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Papers;
using Rootgap.Sheets;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap test-pack</c>: the pressure test of drawings as sheets and lists.</summary>
internal static class TestPackCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var folder = OutOption.Folder("Folder for the test pack.");
        var paper = PaperOption.Create();
        var json = JsonOption.Create();
        var command = new Command("test-pack", "The pressure test of drawings: limits with their blinds, heads against ratings, vents and drains along the route, what stays wet, water, supports full, stored energy of a gas test, record, punch list and what is put back. Pressure, medium and where it is asked stand in the drawing's `test:`; they are the test engineer's. Drawings that are given together are one pack: an end that continues on another of them is no limit, and heads, ratings and stored energy are over all of them.\n\nExample: rootgap test-pack samples/hatchery/chilled-supply.yaml --out test") { drawings, folder, paper, json };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(folder)!, PaperOption.Of(result.GetValue(paper)!), result.GetValue(json)));
        return command;
    }

    private static int Run(string[] names, string folder, Paper paper, bool asJson)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        var log = asJson ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(log, asJson ? Console.IsErrorRedirected : Console.IsOutputRedirected);
        List<Packet> packets = [];
        foreach (var file in files)
        {
            var opened = DrawingFiles.Open(file);
            printer.Know(file, opened.Text);
            exit = Math.Max(exit, opened.ExitOfMaking);
            if (opened.Packet is { } packet)
                packets.Add(packet);
            else
                printer.Print(opened.Findings);
        }

        if (packets.Count == 0)
            return exit;
        List<Fabrication> together = [.. packets.Select(p => p.Fabrication)];
        foreach (var apart in TestPack.Of(together[0], together).Apart)
        {
            Console.Error.WriteLine($"Not one test as drawn: {apart}.");
            exit = Math.Max(exit, ExitCode.Warn);
        }

        using var output = new OutputFolder(folder);
        var pages = packets.SelectMany(p => TestPackPages.Of(p.ToJob(paper), together)).ToList();
        var faults = MissingSheet.Told(pages).ToList();
        printer.Print(faults);
        using (var pdf = output.Create("test-pack.pdf"))
            new Booklet("Test pack", pages).WritePdf(pdf);
        var list = PaperLists.Tests;
        using (var csv = new StreamWriter(output.Create(list.FileName)))
        {
            csv.NewLine = "\n";
            csv.WriteLine(list.Header);
            foreach (var row in packets.SelectMany(p => PaperLists.RowsOf(p, TestPack.Of(p.Fabrication, together))))
                csv.WriteLine(PaperList.Csv(row));
        }

        output.Commit();
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            json.WriteStartObject();
            json.WriteStartArray("packs");
            foreach (var packet in packets)
                Write(json, packet, TestPack.Of(packet.Fabrication, together));
            json.WriteEndArray();
            json.WriteEndObject();
        }
        else
        {
            log.WriteLine($"The test pack is in {folder}: test-pack.pdf, {list.FileName}");
        }

        return faults.Count > 0 ? ExitCode.Stop : exit;
    }

    private static void Write(Utf8JsonWriter json, Packet packet, TestPack pack)
    {
        var units = packet.Drawing.Units;
        json.WriteStartObject();
        json.WriteString("drawing", packet.Drawing.Number);
        json.WriteString("pack", TestWords.Name(pack));
        json.WriteStartArray("together");
        foreach (var number in pack.Numbers)
            json.WriteStringValue(number);
        json.WriteEndArray();
        json.WriteString("medium", TestWords.Medium(pack));
        var figures = new List<Sum> { new("volume of the bore", pack.Volume, Quantity.Volume, "bore × middle lines of pipe and fittings", "geometry") };
        if (pack.Numbers.Count > 1)
            figures.Add(new("volume of the whole pack", pack.PackVolume, Quantity.Volume, string.Join(" + ", pack.Numbers), "geometry"));
        if (pack.Pressure is { } bar)
        {
            figures.Insert(0, Sum.Given("test pressure", bar, Quantity.Pressure));
            if (pack.IsAir)
                figures.AddRange(PressureTest.EnergySums(bar, pack.PackVolume));
        }

        if (!pack.IsAir)
            figures.Add(new("mass of water", pack.WaterMass, Quantity.Mass, "volume × 1 kg a litre", "fresh water"));
        if (pack.Least is { } least)
            figures.Add(new("test pressure at the least", least, Quantity.Pressure, pack.IsAir ? "1.1 × design pressure" : "1.5 × design pressure × stress ratio", pack.IsAir ? PressureTest.AirSource : PressureTest.WaterSource));
        if (pack.Weakest is var (_, rating, most))
            figures.AddRange([new($"weakest flange, rating at {TestWords.Cold(units)}", rating, Quantity.Pressure, "", "ASME B16.5"), new("flanged joints tested to at the most", most, Quantity.Pressure, "1.5 × rating, rounded up", PressureTest.FlangeSource)]);
        SumsJson.Write(json, "figures", figures);
        json.WriteStartArray("rows");
        foreach (var row in PaperLists.RowsOf(packet, pack))
        {
            json.WriteStartObject();
            foreach (var (column, cell) in PaperLists.Tests.Columns.Zip(row).Skip(3))
            {
                if (cell is double number)
                    json.WriteNumber(column, number);
                else if (cell is string { Length: > 0 } text)
                    json.WriteString(column, text);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("held against");
        foreach (var (what, says) in TestWords.Held(pack, units))
            json.WriteStringValue($"{what}: {says}");
        json.WriteEndArray();
        json.WriteStartArray("cautions");
        foreach (var caution in TestWords.Cautions(pack))
            json.WriteStringValue(caution);
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
