using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Site.Forecasting;

/// <summary>Makes up the errors of a line, part by part and joint by joint. Each stage is made once, so that two ways that share a part share its errors.</summary>
internal sealed class ErrorModel
{
    private const double Degree = Math.PI / 180;

    /// <summary>Faces parallel within 1 mm in 200 mm, bolt holes within 3 mm (ASME B31.3 335.1.1).</summary>
    private const double FaceSlope = 1.0 / 200;

    private const double MostPlay = 3;

    private const double GasketTakes = 0.5;

    /// <summary>A field weld may be rolled by this (a planning figure: the holes further on say what it may be).</summary>
    private const double WeldRollSet = 5 * Degree;

    private const double WeldGapSet = 1;

    /// <summary>How much a gap may vary round the pipe, mm (common practice).</summary>
    public const double GapVariation = 0.8;

    private readonly Fabrication fabrication;
    private readonly Route route;
    private readonly ForecastRules rules;
    private readonly bool isChecked;
    private readonly LineMap map;
    private readonly IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> built;
    private readonly Dictionary<string, ErrorStage?> made = new(StringComparer.Ordinal);

    public ErrorModel(Fabrication fabrication, LineMap map, ForecastAsked asked)
    {
        (this.fabrication, this.map, isChecked, built) = (fabrication, map, !asked.AsWelded, asked.AsBuilt);
        route = fabrication.Route;
        rules = route.Drawing.Shop.Forecast;
    }

    private Units Units => route.Drawing.Units;

    /// <summary>The stages of a way, from the thing outside to the weld. Of a final-fit weld the pipe that carries its extra is cut at the site: that length is no error.</summary>
    /// <param name="extra">Id of that pipe; null where none is cut.</param>
    public List<ErrorStage> Of(LineWay way, string? extra)
    {
        var stages = new List<ErrorStage>();
        Add(Once($"{way.Outer.Id} of other", () => Outside(way.Outer)));
        for (var i = 0; i < way.Parts.Count; i++)
        {
            var (enter, part, leave) = (way.Joints[i], way.Parts[i], way.Joints[i + 1]);
            Add(Once(enter.Id, () => At(enter)));
            var spool = fabrication.SpoolOf.GetValueOrDefault(part);
            if (spool is not null && (i == 0 || fabrication.SpoolOf.GetValueOrDefault(way.Parts[i - 1]) != spool))
            {
                Add(Once($"set {spool} {enter.Id}", () => SetTrue(spool, enter)));
                foreach (var support in route.Supports.Where(s => s.Carries && fabrication.SpoolOf.GetValueOrDefault(s.Pipe) == spool && rules.IsSet(s.Id, s.Drawn.Tag)))
                    Add(Once($"height {support.Id} {enter.Id}", () => SetToHeight(support)));
            }

            // A spool that was measured stands where its near end lets it, and its far end where that was found.
            var isMeasured = spool is not null && built.ContainsKey(EndOf(spool, LeavingJoint(way, i)));
            if (isMeasured && (i == 0 || fabrication.SpoolOf.GetValueOrDefault(way.Parts[i - 1]) != spool))
                Add(Once($"built {spool} {enter.Id}", () => NearEndAsBuilt(spool!, enter)));
            if ((!isChecked && !isMeasured) || spool is null)
            {
                foreach (var stage in Through(part, enter, leave, isCutAtSite: part == extra))
                    Add(stage);
            }
            else if (i + 1 == way.Parts.Count || fabrication.SpoolOf.GetValueOrDefault(way.Parts[i + 1]) != spool)
            {
                var cutAtSite = extra is not null && i + 1 == way.Parts.Count && fabrication.SpoolOf.GetValueOrDefault(extra) == spool;
                Add(Once($"spool {spool} {leave.Id} {cutAtSite}", () => Checked(spool, leave, cutAtSite)));
            }
        }

        return stages;

        void Add(ErrorStage? stage)
        {
            if (stage is not null)
                stages.Add(stage);
        }
    }

    private static string EndOf(string spool, Joint joint) => $"{joint.Id} of {spool}";

    /// <summary>The joint at which the way leaves the spool of its part <paramref name="i"/>.</summary>
    private Joint LeavingJoint(LineWay way, int i)
    {
        var spool = fabrication.SpoolOf.GetValueOrDefault(way.Parts[i]);
        while (i + 1 < way.Parts.Count && fabrication.SpoolOf.GetValueOrDefault(way.Parts[i + 1]) == spool)
            i++;
        return way.Joints[i + 1];
    }

    /// <summary>What its near end is out moves the whole spool the other way. Null where that end was not measured: it is then where the drawing has it.</summary>
    private ErrorStage? NearEndAsBuilt(string spool, Joint enter) => built.TryGetValue(EndOf(spool, enter), out var end)
        ? new(AxesOf(enter), Measured("spool " + spool, end.Sd, withAlong: true)) { Known = new(-end.Off.X, -end.Off.Y, -end.Off.Z, -end.Off.Rx, -end.Off.Ry, -end.Off.Rz) }
        : null;

    private static List<ErrorSource> Measured(string at, PoseError sd, bool withAlong) =>
        [.. PoseError.Names.Select((name, k) => new ErrorSource(at, name, new Spread(sd[k], IsNormal: true), k)).Where(s => s.Spread.Size > 0 && (withAlong || s.Component != 2))];

    private ErrorStage? Once(string key, Func<ErrorStage?> make)
    {
        if (!made.TryGetValue(key, out var stage))
            made[key] = stage = make();
        return stage;
    }

    private static JointAxes AxesOf(Joint joint) => JointAxes.Of(joint.At, joint.Axis);

    private ErrorStage Outside(Joint joint)
    {
        var at = joint.Id + " of other";
        return new(AxesOf(joint),
        [
            new(at, "outside x", rules.OtherPosition, 0), new(at, "outside y", rules.OtherPosition, 1), new(at, "outside z", rules.OtherPosition, 2),
            new(at, "outside rx", rules.OtherAngle, 3), new(at, "outside ry", rules.OtherAngle, 4), new(at, "outside rz", rules.OtherAngle, 5),
        ]);
    }

    /// <summary>A joint that the way goes through; null where it adds nothing: a shop weld inside a checked spool.</summary>
    private ErrorStage? At(Joint joint)
    {
        if (joint.Place == WeldPlace.FinalFit)
            return new(AxesOf(joint), [], WeldControl(joint) with { Extra = route.Drawing.Shop.FinalFitExtra });
        if (joint.Kind == JointKind.Bolted)
            return Bolted(joint);
        var isField = joint.Place == WeldPlace.Field || joint.Between.Count == 1;
        if (!isField && isChecked)
            return null;
        var id = joint.Id;
        List<ErrorSource> sources =
        [
            new(id, "x", rules.WeldShift, 0), new(id, "y", rules.WeldShift, 1), new(id, "z", rules.WeldGap, 2),
            new(id, "rx", rules.WeldAngle, 3), new(id, "ry", rules.WeldAngle, 4),
        ];
        if (joint.Kind == JointKind.Butt)
            sources.Add(new(id, "shrinkage", rules.Shrinkage, 2));
        if (IsRollSet(joint))
            sources.Add(new(id, "rz", rules.WeldRoll, 5));
        return new(AxesOf(joint), sources, isField ? WeldControl(joint) : null);
    }

    private ErrorStage Bolted(Joint joint)
    {
        var (play, circle, outside) = Flange(joint);
        var id = joint.Id;
        var shift = rules.BoltedShift ?? new Spread(play / 2);
        var angle = rules.BoltedAngle ?? new Spread(Math.Atan2(0.5, outside));
        var roll = rules.BoltedRoll ?? new Spread(Math.Min(play / 2 / (circle / 2), 0.22 * Degree));
        var most = Math.Min(play, MostPlay);
        return new(AxesOf(joint),
        [
            new(id, "x", shift, 0), new(id, "y", shift, 1), new(id, "rx", angle, 3), new(id, "ry", angle, 4), new(id, "rz", roll, 5),
        ], new StageControl(most, GasketTakes, FaceSlope, most / (circle / 2), circle / 2));
    }

    /// <summary>Hole less bolt, bolt circle and flange's outside, mm; where the standard has no such flange, what one of the pipe's outside and common play would have.</summary>
    private (double Play, double Circle, double Outside) Flange(Joint joint)
    {
        double? Value(Dimension dimension) => dimension.Of(joint.Size, @class: joint.Class)?.In(Units);
        var outside = Value(FlangeTable.Outside) ?? (1.6 * OutsideOf(joint.Size));
        var bolt = FlangeTable.BoltDiameter.Of(joint.Size, @class: joint.Class)?.Inches * LengthText.Inch;
        var play = Value(FlangeTable.HoleDiameter) - bolt ?? LengthText.Inch / 8;
        return (Math.Max(0, play), Value(FlangeTable.BoltCircle) ?? (0.85 * outside), outside);
    }

    private double OutsideOf(NominalSize size) => Pipes.OutsideDiameter(size)?.In(Units) ?? size.Inches * LengthText.Inch;

    /// <summary>The limits of section 5's table: what a weld may be off its bore, its gap and its line.</summary>
    internal StageControl WeldControl(Joint joint) =>
        new(Math.Max(0, route.Drawing.Shop.HiLo - (InsideDifference(joint) / 2)), WeldGapSet, GapVariation / OutsideOf(joint.Size), WeldRollSet, 0);

    private double InsideDifference(Joint joint)
    {
        var inside = joint.Between.Select(id => route.PipeOf(id)?.Inside ?? (OutsideOf(joint.Size) - (2 * joint.Wall))).ToList();
        return inside.Count == 2 ? Math.Abs(inside[0] - inside[1]) : 0;
    }

    /// <summary>A part's roll is set at the weld at which a piece of pipe ends, and between two parts that are no pipe; a flange's is taken out in the bolt holes.</summary>
    private bool IsRollSet(Joint joint)
    {
        var pipes = joint.Between.Select(route.PipeOf).OfType<PipePiece>().ToList();
        if (joint.Between.Any(id => route.ComponentOf(id) is Flange))
            return false;
        return pipes.Count == 0 || pipes.Exists(p => p.End.To(joint.At) <= (joint.Gap / 2) + 0.01);
    }

    private ErrorStage? SetTrue(string spool, Joint enter)
    {
        var (level, inLine) = (rules.Level.Contains(spool, StringComparer.Ordinal), rules.InLine.Contains(spool, StringComparer.Ordinal));
        if (!level && !inLine)
            return null;
        List<ErrorSource> sources = [];
        if (level)
            sources.AddRange([new("level " + spool, "level", rules.Set, 3), new("level " + spool, "level", rules.Set, 4)]);
        if (inLine)
            sources.Add(new("in line " + spool, "in line", rules.Set, 5));
        return new(new JointAxes(enter.At, Vector.East, Vector.North, Vector.Up), sources) { TakesTilt = level, TakesTurn = inLine };
    }

    private ErrorStage SetToHeight(Support support) =>
        new(new JointAxes(support.At, Vector.East, Vector.North, Vector.Up), [new(support.Tag, "height", rules.Height, 2)]) { TakesHeight = true };

    private ErrorStage Checked(string spool, Joint leave, bool isCutAtSite)
    {
        if (built.TryGetValue(EndOf(spool, leave), out var end))
            return new(AxesOf(leave), Measured("spool " + spool, end.Sd, withAlong: !isCutAtSite)) { Known = isCutAtSite ? end.Off with { Z = 0 } : end.Off };
        var nps = leave.Size.Inches;
        var place = rules.SpoolPosition ?? new Spread(nps <= 10 ? 3 : nps <= 24 ? 5 : 6);
        var at = "spool " + spool;
        List<ErrorSource> sources = [new(at, "x", place, 0), new(at, "y", place, 1), new(at, "rx", rules.SpoolAngle, 3), new(at, "ry", rules.SpoolAngle, 4)];
        if (!isCutAtSite)
            sources.Add(new(at, "z", place, 2));
        return new(AxesOf(leave), sources);
    }

    /// <summary>Errors of a part itself, where its spool was not checked or it belongs to none.</summary>
    private IEnumerable<ErrorStage> Through(string part, Joint enter, Joint leave, bool isCutAtSite)
    {
        if (route.PipeOf(part) is { } pipe)
        {
            // Between two branches of one piece it is their places that count, and they are one error as well.
            if (!isCutAtSite && Once("cut " + part, () => Along(part, "cut", rules.Cut, pipe.Start, pipe.Direction)) is { } cut)
                yield return cut;
            yield break;
        }

        if (route.ComponentOf(part) is not { } c)
            yield break;
        var nps = c.Size.Inches;
        switch (c.MadeTo)
        {
            case MadeTo.CentreToEnd:
                var spread = rules.Fitting ?? new Spread(nps <= 24 ? 2 : nps <= 30 ? 3 : 5);
                foreach (var joint in (Joint[])[enter, leave])
                {
                    var port = c.Ports.MinBy(p => p.At.To(joint.At));
                    yield return Once($"{part} {joint.Id}", () => Along(part, "fitting", spread, port.At, port.Face))!;
                }

                break;
            case MadeTo.EndToEnd:
                yield return Whole(rules.Reducer ?? new Spread(nps <= 24 ? 2 : 5));
                break;
            case MadeTo.FaceToFace:
                yield return Whole(rules.Valve ?? new Spread(nps <= 10 ? 1.6 : 3.2));
                break;
            case MadeTo.ThroughHub:
                yield return Whole(rules.Flange ?? new Spread(nps <= 10 ? 1.6 : 3.2));
                break;
            case MadeTo.Nothing:
                break;
            default:
                throw new InvalidOperationException("The family of what parts are made to is closed.");
        }

        ErrorStage Whole(Spread spread) => Once(part, () => Along(part, "fitting", spread, c.WorkPoint, Length(c)))!;
    }

    private static Vector Length(Component c) => c.Ports.Count > 1 && c.Ports[0].At.To(c.Ports[1].At) > Tolerance.Noise ? (c.Ports[1].At - c.Ports[0].At).Unit : c.Ports[0].Face;

    private static ErrorStage Along(string at, string error, Spread spread, Point centre, Vector along) => new(JointAxes.Of(centre, along), [new(at, error, spread, 2)]);
}
