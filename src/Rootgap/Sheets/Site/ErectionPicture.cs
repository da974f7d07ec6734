using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Site;
using Rootgap.Site.Erection;

namespace Rootgap.Sheets;

/// <summary>A small isometric of one step: what stands is heavy, what goes up now is ringed, what comes later is thin. As on the screens: weight is state.</summary>
public static class ErectionPicture
{
    private static readonly LineStyle Later = new(0.25, Dash.Solid, Ink.Grey);
    private static readonly LineStyle Standing = new(0.9);
    private static readonly LineStyle Now = new(0.9, Dash.Solid, Ink.Accent);

    private static readonly TextStyle Name = new(2.5, Bold: true);

    /// <param name="at">Index of the step.</param>
    public static Figure Of(SiteLine line, IReadOnlyList<ErectionStep> steps, int at, double width, double height)
    {
        var canvas = new Canvas();
        var rest = new Box(16, 0, width - 16, height);
        var box = rest.Inset(6, 5);
        var sight = new LineSight(line.Fabrication, Strokes(line, line.Bodies.Where(b => !b.IsOutside)).SelectMany(s => new[] { s.From, s.To }).ToList(), box);
        var up = steps.Take(at).Select(s => s.Body?.Body).OfType<SiteBody>().ToHashSet();
        var step = steps[at];
        foreach (var body in line.Bodies.Where(b => !b.IsOutside && b != step.Body?.Body))
            Draw(canvas, sight, line, body, up.Contains(body) ? Standing : Later);
        var names = new NamesBeside(canvas, new(0, 0, width, height), [
            .. line.Bodies.Where(b => !b.IsOutside).SelectMany(b => Strokes(line, [b]).Select(s => Slab.Along(sight.On(s.From), sight.On(s.To), b == step.Body?.Body ? 2.2 : 0.8)))]);
        names.Keep(new(0, 0, 15, 13));
        if (step.Body is { } now)
        {
            // The ring first, the pipe white within it, so that it shows on a black-and-white printer too.
            Draw(canvas, sight, line, now.Body, new LineStyle(3.6, Dash.Solid, Ink.Accent));
            Draw(canvas, sight, line, now.Body, new LineStyle(2.9, Dash.Solid, Ink.White));
            Draw(canvas, sight, line, now.Body, Now);
            foreach (var (support, _) in step.RestsOn)
                Support(canvas, names, sight, support);
            foreach (var stand in step.Stands ?? [])
                Stand(canvas, names, sight.On(stand.At));
            Centre(canvas, names, sight.On(now.Centre));
        }

        foreach (var support in step.Sets)
            Support(canvas, names, sight, support);
        foreach (var joint in step.Closes is { } closes ? [closes] : step.Joints)
            Joint(canvas, names, sight.On(joint.Joint.At), joint);
        names.Place();
        sight.Compass(canvas, new(1, 2));
        return canvas.ToFigure(width, height);
    }

    private static void Draw(Canvas canvas, LineSight sight, SiteLine line, SiteBody body, LineStyle style)
    {
        foreach (var (from, to) in Strokes(line, [body]))
            canvas.Line(sight.On(from), sight.On(to), style);
    }

    private static IEnumerable<(Point From, Point To)> Strokes(SiteLine line, IEnumerable<SiteBody> bodies) =>
        LineSight.Strokes(bodies.SelectMany(b => b.Parts).Select(line.Fabrication.Route.PartOf).OfType<Part>());

    private static void Joint(Canvas canvas, NamesBeside names, Spot at, SiteJoint joint)
    {
        canvas.Fill(Shape.Circle(at, 1.5), Ink.White);
        canvas.Circle(at, 1.5, LineStyle.Medium);
        if (joint.IsFinalFit)
            canvas.Circle(at, 2.2, LineStyle.Medium);
        names.Keep(new(at.X - 2.2, at.Y - 2.2, 4.4, 4.4));
        names.Add(at, joint.Id, Name);
    }

    /// <summary>One of the drawing's own: as on its isometric, black, with its tag.</summary>
    private static void Support(Canvas canvas, NamesBeside names, LineSight sight, Routes.Support support)
    {
        var at = sight.On(support.At);
        var isHung = support.Drawn.Kind == Drawings.SupportKind.Hanger;
        Symbols.Support(canvas, at, new(0, isHung ? -1 : 1), isHung, 1.1);
        var foot = at.Moved(0, isHung ? -3 : 3);
        names.Keep(new(foot.X - 3.2, foot.Y - 3, 6.4, 6));
        names.Add(foot, support.Tag, Name);
    }

    private static void Stand(Canvas canvas, NamesBeside names, Spot at)
    {
        names.Keep(new(at.X - 2.8, at.Y, 5.6, 4.6));
        canvas.Fill(Shape.Polygon(at.Moved(0, 0.8), at.Moved(-1.8, 4.2), at.Moved(1.8, 4.2)), Ink.White);
        canvas.Stroke(Shape.Polygon(at.Moved(0, 0.8), at.Moved(-1.8, 4.2), at.Moved(1.8, 4.2)), LineStyle.Medium);
        canvas.Line(at.Moved(-2.6, 4.2), at.Moved(2.6, 4.2), LineStyle.Medium);
    }

    /// <summary>A round with two black quarters: the centre of mass.</summary>
    private static void Centre(Canvas canvas, NamesBeside names, Spot at)
    {
        names.Keep(new(at.X - 1.8, at.Y - 1.8, 3.6, 3.6));
        canvas.Fill(Shape.Circle(at, 1.6), Ink.White);
        canvas.Fill(Shape.From(at).LineTo(at.Moved(0, -1.6)).ArcTo(at, 1.6, -Math.PI / 2, Math.PI / 2).Close());
        canvas.Fill(Shape.From(at).LineTo(at.Moved(0, 1.6)).ArcTo(at, 1.6, Math.PI / 2, Math.PI / 2).Close());
        canvas.Circle(at, 1.6, LineStyle.Medium);
    }
}
