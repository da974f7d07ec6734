using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>How a pipe's end is prepared.</summary>
/// <param name="Word">The packet's word: bevel, plain, threaded, saddle.</param>
/// <param name="Says">In full, for the cut list.</param>
public sealed record EndPreparation(string Word, string Says)
{
    /// <summary>On paper, in a word: the packet's, but for an end to be welded that is too thin to bevel.</summary>
    public string Brief { get; private init; } = Word;

    /// <param name="saddle">How a set-on end is cut to lie on its header.</param>
    /// <param name="isLeftLong">Final-fit extra is left on it: site trims it, and cuts the saddle then, since trimming would take off one cut before.</param>
    internal static EndPreparation Of(PipeEnd end, OpenEnds? free, PipePiece pipe, SaddleEnd? saddle, bool isLeftLong, Units units)
    {
        if (end.Kind != EndKind.SetOn)
            return Of(end, free, pipe.Wall, units);
        var leans = saddle is { Lean.IsSquare: false } ? LengthText.Say(units, $" at {saddle.Lean.Degrees:0.##} degrees") : "";
        var sides = saddle is { Lean.IsSquare: false } ? LengthText.Say(units, $"; over its outside the throat is {Math.Abs(saddle.Lean.Shift(pipe.Outside / 2)):len} shorter and the heel as much longer than the sum") : "";
        return isLeftLong
            ? new("saddle", $"square, the saddle{leans} is cut at site by its template when the extra comes off{sides}") { Brief = "square" }
            : new("saddle", $"saddle{leans}, cut by its template{sides}");
    }

    private static EndPreparation Of(PipeEnd end, OpenEnds? free, double wall, Units units) => end.Kind switch
    {
        EndKind.Butt or EndKind.ButtHalfGap => Bevel(wall, units),
        EndKind.Threaded => Threaded,
        EndKind.Free when free == OpenEnds.Bevel => Bevel(wall, units),
        EndKind.Free when free == OpenEnds.Threaded => Threaded,
        _ => new("plain", "square, plain"),
    };

    private static EndPreparation Threaded { get; } = new("threaded", "threaded, taper pipe thread");

    /// <summary>Of an end that is butt welded.</summary>
    internal static EndPreparation Bevel(double wall, Units units)
    {
        static double Mm(Dimension dimension, Units units) => dimension.Of(default)!.In(units);
        static string Figure(Dimension dimension) => dimension.Of(default)!.Figure.ToString("0.#", CultureInfo.InvariantCulture);
        var land = units == Units.Inches ? "1/16\"" : Figure(PipeEnds.Land);
        if (wall <= Mm(PipeEnds.SquareUpTo, units) + Tolerance.Noise)
            return new("bevel", "square or slightly chamfered (thin wall)") { Brief = "square" };
        return new("bevel", wall <= Mm(PipeEnds.CompoundOver, units) + Tolerance.Noise ? $"bevel {Figure(PipeEnds.Bevel)} degrees, land {land}" : $"compound bevel {Figure(PipeEnds.Bevel)} / {Figure(PipeEnds.UpperBevel)} degrees, land {land}");
    }
}

/// <summary>A piece of pipe to be cut, with the sum of its length.</summary>
public sealed record Cut
{
    /// <summary>Spool and letter: <c>1-A</c>.</summary>
    public required string Piece { get; init; }

    public required string Spool { get; init; }

    public required PipePiece Pipe { get; init; }

    /// <summary>Whether the saw cuts it; a nipple is bought at its length.</summary>
    public bool IsCut => Pipe.Nipple is null;

    /// <summary>What to cut, mm, shrinkage allowance and final-fit extra included: the sum of <see cref="Sum"/>.</summary>
    public required double Length { get; init; }

    /// <summary>Final-fit extra in it, mm.</summary>
    public required double Extra { get; init; }

    /// <summary>Shrinkage allowance in it, mm.</summary>
    public required double Allowance { get; init; }

    /// <summary>How its ends are cut where they are set on a header; null where an end is not.</summary>
    internal (SaddleEnd? Start, SaddleEnd? End) Saddles { get; init; }

    /// <summary>
    /// What the saw must leave besides <see cref="Length"/> at set-on ends, mm: the sum ends at the header's top, and the sides of the saddle reach farther down.
    /// </summary>
    public double Saddle => (Saddles.Start?.Deepest ?? 0) + (Saddles.End?.Deepest ?? 0);

    /// <summary>The saddles that it leaves the shop with: where final-fit extra is left on, the end is still square.</summary>
    internal (SaddleEnd? Start, SaddleEnd? End) SaddlesAsCut => (Extra > 0 && Pipe.ExtraAtStart ? null : Saddles.Start, Extra > 0 && Pipe.ExtraAtEnd ? null : Saddles.End);

    /// <summary>What the saw cuts, mm.</summary>
    public double SawLength => Length + Saddle;

    public required IReadOnlyList<Term> Sum { get; init; }

    public required EndPreparation AtStart { get; init; }

    public required EndPreparation AtEnd { get; init; }

    /// <summary>Mass of the piece as cut, kg.</summary>
    public double Mass => Math.Max(0, SawLength) * Pipes.MassPerLength(Pipe.Outside, Pipe.Wall, Metals.Density(Pipe.Line.Material));

    /// <summary>Which of its ends are welded at site: there the shrinkage allowance still stands when it leaves the shop.</summary>
    internal (bool Start, bool End) IsFieldWelded { get; init; }

    /// <summary>Its two ends as it leaves the shop, with the final-fit extra and what the field welds will draw in; of a saddle where its middle line ends, and of one that is still to be cut where the square end is.</summary>
    public (Point Start, Point End) Reach
    {
        get
        {
            var each = Extra / Math.Max(1, (Pipe.ExtraAtStart ? 1 : 0) + (Pipe.ExtraAtEnd ? 1 : 0));
            var (start, end) = ((Pipe.ExtraAtStart ? each + StillSquare.Start : 0) + (IsFieldWelded.Start ? Allowances.Start : 0), (Pipe.ExtraAtEnd ? each + StillSquare.End : 0) + (IsFieldWelded.End ? Allowances.End : 0));
            return (Pipe.Start - (Pipe.Direction * start), Pipe.End + (Pipe.Direction * end));
        }
    }

    /// <summary>What stands at each end for a saddle that site will cut, mm.</summary>
    internal (double Start, double End) StillSquare => (SaddlesAsCut.Start is null ? Saddles.Start?.Deepest ?? 0 : 0, SaddlesAsCut.End is null ? Saddles.End?.Deepest ?? 0 : 0);

    /// <summary>Shrinkage allowance at its start and at its end, mm: by so much each end stands out beyond the drawing until its weld has drawn in.</summary>
    public (double Start, double End) Allowances
    {
        get
        {
            var (start, end) = (Pipe.AtStart.ShrinkageShare, Pipe.AtEnd.ShrinkageShare);
            return start + end > 0 ? (Allowance * start / (start + end), Allowance * end / (start + end)) : (0, 0);
        }
    }

    /// <summary>The piece as it leaves the shop.</summary>
    public PipePiece AsCut => Pipe with { Start = Reach.Start, End = Reach.End };

    /// <summary>The sum of a piece: work point to work point, less what stands at both ends, less root gaps, plus allowances.</summary>
    internal static (IReadOnlyList<Term> Sum, double Extra, double Allowance) SumOf(Route route, PipePiece pipe)
    {
        var shop = route.Drawing.Shop;
        var run = route.Runs[pipe.Run];
        var sum = new List<Term>();
        for (var i = pipe.FirstLeg; i <= pipe.LastLeg; i++)
        {
            var what = pipe.FirstLeg == pipe.LastLeg
                ? "work point to work point"
                : string.Create(CultureInfo.InvariantCulture, $"leg {i + 1}, work point to {(i < pipe.LastLeg ? run.Run.Legs[i].To.Word : "work point")}");
            sum.Add(new(what, run.Distances[i], Origin.Drawing));
        }

        sum.AddRange(pipe.AtStart.TakeOff);
        sum.AddRange(pipe.AtEnd.TakeOff);
        foreach (var (end, where) in new[] { (pipe.AtStart, "start"), (pipe.AtEnd, "end") })
        {
            if (end.Gap(shop.RootGap) is > 0 and var gap)
                sum.Add(new(end.Kind == EndKind.ButtHalfGap ? $"half the root gap at the {where}" : $"root gap at the {where}", -gap, Origin.ShopRule));
        }

        // A fitting cannot be made longer: its pipe takes the whole of what the weld draws in; two pipes share it.
        var allowance = 0.0;
        foreach (var (end, where) in new[] { (pipe.AtStart, "start"), (pipe.AtEnd, "end") })
        {
            if (end.ShrinkageShare * (shop.Shrinkage ?? 0) is > 0 and var draws)
            {
                sum.Add(new(end.ShrinkageShare < 1 ? $"half the weld's shrinkage at the {where}" : $"weld shrinkage at the {where}", draws, Origin.ShopRule));
                allowance += draws;
            }
        }

        var extras = (pipe.ExtraAtStart ? 1 : 0) + (pipe.ExtraAtEnd ? 1 : 0);
        var extra = extras * shop.FinalFitExtra;
        if (extras > 0)
            sum.Add(new(extras == 1 ? $"final-fit extra at the {(pipe.ExtraAtStart ? "start" : "end")}" : "final-fit extra at both ends", extra, Origin.ShopRule));
        return (sum, extra, allowance);
    }
}
