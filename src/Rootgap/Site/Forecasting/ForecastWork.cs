using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Site.Forecasting;

/// <summary>Works out one forecast.</summary>
internal sealed class ForecastWork(Fabrication fabrication, ForecastAsked asked)
{
    private const double Ninety5 = 1.959964;

    /// <summary>Resultant of two alike normal parts that 95 in 100 stay within, in standard deviations.</summary>
    private const double Ninety5Of2 = 2.447747;

    private readonly Route route = fabrication.Route;
    private readonly LineMap map = new(fabrication.Route);

    public Forecast All()
    {
        var model = new ErrorModel(fabrication, map, asked);
        var closings = new List<ForecastClosing>();
        foreach (var joint in route.Joints)
        {
            if (joint.Place == WeldPlace.FinalFit && joint.IsWeld && map.To(joint, second: false) is { } first && map.To(joint, second: true) is { } second)
                closings.Add(Closing(model, joint, first, second));
        }

        var rigid = new List<ForecastOpening>();
        var outer = map.Outer;
        for (var later = 1; later < outer.Count; later++)
        {
            for (var earlier = 0; earlier < later; earlier++)
            {
                if (map.Rigid(outer[earlier], outer[later]) is { } way)
                    rigid.Add(Loop(model, way, outer[later]));
            }
        }

        return new() { Asked = asked, Closings = closings, Rigid = rigid };
    }

    private ForecastClosing Closing(ErrorModel model, Joint joint, LineWay first, LineWay second)
    {
        var extraPipe = joint.Between.Select(route.PipeOf).FirstOrDefault(p => p is not null && CarriesExtra(p, joint));
        var opening = OpeningOf(model, joint, first, second, extraPipe?.Id);
        var outside = Pipes.OutsideDiameter(joint.Size)?.In(route.Drawing.Units) ?? joint.Size.Inches * LengthText.Inch;
        var extra = extraPipe is null ? 0 : route.Drawing.Shop.FinalFitExtra;
        var reach = new Reach(opening.Settings, model.WeldControl(joint).Shift, extra, outside);
        var drawn = asked.Draws > 0 ? opening.Draw(asked.Draws, asked.Seed) : [];
        var told = Told(joint, opening, drawn, first, second, reach);
        var needed = ExtraNeeded(opening, drawn, joint, outside, IsFirstSide(joint, extraPipe));
        double? closes = asked.Chances ? Chance(opening, reach) : null;
        var closing = new ForecastClosing(told, needed, extra, closes);
        return closes is < 0.95 ? closing with { Better = Better(joint, first, second, extraPipe?.Id, extra, outside, closes.Value, told.Missing) } : closing;
    }

    private static bool CarriesExtra(PipePiece pipe, Joint joint) =>
        (pipe.ExtraAtEnd && pipe.End.To(joint.At) <= pipe.Start.To(joint.At)) || (pipe.ExtraAtStart && pipe.Start.To(joint.At) < pipe.End.To(joint.At));

    private bool IsFirstSide(Joint joint, PipePiece? pipe) => pipe is null || map.Sides(joint).First == pipe.Id;

    private static Opening OpeningOf(ErrorModel model, Joint joint, LineWay first, LineWay second, string? extraPipe) =>
        new(JointAxes.Of(joint.At, joint.Axis), model.Of(first, extraPipe), model.Of(second, extraPipe));

    private double Chance(Opening opening, Reach reach)
    {
        var draws = opening.DrawFirstOrder(ForecastAsked.CloseDraws, asked.Seed, withoutSettings: true);
        return draws.Count(d => reach.Closes(d)) / (double)ForecastAsked.CloseDraws;
    }

    /// <summary>The 99 % point of how short the pipe would be with nothing left on it: section 4's least distance to the cut, below nothing.</summary>
    private static double ExtraNeeded(Opening opening, PoseError[] drawn, Joint joint, double outside, bool isFirst)
    {
        if (drawn.Length == 0)
            return ShortByFirstOrder.Of(opening, outside / 2, 0.99);

        var axes = opening.Axes;
        var half = joint.Gap / 2;
        var shorts = new double[drawn.Length];
        for (var i = 0; i < drawn.Length; i++)
        {
            // The side that carries the extra stands still; the other has the opening's motion, forth or back.
            var motion = axes.MotionOf(drawn[i]);
            var along = isFirst ? axes.Along : -axes.Along;
            var far = isFirst ? motion : motion.Inverse;
            var own = axes.Centre - (along * half);
            var other = far.Of(axes.Centre + (along * half));
            var normal = far.Of(-along);
            var cos = -along.Dot(normal);
            var sin = Math.Sqrt(Math.Max(0, 1 - (cos * cos)));
            // Least distance back to the cut, round the outside.
            var least = -((own - other).Dot(normal) - joint.Gap + (outside / 2 * sin)) / cos;
            shorts[i] = Math.Max(0, -least);
        }

        return Quantile(shorts, 0.99);
    }

    private ForecastOpening Loop(ErrorModel model, LineWay way, Joint to)
    {
        var (first, _) = map.Sides(to);
        var outside = new LineWay([to], []);
        var (a, b) = first is null ? (outside, way) : (way, outside);
        var opening = OpeningOf(model, to, a, b, null);
        var drawn = asked.Draws > 0 ? opening.Draw(asked.Draws, asked.Seed) : [];
        var size = Pipes.OutsideDiameter(to.Size)?.In(route.Drawing.Units) ?? to.Size.Inches * LengthText.Inch;
        // Its own joint is not made yet: what it bears by itself stands for the weld's own limits.
        var own = to.Kind == JointKind.Bolted ? 3 : model.WeldControl(to).Shift;
        return Told(to, opening, drawn, a, b, new Reach(opening.Settings, own, 0.5, size)) with { From = [way.Outer, to] };
    }

    private ForecastOpening Told(Joint joint, Opening opening, PoseError[] drawn, LineWay first, LineWay second, Reach reach)
    {
        var variances = opening.Variances();
        var sd = OpeningDeviation.Of(variances);
        OpeningDeviation? draws = drawn.Length > 1 ? Deviations(drawn) : null;
        return new ForecastOpening
        {
            Joint = joint,
            From = [first.Outer, second.Outer],
            Axes = opening.Axes,
            FirstOrder = sd,
            Known = PoseError.From(opening.Known),
            Draws = draws,
            Length95 = drawn.Length > 0 ? Quantile([.. drawn.Select(d => Math.Abs(d.Z))], 0.95) : Math.Abs(opening.Known[2]) + (Ninety5 * sd.Z),
            Across95X = drawn.Length > 0 ? Quantile([.. drawn.Select(d => Math.Abs(d.X))], 0.95) : Math.Abs(opening.Known[0]) + (Ninety5 * sd.X),
            Across95Y = drawn.Length > 0 ? Quantile([.. drawn.Select(d => Math.Abs(d.Y))], 0.95) : Math.Abs(opening.Known[1]) + (Ninety5 * sd.Y),
            Tilt95 = drawn.Length > 0 ? Quantile([.. drawn.Select(d => d.Tilt)], 0.95) : Ninety5Of2 * Math.Max(sd.Rx, sd.Ry),
            Shares = Shares(opening, variances),
            Missing = Missing(joint, opening, first, second, reach),
            TakenUpX = asked.Chances ? reach.Along(1, 0, 0) : 0,
            TakenUpY = asked.Chances ? reach.Along(0, 1, 0) : 0,
            WhyNot = draws is { } d ? WhyNot(sd, d, drawn.Length) : "",
        };
    }

    private static OpeningDeviation Deviations(PoseError[] drawn)
    {
        var sums = new double[6];
        var squares = new double[6];
        foreach (var d in drawn)
        {
            for (var k = 0; k < 6; k++)
            {
                sums[k] += d[k];
                squares[k] += d[k] * d[k];
            }
        }

        var n = drawn.Length;
        return OpeningDeviation.Of([.. sums.Select((s, k) => Math.Max(0, (squares[k] - (s * s / n)) / (n - 1)))]);
    }

    /// <summary>Draws scatter by themselves, their standard deviation by one in the root of twice their number: three of that are allowed where it is more than 5 %.</summary>
    private static string WhyNot(OpeningDeviation first, OpeningDeviation drawn, int n)
    {
        var allowed = Math.Max(0.05, 3 / Math.Sqrt(2 * n));
        var off = PoseError.Names.Where((_, k) => first[k] > (k < 3 ? 1e-3 : 1e-7) && Math.Abs((drawn[k] / first[k]) - 1) > allowed).ToList();
        return off.Count == 0 ? ""
            : $"The draws and the first-order figures differ by over {allowed * 100:0.#} % in {string.Join(", ", off)}: with turns as large as these the levers themselves change. The draws have the full geometry: go by them.";
    }

    private static List<ErrorShare> Shares(Opening opening, double[] variances)
    {
        var shares = new List<ErrorShare>();
        foreach (var same in opening.Columns.GroupBy(c => (c.Source.At, c.Source.Error)))
        {
            for (var k = 0; k < 6; k++)
            {
                var own = same.Sum(c => c.Lever[k] * c.Lever[k] * c.Source.Spread.Deviation * c.Source.Spread.Deviation);
                if (variances[k] > 0 && own / variances[k] >= 1e-4)
                    shares.Add(new(same.Key.At, same.Key.Error, PoseError.Names[k], own / variances[k]));
            }
        }

        return [.. shares.OrderByDescending(s => s.Share)];
    }

    /// <summary>Directions of pipes on the way that are not made up of those of its final-fit welds.</summary>
    private List<MissingDirection> Missing(Joint joint, Opening opening, LineWay first, LineWay second, Reach reach)
    {
        var onWay = first.Joints.Concat(second.Joints).Where(j => j.Place == WeldPlace.FinalFit && j.IsWeld);
        var taken = new Span3();
        foreach (var j in onWay.Append(joint).Where(j => j.Place == WeldPlace.FinalFit))
            taken.Add(j.Axis);
        var pipes = first.Parts.Concat(second.Parts).Select(route.PipeOf).OfType<PipePiece>().ToList();
        var missing = new List<MissingDirection>();
        foreach (var pipe in pipes)
        {
            var left = taken.Left(pipe.Direction);
            if (left.Length < Span3.Least)
                continue;
            var direction = left.Unit;
            var legs = pipes.Where(p => Math.Abs(p.Direction.Dot(direction)) > 0.5).Select(p => route.RowOf(p.Run, p.LastLeg)).Distinct().ToList();
            var spread = Ninety5 * Math.Sqrt(opening.VarianceAlong(direction));
            var (x, y, z) = (opening.Axes.Three.Dot(direction), opening.Axes.Twelve.Dot(direction), opening.Axes.Along.Dot(direction));
            // At every keystroke it is enough to know that it is taken up; how much more could be is worked out where it is not, or is asked for.
            var isTaken = !asked.Chances && reach.Closes([x * spread, y * spread, z * spread, 0, 0, 0]) && reach.Closes([-x * spread, -y * spread, -z * spread, 0, 0, 0]);
            missing.Add(new(direction, spread, isTaken ? spread : Math.Min(reach.Along(x, y, z), reach.Along(-x, -y, -z)), legs));
            taken.Add(direction);
        }

        return missing;
    }

    /// <summary>What would better the chance, in the order of its price: a level, a string, a support set to its height, a final-fit weld on another leg. Only what gains two in a hundred or more is told.</summary>
    private List<Betterment> Better(Joint joint, LineWay first, LineWay second, string? extraPipe, double extra, double outside, double now, IReadOnlyList<MissingDirection> missing)
    {
        var better = new List<Betterment>();
        var rules = route.Drawing.Shop.Forecast;
        var spools = first.Parts.Concat(second.Parts).Select(p => fabrication.SpoolOf.GetValueOrDefault(p)).OfType<string>().Distinct(StringComparer.Ordinal).ToList();
        foreach (var spool in spools)
        {
            if (!rules.Level.Contains(spool, StringComparer.Ordinal))
                Try($"set spool {spool} with a level (0.1 degree){Shimmed(spool)}", rules with { Level = [.. rules.Level, spool] });
        }

        foreach (var spool in spools)
        {
            if (!rules.InLine.Contains(spool, StringComparer.Ordinal))
                Try($"set spool {spool} in line with a string or a laser", rules with { InLine = [.. rules.InLine, spool] });
        }

        foreach (var support in route.Supports.Where(s => s.Carries && fabrication.SpoolOf.TryGetValue(s.Pipe, out var on) && spools.Contains(on) && !rules.IsSet(s.Id, s.Drawn.Tag)))
            Try(LengthText.Say(route.Drawing.Units, $"set {support.Tag}, the {support.Name} of spool {fabrication.SpoolOf[support.Pipe]}, to its height with a level ({rules.Height.Size:small})"), rules with { Supports = [.. rules.Supports, support.Id] });

        foreach (var leg in missing.SelectMany(m => m.Legs).Distinct())
        {
            var weld = route.Joints.FirstOrDefault(j => j.Kind == JointKind.Butt && j.Place == WeldPlace.Shop && j.Between.Count == 2 && ReferenceEquals(j.Source, leg) && j.Between.Any(p => route.PipeOf(p) is not null));
            if (weld is null)
                continue;
            var joints = route.Joints.Select(j => ReferenceEquals(j, weld) ? j with { Place = WeldPlace.FinalFit } : j).ToList();
            Try($"mark {weld.Id} at {route.Drawing.PlaceOf(leg.Path)} final-fit too", rules, Spooling.Of(route with { Joints = joints }));
        }

        return [.. better.OrderByDescending(b => b.Closes).Take(4).OrderBy(b => b.What.StartsWith("mark", StringComparison.Ordinal)).ThenByDescending(b => b.Closes)];

        string Shimmed(string spool)
        {
            var tags = route.Supports.Where(s => s.Carries && fabrication.SpoolOf.GetValueOrDefault(s.Pipe) == spool).Select(s => s.Tag).ToList();
            return tags.Count > 1 ? $", by shims at {string.Join(" and ", tags)}" : "";
        }

        void Try(string what, ForecastRules with, Fabrication? other = null)
        {
            var basis = other ?? fabrication;
            var changed = basis with { Route = basis.Route with { Drawing = route.Drawing with { Shop = route.Drawing.Shop with { Forecast = with } } } };
            var itsMap = new LineMap(changed.Route);
            var weld = changed.Route.Joints.First(j => j.Id == joint.Id);
            if (itsMap.To(weld, second: false) is not { } a || itsMap.To(weld, second: true) is not { } b)
                return;
            var model = new ErrorModel(changed, itsMap, asked);
            var opening = OpeningOf(model, weld, other is null ? first : a, other is null ? second : b, extraPipe);
            var chance = Chance(opening, new Reach(opening.Settings, model.WeldControl(weld).Shift, extra, outside));
            if (chance >= now + 0.02)
                better.Add(new(what, chance));
        }
    }

    internal static double Quantile(double[] values, double share)
    {
        Array.Sort(values);
        var at = share * (values.Length - 1);
        var low = (int)at;
        return low + 1 < values.Length ? values[low] + ((at - low) * (values[low + 1] - values[low])) : values[low];
    }
}
