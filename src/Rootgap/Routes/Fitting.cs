using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>What is known of a work point when its station is made up: the leg that comes in, the one that goes out, the size.</summary>
/// <param name="Direction">Unit direction of the incoming leg (of the outgoing one at a start).</param>
/// <param name="Next">Unit direction of the outgoing leg; null at the end of a run.</param>
internal sealed record Situation(
    WorkPoint Point, Line Line, NominalSize Size, Vector Direction, Vector? Next, bool IsStart, SourceRow Source, int? StatedItem);

/// <summary>Makes up stations: every dimension of what stands at a work point, from the standards.</summary>
internal sealed partial class Fitting(Drawing drawing, Catalogue book, List<Finding> findings)
{
    /// <summary>
    /// The limiting wall of caps is the extra-strong wall, printed to 0.01 in.: NPS 6 prints 0.43 in. for a wall of 0.432, mm.
    /// </summary>
    private const double LimitingWallRounding = 0.13;

    private const double SlipOnSetBack = 1.6;
    private const double SlipOnMost = 6;
    private const double BendRadiiOf5D = 5 * LengthText.Inch;

    public Station Of(Situation s) => s.Point switch
    {
        ElbowPoint p => Elbow(s, p),
        TeePoint p => Tee(s, p),
        ReducerPoint p => Reducer(s, p),
        OutletPoint p => Outlet(s, p),
        StubInPoint p => StubIn(s, p),
        FlangePoint p => EndFlange(s, p),
        FlangedJointPoint => FlangedJoint(s),
        ValvePoint p => Valve(s, p),
        WeldPoint => Plain(s, EndKind.ButtHalfGap),
        CapPoint => Cap(s),
        OpenPoint => Plain(s, EndKind.Free),
        DimensionPoint => Plain(s, EndKind.Passing),
        TieInPoint => Plain(s, EndKind.Free),
        _ => throw new InvalidOperationException("The family of work points is closed."),
    };

    private static Station Plain(Situation s, EndKind kind) => new()
    {
        Point = s.Point,
        Line = s.Line,
        Source = s.Source,
        In = new(kind, []),
        Out = new(kind, []),
        InSize = s.Size,
        OutSize = s.Size,
    };

    private void Stop(Situation s, string rule, string key, string message, string remedy) =>
        findings.Add(new(rule, Severity.Stop, s.Source.Path, s.Source[key], message, remedy));

    /// <summary>The measured take-off of an item replaces the table's and is printed as such.</summary>
    private Term Measured(MaterialItem? item, Term term) =>
        item is not null && drawing.Shop.MeasuredTakeOffs.TryGetValue(item.Item, out var mm) ? new(term.What, -mm, "measured on the fitting") : term;

    private MaterialItem? Item(Situation s, Part part, out bool stated)
    {
        stated = s.StatedItem is not null;
        if (s.StatedItem is { } number)
            return drawing.Materials.FirstOrDefault(m => m.Item == number);
        return ItemSearch.Find(drawing.Materials, part, s.Line);
    }

    private Station Elbow(Situation s, ElbowPoint p)
    {
        var turn = s.Next is { } next ? s.Direction.AngleTo(next) : Math.PI / 2;
        var is90 = Math.Abs(turn - (Math.PI / 2)) <= Tolerance.Turn;
        var is45 = Math.Abs(turn - (Math.PI / 4)) <= Tolerance.Turn;
        var isSlope = s.Next is { } way && (Slope.IsSlight(s.Direction) || Slope.IsSlight(way));
        if (turn >= Math.PI - Tolerance.Turn)
        {
            Stop(s, "turns-back-on-itself", "to", "The next leg goes straight back along this one.", "Mend the direction of this leg or the next; a return bend is two elbows.");
        }
        else if (isSlope && turn > (Math.PI / 2) + Tolerance.Turn && turn <= (Math.PI / 2) + Slope.Slight)
        {
            // A riser into a falling line: a stock elbow is set, and the welds take the slope up.
            is90 = true;
            findings.Add(new("turn-over-90", Severity.Note, s.Source.Path, s.Source["to"],
                string.Create(CultureInfo.InvariantCulture, $"With the slope the line turns by {Angles.ToDegrees(turn):0.##} degrees here; a stock elbow turns 90."), "Take the slope up in the two welds."));
        }
        else if (turn > (Math.PI / 2) + Tolerance.Turn)
        {
            Stop(s, "turn-over-90", "to", string.Create(CultureInfo.InvariantCulture, $"The line turns by {Angles.ToDegrees(turn):0.##} degrees here: no elbow turns more than 90."),
                "Use two elbows, or mend the direction of this leg or the next.");
        }

        if (s.Line.Ends != FittingEnds.Butt)
            return SmallElbow(s, is90, is45, isSlope, turn);

        var radiusName = p.Radius switch { ElbowRadius.Short => "SR", ElbowRadius.ThreeD => "3D", ElbowRadius.FiveD => "5D", _ => "LR" };
        double radius;
        Term takeOff;
        var stock = p.Radius is ElbowRadius.Long or ElbowRadius.ThreeD && (is45 || turn < Math.PI / 4) ? 45 : 90;
        var name = string.Create(CultureInfo.InvariantCulture, $"elbow {stock} {radiusName}");
        var isCut = !(is90 || (is45 && stock == 45));
        if (p.Radius == ElbowRadius.FiveD)
        {
            radius = BendRadiiOf5D * s.Size.Inches;
            name = "bend 5D";
            isCut = false;
            takeOff = is90
                ? new("bend take-off", -radius, "radius of five nominal sizes")
                : CutTerm(radius, turn, "radius of five nominal sizes");
        }
        else
        {
            var (full, source) = book.Find(s.Source, "butt-weld", $"elbow 90 {radiusName}", "A", s.Size);
            radius = full;
            takeOff = is90 ? new("elbow take-off", -full, source)
                : is45 && stock == 45 ? book.Term(s.Source, "elbow take-off", "butt-weld", name, "B", s.Size)
                : CutTerm(full, turn, source);
        }

        var part = new Part(Ware.Elbow, name, s.Size) { Turn = turn, Radius = radius, IsCut = isCut };
        var item = Item(s, part, out var stated);
        if (!isCut)
            takeOff = Measured(item, takeOff);
        var end = new PipeEnd(EndKind.Butt, [takeOff]);
        return Plain(s, EndKind.Butt) with
        {
            In = end,
            InPart = 0,
            Out = end,
            OutPart = 0,
            Parts = [part with { Ends = [new(Way.In, end.Distance), new(Way.Out, end.Distance)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private static Term CutTerm(double radius, double turn, string source) => new(
        string.Create(CultureInfo.InvariantCulture, $"cut elbow take-off, {radius:0.0#} x tan({Angles.ToDegrees(turn):0.##}/2)"), -radius * Math.Tan(Math.Min(turn, 2.9) / 2), source);

    /// <summary>A socket-weld or threaded elbow: ASME B16.11 has 90 and 45 only, and they cannot be cut.</summary>
    private Station SmallElbow(Situation s, bool is90, bool is45, bool isSlope, double turn)
    {
        var prefix = s.Line.Ends == FittingEnds.Socket ? "SW" : "TH";
        if (!is90 && !is45 && isSlope && (Math.Abs(turn - (Math.PI / 2)) <= Slope.Slight || Math.Abs(turn - (Math.PI / 4)) <= Slope.Slight))
        {
            is45 = turn < Math.PI / 3;
            findings.Add(new("odd-turn-in-forged-fitting", Severity.Note, s.Source.Path, s.Source["to"],
                string.Create(CultureInfo.InvariantCulture, $"With the slope the line turns by {Angles.ToDegrees(turn):0.##} degrees here; the forged elbow turns {(is45 ? 45 : 90)}."), "Take the slope up in the two joints."));
        }
        else if (!is90 && !is45)
        {
            Stop(s, "odd-turn-in-forged-fitting", "to", string.Create(CultureInfo.InvariantCulture, $"The line turns by {Angles.ToDegrees(turn):0.##} degrees: socket-weld and threaded elbows turn 90 or 45 and cannot be cut."),
                "Make the turn 90 or 45, or use a butt-weld elbow (ends: butt).");
        }

        var name = is45 ? $"{prefix} elbow 45" : $"{prefix} elbow 90";
        var part = new Part(Ware.Elbow, name, s.Size) { Turn = turn };
        var item = Item(s, part, out var stated);
        var (end, face) = SmallEnd(s, name, item, s.Size);
        return Plain(s, end.Kind) with
        {
            In = end,
            InPart = 0,
            Out = end,
            OutPart = 0,
            Parts = [part with { Ends = [new(Way.In, face), new(Way.Out, face)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    /// <summary>The pipe's end in a forged elbow or tee, and the distance of the fitting's own face from the work point.</summary>
    private (PipeEnd End, double Face) SmallEnd(Situation s, string name, MaterialItem? item, NominalSize size)
    {
        if (s.Line.Ends == FittingEnds.Socket)
        {
            var term = Measured(item, book.Term(s.Source, "centre to socket bottom", "forged", name, "centre to socket bottom", size, @class: s.Line.FittingClass));
            return (book.Socket(term), -term.Mm + SocketDepth(s, size));
        }

        var toEnd = Measured(item, book.Term(s.Source, "centre to end", "forged", name, "centre to end", size, @class: s.Line.FittingClass));
        return (book.Threaded(s.Source, size, toEnd), -toEnd.Mm);
    }

    private double SocketDepth(Situation s, NominalSize size) =>
        book.Find(s.Source, "forged", "SW elbow 90", "socket depth", size, @class: s.Line.FittingClass).Mm;

    private Station Tee(Situation s, TeePoint p)
    {
        var runSize = p.EnterBranch ? p.RunSize ?? s.Size : s.Size;
        var branchSize = p.EnterBranch ? s.Size : p.BranchSize ?? s.Size;
        if (p.EnterBranch && p.BranchSize is { } said && said != s.Size)
            Stop(s, "size-changes-without-reducer", "branch size", $"The line comes in at NPS {s.Size}, and the branch of this tee is said to be NPS {said}.", "Write the run's size as `size:`; the branch has the size of the line that comes in.");
        if (branchSize > runSize)
            Stop(s, "branch-larger-than-run", "branch size", $"The branch of this tee is NPS {branchSize}, larger than its run, NPS {runSize}.", "Turn the tee, or put the reducer on the run.");
        var reducing = branchSize != runSize;
        var part = new Part(Ware.Tee, reducing ? "reducing tee" : "tee", runSize) { Size2 = reducing ? branchSize : default };
        PipeEnd run, branch;
        double runFace, branchFace;
        MaterialItem? item;
        bool stated;
        if (s.Line.Ends == FittingEnds.Butt)
        {
            item = Item(s, part, out stated);
            var small = reducing ? branchSize : default;
            run = new(EndKind.Butt, [Measured(item, book.Term(s.Source, "tee take-off, run", "butt-weld", part.Name, "C", runSize, small))]);
            branch = new(EndKind.Butt, [Measured(item, book.Term(s.Source, "tee take-off, branch", "butt-weld", part.Name, "M", runSize, small))]);
            (runFace, branchFace) = (run.Distance, branch.Distance);
        }
        else
        {
            // ASME B16.11: a reducing tee has the dimensions of its largest end.
            part = part with { Name = s.Line.Ends == FittingEnds.Socket ? "SW tee" : "TH tee" };
            item = Item(s, part, out stated);
            (run, runFace) = SmallEnd(s, part.Name, item, runSize);
            (branch, branchFace) = (run, runFace);
        }

        return Plain(s, EndKind.Butt) with
        {
            In = p.EnterBranch ? branch : run,
            InPart = 0,
            Out = run,
            OutPart = 0,
            Branch = p.EnterBranch ? run : branch,
            BranchPart = 0,
            OutSize = runSize,
            BranchSize = p.EnterBranch ? runSize : branchSize,
            Parts =
            [
                part with
                {
                    Ends = [new(Way.In, p.EnterBranch ? branchFace : runFace), new(Way.Out, runFace), new(Way.Branch, p.EnterBranch ? runFace : branchFace)],
                },
            ],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private Station Reducer(Situation s, ReducerPoint p)
    {
        var (large, small) = p.Size > s.Size ? (p.Size, s.Size) : (s.Size, p.Size);
        var part = new Part(Ware.Reducer, p.IsEccentric ? "reducer eccentric" : "reducer concentric", large) { Size2 = small };
        var item = Item(s, part, out var stated);
        Term length;
        if (large == small)
        {
            Stop(s, "reducer-without-change", "size", $"This reducer leaves the size at NPS {small}.", "Give the new size, or take the reducer out.");
            length = new("reducer length", 0, "");
        }
        else
        {
            length = Measured(item, book.Term(s.Source, "reducer length", "butt-weld", "reducer", "H", large, small));
        }

        var step = Vector.Zero;
        if (p.IsEccentric)
        {
            if (p.Flat is not { } flat)
            {
                Stop(s, "eccentric-flat-missing", "kind", "This eccentric reducer does not say which side is flat: the centreline steps to that side.", "Add `flat: top`, `flat: bottom` or a direction.");
            }
            else if (flat.SquareTo(s.Direction) is var side && side.Length < 0.5)
            {
                Stop(s, "eccentric-flat-along-line", "flat", "The flat side lies along the line itself.", "On an upright line name the side by the compass: flat: north.");
            }
            else
            {
                // The flat side goes straight on; the centreline moves by half the difference of the diameters (common practice).
                step = side.Unit * ((book.Outside(s.Source, s.Size) - book.Outside(s.Source, p.Size)) / 2);
            }
        }

        return Plain(s, EndKind.Butt) with
        {
            In = new(EndKind.Butt, [length]),
            InPart = 0,
            Out = new(EndKind.Butt, []),
            OutPart = 0,
            OutSize = p.Size,
            Step = step,
            Parts = [part with { Ends = [new(Way.In, -length.Mm), new(Way.Out, 0)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    private Station Outlet(Situation s, OutletPoint p)
    {
        CheckBranchSize(s, p.Size);
        var (name, schedule, @class) = p.Ends switch
        {
            FittingEnds.Socket => ("outlet socket", "", s.Line.FittingClass),
            FittingEnds.Threaded => ("outlet threaded", "", s.Line.FittingClass),
            _ => ("outlet butt", OutletSchedule(s, p.Size), ""),
        };
        var part = new Part(Ware.Outlet, name, p.Size) { Size2 = s.Size, Joins = p.Ends };
        var item = Item(s, part, out var stated);
        var half = new Term("half the header's outside diameter", -book.Outside(s.Source, s.Size) / 2, "ASME B36.10M");
        var height = Measured(item, book.Term(s.Source, "outlet height", "outlets", name, "height", p.Size, schedule: schedule, @class: @class));
        var face = -half.Mm - height.Mm;
        var branch = p.Ends switch
        {
            FittingEnds.Socket => book.Socket(half, height, new("depth of the socket", SocketDepth(s, p.Size), "ASME B16.11")),
            FittingEnds.Threaded => book.Threaded(s.Source, p.Size, half, height),
            _ => new(EndKind.Butt, [half, height]),
        };
        return Plain(s, EndKind.Passing) with
        {
            Branch = branch,
            BranchPart = 0,
            BranchSize = p.Size,
            Parts = [part with { Ends = [new(Way.Branch, -half.Mm, -1), new(Way.Branch, face)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }

    /// <summary>The outlet's weight class for the branch pipe's wall: up to standard wall STD, above it XS, above that 160 (MSS SP-97).</summary>
    private string OutletSchedule(Situation s, NominalSize size)
    {
        var wall = book.Wall(s.Source, size, s.Line.Schedule);
        foreach (var weight in new[] { "STD", "XS" })
        {
            if (book.Try("pipe", "pipe", "wall", size, schedule: weight) is { } limit && wall <= limit + 0.01)
                return weight;
        }

        return "160";
    }

    private Station StubIn(Situation s, StubInPoint p)
    {
        CheckBranchSize(s, p.Size);
        return Plain(s, EndKind.Passing) with
        {
            Branch = new(EndKind.SetOn, [new("half the header's outside diameter", -book.Outside(s.Source, s.Size) / 2, "ASME B36.10M")]),
            BranchSize = p.Size,
        };
    }

    private void CheckBranchSize(Situation s, NominalSize size)
    {
        if (size > s.Size)
            Stop(s, "branch-larger-than-run", "size", $"This {s.Point.Word} is NPS {size}, larger than its header, NPS {s.Size}.", "Use a tee with a reducer, or mend the size.");
    }

    private Station Cap(Situation s)
    {
        var way = s.IsStart ? Way.Out : Way.In;
        var part = new Part(Ware.Cap, s.Line.Ends switch { FittingEnds.Socket => "SW cap", FittingEnds.Threaded => "TH cap", _ => "cap" }, s.Size);
        var item = Item(s, part, out var stated);
        PipeEnd end;
        double length;
        if (s.Line.Ends == FittingEnds.Butt)
        {
            // ASME B16.9: E up to the limiting wall, E1 above it.
            var wall = book.Wall(s.Source, s.Size, s.Line.Schedule);
            var isThick = book.Try("butt-weld", "cap", "limiting wall", s.Size) is { } limit && wall > limit + LimitingWallRounding && book.Try("butt-weld", "cap", "E1", s.Size) is not null;
            var term = Measured(item, book.Term(s.Source, "cap length", "butt-weld", "cap", isThick ? "E1" : "E", s.Size));
            (end, length) = (new(EndKind.Butt, [term]), -term.Mm);
        }
        else
        {
            // The work point is the cap's outer end: a socket's bottom lies one end wall from it.
            var isSocket = s.Line.Ends == FittingEnds.Socket;
            var term = Measured(item, book.Term(s.Source, isSocket ? "cap end wall" : "cap length", "forged", part.Name, isSocket ? "end wall" : "end to end", s.Size, @class: s.Line.FittingClass));
            length = -term.Mm + (isSocket ? SocketDepth(s, s.Size) : 0);
            end = isSocket ? book.Socket(term) : book.Threaded(s.Source, s.Size, term);
        }

        return Plain(s, EndKind.Free) with
        {
            In = s.IsStart ? new(EndKind.Free, []) : end,
            InPart = s.IsStart ? -1 : 0,
            Out = s.IsStart ? end : new(EndKind.Free, []),
            OutPart = s.IsStart ? 0 : -1,
            Parts = [part with { Ends = [new(way, length)] }],
            Items = [item],
            IsItemStated = stated,
        };
    }
}
