using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A leg laid on paper: its direction is true, its length is free, and every part gets the room its symbol needs.</summary>
internal sealed class LegOnPaper
{
    /// <summary>Millimetres on paper that parts take at least.</summary>
    private const double Elbow = 5, Tee = 4.5, Outlet = 4.5, Reducer = 7, Flange = 2.4, Gasket = 1.4, HalfValve = 4.5, Cap = 3.4, ShortestPipe = 9, Shortest = 12;

    private readonly Cell[] cells;

    /// <summary>Paper beyond the first and the last work point: the gasket of an end flange.</summary>
    private readonly double tailBefore, tailAfter;

    private readonly IsometricView view;

    public LegOnPaper(DrawnLeg leg, IsometricView view)
    {
        this.view = view;
        Leg = leg;
        var on = view.Of(leg.Direction);
        Share = view.Share(leg.Direction);
        // A leg along the line of sight has no direction on paper: it is drawn as a short stroke to the right.
        Unit = Share > 1e-3 ? new(on.X / Share, on.Y / Share) : new(1, 0);
        Space = leg.Direction / Math.Max(Share, 0.2);
        cells = [.. leg.Parts.Select(p => new Cell(p, leg.Distance))];
        foreach (var cell in cells)
        {
            if (leg.HasStart && cell.Part.To <= 0.01)
                tailBefore += cell.Least;
            else if (leg.HasEnd && cell.Part.From >= leg.Distance - 0.01 && cell.Part.To > leg.Distance + 0.01)
                tailAfter += cell.Least;
        }

        Least = Math.Max(cells.Sum(c => c.Least) - tailBefore - tailAfter, leg.IsWhole && leg.Distance > 1 ? Shortest : 1);
        Wanted = Math.Max(Least, cells.Sum(c => c.Wanted) - tailBefore - tailAfter);
        Length = Wanted;
    }

    public DrawnLeg Leg { get; }

    public Spot ViewOf(Vector v) => view.Of(v);

    /// <summary>Direction on paper, length 1.</summary>
    public Spot Unit { get; }

    /// <summary>Part of the leg's length that the view leaves.</summary>
    public double Share { get; }

    /// <summary>Displacement in space, in the sketch's own lengths, for one millimetre on paper.</summary>
    public Vector Space { get; }

    /// <summary>Least and wished length between the ends on paper, mm.</summary>
    public double Least { get; }

    public double Wanted { get; }

    /// <summary>Length between the two ends (work points, or where the leg is cut), mm on paper.</summary>
    public double Length
    {
        get;
        set
        {
            field = value;
            Divide();
        }
    }

    /// <summary>Where the first end lies.</summary>
    public Spot Start { get; set; }

    public Spot End => Start.Moved(Unit.X * Length, Unit.Y * Length);

    /// <summary>The place on paper of a distance from the first work point, mm in the plant.</summary>
    public Spot At(double distance) => On(Along(distance));

    /// <summary>The place so many millimetres of paper from the first end.</summary>
    public Spot On(double along) => Start.Moved(Unit.X * along, Unit.Y * along);

    /// <summary>From where to where a part goes, mm of paper from the first end.</summary>
    public (double From, double To) Of(LegPart part)
    {
        foreach (var cell in cells)
        {
            if (cell.Part == part)
                return (cell.Start, cell.Start + cell.Length);
        }

        return (0, 0);
    }

    /// <summary>Millimetres of paper from the first end to a distance in the plant: joints fall on the ends of the parts they join.</summary>
    public double Along(double distance)
    {
        var best = 0.0;
        var nearest = double.MaxValue;
        foreach (var cell in cells)
        {
            if (distance > cell.Part.From && distance < cell.Part.To && cell.Part.Pipe is not null)
                return cell.Start + (cell.Length * (distance - cell.Part.From) / (cell.Part.To - cell.Part.From));
            foreach (var (s, along) in new[] { (cell.Part.From, cell.Start), (cell.Part.To, cell.Start + cell.Length) })
            {
                if (Math.Abs(s - distance) < nearest - 1e-9)
                    (nearest, best) = (Math.Abs(s - distance), along);
            }
        }

        return best;
    }

    /// <summary>Gives each part its share of the length: symbols keep their size, pipe takes what is left.</summary>
    private void Divide()
    {
        var all = Length + tailBefore + tailAfter;
        var least = cells.Sum(c => c.Least);
        var slack = all - least;
        var give = cells.Where(c => c.Wanted > c.Least).Sum(c => c.Wanted);
        var at = -tailBefore;
        foreach (var cell in cells)
        {
            cell.Start = at;
            cell.Length = slack < 0 || give == 0
                ? cell.Least * all / Math.Max(least, 0.1)
                : cell.Least + (cell.Wanted > cell.Least ? slack * cell.Wanted / give : 0);
            at += cell.Length;
        }
    }

    private sealed class Cell(LegPart part, double legLength)
    {
        public LegPart Part { get; } = part;
        public double Least { get; } = LeastOf(part, legLength);

        /// <summary>Pipe grows with the logarithm of its length: short pieces are lengthened, long ones shortened.</summary>
        public double Wanted { get; } = part.Pipe is null ? LeastOf(part, legLength) : ShortestPipe + 6 + (9 * Math.Log(1 + ((part.To - part.From) / 250)));

        public double Start { get; set; }
        public double Length { get; set; }

        private static double LeastOf(LegPart part, double legLength)
        {
            if (part.Component is not { } c)
                return ShortestPipe;
            return c.Sign switch
            {
                IsometricSign.Elbow => c is ReturnBend ? 1.5 * Elbow : Elbow,
                IsometricSign.Tee => Tee,
                IsometricSign.Outlet => Outlet,
                IsometricSign.Reducer => Reducer,
                IsometricSign.Flange => Flange,
                IsometricSign.Gasket or IsometricSign.Blind => part.From < -0.01 || part.To > legLength + 0.01 ? Gasket : Gasket / 2,
                IsometricSign.Valve or IsometricSign.Box => HalfValve,
                IsometricSign.Cap => Cap,
                _ => throw new InvalidOperationException("The family of signs is closed."),
            };
        }
    }
}
