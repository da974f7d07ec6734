using System.Globalization;
using Rootgap.Drawings;

namespace Rootgap.Routes;

/// <summary>What stands on a pipe and parts nothing: supports, pads and the welds within mitred bends.</summary>
internal sealed partial class PipeLaying
{
    /// <summary>The mitre welds of a bend.</summary>
    private void Put(MadeBend bend, PlacedRun run, int leg)
    {
        foreach (var (at, axis) in bend.MitreWelds)
        {
            seams.Add(new()
            {
                Id = "A" + (++attached).ToString(CultureInfo.InvariantCulture),
                Kind = JointKind.Butt,
                Place = WeldPlace.Shop,
                Size = bend.Size,
                Wall = bend.Wall,
                Between = [bend.Id, bend.Id],
                At = at,
                Axis = axis,
                Gap = Gap,
                Run = run.Index,
                Leg = leg,
                Source = bend.Source,
            });
        }
    }

    private void Put(SupportPoint drawn, PlacedRun run, int leg, PipePiece pipe)
    {
        var row = run.Run.Legs[leg];
        var support = new Support
        {
            Id = "PS" + (supports.Count + 1).ToString(CultureInfo.InvariantCulture),
            Drawn = drawn,
            Size = pipe.Size,
            Line = row.Line with { Size = pipe.Size },
            Outside = pipe.Outside,
            Wall = pipe.Wall,
            Run = run.Index,
            Leg = leg,
            Source = row.Source,
            Pipe = pipe.Id,
            At = run.Points[leg + 1],
            Along = run.Directions[leg],
        };
        var item = row.Item is { } number ? drawing.Materials.FirstOrDefault(m => m.Item == number) : ItemSearch.Find(drawing.Materials, support);
        support = support with { Item = item, IsItemGuessed = item is not null && row.Item is null };
        supports.Add(!drawn.IsWelded ? support : support with
        {
            Weld = new()
            {
                Id = "A" + (++attached).ToString(CultureInfo.InvariantCulture),
                Kind = JointKind.Attachment,
                Place = drawn.IsWeldedAtSite ? WeldPlace.Field : WeldPlace.Shop,
                Size = pipe.Size,
                Wall = pipe.Wall,
                Between = [pipe.Id, support.Id],
                At = support.Contact,
                Axis = support.Side ?? support.Along,
                Gap = 0,
                Run = run.Index,
                Leg = leg,
                Source = row.Source,
                Office = row.EndNumber,
            },
        });
    }

    private void Put(StubInPoint drawn, PlacedRun run, int leg, PipePiece header)
    {
        var row = run.Run.Legs[leg];
        var way = drawn.Branch.Unit;
        var id = "RP" + (pads.Count + 1).ToString(CultureInfo.InvariantCulture);
        // Where the branch is set on at site, so is its pad.
        var branch = drawn.Name is { } name ? drawing.Runs.FirstOrDefault(r => r.Start.From == name) : null;
        var item = row.Item is { } number ? drawing.Materials.FirstOrDefault(m => m.Item == number) : drawing.Materials.FirstOrDefault(m => m.Words.Ware == Ware.Pad && Pad.IsRowOf(m, drawn.Size));
        pads.Add(new Pad
        {
            Id = id,
            Size = drawn.Size,
            Line = row.Line,
            Outside = header.Outside,
            Wall = header.Wall,
            Run = run.Index,
            Leg = leg,
            Source = row.Source,
            Pipe = header.Id,
            Branch = drawn.Name,
            At = run.Points[leg + 1],
            Way = way,
            Lean = Lean.Of(run.Directions[leg], way),
            Hole = book.Outside(row.Source, drawn.Size),
            Width = drawn.PadWidth,
            Thickness = drawn.PadThickness ?? header.Wall,
            Item = item,
            IsItemGuessed = item is not null && row.Item is null,
            Weld = new()
            {
                Id = "A" + (++attached).ToString(CultureInfo.InvariantCulture),
                Kind = JointKind.Attachment,
                Place = branch?.Legs[0].Begin is null or WeldPlace.Shop ? WeldPlace.Shop : WeldPlace.Field,
                Size = drawn.Size,
                Wall = drawn.PadThickness ?? header.Wall,
                Between = [header.Id, id],
                At = run.Points[leg + 1] + (way * Lean.Of(run.Directions[leg], way).Along(header.Outside / 2)),
                Axis = way,
                Gap = 0,
                Run = run.Index,
                Leg = leg,
                Source = row.Source,
            },
        });
    }
}
