using System.Globalization;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The bolt holes of a flange of a spool, as they stand in the plant.</summary>
internal sealed record BoltCircle
{
    private const double NearlyLevel = 0.02;

    /// <summary>Cosine of three degrees: a sloped pipe still runs north.</summary>
    private const double NearlyAlong = 0.9986;

    public required Flange Flange { get; init; }

    /// <summary>Unit vector out of the contact face.</summary>
    public required Vector Face { get; init; }

    /// <summary>Reference line in the face, unit vector; what the drawing calls it in <see cref="LineName"/>.</summary>
    public required Vector Line { get; init; }

    public required string LineName { get; init; }

    /// <summary>Turn from straddling the line, radians, right-handed about the face: anticlockwise for who looks at the face.</summary>
    public required double Turn { get; init; }

    /// <summary>The drawing says that a hole stands on the line.</summary>
    public required bool IsOnCentre { get; init; }

    public required int Count { get; init; }

    /// <summary>Diameters of the bolt circle, of a hole, of the flange and of its raised face, mm.</summary>
    public required double Diameter { get; init; }

    public required double HoleDiameter { get; init; }
    public required double Outside { get; init; }
    public required double Raised { get; init; }

    /// <summary>Bolt diameter as the trade names it, inches.</summary>
    public required NominalSize Bolt { get; init; }

    public bool IsLevel => Math.Abs(Face.Z) >= 1 - NearlyLevel;

    /// <summary>Unit vectors from the flange's centre to its holes.</summary>
    public required IReadOnlyList<Vector> Holes { get; init; }

    /// <summary>What points up for who looks at the face: up, or north where the face lies level.</summary>
    public Vector Upward => (IsLevel ? Vector.North : Vector.Up).SquareTo(Face).Unit;

    /// <summary>The pair of holes that a level is laid across, left and right for who looks at the face: the two top ones, or the two beside the top hole where one stands at the very top.</summary>
    private (Vector Left, Vector Right) Pair
    {
        get
        {
            var byHeight = Holes.OrderByDescending(h => h.Dot(Upward)).ToList();
            var one = byHeight.Count > 2 && Math.Abs(byHeight[1].Dot(Upward) - byHeight[2].Dot(Upward)) < 1e-6;
            var (a, b) = one ? (byHeight[1], byHeight[2]) : (byHeight[0], byHeight[1]);
            var right = Upward.Cross(Face);
            return a.Dot(right) < b.Dot(right) ? (a, b) : (b, a);
        }
    }

    /// <summary>What a level across that pair reads, radians, positive where the left hole is higher.</summary>
    public double LevelReading
    {
        get
        {
            var way = Pair.Right - Pair.Left;
            return Math.Atan2(-way.Dot(Upward), way.Dot(Upward.Cross(Face)));
        }
    }

    /// <summary>From pin to pin in that pair, mm.</summary>
    public double Pins => (Pair.Right - Pair.Left).Length * Diameter / 2;

    /// <summary>The bolt holes of a flange; null where the standard has none for it, or no line can be named.</summary>
    public static BoltCircle? Of(Flange flange) => flange is { Holes: { } holes, Shape: { } shape } ? new BoltCircle
    {
        Flange = flange,
        Face = holes.Face,
        Line = holes.Line,
        LineName = NameOf(holes.Line),
        Turn = holes.Turn,
        IsOnCentre = flange.Orientation.OnCentre,
        Count = holes.Bolts.Count,
        Diameter = holes.Bolts.Circle,
        HoleDiameter = holes.Bolts.HoleDiameter,
        Holes = holes.Ways,
        Outside = shape.Plate,
        Raised = shape.FaceDiameter,
        Bolt = holes.Bolts.Bolt,
    }
    : null;

    /// <summary>A direction in a word, where it has one.</summary>
    internal static string NameOf(Vector way)
    {
        foreach (var (axis, name, opposite) in new[] { (Vector.Up, "up", "down"), (Vector.North, "north", "south"), (Vector.East, "east", "west") })
        {
            if (Math.Abs(way.Dot(axis)) > NearlyAlong)
                return way.Dot(axis) > 0 ? name : opposite;
        }

        return Math.Abs(way.Z) < NearlyLevel
            ? string.Create(CultureInfo.InvariantCulture, $"{(Math.Atan2(way.X, way.Y) is var a && a < 0 ? Angles.ToDegrees(a) + 360 : Angles.ToDegrees(Math.Atan2(way.X, way.Y))):0.#}° from north")
            : way.Z > 0.3 ? "uphill" : way.Z < -0.3 ? "downhill" : "along the line";
    }

    /// <summary>How the holes stand, in words.</summary>
    public string Says
    {
        get
        {
            var reference = LineName;
            if (IsOnCentre && Math.Abs(Turn - (Math.PI / Count)) < Tolerance.Turn)
                return $"One hole on the {reference} line.";
            if (Math.Abs(Turn) < 1e-9)
                return $"Two holes straddle the {reference} line.";
            return string.Create(CultureInfo.InvariantCulture, $"Turned {Angles.ToDegrees(Math.Abs(Turn)):0.##}° {(Turn > 0 ? "anticlockwise" : "clockwise")} from straddling the {reference} line, seen at the face.");
        }
    }

    /// <summary>What to read, in words, with its lengths in the units of the drawing.</summary>
    public string Reading(Units units)
    {
        var degrees = Angles.ToDegrees(LevelReading);
        var pins = LengthText.Say(units, $" Pins {Pins:len} apart.");
        if (IsLevel)
            return string.Create(CultureInfo.InvariantCulture, $"Face level: line through the north pair reads {degrees:0.0;-0.0;0.0}° off east-west.{pins}");
        return Math.Abs(degrees) < 0.05
            ? $"Level across the {PairSays}: 0.0°.{pins}"
            : string.Create(CultureInfo.InvariantCulture, $"Level across the {PairSays}: {Math.Abs(degrees):0.0}°, {(degrees > 0 ? "left" : "right")} pin higher.{pins}");
    }

    private string PairSays => Holes.Any(h => h.AngleTo(Upward) < Tolerance.Turn) ? "pair beside the top hole" : "top pair";

    /// <summary>The face as one sees it who stands before it, with what to read beside it.</summary>
    public Figure ToFigure(string end, double width, Units units)
    {
        const double R = 16, Reach = 19, Side = 46, Pitch = 4.2;
        var canvas = new Canvas();
        var k = R / (Outside / 2);
        var centre = new Spot(Side / 2, Reach + 4);
        var right = Upward.Cross(Face);
        Spot On(Vector v, double mm) => centre.Moved(v.Dot(right) * mm, -v.Dot(Upward) * mm);
        canvas.Circle(centre, R, LineStyle.Medium).Circle(centre, Raised / 2 * k, LineStyle.Thin);
        canvas.Circle(centre, Diameter / 2 * k, LineStyle.Thin with { Dash = Dash.Chain });
        var (tip, back) = (On(Line, Reach), On(Line, -Reach));
        canvas.Line(back, tip, LineStyle.Thin with { Dash = Dash.Chain }).Arrowhead(tip, back.AngleTo(tip), 2.2);
        foreach (var hole in Holes.Select(h => Shape.Circle(On(h, Diameter / 2 * k), HoleDiameter / 2 * k)))
            canvas.Group(null, "bolt hole", g => g.Fill(hole, Ink.White).Stroke(hole, LineStyle.Medium));
        // The line's name stands beyond the arrow, within the figure.
        var name = TextStyle.Small.Width(LineName) / 2;
        var beside = tip.X < centre.X - 1 ? -1.5 - name : 1.5 + name;
        canvas.Text(LineName, new(Math.Clamp(tip.X + beside, name, Side - name), Math.Clamp(tip.Y + 1.25, TextStyle.Small.Height, (2 * Reach) + 8)), TextStyle.Small, Anchor.Middle);
        var y = 4.0;
        canvas.Text($"{Flange.Id}{(end.Length > 0 ? $" = {end}" : "")}", new(Side + 2, y), TextStyle.Strong with { Height = 3 });
        y += Pitch + 1;
        foreach (var text in new[] { LengthText.Say(units, $"NPS {Flange.Size} class {Flange.Line.Class}: {Count} holes on {Diameter:len}, bolts {Bolt} in"), Says, Reading(units) })
        {
            foreach (var line in TextStyle.Small.Wrap(text, width - Side - 2))
            {
                canvas.Text(line, new(Side + 2, y), TextStyle.Small);
                y += Pitch;
            }

            y += 0.8;
        }

        return canvas.ToFigure(width, Math.Max((2 * Reach) + 8, y - Pitch + 1));
    }
}
