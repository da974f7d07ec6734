using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>How sheets name things: the trade's words for the values of the domain.</summary>
public static class Wording
{
    public static string Of(Severity severity) => severity switch { Severity.Stop => "STOP", Severity.Warn => "warning", _ => "note" };

    public static string Of(JointKind kind) => kind switch
    {
        JointKind.Butt => "butt weld",
        JointKind.Socket => "socket weld",
        JointKind.Fillet => "fillet weld",
        JointKind.Branch => "branch weld",
        JointKind.Threaded => "thread",
        JointKind.Attachment => "attachment weld",
        _ => "bolted",
    };

    public static string Of(WeldPlace place) => place switch { WeldPlace.Shop => "shop", WeldPlace.Field => "FIELD", _ => "FINAL FIT" };

    public static string Size(Component c) => c.Size2.IsNone ? c.Size.ToString() : $"{c.Size} x {c.Size2}";

    public static string Size(NominalSize size, NominalSize size2) => size.IsNone ? "" : size2.IsNone ? size.ToString() : $"{size} x {size2}";

    /// <summary>A component as a fitter calls it, its turn included where it is cut.</summary>
    public static string Of(Component c) => c is Bent { IsCut: true, Turn: var turn }
        ? string.Create(CultureInfo.InvariantCulture, $"{c.Name} cut to {Angles.ToDegrees(turn):0.##}°")
        : c.Name;

    /// <summary>How a bend is made: the sum of its blank, and its pieces or its marks along the pipe.</summary>
    public static string MadeBy(MadeBend bend, Units units)
    {
        string Say(double mm) => LengthText.In(units, mm);
        if (!bend.IsMitred)
            return $"{Sum()}; bend begins {Say(bend.Marks.Begin)} and ends {Say(bend.Marks.End)} from its first end, radius {Say(bend.Radius!.Value)}";
        var (end, middle) = (bend.Piece(isEnd: true), bend.Piece(isEnd: false));
        return string.Create(CultureInfo.InvariantCulture, $"{Sum()}; {bend.Cuts} cuts at {Angles.ToDegrees(bend.Cut):0.##}° from square; heel / middle / throat before the gaps: 2 ends {Say(end.Heel)} / {SumWords.Term(end.Middle, units)} / {Say(end.Throat)}, {bend.Cuts - 1} between {Say(middle.Heel)} / {SumWords.Term(middle.Middle, units)} / {Say(middle.Throat)}");

        string Sum() => SumWords.Parts(bend, units) is var (terms, total) ? $"{terms} = {total}" : "";
    }

    public static string Kg(double kg) => LengthText.Millimetres(kg, 1);

    /// <summary>A table's source as it stands on a sheet: the standard and its table; where it was read stays in the tables.</summary>
    public static string Source(string source) => source.Split(';')[0];

    /// <summary>Where a figure comes from, in full: as the packet writes it.</summary>
    public static string Of(Origin origin) => origin switch
    {
        Origin.Drawn => "drawing",
        Origin.Shop => "shop rule",
        Origin.Practice => "common practice",
        Origin.Measured m => $"measured on the {m.On}",
        Origin.Table t => t.Row.Source,
        Origin.Rule r => r.Says,
        Origin.Missing => "not in the standard",
        Origin.Unknown => "not known",
        _ => throw new InvalidOperationException("The family of origins is closed."),
    };

    /// <summary>Where a figure comes from as it stands on a sheet.</summary>
    public static string Short(Origin origin) => Source(Of(origin)) + (origin.IsFromMemory ? ", " + FromMemory : "");

    /// <summary>What is said of a figure that nobody has held against a book.</summary>
    public const string FromMemory = "from memory, held against no book";

    /// <summary>The sign of such a figure in a sum.</summary>
    public const string MemorySign = "†";

    /// <summary>What a joint joins, in words: pieces by their marks, components by their names.</summary>
    public static string Between(Fabrication f, Joint joint)
    {
        var names = joint.Between.Select(id => NameOf(f, id)).ToList();
        if (names.Count == 1)
            names.Add(joint.Kind == JointKind.Bolted ? "mating flange" : "existing pipe");
        return string.Join(" – ", names);
    }

    public static string NameOf(Fabrication f, string id) =>
        f.Cuts.FirstOrDefault(c => c.Pipe.Id == id) is { } cut ? $"pipe {cut.Piece}"
        : f.Route.Components.FirstOrDefault(c => c.Id == id) is { } component ? $"{id} {component.Name}"
        : f.Route.SupportOf(id) is { } support ? Of(support)
        : f.Route.Pads.FirstOrDefault(p => p.Id == id) is { } pad ? $"{pad.Id} pad of the branch {(pad.Branch is { } name ? name : "NPS " + pad.Size)}"
        : id;

    /// <summary>A support as a fitter calls it: its tag and its kind.</summary>
    public static string Of(Support support) => $"{support.Tag} {support.Name}";

    /// <summary>The measures of a support that the drawing gives, from the pipe and along it; empty where it gives none.</summary>
    public static string MeasuresOf(Support support, Units units)
    {
        var named = new[] { (support.Drawn.Height, "from the pipe"), (support.Drawn.Length, "along it") }.Where(m => m.Item1 is not null).Select(m => $"{RunningDimensions.Figure(units, m.Item1!.Value)} {m.Item2}").ToList();
        return named.Count == 0 ? "" : string.Join(", ", named).Replace("along it", support.Drawn.Height is null ? "along the pipe" : "along it", StringComparison.Ordinal);
    }

    /// <summary>The side of a pipe on which a support stands, in words.</summary>
    public static string SideOf(Support support) => support.Side is not { } side ? Math.Abs(support.Along.Z) > 0.7 ? "see support drawing" : "" : side.Z < -0.7 ? "under" : side.Z > 0.7 ? "over" : NameOf(side);

    /// <summary>
    /// A direction so that it can be set out: in a word where it lies along an axis, else by its bearing from north or south to the side, and its rise or fall: <c>east falling 1:100</c>,
    /// <c>51.34° east of south rising 35.26°</c>.
    /// </summary>
    internal static string Way(Vector way)
    {
        const double Straight = 1e-4;
        var (level, bearing) = (Math.Sqrt((way.X * way.X) + (way.Y * way.Y)), Math.Atan2(way.X, way.Y));
        if (level < Straight)
            return way.Z > 0 ? "up" : "down";
        var quarters = bearing / (Math.PI / 2);
        var heading = Math.Abs(quarters - Math.Round(quarters)) < Straight
            ? Headings[((int)Math.Round(quarters) + 4) % 4]
            : Bearing(way, 2);
        if (Math.Abs(way.Z) < Straight)
            return heading;
        var ratio = level / Math.Abs(way.Z);
        var slope = ratio > 4.5 && Math.Abs(ratio - Math.Round(ratio)) < ratio * ratio * Straight / 4
            ? string.Create(CultureInfo.InvariantCulture, $"1:{Math.Round(ratio)}")
            : string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(Math.Atan2(Math.Abs(way.Z), level)):0.##}°");
        return $"{heading} {(way.Z > 0 ? "rising" : "falling")} {slope}";
    }

    /// <summary>A level direction by the quarter that it lies in: <c>45° east of north</c>.</summary>
    internal static string Bearing(Vector way, int places) => string.Create(CultureInfo.InvariantCulture,
        $"{LengthText.Rounded(Angles.ToDegrees(Math.Atan2(Math.Abs(way.X), Math.Abs(way.Y))), places):0.##}° {(way.X > 0 ? "east" : "west")} of {(way.Y > 0 ? "north" : "south")}");

    private static readonly string[] Headings = ["north", "east", "south", "west"];

    private static string NameOf(Vector way)
    {
        var (name, _) = new[] { ("east side", way.X), ("west side", -way.X), ("north side", way.Y), ("south side", -way.Y) }.MaxBy(w => w.Item2);
        return name;
    }

    /// <summary>A row of the drawing file as people say it: run and leg, counted from one.</summary>
    public static string Place(Finding finding, Drawing drawing) => drawing.PlaceOf(finding.At);
}
