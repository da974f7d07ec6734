using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>What one fit-up card is made from.</summary>
/// <param name="Card">The joint in its turn, as it stands.</param>
/// <param name="Words">In the drawing's units, with the names that parts have on the other sheets.</param>
public sealed record FitUpJob(FitCard Card, FitWords Words)
{
    public FitStep Step => Card.Step;

    /// <summary>Number of joints of the spool.</summary>
    public int Of => Card.Of;

    public StandingJoint Standing => Card.Standing;

    /// <summary>A code for a camera in the card's head; null where there is none.</summary>
    public Figure? Code { get; init; }

    /// <summary>The spool's name on a page that has cards of several; empty where it is known from the page.</summary>
    public string Spool { get; init; } = "";

    /// <summary>For the packet: only the readings that together tell all, as few as that needs; what is pushed into a socket as a strip without a picture, where one of the two is a single part.
    /// All readings are on the card that is asked for alone.</summary>
    public bool IsShort { get; init; }

    internal bool IsStrip => IsShort && Step.Joint.Weld == FitWeld.Socket && (Step.Joint.HeldSide.IsSingle || Step.Joint.Brought.IsSingle);

    public FitTolerance Limits => Card.Limits;

    public IReadOnlyList<Target> Targets => Card.Targets;

    /// <summary>All that is written in: what is read at the joint, then what is read of the new part itself.</summary>
    public IReadOnlyList<Target> Fields { get; } = [.. Card.Targets, .. Card.OfPart];
}

/// <summary>
/// The fit-up card of one joint: head, picture, readings with room for the pen, words. It is as high as these need; nothing is set smaller to fit.
/// </summary>
public static partial class FitUpCard
{
    private static readonly TextStyle Fine = TextStyle.Small;
    private static readonly TextStyle FineBold = Fine with { Bold = true };

    /// <summary>Said where a joint shows nothing.</summary>
    public const string NothingToRead = "Nothing can be read at this joint: no gap is seen and no end is free. Set it by its marks; what it makes of the spool is read at the next joint and at the final check.";

    /// <summary>What holds for every card of a page.</summary>
    internal static string ForAll(Units units) =>
        $"Tacks hold nothing up: hook on until every stand carries. Clock: looking into what is brought. After the last tack read all again. end: {(units == Units.Inches ? "1/16\"" : "1 mm")} (0.1°) here is so many {(units == Units.Inches ? "sixteenths" : "mm")} at the spool's end. All readings: rootgap fit.";

    private const double PictureWidth = 44, LeastPicture = 34, BranchPicture = 40, HeadLeast = 10.6, TableHead = 4.6, RowLeast = 5.8, RowMost = 9, CodeSide = 10;

    // Columns of the readings, mm: letter, target, allowance, what it is at the end, four cells for the pen; the name takes the rest.
    private const double LetterWidth = 4, TargetWidth = 22, AllowWidth = 8.5, InchAllowWidth = 11.5, EndWidth = 7.5, PenWidth = 13;

    // So much higher a card may be for a picture that goes down to its foot, mm.
    private const double WorthOfPicture = 1;

    /// <summary>What holds for every socket of a page.</summary>
    internal static string ForSockets(FitUpJob job) =>
        $"Sockets and threads: {job.Words.IntoSocket(job.Step.Joint)}. Tack 12, read levels and tapes, tack 6, read the rest, tack 3, 9.";

    /// <summary>Height that a card needs at a width, mm.</summary>
    internal static double Needs(FitUpJob job, double width) => new Layout(job, width).Height;

    /// <summary>Height of the columns' heads, which a strip below another leaves out, mm.</summary>
    internal const double ColumnHeads = TableHead;

    /// <summary>A card as a page of its own, for the screen.</summary>
    public static Scene Scene(FitUpJob job)
    {
        const double Width = 180, Margin = 6;
        var canvas = new Canvas();
        var words = Fine.Wrap(ForAll(job.Words.Units), Width);
        var below = (words.Count * Fine.Pitch) + 1;
        var height = Math.Max(62, Needs(job, Width));
        var paper = new Paper("card", Width + (2 * Margin), height + below + (2 * Margin));
        Draw(canvas, new(Margin, Margin, Width, height), job);
        canvas.Lines(words, Margin, Margin + height + 2, Width, Fine, Anchor.Start);
        return canvas.ToScene(paper, "Fit-up " + job.Step.Joint.Name);
    }

    /// <summary>The picture of a card alone: both parts in their set-up, with clock, marks and tapes.</summary>
    public static Scene Picture(FitUpJob job)
    {
        var canvas = new Canvas();
        var paper = new Paper("picture", 110, 84);
        FitUpPicture.Draw(canvas, paper.Box.Inset(2), job.Standing, job.Targets, job.Words);
        return canvas.ToScene(paper, $"{job.Step.Joint.Name}, {job.Standing.SetUp.Word}");
    }

    public static void Draw(Canvas canvas, Box box, FitUpJob job) => Draw(canvas, box, job, withHeads: true);

    /// <param name="withHeads">Whether the columns have their heads; a strip below another needs none.</param>
    internal static void Draw(Canvas canvas, Box box, FitUpJob job, bool withHeads) => canvas.Group("card-" + job.Step.Joint.Name, "fit-up-card", g =>
    {
        var layout = new Layout(job, box.Width);
        var (head, rest) = box.CutTop(layout.HeadHeight);
        var picture = PictureOf(job);
        var (foot, body) = rest.CutBottom(layout.FootHeight);
        if (layout.IsBeside)
        {
            body = rest;
            foot = foot with { X = foot.X + picture, Width = foot.Width - picture };
        }

        g.Rectangle(box, LineStyle.Thick);
        Head(g, head, job, layout);
        g.Line(head.Left, head.Bottom, head.Right, head.Bottom, LineStyle.Medium);
        if (picture > 0)
        {
            FitUpPicture.Draw(g, body with { Width = picture }, job.Standing, [.. layout.Rows.SelectMany(r => r.Targets)], job.Words);
            g.Line(body.Left + picture, body.Top, body.Left + picture, body.Bottom, LineStyle.Thin);
        }

        Readings(g, new(body.Left + picture, body.Top, body.Width - picture, foot.Top - body.Top), job, layout, withHeads);
        g.Line(foot.Left, foot.Top, foot.Right, foot.Top, LineStyle.Medium);
        g.Lines(layout.Words, foot.Left + 2, foot.Top + 1.4, foot.Width - 4, Fine, Anchor.Start);
    });

    private static double PictureOf(FitUpJob job) => job.IsStrip ? 0 : PictureWidth;

    /// <summary>What stands on a card, wrapped to its width, and how much room it takes.</summary>
    private sealed class Layout
    {
        public Layout(FitUpJob job, double width)
        {
            NameWidth = width - PictureOf(job) - LetterWidth - TargetOf(job) - AllowOf(job) - EndWidth - (4 * PenWidth);
            var side = (job.Code is null ? 0 : CodeSide) + 3;
            TitleLeft = Math.Max(LeastTitleLeft, StepWidth + 7 + TextStyle.Heading.Width(job.Step.Joint.Name) + Math.Max(Fine.Width(KindAndSize(job)), Fine.Width(Welding(job))));
            Title = [.. FineBold.Wrap(Whole(Held(job)), width - TitleLeft - side), .. FineBold.Wrap(Whole(Brought(job)), width - TitleLeft - side)];
            HeadHeight = Math.Max(HeadLeast, (Title.Count * Fine.Pitch) + 2);
            Rows = [.. FitUpCard.Rows(job)];
            Names = [.. Rows.Select(r => Fine.Wrap(r.Name, NameWidth - 1.5))];
            Heights = [.. Rows.Zip(Names, (r, n) => Math.Max(RowLeast, ((Math.Max(n.Count, Math.Max(r.Value.Split('\n').Length, r.Allow.Split('\n').Length)) - 1) * Fine.Pitch) + Fine.Height + 1.6))];
            // Beside the picture where it is no higher so: the picture has that room too.
            var picture = PictureOf(job);
            var least = job.IsStrip ? 0 : job.Step.Joint.Weld == FitWeld.Branch ? BranchPicture : LeastPicture;
            var table = TableHead + Math.Max(Heights.Sum(), Rows.Count == 0 && !job.IsStrip ? LeastPicture / 2 : RowLeast);
            var said = Whole(Said(job, Rows));
            var (below, beside) = (Fine.Wrap(said, width - 4), Fine.Wrap(said, width - picture - 4));
            var (high, low) = (Math.Max(table, least) + FootOf(below), Math.Max(table + FootOf(beside), least));
            IsBeside = picture > 0 && low <= high + WorthOfPicture;
            Words = IsBeside ? beside : below;
            FootHeight = FootOf(Words);
            Height = HeadHeight + (IsBeside ? low : high);
        }

        private static double FootOf(IReadOnlyList<string> words) => (words.Count * Fine.Pitch) + 1.8;

        public double NameWidth { get; }

        /// <summary>What is said stands beside the picture, below the readings.</summary>
        public bool IsBeside { get; }

        /// <summary>Where what is held and brought begins, from the card's left edge.</summary>
        public double TitleLeft { get; }

        public IReadOnlyList<string> Title { get; }

        public double HeadHeight { get; }

        public IReadOnlyList<ReadingLine> Rows { get; }

        public IReadOnlyList<IReadOnlyList<string>> Names { get; }

        public IReadOnlyList<double> Heights { get; }

        public IReadOnlyList<string> Words { get; }

        public double FootHeight { get; }

        public double Height { get; }
    }

    private const double StepWidth = 16, LeastTitleLeft = 50;

    private static void Head(Canvas canvas, Box box, FitUpJob job, Layout layout)
    {
        var (step, j) = (job.Step, job.Step.Joint);
        var black = box with { Width = StepWidth };
        canvas.Fill(Shape.Rectangle(black));
        canvas.Text(job.Spool.Length == 0 ? "step" : Fine.Width("spool " + job.Spool) < StepWidth - 1 ? "spool " + job.Spool : job.Spool, black.Centre.X, black.Top + 3.9, Fine with { Ink = Ink.White }, Anchor.Middle);
        canvas.Text(Text($"{step.Number} / {job.Of}"), black.Centre.X, black.Top + 8.9, TextStyle.Strong with { Ink = Ink.White, Height = 3.2 }, Anchor.Middle);
        var name = TextStyle.Heading.Width(j.Name);
        canvas.Text(j.Name, black.Right + 2, box.Top + 7.6, TextStyle.Heading);
        var x = black.Right + 4 + name;
        canvas.Text(KindAndSize(job), x, box.Top + 4.2, Fine);
        canvas.Text(Welding(job), x, box.Top + 8.8, Fine);
        canvas.Lines(layout.Title, box.Left + layout.TitleLeft, box.Top + 1.6, box.Width, FineBold, Anchor.Start);
        if (job.Code is { } code)
            canvas.Place(code, new(box.Right - CodeSide - 0.6, box.Top + 0.5), CodeSide / Math.Max(code.Width, code.Height));
    }

    private static string KindAndSize(FitUpJob job) => $"{Kind(job.Step.Joint)}, NPS {job.Step.Joint.Size}";

    private static string Kind(FitJoint j) => j.Weld switch { FitWeld.Socket => "socket", FitWeld.SlipOn => "slip-on", FitWeld.Branch => "branch", _ => "butt" } + (j.IsWelded ? ", welded" : "");

    private static string Held(FitUpJob job)
    {
        var (standing, j) = (job.Standing, job.Step.Joint);
        var how = standing.SetUp.Attitude switch
        {
            Attitude.OnEnd => "on end",
            Attitude.Clamped => "clamped",
            _ => "level" + Lies(standing),
        };
        return $"hold {Named(job, j.Held, j.HeldSide)}, {how}{(standing.HasMarks ? $"; marks {job.Words.Place(standing.Mark)} back" : "")}";
    }

    private static string Brought(FitUpJob job)
    {
        var j = job.Step.Joint;
        return j.IsRing
            ? $"close the ring at {Name(job, j.New)}: nothing is lifted, both sides hang together"
            : $"bring {Named(job, j.New, j.Brought)}, {(j.Brought.Unknown.Count > 0 ? "at least " : "")}{job.Words.Mass(j.Brought.Mass)}{(j.Brought.Mass > 0 ? Text($", centre {job.Words.Place((j.Brought.Centre - j.Centre).Length)} from the weld") : "")}{(job.IsStrip ? Opens(job.Standing) : "")}";
    }

    // How what is held lies on the floor: by what stands farthest off the pipe that lies level. A bare pipe lies as it likes.
    private static string Lies(StandingJoint standing)
    {
        var (j, up) = (standing.Joint, standing.SetUp.Up);
        var stood = j.Both.Parts.FirstOrDefault(p => p.Id == standing.SetUp.Base) ?? j.Held;
        var about = stood.IsPipe ? j.PlaceOf(stood).Of(stood.Direction) : j.Axis;
        var from = j.PlaceOf(stood).Of(stood.Centre);
        var (off, part) = j.HeldSide.Parts.Where(p => p != stood).SelectMany(p => p.Ends.Select(e => (Off: (j.PlaceOf(p).Of(e.At) - from).SquareTo(about), Part: p))).DefaultIfEmpty((Off: Vector.Zero, Part: stood)).MaxBy(o => o.Off.Length);
        if (off.Length < Math.Max(stood.Outside, 1))
            return "";
        var over = Angles.ToDegrees(Math.Asin(Math.Clamp(off.Unit.Dot(up), -1, 1)));
        if (Math.Abs(over) > 90 - Shims)
            return $", {part.Label} {(over > 0 ? "up" : "down")}";
        var side = Math.Abs(about.Dot(standing.Axis)) < 0.9 ? " to the side" : $" toward {(off.Dot(standing.Three) > 0 ? 3 : 9)} o'clock";
        return Math.Abs(over) < Shims ? $", {part.Label} out{side}" : Text($", {part.Label} out{side}, {Math.Abs(over):0}° {(over > 0 ? "over" : "under")} level");
    }

    // Where the free end of what turns off looks, on a card that has no picture.
    private static string Opens(StandingJoint standing)
    {
        if (standing.Joint is not { Turn.IsStraight: false, Far: { } far } || standing.SetUp.Attitude == Attitude.Clamped)
            return "";
        var over = Angles.ToDegrees(Math.Asin(Math.Clamp(far.Normal.Dot(standing.SetUp.Up), -1, 1)));
        return Math.Abs(over) > 90 - Shims ? $"; its open end {(over > 0 ? "up" : "down")}" : Math.Abs(over) < Shims ? "; its open end level" : Text($"; its open end {Math.Abs(over):0}° {(over > 0 ? "over" : "under")} level");
    }

    // So near to upright or level it is called so, degrees: the readings say the rest.
    private const double Shims = 3;

    // What hangs on it by its numbers alone.
    private static string Named(FitUpJob job, FitPart part, Assembly side) =>
        Name(job, part) + (side.IsSingle ? "" : " with " + string.Join(", ", side.Parts.Where(p => p != part).Select(p => p.Label)));

    private static string Name(FitUpJob job, FitPart part) => part.IsLap ? part.Label + " stub end with its loose flange" : job.Words.NameOf(part.Id);

    // A unit is never torn from its figure at the end of a line.
    private static string Whole(string text) => Torn.Aggregate(text, (t, unit) => t.Replace(" " + unit, "\u00a0" + unit.Replace(' ', '\u00a0'), StringComparison.Ordinal));

    private static readonly string[] Torn = ["mm", "kg", "N m", "lbf ft", "lb"];

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
