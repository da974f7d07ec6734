namespace Rootgap.Drawings;

/// <summary>What a value of the drawing file is; the JSON Schema and the reader's messages both come from it.</summary>
internal enum Kind
{
    Text,
    Whole,
    Number,
    Mass,
    Length,
    Lengths,
    Size,
    Schedule,
    Direction,
    Go,
    By,
    Angle,
    Choice,
    YesNo,
    Slope,
    Quantity,
    Place,
    Plate,
    Map,
    List,
    Materials,
    ShopFile,
    Measured,
    Sizes,
    Holes,
    Flat,
    Spread,
    SpreadAngle,
    Names,
}

/// <summary>One key: its name, what its value is, and the sentence that explains it.</summary>
internal sealed record Key(string Name, Kind Kind, string Says, bool IsRequired = false, string[]? Words = null, Shape? Of = null);

/// <summary>A mapping of the drawing file with all its keys.</summary>
internal sealed record Shape(string Name, params Key[] Keys)
{
    private readonly HashSet<string> names = new(Keys.Select(k => k.Name), StringComparer.Ordinal);

    public bool Has(string key) => names.Contains(key);

    public IEnumerable<string> Names => names;
}

/// <summary>The drawing file as data: every key there is. The reader, the schema and the docs are made from this.</summary>
internal static class DrawingShape
{
    /// <summary>The words of work points, and of those with which a run can begin.</summary>
    public static string[] ToWords { get; } = [.. WorkPointKind.All.Select(k => k.Word)];

    public static string[] StartWords { get; } = [.. WorkPointKind.All.Where(k => k.CanStart).Select(k => k.Word)];

    /// <summary>The keys of a leg that go only with some work points.</summary>
    public static Dictionary<string, string[]> KeysOf { get; } = WorkPointKind.All.ToDictionary(k => k.Word, k => k.Keys, StringComparer.Ordinal);

    private static readonly Key[] LineKeys =
    [
        new("size", Kind.Size, "Nominal size: 6, 1/2, 1-1/2, DN150."),
        new("schedule", Kind.Schedule, "Pipe schedule (10, 40, STD, XS, 10S ...) or {wall: 7.11}."),
        new("class", Kind.Text, "Flange class: 150, 300 ...; of socket-weld and threaded fittings with `fitting class`."),
        new("material", Kind.Text, "Pipe material, such as A106-B."),
        new("flange", Kind.Choice, "Flange type.", Words: FileWords.FlangeKinds),
        new("facing", Kind.Choice, "Flange facing.", Words: FileWords.Facings),
        new("gasket", Kind.Length, "Compressed thickness of a gasket, or the stand-off of a ring."),
    ];

    public static readonly Shape Line = new("line",
    [
        .. LineKeys,
        new("ends", Kind.Choice, "How fittings take the pipe: butt (default), socket or threaded.", Words: FileWords.FittingEnds),
        new("fitting class", Kind.Text, "Class of socket-weld (3000, 6000, 9000) and threaded (2000, 3000, 6000) fittings."),
    ]);

    public static readonly Shape Service = new("service",
        new("fluid", Kind.Text, "What the line carries."),
        new("design pressure", Kind.Text, "With its unit."),
        new("design temperature", Kind.Text, "With its unit."),
        new("operating pressure", Kind.Text, "How the line works, for who reads it: nothing is checked by it."),
        new("operating temperature", Kind.Text, "How the line works, likewise."),
        new("test pressure", Kind.Text, "With its unit."),
        new("code", Kind.Text, "Code of construction, such as B31.3."),
        new("examination", Kind.Text, "Share of welds to be examined, such as 5 %."),
        new("line number", Kind.Text, "The line's number."),
        new("pipe class", Kind.Text, "Pipe class or specification."),
        new("heat treatment", Kind.Text, "Heat treatment after welding, such as none, or by the procedure."),
        new("paint", Kind.Text, "Paint system."),
        new("insulation", Kind.Text, "Kind of insulation."),
        new("insulation thickness", Kind.Length, "Thickness of the insulation."),
        new("tracing", Kind.Text, "Heat tracing."),
        new("lining", Kind.Text, "What the pipe is lined with inside, such as cement 12 mm."),
        new("cleanliness", Kind.Text, "How clean it is made and kept."),
        new("area", Kind.Text, "Area or unit of the plant."),
        new("test package", Kind.Text, "Test package that the line belongs to."));

    public static readonly Shape Envelope = new("envelope",
        new("length", Kind.Length, "Longest spool that can be carried."),
        new("width", Kind.Length, "Widest."),
        new("height", Kind.Length, "Highest."),
        new("mass", Kind.Mass, "Heaviest, kg."));

    public static readonly Shape ForecastOther = new("spread of place and angle",
        new("position", Kind.Spread, "So far along each axis."),
        new("angle", Kind.SpreadAngle, "So far about each axis, degrees."));

    public static readonly Shape ForecastWeld = new("spread at a weld",
        new("hi-lo", Kind.Spread, "Square to the pipe; default 1.5 mm."),
        new("gap", Kind.Spread, "Along the pipe; default 0.8 mm."),
        new("angle", Kind.SpreadAngle, "Out of line, degrees; default 0.22."),
        new("roll", Kind.SpreadAngle, "About the pipe, degrees; default 0.22."));

    public static readonly Shape ForecastBolted = new("spread at a bolted joint",
        new("shift", Kind.Spread, "Square to the pipe; default half of what the hole is larger than the bolt."),
        new("angle", Kind.SpreadAngle, "Out of line, degrees; default 0.5 mm across the flange."),
        new("roll", Kind.SpreadAngle, "About the pipe, degrees; default what the holes let it, at most 0.22."));

    public static readonly Shape Forecast = new("forecast",
        new("other", Kind.Map, "How far nozzles and existing lines may stand from their places; default 3 mm and 0.3 degree.", Of: ForecastOther),
        new("weld", Kind.Map, "A field weld, and a shop weld where nothing was checked.", Of: ForecastWeld),
        new("shrinkage", Kind.Spread, "Of a butt weld beside its allowance; default 0.8 mm."),
        new("bolted", Kind.Map, "A bolted joint.", Of: ForecastBolted),
        new("valve", Kind.Spread, "Of a valve's face to face; default ASME B16.10."),
        new("spool", Kind.Map, "A checked spool, end to end; default PFI ES-3.", Of: ForecastOther),
        new("cut", Kind.Spread, "Of a cut length, or of a branch's place along a pipe; default 1 mm."),
        new("fitting", Kind.Spread, "Of an elbow or a tee, centre to end; default ASME B16.9."),
        new("reducer", Kind.Spread, "Of a reducer's length; default ASME B16.9."),
        new("flange", Kind.Spread, "Of a flange's length; default ASME B16.5."),
        new("set", Kind.SpreadAngle, "What a spool set by a level or a string keeps, degrees; default 0.1."),
        new("height", Kind.Spread, "Of a support that is set with a level; default 1 mm."),
        new("supports", Kind.Names, "Supports that are set to their height with a level: [PS-11]."),
        new("in line", Kind.Names, "Spools that are set in line: [spool 3]."),
        new("level", Kind.Names, "Spools that are set with a level: [spool 3]."));

    public static readonly Shape Split = new("split",
        new("every", Kind.Length, "Places tried on straight pipe; default 500 mm."),
        new("directions", Kind.Choice, "Whether final-fit welds have to take up all directions of the pipes on the way; default one.", Words: ["one", "all"]),
        new("floor", Kind.Place, "Elevation that people stand on: {up: 0}."),
        new("field", Kind.Number, "Cost of a field weld for each inch of its size; default 1."),
        new("final-fit", Kind.Number, "Of a final-fit weld; default 1.6."),
        new("new place", Kind.Number, "More where no weld is drawn; default 0.5."),
        new("off level", Kind.Number, "More on a pipe over 5 degrees off level; default 0.3."),
        new("near fitting", Kind.Number, "More within one diameter of a fitting; default 0.3."),
        new("high", Kind.Number, "More at over 2 m above the floor; default 0.2."),
        new("three directions", Kind.Number, "For a spool whose pipes have three directions, by its largest size; default 0.5."));

    public static readonly Shape HoldPoint = new("hold point",
        new("before", Kind.Choice, "The step that waits.", IsRequired: true, Words: [.. Drawings.HoldPoint.Steps]),
        new("needs", Kind.Choice, "What must be on record before.", IsRequired: true, Words: [.. Drawings.HoldPoint.Words]),
        new("by", Kind.Text, "Name or role of whoever must have said it; left out where anybody may."));

    public static readonly Shape Bolting = new("bolting rule",
        new("stress", Kind.Text, "Target stress of the bolts by the bolting procedure: 345 MPa, 50 ksi.", IsRequired: true),
        new("area", Kind.Choice, "On which area of the thread the stress is meant: root (ASME PCC-1's table) or stress; they differ by 4 to 11 %.", IsRequired: true, Words: FileWords.BoltAreas),
        new("nut factor", Kind.Number, "Torque against diameter and load, of the lubricant.", IsRequired: true),
        new("lubricant", Kind.Text, "For which the nut factor holds."),
        new("source", Kind.Text, "Whose figures they are: the bolting procedure with its number.", IsRequired: true));

    public static readonly Shape Welding = new("welding figures",
        new("process", Kind.Choice, "What is bought for shop welds; left out, it is reckoned as for stick electrodes, and the lists say so.", Words: FileWords.Fillers),
        new("field process", Kind.Choice, "What is bought for welds at site; default as in the shop.", Words: FileWords.Fillers),
        new("electrode", Kind.Length, "Length of the stick electrodes."),
        new("stub", Kind.Length, "Length of the stubs that are thrown away; default 50 mm."),
        new("efficiency", Kind.Number, "Weld metal against filler bought, 0 to 1, by the shop's own use; in place of the published figures."),
        new("cap", Kind.Length, "Height of a cap for the weld metal; default 1.5 mm."),
        new("root", Kind.Length, "Height of a root inside for the weld metal; default 1 mm."));

    public static readonly Shape Test = new("pressure test",
        new("pack", Kind.Text, "Name of the test pack."),
        new("medium", Kind.Choice, "What it is tested with; default water.", Words: FileWords.TestMedia),
        new("pressure", Kind.Text, "Test pressure with its unit, set by the test engineer; default the service's test pressure."),
        new("at", Kind.Place, "Where that pressure is asked: {up: 900}; default at the gauge, or else at the highest point."),
        new("gauge", Kind.Place, "Where the gauge stands: {up: 1200}; default where the pressure is asked."),
        new("stress ratio", Kind.Number, "Allowable stress at the test temperature against that at the design temperature, from the engineer: a hotter design asks for more water pressure."),
        new("hold", Kind.Text, "How long it is held, set by the test engineer: 30 min."));

    public static readonly Shape LiftPoint = new("lifting point",
        new("piece", Kind.Text, "Mark of the piece of pipe: 3-B.", IsRequired: true),
        new("at", Kind.Length, "From the end of the piece where it starts.", IsRequired: true),
        new("sling", Kind.Length, "Length of the sling from the hook to here."));

    public static readonly Shape Shop = new("shop",
        new("root gap", Kind.Length, "Root gap of a butt weld; default 3.2 mm."),
        new("branch gap", Kind.Length, "Root gap between a stub-in and its header, taken off the branch; default the root gap."),
        new("outlet gap", Kind.Length, "Root gap between an outlet and its header, taken off the branch; default 0: makers' heights count from the header's outside."),
        new("shrinkage", Kind.Length, "The shop's measured mean shortening of one butt weld: added to the pipe, whole at a fitting, half at another pipe."),
        new("makeup gap", Kind.Choice, "Whether fitting-to-fitting distances count the root gap.", Words: ["counted", "ignored"]),
        new("final fit extra", Kind.Length, "Left on the pipe at a final-fit weld; default 100 mm, in a drawing in inches too."),
        new("kerf", Kind.Length, "Width of the saw cut; default 3 mm."),
        new("shortest pipe", Kind.Length, "Shortest pipe that can be clamped and welded; default 100 mm."),
        new("stock", Kind.Lengths, "Stock lengths; default 6000 and 12000 mm."),
        new("envelope", Kind.Map, "The largest and heaviest spool that can be carried.", Of: Envelope),
        new("socket gap", Kind.Length, "How far a pipe stays off the bottom of its socket; default 1.6 mm."),
        new("weld spacing", Kind.Length, "Shortest distance between two butt welds; default one outside diameter, at least 50 mm."),
        new("hi-lo", Kind.Length, "Greatest step between two insides at a weld; default 1.5 mm."),
        new("gap variation", Kind.Length, "Greatest change of the root gap round a final-fit weld; default 0.8 mm."),
        new("on end limit", Kind.Length, "Longest piece stood on end for fit-up; default 1200 mm."),
        new("on end height", Kind.Number, "How high the centre of mass may stand over the plate on end, in breadths of the base, before it is tied back; default 3."),
        new("stand height", Kind.Length, "Underside of the pipe on stands over the floor; default 900 mm, 3'-0 in a drawing in inches."),
        new("highest stand", Kind.Length, "Highest that stands are screwed up; default 1250 mm."),
        new("vice limit", Kind.Number, "Heaviest that is held in a pipe vice, kg; default 25."),
        new("linear tolerance", Kind.Length, "Linear fabrication tolerance; default by size (PFI ES-3)."),
        new("angular tolerance", Kind.Angle, "Angular fabrication tolerance, degrees; default PFI ES-3."),
        new("measured", Kind.Measured, "Measured take-offs: {item 2: {take-off: 230.5}}."),
        new("forecast", Kind.Map, "How far each thing may be out: a limit either way, or {normal: 0.5} for a standard deviation.", Of: Forecast),
        new("split", Kind.Map, "How lines are split into spools, and what each mark costs.", Of: Split),
        new("hold points", Kind.List, "Whose word is needed before which step: - {before: welded, needs: fit-up seen, by: inspector}.", Of: HoldPoint),
        new("bolting", Kind.Map, "What bolts are drawn to, by the bolting procedure; without it no torque is printed.", Of: Bolting),
        new("welding", Kind.Map, "Figures for the weld metal and what is bought for it.", Of: Welding));

    public static readonly Shape Item = new("material item",
        new("item", Kind.Whole, "Number in the material list.", IsRequired: true),
        new("what", Kind.Text, "What it is: pipe, elbow 90 LR, flange WN RF ...", IsRequired: true),
        new("size", Kind.Sizes, "Nominal size, or two of them: 8 x 6."),
        new("size 2", Kind.Size, "The second size of a reducer or a reducing tee."),
        new("schedule", Kind.Text, "Pipe schedule."),
        new("class", Kind.Text, "Class."),
        new("bore", Kind.Text, "Schedule to which a weld-neck flange is bored."),
        new("material", Kind.Text, "Material."),
        new("length", Kind.Length, "Length of a bolt or a nipple."),
        new("thickness", Kind.Length, "Thickness of a gasket."),
        new("quantity", Kind.Quantity, "A count, or a length with a unit."),
        new("unit", Kind.Text, "Unit of the quantity where it stands in a column of its own: m, mm, ft, in, each."),
        new("heat", Kind.Text, "Heat number."),
        new("note", Kind.Text, "Anything else."));

    public static readonly Shape Start = new("start",
        new("to", Kind.Choice, "What stands at the start.", Words: StartWords),
        new("at", Kind.Place, "Its work point: {east: 0, north: 0, up: 0}."),
        new("from", Kind.Text, "Name of a tee, outlet or stub-in of another run: the run starts at its free end."),
        new("ends", Kind.Choice, "Preparation of an open end, or how a cap takes the pipe.", Words: ["bevel", "plain", "threaded", "butt", "socket"]),
        new("holes", Kind.Holes, "Bolt holes of a flange: straddle, on-centre or an angle."),
        new("holes from", Kind.Direction, "Reference line of the bolt holes."),
        new("bolting", Kind.Choice, "Who lists the gasket and bolts of an end flange.", Words: ["here", "by others"]),
        new("blinded", Kind.YesNo, "A blind flange with its gasket and studs closes an end flange."),
        new("continues", Kind.Text, "The drawing that goes on from here."),
        new("item", Kind.Whole, "Material-list item of what stands at the start."),
        new("spool", Kind.Text, "Spool of what stands at the start."));

    public static readonly Shape Between = new("plate between two flanges",
        [.. InLineItemPoint.InJoints.Select(word => new Key(word, Kind.Length, $"Thickness of the {word}; a gasket lies on each side."))]);

    public static readonly Shape Leg = new("leg",
    [
        new("go", Kind.Go, "Direction, or a vector of lengths in any of the six words.", IsRequired: true),
        new("by", Kind.By, "Distance to the next work point, makeup where the next fitting stands directly on the last one, or return where the elbows at both ends are one return bend; left out where the vector's own length holds."),
        new("to", Kind.Choice, "What stands at the leg's end.", IsRequired: true, Words: ToWords),
        new("name", Kind.Text, "Name by which another run can start here."),
        new("fall", Kind.Slope, "Slopes a level leg down: 1:100; the distance is then its level length."),
        new("rise", Kind.Slope, "Slopes a level leg up."),
        new("begin", Kind.Choice, "The weld at the start of the leg.", Words: FileWords.Welds),
        new("end", Kind.Choice, "The weld at the end of the leg.", Words: FileWords.Welds),
        new("begin number", Kind.Text, "The office's number of the weld at the start of the leg."),
        new("end number", Kind.Text, "The office's number of the weld at the end of the leg; it is kept beside ours."),
        new("nipple", Kind.Length, "The leg's pipe is a nipple, bought at this length; with `by: makeup` the distance follows from it. Of a drain or a vent: the nipple on its outlet, and the one behind its valve."),
        new("spool", Kind.Text, "Spool that the component belongs to."),
        new("item", Kind.Whole, "Material-list item of the component."),
        new("pipe item", Kind.Whole, "Material-list item of the leg's pipe."),
        new("at", Kind.Place, "The stated place of the work point, checked against the route."),
        new("note", Kind.Text, "Anything else."),
        new("test", Kind.Choice, "out: what stands here is taken out for the pressure test and put back after it.", Words: ["out"]),
        .. LineKeys,
        new("radius", Kind.Choice, "Of an elbow.", Words: FileWords.Radii),
        new("bend radius", Kind.Length, "Of a bend that the shop makes, of its middle line."),
        new("cuts", Kind.Whole, "Mitre welds of a mitred bend, 2 to 5."),
        new("straight", Kind.Length, "Straight pipe at each end of a bend that the shop makes; default 0."),
        new("branch", Kind.Direction, "Direction of the branch."),
        new("branch size", Kind.Size, "Of a reducing tee."),
        new("long end", Kind.Length, "Of a lateral, from where its middle lines meet to the end of its run to which the branch leans."),
        new("short end", Kind.Length, "Of a lateral, to the other end of its run."),
        new("branch end", Kind.Length, "Of a lateral, to the end of its branch."),
        new("enter", Kind.Choice, "Where the line comes into a tee.", Words: ["run", "branch"]),
        new("kind", Kind.Choice, "Of a reducer, a valve, a support, or of what a drain or a vent is set on with.", Words: [.. FileWords.ReducerKinds, .. FileWords.ValveKinds, .. FileWords.SupportKinds, .. FileWords.DrainKinds]),
        new("flat", Kind.Flat, "Flat side of an eccentric reducer: top, bottom or a direction."),
        new("branch schedule", Kind.Text, "Schedule of a drain's or a vent's nipples; default the line's."),
        new("valve", Kind.Choice, "Of a drain or a vent; default gate.", Words: FileWords.DrainValves),
        new("closed by", Kind.Choice, "What closes a drain or a vent behind its valve: a plug (default where threaded), a cap on a second nipple (default with sockets), an open nipple, or nothing.", Words: FileWords.DrainClosings),
        new("pad", Kind.YesNo, "A reinforcing pad at a stub-in; its measures say so too."),
        new("pad width", Kind.Length, "Of a reinforcing pad, from the branch's outside to its edge, on the plate."),
        new("pad thickness", Kind.Length, "Of a reinforcing pad; default the header's wall."),
        new("ends", Kind.Choice, "How a fitting takes the pipe, or the preparation of an open end.", Words: ["butt", "socket", "threaded", "flanged", "wafer", "bevel", "plain"]),
        new("fitting class", Kind.Text, "Class of a socket-weld or threaded fitting."),
        new("large end", Kind.Choice, "Of a swage: bevel, plain (into a socket) or threaded; default as the line's ends.", Words: FileWords.SwageEnds),
        new("small end", Kind.Choice, "Of a swage, likewise.", Words: FileWords.SwageEnds),
        new("what", Kind.Text, "What an in-line item is: strainer, flow meter, expansion joint, orifice plate, spacer."),
        new("face to face", Kind.Length, "Of a valve, where it overrides the table; of an in-line item or a union, over its faces or ends; of a swage, its length where it overrides the table."),
        new("stem", Kind.Direction, "Direction of a valve's stem."),
        new("mass", Kind.Mass, "Of a valve, a lateral, a union, an in-line item or what lies between two flanges, from the maker's sheet; of a support; kg."),
        new("attach", Kind.Choice, "How a support holds its pipe: shoe, anchor, trunnion and lug are welded unless this says otherwise, the others clamped.", Words: FileWords.Attachments),
        new("tag", Kind.Text, "The support drawing's name for a support; else PS1, PS2 ... along the line."),
        new("side", Kind.Direction, "Side of the pipe on which a support stands; else under it, a hanger over it."),
        new("height", Kind.Length, "Of a support, from the pipe's outside to the steel that it stands on or hangs from; of an outlet, from its header's outside to its end along the branch, where it overrides the table or the outlet leans."),
        new("length", Kind.Length, "How much of the pipe a support covers; of what is written `in-line`, over its faces or ends."),
        new("holes", Kind.Holes, "Bolt holes of a flange: straddle, on-centre or an angle."),
        new("holes from", Kind.Direction, "Reference line of the bolt holes."),
        new("between", Kind.Plate, "Of a joint: what lies between its two flanges, with its thickness: {spacer: 20}.", Of: Between),
        new("bolting", Kind.Choice, "Who lists the gasket and bolts of an end flange.", Words: ["here", "by others"]),
        new("blinded", Kind.YesNo, "A blind flange with its gasket and studs closes an end flange."),
        new("continues", Kind.Text, "The drawing that goes on from here."),
        new("with", Kind.Text, "Name of the tee, outlet or stub-in at which the run ends."),
    ]);

    public static readonly Shape Run = new("run",
    [
        new("run", Kind.Text, "Name of the run.", IsRequired: true),
        new("start", Kind.Map, "Where the run begins.", IsRequired: true, Of: Start),
        new("legs", Kind.List, "The legs, in order.", IsRequired: true, Of: Leg),
        new("flow", Kind.Choice, "Which way the fluid goes: along the run as written, or against it.", Words: ["along", "against"]),
        .. Line.Keys,
    ]);

    public static readonly Shape Accept = new("accepted finding",
        new("rule", Kind.Text, "Name of the rule.", IsRequired: true),
        new("at", Kind.Text, "The place: leg 3 of main, start of main, item 4, or a path in quotes such as \"runs[0].legs[2]\"; left out for the whole drawing."),
        new("why", Kind.Text, "The reason; it stays on the cover sheet.", IsRequired: true));

    public static readonly Shape Drawing = new("drawing",
        new("drawing", Kind.Text, "The drawing's number.", IsRequired: true),
        new("revision", Kind.Text, "The drawing's revision."),
        new("title", Kind.Text, "What the drawing shows."),
        new("units", Kind.Choice, "Unit of bare numbers: mm (default) or in.", Words: ["mm", "in"]),
        new("line", Kind.Map, "What every leg has unless it says otherwise.", IsRequired: true, Of: Line),
        new("service", Kind.Map, "What the line carries.", Of: Service),
        new("shop", Kind.ShopFile, "The shop's rules, or the file that holds them.", Of: Shop),
        new("materials", Kind.Materials, "The material list, or the file that holds it.", Of: Item),
        new("runs", Kind.List, "The runs.", IsRequired: true, Of: Run),
        new("forecast", Kind.Map, "How far each thing may be out: a limit either way, or {normal: 0.5} for a standard deviation; on top of the shop's.", Of: Forecast),
        new("split", Kind.Map, "How the line is split into spools, and what each mark costs; on top of the shop's.", Of: Split),
        new("test", Kind.Map, "The pressure test of the line.", Of: Test),
        new("lift", Kind.List, "Where slings are made fast, spool by spool; two on a spool, or three or four. Without it the program proposes them.", Of: LiftPoint),
        new("accept", Kind.List, "Findings that the drawing accepts, each with its reason.", Of: Accept));
}
