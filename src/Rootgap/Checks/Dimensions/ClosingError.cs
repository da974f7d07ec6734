using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A place that the legs miss: by how much, over which legs, and which single figure or direction read otherwise would close them.</summary>
internal sealed class ClosingError
{
    /// <summary>A stated place is written to the millimetre, mm.</summary>
    private const double Rounded = 0.5;

    private readonly List<Step> way;
    private readonly HashSet<SourceRow> sound;
    private readonly Point stands;

    private ClosingError(SourceRow row, string key, Point stands, Vector error, List<Step> way, HashSet<SourceRow> sound) =>
        (Row, Key, this.stands, Error, this.way, this.sound) = (row, key, stands, error, way, sound);

    /// <summary>The row that states the place, and its key.</summary>
    public SourceRow Row { get; }

    /// <inheritdoc cref="Row"/>
    public string Key { get; }

    /// <summary>Where the legs end less where they should, mm.</summary>
    public Vector Error { get; }

    /// <summary>The places that the legs of a route miss.</summary>
    public static List<ClosingError> In(Route route)
    {
        var misses = new List<ClosingError>();
        // The rows on the way to a place that the legs do meet: any of them read otherwise would open that one.
        var met = new HashSet<SourceRow>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var i = 0; i < run.Distances.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.At is { } stated)
                    Compare(leg.Source, "at", stated, run.Points[i + 1], Way(route, r, i + 1));
                if (leg.To is TieInPoint tie && Host(route, tie.With) is { } host)
                    Compare(leg.Source, "with", route.Runs[host.Run].Points[host.Station], run.Points[i + 1], Less(Way(route, r, i + 1), Way(route, host.Run, host.Station)));
            }
        }

        return misses;

        void Compare(SourceRow row, string key, Point stands, Point reached, List<Step> way)
        {
            if ((reached - stands).Length > Tolerance.Closing)
                misses.Add(new(row, key, stands, reached - stands, way, met));
            else
                met.UnionWith(way.Select(s => s.Source));
        }
    }

    /// <summary>The rows that lie on the way to a stated place: what is wrong in one of them shows there.</summary>
    public static HashSet<SourceRow> Proved(Route route)
    {
        var rows = new HashSet<SourceRow>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            for (var i = 0; i < route.Runs[r].Distances.Count; i++)
            {
                if (route.Runs[r].Run.Legs[i].At is not null)
                    rows.UnionWith(Way(route, r, i + 1).Where(s => s.Leg is not null).Select(s => s.Source));
            }
        }

        return rows;
    }

    /// <summary>The rows on this way any one of which, read otherwise, would close it and all <paramref name="others"/> that miss by the same: first those that a slip of the pen explains, then the rest.</summary>
    public (List<Explanation> Slips, List<Explanation> Others) Explained(Units units, IReadOnlyList<ClosingError> others)
    {
        var sure = new List<Explanation>();
        var along = new List<Explanation>();
        if (Key == "at" && others is [_] && Place(units, Row, stands, stands + Error, "The legs do not end here; they would with {0}.") is { } stated)
            sure.Add(stated);
        foreach (var step in way)
        {
            if (sound.Contains(step.Source) || !others.All(m => m.way.Contains(step)))
                continue;
            if (step.Leg is not { } leg)
            {
                var right = step.From - (Error * step.Sign);
                if (Place(units, step.Source, step.From, right, "The legs from here do not close; they would with {0}.") is { } slip)
                    sure.Add(slip);
                else
                    along.Add(Start(units, step.Source, right));
            }
            else if (Reading(leg, step) is { } reading)
                sure.Add(reading);
            else if (Sloped(leg, step) is { } sloped)
                sure.Add(sloped);
            else if (Unsloped(leg, step) is { } unsloped)
                sure.Add(unsloped);
            else if (TurnedOver(leg, step) is { } turned)
                sure.Add(turned);
            else if (Component(units, leg, step) is { } component)
                (component.IsSlip ? sure : along).Add(component.Explanation);
            else if (Figure(units, leg, step) is { } figure)
                (figure.IsSlip ? sure : along).Add(figure.Explanation);
        }

        return (sure, along);
    }

    /// <summary>A row that would close the way, read otherwise.</summary>
    /// <param name="Row">The row.</param>
    /// <param name="Key">Its key.</param>
    /// <param name="Otherwise">What it should say then: "1290 for 1920: digits changed over".</param>
    /// <param name="Sentence">The same as a sentence at the row.</param>
    internal sealed record Explanation(SourceRow Row, string Key, string Otherwise, string Sentence);

    /// <summary>Another place of the start that would close the way.</summary>
    private static Explanation Start(Units units, SourceRow row, Point right)
    {
        var place = LengthText.Say(units, $"east {right.X:len}, north {right.Y:len}, up {right.Z:len}");
        return new(row, "at", $"a start at {place}", $"The legs from here do not close; a start at {place} would close them.");
    }

    /// <summary>One coordinate written by a slip of the pen, or left out, or two of them changed over; none where the places differ in another way.</summary>
    /// <param name="written">The place as the row gives it.</param>
    /// <param name="right">The place that would close the way.</param>
    private static Explanation? Place(Units units, SourceRow row, Point written, Point right, string sentence)
    {
        var apart = right - written;
        var axes = new[] { ("east", Vector.East, written.X, right.X), ("north", Vector.North, written.Y, right.Y), ("up", Vector.Up, written.Z, right.Z) };
        // In the row's own words: "south 98" where it writes so, and not "north -98".
        string Said(string word, double mm)
        {
            var name = mm < 0 && Other(word) is { } other && row.Has("at", other) ? other : word;
            return LengthText.Say(units, $"{name} {(name == word ? mm : -mm):len}");
        }

        var off = Array.FindAll(axes, a => Math.Abs(apart.Dot(a.Item2)) > Tolerance.Closing);
        if (off is [var (word, _, wrong, should)])
        {
            // East and north are left out where they are 0; the elevation of a place in plan is forgotten.
            var why = word == "up" && wrong == 0 && !row.Has("at", "up") && (row.Has("at", "east") || row.Has("at", "north")) ? "left out"
                : Math.Abs(wrong + should) <= Tolerance.Closing ? (Other(word) is { } other && row.Has("at", other) ? "the direction" : "the sign")
                : Math.Sign(wrong) == Math.Sign(should) ? Slip(units, Math.Abs(wrong), Math.Abs(should)) : null;
            if (why is null)
                return null;
            var otherwise = why == "left out" ? LengthText.Say(units, $"`{word}: {should:len}`, which is left out") : FormattableString.Invariant($"{Said(word, should)} for {Said(word, wrong)}: {why}");
            return new(row, "at", otherwise, string.Format(System.Globalization.CultureInfo.InvariantCulture, sentence, otherwise));
        }

        if (off is [var (one, _, a, b), var (two, _, c, d)] && Math.Abs(a - d) <= Tolerance.Closing && Math.Abs(b - c) <= Tolerance.Closing)
        {
            var otherwise = FormattableString.Invariant($"{Said(one, b)} and {Said(two, d)}: the two changed over");
            return new(row, "at", otherwise, string.Format(System.Globalization.CultureInfo.InvariantCulture, sentence, otherwise));
        }

        return null;
    }

    private static string? Other(string word) => word switch { "east" => "west", "north" => "south", _ => null };

    /// <summary>Another of the six directions that would close the way.</summary>
    private Explanation? Reading(Leg leg, Step step)
    {
        foreach (var (axis, word) in Axes.Six)
        {
            if (((step.Direction - axis) * (step.Distance * step.Sign) - Error).Length > Tolerance.Closing || leg.IsSkew || TurnsBack(step, axis))
                continue;
            return new(leg.Source, "go", $"{word} in place of {Axes.Word(step.Direction) ?? "what is written"}", $"The legs do not close; with this one going {word} they would.");
        }

        return null;
    }

    /// <summary>Whether a leg going that way would run back over the one before or behind it.</summary>
    private bool TurnsBack(Step step, Vector axis) =>
        way.Exists(s => s.Leg is { } beside && step.Leg is { } leg && beside.Source.Path.Run == leg.Source.Path.Run && Math.Abs(beside.Index - leg.Index) == 1 && s.Direction.Dot(axis) < -0.99);

    /// <summary>A slope the other way round, or none, that would close the way.</summary>
    private Explanation? Sloped(Leg leg, Step step)
    {
        if (leg.Slope == 0)
            return null;
        var rise = step.Direction.Z * step.Distance * step.Sign;
        var (word, other) = leg.Slope > 0 ? ("rise", "fall") : ("fall", "rise");
        if (Error.SquareTo(Vector.Up).Length > Tolerance.Closing)
            return null;
        return Math.Abs(Error.Z - (2 * rise)) <= Tolerance.Closing ? new(leg.Source, word, $"a {other} in place of a {word}", $"The legs do not close; with a {other} here in place of a {word} they would.")
            : Math.Abs(Error.Z - rise) <= Tolerance.Closing ? new(leg.Source, word, "level", $"The legs do not close; with this one level they would.")
            : SlopeOffBy(leg, rise, word);
    }

    /// <summary>A slope ten or a hundred times off that would close the way.</summary>
    private Explanation? SlopeOffBy(Leg leg, double rise, string word)
    {
        foreach (var (times, says) in new[] { (10.0, "ten"), (0.1, "ten"), (100, "a hundred"), (0.01, "a hundred") })
        {
            if (Math.Abs(Error.Z - rise + (rise * times)) > Tolerance.Closing)
                continue;
            var (should, written) = (1 / Math.Abs(leg.Slope * times), 1 / Math.Abs(leg.Slope));
            return new(leg.Source, word, FormattableString.Invariant($"1:{should:0.##} for 1:{written:0.##}: {says} times off"), FormattableString.Invariant($"The legs do not close; with a {word} of 1:{should:0.##} here in place of 1:{written:0.##} they would: {says} times off."));
        }

        return null;
    }

    /// <summary>The slope of another leg on the way, left out here, that would close the way.</summary>
    private Explanation? Unsloped(Leg leg, Step step)
    {
        if (leg.Slope != 0 || leg.IsSkew || leg.MakeUp || Math.Abs(step.Direction.Z) > Tolerance.Turn || Error.SquareTo(Vector.Up).Length > Tolerance.Closing)
            return null;
        var rise = -Error.Z * step.Sign / step.Distance;
        foreach (var other in way)
        {
            if (other.Leg is not { Slope: not 0 } sloped || Math.Abs(Math.Abs(sloped.Slope) - Math.Abs(rise)) * step.Distance > Tolerance.Closing)
                continue;
            var says = FormattableString.Invariant($"{(rise > 0 ? "rise" : "fall")}: 1:{1 / Math.Abs(sloped.Slope):0.##}");
            return new(leg.Source, rise > 0 ? "rise" : "fall", $"`{says}`, which is left out", $"The legs do not close; with `{says}` here, as on the legs beside, they would.");
        }

        return null;
    }

    /// <summary>An eccentric reducer with its flat side the other way, or a concentric one in its place, that would close the way.</summary>
    private Explanation? TurnedOver(Leg leg, Step step)
    {
        if (leg.To is ReducerPoint { IsEccentric: false } plain && step.Half > Tolerance.Closing)
            return MadeEccentric(leg, plain, step);
        if (leg.To is not ReducerPoint { IsEccentric: true } reducer || step.Aside.Length <= Tolerance.Closing)
            return null;
        var aside = step.Aside * step.Sign;
        return (Error - (aside * 2)).Length <= Tolerance.Closing
            ? new(leg.Source, "flat", "its flat side the other way", $"The legs do not close; with the flat side of this {reducer.Word} the other way they would.")
            : (Error - aside).Length <= Tolerance.Closing ? new(leg.Source, "kind", "concentric", $"The legs do not close; with a concentric {reducer.Word} here they would.")
            : null;
    }

    /// <summary>An eccentric reducer in place of a concentric one that would close the way: the middle line steps to the flat side.</summary>
    private Explanation? MadeEccentric(Leg leg, ReducerPoint reducer, Step step)
    {
        foreach (var (axis, word) in Axes.Six)
        {
            if (Math.Abs(axis.Dot(step.Direction)) > Tolerance.Turn || (Error + (axis * (step.Half * step.Sign))).Length > Tolerance.Closing)
                continue;
            var flat = word switch { "up" => "top", "down" => "bottom", _ => word };
            return new(leg.Source, "kind", $"eccentric with its flat side {flat}", $"The legs do not close; with an eccentric {reducer.Word}, flat side {flat}, in place of the concentric one they would.");
        }

        return null;
    }

    /// <summary>Another component of a skew leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Explanation Explanation, bool IsSlip)? Component(Units units, Leg leg, Step step)
    {
        if (!leg.IsSkew || Axes.Word(Error / Error.Length) is null)
            return null;
        var drawn = step.Direction * step.Distance;
        var closing = drawn - (Error * step.Sign);
        foreach (var (axis, word) in Axes.Six)
        {
            var (written, should) = (drawn.Dot(axis), closing.Dot(axis));
            if (written > Tolerance.Closing && Math.Abs(written + should) <= Tolerance.Closing && Axes.Word(-axis) is { } other)
                return (new(leg.Source, "go", $"{other} in place of {word}", LengthText.Say(units, $"The legs do not close; with {written:len} {other} here in place of {word} they would.")), true);
            if (written <= Tolerance.Closing || should <= 0 || Math.Abs(written - should) <= Tolerance.Closing)
                continue;
            var slip = Slip(units, written, should);
            var why = slip is null ? "" : $": {slip}";
            return (new(leg.Source, "go", LengthText.Say(units, $"{word} {should:len} for {written:len}{why}"), LengthText.Say(units, $"The legs do not close; {word} {should:len} here would close it, {written:len} drawn{why}.")), slip is not null);
        }

        return null;
    }

    /// <summary>Another length of this leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Explanation Explanation, bool IsSlip)? Figure(Units units, Leg leg, Step step)
    {
        var part = Error.Dot(step.Direction);
        if (Error.SquareTo(step.Direction).Length > Tolerance.Closing || leg.MakeUp)
            return null;
        var closing = step.Distance - (part * step.Sign);
        // Shorter by more than its pipe it has no room for its fittings.
        if (closing <= 0 || step.Distance - closing > step.Pipe + Tolerance.Closing)
            return null;
        var slip = Slip(units, step.Distance, closing);
        var why = slip is null ? "" : $": {slip}";
        return (new(leg.Source, "by", LengthText.Say(units, $"{closing:len} for {step.Distance:len}{why}"), LengthText.Say(units, $"The legs do not close; {closing:len} here would close it, {step.Distance:len} drawn{why}.")), slip is not null);
    }

    private static string? Slip(Units units, double drawn, double closing)
    {
        foreach (var (times, says) in new[] { (10, "ten times off"), (100, "a hundred times off"), (1000, "a thousand times off"), (LengthText.Inch, "inches and millimetres mixed up") })
        {
            if (Math.Abs(drawn - (closing * times)) <= times || Math.Abs(closing - (drawn * times)) <= times)
                return says;
        }

        // In the unit in which the figure is written: 15 for 51 inches. What closes may be off whole by what other ends were rounded.
        var unit = units == Units.Millimetres ? 1 : LengthText.Inch;
        var (written, right) = (drawn / unit, closing / unit);
        if (units == Units.Inches && (Math.Abs((written * 12) - right) * unit <= Rounded || Math.Abs((right * 12) - written) * unit <= Rounded))
            return "feet and inches mixed up";
        // 34 1/2 for 43 1/2.
        if (units == Units.Inches && Math.Abs(written - Math.Floor(written) - (right - Math.Floor(right))) * unit <= Rounded)
            (written, right) = (Math.Floor(written), Math.Floor(right));
        if (Math.Abs(written - Math.Round(written)) * unit > 0.05 || Math.Abs(right - Math.Round(right)) * unit > Rounded)
            return null;
        var (a, b) = (FormattableString.Invariant($"{written:0}"), FormattableString.Invariant($"{right:0}"));
        if (units == Units.Inches && IsWithoutFootMark(Math.Round(written), Math.Round(right)))
            return "the foot mark left out";
        if (units == Units.Inches && IsWithoutFootMark(Math.Round(right), Math.Round(written)))
            return "inches written as feet and inches";
        if (units == Units.Inches && Swapped(Math.Round(written), Math.Round(right)))
            return "feet and inches changed over";
        return a != b && a.Length == b.Length && a.Order().SequenceEqual(b.Order()) ? "digits changed over" : null;
    }

    /// <summary>7'-6" for 6'-7".</summary>
    private static bool Swapped(double one, double other) => one != other && Math.Floor(one / 12) == other % 12 && Math.Floor(other / 12) == one % 12;

    /// <summary>46 for 4'-6".</summary>
    private static bool IsWithoutFootMark(double written, double right) =>
        right >= 12 && (written == (Math.Floor(right / 12) * 10) + (right % 12) || written == (Math.Floor(right / 12) * 100) + (right % 12)) && written != right;

    /// <summary>A leg on the way: it adds <c>Sign</c> times its length along its direction to the error. Without a leg: the stated start of it all.</summary>
    /// <param name="Aside">The step of the middle line at its end, mm: an eccentric reducer's.</param>
    /// <param name="Half">Half the difference of the two outside diameters where a concentric reducer ends it, mm: the step that an eccentric one would make.</param>
    /// <param name="Pipe">Length of the pipe in it, mm; infinite where it is not known.</param>
    private readonly record struct Step(SourceRow Source, Leg? Leg, Point From, Vector Direction, double Distance, int Sign, Vector Aside = default, double Half = 0, double Pipe = double.PositiveInfinity);

    /// <summary>The legs from the beginning of all things to a station, through the runs that this one starts from.</summary>
    private static List<Step> Way(Route route, int run, int station)
    {
        var steps = new List<Step>();
        for (var guard = 0; guard <= route.Runs.Count; guard++)
        {
            var line = route.Runs[run];
            for (var i = station - 1; i >= 0; i--)
                steps.Add(new(line.Run.Legs[i].Source, line.Run.Legs[i], line.Points[i], line.Directions[i], line.Distances[i], 1, line.Points[i + 1] - line.Points[i] - (line.Directions[i] * line.Distances[i]), HalfStep(route, run, i), PipeIn(route, run, i)));
            if (line.Run.Start is { At: not null, Source: var row })
                steps.Add(new(row, null, line.Points[0], Vector.Zero, 0, 1));
            if (line.Run.Start.From is not { } from || Host(route, from) is not { } host)
                break;
            (run, station) = host;
        }

        return steps;
    }

    /// <summary>The pipe that a leg may give up, mm: that of its piece, from end to end.</summary>
    private static double PipeIn(Route route, int run, int leg) =>
        route.Pipes.FirstOrDefault(p => p.Run == run && p.FirstLeg <= leg && leg <= p.LastLeg) is { IsThere: true } pipe ? pipe.Start.To(pipe.End) : double.PositiveInfinity;

    private static double HalfStep(Route route, int run, int leg) =>
        route.Runs[run].Run.Legs[leg].To is ReducerPoint { IsEccentric: false } && route.Components.FirstOrDefault(c => c.Run == run && c.Leg == leg && c is Reducer) is Reducer reducer
            ? Math.Abs(reducer.In.Outside - reducer.Out.Outside) / 2 : 0;

    /// <summary>The way there less the way back; legs on both fall out.</summary>
    private static List<Step> Less(List<Step> there, List<Step> back)
    {
        var steps = there.Where(s => !back.Contains(s)).ToList();
        steps.AddRange(back.Where(s => !there.Contains(s)).Select(s => s with { Sign = -1 }));
        return steps;
    }

    private static (int Run, int Station)? Host(Route route, string name)
    {
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var legs = route.Runs[r].Run.Legs;
            for (var i = 0; i < legs.Count; i++)
            {
                if (legs[i].To.Name == name)
                    return (r, i + 1);
            }
        }

        return null;
    }
}
