using Rootgap.Drawings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;
using Rootgap.Site.Forecasting;
using Rootgap.Site.Splitting;
using Rootgap.Site.Surveys;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Site;

/// <summary>What is said of the accepted drawings for the site: forecasts, ways to part the line, erection, survey plans, and what is made of a survey of a line that stands elsewhere than drawn.</summary>
public class AcceptedSiteTest
{
    [Fact]
    public void The_forecasts_are_the_accepted_ones() => Accepted.Same("accepted-forecasts.txt", Accepted.Drawings.SelectMany(d => new[] { false, true }.Select(asWelded =>
    {
        var line = SiteLine.Of(d.Packet.Fabrication);
        var forecast = Forecast.Of(d.Packet.Fabrication, new(asWelded, Draws: 200, Seed: 3) { AsBuilt = asWelded ? Built(line) : new Dictionary<string, (PoseError, PoseError)>() });
        return ($"{d.Name}{(asWelded ? ", as welded" : "")}", Accepted.Json(json => ForecastJson.Write(json, forecast, d.Packet.Drawing.Units)) + Accepted.Lines(new ForecastWords(d.Packet.Drawing.Units).Of(forecast)));
    })));

    [Fact]
    public void The_ways_to_part_the_line_are_the_accepted_ones() => Accepted.Same("accepted-splits.txt", Accepted.Drawings.SelectMany(d => new[] { false, true }.Select(isFree =>
    {
        var split = Split.Of(d.Packet.Fabrication, new(isFree) { AsBuilt = isFree ? new Dictionary<string, (PoseError, PoseError)>() : Built(SiteLine.Of(d.Packet.Fabrication)) });
        return ($"{d.Name}{(isFree ? ", free" : "")}", Accepted.Json(json => SplitJson.Write(json, split, d.Packet.Drawing)) + Accepted.Lines(SplitWords.Of(split, d.Packet.Drawing)));
    })));

    [Fact]
    public void What_is_written_of_a_plan_is_the_accepted() => Accepted.Same("accepted-marks.txt", SampleFile.Clean.Select(s =>
    {
        var packet = s.Packet();
        var (welds, rules) = (packet.Fabrication.Route.Joints.Where(j => j.IsWeld && j.Place != WeldPlace.Shop).Select(j => j.Id).ToList(), packet.Drawing.Shop.Split);
        var asked = new SplitAsked(Free: true, welds.Take(1).ToDictionary(w => w, _ => WeldPlace.Field, StringComparer.Ordinal), welds.Skip(1).Take(1).ToHashSet(StringComparer.Ordinal)) { Rules = rules with { AllDirections = true } };
        var split = Split.Of(packet.Fabrication, asked);
        return (s.Name, Accepted.Lines(SplitWords.Of(split, packet.Drawing)) + string.Concat(split.Plans.Take(2).Select(p => SplitWriting.Write(DrawingText.Of(s.Text, s.Name), packet.Drawing, p, takeOut: true)).Select(t => t.Text + t.Refusal)));
    }));

    [Fact]
    public void The_orders_of_erection_are_the_accepted_ones() => Accepted.Same("accepted-erection.txt", Accepted.Drawings.Select(d =>
    {
        var line = SiteLine.Of(d.Packet.Fabrication);
        var steps = ErectionOrder.Of(line);
        // The other way round: what is wrong with it is told.
        var (back, wrong) = ErectionOrder.Checked(line, [.. steps.Reverse().Select(s => s.Body?.Name ?? s.Closes?.Id ?? "").Where(n => n.Length > 0)]);
        return (d.Name, Accepted.Json(json => ErectionJson.Write(json, d.Name, steps, [])) + Accepted.Json(json => ErectionJson.Write(json, d.Name, back, wrong)) + Accepted.Lines(ErectionOrder.Checked(line, ["spool 1", "Spool 1", "W99", "spool 77"]).Wrong));
    }));

    [Fact]
    public void What_is_said_of_small_drawings_is_the_accepted() => Accepted.Same("accepted-small.txt", Accepted.Mistakes.Where(d => d.Packet.IsBuildable).Select(d =>
    {
        var forecast = Forecast.Of(d.Packet.Fabrication, new(Draws: 0));
        return (d.Name, Accepted.Json(json => ForecastJson.Write(json, forecast, d.Packet.Drawing.Units)) + Accepted.Json(json => ErectionJson.Write(json, d.Name, ErectionOrder.Of(SiteLine.Of(d.Packet.Fabrication)), [])));
    }));

    [Fact]
    [Trait("pace", "slow")]
    public void The_surveys_to_take_are_the_accepted_ones() => Accepted.Same("accepted-surveys.txt", Accepted.Fewest.Select(d =>
    {
        var line = SiteLine.Of(d.Packet.Fabrication);
        return (d.Name, SurveyText.Begin(line, new()) + SurveyText.AsBuilt(Built(line)) + Accepted.Lines(line.FinalFits.SelectMany(j => SurveyPlan.Of(line, new(), j, 4)).Select(r => FormattableString.Invariant($"{r.Reading.Says(d.Packet.Drawing.Units)} {string.Join(' ', r.Before.Concat(r.After).Select(v => Math.Round(v, 5)))}"))));
    }));

    [Fact]
    [Trait("pace", "slow")]
    public void What_is_made_of_a_survey_is_the_accepted_one() => Accepted.Same("accepted-closings.txt", Accepted.Few.Select(d =>
    {
        var line = SiteLine.Of(d.Packet.Fabrication);
        var (closing, errors) = LineClosing.Of(line, Surveyed(line));
        return (d.Name, closing is null ? Accepted.Lines(errors.Select(e => $"{e.At}: {e.Message} {e.Remedy}")) : new ClosingWords(d.Packet.Drawing.Units).Say(closing) is var say ? Accepted.Json(json => ClosingJson.Write(json, closing, say)) : "");
    }));

    /// <summary>The ends of every other spool, measured after welding.</summary>
    internal static Dictionary<string, (PoseError Off, PoseError Sd)> Built(SiteLine line) => line.Ends.Where(e => !e.Body.IsOutside && e.Body.Index % 2 == 0)
        .ToDictionary(e => e.Name, e => (PoseError.From([.. Enumerable.Range(0, 6).Select(k => Accepted.Figure(e.Index, k) * (k < 3 ? 1.5 : 0.004))]), PoseError.From([0.3, 0.3, 0.3, 0.001, 0.001, 0.001])), StringComparer.Ordinal);

    /// <summary>Readings of every kind of a line whose spools and ends stand as by a law of no meaning, each about as far off as is thought likely.</summary>
    internal static Survey Surveyed(SiteLine line)
    {
        var survey = new Survey { Steel = 33, TotalStation = line.Bodies.Count % 2 == 0, Frame = (SurveyFrame)(line.Joints.Count % 3), Expansion = 12e-6 };
        var unknowns = new Unknowns(line, survey, 12e-6, Motion.None);
        var standing = unknowns.At([.. unknowns.Scale.Select((s, i) => s * 0.2 * Accepted.Figure(i, line.Ends.Count))]);
        List<SiteReading> readings = [];
        foreach (var joint in line.FinalFits)
        {
            Touch At(SiteEnd end, TouchKind kind, double clock, double back = 0) => new(joint, end, kind, clock * Math.PI / 6, back);
            foreach (var end in joint.Sides)
            {
                foreach (var clock in (int[])[0, 3, 6, 9])
                    readings.AddRange(Enum.GetValues<Along>().Select(a => new SiteReading.Coordinate(At(end, TouchKind.Lip, clock), a)));
            }

            readings.Add(new SiteReading.Tape(At(joint.First, TouchKind.Lip, 1), At(joint.Second, TouchKind.Nose, 5)));
            readings.Add(new SiteReading.Plumb(At(joint.First, TouchKind.Centre, 0), At(joint.Second, TouchKind.Lip, 2)));
            readings.Add(new SiteReading.Height(At(joint.First, TouchKind.Lip, 0), At(joint.Second, TouchKind.Lip, 0)));
            readings.Add(new SiteReading.Slope(At(joint.First, TouchKind.Lip, 3), At(joint.Second, TouchKind.Lip, 9)));
            readings.Add(new SiteReading.StringLine(At(joint.First, TouchKind.Lip, 3), At(joint.First, TouchKind.Lip, 9), At(joint.Second, TouchKind.Lip, 6)));
            readings.Add(new SiteReading.HiLo(joint, 0));
            readings.Add(new SiteReading.Gap(joint, Math.PI / 2));
        }

        return survey with
        {
            Readings = [.. readings.Select((r, i) => r.Of(standing) is var value ? new SiteTaken(i, r, value + (r.UsualSd(value, survey.TotalStation) * Accepted.Figure(i, 7)), r.UsualSd(value, survey.TotalStation)) : null!)],
            Places = [.. readings.Select(_ => default(Rootgap.Findings.Place))],
            Made = [.. line.Joints.Where(j => !j.IsFinalFit && Accepted.Figure(j.First.Index, 5) > 0.3).Select(j => j.Id)],
            Loose = [.. line.Joints.Where(j => !j.IsFinalFit && Accepted.Figure(j.First.Index, 5) < -0.3).Select(j => j.Id)],
            StandsOut = line.FinalFits.Take(1).ToDictionary(j => j.Id, _ => 80.0, StringComparer.Ordinal),
            Existing = [.. line.FinalFits.SelectMany(j => j.Sides).Where(e => e.Body.IsOutside).Select(e => new ExistingPipe(e, 530, (168, 169.4), [(0, 7), (Math.PI / 2, 6.5)], (300, 298.6)))],
            Held = [.. line.Bodies.Where(b => b.IsOutside).Select(b => b.Name)],
            Limits = line.Bodies.Where(b => b.Index % 3 == 1).ToDictionary(b => b.Name, b => new MayMove(20, b.Index % 2 == 0 ? 15 : null, null, Angles.ToRadians(1)), StringComparer.Ordinal),
        };
    }
}
