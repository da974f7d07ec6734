using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The picture of a line: strokes and signs, and the room they take.</summary>
internal sealed class IsometricDrawing
{
    /// <summary>Half of the gap in a line that passes behind another, mm.</summary>
    private const double BehindGap = 1.7;

    private readonly DrawnLine line;
    private readonly IsometricLayout layout;
    private readonly LabelPlacement placement;
    private readonly Canvas canvas = new();
    private readonly Dictionary<LegOnPaper, List<(double From, double To)>> gaps = [];

    private IsometricDrawing(DrawnLine line, IsometricLayout layout, LabelPlacement placement)
    {
        (this.line, this.layout, this.placement) = (line, layout, placement);
        Arms = layout.Legs.SelectMany(l => l.Leg.Parts.Select(p => new Arm(l, p))).ToLookup(a => a.Part.Id, StringComparer.Ordinal);
    }

    /// <summary>A component's or a pipe's stretch on one leg.</summary>
    internal sealed record Arm(LegOnPaper On, LegPart Part)
    {
        public Spot From => On.On(On.Of(Part).From);
        public Spot To => On.On(On.Of(Part).To);
        public Spot Middle => From.Toward(To, 0.5);

        /// <summary>Whether the component stands at the leg's far end.</summary>
        public bool ComesIn => Part.Component is { } c && On.Leg.Leg >= 0
            && (On.Leg.Run == c.Run ? On.Leg.Leg == c.Leg || (c is ReturnBend && On.Leg.Leg == c.Leg + 1 && Part.Middle > On.Leg.Distance / 2) : On.Leg.Leg > 0 || Part.Middle > On.Leg.Distance / 2);

        /// <summary>The end nearer to the work point, and the other.</summary>
        public Spot Near => ComesIn ? To : From;

        public Spot Far => ComesIn ? From : To;
    }

    public ILookup<string, Arm> Arms { get; }
    public Canvas Canvas => canvas;

    private double K => layout.SymbolScale;

    public static IsometricDrawing Of(DrawnLine line, IsometricLayout layout, LabelPlacement placement, IReadOnlyDictionary<string, string> marks)
    {
        var drawing = new IsometricDrawing(line, layout, placement);
        drawing.FindCrossings();
        drawing.Block();
        drawing.DrawAll(marks);
        return drawing;
    }

    /// <summary>The direction in which flanges and the like stand across a leg: along an axis, as the isometric has them.</summary>
    public Spot Across(LegOnPaper leg)
    {
        foreach (var axis in new[] { Vector.Up, Vector.East, Vector.North })
        {
            var way = layout.View.Way(axis);
            if (Math.Abs((way.X * leg.Unit.Y) - (way.Y * leg.Unit.X)) > 0.7)
                return way;
        }

        return new(-leg.Unit.Y, leg.Unit.X);
    }

    private void FindCrossings()
    {
        var legs = layout.Legs;
        for (var i = 0; i < legs.Count; i++)
        {
            for (var j = i + 1; j < legs.Count; j++)
            {
                var (a, b) = (legs[i], legs[j]);
                if (a.Leg.StartNode == b.Leg.StartNode || a.Leg.StartNode == b.Leg.EndNode || a.Leg.EndNode == b.Leg.StartNode || a.Leg.EndNode == b.Leg.EndNode)
                    continue;
                if (Strokes.Crossing(a.Start, a.End, b.Start, b.End) is not { } cross)
                    continue;
                var (s, t) = (cross.First * a.Length, cross.Second * b.Length);
                var isFirstInFront = layout.View.Nearness(layout.Space[i] + (a.Space * s)) > layout.View.Nearness(layout.Space[j] + (b.Space * t));
                var (rear, at) = isFirstInFront ? (b, t) : (a, s);
                if (!gaps.TryGetValue(rear, out var list))
                    gaps[rear] = list = [];
                list.Add((at - BehindGap, at + BehindGap));
            }
        }
    }

    /// <summary>Tells the labels where pipe and signs are.</summary>
    private void Block()
    {
        foreach (var arm in Arms.SelectMany(g => g))
        {
            var (a, b) = (arm.From, arm.To);
            var across = Across(arm.On);
            switch (arm.Part.Component?.Sign)
            {
                case IsometricSign.Valve or IsometricSign.Box or IsometricSign.Reducer or IsometricSign.Cap:
                    placement.Block(Slab.Along(a, b, 2.4 * K), of: arm.Part.Id);
                    break;
                case IsometricSign.Flange or IsometricSign.Gasket or IsometricSign.Blind:
                    placement.Block(a, b, 0.9, Occupant.Pipe, arm.Part.Id);
                    var (p, q) = (arm.Near.Moved(-across.X * 2.3 * K, -across.Y * 2.3 * K), arm.Near.Moved(across.X * 2.3 * K, across.Y * 2.3 * K));
                    placement.Block(Slab.Along(p, q, 0.4), of: arm.Part.Id);
                    break;
                case IsometricSign.Outlet:
                    placement.Block(Slab.Along(a, b, 1.6 * K), of: arm.Part.Id);
                    break;
                case IsometricSign.Elbow or IsometricSign.Tee or null:
                    placement.Block(a, b, 0.6, Occupant.Pipe, arm.Part.Id);
                    break;
                default:
                    throw new InvalidOperationException("The family of signs is closed.");
            }
        }

        foreach (var (support, at, way) in Supports)
            placement.Block(Slab.Along(at, Foot(at, way), 2.2 * K), of: support.Id);

        foreach (var elbow in Arms.Where(a => a.First().Part.Component?.Sign == IsometricSign.Elbow))
        {
            foreach (var corner in Corners([.. elbow]))
            {
                var (s, middle, t) = Bend(corner[0], corner[1]);
                placement.Block(s, middle, 0.6, Occupant.Pipe, elbow.Key);
                placement.Block(middle, t, 0.6, Occupant.Pipe, elbow.Key);
            }
        }

        foreach (var joint in line.Joints)
        {
            var at = At(joint);
            var r = Symbols.MarkRadius(joint.Joint) * K;
            placement.Block(new Slab(at, r, r, 0));
        }
    }

    /// <summary>The supports on the sketch: where each takes hold, and the way to its foot.</summary>
    public IEnumerable<(Support Support, Spot At, Spot Way)> Supports
    {
        get
        {
            foreach (var support in line.Route.Supports.Where(s => line.Ids.Contains(s.Pipe)))
            {
                if (layout.Legs.FirstOrDefault(l => l.Leg.Run == support.Run && l.Leg.Leg == support.Leg && l.Leg.HasEnd) is not { } on)
                    continue;
                var way = support.Side is { } side && layout.View.Way(side) is var seen && Math.Abs((seen.X * on.Unit.Y) - (seen.Y * on.Unit.X)) > 0.4 ? seen : Across(on);
                var length = new Spot(0, 0).To(way);
                yield return (support, on.At(on.Leg.Distance), new(way.X / length, way.Y / length));
            }
        }
    }

    /// <summary>The middle of a support's bar.</summary>
    public Spot Foot(Spot at, Spot way) => at.Moved(way.X * Symbols.SupportHigh * K, way.Y * Symbols.SupportHigh * K);

    public Spot At(DrawnJoint joint) => layout.Legs[IndexOf(joint.Leg)].At(joint.At);

    private int IndexOf(DrawnLeg leg)
    {
        for (var i = 0; i < layout.Legs.Count; i++)
        {
            if (layout.Legs[i].Leg == leg)
                return i;
        }

        return -1;
    }

    /// <summary>Where the line goes on that is not written yet: behind the last leg of a run that has not come to an end, and at branches from which nothing leaves.</summary>
    /// <returns>The row after which it comes, whether it is a branch, the place, and the way that the line has there.</returns>
    public IEnumerable<(string Row, bool IsBranch, Spot At, Spot Way)> ToBeWritten()
    {
        foreach (var on in layout.Legs)
        {
            var leg = on.Leg;
            if (leg.Leg < 0)
            {
                if (leg.HasEnd || leg.Parts.Count > 0)
                    yield return (leg.Parts[0].Component?.Source.Path.ToString() ?? "", true, on.End, on.Unit);
                continue;
            }

            var run = line.Route.Runs[leg.Run].Run;
            if (leg.Leg == run.Legs.Count - 1 && leg.HasEnd && run.Legs[^1] is { To: OpenPoint { Continues: null }, Source: var source } && source.Text("to") is not "open")
                yield return (source.Path.ToString(), false, on.End, on.Unit);
        }
    }

    private void DrawAll(IReadOnlyDictionary<string, string> marks)
    {
        var pieces = line.Fabrication.Cuts.ToDictionary(c => c.Pipe.Id, StringComparer.Ordinal);
        foreach (var pipe in line.Route.Pipes.Where(p => line.Ids.Contains(p.Id)))
        {
            var name = pieces.TryGetValue(pipe.Id, out var cut) ? cut.Piece : pipe.Id;
            canvas.Group(SheetId.Of(name), "piece " + SheetId.OfSpool(line.Fabrication.SpoolOf.GetValueOrDefault(pipe.Id, "")) + Revised(name), g =>
            {
                foreach (var arm in Arms[pipe.Id])
                {
                    var (from, to) = arm.On.Of(arm.Part);
                    Stroke(g, arm.On, from, to, Revised(name, Symbols.Of(pipe.Size.Inches)), line.RowOf(arm.On.Leg));
                    // A pipe that is set on a header reaches to the header's line.
                    OpenEnds(g, pipe, arm);
                }
            });
        }

        foreach (var component in line.Route.Components.Where(c => line.Ids.Contains(c.Id)))
        {
            var arms = Arms[component.Id].ToList();
            if (arms.Count == 0)
                continue;
            canvas.Group(component.Id, $"component {component.Word} {SheetId.OfSpool(line.Fabrication.SpoolOf.GetValueOrDefault(component.Id, ""))}{Revised(component.Id)}", g => Draw(g, component, arms), component.Source.Path.ToString());
        }

        foreach (var (a, b) in layout.Gaps)
            canvas.Line(a, b, LineStyle.Medium with { Dash = Dash.Dotted });
        Pads();
        foreach (var (support, at, way) in Supports)
            canvas.Group(support.Id, "support " + support.Name, g => Symbols.Support(g, at, way, support.Drawn.Kind == SupportKind.Hanger, K), support.Source.Path.ToString());
        foreach (var joint in line.Joints)
        {
            var leg = layout.Legs[IndexOf(joint.Leg)];
            var at = leg.At(joint.At);
            if (marks.ContainsKey(joint.Joint.Id))
                MatchLine(at, Across(leg));
            var kind = joint.Joint.Kind == JointKind.Bolted ? "bolted" : Words.Of(joint.Joint.Place);
            canvas.Group(joint.Joint.Id, "joint " + kind + Revised(joint.Joint.Id), g => Symbols.Mark(g, joint.Joint.Kind, joint.Joint.Place, at, leg.Unit, Across(leg), K), joint.Joint.Source.Path.ToString());
        }
    }

    /// <summary>Steel that is lost is a broken red line, steel that is shortened a red one.</summary>
    private LineStyle Revised(string name, LineStyle style) => line.Changed.GetValueOrDefault(name)?.Change switch
    {
        Change.Spoiled => style with { Ink = Ink.Accent, Dash = Dash.Dashed },
        Change.Trim => style with { Ink = Ink.Accent },
        _ => style,
    };

    private string Revised(string name) => line.Changed.TryGetValue(name, out var changed) ? " " + changed.Class : "";

    private void MatchLine(Spot at, Spot across)
    {
        var (a, b) = (at.Moved(-across.X * 8, -across.Y * 8), at.Moved(across.X * 8, across.Y * 8));
        canvas.Line(a, b, new LineStyle(0.5, Dash.Chain));
        placement.Block(a, b, 0.4, Occupant.Line);
    }

    private void OpenEnds(Canvas g, PipePiece pipe, Arm arm)
    {
        var leg = arm.On.Leg;
        var run = line.Route.Runs[pipe.Run].Run;
        if (leg.Leg == 0 && leg.HasStart && pipe.FirstLeg == 0)
            End(run.Start.Ends, arm.From, new(-arm.On.Unit.X, -arm.On.Unit.Y));
        if (leg.Leg == run.Legs.Count - 1 && leg.HasEnd)
            End(run.Legs[^1].To, arm.To, arm.On.Unit);

        void End(WorkPoint? point, Spot at, Spot outward)
        {
            if (point is OpenPoint open)
            {
                Symbols.OpenEnd(g, at, Across(arm.On), outward, open.Ends, K);
                placement.Block(new Slab(at, 2.1 * K, 2.1 * K, 0));
            }

            if (point is WeldPoint or { GoesOnIn: not null })
            {
                // The line goes on beyond this drawing.
                var far = at.Moved(outward.X * 7, outward.Y * 7);
                g.Line(at.Moved(outward.X * 1.5, outward.Y * 1.5), far, new LineStyle(0.5, Dash.Dashed));
                placement.Block(at, far, 0.6, Occupant.Pipe);
            }
        }
    }

    /// <summary>Reinforcing pads: a stroke along the header where a branch is set on.</summary>
    private void Pads()
    {
        for (var r = 0; r < line.Route.Runs.Count; r++)
        {
            foreach (var leg in line.Route.Runs[r].Run.Legs)
            {
                if (leg.To is not StubInPoint { HasPad: true } pad)
                    continue;
                var on = layout.Legs.FirstOrDefault(l => l.Leg.Run == r && l.Leg.Leg == leg.Index && l.Leg.HasEnd);
                if (on is null)
                    continue;
                var way = layout.View.Way(pad.Branch);
                var at = on.At(on.Leg.Distance).Moved(way.X * 1.1, way.Y * 1.1);
                canvas.Line(at.Moved(-on.Unit.X * 3, -on.Unit.Y * 3), at.Moved(on.Unit.X * 3, on.Unit.Y * 3), LineStyle.Thick);
            }
        }
    }

    /// <summary>A stretch of a leg, broken where another passes in front.</summary>
    private void Stroke(Canvas g, LegOnPaper leg, double from, double to, LineStyle style, string? row = null)
    {
        if (to - from < 1e-6)
            return;
        var at = from;
        if (gaps.TryGetValue(leg, out var breaks))
        {
            foreach (var (a, b) in breaks.Order())
            {
                if (b <= from || a >= to)
                    continue;
                if (a > at)
                    g.Add(new Stroke(Shape.Line(leg.On(at), leg.On(a)), style) { Row = row });
                at = Math.Max(at, b);
            }
        }

        if (at < to)
            g.Add(new Stroke(Shape.Line(leg.On(at), leg.On(to)), style) { Row = row });
    }

    private void Draw(Canvas g, Component c, List<Arm> arms)
    {
        var pipe = Symbols.Of(c.Size.Inches);
        var first = arms[0];
        var across = Across(first.On);
        switch (c.Sign)
        {
            case IsometricSign.Elbow when Corners(arms) is { Count: > 0 } corners:
                foreach (var corner in corners)
                    Elbow(g, corner[0], corner[1], pipe);
                break;
            case IsometricSign.Flange:
                foreach (var arm in arms)
                    Symbols.Flange(g, arm.Far, arm.Near, Across(arm.On), K, pipe, c is Flange { Stub: not null });
                break;
            case IsometricSign.Gasket:
                break;
            case IsometricSign.Blind:
                Symbols.Blind(g, first.To, first.From, across, K);
                break;
            case IsometricSign.Reducer:
                var size = line.Route.Runs[c.Run].Sizes[Math.Max(0, c.Leg)];
                Symbols.Reducer(g, first.From, first.To, across, K, size == c.Size, FlatSide(c, across));
                break;
            case IsometricSign.Valve:
                Valve(g, c, arms);
                break;
            case IsometricSign.Box:
                foreach (var arm in arms)
                    Symbols.HalfBox(g, arm.Far, arm.Near, Across(arm.On), K);
                break;
            case IsometricSign.Cap:
                Symbols.Cap(g, first.Far, first.Near, K);
                break;
            case IsometricSign.Outlet:
                Symbols.Outlet(g, first.On.On(0.4), first.To, across, K);
                break;
            case IsometricSign.Elbow or IsometricSign.Tee:
                foreach (var arm in arms)
                {
                    var (from, to) = arm.On.Of(arm.Part);
                    Stroke(g, arm.On, from, to, pipe);
                }

                break;
            default:
                throw new InvalidOperationException("The family of signs is closed.");
        }
    }

    private int FlatSide(Component c, Spot across)
    {
        if (c is not Reducer { IsEccentric: true, Flat: var flat } || flat == Vector.Zero)
            return 0;
        var way = layout.View.Way(flat);
        return (way.X * across.X) + (way.Y * across.Y) >= 0 ? 1 : -1;
    }

    /// <summary>The corners of what turns the line: one of an elbow, two of a return; none where the sketch ends in it.</summary>
    internal static IReadOnlyList<Arm[]> Corners(IReadOnlyList<Arm> arms) => arms.Count is 2 or 4 ? [.. arms.Chunk(2)] : [];

    /// <summary>Where the bend of an elbow begins, its middle, and where it ends.</summary>
    public (Spot Begin, Spot Middle, Spot End) Bend(Arm a, Arm b)
    {
        var (corner, p, q) = (a.Near, a.Far, b.Far);
        var radius = Math.Min(4 * K, 0.9 * Math.Min(corner.To(p), corner.To(q)));
        var (s, t) = (corner.Toward(p, radius / Math.Max(1e-9, corner.To(p))), corner.Toward(q, radius / Math.Max(1e-9, corner.To(q))));
        // The cubic's own middle: an eighth of its ends and three eighths of its control points, which lie at 0.45 of the way from the corner.
        const double Share = (1 + (3 * (1 - Tightness))) / 8;
        return (s, corner.Moved((s.X + t.X - (2 * corner.X)) * Share, (s.Y + t.Y - (2 * corner.Y)) * Share), t);
    }

    /// <summary>How far the control points of a bend lie from its ends towards the corner.</summary>
    private const double Tightness = 0.55;

    private void Elbow(Canvas g, Arm a, Arm b, LineStyle pipe)
    {
        if (a.Near.To(b.Near) > 0.3)
        {
            g.Line(a.From, a.To, pipe).Line(b.From, b.To, pipe);
            return;
        }

        var (s, _, t) = Bend(a, b);
        g.Stroke(Shape.From(a.Far).LineTo(s).CurveTo(s.Toward(a.Near, Tightness), t.Toward(a.Near, Tightness), t).LineTo(b.Far), pipe);
    }

    private void Valve(Canvas g, Component c, List<Arm> arms)
    {
        var kind = (c as Valve)?.Kind ?? ValveKind.Gate;
        var flow = line.Route.Runs[c.Run].Run.FlowsAlong ?? true;
        var middle = arms[0].Near;
        foreach (var arm in arms)
        {
            var across = Across(arm.On);
            if (kind == ValveKind.Butterfly)
                g.Line(arm.Far, middle, LineStyle.Thin);
            else
                Symbols.HalfValve(g, arm.Far, middle, across, K, kind == ValveKind.Check && arm.ComesIn == flow);
        }

        if (arms.Count == 2)
            Symbols.ValveKind(g, kind, arms[0].Far, middle, arms[1].Far, Across(arms[0].On), K);
        if (kind == ValveKind.Check)
        {
            // The arrow says it once more: which way the check opens.
            var leg = arms[0].On;
            var side = Across(leg);
            var from = middle.Moved((side.X * 4 * K) - (leg.Unit.X * 3), (side.Y * 4 * K) - (leg.Unit.Y * 3));
            var to = from.Moved(leg.Unit.X * 6, leg.Unit.Y * 6);
            g.Arrow(flow ? from : to, flow ? to : from, LineStyle.Thin, 2.2);
            placement.Block(from, to, 0.5, Occupant.Symbol);
        }

        if (c is Valve { StemDrawn: { } stem } && layout.View.Share(stem) > 0.3)
        {
            var way = layout.View.Way(stem);
            Symbols.Stem(g, middle, way, arms[0].On.Unit, K);
            placement.Block(Slab.Along(middle, middle.Moved(way.X * 5.4 * K, way.Y * 5.4 * K), 0.9));
        }
    }
}
