using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Comparing;

/// <summary>What a part is joined to, and by which joint: none for what only lies beside it (a gasket and its flange). The other is null where it is not in the drawing.</summary>
internal readonly record struct Link(Joint? Joint, SteelPart? Other);

/// <summary>A part of a line as it is followed from one drawing to another: a piece of pipe, or a fitting, flange, valve or gasket.</summary>
internal sealed class SteelPart
{
    public required string Id { get; init; }

    /// <summary>Null for pipe.</summary>
    public Component? Component { get; init; }

    /// <summary>Null for all but pipe.</summary>
    public Cut? Cut { get; init; }

    /// <summary>All that can be said of it without its neighbours and its place.</summary>
    public required string Exact { get; init; }

    /// <summary>What it is and its size.</summary>
    public required string Rough { get; init; }

    public required Ware Ware { get; init; }

    public required Point Middle { get; init; }

    /// <summary>Its own length in the line, mm.</summary>
    public required double Length { get; init; }

    public List<Link> Links { get; } = [];

    /// <summary>A joint names it: it does not only lie beside others.</summary>
    public bool IsJoined => Links.Exists(l => l.Joint is not null);
}

/// <summary>
/// A drawing as steel: its parts and what each is joined to, whatever runs and legs it is written in. All that the comparison needs to know of components and
/// pipes stands here.
/// </summary>
internal sealed class Steel
{
    private readonly Dictionary<string, SteelPart> byId = new(StringComparer.Ordinal);
    private readonly FitJoints fitting;

    public Steel(Fabrication made)
    {
        Made = made;
        fitting = new(made);
        foreach (var cut in made.Cuts)
            Add(OfPipe(cut));
        foreach (var c in made.Route.Components)
            Add(OfComponent(c));
        foreach (var joint in made.Route.Joints)
        {
            var sides = joint.Between.Select(id => byId[id]).ToList();
            for (var i = 0; i < sides.Count; i++)
                sides[i].Links.Add(new(joint, sides.Count > 1 ? sides[1 - i] : null));
        }

        // What no joint names lies between others at its work point.
        foreach (var loose in Parts.Where(p => p.Component is not null && p.Links.Count == 0).ToList())
        {
            foreach (var mate in Parts.Where(p => p != loose && p.Component is { } c && (c.Run, c.Leg) == (loose.Component!.Run, loose.Component.Leg)))
            {
                loose.Links.Add(new(null, mate));
                mate.Links.Add(new(null, loose));
            }
        }
    }

    public Fabrication Made { get; }

    /// <summary>Pipes first, then components, each in line order.</summary>
    public List<SteelPart> Parts { get; } = [];

    public SteelPart Of(string id) => byId[id];

    private void Add(SteelPart part)
    {
        Parts.Add(part);
        byId[part.Id] = part;
    }

    private static SteelPart OfPipe(Cut cut)
    {
        var pipe = cut.Pipe;
        return new()
        {
            Id = pipe.Id,
            Cut = cut,
            Ware = Ware.Pipe,
            Exact = string.Create(CultureInfo.InvariantCulture, $"pipe {pipe.Size} {pipe.Wall:0.0} {Whole(cut.Length)}"),
            Rough = $"pipe {pipe.Size}",
            Middle = pipe.Start.Toward(pipe.End, 0.5),
            Length = cut.Length,
        };
    }

    private static SteelPart OfComponent(Component c)
    {
        var sum = Vector.Zero;
        foreach (var port in c.Ports)
            sum += port.At - Point.Origin;
        var length = c.Ports.Count > 1 ? c.Ports[0].At.To(c.Ports[1].At) : 0;
        return new()
        {
            Id = c.Id,
            Component = c,
            Ware = c.Ware,
            Exact = string.Create(CultureInfo.InvariantCulture, $"{Name(c)} {(c is Flange ? c.Line.Class + c.Line.Facing : "")} {Angles.ToDegrees(TurnOf(c)):0} {Whole(length)}"),
            Rough = $"{c.Ware} {c.Size}",
            Middle = c.Ports.Count > 0 ? Point.Origin + (sum / c.Ports.Count) : c.WorkPoint,
            Length = length,
        };
    }

    // Drawn figures end in 0 or 5 behind the point, or in sixteenths: the step between two whole numbers lies where none of them falls.
    private static double Whole(double mm) => Math.Floor(mm + 0.2371);

    private static double TurnOf(Component c) => c is Bent bent ? bent.Turn : 0;

    /// <summary>A component by its name and sizes.</summary>
    public static string Name(Component c) => $"{c.Name} NPS {c.Size}{(c.Size2.IsNone ? "" : " x " + c.Size2)}";

    /// <summary>Whether a joint holds a spool together.</summary>
    public static bool IsOfSpool(Joint joint) => joint.Place == WeldPlace.Shop && joint.Kind != JointKind.Bolted;

    /// <summary>The way a part looks at one of its joints: out of its end, or out of its side where something is set on it.</summary>
    public static Vector Looks(SteelPart part, Joint joint)
    {
        if (part.Cut is { Pipe: var pipe })
        {
            if (IsHole(pipe, joint))
                return HoleOf(pipe, joint).Out;
            return joint.At.To(pipe.Start) < joint.At.To(pipe.End) ? -pipe.Direction : pipe.Direction;
        }

        return part.Component!.Ports.Count > 0 ? part.Component.Ports.MinBy(p => p.At.To(joint.At)).Face : joint.Axis;
    }

    /// <summary>Other directions by which a part can be told from itself turned about its axis: stem, flat side.</summary>
    public static IEnumerable<(string What, Vector Way)> Marks(SteelPart part)
    {
        if (part.Component is Valve { StemDrawn: { } stem })
            yield return ("stem", stem.Unit);
        if (part.Component is Reducer { IsEccentric: true, Flat: var flat } && flat != Vector.Zero)
            yield return ("flat side", flat);
    }

    /// <summary>The bolt holes of a flange: how many, and the way to the middle between two of them; null for anything else, and where no line names them.</summary>
    public FitHoles? BoltHoles(SteelPart part) => part.Component is { } c ? fitting.HolesOf(c.Id) : null;

    /// <summary>Holes in a piece's side, from its start as it is cut.</summary>
    public IReadOnlyList<PipeHole> Holes(SteelPart part)
    {
        if (part.Cut is not { Pipe: var pipe })
            return [];
        var extra = pipe.ExtraAtStart ? Made.Route.Drawing.Shop.FinalFitExtra : 0;
        return [.. part.Links.Where(l => l.Joint is { } j && IsHole(pipe, j)).Select(l => HoleOf(pipe, l.Joint!) is var hole ? hole with { At = hole.At + extra } : hole).OrderBy(h => h.At)];
    }

    // A branch stands across its header and lies along itself.
    private static bool IsHole(PipePiece pipe, Joint joint) => joint.Kind == JointKind.Branch && Math.Abs(joint.Axis.Dot(pipe.Direction)) < 0.95
        && Math.Min(joint.At.To(pipe.Start), joint.At.To(pipe.End)) > pipe.Outside * 0.05;

    private static PipeHole HoleOf(PipePiece pipe, Joint joint)
    {
        var from = joint.At - pipe.Start;
        var side = from.SquareTo(pipe.Direction);
        // Away from the header, whichever way the line is written.
        var way = side.Length > 1 && joint.Axis.Dot(side) < 0 ? -joint.Axis : joint.Axis;
        return new(from.Dot(pipe.Direction), way.Unit, joint.Size);
    }

    private static (string OfItem, string OfLine) Material(MaterialItem? item, Line line) => (Metals.Plain(item?.Material ?? ""), Metals.Plain(line.Material));

    /// <summary>What differs between two components taken each for itself, in words; empty where the one does for the other.</summary>
    public static List<string> Differences(SteelPart old, SteelPart @new)
    {
        var differences = new List<string>();
        if (old.Component is not { } a || @new.Component is not { } b)
            return [$"{old.Rough} is now {@new.Rough}"];
        if (Name(a) != Name(b))
            differences.Add($"{Name(a)} is now {Name(b)}");
        else if (Math.Abs(TurnOf(a) - TurnOf(b)) > Tolerance.Turn)
            differences.Add(FormattableString.Invariant($"its turn of {Angles.ToDegrees(TurnOf(a)):0.#} degrees is now {Angles.ToDegrees(TurnOf(b)):0.#}"));
        else if (Math.Abs(old.Length - @new.Length) > Comparison.SameLength)
            differences.Add(FormattableString.Invariant($"its length of {old.Length:0.#} is now {@new.Length:0.#}"));
        if (a is Flange && a.Line.Class != b.Line.Class)
            differences.Add($"class {a.Line.Class} is now {b.Line.Class}");
        if (a is Flange && a.Line.Facing != b.Line.Facing)
            differences.Add($"facing {Words.Of(a.Line.Facing)} is now {Words.Of(b.Line.Facing)}");
        if (a.IsBySchedule && a.Line.Schedule != b.Line.Schedule)
            differences.Add($"schedule {a.Line.Schedule} is now {b.Line.Schedule}");
        if (OtherMaterial(old, @new) is { } other)
            differences.Add(other);
        return differences;
    }

    /// <summary>What differs between the pipes of two pieces: size, wall, material.</summary>
    public static IEnumerable<string> OtherPipe(SteelPart old, SteelPart @new)
    {
        var (o, n) = (old.Cut!.Pipe, @new.Cut!.Pipe);
        if (o.Size != n.Size)
            yield return $"NPS {o.Size} is now NPS {n.Size}";
        else if (Math.Abs(o.Wall - n.Wall) > 0.01)
            yield return FormattableString.Invariant($"wall {o.Wall:0.##} is now {n.Wall:0.##}");
        if (OtherMaterial(old, @new) is { } other)
            yield return other;
    }

    /// <summary>Says that two parts are of different material; null where they are not. Items are held against items, lines against lines: a list that came later changes no steel.</summary>
    public static string? OtherMaterial(SteelPart old, SteelPart @new) => OtherMaterial(Material(old.Cut?.Pipe.Item ?? old.Component?.Item, old.Cut?.Pipe.Line ?? old.Component!.Line), Material(@new.Cut?.Pipe.Item ?? @new.Component?.Item, @new.Cut?.Pipe.Line ?? @new.Component!.Line));

    /// <summary>As above, of two pieces.</summary>
    public static string? OtherMaterial(Cut old, Cut @new) => OtherMaterial(Material(old.Pipe.Item, old.Pipe.Line), Material(@new.Pipe.Item, @new.Pipe.Line));

    private static string? OtherMaterial((string OfItem, string OfLine) a, (string OfItem, string OfLine) b)
    {
        return a.OfItem.Length > 0 && b.OfItem.Length > 0
            ? Says(a.OfItem, b.OfItem)
            : Says(a.OfLine, b.OfLine);

        static string? Says(string one, string other) => one.Length == 0 || other.Length == 0 || one == other ? null : $"{one} is now {other}";
    }
}
