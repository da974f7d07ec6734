using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A spool seen square on from one side, to scale: pipe in double line, centrelines, joints, names and dimensions.</summary>
internal sealed class SpoolView
{
    private const double Caption = 6;

    /// <summary>Parts whose centrelines are as near to the reader as this don't hide one another, mm.</summary>
    private const double SameDepth = 5;

    /// <summary>What a view needs round its picture for names, mm.</summary>
    private const double NameRoom = 9;

    private static readonly LineStyle Outline = LineStyle.Medium;
    private static readonly LineStyle Centre = LineStyle.Thin with { Dash = Dash.Chain };
    private static readonly TextStyle CaptionStyle = TextStyle.Strong;
    private static readonly TextStyle Small = TextStyle.Small;
    private static readonly TextStyle Name = TextStyle.Small with { Bold = true };

    private readonly ViewSubject subject;
    private readonly IReadOnlyList<Silhouette> real;

    public SpoolView(ViewSubject subject, Sight sight)
    {
        (this.subject, Sight) = (subject, sight);
        real = [.. subject.Bodies.Select(b => Silhouette.Of(b, sight, Placement.None)).OrderBy(s => s.Depth)];
        var spots = real.SelectMany(s => s.Covers).SelectMany(c => c).Concat(subject.Stations.Select(sight.Of)).ToList();
        var (left, top) = (spots.Min(s => s.X), spots.Min(s => s.Y));
        Extent = new(left, top, spots.Max(s => s.X) - left, spots.Max(s => s.Y) - top);
        HiddenJoints = subject.Joints.Where(j => IsHidden(sight.Of(j.At), sight.Depth(j.At), j.Between)).Select(j => j.Id).ToHashSet(StringComparer.Ordinal);
    }

    public Sight Sight { get; }

    /// <summary>The room it takes in real millimetres.</summary>
    public Box Extent { get; }

    /// <summary>Joints that lie behind other parts.</summary>
    public IReadOnlySet<string> HiddenJoints { get; }

    /// <summary>Whether the dimensions across (or up) are in this view: each direction has them once.</summary>
    public bool ChainsAcross { get; init; }

    public bool ChainsUp { get; init; }

    /// <summary>What it would have to show and has no paper for; empty where it shows all.</summary>
    public string LeftOut { get; private init; } = "";

    /// <summary>The view without its running dimensions, which it names as left out.</summary>
    public SpoolView WithoutDimensions() => new(subject, Sight)
    {
        LeftOut = ChainsAcross || ChainsUp ? $"running dimensions of the view {Sight.Title.ToLowerInvariant()}, {(ChainsAcross ? StopsAcross().Count : 0) + (ChainsUp ? StopsUp().Count : 0)} places" : "",
    };

    /// <summary>Pipe and fittings that are seen in true length, mm.</summary>
    public double TrueLength => subject.Centrelines().Sum(l => (l.To - l.From).Length * (Math.Abs((l.To - l.From).Unit.Dot(Sight.Toward)) < 0.02 ? 1 : 0));

    /// <summary>Room on paper at a scale, 1 : <paramref name="n"/>.</summary>
    public (double Width, double Height) SizeAt(double n) =>
        (Math.Max(Math.Max(CaptionStyle.Width(Sight.Title) + Small.Width(Scale(subject.Units, n)) + SignWidth + 7, AskewRoom + LeftRoom), Math.Max(Extent.Width / n, ChainsAcross ? RunningDimensions.Along(StopsAcross()) : 0) + LeftRoom + NameRoom),
            Math.Max(Extent.Height / n, ChainsUp ? RunningDimensions.Along(StopsUp()) : 0) + Captions + NameRoom + (ChainsAcross ? RunningDimensions.Room(subject.Units, StopsAcross(), ChecksAcross) : NameRoom));

    private static double Captions => Caption + 3.5;

    private bool IsAskew(Point from, Point to) => (to - from).Unit is var way && Math.Abs(way.Dot(Sight.Toward)) < 0.005 && Math.Abs(way.Dot(Sight.Right)) > 0.02 && Math.Abs(way.Dot(Sight.Up)) > 0.02;

    private string AlongSays(double length) => RunningDimensions.Figure(subject.Units, length) + " true";

    /// <summary>Paper that the figure of a leg that lies askew needs beside it, mm.</summary>
    private double AskewRoom => subject.Legs.Where(l => IsAskew(l.From, l.To)).Select(l => Small.Width(AlongSays(l.From.To(l.To))) + 16).DefaultIfEmpty(0).Max();

    private const double SignWidth = 16;

    private double LeftRoom => Math.Max(NameRoom, ChainsUp ? RunningDimensions.Room(subject.Units, StopsUp(), ChecksUp) : 0);

    private IReadOnlyList<Stop> StopsAcross(Func<Point, Spot>? on = null) => RunningDimensions.Stops(subject.Stations.Select(s => new Stop(Sight.Of(s).X, on?.Invoke(s) ?? default, subject.IsTouched(s, Sight.Right))), s => -s.Y);

    private IReadOnlyList<CheckedLength> ChecksAcross => field ??= [.. subject.Checks.Where(c => Math.Abs(c.Way.Dot(Sight.Right)) > 0.99999).Select(c => new CheckedLength(Sight.Of(c.From).X, Sight.Of(c.To).X, c))];

    private IReadOnlyList<CheckedLength> ChecksUp => field ??= [.. subject.Checks.Where(c => Math.Abs(c.Way.Dot(Sight.Up)) > 0.99999).Select(c => new CheckedLength(-Sight.Of(c.From).Y, -Sight.Of(c.To).Y, c))];

    private IReadOnlyList<Stop> StopsUp(Func<Point, Spot>? on = null) => RunningDimensions.Stops(subject.Stations.Select(s => new Stop(-Sight.Of(s).Y, on?.Invoke(s) ?? default, subject.IsTouched(s, Sight.Up))), s => s.X);

    /// <summary>Draws it at a scale, 1 : <paramref name="n"/>.</summary>
    /// <param name="named">Names that stand in a view already; those placed here are added.</param>
    /// <param name="unplaced">Figures and names for which there was no room in this view.</param>
    public Figure Draw(double n, double width, HashSet<string> named, List<string> unplaced)
    {
        var (_, height) = SizeAt(n);
        var spare = width - (Extent.Width / n) - LeftRoom - NameRoom;
        var below = ChainsAcross ? RunningDimensions.Room(subject.Units, StopsAcross(), ChecksAcross) : NameRoom;
        var place = new Placement(1 / n, 0, 0, 1 / n, LeftRoom + (spare / 2) - (Extent.Left / n), height - below - ((Extent.Height / n) / 2) - ((height - below - Captions - NameRoom - (Extent.Height / n)) / 2) - ((Extent.Top + (Extent.Height / 2)) / n));
        var canvas = new Canvas();
        var room = new Box(0, Captions, width, height - Captions);
        var letters = new Lettering(room);
        canvas.Text(Sight.Title, new(0, CaptionStyle.Height + 0.5), CaptionStyle);
        var afterTitle = CaptionStyle.Width(Sight.Title) + 2;
        canvas.Text(Scale(subject.Units, n), new(afterTitle, CaptionStyle.Height + 0.5), Small);
        Directions(canvas, new(Math.Min(width - SignWidth, afterTitle + Small.Width(Scale(subject.Units, n)) + 4), Captions - 1.2));
        Spot On(Point p) => place.Of(Sight.Of(p));

        var shapes = subject.Bodies.Select(b => Silhouette.Of(b, Sight, place)).OrderBy(s => s.Depth).ToList();
        foreach (var group in shapes)
        {
            canvas.Group(null, "part " + group.Part, g => group.Draw(g, Outline));
            foreach (var cover in group.Covers)
                letters.BlockPipe(cover);
        }

        foreach (var (part, from, to) in subject.Centrelines())
        {
            var (a, b) = (On(from), On(to));
            if (a.To(b) > 0.5 && !IsHidden(Sight.Of(from.Toward(to, 0.5)), Sight.Depth(from.Toward(to, 0.5)), [part]))
                canvas.Line(a, b, Centre);
        }

        var visible = subject.Joints.Where(j => !HiddenJoints.Contains(j.Id)).ToList();
        foreach (var joint in visible)
            canvas.Group($"{Sight.Key}-{joint.Id}", "weld " + (joint.Kind == JointKind.Bolted ? "bolted" : joint.Place switch { WeldPlace.Shop => "shop", WeldPlace.Field => "field", _ => "final-fit" }), g => Mark(g, joint, On(joint.At), Math.Clamp(subject.RadiusAt(joint) / n, 0.6, 0.95)));
        foreach (var joint in visible.Where(j => j.IsWeld && j.Place != WeldPlace.Shop))
            letters.BlockWords(Convex.Slab(On(joint.At), joint.Place == WeldPlace.FinalFit ? 5 : 3.4, joint.Place == WeldPlace.FinalFit ? 5 : 3.4, 0));
        var picture = new Box(place.Of(new(Extent.Left, Extent.Top)).X, place.Of(new(Extent.Left, Extent.Top)).Y, Extent.Width / n, Extent.Height / n);
        var running = new RunningDimensions(canvas, letters, subject.Units, named);
        if (ChainsAcross)
            running.Across(StopsAcross(On), ChecksAcross, picture.Bottom);
        if (ChainsUp)
            running.Up(StopsUp(On), ChecksUp, picture.Left);
        Mass(canvas, letters, On(subject.Spool.CentreOfMass), named);
        foreach (var (from, to) in subject.Legs)
        {
            if (IsAskew(from, to))
                Along(canvas, letters, On(from), On(to), from.To(to), unplaced);
        }

        foreach (var cut in subject.Spool.Cuts)
            NamePiece(canvas, letters, cut, On, n, named, unplaced);
        foreach (var end in subject.Ends)
        {
            if (subject.Joints.Any(j => j.Id == end.Name) && !IsHidden(Sight.Of(end.At), Sight.Depth(end.At), [end.Part]) && Put(canvas, letters, end.Name, Name, On(end.InShop), 3, frame: true))
                named.Add(end.Name);
        }

        foreach (var s in subject.Spool.Supports)
        {
            if (!IsHidden(Sight.Of(s.Contact), Sight.Depth(s.Contact), [s.Id, s.Pipe]) && Put(canvas, letters, s.Tag, Small, On(s.Contact), 2.6, frame: false))
                named.Add(s.Tag);
        }

        // Last, where it runs through nothing: what is drawn and named comes first.
        foreach (var check in subject.Checks.Where(c => c.IsTape && !named.Contains(c.Letter) && Math.Abs(c.Way.Dot(Sight.Toward)) < Slanting))
        {
            if (Taped(canvas, letters, On(check.From), On(check.To), check.Text))
                named.Add(check.Letter);
        }

        return canvas.ToFigure(width, height);
    }

    /// <summary>Which way is up on the paper and which to the right; a plane of its own has neither.</summary>
    private void Directions(Canvas canvas, Spot corner)
    {
        string[] names = [BoltCircle.NameOf(Sight.Right), BoltCircle.NameOf(Sight.Up)];
        if (Sight.Key == "flat")
            return;
        string Short(string name) => name is "up" or "down" ? name : name[..1].ToUpperInvariant();
        canvas.Arrow(corner, corner.Moved(7, 0), LineStyle.Thin, 2.6).Arrow(corner, corner.Moved(0, -6), LineStyle.Thin, 2.6);
        canvas.Text(Short(names[0]), corner.Moved(8, Name.Height / 2), Name).Text(Short(names[1]), corner.Moved(1.6, -6 + Name.Height), Name);
    }

    /// <summary>What a scale is called: 1 : 20, or 1/2" = 1'-0".</summary>
    internal static string Scale(Units units, double n)
    {
        var inches = 12 / n;
        var sixteenths = inches * 16;
        return units == Units.Inches && Math.Abs(sixteenths - Math.Round(sixteenths)) < 1e-9 ? $"{LengthText.FeetInches(inches * LengthText.Inch)} = 1'-0\"" : string.Create(CultureInfo.InvariantCulture, $"1 : {n:0.##}");
    }

    /// <summary>Words that would stand over an end of their own dimension line, across its extension line, or whose lines would run through others.</summary>
    private const double BesideItsLine = 1000;

    /// <summary>The true length of a leg that lies askew on paper, along it.</summary>
    private void Along(Canvas canvas, Lettering letters, Spot a, Spot b, double length, List<string> unplaced)
    {
        var text = AlongSays(length);
        var (width, along) = (Small.Width(text), a.AngleTo(b));
        var turn = Upright(along);
        var seats = new List<Seat>();
        var offsets = new[] { 6, -6, 9, -9, 13, -13, 18, -18, 24, -24, 31, -31, 39, -39.0 };
        foreach (var off in offsets)
        {
            var (far, beyond) = LineOf(off);
            var runsThrough = letters.RunsThroughWords(far, beyond) || letters.RunsThroughWords(a, far) || letters.RunsThroughWords(b, beyond);
            foreach (var t in new[] { 0.5, 0.3, 0.7 })
                seats.Add(new(a.Toward(b, t).Polar(off, along + (Math.PI / 2)).Polar(-0.9 - (Small.Height / 2), turn + (Math.PI / 2)), turn, Math.Abs(off) + Math.Abs(t - 0.5) + (Math.Abs(t - 0.5) * a.To(b) + (width / 2) + 0.5 > a.To(b) / 2 || runsThrough ? BesideItsLine : 0)));
        }

        // The dimension line so far off the leg.
        (Spot From, Spot To) LineOf(double off) => (a.Polar(off, along + (Math.PI / 2)), b.Polar(off, along + (Math.PI / 2)));

        if (a.To(b) < width + 1 || letters.Take(width, Small.Height, seats, Lettering.OnLine) is not { } seat)
        {
            // Shorter than its figure, or no room beside it: at a leader.
            var round = new[] { 0.5, 0.25, 0.75, 0.05, 0.95 }.SelectMany(t => Lettering.Round(a.Toward(b, t), width, Small.Height, 3)).ToList();
            // Where the leg is no longer than the mark on it, close beside it and without one.
            var close = round.Where(s => s.Cost < 8).Select(s => s with { Leader = null });
            if ((letters.Take(width, Small.Height, round, Lettering.OnLine) ?? letters.Take(width, Small.Height, close, Lettering.OnLine) ?? letters.Take(width, Small.Height, round)) is { } aside)
                Write(canvas, text, Small, aside, 0.6);
            else
                unplaced.Add($"a leg askew, {text}");
            return;
        }

        var (p, q) = LineOf(offsets[seats.IndexOf(seat) / 3]);
        letters.BlockLine(p, q);
        canvas.Line(p, q, LineStyle.Thin).Arrowhead(p, along + Math.PI, 2.6).Arrowhead(q, along, 2.6);
        foreach (var (from, to) in new[] { (a, p), (b, q) })
        {
            letters.BlockLine(from, to);
            canvas.Line(from.Toward(to, 1 / from.To(to)), from.Toward(to, 1 + (1.2 / from.To(to))), LineStyle.Thin);
        }

        canvas.Text(text, seat.Centre.Polar(Small.Height / 2, seat.Turn + (Math.PI / 2)), Small, Anchor.Middle, seat.Turn, @class: "dimension");
    }

    /// <summary>How much a tape may run towards the reader to be shown, as a share of its length: it stands there to be found, and its figure is the true one.</summary>
    private const double Slanting = 0.4;

    // A tape from lip to lip: dashed, its letter and figure in a box on it.
    private static bool Taped(Canvas canvas, Lettering letters, Spot a, Spot b, string text)
    {
        var (width, height) = (Name.Width(text) + 2, Name.Height + 2);
        if (a.To(b) < width + 6 || letters.RunsThroughWords(a, b))
            return false;
        var seats = new[] { 0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78 }.Select(t => new Seat(a.Toward(b, t), 0, Math.Abs(t - 0.5)));
        if (letters.Take(width, height, seats, Lettering.OnLine) is not { } seat)
            return false;
        // The line ends at its box: half its width or its height off, by the way that it runs.
        var (cos, sin) = (Math.Abs(Math.Cos(a.AngleTo(b))), Math.Abs(Math.Sin(a.AngleTo(b))));
        var off = Math.Min(cos > 1e-6 ? width / 2 / cos : double.MaxValue, sin > 1e-6 ? height / 2 / sin : double.MaxValue);
        foreach (var end in (Spot[])[a, b])
        {
            var from = seat.Centre.Toward(end, off / seat.Centre.To(end));
            canvas.Line(from, end, LineStyle.Thin with { Dash = Dash.Dashed });
            letters.BlockLine(from, end);
        }

        canvas.Rectangle(new(seat.Centre.X - (width / 2), seat.Centre.Y - (height / 2), width, height), LineStyle.Thin);
        Write(canvas, text, Name, seat, 0);
        return true;
    }

    private bool IsHidden(Spot at, double depth, IReadOnlyList<string> own) =>
        real.Any(s => !own.Contains(s.Part, StringComparer.Ordinal) && s.Covering(at) && s.DepthAt(at) > depth + SameDepth);

    /// <summary>A joint's mark: shop welds a dot, field welds an open circle with a cross, final-fit welds that in a second ring; bolted joints none.</summary>
    private static void Mark(Canvas canvas, Joint joint, Spot at, double dot)
    {
        if (joint.Kind == JointKind.Bolted)
        {
            canvas.Fill(Shape.Circle(at, 0.4));
            return;
        }

        if (joint.Place == WeldPlace.Shop)
        {
            canvas.Fill(Shape.Circle(at, dot));
            return;
        }

        var style = new LineStyle(0.4, Dash.Solid, joint.Place == WeldPlace.FinalFit ? Ink.Accent : Ink.Black);
        if (joint.Place == WeldPlace.FinalFit)
            canvas.Fill(Shape.Circle(at, 2.3), Ink.White).Circle(at, 2.3, style);
        canvas.Fill(Shape.Circle(at, 1.5), Ink.White).Circle(at, 1.5, style);
        foreach (var angle in new[] { Math.PI / 4, 3 * Math.PI / 4 })
            canvas.Line(at.Polar(-1.5, angle), at.Polar(1.5, angle), style);
    }

    private static void Mass(Canvas canvas, Lettering letters, Spot at, HashSet<string> named)
    {
        const double R = 2;
        canvas.Group(null, "centre of mass", g =>
        {
            g.Fill(Shape.Circle(at, R), Ink.White).Circle(at, R, LineStyle.Thin);
            foreach (var from in new[] { 0.0, Math.PI })
                g.Fill(Shape.From(at).ArcTo(at, R, from, Math.PI / 2).Close());
        });
        letters.BlockWords(Convex.Slab(at, 2 * R, 2 * R, 0));
        if (named.Add("centre of mass"))
            PutFrom(canvas, letters, "centre of mass", Small, at, R + 1, R);
    }

    private void NamePiece(Canvas canvas, Lettering letters, Cut cut, Func<Point, Spot> on, double n, HashSet<string> named, List<string> unplaced)
    {
        var (start, end) = (cut.Pipe.Start, cut.Pipe.End);
        var (a, b) = (on(start), on(end));
        var (width, height, radius) = (Name.Width(cut.Piece), Name.Height, cut.Pipe.Outside / 2 / n);
        var isSeen = new[] { 0.5, 0.35, 0.65, 0.2, 0.8 }.Where(t => !IsHidden(Sight.Of(start.Toward(end, t)), Sight.Depth(start.Toward(end, t)), [cut.Pipe.Id])).ToList();
        if (isSeen.Count == 0)
            return;
        var seats = new List<Seat>();
        if (a.To(b) > width + 2)
        {
            var turn = Upright(a.AngleTo(b));
            var off = radius + 0.9 + (height / 2);
            foreach (var t in isSeen)
            {
                seats.Add(new(a.Toward(b, t).Polar(-off, turn + (Math.PI / 2)), turn, Math.Abs(t - 0.5)));
                seats.Add(new(a.Toward(b, t).Polar(off, turn + (Math.PI / 2)), turn, 0.2 + Math.Abs(t - 0.5)));
            }
        }

        foreach (var t in isSeen)
            seats.AddRange(Lettering.Round(a.Toward(b, t), width, height, 3).Select(s => s with { Cost = s.Cost + 3 }));
        if (letters.Take(width, height, seats, Lettering.OnLine) is not { } seat)
        {
            unplaced.Add(cut.Piece);
            return;
        }

        Write(canvas, cut.Piece, Name, seat, 0.6);
        named.Add(cut.Piece);
    }

    private static bool Put(Canvas canvas, Lettering letters, string text, TextStyle style, Spot at, double gap, bool frame)
    {
        var (width, height) = (style.Width(text) + (frame ? 1.6 : 0), style.Height + (frame ? 1.6 : 0));
        if (letters.Take(width, height, Lettering.Round(at, width, height, gap), Lettering.OnLine) is not { } seat)
            return false;
        if (frame)
            canvas.Rectangle(new(seat.Centre.X - (width / 2), seat.Centre.Y - (height / 2), width, height), LineStyle.Thin);
        Write(canvas, text, style, seat, 0);
        return true;
    }

    private static void PutFrom(Canvas canvas, Lettering letters, string text, TextStyle style, Spot at, double gap, double standOff)
    {
        if (letters.Take(style.Width(text), style.Height, Lettering.Round(at, style.Width(text), style.Height, gap), Lettering.OnLine) is { } seat)
            Write(canvas, text, style, seat with { Leader = (at.Toward(seat.Leader!.Value.To, standOff / at.To(seat.Leader.Value.To)), seat.Leader.Value.To) }, 0);
    }

    private static void Write(Canvas canvas, string text, TextStyle style, Seat seat, double dot)
    {
        if (seat.Leader is { } leader && leader.From.To(leader.To) > 1)
        {
            canvas.Line(leader.From, leader.To.Toward(leader.From, Math.Min(0.4, 0.2 / leader.From.To(leader.To))), LineStyle.Thin);
            if (dot > 0)
                canvas.Fill(Shape.Circle(leader.From, dot));
        }

        canvas.Text(text, seat.Centre.Polar(style.Height / 2, seat.Turn + (Math.PI / 2)), style, Anchor.Middle, seat.Turn);
    }

    /// <summary>The angle at which words along a line can be read from below or from the right.</summary>
    internal static double Upright(double angle)
    {
        var turn = Math.IEEERemainder(angle, Math.PI);
        return turn >= (Math.PI / 2) - 1e-6 ? turn - Math.PI : turn;
    }
}
