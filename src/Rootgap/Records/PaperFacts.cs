using System.Globalization;

namespace Rootgap.Records;

/// <summary>What a certificate says of a heat.</summary>
/// <param name="Heat">The heat number.</param>
/// <param name="Number">The certificate's number.</param>
public sealed record CertificateNoted(string Id, string Who, DateTimeOffset When, string Heat, string Number) : Fact(Id, Who, When)
{
    public override string Kind => "certificate";

    /// <summary>Kind of certificate, such as 3.1 of EN 10204; null where it was not noted.</summary>
    public string? Type { get; init; }

    /// <summary>What it certifies: pipe, elbow; null where it was not noted.</summary>
    public string? Product { get; init; }

    /// <summary>Nominal size; null where it was not noted.</summary>
    public string? Size { get; init; }

    /// <summary>Null where it was not noted.</summary>
    public string? Schedule { get; init; }

    /// <summary>Null where it was not noted.</summary>
    public string? Material { get; init; }
}

/// <summary>A welder of the list: what he may weld by, as whoever keeps the list says. The last word on a stamp counts.</summary>
public sealed record WelderNoted(string Id, string Who, DateTimeOffset When, string Stamp) : Fact(Id, Who, When)
{
    public override string Kind => "welder";

    /// <summary>Null where the list has none.</summary>
    public string? Name { get; init; }

    /// <summary>Procedures that he is qualified for; empty where the list does not say.</summary>
    public IReadOnlyList<string> Procedures { get; init; } = [];

    /// <summary>Last day of the qualification; null where the list does not say.</summary>
    public DateOnly? Until { get; init; }
}

/// <summary>A pass of tightening: what it was tightened to.</summary>
/// <param name="Name">30 %, round, after four hours.</param>
/// <param name="Value">As set at the tool, with its unit: 70 N m.</param>
public sealed record TighteningPass(string Name, string Value);

/// <summary>A bolted joint was made up.</summary>
public sealed record BoltedUp(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint) : JointFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "bolted-up";

    /// <summary>Type or batch of the gasket; null where it was not noted.</summary>
    public string? Gasket { get; init; }

    /// <summary>Null where it was not noted.</summary>
    public string? Lubricant { get; init; }

    /// <summary>The tool with its number; null where it was not noted.</summary>
    public string? Tool { get; init; }

    /// <summary>In the order in which they were made.</summary>
    public IReadOnlyList<TighteningPass> Passes { get; init; } = [];
}

/// <summary>What a line is tested with.</summary>
public enum TestMedium
{
    Water,
    Air,
    Other,
}

/// <summary>A line was tested. Where a test pack has several drawings, each has such a fact.</summary>
/// <param name="Pack">The test pack's number.</param>
/// <param name="Pressure">bar.</param>
public sealed record Tested(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Pack, TestMedium Medium, double Pressure, bool HasPassed) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "tested";

    /// <summary>When the pressure stood; null where it was not noted.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Until when; null where it was not noted.</summary>
    public DateTimeOffset? To { get; init; }

    /// <summary>The gauges with their numbers.</summary>
    public IReadOnlyList<string> Gauges { get; init; } = [];
}

/// <summary>A spool may leave the shop. What was missing is named in <see cref="DrawingFact.Deviation"/>.</summary>
public sealed record Released(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Spool) : SpoolFact(Id, Who, When, Drawing, Spool)
{
    public override string Kind => "released";
}

/// <summary>What is done to a spool when it is welded.</summary>
public enum Coating
{
    Painted,
    Insulated,
}

/// <summary>A spool was painted or insulated.</summary>
public sealed record Coated(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Spool, Coating Coating) : SpoolFact(Id, Who, When, Drawing, Spool)
{
    public override string Kind => "coated";
}

/// <summary>Something to be remembered; pictures go with it as with any fact.</summary>
/// <param name="About">A piece, a component, a joint, <c>spool 3</c>; empty for the whole drawing.</param>
public sealed record NoteTaken(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string About) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "note";
}

/// <summary>Figures of a paper drawing that were ticked off as they were entered, or whose ticks were taken back.</summary>
/// <param name="Paper">Digest of the paper's picture or PDF: <see cref="Attachment.Sha256"/>.</param>
public sealed record PaperTicked(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Paper) : DrawingFact(Id, Who, When, Drawing)
{
    /// <summary>So many of each one fact holds at most.</summary>
    public const int Most = 50;

    /// <summary>The last page of a PDF that can be ticked.</summary>
    public const int LastPage = 9999;

    public override string Kind => "paper-ticked";

    /// <summary>Which page of a PDF, from 1; 1 for a picture.</summary>
    public int Page { get; init; } = 1;

    public IReadOnlyList<PaperTick> Ticked { get; init; } = [];

    public IReadOnlyList<PaperTick> TakenBack { get; init; } = [];

    /// <summary>The ticks that stand on a page of a paper, in the order in which they were set.</summary>
    /// <param name="facts">In their order.</param>
    /// <param name="paper">See <see cref="Paper"/>.</param>
    /// <param name="page">See <see cref="Page"/>.</param>
    public static IReadOnlyList<PaperTick> Standing(IEnumerable<PaperTicked> facts, string paper, int page)
    {
        var ticks = new List<PaperTick>();
        foreach (var fact in facts.Where(f => f.Paper == paper && f.Page == page))
        {
            ticks.RemoveAll(fact.TakenBack.Contains);
            ticks.AddRange(fact.Ticked.Where(t => !ticks.Contains(t)));
        }

        return ticks;
    }
}

/// <summary>A place on a picture or a page, in ten thousandths of its width from the left and of its height from above: 0 to 10000.</summary>
public readonly record struct PaperTick(int X, int Y)
{
    /// <summary>The whole width or height.</summary>
    public const int Whole = 10_000;

    /// <summary>As it is written: <c>1250 8430</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{X} {Y}");

    /// <summary>Null where it is no place on a picture.</summary>
    public static PaperTick? Parse(string text) =>
        text.Split(' ') is [var x, var y] && Share(x) is { } across && Share(y) is { } down ? new(across, down) : null;

    private static int? Share(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var share) && share <= Whole ? share : null;
}
