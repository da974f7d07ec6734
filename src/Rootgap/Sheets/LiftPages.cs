using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>The lifting card of a spool, half a page: where slings are made fast, what they carry, how it hangs.</summary>
internal static class LiftPages
{
    private static readonly TextStyle Style = TextStyle.Small;
    private const double Pad = 2.5, LeastPicture = 46, SlingShare = 1.75;

    /// <summary>The card of a spool that weighs enough, or for which the drawing gives places; none for others.</summary>
    public static Figure? Card(ShopJob job, Spool spool, double width) => Lift.IsAsked(job.Fabrication, spool) ? One(job, Lift.Of(job.Fabrication, spool), width) : null;

    /// <summary>The card of a spool that has one, in its frame.</summary>
    public static Figure Framed(ShopJob job, Spool spool, double width)
    {
        var card = One(job, Lift.Of(job.Fabrication, spool), width);
        var canvas = new Canvas();
        Draw(canvas, new(0, 0, width, card.Height), card);
        return canvas.ToFigure(width, card.Height);
    }

    /// <summary>A card in its frame, at its upper left.</summary>
    public static void Draw(Canvas canvas, Box box, Figure card) => canvas.Place(card, new(box.X, box.Y)).Rectangle(box, LineStyle.Thick);

    private static Figure One(ShopJob job, Lift lift, double width)
    {
        var (f, units) = (job.Fabrication, job.Fabrication.Units);
        var inner = Flow.Column(width - (2 * Pad), flow =>
        {
            flow.Paragraph($"Lifting spool {lift.Spool.Name}: reckoned {LiftWords.Mass(units, lift.Spool.Mass)}, with a tenth more {LiftWords.Mass(units, lift.Mass)}, weighed ________", TextStyle.Strong with { Height = 3 });
            if (lift.Spool.Unweighed.Count > 0)
                flow.Paragraph("Mass not whole. " + LiftWords.LeavesOut(f, lift.Spool), TextStyle.Strong with { Height = 3 });
            void Slings(Flow right)
            {
                if (lift.Holds.Count > 0)
                    right.Table(new Table(
                    ["", new("sling at", ColumnWidth.Share()), new("leg", Anchor.End), new("to level", Anchor.End), new("lifts", Anchor.End), new("pull", Anchor.End)],
                    lift.Holds.Select(h => new Row(
                        new Cell(h.Name) { Bold = true }, LiftWords.Where(f, h), h.Leg is { } leg ? LiftWords.Length(units, leg) : "drawn up",
                        h.ToLevel is { } angle ? string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(angle):0}°") : "",
                        LiftWords.Mass(units, h.Lifts), new Cell(h.Pull is { } pull ? LiftWords.Mass(units, pull) : "") { Bold = true })))
                    { Style = Style });
                var places = lift.Holds.Count == 0 ? "" : $"{(lift.IsProposed ? "Places proposed by the program" : "Places as the drawing gives them")}; lifts and pulls with the tenth more. {LiftWords.Choked} ";
                List<string> said = [.. lift.HookUp is { } up ? [$"Hook {LiftWords.Length(units, up)} up."] : Array.Empty<string>(), .. LiftWords.Of(lift, units).Where(l => !l.StartsWith("IT ", StringComparison.Ordinal)),
                    places + LiftWords.LeavesOut(f, lift.Spool)];
                foreach (var line in LiftWords.Of(lift, units).Where(l => l.StartsWith("IT ", StringComparison.Ordinal)))
                    right.Paragraph(line, TextStyle.Strong);
                right.Paragraph(string.Join(" ", said), Style);
                right.Paragraph(LiftWords.Line, Style with { Bold = true });
            }

            // The picture has the height of what stands beside it.
            if (lift.Holds.Count > 0 && lift.Spool.Cuts.Count + lift.Spool.Components.Count <= SpoolSheet.MostDrawn)
                flow.Beside((1, left => left.Figure(LiftPicture.Of(lift, units, left.Width, Math.Max(LeastPicture, Flow.Column((flow.Width - 6) * SlingShare / (1 + SlingShare), Slings).Height)))), (SlingShare, Slings));
            else
                Slings(flow);
            flow.LowFields(3, new Field("Slings seen"), new Field("Lifted by"), new Field("Set down, date"));
        });
        var canvas = new Canvas();
        canvas.Place(inner, new(Pad, Pad));
        return canvas.ToFigure(width, inner.Height + (2 * Pad));
    }
}
