using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>A place of the line that a tape can be held to: a joint, a work point, a support.</summary>
/// <param name="Name">As people say it: <c>W3</c>, <c>C5</c>, <c>PS-2</c>, <c>leg 3 of main</c>, <c>start of main</c>.</param>
/// <param name="Row">Path of the row that it stands in: <c>runs[0].legs[2]</c>.</param>
public sealed record MeasuredPlace(string Name, Point At, string Row);

/// <summary>The straight way between two places of a line, mm, in plant axes.</summary>
public sealed record MeasuredWay(MeasuredPlace From, MeasuredPlace To)
{
    private Vector Way => To.At - From.At;

    /// <summary>Along a tight string.</summary>
    public double Straight => Way.Length;

    /// <summary>Below zero: west.</summary>
    public double East => Way.X;

    /// <summary>Below zero: south.</summary>
    public double North => Way.Y;

    /// <summary>Below zero: down.</summary>
    public double Up => Way.Z;

    /// <summary>As laid out on a level floor.</summary>
    public double Level => Math.Sqrt((Way.X * Way.X) + (Way.Y * Way.Y));

    /// <summary>The way in words, in the units of the drawing.</summary>
    public string Say(Units units)
    {
        var ways = (((double By, string Plus, string Minus)[])[(East, "east", "west"), (North, "north", "south"), (Up, "up", "down")])
            .Where(w => Math.Abs(w.By) >= Tolerance.Closing).Select(w => (By: Math.Abs(w.By), Way: w.By > 0 ? w.Plus : w.Minus)).ToList();
        var straight = LengthText.Say(units, $"{From.Name} to {To.Name}: {Straight:len} straight");
        return ways switch
        {
            [] => straight,
            [var only] => $"{straight}, {only.Way}",
            _ => $"{straight}; {string.Join(", ", ways.Select(w => LengthText.Say(units, $"{w.By:len} {w.Way}")))}",
        };
    }

    /// <summary>Every place of a line, with the names that a person may give it.</summary>
    public static IEnumerable<MeasuredPlace> Places(Route route)
    {
        string RowOf(int run, int leg) => route.RowOf(run, leg).Path.ToString();
        foreach (var (run, line) in route.Runs.Index())
        {
            yield return new("start of " + line.Run.Name, line.Points[0], RowOf(run, -1));
            for (var leg = 0; leg + 1 < line.Points.Count; leg++)
                yield return new(string.Create(CultureInfo.InvariantCulture, $"leg {leg + 1} of {line.Run.Name}"), line.Points[leg + 1], RowOf(run, leg));
        }

        foreach (var joint in route.Joints)
        {
            yield return new(joint.Id, joint.At, RowOf(joint.Run, joint.Leg));
            if (joint.Office.Length > 0)
                yield return new(joint.Office, joint.At, RowOf(joint.Run, joint.Leg));
        }

        foreach (var part in route.Components)
            yield return new(part.Id, part.WorkPoint, RowOf(part.Run, part.Leg));
        foreach (var support in route.Supports)
            yield return new(support.Tag, support.Centre, RowOf(support.Run, support.Leg));
    }
}
