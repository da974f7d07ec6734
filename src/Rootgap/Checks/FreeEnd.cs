using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>An end of a run that is joined to nothing in the drawing: a flange, a weld to something else, an open end.</summary>
/// <param name="Out">Unit direction out of the run.</param>
/// <param name="Leg">The leg at whose end it is; null at the start of the run.</param>
internal readonly record struct FreeEnd(Run Run, Leg? Leg, WorkPoint Point, Point At, Vector Out, NominalSize Size, Line Line, SourceRow Source)
{
    /// <summary>Two ends within this of straight against each other are meant for each other.</summary>
    private const double Opposed = 5 * Math.PI / 180;

    /// <summary>Ends farther apart than this have nothing to do with each other, mm.</summary>
    private const double Near = 100;

    /// <summary>Room for a gasket or a root gap between two ends, mm.</summary>
    private const double Room = 8;

    /// <summary>Where a finding about the place of this end points.</summary>
    public string PlaceKey => Leg is null ? "at" : "by";

    /// <summary>Every pair of ends that look at each other within 100 mm, the one written later second.</summary>
    public static IEnumerable<MeetingEnds> Pairs(Route route)
    {
        if (route.Runs.Count < 2)
            yield break;
        var ends = All(route);
        for (var i = 0; i < ends.Count; i++)
        {
            for (var j = i + 1; j < ends.Count; j++)
            {
                var (a, b) = (ends[i], ends[j]);
                var apart = b.At - a.At;
                if (apart.Length > Near || a.Run == b.Run || (-a.Out).AngleTo(b.Out) > Opposed)
                    continue;
                var along = apart.Dot(a.Out);
                yield return new(a, b, apart, along is >= -Tolerance.Closing and <= Room && apart.SquareTo(a.Out).Length <= Tolerance.Closing);
            }
        }
    }

    private static List<FreeEnd> All(Route route)
    {
        var ends = new List<FreeEnd>(route.Runs.Count * 2);
        foreach (var placed in route.Runs)
        {
            var run = placed.Run;
            if (run.Start.Ends is FlangePoint { IsBlinded: false } or WeldPoint or OpenPoint)
                ends.Add(new(run, null, run.Start.Ends, placed.Points[0], -placed.Directions[0], placed.Sizes[0], run.Line, run.Start.Source));
            if (run.Legs is [.., { To: FlangePoint { IsBlinded: false } or WeldPoint or OpenPoint } last])
                ends.Add(new(run, last, last.To, placed.Points[^1], placed.Directions[^1], placed.Sizes[^1], last.Line, last.Source));
        }

        return ends;
    }
}

/// <summary>Two ends that look at each other.</summary>
/// <param name="Apart">From the first to the second, mm.</param>
/// <param name="Meet">They stand right for a joint: on one axis, with no more between them than a gasket or a root gap.</param>
internal readonly record struct MeetingEnds(FreeEnd First, FreeEnd Second, Vector Apart, bool Meet);
