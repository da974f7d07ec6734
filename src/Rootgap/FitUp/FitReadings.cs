using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>One reading of a readings file with its place.</summary>
public sealed record FitEntry(Taken Taken, Place Where);

/// <summary>A readings file as far as it could be read, with all that is wrong with it.</summary>
/// <param name="Joint">The joint that the file names; empty where it names none.</param>
/// <param name="SetUp">The set-up that it was read in; null where it does not say.</param>
/// <param name="Mark">Distance of the marks, mm; null where it does not say.</param>
/// <param name="Held">The part that was held; empty where it does not say.</param>
/// <param name="Entries">The readings, in order.</param>
/// <param name="Errors">What could not be read.</param>
public sealed record FitReadings(string Joint, (Attitude Attitude, double Roll)? SetUp, double? Mark, string Held, IReadOnlyList<FitEntry> Entries, IReadOnlyList<Finding> Errors)
{
    /// <summary>The joint's error as it is given in place of readings, mm and radians; null where there are readings.</summary>
    public PoseError? Error { get; init; }

    /// <summary>
    /// What the sets say of a joint; null where they say nothing. The last that gives readings or an error counts; where one after it only says that it is welded, it has drawn in since.
    /// </summary>
    public static JointAsMade? Made(IReadOnlyList<FitReadings> sets, string joint)
    {
        var own = sets.Where(s => s.Joint.Equals(joint, StringComparison.OrdinalIgnoreCase)).ToList();
        if (own.Count == 0)
            return null;
        var last = own.FindLast(s => s.Error is not null || s.Entries.Count > 0) ?? own[^1];
        return new(last.Error is null ? [.. last.Entries.Select(e => e.Taken)] : null, last.Error, last.Mark, last.IsWelded) { HasDrawnIn = own.SkipWhile(s => s != last).Any(s => s.IsWelded) };
    }

    /// <summary>Read after welding.</summary>
    public bool IsWelded { get; init; }

    /// <summary>Where in the file the set stands.</summary>
    public Place Where { get; init; }

    private static readonly string[] Keys = ["joint", "readings", "set-up", "mark", "held", "new", "drawing", "revision", "taken", "by", "error", "sd", "within", "unseen", "say", "allow", "joints", "where", "verdict", "state"];
    private static readonly string[] EntryKeys = ["read", "at", "mm", "in", "deg", "degrees", "along", "across", "station", "sd"];
    private static readonly string[] Words = ["gap", "hi-lo", "tape", "scale to pipe", "face level", "height", "plumb", "holes", "flat level", "diagonal", "square", "straight edge", "turn mark", "hole line", "out of square", "out of round", "end tape"];

    /// <summary>Reads a readings file, or a record of a joint: of several measurements in a list the last one counts.</summary>
    public static FitReadings Read(string text, string file)
    {
        var (sets, errors) = ReadAll(text, file);
        return sets.Count > 0 ? sets[^1] with { Errors = errors } : new("", null, null, "", [], errors);
    }

    /// <summary>Reads a readings file of one joint or of many (<c>joints:</c>), or a record: a list of measurements.</summary>
    public static (IReadOnlyList<FitReadings> Sets, IReadOnlyList<Finding> Errors) ReadAll(string text, string file)
    {
        var errors = new ReadingErrors();
        void Error(Place where, string message, string remedy) => errors.Add("bad-reading", where, "", message, remedy);
        var root = YamlTree.Read(text, file, Error);
        List<FitReadings> sets = [];
        switch (root)
        {
            case YamlList list:
                foreach (var node in list.Items)
                    Add(node);
                break;
            case YamlMap map when map["joints"] is { } joints:
                foreach (var (key, _) in map.Pairs)
                {
                    if (key.Value is not ("joints" or "drawing" or "revision" or "by" or "taken"))
                        Error(key.Where, $"Beside `joints:` there is no key \"{key.Value}\".", "Put it into the joint that it belongs to.");
                }

                if (joints is YamlList { Items: var many })
                {
                    foreach (var node in many)
                        Add(node, needsJoint: true);
                }
                else
                {
                    Error(joints.Where, "`joints:` is a list.", "Write under it one line a joint, such as `- {joint: W3, readings: [...]}`.");
                }

                break;
            case { } node:
                Add(node);
                break;
            default:
                if (errors.Count == 0)
                    Error(new(file, 1, 1, 2), "A readings file is written as keys and values.", "Begin with `joint: W3` and `readings:` with one line a reading.");
                break;
        }

        return (sets, errors.InOrder);

        void Add(YamlNode node, bool needsJoint = false)
        {
            if (node is YamlMap map)
                sets.Add(One(map, needsJoint, Error));
            else
                Error(node.Where, "A readings file is written as keys and values.", "Begin with `joint: W3` and `readings:` with one line a reading.");
        }
    }

    private static FitReadings One(YamlMap map, bool needsJoint, Action<Place, string, string> error)
    {
        var row = new ReadingRow(map, error);
        row.Keys("A readings file", Keys);
        if (needsJoint && row.Word("joint") is null)
            row.Error(row.Where, "This set does not say at which joint it was read.", "Add `joint: W3`.");
        (Attitude, double)? setUp = null;
        if (row.Word("set-up") is { } attitude && (setUp = FitUp.SetUp.Parse(attitude)) is null)
            row.Error("set-up", $"\"{attitude}\" is not a set-up.", $"It is one of: {FitUp.SetUp.Words}.");
        row.State("a joint");
        var isWelded = row.Is("state", "welded");
        List<FitEntry> entries = [];
        PoseError? given = null;
        if (row["readings"] is YamlList list)
        {
            foreach (var node in list.Items)
                Entry(node, entries, error);
        }
        else if (row["readings"] is null && row["error"] is YamlMap components)
        {
            given = Given(components, error);
        }
        else if (row["readings"] is not null || !isWelded)
        {
            row.Error("readings", "There is no list of readings.", "Write `readings:` and under it a line such as `- {read: tape, at: 3, mm: 612.5}`; or, from a survey, `error: {x: 0.5, rz: 0.8}`.");
        }

        return new(row.Word("joint") ?? "", setUp, row.Number("mark"), row.Word("held") ?? "", entries, []) { Error = given, Where = row.Where, IsWelded = isWelded };
    }

    // mm and degrees; what is left out is none.
    private static PoseError Given(YamlMap map, Action<Place, string, string> error)
    {
        var row = new ReadingRow(map, error);
        Span<double> e = stackalloc double[6];
        foreach (var (key, node) in map.Pairs)
        {
            var i = PoseError.Names.ToList().IndexOf(key.Value);
            if (i < 0)
                error(key.Where, $"An error has no component \"{key.Value}\".", "It has x, y, z in mm and rx, ry, rz in degrees.");
            else if (row.Number(key.Value) is not { } value)
                continue;
            else if (Math.Abs(value) > (i < 3 ? 500 : 45))
                error(node.Where, Text($"An error of {value:0.##} in {key.Value} is no error of fitting up."), "It is in mm, or in degrees.");
            else
                e[i] = i < 3 ? value : Angles.ToRadians(value);
        }

        return PoseError.From(e);
    }

    /// <summary>What is wrong with the readings at this joint: a reading that does not exist there or cannot be; null where nothing is.</summary>
    public static (string Message, string Remedy)? Wrong(Taken taken, StandingJoint joint)
    {
        var (reading, value) = (taken.Reading, taken.Value);
        if (reading is Reading.Gap or Reading.HiLo ? reading.WhyNot(joint) is not null : CannotBe(reading, joint))
            return ($"There is no {reading.Text} at {joint.Joint.Name}: {reading.WhyNot(joint) ?? "it has nothing to be read on"}.", "Take one of the readings on its card: `rootgap fit` without readings lists them.");
        if (reading.IsAngle)
        {
            return Math.PI / 2 < Math.Abs(value)
                ? (Text($"A {reading.Text} of {Angles.ToDegrees(value):0.##} degrees cannot be."), "A slope lies between -90 and 90 degrees to the horizontal.")
                : null;
        }

        var words = FitWords.Of(joint.Joint);
        var said = Text($"A {reading.Text} of {words.Said(value)}");
        if (value < 0 && reading is not (Reading.HiLo or Reading.Gap or Reading.Square or Reading.StraightEdge or Reading.TurnMark or Reading.OutOfSquare))
            return ($"{said} cannot be.", "Write the distance without a minus sign.");
        if (reading is Reading.Gap or Reading.HiLo && 100 < Math.Abs(value))
            return ($"{said} cannot be read with a gauge.", "Is the decimal point in its place?");
        if (reading is Reading.Tape or Reading.Diagonal or Reading.Plumb or Reading.EndTape && joint.Joint.SpoolReach + 50 < value)
            return ($"{said} is longer than the whole spool ({words.Said(joint.Joint.SpoolReach)}).", $"It should be about {words.Said(reading.Measure(joint, PoseError.None))}: is the decimal point in its place?");
        return null;
    }

    // Geometry that the reading needs is not there. A line of sight that is blocked by drawing is left to the fitter, who took the reading.
    private static bool CannotBe(Reading reading, StandingJoint joint) => reading switch
    {
        Reading.Tape t => joint.Joint.Far is null || !joint.MarkExists(t.At),
        Reading.Plumb p => joint.Joint.Far is null || !joint.MarkExists(p.At),
        Reading.Height => reading.WhyNot(joint) is not null,
        Reading.Scale or Reading.Holes or Reading.FlatLevel or Reading.FaceLevelAlong or Reading.FaceLevelAcross or Reading.Square or Reading.StraightEdge or Reading.HoleLine or Reading.TurnMark or Reading.OutOfSquare =>
            reading.WhyNot(joint) is not null and not "the parts stand in the scale's way",
        Reading.Diagonal => joint.Joint.Far is null,
        Reading.EndTape => joint.Joint.Far is null || joint.Joint.HeldEndFace is null,
        _ => false,
    };

    /// <summary>A reading by its words, for a prompt; null where they are none.</summary>
    public static Reading? Find(string name, int? at, double? station, string? way) => name switch
    {
        "gap" when at is { } q => new Reading.Gap(q),
        "hi-lo" when at is { } q => new Reading.HiLo(q),
        "tape" when at is { } q => new Reading.Tape(q),
        "plumb" when at is { } q => new Reading.Plumb(q),
        "diagonal" when at is { } q => new Reading.Diagonal(q),
        "height" => new Reading.Height(at),
        "scale to pipe" when station is { } s => new Reading.Scale(s),
        "face level" => way == "across" ? new Reading.FaceLevelAcross() : new Reading.FaceLevelAlong(),
        "holes" => new Reading.Holes(),
        "flat level" => new Reading.FlatLevel(),
        "square" when at is { } q => new Reading.Square(q),
        "straight edge" when at is { } q => new Reading.StraightEdge(q),
        "turn mark" => new Reading.TurnMark(),
        "out of square" when at is { } q => new Reading.OutOfSquare(q),
        "out of round" => new Reading.OutOfRound(),
        "end tape" when at is { } q => new Reading.EndTape(q),
        "hole line" => new Reading.HoleLine(),
        _ => null,
    };

    private static void Entry(YamlNode node, List<FitEntry> entries, Action<Place, string, string> error)
    {
        if (node is not YamlMap map)
        {
            error(node.Where, "A reading is written {read: tape, at: 3, mm: 612.5}.", "Put the reading into braces.");
            return;
        }
        var row = new ReadingRow(map, error);
        row.Keys("A reading", EntryKeys);
        if (row.Reads(Words, "") is not { } name)
            return;
        var sd = row.Spread();
        double? Angle(double? degrees) => degrees is { } d ? Angles.ToRadians(d) : null;
        if (name == "face level")
        {
            var before = entries.Count;
            foreach (var way in (string[])["along", "across"])
            {
                if (Angle(row.Number(way)) is { } slope)
                    entries.Add(new(new(Find(name, null, null, way)!, slope, Angle(sd)), map[way]!.Where));
            }

            if (entries.Count == before && !row.IsBad)
                row.Error(row.Where, "This face level has no value.", "Write `along:` or `across:` with degrees.");
            return;
        }

        if (name == "scale to pipe")
        {
            if ((row.Number("station") ?? row.Number("at")) is not { } station)
                row.Error(row.Where, "This scale has no station.", "Write `station:` with the distance back from the weld, mm.");
            else if (row.Length(name) is { } mm)
                entries.Add(new(new(new Reading.Scale(station), mm, sd), row.Where));
            return;
        }

        var at = Clock(row, name is "gap" or "hi-lo");
        if (row.IsBad)
            return;
        if (Find(name, at, null, null) is not { } reading)
            row.Error(row.Where, $"This {name} has no clock position.", "Add `at:` with 12, 3, 6 or 9.");
        else if (!reading.IsAngle && row.Length(name) is { } mm)
            entries.Add(new(new(reading, mm, sd), (map["mm"] ?? map).Where));
        else if (reading.IsAngle && Angle(row.Number("deg") ?? row.Number("degrees")) is { } angle)
            entries.Add(new(new(reading, angle, Angle(sd)), row.Where));
        else if (reading.IsAngle)
            row.Error(row.Where, $"This reading of {name} has no value.", "Write `deg:` with the level's reading in degrees.");
    }

    // Gaps and steps are read at any hour: so the least and the greatest, and where they are.
    private static int? Clock(ReadingRow row, bool anyHour)
    {
        if (row.Word("at") is not { } text)
            return null;
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && (anyHour ? at is >= 1 and <= 12 : StandingJoint.Clock.Contains(at)))
            return at;
        row.Error("at", anyHour ? $"There is no hour \"{text}\" on a clock." : $"There is no mark at \"{text}\" o'clock.", anyHour ? "Gaps and hi-lo are read at the hours 1 to 12." : "Readings are taken at 12, 3, 6 and 9 o'clock.");
        return null;
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
