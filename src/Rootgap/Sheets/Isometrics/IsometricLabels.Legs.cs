using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What is said of a leg: its length, its parts where it is skew, its fall, its note.</summary>
internal sealed partial class IsometricLabels
{
    // A note is broken into lines no longer than this, mm.
    private const double WidestNote = 48;

    private void Leg(LegOnPaper on)
    {
        var leg = on.Leg;
        if (leg.Leg < 0)
            return;
        var run = line.Route.Runs[leg.Run].Run;
        var id = SheetId.OfLeg(leg.Run, leg.Leg);
        var drawn = run.Legs[leg.Leg];
        var (from, to) = (leg.HasStart ? 0 : Torn(leg, leg.DimensionFrom, leg.Parts[0]), leg.HasEnd ? leg.Distance : Torn(leg, leg.DimensionTo, leg.Parts[^1]));
        var vector = leg.Direction * leg.Distance;
        var isSkew = drawn.Slope == 0 && SkewBox.IsNeeded(vector);
        var place = string.Create(CultureInfo.InvariantCulture, $"{run.Name}, leg {leg.Leg + 1}");
        if (!line.IsSpool && to - from > 1 && (leg.IsWhole || to - from > 20))
        {
            // A leg that falls is measured level. Where the sheet ends within the leg: to the joint there, and once the whole.
            var level = Math.Sqrt((vector.X * vector.X) + (vector.Y * vector.Y));
            var (share, along) = drawn.Slope != 0 && level > 1 ? (level / leg.Distance, " level") : (1, "");
            var whole = Length(leg.Distance * share);
            var text = leg.IsWhole || marks.Count == 0 ? Length((to - from) * share) + along : $"{Length(Rounded(to * share) - Rounded(from * share))}{along} ({whole} whole)";
            if (leg.IsWhole && isSkew)
                text += " true";
            else if (leg.IsWhole && along.Length > 0)
                text += $", {(vector.Z < 0 ? "fall" : "rise")} {Length(Math.Abs(vector.Z))}";
            Dimension(id, $"{place}: {text}", on, text);
        }

        if (!line.IsSpool && leg.HasEnd && drawn.Note.Length > 0)
            Add(id + "-note", $"{place}: {drawn.Note}", new TagBlock([.. TextStyle.Small.Wrap(drawn.Note, WidestNote).Select(words => (IReadOnlyList<Tag>)[new Tag(words, Frame.None)])]), NotePlaces(on, drawn), 0.8, 64, line.RowOf(leg), arrow: true);
        if (isSkew)
            Skew(id, place, on, vector);
        else if (drawn.Slope != 0)
            Slope(id, place, on, drawn);
        else if (SkewBox.Components(vector) is { Count: > 1 } parts)
            Add(id + "-off", place, new TagBlock([[new Tag(string.Join(", ", parts.Skip(1).Select(p => $"{Length(p.Mm)} {p.Word}")), Frame.None)]]), [on.On(on.Length / 2)], 0.8, 45, line.RowOf(leg), arrow: true, rank: 0);
    }

    /// <summary>Where the sheet ends within a leg: in the middle of the joint there, mm from the leg's first work point. What stands on the two sheets makes the leg, and fits the joint's coordinates.</summary>
    /// <param name="steel">Where the steel on this sheet ends.</param>
    private double Torn(DrawnLeg leg, double steel, LegPart last) => line.Joints
        .Where(j => j.Leg == leg && marks.ContainsKey(j.Joint.Id) && j.Joint.Between.Contains(last.Id, StringComparer.Ordinal))
        .Select(j => (j.Joint.At - leg.Origin).Dot(leg.Direction)).DefaultIfEmpty(steel).MinBy(at => Math.Abs(at - steel));

    /// <summary>As it is printed: parts of a leg are differences of rounded places, so that they add up to the rounded whole.</summary>
    private double Rounded(double mm) => Units == Units.Inches ? LengthText.Sixteenths(mm) * LengthText.Inch / 16 : LengthText.Rounded(mm, 1);

    /// <summary>What is said of a point on the pipe is said there; of anything else, along the leg.</summary>
    private static Spot[] NotePlaces(LegOnPaper on, Leg drawn) => drawn.To is DimensionPoint ? [on.End] : [on.On(on.Length / 2), on.On(on.Length * 0.3), on.On(on.Length * 0.7)];

    private void Dimension(string id, string inWords, LegOnPaper on, string text)
    {
        var places = new DimensionPlaces(on.On(0), on.On(on.Length), Off(on, on.Leg.DimensionFrom), Off(on, on.Leg.DimensionTo), text, layout.View, middle);
        labels.Add(new Label(id, places.OrAtLeader(), 100 - Math.Min(30, on.Length * 0.3),
            (canvas, at) => canvas.Group(id, "dimension", g => places.Draw(g, at), line.RowOf(on.Leg)))
        { InWords = inWords, Stays = true });
    }

    /// <summary>Extension lines begin beyond the flange or valve that stands at a work point.</summary>
    private double Off(LegOnPaper on, double at) =>
        on.Leg.Parts.Any(p => p.Component?.Sign is IsometricSign.Valve or IsometricSign.Box or IsometricSign.Flange or IsometricSign.Gasket or IsometricSign.Blind or IsometricSign.Reducer or IsometricSign.Cap && (Math.Abs(p.From - at) < 5 || Math.Abs(p.To - at) < 5))
            ? (Symbols.HalfHigh * layout.SymbolScale) + 0.9 : 1.3;

    private void Skew(string id, string place, LegOnPaper on, Vector vector)
    {
        var parts = SkewBox.Components(vector);
        var unseen = parts;
        if (on.Leg.IsWhole && layout.View.Share(on.Leg.Direction) > 0.3 && SkewBox.Of(on, layout.View, Obstruction) is { } box)
        {
            boxes.Add(box);
            foreach (var (a, b, mm, word) in box.Edges)
            {
                placement.Block(a, b, 0.2, Occupant.Line);
                Edge($"{id}-{word}", place, line.RowOf(on.Leg), a, b, $"{Length(mm)} {word}");
            }

            foreach (var (a, b) in box.HatchLines)
                placement.Block(a, b, 0.1, Occupant.Background);
            unseen = [.. parts.Where(p => box.Edges.All(e => e.Word != p.Word))];
        }

        if (unseen.Count > 0)
            Add(id + "-parts", place, new TagBlock([.. unseen.Select(p => (IReadOnlyList<Tag>)[new Tag($"{Length(p.Mm)} {p.Word}", Frame.None)])]), [on.On(on.Length / 2)], 0.8, 60, line.RowOf(on.Leg), arrow: true, rank: 0);
    }

    /// <summary>How much of what is drawn an edge would run over.</summary>
    private double Obstruction(Spot a, Spot b) => !placement.IsInside(a) || !placement.IsInside(b) ? double.PositiveInfinity : layout.Legs.Sum(l =>
    {
        if (Strokes.Crossing(a, b, l.Start, l.End) is { } c && c.First is > 0.02 and < 0.98)
            return 2.0;
        return Strokes.Distance(a.Toward(b, 0.5), l.Start, l.End) < 1.5 ? 5 : 0;
    });

    private void Edge(string id, string place, string? row, Spot a, Spot b, string text)
    {
        var block = new TagBlock([[new Tag(text, Frame.None)]]);
        var style = TextStyle.Small;
        var turn = DimensionPlaces.Upright(a.AngleTo(b));
        var places = new LeaderAfter(new AlongEdge(a, b, turn, (style.Width(text) / 2) + 0.2), block.Round([a.Toward(b, 0.5), a.Toward(b, 0.25), a.Toward(b, 0.75)], 0.5), 12);
        labels.Add(new Label(id, places, 92, (canvas, at) => canvas.Group(id, "dimension", g =>
        {
            if (at.AtLeader)
                block.Draw(g, at, arrow: true);
            else
                g.Text(text, at.Words.Centre.Polar(1.25, turn + (Math.PI / 2)), style, Anchor.Middle, turn);
        }, row))
        { InWords = $"{place}: {text}" });
    }

    /// <summary>The ratio of a fall, once for legs that fall one behind the other: on the longest of them on the sheet. The level length and the fall of each stand at its dimension.</summary>
    private void Slope(string id, string place, LegOnPaper on, Leg drawn)
    {
        var run = line.Route.Runs[on.Leg.Run].Run;
        bool Goes(int leg) => Math.Abs(run.Legs[leg].Slope - drawn.Slope) < 1e-9;
        var (first, last) = (on.Leg.Leg, on.Leg.Leg);
        while (first > 0 && Goes(first - 1))
            first--;
        while (last < run.Legs.Count - 1 && Goes(last + 1))
            last++;
        if (layout.Legs.Where(l => l.Leg.Run == on.Leg.Run && l.Leg.Leg >= first && l.Leg.Leg <= last).MaxBy(l => l.Length) != on)
            return;
        // A wedge, low where the line is low on the sheet.
        var fallsAlong = on.Leg.Direction.Z < 0;
        var wedge = (on.Unit.X > 0) == fallsAlong ? "◣" : "◢";
        var text = string.Create(CultureInfo.InvariantCulture, $"{wedge} {(fallsAlong ? "fall" : "rise")} 1:{1 / Math.Abs(drawn.Slope):0.#}");
        Add(id + "-slope", $"{place}: {text}", new TagBlock([[new Tag(text, Frame.None)]]), [on.On(on.Length / 2), on.On(on.Length * 0.3), on.On(on.Length * 0.7)], 0.8, 45, line.RowOf(on.Leg), arrow: true);
    }
}
