using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A fit-up card in words: how it stands, what is brought, what stays from joints before. In the drawing's units.</summary>
/// <param name="Units">mm, or feet and sixteenths.</param>
/// <param name="NameOf">What a part is called for people, by id.</param>
public sealed record FitWords(Units Units, Func<string, string> NameOf)
{
    private bool IsInches => Units == Units.Inches;

    /// <summary>Words about a joint in which no part is named by itself.</summary>
    internal static FitWords Of(FitJoint joint) => In(joint.Units);

    /// <summary>Words in which no part is named at all: figures of readings.</summary>
    public static FitWords In(Units units) => new(units, id => id);

    /// <summary>A length in a sentence: "1265.6 mm", or feet and sixteenths.</summary>
    public string Said(double mm) => IsInches ? LengthText.FeetInches(mm) : Text($"{mm:0.#} mm");

    /// <summary>A length to one tenth, or in feet and sixteenths; no unit in millimetres.</summary>
    public string Length(double mm) => IsInches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 1);

    // Laid off with a rule, to half a millimetre as on the spool's sheet.
    private string Pins(double mm) => IsInches ? Length(mm) : Text($"{LengthText.Rounded(mm * 2, 0) / 2:0.#}");

    /// <summary>A place or a distance along a pipe: whole millimetres, or feet and sixteenths.</summary>
    public string Place(double mm) => IsInches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 0);

    /// <summary>A short length as a gauge or a feeler shows it: tenths of a millimetre, or thousandths of an inch.</summary>
    public string Small(double mm) => IsInches ? Text($"{(mm / LengthText.Inch) + 0.0:0.000}\"") : Text($"{mm + 0.0:0.0} mm");

    /// <summary>What is set with a rod or read with a gauge that has sixty-fourths: 3/32" where it is one, as it was drawn, 0" for nothing; else as <see cref="Small"/>.</summary>
    public string Gap(double mm)
    {
        var parts = mm / LengthText.Inch * 64;
        // Within a thousandth of an inch.
        return IsInches && Math.Abs(parts - Math.Round(parts)) < 0.064 ? LengthText.Say(Units, $"{mm:gap}") : Small(mm);
    }

    /// <summary>How far a pipe's end stands back in a flange, reckoned: tenths of a millimetre, or the nearest sixty-fourth of an inch.</summary>
    public string SetBack(double mm) => ByGauge(mm);

    // Reckoned, and looked for with a gauge: the nearest sixty-fourth.
    private string ByGauge(double mm) => IsInches ? LengthText.Say(Units, $"{mm:gap}") : Small(mm);

    public string Signed(double mm) => Small(Math.Abs(mm) < (IsInches ? 0.0127 : 0.05) ? 0 : mm);

    /// <summary>A reading's value as it is read off, on paper and on the screen: 612.5; 2'-0 1/8"; a gap by the rod that it is, 1/8", and so what a gauge with sixty-fourths shows; 0.126" for what lies between; 0.30°.</summary>
    public string Show(Reading reading, double value) =>
        reading.IsAngle ? Text($"{NoMinus(Angles.ToDegrees(value), 0.005):0.00}°")
        : !IsInches ? Text($"{NoMinus(value, 0.05):0.0}")
        : IsByGauge(reading) ? Gap(value)
        : LengthText.FeetInches(value);

    /// <summary>A target as it is printed: nobody reads more of a tape than half a millimetre.</summary>
    internal string Printed(Reading reading, double value) => Show(reading, reading.IsByTape && !IsInches ? LengthText.Rounded(value * 2, 0) / 2 : value);

    /// <summary>A reading's value in a sentence, with its unit.</summary>
    public string Told(Reading reading, double value) => Show(reading, value) + (reading.IsAngle || IsInches ? "" : " mm");

    /// <summary>An allowance or a difference of a reading: 1.2; in inches as it is read, 3/8" on a tape, 1/32" on a gauge; thousandths where it is less than either shows.</summary>
    public string ShowSmall(Reading reading, double value) =>
        reading.IsAngle ? Text($"{Angles.ToDegrees(value):0.00}°")
        : !IsInches ? Text($"{value:0.0}")
        : Part(reading, value) is var part && Math.Floor((value + (IsByGauge(reading) ? Unseen : 1e-6)) / part) is var parts && parts < 1 ? Text($"{value / LengthText.Inch:0.000}\"")
        // No more than is allowed.
        : LengthText.Say(Units, $"{parts * part:gap}");

    // So little over what is allowed nobody sees on a gauge with sixty-fourths, and the standards that give both give 1.5 mm beside 1/16".
    private const double Unseen = 0.0035 * LengthText.Inch;

    // The parts of an inch that are read: on a gauge sixty-fourths, on a tape thirty-seconds; of what may be off by more than an inch, eighths.
    private static double Part(Reading reading, double value) => LengthText.Inch / (value > 10 * LengthText.Inch ? 1 : value > LengthText.Inch ? 8 : IsByGauge(reading) ? 64 : 32);

    /// <summary>Whether it is read with a gauge or a feeler and not with a tape.</summary>
    private static bool IsByGauge(Reading reading) => reading is Reading.Gap or Reading.HiLo or Reading.Square or Reading.StraightEdge or Reading.TurnMark || reading.IsOfPart;

    private static double NoMinus(double value, double least) => Math.Abs(value) < least ? 0 : value;

    private string Bare(double kg) => Text($"{(IsInches ? kg / 0.45359237 : kg):0.#}");

    public string Mass(double kg) => IsInches ? Text($"{kg / 0.45359237:0.#} lb") : Text($"{kg:0.#} kg");

    /// <summary>A moment of a weight, given in N m.</summary>
    public string Moment(double newtonMetres) => IsInches ? Text($"{newtonMetres / 1.3558179:0.#} lbf ft") : Text($"{newtonMetres:0.#} N m");

    /// <summary>The first line: the joint, what is held and what is brought.</summary>
    public string Head(FitCard card)
    {
        var (joint, j) = (card.Standing, card.Standing.Joint);
        var marks = joint.HasMarks ? Text($", marks {Place(joint.Mark)} back") : "";
        return Text($"{j.Name}  NPS {j.Size}  hold {Named(j.Held, j.HeldSide)}, {(j.IsRing ? Text($"close the ring at {NameOf(j.New.Id)}") : Text($"bring {Brought(j)}"))}; {joint.SetUp.Word}, root gap {Gap(j.Gap)}{marks}");
    }

    /// <summary>A part with what hangs on it.</summary>
    public string Named(FitPart part, Assembly side) => side.Parts.Length > 1 ? Text($"{NameOf(part.Id)} with {Join(side.Parts.Where(p => p != part).Select(p => NameOf(p.Id)))}") : NameOf(part.Id);

    /// <summary>What is brought, what it weighs and where the hook goes: "C3 with 1-D, 20 kg, centre 310 from its face".</summary>
    public string Brought(FitJoint j)
    {
        var brought = j.Brought;
        var centre = j.Places[j.New.Id].Of(brought.Centre) - j.Centre;
        var mass = brought.Mass > 0 ? Text($"{(brought.Unknown.Count > 0 ? "at least " : "")}{Mass(brought.Mass)}") : "mass not known";
        var where = brought.Mass > 0 ? Text($", centre {Place(centre.Length)} from the weld") : "";
        return Text($"{Named(j.New, brought)}, {mass}{where}{(brought.Unknown.Count > 0 ? Text($" (weigh {Join(brought.Unknown.Select(NameOf))})") : "")}");
    }

    /// <summary>How it stands, line by line: what it stands on, what each stand carries, what keeps it still.</summary>
    public IReadOnlyList<string> Standing(FitCard card)
    {
        var (j, setUp) = (card.Standing.Joint, card.Standing.SetUp);
        List<string> lines = [.. setUp.Stands.Select(stand => Of(j, setUp, stand))];
        if (setUp.StandHeight > 0)
            lines.Add(Text($"underside of {NameOf(setUp.Base)} {Place(setUp.StandHeight)} over the floor"));
        lines.AddRange(Still(card));
        if (!j.IsRing)
            lines.Add("the hook stays on until tacks hold on opposite sides and what carries it after is under it");
        lines.AddRange(setUp.Cautions.Select(c => "mind: " + c));
        return lines;
    }

    /// <summary>The same in few words, for a card: stands by the names that they bear in its picture, and without what is said of the hook.</summary>
    public IReadOnlyList<string> StandingInShort(FitCard card)
    {
        var (j, setUp) = (card.Standing.Joint, card.Standing.SetUp);
        List<string> lines = [];
        var under = setUp.StandHeight > 0 ? Text($"underside {Place(setUp.StandHeight)} up") : "";
        foreach (var group in setUp.Named.Where(n => n.Stand.Kind == SupportKind.Stand).GroupBy(n => n.Stand.Part))
        {
            var each = group.Select(n => Text($"{n.Name} {Place(n.Stand.Along)} from its {EndOf(j, n.Stand)}{Carried(n.Stand)}"));
            lines.Add(Text($"under {j.Both.Parts.First(p => p.Id == group.Key).Label}{(under.Length > 0 ? ", " + under : "")}: {string.Join(", ", each)}"));
            under = "";
        }

        lines.AddRange(setUp.Named.Where(n => n.Stand.Kind != SupportKind.Stand).Select(n => ThirdInShort(j, n.Name, n.Stand)));
        lines.AddRange(setUp.Stands.Where(s => s.Kind is not (SupportKind.Stand or SupportKind.Third)).Select(stand => Of(j, setUp, stand)));
        if (under.Length > 0)
            lines.Add(under);
        lines.AddRange(Still(card, isShort: true));
        lines.AddRange(setUp.Cautions.Select(c => "mind: " + c));
        return lines;
    }

    // What a stand carries, in brackets.
    private string Carried(FitStand stand) => (stand.Before, stand.After) switch
    {
        ({ } before, { } after) => Text($" ({Bare(before)}, then {Mass(after)})"),
        (null, { } after) => Text($" (after {Mass(after)})"),
        ({ } before, null) => Text($" ({Mass(before)}, after: weigh first)"),
        _ => " (weigh first)",
    };

    // A third stand with the name that it bears.
    private string ThirdInShort(FitJoint j, string name, FitStand stand) =>
        Text($"{name}, a third stand or jack {(stand.Before is not null ? "from the beginning" : "set before the hook is let off and screwed up until that is slack")}, under {j.Both.Parts.First(p => p.Id == stand.Part).Label}{(stand.Along >= 1 ? Text($", {Place(stand.Along)} from its {EndOf(j, stand)}") : "")}{Carried(stand)}");

    // What keeps it from rolling on its stands.
    private IEnumerable<string> Still(FitCard card, bool isShort = false)
    {
        if (card.Standing.SetUp.Rolling is not { IsSteady: false } roll)
            yield break;
        var way = Clock(card.Standing, roll.Toward);
        var kept = isShort ? Text($": {roll.KeptBy} on a stand that is fast, no rollers") : Text($". Keep it with a {roll.KeptBy} on a stand that is fast to floor or bench; on rollers it does not stay");
        yield return roll.Moment > 0.5
            ? Text($"it wants to roll{way}{(isShort ? "" : Text($": {(IsInches ? Length(Math.Max(roll.Before, roll.After)) : Small(Math.Max(roll.Before, roll.After)))} beside the axis"))}, {Moment(roll.Moment)}{kept}")
            : Text($"it is top-heavy{kept}");
    }

    private static string EndOf(FitJoint j, FitStand stand)
    {
        var part = j.Both.Parts.First(p => p.Id == stand.Part);
        return Called(part, part.Ends[Math.Min(stand.FromEnd, part.Ends.Count - 1)]);
    }

    // An end as it is found on the floor, however the spool lies there: by its joint.
    private static string Called(FitPart part, FitEnd end) =>
        end.Joint.Length > 0 ? end.Joint + " end" : part.Ends.Count(e => e.Joint.Length == 0) == 1 ? "open end" : Toward(end.Face) + " end as drawn";

    private string Of(FitJoint j, SetUp setUp, FitStand stand)
    {
        var where = stand.Along < 1 ? "" : Text($", {Place(stand.Along)} from its {EndOf(j, stand)}");
        string Loads(string verb) => (stand.Before, stand.After) switch
        {
            ({ } before, { } after) => Text($": {verb} {Mass(before)} before, {Mass(after)} after"),
            (null, { } after) => Text($": {verb} {Mass(after)}"),
            ({ } before, null) => Text($": {verb} {Mass(before)} before; after not known (weigh first)"),
            _ => ": load not known (weigh first)",
        };
        return stand.Kind switch
        {
            SupportKind.Third when stand.Before is not null => Text($"third stand or screw jack under {NameOf(stand.Part)}{where}, from the beginning{Loads("carries")}"),
            SupportKind.Third => Text($"third stand or screw jack under {NameOf(stand.Part)}{where}, set before the hook is let off{Loads("screw it up until the hook is slack; carries")}"),
            SupportKind.TieDown => Text($"tie down {NameOf(stand.Part)}{where} to the floor, or to a weight of one and a half times the pull, never to a loose stand{Loads("pull")}"),
            SupportKind.Base => Text($"stands on {Foot(j, stand)} on {NameOf(stand.Part)}, with a plate or cap under it{Loads("carries")}"),
            SupportKind.TieBack => Text($"tie it back to a post at {NameOf(stand.Part)}, {Place(setUp.HeightOf(stand.At))} over the plate{Loads("hold")}"),
            SupportKind.Clamp => Text($"clamp {NameOf(stand.Part)}: chain it into a V-block on the bench{(stand.After is { } kg && kg <= 25 ? " or hold it in a pipe vice" : j.HeldSide.Parts.Any(p => p.Kind == "flange") ? ", or bolt it by its flange to the fitting table" : "")}")
                + (stand.MomentAfter is { } m ? m < LeastMoment ? stand.After < LeastMass ? "" : Text($"; it bears {Mass(stand.After ?? 0)}") : Text($"; it bears {Mass(stand.After ?? 0)} and {Moment(m)}") : "; what it bears is not known (weigh first)"),
            _ => Text($"stand under {NameOf(stand.Part)}{where}{Loads("carries")}"),
        };
    }

    // A hand holds less, N m and kg: nothing is said of it.
    private const double LeastMoment = 2, LeastMass = 5;

    private static string Foot(FitJoint j, FitStand stand) =>
        j.Both.Parts.FirstOrDefault(p => p.Id == stand.Part)?.Ends.MinBy(e => e.At.To(stand.At))?.StandsOn ?? "its end";

    // The clock position on whose side a level direction lies.
    private static string Clock(StandingJoint joint, Vector way)
    {
        if (way == Vector.Zero)
            return "";
        var at = StandingJoint.Clock.MaxBy(q => joint.Q(q).Dot(way));
        return joint.Q(at).Dot(way) > 0.5 ? Text($" toward {at} o'clock") : Text($" toward the side {(joint.Axis.Dot(way) > 0 ? "of" : "away from")} {joint.Joint.New.Label}");
    }

    internal static string Toward(Vector v)
    {
        var (x, y, z) = (Math.Abs(v.X), Math.Abs(v.Y), Math.Abs(v.Z));
        return z >= x && z >= y ? (v.Z > 0 ? "upper" : "lower") : x >= y ? (v.X > 0 ? "east" : "west") : v.Y > 0 ? "north" : "south";
    }

    /// <summary>What stays from joints before, and where the spool's end would come.</summary>
    public IReadOnlyList<string> Kept(FitCard card)
    {
        List<string> lines = [];
        if (card.DrawnIn.Count > 0)
            lines.Add(Text($"{Join(card.DrawnIn)} {(card.DrawnIn.Count == 1 ? "is welded and has" : "are welded and have")} drawn in by what was allowed for"));
        if (card.Kept.Count > 0)
            lines.Add(Text($"as it stands with what was read at {Join(card.Kept.Select(k => k.Joint))}{(card.Kept.Any(k => k.Unseen.Count > 0) ? "; of " + Join(card.Kept.Where(k => k.Unseen.Count > 0).Select(k => Text($"{k.Joint} the {Join(k.Unseen.Select(i => Remedy.Words[i]))}"))) + " nothing was seen and it counts as true" : "")}"));
        if (card.EndOff is { } off)
        {
            lines.Add(Text($"made true here, {NameOf(off.Part)} at the spool's far end comes {Length(off.Shift.Length)}{(IsInches ? "" : " mm")} off ({Off(off.Shift)}), turned {Angles.ToDegrees(off.Turn):0.00}°"));
            foreach (var by in off.By.Take(2))
                lines.Add(Text($"{by.Joint} takes it back{(by.IsWithin ? ", inside its limits" : ", beyond its own limits")}: {Set(by.By)}"));
        }

        return lines;
    }

    private string Off(Vector shift)
    {
        List<string> parts = [];
        foreach (var (value, plus, minus) in new[] { (shift.X, "east", "west"), (shift.Y, "north", "south"), (shift.Z, "up", "down") })
        {
            if (Math.Abs(value) >= 0.05)
                parts.Add(Text($"{Small(Math.Abs(value))} {(value > 0 ? plus : minus)}"));
        }

        return parts.Count > 0 ? string.Join(", ", parts) : "no shift";
    }

    // A wanted error, as one would set it.
    internal string Set(PoseError e)
    {
        List<string> words = [];
        void Add(bool counts, string text)
        {
            if (counts)
                words.Add(text);
        }

        Add(Math.Abs(e.Z) >= 0.05, Text($"gap {Small(Math.Abs(e.Z))} {(e.Z > 0 ? "wider" : "narrower")}"));
        Add(Math.Abs(e.X) >= 0.05, Text($"{Small(Math.Abs(e.X))} toward {(e.X > 0 ? 3 : 9)}"));
        Add(Math.Abs(e.Y) >= 0.05, Text($"{Small(Math.Abs(e.Y))} toward {(e.Y > 0 ? 12 : 6)}"));
        Add(Math.Abs(e.Rx) >= 5e-4, Text($"lean {Angles.ToDegrees(Math.Abs(e.Rx)):0.00}° toward {(e.Rx > 0 ? 12 : 6)}"));
        Add(Math.Abs(e.Ry) >= 5e-4, Text($"lean {Angles.ToDegrees(Math.Abs(e.Ry)):0.00}° toward {(e.Ry > 0 ? 9 : 3)}"));
        Add(Math.Abs(e.Rz) >= 5e-4, Text($"roll {Angles.ToDegrees(Math.Abs(e.Rz)):0.00}° {(e.Rz > 0 ? "clockwise" : "anticlockwise")}"));
        return words.Count > 0 ? string.Join(", ", words) : "nothing to speak of";
    }

    /// <summary>What a fitter needs beside the readings: a branch's place, the pins, a socket's scribe line.</summary>
    public IReadOnlyList<string> Besides(FitCard card)
    {
        var j = card.Standing.Joint;
        List<string> lines = [];
        if (j.BranchAt is var (along, round))
            lines.Add(Text($"branch centre {Length(along)} from the {Called(j.Held, j.Held.Ends[0])} of {NameOf(j.Held.Id)}, {Length(Math.Abs(round))} round its outside from the top as drawn{(Math.Abs(round) < 0.05 ? "" : round > 0 ? ", clockwise from that end" : ", anticlockwise from that end")}"));
        if (j.Holes is { } holes && j.Far is { } face)
        {
            var up = Math.Abs(face.Normal.Dot(card.Standing.SetUp.Up)) > 0.9 ? (Math.Abs(face.Normal.Y) < 0.9 ? Vector.North : Vector.East) : card.Standing.SetUp.Up;
            var (_, apart, over) = holes.Pair(face.Normal, up);
            var pair = holes.MidHeight ? "left and right, near mid-height" : over ? "the pair with one hole between them" : "";
            lines.Add(Text($"pins {Pins(apart)} apart{(pair.Length > 0 ? Text($" ({pair}); chord between neighbours {Pins(holes.Chord)}, half of it {Pins(holes.Chord / 2)}") : Text($", half {(IsInches ? LengthText.Say(Units, $"{holes.Chord / 2:gap}") : Pins(holes.Chord / 2))}"))}; {Gap(1.6)} round the bolt circle shows {ByGauge(holes.Shows(1.6, face.Normal, up))} over these pins"));
        }

        if (j.Weld == FitWeld.Socket)
            lines.Add(IntoSocket(j));
        if (card.InTheHeat.Count > 0)
            lines.Add(Text($"{Join(card.InTheHeat.Select(p => NameOf(p.Id)))} in the heat of this weld: soft parts out or kept cool, open or shut as its maker says"));
        if (card.Screwed.Count > 0)
            lines.Add(Text($"not before this weld is cold, screw on {Join(card.Screwed.Select(s => Text($"{NameOf(s.Part.Id)} ({s.Thread.Id}{Points(s)})")))}; heat spoils seats and seal"));
        return lines;
    }

    // Where a screwed part must point when it is made up; what is round points nowhere.
    private static string Points(ScrewedOn screwed) =>
        screwed.Part.Of is Routes.Valve { Kind: not Drawings.ValveKind.Check, Path: > 0 } valve ? Text($", stem {OpenEnd.Way(valve.Stem)} as drawn")
        : screwed.Part.Ends.FirstOrDefault(e => Math.Abs(e.Face.Dot(screwed.Part.Ends[0].Face)) < 0.9) is { } aside ? Text($", outlet {OpenEnd.Way(aside.Face)} as drawn")
        : "";

    /// <summary>How a pipe is set in a socket.</summary>
    public string IntoSocket(FitJoint j) => Text($"push it to the bottom, scribe the pipe at the socket's face, draw it back {Gap(j.Gap)} and tack: the scribe line stands {Gap(j.Gap)} out");

    internal static string Join(IEnumerable<string> words)
    {
        var all = words.ToList();
        return all.Count < 2 ? string.Concat(all) : string.Join(", ", all[..^1]) + " and " + all[^1];
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
