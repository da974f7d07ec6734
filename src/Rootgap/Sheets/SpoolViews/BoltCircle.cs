using System.Globalization;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The bolt holes of a flange of a spool, as they stand in the plant.</summary>
internal sealed record BoltCircle
{
    /// <summary>A line in the face lies level within one degree.</summary>
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

    public bool IsLevel => Flange.LiesLevel(Face);

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

    /// <summary>The bolt holes of a flange; null where the standard has none for it, no line can be named, or it is loose and turns.</summary>
    public static BoltCircle? Of(Flange flange) => flange is { Stub: null, Holes: { } holes, Shape: { } shape } ? new BoltCircle
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
            ? Wording.Bearing(way, 1)
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

    // Without a full stop, as a label.
    private static string Lower(string words) => char.ToLowerInvariant(words[0]) + words[1..].TrimEnd('.');

    /// <summary>The black pins in few words; in full where they don't stand level or square.</summary>
    private string PinsSay(Units units) => Math.Abs(LevelReading) > Angles.ToRadians(0.05) ? Lower(Reading(units))
        : $"pins {(IsLevel ? "E–W" : "level")}, {RunningDimensions.Figure(units, Pins)} apart";

    private string PairSays => Holes.Any(h => h.AngleTo(Upward) < Tolerance.Turn) ? "pair beside the top hole" : "top pair";

    /// <summary>The face as one sees it who stands before it, with what to read beside it.</summary>
    public Figure ToFigure(string end, double width, Units units)
    {
        const double R = 9, Reach = 11.5, Pitch = 3.9;
        var canvas = new Canvas();
        var k = R / (Outside / 2);
        var centre = new Spot(width / 2, Reach + 4.5);
        var right = Upward.Cross(Face);
        Spot On(Vector v, double mm) => centre.Moved(v.Dot(right) * mm, -v.Dot(Upward) * mm);
        canvas.Circle(centre, R, LineStyle.Medium).Circle(centre, Raised / 2 * k, LineStyle.Thin);
        var (tip, back) = (On(Line, Reach), On(Line, -Reach));
        canvas.Line(back, tip, LineStyle.Thin with { Dash = Dash.Chain }).Arrowhead(tip, back.AngleTo(tip), 2.6);
        // The two that the pins go through are black.
        var (left, other) = Pair;
        foreach (var way in Holes)
        {
            var hole = Shape.Circle(On(way, Diameter / 2 * k), Math.Max(0.5, HoleDiameter / 2 * k));
            canvas.Group(null, "bolt hole", g => g.Fill(hole, way == left || way == other ? Ink.Black : Ink.White).Stroke(hole, LineStyle.Thin));
        }

        // The line's name stands beside the arrow's tip, within the figure.
        var bold = TextStyle.Small with { Bold = true };
        var name = bold.Width(LineName) / 2;
        var isUpright = Math.Abs(tip.X - centre.X) < 1;
        var at = isUpright ? new Spot(centre.X + 1.5 + name, tip.Y < centre.Y ? tip.Y - 0.5 : tip.Y + 2.5) : new Spot(tip.X < centre.X ? Math.Max(name, tip.X - 1 - name) : Math.Min(width - name, tip.X + 1 + name), tip.Y - 1.5);
        canvas.Text(LineName, new(Math.Clamp(at.X, name, width - name), at.Y), bold, Anchor.Middle);
        var y = (2 * Reach) + 8.5;
        foreach (var line in bold.Wrap($"{end}, on its face", width))
        {
            canvas.Text(line, new(width / 2, y), bold, Anchor.Middle);
            y += Pitch;
        }

        foreach (var text in new[] { LengthText.Say(units, $"{Count} holes on {Diameter:len}"), Lower(Says).Replace("two holes straddle", "straddle", StringComparison.Ordinal), PinsSay(units) })
        {
            foreach (var line in TextStyle.Small.Wrap(text, width))
            {
                canvas.Text(line, new(width / 2, y), TextStyle.Small, Anchor.Middle);
                y += Pitch;
            }
        }

        return canvas.ToFigure(width, y - Pitch + 1);
    }
}
