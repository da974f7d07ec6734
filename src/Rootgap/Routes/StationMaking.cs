using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>What is known of a work point when its station is made up: the leg that comes in, the one that goes out, the size.</summary>
/// <param name="Direction">Unit direction of the incoming leg (of the outgoing one at a start).</param>
/// <param name="Next">Unit direction of the outgoing leg; null at the end of a run.</param>
internal sealed record Situation(
    WorkPoint Point, Line Line, NominalSize Size, Vector Direction, Vector? Next, bool IsStart, SourceRow Source, int? StatedItem)
{
    /// <summary>Direction of the leg behind a return bend that begins here, whose middle is the outgoing leg; null where none begins.</summary>
    public Vector? BehindReturn { get; init; }

    /// <summary>The station at which the return bend begins that ends here; null where none ends.</summary>
    public Station? ReturnBefore { get; init; }
}

/// <summary>Makes up stations: each kind of part makes its own, with what is here to look up dimensions, items and to tell what is wrong.</summary>
internal sealed class StationMaking(Drawing drawing, Catalogue book, List<Finding> findings)
{
    public Catalogue Book => book;

    public ShopRules Shop => drawing.Shop;

    public Station Of(Situation s) => s.Point switch
    {
        ElbowPoint { Bend: { } made } p => MadeBend.Station(this, s, p, made),
        ElbowPoint p when s.BehindReturn is { } behind => ReturnBend.Station(this, s, p, behind),
        ElbowPoint when s.ReturnBefore is { } before => ReturnBend.SecondHalf(this, s, before),
        ElbowPoint p => Elbow.Station(this, s, p),
        TeePoint p => Tee.Station(this, s, p),
        ReducerPoint p => Reducer.Station(this, s, p),
        OutletPoint p => Outlet.Station(this, s, p),
        StubInPoint p => StubIn.Station(this, s, p),
        FlangePoint p => FlangeEnd.EndStation(this, s, p),
        FlangedJointPoint p => FlangeEnd.JointStation(this, s, p),
        ValvePoint p => Valve.Station(this, s, p),
        InLineItemPoint p => InLineItem.Station(this, s, p),
        CouplingPoint => Coupling.Station(this, s),
        UnionPoint p => Union.Station(this, s, p),
        CapPoint => Cap.Station(this, s),
        PlugPoint => Plug.Station(this, s),
        WeldPoint => Station.Plain(s, EndKind.ButtHalfGap),
        OpenPoint or TieInPoint => Station.Plain(s, EndKind.Free),
        DimensionPoint or SupportPoint => Station.Plain(s, EndKind.Passing),
        _ => throw new InvalidOperationException("The family of work points is closed."),
    };

    public void Stop(Situation s, string rule, string key, string message, string remedy) => Tell(s, rule, Severity.Stop, key, message, remedy);

    public void Tell(Situation s, string rule, Severity severity, string key, string message, string remedy) =>
        findings.Add(new(rule, severity, s.Source.Path, s.Source[key], message, remedy));

    /// <summary>The measured take-off of an item replaces the table's and is printed as such.</summary>
    public Term Measured(MaterialItem? item, Term term) =>
        item is not null && Shop.MeasuredTakeOffs.TryGetValue(item.Item, out var mm) ? new(term.What, -mm, new Origin.Measured("fitting", item.Item, term.Origin is Origin.Table ? -term.Mm : null)) : term;

    /// <summary>The list's row of what the leg names: as it says, or as found.</summary>
    public MaterialItem? Item(Situation s, Component part, out bool stated)
    {
        stated = s.StatedItem is not null;
        return s.StatedItem is { } number ? drawing.Materials.FirstOrDefault(m => m.Item == number) : Found(part);
    }

    /// <summary>Whether the row that the leg names is a flange's: at a plate between two flanges it is theirs, not the plate's.</summary>
    public bool NamesFlange(Situation s) => s.StatedItem is { } number && drawing.Materials.Any(m => m.Item == number && m.Words.Ware == Ware.Flange);

    /// <summary>The list's row that a part seems to be; null where none fits. A row that bears the words of an in-line item, as a control valve's, is no other part's.</summary>
    public MaterialItem? Found(Component part) => ItemSearch.Find(part is InLineItem ? drawing.Materials : notOfInLineItems, part);

    private readonly IReadOnlyList<MaterialItem> notOfInLineItems = drawing.Runs.SelectMany(r => r.Legs).Select(l => l.To).OfType<InLineItemPoint>().Select(p => p.What).Distinct(StringComparer.Ordinal).ToList() is { Count: > 0 } inLine
        ? [.. drawing.Materials.Where(m => !inLine.Exists(w => InLineItem.IsFor(w, m)))]
        : drawing.Materials;

    /// <summary>Outside diameter and wall of the line's pipe of a size, mm; 0 where the standard has none, which is told here.</summary>
    /// <param name="isBySchedule">The part is made to that wall; one by a class (forged, a flange) does without, and its pipe tells.</param>
    public (double Outside, double Wall) Tube(Situation s, NominalSize size, bool isBySchedule) => (book.Outside(s.Source, size), isBySchedule
        ? book.Wall(s.Source, size, s.Line.Schedule)
        : s.Line.Schedule.Wall ?? book.Try(PipeTable.Wall, size, schedule: s.Line.Schedule.Name) ?? 0);

    /// <summary>A part with the tube of its own size.</summary>
    public T Sized<T>(Situation s, T part)
        where T : Component
    {
        var (outside, wall) = Tube(s, part.Size, part.IsBySchedule && s.Line.Ends == FittingEnds.Butt);
        return (T)((Component)part with { Outside = outside, Wall = wall });
    }

    public (double Mm, Origin Origin) SocketDepth(Situation s, NominalSize size) => book.Find(s.Source, Forged.SocketDepth, size, @class: s.Line.FittingClass);

    /// <summary>From a socket's face to its bottom.</summary>
    public Term IntoSocket(Situation s, NominalSize size)
    {
        var (mm, origin) = SocketDepth(s, size);
        return new("depth of the socket", mm, origin);
    }

    /// <summary>From the header's middle line to its outside, along a branch.</summary>
    public Term HalfHeader(Situation s, Lean lean)
    {
        var (mm, origin) = book.Find(s.Source, PipeTable.Outside, s.Size);
        return lean.IsSquare
            ? new("half the header's outside diameter", -mm / 2, origin)
            : new(FormattableString.Invariant($"half the header's outside diameter, {mm / 2:0.0#} / sin {lean.Degrees:0.##}"), -lean.Along(mm / 2), origin);
    }
}
