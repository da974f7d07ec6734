using Rootgap.Findings;
using Rootgap.FitUp;

namespace Rootgap.Site.Surveys;

/// <summary>How far a body is known before anything is read.</summary>
public enum Known
{
    /// <summary>It and its ends exactly as drawn.</summary>
    Drawn,

    /// <summary>Within 50 mm and 3 degrees, as standard deviations.</summary>
    Near,

    /// <summary>Within 1000 mm and 15 degrees.</summary>
    Far,
}

/// <summary>What the coordinates of a survey are told in.</summary>
public enum SurveyFrame
{
    /// <summary>The drawing's own coordinates.</summary>
    Plant,

    /// <summary>An origin of its own and turned about the upright.</summary>
    Levelled,

    /// <summary>Own axes altogether.</summary>
    Free,
}

/// <summary>What is measured of the end of a pipe that is there already.</summary>
/// <param name="Girth">Once round by tape, mm; null where not taken.</param>
/// <param name="Across">Diameters 12 to 6 and 3 to 9, mm; null where not taken.</param>
/// <param name="Walls">Wall by gauge at clock positions (radians), mm.</param>
/// <param name="Punch">Distance of the two punch marks over the cut before and after, mm; null where not taken.</param>
public sealed record ExistingPipe(SiteEnd End, double? Girth, (double Up, double Level)? Across, IReadOnlyList<(double Clock, double Wall)> Walls, (double Before, double After)? Punch)
{
    /// <summary>Outside diameter, mm: girth / pi, else the mean of the two diameters; null where neither was taken.</summary>
    public double? Outside => Girth / Math.PI ?? (Across is var (up, level) ? (up + level) / 2 : null);

    /// <summary>Out of round: the difference of the two diameters, mm; null where they were not taken.</summary>
    public double? Ovality => Across is var (up, level) ? Math.Abs(up - level) : null;

    /// <summary>Mean wall, mm; null where none was gauged.</summary>
    public double? Wall => Walls.Count > 0 ? Walls.Average(w => w.Wall) : null;

    /// <summary>How far it opened when cut (plus) or closed (minus), mm; null where no marks were punched.</summary>
    public double? Spring => Punch is var (before, after) ? after - before : null;
}

/// <summary>How far a body may be moved: greatest shift along east, north, up (mm) and greatest turn (radians); null where there is no limit.</summary>
public sealed record MayMove(double? East, double? North, double? Up, double? Turn);

/// <summary>What was measured at site of one line, and what was known before.</summary>
public sealed record Survey
{
    public string Title { get; init; } = "";
    public string Drawing { get; init; } = "";

    /// <summary>Revision that it says it was taken to; empty where it says none.</summary>
    public string Revision { get; init; } = "";

    public string By { get; init; } = "";
    public string When { get; init; } = "";

    /// <summary>Temperature of the steel while measuring, degrees C.</summary>
    public double Steel { get; init; } = Drawn;

    /// <summary>Temperature at which drawn lengths hold, degrees C.</summary>
    public const double Drawn = 20;

    /// <summary>Expansion per degree C; null for that of the line's material.</summary>
    public double? Expansion { get; init; }

    public bool TotalStation { get; init; }
    public SurveyFrame Frame { get; init; }

    /// <summary>By name of body; spools that it does not name are near, things outside as <see cref="Others"/> says.</summary>
    public IReadOnlyDictionary<string, Known> Standing { get; init; } = new Dictionary<string, Known>();

    /// <summary>What is thought of things outside that <see cref="Standing"/> does not name.</summary>
    public Known Others { get; init; } = Known.Near;

    /// <summary>Joints welded out or bolted tight.</summary>
    public IReadOnlyList<string> Made { get; init; } = [];

    /// <summary>Joints bolted finger-tight or tacked, or of a spool to be reckoned as put there.</summary>
    public IReadOnlyList<string> Loose { get; init; } = [];

    /// <summary>How far the pipe with the extra reaches beyond its drawn end, mm, by final-fit weld.</summary>
    public IReadOnlyDictionary<string, double> StandsOut { get; init; } = new Dictionary<string, double>();

    /// <summary>Bodies that are to stay where they are.</summary>
    public IReadOnlyList<string> Held { get; init; } = [];

    public IReadOnlyDictionary<string, MayMove> Limits { get; init; } = new Dictionary<string, MayMove>();
    public IReadOnlyList<ExistingPipe> Existing { get; init; } = [];
    /// <summary>Ends of spools as built, by name: how far each is from where the drawing has it, and how well that is known. They are reckoned with in place of the drawn ones.</summary>
    public IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> AsBuilt { get; init; } = new Dictionary<string, (PoseError, PoseError)>();

    public IReadOnlyList<SiteTaken> Readings { get; init; } = [];

    /// <summary>Where each row of readings stands, for messages: in the survey file, or in the list beside it.</summary>
    public IReadOnlyList<Place> Places { get; init; } = [];

    public Known KnownOf(SiteBody body) => Standing.TryGetValue(body.Name, out var known) ? known : body.IsOutside ? Others : Known.Near;

    /// <summary>The same survey without one reading.</summary>
    public Survey Without(SiteTaken taken) => this with { Readings = [.. Readings.Where(r => r != taken)] };
}
