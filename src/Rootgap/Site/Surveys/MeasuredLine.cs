using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Where a face stands by what was read, beside where the drawing has it.</summary>
/// <param name="Drawn">Centre of the face, plant coordinates, mm; extra left out.</param>
/// <param name="Found">The same as it stands, at the temperature at which drawn lengths hold.</param>
/// <param name="Sd">One standard deviation along east, north and up, mm.</param>
public sealed record MeasuredEnd(SiteEnd End, Point Drawn, Point Found, Vector Sd)
{
    /// <summary>From where it is drawn to where it stands.</summary>
    public Vector Off => Found - Drawn;
}

/// <summary>How long a spool is from one face to another, by what was read of it beside the drawing.</summary>
/// <param name="Drawn">mm; so are <paramref name="Found"/> and its standard deviation.</param>
public sealed record MeasuredLength(SiteBody Body, SiteEnd From, SiteEnd To, double Drawn, double Found, double Sd);

/// <summary>What the readings and the measured ends of a survey say of a line as it was built. What they do not see is left out: there only the drawing speaks.</summary>
public sealed record MeasuredLine(IReadOnlyList<MeasuredEnd> Ends, IReadOnlyList<MeasuredLength> Lengths)
{
    /// <summary>A figure counts as read where its spread fell to this share of what it was before anything was read.</summary>
    private const double Seen = 0.5;

    /// <summary>A face stands nowhere in particular while one standard deviation of its place is over this, mm.</summary>
    private const double Known = 2.5;

    public static MeasuredLine Of(Adjustment adjustment) => new([.. Faces(adjustment)], [.. Spools(adjustment)]);

    private static IEnumerable<MeasuredEnd> Faces(Adjustment a)
    {
        foreach (var end in a.Line.Ends)
        {
            Func<Standing, double>[] places = [s => At(s, end).X, s => At(s, end).Y, s => At(s, end).Z];
            double[] sd = [.. places.Select(p => a.SdOf([end], p))];
            if (places.Zip(sd).All(p => p.Second <= Known && p.Second <= Seen * a.SdBefore([end], p.First)))
                yield return new(end, end.Face, At(a.Standing, end), new(sd[0], sd[1], sd[2]));
        }
    }

    private static IEnumerable<MeasuredLength> Spools(Adjustment a)
    {
        foreach (var body in a.Line.Bodies.Where(b => !b.IsOutside))
        {
            var ends = a.Line.Ends.Where(e => e.Body == body).ToList();
            for (var i = 0; i < ends.Count; i++)
            {
                foreach (var to in ends.Skip(i + 1))
                {
                    var from = ends[i];
                    double Length(Standing s) => At(s, from).To(At(s, to));
                    var (sd, before) = (a.SdOf([from, to], Length), a.SdBefore([from, to], Length));
                    // Measured on its own before it was put up, or seen by the readings.
                    if (a.Survey.AsBuilt.ContainsKey(from.Name) || a.Survey.AsBuilt.ContainsKey(to.Name) || (sd <= Known && before > 0 && sd <= Seen * before))
                        yield return new(body, from, to, from.Face.To(to.Face), Length(a.Standing), sd);
                }
            }
        }
    }

    /// <summary>A face as the drawing cuts it, where it stands.</summary>
    private static Point At(Standing standing, SiteEnd end) => standing.Motions[end.Index].Of(end.Face);
}
