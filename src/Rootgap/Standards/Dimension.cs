using System.Reflection;
using Rootgap.Measure;

namespace Rootgap.Standards;

/// <summary>A dimension that a table holds: the only way to look one up, so that a name is written once and a misspelt one does not build.</summary>
/// <param name="Table">The file of the table.</param>
/// <param name="Item">What it is a dimension of, as the table calls it.</param>
/// <param name="Attribute">The dimension's letter or word.</param>
public sealed record Dimension(string Table, string Item, string Attribute)
{
    /// <summary>The row for a size; null where the standard has none: a look-up never interpolates.</summary>
    public StandardRow? Of(NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "") =>
        StandardTable.Find(Table, Item, Attribute, nps, nps2, schedule, @class);

    /// <summary>What to say where <see cref="Of"/> finds nothing: the sizes nearest to the one asked for.</summary>
    public string Missing(NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "") =>
        StandardTable.Missing(Table, Item, Attribute, nps, nps2, schedule, @class);

    /// <summary>Every dimension that the program can look up, for the test that each has rows.</summary>
    public static IEnumerable<Dimension> All =>
        from owner in new[] { typeof(PipeTable), typeof(ButtWeld), typeof(FlangeTable), typeof(Forged), typeof(Outlets), typeof(Valves), typeof(Threads), typeof(Gaskets), typeof(Supports), typeof(PipeEnds) }
        from member in owner.GetMembers(BindingFlags.Public | BindingFlags.Static)
        let value = member switch { FieldInfo f => f.GetValue(null), _ => null }
        from dimension in value switch
        {
            Dimension one => [one],
            FlangeTable kind => kind.Dimensions,
            ForgedFitting fitting => fitting.Dimensions,
            _ => Array.Empty<Dimension>(),
        }
        select dimension;
}

/// <summary>Pipe: ASME B36.10M and B36.19M.</summary>
public static class PipeTable
{
    public static readonly Dimension Outside = new("pipe", "pipe", "outside diameter");
    public static readonly Dimension Wall = new("pipe", "pipe", "wall");
}

/// <summary>Butt-welding fittings: ASME B16.9.</summary>
public static class ButtWeld
{
    public static readonly Dimension Elbow90Long = new("butt-weld", "elbow 90 LR", "A");
    public static readonly Dimension Elbow90Short = new("butt-weld", "elbow 90 SR", "A");
    public static readonly Dimension Elbow90ThreeD = new("butt-weld", "elbow 90 3D", "A");
    public static readonly Dimension Elbow45Long = new("butt-weld", "elbow 45 LR", "B");
    public static readonly Dimension Elbow45ThreeD = new("butt-weld", "elbow 45 3D", "B");
    /// <summary>Of a 180 degree return, from the middle of one end to the middle of the other.</summary>
    public static readonly Dimension ReturnLong = new("butt-weld", "return LR", "O");

    public static readonly Dimension ReturnShort = new("butt-weld", "return SR", "O");
    public static readonly Dimension TeeRun = new("butt-weld", "tee", "C");
    public static readonly Dimension TeeBranch = new("butt-weld", "tee", "M");
    public static readonly Dimension ReducingTeeRun = new("butt-weld", "reducing tee", "C");
    public static readonly Dimension ReducingTeeBranch = new("butt-weld", "reducing tee", "M");
    public static readonly Dimension ReducerLength = new("butt-weld", "reducer", "H");

    /// <summary>Of a swage over its ends, by its large end: MSS SP-95.</summary>
    public static readonly Dimension SwageLength = new("butt-weld", "swage", "length");

    public static readonly Dimension CapLength = new("butt-weld", "cap", "E");
    public static readonly Dimension CapLengthThick = new("butt-weld", "cap", "E1");
    public static readonly Dimension CapLimitingWall = new("butt-weld", "cap", "limiting wall");
    public static readonly Dimension StubEndLength = new("butt-weld", "stub end", "F long");

    /// <summary>Outside diameter of a stub end's lap.</summary>
    public static readonly Dimension StubEndLap = new("butt-weld", "stub end", "G");
}

/// <summary>Flanges: ASME B16.5. What all kinds share stands as fields; an instance is what differs by kind.</summary>
public sealed class FlangeTable
{
    public static readonly Dimension Outside = new("flanges", "flange", "outside diameter");
    public static readonly Dimension BoltCircle = new("flanges", "flange", "bolt circle");
    public static readonly Dimension Holes = new("flanges", "flange", "holes");
    public static readonly Dimension HoleDiameter = new("flanges", "flange", "hole diameter");
    public static readonly Dimension BoltDiameter = new("flanges", "flange", "bolt diameter");
    public static readonly Dimension RaisedFaceDiameter = new("flanges", "flange", "raised face diameter");
    public static readonly Dimension RaisedFaceHeight = new("flanges", "flange", "raised face height");
    public static readonly Dimension RingFaceDiameter = new("flanges", "flange RTJ", "raised portion diameter");
    public static readonly Dimension GrooveDepth = new("flanges", "flange RTJ", "groove depth");
    public static readonly Dimension RingStandOff = new("flanges", "flange RTJ", "ring stand-off");
    public static readonly Dimension GrooveNumber = new("flanges", "flange RTJ", "groove number");
    public static readonly Dimension SocketDepth = new("flanges", "flange SW", "socket depth");
    public static readonly Dimension HubAtWeldEnd = new("flanges", "flange WN", "hub diameter at weld end");
    public static readonly Dimension BlindThickness = new("flanges", "flange BL", "thickness");
    public static readonly Dimension StudRaisedFace = new("studs", "stud", "length RF");
    public static readonly Dimension StudRingJoint = new("studs", "stud", "length RTJ");

    public static readonly FlangeTable WeldNeck = new("flange WN");
    public static readonly FlangeTable SlipOn = new("flange SO");
    public static readonly FlangeTable SocketWeld = new("flange SW");
    public static readonly FlangeTable Threaded = new("flange TH");
    public static readonly FlangeTable LapJoint = new("flange LJ");

    private FlangeTable(string item) =>
        (Thickness, ThroughHub, Hub) = (new("flanges", item, "thickness"), new("flanges", item, "length through hub"), new("flanges", item, "hub diameter"));

    /// <summary>Of the plate; the raised face of classes 150 and 300 counts in it.</summary>
    public Dimension Thickness { get; }

    public Dimension ThroughHub { get; }

    /// <summary>Greatest diameter of the hub.</summary>
    public Dimension Hub { get; }

    internal IEnumerable<Dimension> Dimensions => [Thickness, ThroughHub, Hub];
}

/// <summary>Socket-welding and threaded fittings: ASME B16.11.</summary>
public static class Forged
{
    public static readonly Dimension SocketDepth = new("forged", "SW elbow 90", "socket depth");
    public static readonly Dimension SocketCapEndWall = new("forged", "SW cap", "end wall");

    /// <summary>Between the bottoms of a coupling's two sockets.</summary>
    public static readonly Dimension SocketCoupling = new("forged", "SW coupling", "laying length");
    public static readonly Dimension ThreadedCoupling = new("forged", "TH coupling", "end to end");
    public static readonly Dimension ThreadedCouplingOutside = new("forged", "TH coupling", "outside diameter");

    /// <summary>From a half coupling's plain end to the bottom of its socket.</summary>
    public static readonly Dimension SocketHalfCoupling = new("forged", "SW half coupling", "laying length");
    public static readonly Dimension ThreadedHalfCoupling = new("forged", "TH half coupling", "end to end");

    /// <summary>A plug's thread, at least.</summary>
    public static readonly Dimension PlugThread = new("forged", "TH plug", "plug thread");

    public static readonly Dimension PlugHead = new("forged", "TH plug", "head height");
    public static readonly Dimension PlugFlats = new("forged", "TH plug", "across flats");

    public static readonly Dimension ThreadedCapLength = new("forged", "TH cap", "end to end");

    public static readonly ForgedFitting SocketElbow90 = ForgedFitting.Socket("SW elbow 90");
    public static readonly ForgedFitting SocketElbow45 = ForgedFitting.Socket("SW elbow 45");
    public static readonly ForgedFitting SocketTee = ForgedFitting.Socket("SW tee");
    public static readonly ForgedFitting ThreadedElbow90 = ForgedFitting.Threaded("TH elbow 90");
    public static readonly ForgedFitting ThreadedElbow45 = ForgedFitting.Threaded("TH elbow 45");
    public static readonly ForgedFitting ThreadedTee = ForgedFitting.Threaded("TH tee");
}

/// <summary>The dimensions of one forged fitting.</summary>
/// <param name="Item">Its name in the table.</param>
/// <param name="CentreToStop">Centre to socket bottom, or centre to threaded end.</param>
/// <param name="Around">Diameter of the body round the pipe: the thread's band, or the socket's bore.</param>
/// <param name="BodyWall">Wall round the socket's bore; null where <paramref name="Around"/> is the outside itself.</param>
public sealed record ForgedFitting(string Item, Dimension CentreToStop, Dimension Around, Dimension? BodyWall)
{
    internal static ForgedFitting Socket(string item) =>
        new(item, new("forged", item, "centre to socket bottom"), new("forged", item, "socket bore max"), new("forged", item, "body wall"));

    internal static ForgedFitting Threaded(string item) => new(item, new("forged", item, "centre to end"), new("forged", item, "band diameter"), null);

    internal IEnumerable<Dimension> Dimensions => BodyWall is null ? [CentreToStop, Around] : [CentreToStop, Around, BodyWall];
}

/// <summary>Branch outlets: MSS SP-97.</summary>
public static class Outlets
{
    public static readonly Dimension ButtHeight = new("outlets", "outlet butt", "height");
    public static readonly Dimension SocketHeight = new("outlets", "outlet socket", "height");
    public static readonly Dimension ThreadedHeight = new("outlets", "outlet threaded", "height");
}

/// <summary>Valves: ASME B16.10, and published masses.</summary>
public static class Valves
{
    public static readonly Dimension GateFlanged = new("valves", "valve gate", "face to face");
    public static readonly Dimension GlobeFlanged = new("valves", "valve globe", "face to face");
    public static readonly Dimension CheckFlanged = new("valves", "valve check", "face to face");
    public static readonly Dimension BallFlanged = new("valves", "valve ball", "face to face");
    public static readonly Dimension ButterflyFlanged = new("valves", "valve butterfly", "face to face");
    public static readonly Dimension GateButt = new("valves", "valve gate", "end to end");
    public static readonly Dimension GlobeButt = new("valves", "valve globe", "end to end");
    public static readonly Dimension CheckButt = new("valves", "valve check", "end to end");
    public static readonly Dimension BallButt = new("valves", "valve ball", "end to end");
    public static readonly Dimension GateMass = new("valve-mass", "valve gate", "mass");
    public static readonly Dimension GlobeMass = new("valve-mass", "valve globe", "mass");
    public static readonly Dimension CheckMass = new("valve-mass", "valve check", "mass");
    public static readonly Dimension BallMass = new("valve-mass", "valve ball", "mass");
}

/// <summary>How pipe ends are made: ASME B16.25, and common practice at slip-on flanges.</summary>
public static class PipeEnds
{
    /// <summary>Wall up to which a butt end stays square.</summary>
    public static readonly Dimension SquareUpTo = new("ends", "butt end", "square up to wall");

    /// <summary>Wall above which the bevel is compound.</summary>
    public static readonly Dimension CompoundOver = new("ends", "butt end", "compound over wall");

    /// <summary>Degrees from square.</summary>
    public static readonly Dimension Bevel = new("ends", "butt end", "bevel degrees");

    /// <summary>Degrees from square of the upper part of a compound bevel.</summary>
    public static readonly Dimension UpperBevel = new("ends", "butt end", "upper bevel degrees");

    public static readonly Dimension Land = new("ends", "butt end", "land");

    /// <summary>The pipe stops its wall short of a slip-on flange's face, and no more than this.</summary>
    public static readonly Dimension SlipOnMost = new("ends", "slip-on flange", "pipe short of the face at most");

    /// <summary>And this for the weld.</summary>
    public static readonly Dimension SlipOnSetBack = new("ends", "slip-on flange", "set-back for the weld");
}

/// <summary>Pipe threads: ASME B1.20.1.</summary>
public static class Threads
{
    public static readonly Dimension NormalEngagement = new("threads", "thread NPT", "normal engagement");
}

/// <summary>Gaskets: ASME B16.20 and B16.21.</summary>
public static class Gaskets
{
    public static readonly Dimension SpiralRing = new("gaskets", "gasket spiral wound", "ring outside");
}

/// <summary>Support spans: MSS SP-69, ASME B31.1 table 121.5.</summary>
public static class Supports
{
    public static readonly Dimension SpanOfWater = new("supports", "support span", "water");
    public static readonly Dimension SpanOfGas = new("supports", "support span", "gas");
}
