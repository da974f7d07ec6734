using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Site;
using Rootgap.Site.Erection;

namespace Rootgap.Sheets;

/// <summary>The site on paper: the order of erection with what is set and welded where, then one card a step.</summary>
public static class ErectionPages
{
    /// <summary>Bodies at least this heavy have their slings on the card, kg.</summary>
    private const double SlungFrom = 50;

    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };

    /// <param name="wrong">What is wrong with the foreman's own order; empty for the proposed one.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, SiteLine line, IReadOnlyList<ErectionStep> steps, IReadOnlyList<string> wrong)
    {
        var units = job.Drawing.Units;
        var flow = new Flow(job.Paper, job.Block("Order of erection"));
        Order(flow, steps, wrong, units);
        Supports(flow, line, steps, units);
        FieldWelds(flow, line, job.Drawing);
        flow.Together(f => f.Heading("Before anything is lifted", 2).Bullets(
            "Stand at each nozzle and tie-in first: survey it, and say if it is not where the drawing has it.",
            "Masses are reckoned; slings and gear for a tenth more. A lifting plan is made by a competent person.",
            "Tacks and finger-tight bolts carry nothing: the sling or the stand holds till the joint is made.",
            "No pulling, jacking or wedging that a machine's flange would feel. " + ShopPages.HotWork));
        for (var i = 0; i < steps.Count; i++)
        {
            var at = i;
            flow.Together(f => Card(f, line, steps, at, units));
        }

        return flow.Pages;
    }

    private static void Order(Flow flow, IReadOnlyList<ErectionStep> steps, IReadOnlyList<string> wrong, Units units)
    {
        if (wrong.Count > 0)
        {
            flow.Warning("This order was given, and it will not work as it stands.", "Look again");
            flow.Bullets(wrong);
        }

        flow.Table(new Table(
            [new("", Anchor.End), new("Put up", ColumnWidth.Of(34)), new(Unit(units), Anchor.End), new("Lifting centre", ColumnWidth.Of(units == Units.Inches ? 54 : 48)), new("Joined to what stands", ColumnWidth.Share()), "Done, date"],
            steps.Select(s => new Row(
                Whole(s.Number), new Cell(Title(s)) { Bold = true }, s.Body is { } b ? Kg(b.Mass, units) + (b.Unweighed.Count > 0 ? " +" : "") : "", s.Body is { } c ? Place(c.Centre, units) : "",
                s.Sets.Count > 0 ? "nothing: set, levelled and seen first" : s.Body is null ? "final fit: survey, cut, weld" : s.Joints.Count == 0 ? s.Stands is [] ? "nothing: on its supports" : "nothing: on its stands" : string.Join(", ", s.Joints.Select(j => j.Id + (j.IsBolted ? " finger-tight" : " tacked"))), Cell.Box())))
        { Style = Dense });
    }

    private static void Supports(Flow flow, SiteLine line, IReadOnlyList<ErectionStep> steps, Units units)
    {
        var supports = steps.SelectMany(s => s.Sets).ToList();
        if (supports.Count > 0)
        {
            flow.Heading("Supports to set first", 2);
            flow.Paragraph("Levels are the pipe's underside, and the steel's where the drawing says how high a support is" + (supports.Exists(s => s.IsOnRiser) ? "; on a riser the support's middle: its steel stands under what is welded on, by the support drawing" : "") + ". What each bears is that spool alone as it is put up, empty, as if all that holds it gave alike; the line full of water bears more, and heat moves it: the support drawing's figures count.", TextStyle.Small with { Height = 3 });
            flow.Table(new Table(
                ["Support", new("What", ColumnWidth.Share()), new("On, from its start", ColumnWidth.Of(26)), new("Underside EL", Anchor.End), new("Steel EL", Anchor.End), new("Where", ColumnWidth.Of(32)), new("Bears, " + Unit(units), Anchor.End), "Set"],
                supports.Select(s =>
                {
                    var step = steps.FirstOrDefault(x => x.RestsOn.Any(r => r.Support == s));
                    var cut = line.Fabrication.Cuts.First(c => c.Pipe.Id == s.Pipe);
                    return new Row(
                        new Cell(s.Tag) { Bold = true }, $"{s.Name}{(s.Weld is { } w ? s.IsOfSpool ? ", on the spool" : $", weld {w.Id} here" : "")}", $"{cut.Piece}, {Mm((s.At - cut.Reach.Start).Dot(cut.Pipe.Direction), units)}",
                        new Cell((s.IsOnRiser ? "middle " : "") + Level(s.Underside, units)) { Bold = true }, s.Steel is { } steel ? Level(steel, units) : "", Plan(s.At, units),
                        step?.RestsOn.First(r => r.Support == s).Bears is > 0 and var kg ? Kg(kg, units) : s.Carries ? "0" : "–", Cell.Box());
                }))
            { Style = Dense });
        }

        flow.Heading("Stands and levels to set", 2);
        flow.Paragraph($"{(supports.Count > 0 ? "The supports above come first" : "The support drawing's own come first")}; these hold each spool steady till it is joined. Levels are the pipe's underside.", TextStyle.Small with { Height = 3 });
        flow.Table(new Table(
            ["For", "Under", new("From its start", Anchor.End), new("Underside EL", Anchor.End), new("Where", ColumnWidth.Share()), new("Bears, " + Unit(units), Anchor.End), "Set"],
            steps.SelectMany(s => (s.Stands ?? []).Select(h => new Row(
                Title(s), new Cell(h.Piece) { Bold = true }, Mm(h.Along, units), new Cell(Level(h.Underside, units)) { Bold = true }, Plan(h.At, units), Kg(h.Bears, units), Cell.Box()))))
        { Style = Dense, WhenEmpty = "none: every spool stands on its joints and supports" });
        foreach (var step in steps.Where(s => s.Body is not null && s.Stands is null))
            flow.Paragraph($"{Title(step)}: no place on its level pipes keeps it steady. It stays in the sling until it is joined, or gets a stand of its own.", Dense);
    }

    private static void FieldWelds(Flow flow, SiteLine line, Drawing drawing)
    {
        flow.Heading("Joints made here, and how they are reached", 2);
        flow.Table(new Table(
            ["Joint", "What", "NPS", new("EL", Anchor.End), new("Over the floor", Anchor.End), new("Clear round it", Anchor.End), new("Reach", ColumnWidth.Share())],
            line.Joints.Select(j =>
            {
                var up = j.Joint.At.Z - drawing.Shop.Split.Floor;
                var clear = Clear(line, j);
                return new Row(new Cell(j.Id) { Bold = true }, j.IsBolted ? "bolted" : j.IsFinalFit ? "final fit" : "field weld", j.Joint.Size.ToString(), Level(j.Joint.At.Z, drawing.Units), Mm(up, drawing.Units),
                    j.IsBolted ? "" : double.IsFinite(clear) ? Mm(clear, drawing.Units) : "free", Reach(up, j.IsBolted ? double.PositiveInfinity : clear));
            }))
        { Style = Dense });
    }

    /// <summary>From the joint's outside to the nearest other part of this drawing, mm; the parts next to it are left out.</summary>
    private static double Clear(SiteLine line, SiteJoint joint)
    {
        var own = joint.Joint.Between.ToHashSet(StringComparer.Ordinal);
        var near = line.Joints.Select(j => j.Joint).Concat(line.Fabrication.Route.Joints).Where(j => j.Between.Any(own.Contains)).SelectMany(j => j.Between).ToHashSet(StringComparer.Ordinal);
        var least = double.PositiveInfinity;
        foreach (var part in line.Bodies.SelectMany(b => b.Parts).Where(p => !near.Contains(p)).Select(line.Fabrication.Route.PartOf).OfType<Part>())
        {
            foreach (var solid in part.Bodies)
                least = Math.Min(least, solid.Distance(joint.Joint.At) - (joint.Outside / 2));
        }

        return least > 2000 ? double.PositiveInfinity : least;
    }

    private static string Reach(double up, double clear) =>
        (up > 2000 ? "scaffold or platform" : up < 400 ? "low: on knees, or a pit" : "from the floor") + (clear < 300 ? "; tight, 300 is wanted" : "");

    private static void Card(Flow flow, SiteLine line, IReadOnlyList<ErectionStep> steps, int at, Units units)
    {
        var step = steps[at];
        flow.Heading($"Step {Whole(step.Number)}: {(step.Sets.Count > 0 ? "set the supports" : Title(step))}{(step.Body is { } b ? $", {Kg(b.Mass, units)} {Unit(units)}" : "")}");
        flow.Beside(
            (1, left => left.Figure(ErectionPicture.Of(line, steps, at, left.Width, 50))),
            (1, right => Facts(right, step, units)));
        if (step.Body is { } lifted && lifted.Mass >= SlungFrom)
            Sling(flow, line.Fabrication, lifted);
        // On a card of more than one sheet the last readings and the names under them stay together: who signs sees for what.
        var last = double.IsInfinity(flow.Remaining) ? step.Readings.Count : Math.Min(step.Readings.Count, SignedTogether);
        if (step.Readings.Count > last)
            flow.Table(Readings(step.Readings.SkipLast(last)));
        flow.Together(f => f.Table(Readings(step.Readings.TakeLast(last))).Fields(3, new Field($"{Title(step)}: set by, date"), new Field("Seen by"), new Field("Go on")));
    }

    /// <summary>Readings that are never torn from the names under them.</summary>
    private const int SignedTogether = 4;

    private static Table Readings(IEnumerable<ErectionReading> readings) => new(
        [new("Read", ColumnWidth.Share(1.2)), new("Should be", ColumnWidth.Share()), new("Read as", ColumnWidth.Of(26))],
        readings.Select(r => new Row(r.What, new Cell(r.Target) { Bold = true }, "")))
    { Style = Dense, RowHeight = 6.5 };

    private static void Facts(Flow flow, ErectionStep step, Units units)
    {
        if (step.Body is { } body)
        {
            flow.Fields(2, new Field("Mass, slings for", $"{Kg(body.Mass, units)} / {Kg(1.1 * body.Mass, units)} {Unit(units)}"), new Field("Lifting centre", Place(body.Centre, units, "\n")));
            if (body.Valves.Count > 0)
                flow.Paragraph($"With {string.Join(", ", body.Valves.Select(v => $"{v.Name} {v.Id}"))}.", Dense);
            if (step.RestsOn.Count > 0)
                flow.Paragraph("Rests on: " + string.Join("; ", step.RestsOn.Select(r => $"{r.Support.Tag}, {(r.Support.IsOnRiser ? "middle" : "underside")} EL {Level(r.Support.Underside, units)}{(r.Support.Carries ? $", {Kg(r.Bears, units)} {Unit(units)}" : ", no weight")}")) + ".", Dense);
            if (step.Stands is { Count: > 0 } stands)
                flow.Paragraph("Stands: " + string.Join("; ", stands.Select(s => $"{s.Piece} at {Mm(s.Along, units)}, underside EL {Level(s.Underside, units)}, {Kg(s.Bears, units)} {Unit(units)}")) + ".", Dense);
            if (step.OnJoints.Count > 0)
                flow.Paragraph("The rest hangs on the joints: " + string.Join("; ", step.OnJoints.Select(j => $"{j.Joint.Id}, {Kg(j.Bears, units)} {Unit(units)}")) + ".", Dense);
            if (step.Stands is null)
                flow.Paragraph("No place on its level pipes keeps it steady: it stays in the sling till it is joined, or gets a stand of its own.", TextStyle.Strong);
            if (step.Way is null)
                flow.Paragraph("CLOSED OFF by what stands: it cannot be brought in.", TextStyle.Strong);
        }

        flow.Bullets(step.Holds);
    }

    // The same reckoning as the spool's lifting sheet, with the valves that go up with it.
    private static void Sling(Flow flow, Fabrication f, ErectedBody body)
    {
        var (units, lift) = (f.Units, Lift.Of(f, body.Body.Spool!, body.Mass, body.Centre));
        if (lift.Holds.Count > 0)
            flow.Table(new Table(
                ["", new("Sling at", ColumnWidth.Share()), new(lift.HookUp is { } up ? $"Leg, hook {LiftWords.Length(units, up)} up" : "Leg", Anchor.End), new("To level", Anchor.End), new("Load", Anchor.End), new("Pull", Anchor.End)],
                lift.Holds.Select(h => new Row(h.Name, LiftWords.Where(f, h), h.Leg is { } leg ? LiftWords.Length(units, leg) : "drawn up", h.ToLevel is { } angle ? string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(angle):0}°") : "",
                    LiftWords.Mass(units, h.Lifts), new Cell(h.Pull is { } pull ? LiftWords.Mass(units, pull) : "") { Bold = true })))
            { Style = TextStyle.Small });
        foreach (var said in LiftWords.Of(lift, units))
            flow.Paragraph(said, lift.TurnsOver && said.StartsWith("IT ", StringComparison.Ordinal) ? TextStyle.Strong : Dense);
    }

    private static string Title(ErectionStep step) => step.Body is { } body ? body.Name : step.Closes is { } closes ? $"{closes.Id}, final fit" : "supports";

    private static string Place(Point p, Units units, string between = " ") => Plan(p, units) + between + Unbroken(LengthText.Say(units, $"EL {p.Z:el0}"));

    private static string Plan(Point p, Units units) => Unbroken(LengthText.Say(units, $"{p.X:east0}")) + " " + Unbroken(LengthText.Say(units, $"{p.Y:north0}"));

    /// <summary>A letter and its figure stay on one line.</summary>
    private static string Unbroken(string figure) => figure.Replace(' ', '\u00a0');

    private static string Level(double z, Units units) => LengthText.Say(units, $"{z:el0}");

    private static string Mm(double mm, Units units) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 0);

    /// <summary>A mass in the drawing's own unit: kilograms, or pounds where lengths are in inches.</summary>
    private static string Kg(double kg, Units units)
    {
        var figure = units == Units.Inches ? kg / Amount.Pound : kg;
        return figure.ToString(figure < 100 ? "0.#" : "0", CultureInfo.InvariantCulture);
    }

    private static string Unit(Units units) => units == Units.Inches ? "lb" : "kg";

    private static string Whole(int n) => n.ToString(CultureInfo.InvariantCulture);
}
