namespace Rootgap.Records;

/// <summary>Which weld of a joint is meant: the first, the one after so many repairs, or after it was cut out so many times. <c>W7</c>, <c>W7 R1</c>, <c>W7 C1</c>, <c>W7 C1 R1</c>.</summary>
public readonly record struct WeldMark(int CutOut, int Repair) : IComparable<WeldMark>
{
    /// <summary>The weld as it was made first.</summary>
    public static readonly WeldMark First;

    /// <summary>The weld after this one was repaired or cut out.</summary>
    public WeldMark Next(bool isCutOut) => isCutOut ? new(CutOut + 1, 0) : new(CutOut, Repair + 1);

    /// <summary>As it is written: empty for the first weld.</summary>
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture,
        $"{(CutOut > 0 ? $"C{CutOut}" : "")}{(CutOut > 0 && Repair > 0 ? " " : "")}{(Repair > 0 ? $"R{Repair}" : "")}");

    /// <summary>The weld's number: <c>W7 R1</c>.</summary>
    public string Of(string joint) => this == First ? joint : $"{joint} {this}";

    /// <summary>Reads <c>R1</c>, <c>C1</c>, <c>C1 R1</c>; null where it is none of these.</summary>
    public static WeldMark? Parse(string text)
    {
        var mark = First;
        foreach (var word in text.ToUpperInvariant().Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (word.Length < 2 || !int.TryParse(word.AsSpan(1), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var n) || n is < 1 or > 99)
                return null;
            if (word[0] == 'C' && mark == First)
                mark = new(n, 0);
            else if (word[0] == 'R' && mark.Repair == 0)
                mark = mark with { Repair = n };
            else
                return null;
        }

        return mark;
    }

    public int CompareTo(WeldMark other) => (CutOut, Repair).CompareTo((other.CutOut, other.Repair));

    public static bool operator <(WeldMark left, WeldMark right) => left.CompareTo(right) < 0;

    public static bool operator <=(WeldMark left, WeldMark right) => left.CompareTo(right) <= 0;

    public static bool operator >(WeldMark left, WeldMark right) => left.CompareTo(right) > 0;

    public static bool operator >=(WeldMark left, WeldMark right) => left.CompareTo(right) >= 0;
}

/// <summary>A fact about one weld of a joint: what is said of a weld that was repaired or cut out stays under that weld's number.</summary>
public abstract record WeldFact(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint) : JointFact(Id, Who, When, Drawing, Joint)
{
    public WeldMark Weld { get; init; }
}

/// <summary>How far a joint has come.</summary>
public enum Step
{
    Fitted,
    Tacked,
    Welded,
    Checked,
}

/// <summary>A pass of a weld.</summary>
public enum Pass
{
    Root,
    Fill,
    Cap,
}

/// <summary>The passes that one welder made.</summary>
/// <param name="Welder">The stamp.</param>
/// <param name="Made">At least one.</param>
public sealed record PassesMade(string Welder, IReadOnlyList<Pass> Made);

/// <summary>A joint was fitted, tacked, welded or checked.</summary>
public sealed record JointStep(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint, Step Step) : WeldFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "joint-step";

    /// <summary>The welder's stamp; null where nobody noted it, or where <see cref="Passes"/> says who made which.</summary>
    public string? Welder { get; init; }

    /// <summary>Who made which passes; empty where one welder made all of them.</summary>
    public IReadOnlyList<PassesMade> Passes { get; init; } = [];

    /// <summary>The welding procedure; null where nobody noted it.</summary>
    public string? Procedure { get; init; }

    /// <summary>The batch of the filler; null where nobody noted it.</summary>
    public string? Filler { get; init; }

    /// <summary>Preheat as measured, °C; null where nobody noted it.</summary>
    public double? Preheat { get; init; }

    /// <summary>Welded at site, or in the shop; null where it was welded where the drawing has it.</summary>
    public bool? IsField { get; init; }

    /// <summary>Stamps of all who had a hand in it, each once.</summary>
    public IEnumerable<string> Welders => Passes.Select(p => p.Welder).Concat(Welder is { Length: > 0 } one ? [one] : []).Distinct(StringComparer.OrdinalIgnoreCase);
}

/// <summary>Whoever looks at fit-ups looked at a joint before it was welded.</summary>
public sealed record FitUpSeen(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint) : WeldFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "fit-up-seen";

    /// <summary>Root gap as read, mm; null where it was not noted.</summary>
    public double? Gap { get; init; }

    /// <summary>Greatest step between the insides as read, mm; null where it was not noted.</summary>
    public double? HiLo { get; init; }

    /// <summary>Id of the first fact of the going-over that holds the readings; null where none does.</summary>
    public string? Over { get; init; }

    /// <summary>It may not be welded so.</summary>
    public bool IsRefused { get; init; }
}

/// <summary>How a weld is examined.</summary>
public enum ExaminationMethod
{
    Visual,
    Penetrant,
    Magnetic,
    Radiography,
    Ultrasonic,
    Hardness,

    /// <summary>Which alloy it is, by a meter.</summary>
    AlloyCheck,
    Other,
}

/// <summary>A weld was examined: the examiner's result, never the program's.</summary>
/// <param name="IsAccepted">By the code in force, as the examiner says.</param>
public sealed record Examined(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint, ExaminationMethod Method, bool IsAccepted) : WeldFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "examined";

    /// <summary>How much of the weld's length, %.</summary>
    public double Extent { get; init; } = 100;

    /// <summary>Number of the report; null where there is none.</summary>
    public string? Report { get; init; }

    /// <summary>What was found; null where nothing was.</summary>
    public string? Found { get; init; }

    /// <summary>Length of the weld that is rejected, mm; null where it was not noted.</summary>
    public double? RejectedLength { get; init; }
}

/// <summary>A weld was heat treated.</summary>
/// <param name="Chart">Number of the recorder's chart.</param>
public sealed record HeatTreated(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint, string Chart) : WeldFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "heat-treated";

    /// <summary>Held at, °C; null where it was not noted.</summary>
    public double? Temperature { get; init; }

    /// <summary>Held for, minutes; null where it was not noted.</summary>
    public double? Minutes { get; init; }
}

/// <summary>A weld is repaired or cut out: what is made there from now on is another weld, with the next number. Told of the same weld twice, it happened once.</summary>
public sealed record Repair(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint, bool IsCutOut) : WeldFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "repair";

    /// <summary>Null where no reason was given.</summary>
    public string? Why { get; init; }
}

/// <summary>A weld as it stood when welds were drawn for examination.</summary>
/// <param name="Welder">Whose weld it was in the draw.</param>
/// <param name="IsDrawn">It is to be examined; else it was one of those that might have been drawn.</param>
public sealed record WeldInDraw(string Joint, WeldMark Weld, string Welder, bool IsField, bool IsDrawn);

/// <summary>
/// Welds of a drawing were drawn by chance for examination. A lot over several drawings has one such fact for each; its draws are never made again, only added to.
/// </summary>
/// <param name="Lot">The lot's name.</param>
/// <param name="Share">Of each welder's welds, %.</param>
/// <param name="Seed">Of the generator; with the welds as listed it gives the same draw again.</param>
/// <param name="Round">0 for the first draw, then one more each time the lot is added to.</param>
/// <param name="Welds">Those of this drawing that took part.</param>
public sealed record WeldsDrawn(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Lot, ExaminationMethod Method, double Share, uint Seed, int Round, IReadOnlyList<WeldInDraw> Welds)
    : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "welds-drawn";

    /// <summary>First and last day (UTC) of welding that make the lot; null where it has no such end.</summary>
    public DateOnly? Since { get; init; }

    /// <inheritdoc cref="Since"/>
    public DateOnly? Until { get; init; }

    /// <summary>The rejected weld that asks for these, with its drawing: <c>CHW-201 W7</c>; null where they were drawn for the share.</summary>
    public string? For { get; init; }
}
