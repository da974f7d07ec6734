using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Forecasting;

/// <summary>A forecast in plain words: what may be out where, and what takes it up.</summary>
/// <param name="units">In which lengths are said.</param>
public sealed class ForecastWords(Units units)
{
    /// <summary>The errors of which so many hundredths of a variance come are named.</summary>
    private const double WorthNaming = 0.1;

    public IEnumerable<string> Of(Forecast forecast)
    {
        foreach (var closing in forecast.Closings)
        {
            foreach (var line in Of(closing))
                yield return line;
        }

        foreach (var line in forecast.AsDrawn is { } drawn ? OfDrawn(drawn) : [])
            yield return line;
        foreach (var loop in forecast.Rigid)
        {
            foreach (var line in Of(loop))
                yield return line;
        }

        if (forecast.Closings.Count == 0 && forecast.Rigid.Count == 0)
            yield return "No way leads from one thing outside the drawing to another: nothing has to close, so there is nothing to forecast.";
    }

    /// <summary>What the drawing alone would have, beside what was measured.</summary>
    public IEnumerable<string> OfDrawn(Forecast drawn) => drawn.Closings.Select(c =>
        Say($"{c.Opening.Joint.Id} by the drawing alone: within {c.Opening.Length95:len} along, {c.Opening.Across95X:len} and {c.Opening.Across95Y:len} across; extra needed {c.ExtraNeeded:len}; closes in {100 * c.Closes:0.#} of 100"));

    /// <summary>A final-fit weld: along, across, tilt, chance, what matters, what would better it.</summary>
    public IEnumerable<string> Of(ForecastClosing closing)
    {
        var o = closing.Opening;
        yield return $"{o.Joint.Id}, final fit, between {Ends(o)}:";
        if (o.Known != PoseError.None)
            yield return Say($"  as built it stands {o.Known.Z:off} along ({Compass.One(o.Axes.Along)}), {o.Known.X:off} {Compass.One(o.Axes.Three)}, {o.Known.Y:off} {Compass.One(o.Axes.Twelve)} already; what follows counts it");
        yield return Say($"  along the pipe ({Compass.Both(o.Axes.Along)}): within {o.Length95:len} in 95 of 100; {Extra(closing)}");
        yield return Across(o.Axes.Three, o.Across95X, o.TakenUpX);
        yield return Across(o.Axes.Twelve, o.Across95Y, o.TakenUpY);
        yield return Say($"  tilt: within {Angles.ToDegrees(o.Tilt95):0.00} degree in 95 of 100, before the joints on the way are set");
        foreach (var line in Missing(o))
            yield return line;
        if (closing.Closes is { } closes)
            yield return Say($"  closes in {100 * closes:0.#} of 100 when bolted joints and field welds on the way are set as best");
        foreach (var better in closing.Better)
            yield return Say($"  better: {better.What}: {100 * better.Closes:0.#} of 100");
        foreach (var line in Matters(o))
            yield return line;
    }

    /// <summary>A loop that nothing can be cut on.</summary>
    public IEnumerable<string> Of(ForecastOpening loop)
    {
        yield return $"{Ends(loop)}: no final-fit weld between them; at {loop.Joint.Id} before it is made:";
        yield return Say($"  along ({Compass.Both(loop.Axes.Along)}): within {loop.Length95:len} in 95 of 100; nothing is cut there");
        yield return Across(loop.Axes.Three, loop.Across95X, loop.TakenUpX);
        yield return Across(loop.Axes.Twelve, loop.Across95Y, loop.TakenUpY);
        foreach (var line in Missing(loop))
            yield return line;
        foreach (var line in Matters(loop))
            yield return line;
    }

    private string Extra(ForecastClosing c) => c.Extra <= 0
        ? Say($"no pipe is left long, and {c.ExtraNeeded:len} is needed")
        : c.Extra < c.ExtraNeeded
            ? Say($"the {c.Extra:len} left on is too little, {c.ExtraNeeded:len} is needed (99 of 100)")
            : Say($"the {c.Extra:len} left on takes it; {c.ExtraNeeded:len} is enough for 99 of 100");

    private string Across(Vector direction, double out95, double taken)
    {
        var what = Say($"  {Compass.Both(direction)}: may stand {out95:len} either way; ");
        return what + (taken < 0.5 ? "nothing takes that" : taken >= out95 ? Say($"bolted joints and welds on the way take up {taken:len}: enough") : Say($"bolted joints and welds on the way take up {taken:len} of it"));
    }

    // How much is out across the pipe is said above; only what lies askew to that has figures of its own.
    private IEnumerable<string> Missing(ForecastOpening o) => o.Missing.Select(m =>
        $"  {Compass.Both(m.Direction)} no final-fit weld takes up what is out{(Math.Max(Math.Abs(m.Direction.Dot(o.Axes.Three)), Math.Abs(m.Direction.Dot(o.Axes.Twelve))) > 0.999 ? "" : Say($" ({m.Opening95:len} may be out, joints take up {m.TakenUp:len})"))}; one on {RowPath.Legs(m.Legs.Select(l => l.Path), run => FormattableString.Invariant($"run {run + 1}"))} would");

    private IEnumerable<string> Matters(ForecastOpening o)
    {
        (string Of, Vector Direction)[] three = [("z", o.Axes.Along), ("x", o.Axes.Three), ("y", o.Axes.Twelve)];
        foreach (var (of, direction) in three)
        {
            var most = Matters(o, of, WorthNaming).Take(3).Select(s => Say($"{s.What} {100 * s.Share:0} %")).ToList();
            if (most.Count > 0)
                yield return $"  what matters {Compass.Both(direction)}: {string.Join(", ", most)}";
        }

        if (o.WhyNot.Length > 0)
            yield return "  " + o.WhyNot;
    }

    /// <summary>What a component of the opening comes from, greatest share first: errors of one place that a fitter would call the same are one.</summary>
    /// <param name="of">x to rz.</param>
    /// <param name="least">Smaller shares are left out.</param>
    public static IEnumerable<(string What, double Share)> Matters(ForecastOpening o, string of, double least) =>
        o.Shares.Where(s => s.Of == of).GroupBy(s => Source(s.At, s.Error), StringComparer.Ordinal).Select(g => (What: g.Key, Share: g.Sum(s => s.Share)))
            .Where(s => s.Share >= least).OrderByDescending(s => s.Share);

    /// <summary>An error's source as a fitter calls it.</summary>
    private static string Source(string at, string error)
    {
        var isTurn = error.EndsWith("rx", StringComparison.Ordinal) || error.EndsWith("ry", StringComparison.Ordinal) || error.EndsWith("rz", StringComparison.Ordinal);
        if (error.StartsWith("outside", StringComparison.Ordinal))
            return $"{(isTurn ? "how what is outside is turned" : "where what is outside stands")} at {at.Split(' ')[0]}";
        if (at.StartsWith("spool", StringComparison.Ordinal))
            return $"{at} as made, {(error == "rz" ? "its holes" : isTurn ? "its ends out of square" : "its ends out of place")}";
        return error switch
        {
            "shrinkage" => $"shrinkage of {at}",
            "cut" => "length of " + at,
            "fitting" => "maker's tolerance of " + at,
            "level" => $"levelling of spool {at["level ".Length..]}",
            "in line" => $"setting in line of spool {at["in line ".Length..]}",
            "height" => $"height of {at}",
            "x" or "y" => at[0] == 'B' ? $"play of the bolts at {at}" : $"hi-lo at {at}",
            "z" => $"gap at {at}",
            "rz" => at[0] == 'B' ? $"turn in the bolt holes at {at}" : $"roll at {at}",
            _ => $"{at} out of line",
        };
    }

    private string Ends(ForecastOpening o) => $"{o.From[0].Id} and {o.From[1].Id}";

    private string Say(FormattableString text) => LengthText.Say(units, text);
}
