using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>Lays the pipes between the stations and joins everything, numbering along the line.</summary>
internal sealed partial class PipeLaying
{
    private readonly Drawing drawing;
    private readonly PlacedRun[] runs;
    private readonly PartNumbers parts;
    private readonly Catalogue book;
    private readonly List<Finding> findings;
    private readonly List<PipePiece> pieces = [];
    private readonly List<Joint> joints = [];
    private readonly List<Support> supports = [];
    private readonly List<Pad> pads = [];
    private readonly List<Joint> seams = [];

    /// <summary>The piece that lies in each leg; null where a leg has no pipe.</summary>
    private readonly PipePiece?[][] inLeg;

    private int welds;
    private int bolted;
    private int attached;

    private PipeLaying(Drawing drawing, PlacedRun[] runs, PartNumbers parts, Catalogue book, List<Finding> findings)
    {
        (this.drawing, this.runs, this.parts, this.book, this.findings) = (drawing, runs, parts, book, findings);
        inLeg = [.. runs.Select(r => new PipePiece?[r.Directions.Length])];
    }

    public static (IReadOnlyList<PipePiece> Pieces, IReadOnlyList<Joint> Joints, IReadOnlyList<Support> Supports, IReadOnlyList<Pad> Pads, IReadOnlyList<Joint> Seams) Lay(
        Drawing drawing, PlacedRun[] runs, PartNumbers parts, Catalogue book, List<Finding> findings)
    {
        var laying = new PipeLaying(drawing, runs, parts, book, findings);
        foreach (var run in runs)
            laying.LayPipes(run);
        foreach (var run in runs)
            laying.JoinRun(run);
        return (laying.pieces, laying.joints, laying.supports, laying.pads, laying.seams);
    }

    private double Gap => drawing.Shop.RootGap;

    private void LayPipes(PlacedRun run)
    {
        var legs = run.Run.Legs;
        for (var first = 0; first < legs.Count; first++)
        {
            if (run.HasNoPipe[first])
            {
                CheckNoPipeMarks(legs[first]);
                continue;
            }

            var last = first;
            while (last + 1 < legs.Count && run.Stations[last + 1].In.Kind == EndKind.Passing)
                last++;
            CheckMarks(run, first, last);
            var (atStart, atEnd) = (run.Stations[first].Out, EndOf(run, last));
            var leg = legs[first];
            var line = leg.Line with { Size = run.Sizes[first] };
            var outside = book.Outside(leg.Source, line.Size);
            var wall = book.Wall(leg.Source, line.Size, line.Schedule);
            var (from, to) = (run.Points[first], run.Points[last + 1] - run.Stations[last + 1].Step);
            var direction = run.Directions[first];
            var beginsAtWeld = first > 0 && legs[first - 1].To is WeldPoint && legs[first - 1].End == WeldPlace.FinalFit;
            var piece = new PipePiece
            {
                Id = "P" + (pieces.Count + 1).ToString(CultureInfo.InvariantCulture),
                Run = run.Index,
                FirstLeg = first,
                LastLeg = last,
                Size = line.Size,
                Line = line,
                Outside = outside,
                Wall = wall,
                Start = from + (direction * (atStart.Distance + atStart.Gap(Gap))),
                End = to - (run.Directions[last] * (atEnd.Distance + atEnd.Gap(Gap))),
                Direction = direction,
                AtStart = atStart,
                AtEnd = atEnd,
                FreeStart = first == 0 && run.Run.Start.Ends is OpenPoint open ? open.Ends : null,
                FreeEnd = legs[last].To is OpenPoint { Ends: var ends } ? ends : null,
                Nipple = leg.Nipple,
                ExtraAtStart = leg.Nipple is null && legs[first].Begin == WeldPlace.FinalFit && IsJoined(atStart) && !beginsAtWeld,
                ExtraAtEnd = leg.Nipple is null && legs[last].End == WeldPlace.FinalFit && IsJoined(atEnd),
            };
            var item = legs[first].PipeItem is { } number ? drawing.Materials.FirstOrDefault(m => m.Item == number) : ItemSearch.Find(drawing.Materials, piece);
            piece = piece with { Item = item, IsItemGuessed = item is not null && legs[first].PipeItem is null };
            pieces.Add(piece);
            for (var i = first; i <= last; i++)
                inLeg[run.Index][i] = piece;
            first = last;
        }
    }

    private static bool IsJoined(PipeEnd end) => end.Kind is not (EndKind.Free or EndKind.Passing);

    /// <summary>A run that ties in ends as a run from there would begin.</summary>
    private PipeEnd EndOf(PlacedRun run, int leg) => leg == run.Directions.Length - 1 && run.TiesTo.Run >= 0
        ? runs[run.TiesTo.Run].Stations[run.TiesTo.Station].Branch ?? new(EndKind.Free, [])
        : run.Stations[leg + 1].In;

    private void CheckNoPipeMarks(Leg leg)
    {
        foreach (var (key, mark) in new[] { ("begin", leg.Begin), ("end", leg.End) })
        {
            if (mark == WeldPlace.FinalFit)
            {
                findings.Add(new("final-fit-without-pipe", Severity.Stop, leg.Source.Path, leg.Source[key], "This final-fit weld has no pipe: fitting stands on fitting, so there is nothing to leave long.",
                    "Put the final-fit weld on a leg with pipe."));
            }
        }
    }

    /// <summary>A weld mark where no weld is.</summary>
    private void CheckMarks(PlacedRun run, int first, int last)
    {
        var legs = run.Run.Legs;
        for (var i = first; i <= last; i++)
        {
            var beginsHere = i == first && IsJoined(run.Stations[i].Out);
            var endsHere = (i == last && IsJoined(EndOf(run, i))) || legs[i].To is OutletPoint or SupportPoint { IsWelded: true };
            foreach (var (key, mark, isWeld) in new[] { ("begin", legs[i].Begin, beginsHere), ("end", legs[i].End, endsHere) })
            {
                var number = key == "begin" ? legs[i].BeginNumber : legs[i].EndNumber;
                if (number.Length > 0 && !isWeld)
                {
                    findings.Add(new("mark-without-weld", Severity.Warn, legs[i].Source.Path, legs[i].Source[key + " number"], $"There is no weld {number} at the {key} of this leg.",
                        "Take the number out, or move it to the leg where the weld is."));
                }

                var at = key == "begin" ? run.Stations[i].Out : EndOf(run, i);
                if (mark == WeldPlace.FinalFit && isWeld && at.Kind == EndKind.Threaded && (key == "begin" ? i == first : i == last))
                {
                    findings.Add(new("mark-without-weld", Severity.Warn, legs[i].Source.Path, legs[i].Source[key], $"The joint at the {key} of this leg is a thread: nothing is fitted there by a weld.",
                        "Mark a weld on plain pipe final-fit, or fit with a union."));
                }

                // `shop` is what stands there anyway.
                if (mark is not (null or WeldPlace.Shop) && !isWeld)
                {
                    findings.Add(new("mark-without-weld", Severity.Warn, legs[i].Source.Path, legs[i].Source[key], $"There is no weld at the {key} of this leg.",
                        "Take the mark out, or move it to the leg where the weld is.")
                    {
                        Change = legs[i].Source.TakeOut(key, $"the mark `{key}: {Words.Of(mark.Value)}` is taken out: there is no weld") is { } change ? change with { IsJudgement = true } : null,
                    });
                }
            }
        }
    }

    private void JoinRun(PlacedRun run)
    {
        var legs = run.Run.Legs;
        Bolt(run, 0);
        for (var i = 0; i < legs.Count; i++)
        {
            var (here, there) = (run.Stations[i], run.Stations[i + 1]);
            var piece = inLeg[run.Index][i];
            var source = legs[i].Source;
            var from = run.Points[i];
            var direction = run.Directions[i];
            var hostPart = HostPart(run, i);
            if (there.EndsReturn)
            {
                // Within a return bend nothing is joined.
            }
            else if (piece is null)
            {
                // Fitting on fitting: one weld, marked by the leg's end.
                var at = from + (direction * (here.Out.Distance + ((run.Distances[i] - here.Out.Distance - EndOf(run, i).Distance) / 2)));
                var far = EndOf(run, i);
                Weld(KindOf(here.Out.IsMale ? far : here.Out), legs[i].End ?? legs[i].Begin ?? WeldPlace.Shop, run, i, at, direction, [hostPart, FarPart(run, i)], run.Sizes[i], WallOf(run, i), source, legs[i].EndNumber);
            }
            else
            {
                // At a weld between two pipes the leg before has made the joint already.
                if (piece.FirstLeg == i && IsJoined(here.Out) && !(here.Point is WeldPoint && i > 0))
                {
                    var place = legs[i].Begin ?? WeldPlace.Shop;
                    Weld(KindOf(here.Out), place, run, i, PlaceOf(piece, atStart: true), direction, [hostPart, piece.Id], piece.Size, piece.Wall, source, legs[i].BeginNumber);
                }

                if (there.Point is OutletPoint)
                {
                    var outlet = (Outlet)parts.Of(run.Index, i + 1, 0);
                    Weld(JointKind.Branch, legs[i].End ?? WeldPlace.Shop, run, i, outlet.Foot.At, -outlet.Foot.Face, [piece.Id, outlet.Id], outlet.Size, piece.Wall, source, legs[i].EndNumber, isOutlet: true);
                }

                if (there.Point is SupportPoint support)
                    Put(support, run, i, piece);

                if (there.Point is StubInPoint { HasPad: true } stub)
                    Put(stub, run, i, piece);

                if (piece.LastLeg == i && IsJoined(piece.AtEnd))
                {
                    var next = there.Point is WeldPoint && i + 1 < legs.Count;
                    var place = legs[i].End ?? (next ? legs[i + 1].Begin : null) ?? WeldPlace.Shop;
                    Weld(KindOf(piece.AtEnd), place, run, i, PlaceOf(piece, atStart: false), direction, [piece.Id, next ? inLeg[run.Index][i + 1]?.Id : FarPart(run, i)], piece.Size, piece.Wall, source, legs[i].EndNumber.Length > 0 || !next ? legs[i].EndNumber : legs[i + 1].BeginNumber);
                }
            }

            if (there.Point is ElbowPoint { Bend.Cuts: > 0 })
                Put((MadeBend)parts.Of(run.Index, i + 1, 0), run, i);

            Bolt(run, i + 1);
        }
    }

    private double WallOf(PlacedRun run, int leg) => book.Wall(run.Run.Legs[leg].Source, run.Sizes[leg], run.Run.Legs[leg].Line.Schedule);

    /// <summary>What the leg's first end is joined to: the part at the station, the header of a stub-in, or nothing in this drawing.</summary>
    private string? HostPart(PlacedRun run, int leg)
    {
        if (leg > 0 || run.From.Run < 0)
            return run.Stations[leg].OutPart is >= 0 and var part ? parts.Of(run.Index, leg, part).Id : null;
        return BranchPart(run.From);
    }

    private string? FarPart(PlacedRun run, int leg)
    {
        if (leg == run.Directions.Length - 1 && run.TiesTo.Run >= 0)
            return BranchPart(run.TiesTo);
        return run.Stations[leg + 1].InPart is >= 0 and var part ? parts.Of(run.Index, leg + 1, part).Id : null;
    }

    private string? BranchPart((int Run, int Station) host)
    {
        var station = runs[host.Run].Stations[host.Station];
        return station.BranchPart >= 0 ? parts.Of(host.Run, host.Station, station.BranchPart).Id
            : station.Point is StubInPoint && host.Station > 0 ? inLeg[host.Run][host.Station - 1]?.Id
            : null;
    }

    private static JointKind KindOf(PipeEnd end) => end.Kind switch
    {
        EndKind.Socket => JointKind.Socket,
        EndKind.SlipOn => JointKind.Fillet,
        EndKind.Threaded => JointKind.Threaded,
        EndKind.SetOn => JointKind.Branch,
        _ => JointKind.Butt,
    };

    private Point PlaceOf(PipePiece piece, bool atStart)
    {
        var (end, at, outward) = atStart ? (piece.AtStart, piece.Start, -piece.Direction) : (piece.AtEnd, piece.End, piece.Direction);
        return end.Kind switch
        {
            EndKind.Butt => at + (outward * (Gap / 2)),
            EndKind.ButtHalfGap => at + (outward * (Gap / 2)),
            _ => at,
        };
    }

    private void Weld(JointKind kind, WeldPlace place, PlacedRun run, int leg, Point at, Vector axis, string?[] between, NominalSize size, double wall, SourceRow source, string office, bool isOutlet = false)
    {
        // A drawing that is half understood may make up nothing to nothing.
        if (Array.TrueForAll(between, id => id is null))
            return;
        joints.Add(new Joint
        {
            Id = "W" + (++welds).ToString(CultureInfo.InvariantCulture),
            Kind = kind,
            Place = place,
            Size = size,
            Wall = wall,
            Between = [.. between.OfType<string>()],
            At = at,
            Axis = axis,
            Gap = kind switch
            {
                JointKind.Butt => Gap,
                JointKind.Branch => isOutlet ? drawing.Shop.OutletGap : drawing.Shop.BranchRootGap,
                _ => 0,
            },
            Run = run.Index,
            Leg = leg,
            Source = source,
            Office = office,
        });
    }

    private void Bolt(PlacedRun run, int s)
    {
        var station = run.Stations[s];
        foreach (var b in station.Boltings)
        {
            var axis = b.Way == Way.In ? run.Directions[s - 1] : run.Directions[Math.Min(s, run.Directions.Length - 1)];
            var first = parts.Of(run.Index, s, b.First);
            joints.Add(new Joint
            {
                Id = "B" + (++bolted).ToString(CultureInfo.InvariantCulture),
                Kind = JointKind.Bolted,
                Place = WeldPlace.Field,
                Size = first.Size,
                Wall = 0,
                Between = b.Second < 0 ? [first.Id] : [first.Id, parts.Of(run.Index, s, b.Second).Id],
                At = run.Points[s] + ((b.Way == Way.In ? -axis : axis) * b.Along),
                Axis = axis,
                Gap = b.Gasket,
                Run = run.Index,
                Leg = s - 1,
                Source = station.Source,
                Class = station.Line.Class,
                ByOthers = b.ByOthers,
                ExtraGrip = b.ExtraGrip,
                SharesStuds = b.SharesStuds,
            });
        }
    }
}
