using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>How what is read changes with each unknown, by central differences on the full functions; in units of the unknowns' scale.</summary>
internal sealed class Slopes
{
    /// <summary>Step of a difference, as a share of an unknown's scale: 5 micrometres, 5 microradians of a body that is near.</summary>
    private const double Share = 1e-4;

    private readonly Unknowns unknowns;
    private readonly Standing standing;
    private readonly SiteLine line;
    private readonly double[] x;

    /// <summary>Motions of each end with one of its twelve unknowns a step up and a step down; made when first asked for.</summary>
    private readonly (Motion Up, Motion Down)[]?[] stepped;

    private readonly (Motion Up, Motion Down)[] frames;

    public Slopes(SiteLine line, Unknowns unknowns, double[] x)
    {
        (this.line, this.unknowns, this.x) = (line, unknowns, x);
        standing = unknowns.At(x);
        stepped = new (Motion, Motion)[]?[line.Ends.Count];
        frames = [.. Enumerable.Range(unknowns.Frame, unknowns.Count - unknowns.Frame).Select(i => (Stepped(i, 1, unknowns.FrameAt), Stepped(i, -1, unknowns.FrameAt)))];
    }

    /// <summary>Where everything stands.</summary>
    public Standing Standing => standing;

    /// <summary>The slopes of a value that depends on the given ends.</summary>
    /// <param name="value">Of where everything stands.</param>
    public List<(int Unknown, double Slope)> Of(IReadOnlyList<SiteEnd> ends, Func<Standing, double> value, bool readsFrame)
    {
        var slopes = new List<(int, double)>(36);
        var motions = standing.Motions;
        Span<(int Index, Motion Was)> kept = stackalloc (int, Motion)[ends.Count];
        for (var e = 0; e < ends.Count; e++)
            kept[e] = (ends[e].Index, motions[ends[e].Index]);
        foreach (var unknown in unknowns.Behind(ends, readsFrame: false))
        {
            void Step(bool isUp)
            {
                foreach (var end in ends)
                {
                    var of = unknowns.Of(end.Body);
                    var own = unknowns.Of(end);
                    if (of >= 0 && unknown >= of && unknown < of + 6)
                        Put(end.Index, Of(end)[unknown - of], isUp);
                    else if (own >= 0 && unknown >= own && unknown < own + 6)
                        Put(end.Index, Of(end)[6 + unknown - own], isUp);
                }
            }

            Step(isUp: true);
            var up = value(standing);
            Step(isUp: false);
            var down = value(standing);
            foreach (var (index, was) in kept)
                motions[index] = was;
            slopes.Add((unknown, (up - down) / (2 * Share)));
        }

        for (var i = 0; readsFrame && i < frames.Length; i++)
            slopes.Add((unknowns.Frame + i, (value(standing with { Frame = frames[i].Up }) - value(standing with { Frame = frames[i].Down })) / (2 * Share)));
        return slopes;

        void Put(int end, in (Motion Up, Motion Down) pair, bool isUp) => motions[end] = isUp ? pair.Up : pair.Down;
    }

    private (Motion Up, Motion Down)[] Of(SiteEnd end)
    {
        if (stepped[end.Index] is { } known)
            return known;
        var pairs = new (Motion, Motion)[12];
        var (body, own) = (unknowns.Of(end.Body), unknowns.Of(end));
        for (var i = 0; i < 12; i++)
        {
            var unknown = i < 6 ? body + i : own + i - 6;
            if ((i < 6 ? body : own) >= 0)
                pairs[i] = (Stepped(unknown, 1, y => unknowns.EndAt(end, y)), Stepped(unknown, -1, y => unknowns.EndAt(end, y)));
        }

        return stepped[end.Index] = pairs;
    }

    private Motion Stepped(int unknown, int way, Func<double[], Motion> motion)
    {
        var was = x[unknown];
        x[unknown] = was + (way * Share * unknowns.Scale[unknown]);
        var moved = motion(x);
        x[unknown] = was;
        return moved;
    }
}
