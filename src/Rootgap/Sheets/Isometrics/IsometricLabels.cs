using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>All that is written on an isometric: each label with the places it can take.</summary>
internal sealed partial class IsometricLabels
{
    private readonly DrawnLine line;
    private readonly IsometricLayout layout;
    private readonly IsometricDrawing drawing;
    private readonly LabelPlacement placement;
    private readonly IReadOnlyDictionary<string, string> marks;
    private readonly List<Label> labels = [];
    private readonly List<SkewBox> boxes = [];
    private readonly Spot middle;

    private IsometricLabels(DrawnLine line, IsometricLayout layout, IsometricDrawing drawing, LabelPlacement placement, IReadOnlyDictionary<string, string> marks)
    {
        (this.line, this.layout, this.drawing, this.placement, this.marks) = (line, layout, drawing, placement, marks);
        middle = new(layout.Legs.Average(l => (l.Start.X + l.End.X) / 2), layout.Legs.Average(l => (l.Start.Y + l.End.Y) / 2));
    }

    private Units Units => line.Route.Drawing.Units;

    /// <param name="marks">Where the sheet ends: what to say, by joint.</param>
    /// <param name="withShopMarks">Whether welds, items, pieces and spools are written.</param>
    public static (IReadOnlyList<Label> Labels, IReadOnlyList<SkewBox> Boxes) Of(
        DrawnLine line, IsometricLayout layout, IsometricDrawing drawing, LabelPlacement placement, IReadOnlyDictionary<string, string> marks, bool withShopMarks)
    {
        var all = new IsometricLabels(line, layout, drawing, placement, marks);
        all.Flow();
        foreach (var leg in layout.Legs)
            all.Leg(leg);
        if (withShopMarks)
            all.JointLabels();
        all.ComponentLabels(withShopMarks);
        all.SupportLabels(withShopMarks);
        if (withShopMarks)
        {
            all.Pieces();
            all.Spools();
        }

        all.Ends();
        all.Levels();
        return (all.labels, all.boxes);
    }

    /// <summary>The shop's marks of a line, with what each says of its part and where that stands: without looking for room, in little time.</summary>
    public static IEnumerable<ShopMark> Marks(DrawnLine line, IsometricDrawing drawing)
    {
        foreach (var joint in line.Joints)
            yield return new(joint.Joint.Id, joint.Joint.Place.ToString(), drawing.At(joint));
        foreach (var c in line.Route.Components)
        {
            if (drawing.Arms[c.Id].FirstOrDefault() is { } arm)
                yield return new(c.Id, ItemTag(c.Item, c.Id).Text, arm.Near);
        }

        foreach (var cut in line.Fabrication.Cuts)
        {
            if (drawing.Arms[cut.Pipe.Id].MaxBy(a => a.From.To(a.To)) is { } arm)
                yield return new(cut.Piece, "", arm.Middle);
        }

        foreach (var spool in line.IsSpool ? [] : line.Fabrication.Spools)
        {
            if (spool.Cuts.SelectMany(c => drawing.Arms[c.Pipe.Id]).FirstOrDefault() is { } arm)
                yield return new(SheetId.OfSpool(spool.Name), "", arm.Middle);
        }
    }

    /// <summary>A length as on a drawing: no decimals where there are none.</summary>
    private string Length(double mm)
    {
        var text = LengthText.In(Units, mm);
        return Units == Units.Millimetres && text.EndsWith(".0", StringComparison.Ordinal) ? text[..^2] : text;
    }

    private void Add(string key, string inWords, TagBlock block, IReadOnlyList<Spot> anchors, double clear, double difficulty, string? row, bool arrow = false, string @class = "label", int rank = 4) =>
        labels.Add(new Label(key, block.Round(anchors, clear), difficulty,
            (canvas, at) => canvas.Group(SheetId.Of(key) + "-label", @class, g => block.Draw(g, at, arrow), row))
        { InWords = inWords, Rank = rank });

    // --- joints, components, pieces, spools

    private void JointLabels()
    {
        foreach (var joint in line.Joints)
        {
            var j = joint.Joint;
            var tags = new List<Tag> { new(j.Id, Frame.Stadium, j.Place != WeldPlace.Shop) };
            if (j.Office.Length > 0)
                tags.Add(new($"({j.Office})", Frame.None));
            if (j.Kind == JointKind.Bolted)
            {
                if (Gasket(j) is { } gasket)
                    tags.Add(ItemTag(gasket.Item, gasket.Id));
                if (Beside(j.Id, Ware.StudBolt) is { } stud)
                    tags.Add(ItemTag(stud, ""));
            }
            else if (j.Place == WeldPlace.FinalFit)
            {
                tags.Add(new("final fit", Frame.None, Bold: true, Ink.Accent));
            }

            if (j.Kind == JointKind.Branch && PadOf(j) is { } pad)
                tags.AddRange([new("pad", Frame.None), new(pad.Weld.Id, Frame.Stadium, !pad.IsOfSpool), .. pad.Item is { } item ? [ItemTag(item, "")] : Array.Empty<Tag>()]);
            List<IReadOnlyList<Tag>> rows = [tags, .. Revised(j.Id, tags)];
            if (j.Place == WeldPlace.FinalFit && LeftOn(j) is { Length: > 0 } left)
                rows.Add([new Tag(left, Frame.None, Bold: true)]);
            if (line.IsSpool && j.Between.FirstOrDefault(id => !line.Ids.Contains(id)) is { } neighbour)
                rows.Add([new Tag($"to {(line.Fabrication.SpoolOf.TryGetValue(neighbour, out var other) ? "spool " + other : Wording.NameOf(line.Fabrication, neighbour))}", Frame.None)]);
            if (marks.TryGetValue(j.Id, out var mark))
                rows.AddRange([[new Tag(mark, Frame.None, Bold: true)], [new Tag(Coordinates(j.At), Frame.None)], [new Tag(Elevation(j.At.Z), Frame.None)]]);
            if (line.Notes.TryGetValue(j.Id, out var notes))
                rows.AddRange(notes.Select(n => (IReadOnlyList<Tag>)[new Tag(n, Frame.None)]));
            if (j.MeetsExistingPipe)
                rows.AddRange([[new Tag("existing: isolated, drained,", Frame.None)], [new Tag("gas-free, held; it springs", Frame.None)]]);
            Add(j.Id, $"{j.Id}: {Wording.Between(line.Fabrication, j)}{string.Concat(rows.Skip(1).Select(r => "; " + string.Join(' ', r.Select(t => t.Text))))}", new TagBlock(rows), [drawing.At(joint)], (Symbols.MarkRadius(j) * layout.SymbolScale) + 0.2, notes is null ? 72 : 88, j.Source.Path.ToString(), rank: line.Changed.ContainsKey(j.Id) ? 1 : j.Place != WeldPlace.Shop && j.IsWeld ? 2 : 3);
        }
    }

    /// <summary>Which piece has the final-fit extra, and what is left to do where it is not here.</summary>
    private string LeftOn(Joint joint)
    {
        var cut = line.Fabrication.Cuts.Where(c => c.Extra > 0 && joint.Between.Contains(c.Pipe.Id, StringComparer.Ordinal))
            .FirstOrDefault(c => c.Pipe.ExtraAtEnd && c.Pipe.End.To(joint.At) < c.Pipe.Start.To(joint.At) || c.Pipe.ExtraAtStart && c.Pipe.Start.To(joint.At) < c.Pipe.End.To(joint.At));
        // On the header's sheet a branch that is set on at site is a hole.
        var isHole = joint.Kind == JointKind.Branch && line.IsSpool && !line.Fabrication.Cuts.Any(c => line.Ids.Contains(c.Pipe.Id) && joint.Between.Contains(c.Pipe.Id, StringComparer.Ordinal) && c.Saddle > 0);
        if (cut is null)
            return isHole ? "hole by its template" : "cut to size";
        var extra = Length(line.Route.Drawing.Shop.FinalFitExtra);
        if (line.Ids.Contains(cut.Pipe.Id))
            return $"+{extra} left on {cut.Piece}";
        // A fitting is not cut.
        return $"{(isHole ? "hole by its template, " : line.Fabrication.Cuts.Any(c => c != cut && joint.Between.Contains(c.Pipe.Id, StringComparer.Ordinal)) ? "cut to size, " : "")}+{extra} is on {cut.Piece}";
    }

    /// <summary>The listed item that goes with a part or a joint without being drawn: studs, stub ends, pads.</summary>
    private MaterialItem? Beside(string id, Ware ware) =>
        line.Fabrication.Materials.FirstOrDefault(m => m.Item is { } i && i.Words.Ware == ware && m.UsedBy.Contains(id, StringComparer.Ordinal))?.Item;

    /// <summary>The pad that lies round a branch weld; null where there is none.</summary>
    private Pad? PadOf(Joint joint) => line.Route.Pads.FirstOrDefault(p => p.At.To(joint.At) < 2000 && (joint.At - p.At).SquareTo(p.Way).Length < 5);

    private Gasket? Gasket(Joint joint) => line.Route.Components
        .OfType<Gasket>().Where(c => c.Run == joint.Run && c.Leg == joint.Leg && line.Ids.Contains(c.Id))
        .OrderBy(c => c.Ports.Average(p => p.At.To(joint.At)))
        .FirstOrDefault(c => c.Ports.Any(p => p.At.To(joint.At) <= joint.Gap + 1));

    private static Tag ItemTag(MaterialItem? item, string id) => new(item is null ? id : item.Item.ToString(CultureInfo.InvariantCulture), Frame.Circle);

    private void ComponentLabels(bool withItems)
    {
        var shown = line.Joints.Where(j => j.Joint.Kind == JointKind.Bolted).Select(j => Gasket(j.Joint)?.Id).OfType<string>().ToHashSet(StringComparer.Ordinal);
        foreach (var c in line.Route.Components.Where(c => line.Ids.Contains(c.Id) && !shown.Contains(c.Id)))
        {
            var arms = drawing.Arms[c.Id].ToList();
            if (arms.Count == 0)
                continue;
            List<Tag> tags = withItems ? [ItemTag(c.Item, c.Id)] : [];
            var words = c switch
            {
                Reducer r => Wording.Size(c) + (r.IsEccentric && r.Drawn is ReducerPoint { Flat: { } flat } ? ", flat " + Side(flat) : ""),
                MadeBend made => string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(made.Turn):0.##}°, R {LengthText.In(line.Fabrication.Units, made.Radius!.Value)}{(made.IsMitred ? string.Create(CultureInfo.InvariantCulture, $", {made.Cuts} cuts") : "")}"),
                Bent bent when Math.Abs(bent.Turn - (Math.PI / 2)) > Tolerance.Turn => string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(bent.Turn):0.##}°{(bent.IsCut ? " cut" : "")}"),
                Tee when !c.Size2.IsNone => Wording.Size(c),
                Outlet => c.Size.ToString(),
                Flange flange => Apart(flange),
                // All of them are drawn as the same box.
                { Sign: IsometricSign.Box } => c.Name,
                _ => "",
            };
            if (!withItems && words.Length == 0 && !line.Changed.ContainsKey(c.Id))
                continue;
            // A bend made of pipe is sawn, too: by the mark that the saw's list has.
            if (withItems && c is MadeBend)
                tags.AddRange(line.Fabrication.MadeBends.Where(m => m.Bend.Id == c.Id).Select(m => new Tag(m.Piece, Frame.None, Bold: true)));
            if (words.Length > 0)
                tags.Add(new(words, Frame.None));
            // The mitre welds of a bend, from its first end.
            if (withItems && c is MadeBend { IsMitred: true })
                tags.AddRange(line.Route.Seams.Where(w => w.Between[0] == c.Id).Select(w => new Tag(w.Id, Frame.Stadium)));
            if (withItems && Beside(c.Id, Ware.StubEnd) is { } stubEnd)
                tags.Add(ItemTag(stubEnd, ""));
            List<IReadOnlyList<Tag>> rows = [tags, .. Revised(c.Id, tags)];
            var (anchors, clear) = Anchors(c, arms);
            Add(c.Id, $"{c.Id} {Wording.Of(c)}: item {tags[0].Text}", new TagBlock(rows), anchors, clear, 66, c.Source.Path.ToString(), arrow: c is Bent or Tee, rank: line.Changed.ContainsKey(c.Id) ? 1 : 4);
        }
    }

    // What a flange has that nobody would take for granted: another class than the line, holes that do not straddle the usual line.
    private string Apart(Flange flange)
    {
        var holes = flange.Orientation;
        List<string> words = [];
        if (flange.RatingClass != line.Route.Drawing.Line.Class && flange.RatingClass.Length > 0)
            words.Add("class " + flange.RatingClass);
        if (holes.OnCentre || Math.Abs(holes.Turn) > Tolerance.Turn || holes.From is not null)
            words.Add($"holes {(holes.OnCentre ? "on centre" : Math.Abs(holes.Turn) > Tolerance.Turn ? string.Create(CultureInfo.InvariantCulture, $"turned {Angles.ToDegrees(holes.Turn):0.##}°") : "straddle")}{(holes.From is { } from ? $", {Side(from)} line" : "")}");
        return string.Join(", ", words);
    }

    /// <summary>A support's tag and kind; with shop marks its weld and its item too.</summary>
    private void SupportLabels(bool withShopMarks)
    {
        foreach (var (support, at, way) in drawing.Supports)
        {
            List<Tag> tags = [new(Wording.Of(support), Frame.None, Bold: true)];
            if (withShopMarks && support.Weld is { } weld)
                tags.Add(new(weld.Id, Frame.Stadium, weld.Place != WeldPlace.Shop));
            if (withShopMarks && support.Item is { } item)
                tags.Add(ItemTag(item, ""));
            Add(support.Id, $"support {Wording.Of(support)}", new TagBlock([tags]), [drawing.Foot(at, way)], 0.9, 68, support.Source.Path.ToString());
        }
    }

    private (IReadOnlyList<Spot> Anchors, double Clear) Anchors(Component c, List<IsometricDrawing.Arm> arms)
    {
        var k = layout.SymbolScale;
        switch (c.Sign)
        {
            case IsometricSign.Elbow when arms.Count == 2:
                return ([drawing.Bend(arms[0], arms[1]).Middle], 0.8);
            case IsometricSign.Elbow when arms.Count == 4:
                return ([arms[1].Far], 0.8);
            case IsometricSign.Valve or IsometricSign.Box:
                return ([arms[0].Near], 2.9 * k);
            case IsometricSign.Tee:
                return ([arms[0].Near, .. arms.Select(a => a.Middle)], 0.8);
            case IsometricSign.Flange:
                return ([arms[0].Far.Toward(arms[0].Near, 0.6)], 2 * k);
            default:
                return ([arms[0].Middle], 2.2 * k);
        }
    }

    private static string Side(Vector flat)
    {
        var parts = SkewBox.Components(flat);
        var word = parts.Count == 1 ? parts[0].Word : "as drawn";
        return word switch { "up" => "top", "down" => "bottom", "N" => "north", "S" => "south", "E" => "east", "W" => "west", _ => word };
    }

    private void Pieces()
    {
        var usual = line.Route.Drawing.Line;
        var sizes = new Dictionary<int, (NominalSize Size, string Schedule, string Material)>();
        foreach (var cut in line.Fabrication.Cuts.Where(c => line.Ids.Contains(c.Pipe.Id)))
        {
            var arms = drawing.Arms[cut.Pipe.Id].ToList();
            if (arms.Count == 0)
                continue;
            var tags = new List<Tag> { new(cut.Piece, Frame.None, Bold: true) };
            if (cut.Pipe.Item is { } item)
                tags.Insert(0, ItemTag(item, ""));
            // The size once a run, and whatever changes on the way; schedule and material where they are not what the strip says of the line.
            var (size, schedule, material) = sizes.GetValueOrDefault(cut.Pipe.Run, (default, usual.Schedule.ToString(), usual.Material));
            var own = (cut.Pipe.Size, cut.Pipe.Line.Schedule.ToString(), cut.Pipe.Line.Material);
            sizes[cut.Pipe.Run] = own;
            List<string> changes = [];
            if (size != own.Size)
                changes.Add($"NPS {own.Size}");
            if (schedule != own.Item2)
                changes.Add($"sch {own.Item2}");
            if (material != own.Material)
                changes.Add(own.Material);
            if (changes.Count > 0)
                tags.Add(new(string.Join(", ", changes), Frame.None));

            List<IReadOnlyList<Tag>> rows = [tags, .. Revised(cut.Piece, tags)];
            var longest = arms.OrderByDescending(a => a.From.To(a.To)).ToList();
            var anchors = longest.SelectMany(a => new[] { a.Middle, a.From.Toward(a.To, 0.3), a.From.Toward(a.To, 0.7) }).ToList();
            Add(cut.Piece, $"{cut.Piece}: {LengthText.In(line.Route.Drawing.Units, cut.Length)}{(line.Route.Drawing.Units == Units.Inches ? "" : " mm")}", new TagBlock(rows), anchors, 0.7, 50, line.RowOf(longest[0].On.Leg), arrow: true, rank: line.Changed.ContainsKey(cut.Piece) ? 0 : 1);
        }
    }

    /// <summary>What a revision does to a part: one word behind its name, the rest below.</summary>
    private IEnumerable<IReadOnlyList<Tag>> Revised(string name, List<Tag> tags)
    {
        if (!line.Changed.TryGetValue(name, out var changed))
            return [];
        var ink = changed.IsBad ? Ink.Accent : Ink.Black;
        if (changed.IsBad)
        {
            for (var i = 0; i < tags.Count; i++)
                tags[i] = tags[i].Text == name ? tags[i] with { Ink = ink } : tags[i];
        }

        tags.Add(new(changed.Words[0], Frame.None, Bold: true, ink));
        return changed.Words.Skip(1).Select(w => (IReadOnlyList<Tag>)[new Tag(w, Frame.None)]);
    }

    private void Spools()
    {
        if (line.IsSpool)
            return;
        foreach (var spool in line.Fabrication.Spools)
        {
            var anchors = spool.Cuts.Where(c => line.Ids.Contains(c.Pipe.Id)).SelectMany(c => drawing.Arms[c.Pipe.Id])
                .OrderByDescending(a => a.From.To(a.To)).SelectMany(a => new[] { a.Middle, a.From.Toward(a.To, 0.25), a.From.Toward(a.To, 0.75) }).Take(9).ToList();
            if (anchors.Count == 0)
                anchors = [.. spool.Components.Where(c => line.Ids.Contains(c.Id)).SelectMany(c => drawing.Arms[c.Id]).Select(a => a.Middle).Take(4)];
            if (anchors.Count > 0)
                Add(SheetId.OfSpool(spool.Name), $"spool {spool.Name}", new TagBlock([[new Tag($"Spool {spool.Name}", Frame.Rectangle, Bold: true)]]), anchors, 0.7, 58, null, @class: "spool");
        }
    }

    // --- the line as a whole

    private void Ends()
    {
        for (var r = 0; r < line.Route.Runs.Count; r++)
        {
            var placed = line.Route.Runs[r];
            if (placed.Run.Start.Ends is { } start && layout.Legs.FirstOrDefault(l => l.Leg.Run == r && l.Leg.Leg == 0 && l.Leg.HasStart) is { } first)
                End(SheetId.OfRun(r) + "-start", placed.Run.Start.Source.Path.ToString(), start, placed.Points[0], first.Start);
            if (placed.Run.Legs[^1].To is not TieInPoint && layout.Legs.FirstOrDefault(l => l.Leg.Run == r && l.Leg.Leg == placed.Run.Legs.Count - 1 && l.Leg.HasEnd) is { } last)
                End(SheetId.OfRun(r) + "-end", placed.Run.Legs[^1].Source.Path.ToString(), placed.Run.Legs[^1].To, placed.Points[^1], last.End);
        }
    }

    private void End(string id, string row, WorkPoint point, Point at, Spot on)
    {
        var words = point switch
        {
            { GoesOnIn: { } other } => "continues on " + other,
            WeldPoint => "existing line",
            OpenPoint { Ends: var ends } => "open end, " + ends switch { OpenEnds.Bevel => "bevelled", OpenEnds.Plain => "plain", _ => "threaded" },
            FlangePoint => "flange face",
            CapPoint => "cap",
            PlugPoint => "plug",
            _ => "end",
        };
        List<IReadOnlyList<Tag>> rows =
        [
            [new Tag(words, Frame.None, Bold: words.StartsWith("continues", StringComparison.Ordinal))],
            [new Tag(Coordinates(at), Frame.None)],
            [new Tag(Elevation(at.Z), Frame.None)],
        ];
        // The leader meets the end itself, or the edge of the joint's mark that stands on it.
        var marked = line.Joints.Where(j => drawing.At(j).To(on) < 0.5).Select(j => Symbols.MarkRadius(j.Joint) * layout.SymbolScale).DefaultIfEmpty(0).Max();
        Add(id, $"{id}: {words}", new TagBlock(rows), [on], Math.Max(0.8, marked + 0.2), 80, row, @class: "place", rank: 5);
    }

    private string Coordinates(Point at) => $"{(at.X < 0 ? "W" : "E")} {Length(Math.Abs(at.X))}  {(at.Y < 0 ? "S" : "N")} {Length(Math.Abs(at.Y))}";

    private string Elevation(double z) => $"EL {(z < -0.05 ? "−" : "+")}{Length(Math.Abs(z))}";

    /// <summary>The elevation wherever the line comes to a new level, and at each work point of a line that slopes.</summary>
    private void Levels()
    {
        foreach (var leg in layout.Legs)
        {
            if (leg.Leg.Leg < 0 || !leg.Leg.HasEnd)
                continue;
            var placed = line.Route.Runs[leg.Leg.Run];
            var next = leg.Leg.Leg + 1;
            if (next >= placed.Directions.Count)
                continue;
            var slopes = placed.Run.Legs[leg.Leg.Leg].Slope != 0 || placed.Run.Legs[next].Slope != 0;
            if (!slopes && (Math.Abs(leg.Leg.Direction.Z) < 0.1 || Math.Abs(placed.Directions[next].Z) >= 0.1))
                continue;
            var point = placed.Points[next];
            Add(string.Create(CultureInfo.InvariantCulture, $"{SheetId.OfLeg(leg.Leg.Run, leg.Leg.Leg)}-level"), "level", new TagBlock([[new Tag(Elevation(point.Z), Frame.None)]]), [leg.On(leg.Length)], 1, 55, line.RowOf(leg.Leg), @class: "place", rank: 5);
        }
    }

    /// <summary>Flow arrows on the longest pipe of each run and on every sixth leg.</summary>
    private void Flow()
    {
        for (var r = 0; r < line.Route.Runs.Count; r++)
        {
            if (line.Route.Runs[r].Run.FlowsAlong is not { } along)
                continue;
            var pipes = layout.Legs.Where(l => l.Leg.Run == r && l.Leg.Leg >= 0).SelectMany(l => l.Leg.Parts.Where(p => p.Pipe is not null).Select(p => (Leg: l, Span: l.Of(p)))).Where(p => p.Span.To - p.Span.From > 11).ToList();
            foreach (var group in pipes.GroupBy(p => p.Leg.Leg.Leg / 6))
            {
                var (leg, span) = group.MaxBy(p => p.Span.To - p.Span.From);
                var at = leg.On(span.From + ((span.To - span.From) * 0.62));
                var angle = Math.Atan2(leg.Unit.Y, leg.Unit.X) + (along ? 0 : Math.PI);
                var (tip, k) = (at.Polar(2.2, angle), 4.4);
                var back = tip.Polar(-k, angle);
                drawing.Canvas.Group(null, "flow", g => g.Fill(Shape.Polygon(tip, back.Polar(1.7, angle + (Math.PI / 2)), back.Polar(1.7, angle - (Math.PI / 2)))));
                placement.Block(Slab.Along(back, tip, 1.7));
            }
        }
    }
}
