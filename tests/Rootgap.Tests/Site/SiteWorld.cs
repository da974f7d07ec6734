using System.Globalization;
using System.Text.Json;
using System.Text;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;
using Rootgap.Site;

namespace Rootgap.Tests.Site;

/// <summary>
/// A line as it really stands, with geometry of its own: read from the packet's JSON, bodies put where they are not as drawn, points touched and read by
/// formulas written here from the definitions. Nothing of the program's own geometry is used.
/// </summary>
internal sealed class SiteWorld
{
    /// <summary>A face as drawn: name, body, centre, normal, joint's clock, diameters, where the pipe ends now.</summary>
    public sealed record Face(string Name, string Body, string Joint, bool IsFirst, double[] At, double[] N, double Outside, double Inside, double Extra, bool IsBolted, double PipeOutside, double PipeFrom, double PipeTo, double[]? Holes, int HoleCount, double Circle);

    public List<Face> Faces { get; } = [];
    public Dictionary<string, (double[] C, double[] Twelve, double[] Three, double[] A, double G)> Joints { get; } = [];
    public Dictionary<string, double[]> Reference { get; } = [];
    public List<string> FinalFits { get; } = [];
    public Packet Packet { get; }

    /// <summary>Pose of each body: shift and rotation vector.</summary>
    public Dictionary<string, (double[] T, double[] R)> Pose { get; } = [];

    /// <summary>Error of each end in its joint's axes.</summary>
    public Dictionary<string, double[]> Own { get; } = [];

    /// <summary>Growth of the steel, and how survey coordinates come from plant ones.</summary>
    public double Growth { get; set; }

    public (double[] R, double[] T)? Frame { get; set; }

    public SiteWorld(string yaml)
    {
        Packet = Given.Packet(yaml);
        using var json = JsonDocument.Parse(Given.Json(Packet));
        var root = json.RootElement;
        var ports = new Dictionary<string, List<(double[] At, double[] N)>>(StringComparer.Ordinal);
        var spool = new Dictionary<string, string>(StringComparer.Ordinal);
        var kind = new Dictionary<string, string>(StringComparer.Ordinal);
        var extra = new Dictionary<string, double>(StringComparer.Ordinal);
        var holes = new Dictionary<string, double[]>(StringComparer.Ordinal);
        foreach (var (c, isPipe) in root.GetProperty("components").EnumerateArray().Select(c => (c, false)).Concat(root.GetProperty("cuts").EnumerateArray().Select(c => (c, true))))
        {
            var id = c.GetProperty("id").GetString()!;
            ports[id] = [.. c.GetProperty("ports").EnumerateArray().Select(p => (Three(p), Three(p.GetProperty("face"))))];
            kind[id] = isPipe ? "pipe" : c.GetProperty("kind").GetString()!;
            if (c.TryGetProperty("spool", out var s))
                spool[id] = s.GetString()!;
            if (isPipe)
                extra[id] = c.GetProperty("extra").GetDouble();
            if (c.TryGetProperty("holes straddle", out var h))
                holes[id] = Three(h);
        }

        var joints = root.GetProperty("joints").EnumerateArray().ToList();
        // A loose part goes with what its lowest-numbered bolted joint ties it to.
        foreach (var id in ports.Keys.Where(id => kind[id] == "valve" && !spool.ContainsKey(id)).ToList())
        {
            var first = joints.First(j => j.GetProperty("kind").GetString() == "bolted" && Between(j).Contains(id));
            spool[id] = spool[Between(first).First(o => o != id)];
        }

        foreach (var joint in joints)
        {
            var between = Between(joint);
            var isBolted = joint.GetProperty("kind").GetString() == "bolted";
            var name = joint.GetProperty("joint").GetString()!;
            if (between.Count == 2 && spool.GetValueOrDefault(between[0]) == spool.GetValueOrDefault(between[1]))
                continue;
            if (!isBolted && joint.GetProperty("place").GetString() == "shop" && between.Count == 2)
                continue;
            var centre = Three(joint.GetProperty("at"));
            (double[] At, double[] N) Port(string id) => ports[id].MinBy(p => Length(Minus(p.At, centre)));
            var isStart = between.Count == 1 && (!joint.TryGetProperty("leg", out var leg) || (leg.GetInt32() == 0 && !isBolted));
            var own = Port(between[0]);
            var a = between.Count == 2 || !isStart ? own.N : Times(own.N, -1);
            var gap = joint.TryGetProperty("gap", out var g) ? g.GetDouble() : 0;
            var other = between.Count == 2 ? Port(between[1]) : (At: Plus(own.At, Times(own.N, gap)), N: Times(own.N, -1));
            var upright = Math.Abs(a[2]) > Math.Cos(5 * Math.PI / 180);
            double[] wanted = upright ? [0, 1, 0] : [0, 0, 1];
            var twelve = Unit(Minus(wanted, Times(a, Dot(wanted, a))));
            var (one, two) = between.Count == 2 || !isStart ? (own, other) : (other, own);
            Joints[name] = (centre, twelve, Cross(a, twelve), a, Dot(Minus(two.At, one.At), a));
            if (joint.GetProperty("place").GetString() == "final-fit")
                FinalFits.Add(name);
            for (var side = 0; side < 2; side++)
            {
                var id = between.Count == 2 ? between[side] : (side == 0) != isStart ? between[0] : "";
                var (at, n) = side == 0 ? one : two;
                var body = id.Length > 0 ? "spool " + spool[id] : name + " of other";
                var size = joint.GetProperty("size").GetString()!;
                var pipe = PipeOutside[size];
                var inside = pipe - (2 * Wall[size]);
                var flange = id.Length > 0 && holes.ContainsKey(id) ? id : between.FirstOrDefault(holes.ContainsKey);
                var (from, to) = StraightBehind(id, at, n, isBolted, joints, ports, kind);
                Faces.Add(new($"{name} of {(id.Length > 0 ? spool[id] : "other")}", body, name, side == 0, at, n, isBolted ? FlangeOutside[size] : pipe, inside,
                    id.Length > 0 && extra.GetValueOrDefault(id) > 0 && joint.GetProperty("place").GetString() == "final-fit" ? extra[id] : 0, isBolted, pipe, from, to,
                    isBolted && flange is not null ? holes[flange] : null, HoleCount.GetValueOrDefault(size), Circle.GetValueOrDefault(size)));
            }
        }

        foreach (var body in Faces.GroupBy(f => f.Body))
        {
            Reference[body.Key] = Times(body.Aggregate(new double[3], (s, f) => Plus(s, f.At)), 1.0 / body.Count());
            Pose[body.Key] = ([0, 0, 0], [0, 0, 0]);
        }

        foreach (var face in Faces)
            Own[face.Name] = new double[6];
    }

    // ASME B36.10M schedule 40 and B16.5 class 150, millimetre columns, from memory; the tables themselves are tested elsewhere.
    private static readonly Dictionary<string, double> PipeOutside = new(StringComparer.Ordinal) { ["3"] = 88.9, ["4"] = 114.3, ["6"] = 168.3, ["8"] = 219.1 };
    private static readonly Dictionary<string, double> Wall = new(StringComparer.Ordinal) { ["3"] = 5.49, ["4"] = 6.02, ["6"] = 7.11, ["8"] = 8.18 };
    private static readonly Dictionary<string, double> FlangeOutside = new(StringComparer.Ordinal) { ["3"] = 190, ["4"] = 230, ["6"] = 280, ["8"] = 345 };
    private static readonly Dictionary<string, double> Circle = new(StringComparer.Ordinal) { ["3"] = 152.4, ["4"] = 190.5, ["6"] = 241.3, ["8"] = 298.5 };
    private static readonly Dictionary<string, int> HoleCount = new(StringComparer.Ordinal) { ["3"] = 4, ["4"] = 8, ["6"] = 8, ["8"] = 8 };

    public Face Of(string name) => Faces.Single(f => f.Name == name);

    /// <summary>A place on an end's metal, as it stands.</summary>
    private double[] Moved(Face f, double[] p, bool isDirection)
    {
        var now = Plus(f.At, Times(f.N, f.Extra));
        var c = Reference[f.Body];
        var j = Joints[f.Joint];
        var own = Own[f.Name];
        double[] Plant(int i) => Plus(Plus(Times(j.Three, own[i]), Times(j.Twelve, own[i + 1])), Times(j.A, own[i + 2]));
        var (q1, q2) = (Rotation(Plant(3)), Rotation(Pose[f.Body].R));
        if (isDirection)
            return Apply(q2, Apply(q1, p));
        var grown = Times(Minus(now, c), Growth);
        var centre = Plus(now, grown);
        var x = Plus(Plus(centre, Apply(q1, Minus(Plus(p, grown), centre))), Plant(0));
        return Plus(Plus(c, Apply(q2, Minus(x, c))), Pose[f.Body].T);
    }

    public double[] Centre(Face f) => Moved(f, Plus(f.At, Times(f.N, f.Extra)), isDirection: false);

    public double[] Normal(Face f) => Moved(f, f.N, isDirection: true);

    private double[] Q(Face f, double clock, double[] n)
    {
        var j = Joints[f.Joint];
        var q = Plus(Times(j.Twelve, Math.Cos(clock)), Times(j.Three, Math.Sin(clock)));
        return Unit(Minus(q, Times(n, Dot(q, n))));
    }

    /// <summary>A point as the survey file names it.</summary>
    public double[] Point(string point, string end)
    {
        var f = Of(end);
        var words = point.Split(' ');
        var n = Normal(f);
        switch (words[0])
        {
            case "centre": return Centre(f);
            case "lip": return Plus(Centre(f), Times(Q(f, Hours(words[1]), n), f.Outside / 2));
            case "nose": return Plus(Centre(f), Times(Q(f, Hours(words[1]), n), f.Inside / 2));
            case "crown": return Plus(Plus(Centre(f), Times(n, -Figure(words[1]))), Times(Q(f, 0, n), f.PipeOutside / 2));
            case "side": return Plus(Plus(Centre(f), Times(n, -Figure(words[2]))), Times(Q(f, Hours(words[1]), n), f.PipeOutside / 2));
            default:
                var j = Joints[f.Joint];
                // The reference line straddled: holes lie half a pitch beside it; the first is the least angle clockwise from 12.
                var angles = Enumerable.Range(0, f.HoleCount).Select(k =>
                {
                    var angle = Math.Atan2(Dot(f.Holes!, j.Three), Dot(f.Holes!, j.Twelve)) + (Math.PI / f.HoleCount) + (2 * Math.PI * k / f.HoleCount);
                    return ((angle + (0.5 * Math.PI / 180)) % (2 * Math.PI) + (2 * Math.PI)) % (2 * Math.PI) - (0.5 * Math.PI / 180);
                }).Order().ToList();
                var hole = angles[int.Parse(words[1], CultureInfo.InvariantCulture) - 1];
                var d = Plus(Times(j.Twelve, Math.Cos(hole)), Times(j.Three, Math.Sin(hole)));
                return Moved(f, Plus(Plus(f.At, Times(f.N, f.Extra)), Times(d, f.Circle / 2)), isDirection: false);
        }
    }

    public double Tape(string p, string a, string q, string b) => Length(Minus(Point(p, a), Point(q, b)));

    public double Gap(double hours, string joint, bool isStep)
    {
        var (one, two) = (Faces.Single(f => f.Joint == joint && f.IsFirst), Faces.Single(f => f.Joint == joint && !f.IsFirst));
        double[] Edge(Face f) => Plus(Centre(f), Times(Q(f, hours * Math.PI / 6, Normal(f)), (f.IsBolted ? f.Outside : f.Inside) / 2));
        var across = Minus(Edge(two), Edge(one));
        return Dot(across, isStep ? Q(one, hours * Math.PI / 6, Normal(one)) : Normal(one));
    }

    public double[] Seen(double[] p) => Frame is var (r, t) ? Plus(Apply(Rotation(r), p), t) : p;

    /// <summary>What is to be cut off at sixteen places, where the second face's plane shifted by the gap meets lines on the outside along the first's axis.</summary>
    public double[] CutRound(string joint)
    {
        var faces = Faces.Where(f => f.Joint == joint).ToList();
        var (l, f) = faces[0].Extra > 0 ? (faces[0], faces[1]) : (faces[1], faces[0]);
        var (a, end, n, plane) = (Normal(l), Centre(l), Normal(f), Plus(Centre(f), Times(Normal(f), Joints[joint].G)));
        return [.. Enumerable.Range(0, 16).Select(i =>
        {
            var start = Plus(end, Times(Q(l, i * Math.PI / 8, a), l.Outside / 2));
            // start - s a lies in the plane.
            return Dot(Minus(start, plane), n) / Dot(a, n);
        })];
    }

    public (JsonElement Json, string Survey) Close(string survey)
    {
        var line = SiteLine.Of(Packet.Fabrication);
        var read = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes(survey));
        Assert.True(read.Errors.Count == 0, string.Join('\n', read.Errors.Select(e => e.At + ": " + e.Message + " " + e.Remedy)) + "\n" + survey);
        var (closing, errors) = LineClosing.Of(line, read.Survey);
        Assert.True(closing is not null, string.Join('\n', errors.Select(e => e.At + ": " + e.Message)) + "\n" + survey);
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
            ClosingJson.Write(json, closing!, new ClosingWords(Units.Millimetres).Say(closing!));
        using var document = JsonDocument.Parse(stream.ToArray());
        return (document.RootElement.Clone(), survey);
    }

    private static (double From, double To) StraightBehind(
        string id, double[] at, double[] n, bool isBolted, List<JsonElement> joints, Dictionary<string, List<(double[] At, double[] N)>> ports, Dictionary<string, string> kind)
    {
        if (id.Length == 0)
            return (0, 0);
        var pipe = id;
        if (kind[id] == "flange" && isBolted)
            pipe = joints.Where(j => j.GetProperty("kind").GetString() != "bolted" && Between(j).Contains(id)).SelectMany(Between).FirstOrDefault(o => kind[o] == "pipe") ?? "";
        if (pipe.Length == 0 || kind[pipe] != "pipe")
            return (0, 0);
        var back = ports[pipe].Select(p => Dot(Minus(at, p.At), n)).Order().ToList();
        return (back[0], back[1]);
    }

    public static double Hours(string text) => (double.Parse(text, CultureInfo.InvariantCulture) % 12) * Math.PI / 6;

    private static double Figure(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static List<string> Between(JsonElement joint) => [.. joint.GetProperty("between").EnumerateArray().Select(e => e.GetString()!)];

    private static double[] Three(JsonElement e) => [e.GetProperty("east").GetDouble(), e.GetProperty("north").GetDouble(), e.GetProperty("up").GetDouble()];

    public static double[] Plus(double[] a, double[] b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

    public static double[] Minus(double[] a, double[] b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

    public static double[] Times(double[] a, double k) => [a[0] * k, a[1] * k, a[2] * k];

    public static double Dot(double[] a, double[] b) => (a[0] * b[0]) + (a[1] * b[1]) + (a[2] * b[2]);

    public static double Length(double[] a) => Math.Sqrt(Dot(a, a));

    public static double[] Unit(double[] a) => Times(a, 1 / Length(a));

    public static double[] Cross(double[] a, double[] b) => [(a[1] * b[2]) - (a[2] * b[1]), (a[2] * b[0]) - (a[0] * b[2]), (a[0] * b[1]) - (a[1] * b[0])];

    /// <summary>The rotation matrix of a rotation vector, as the exponential of its cross-product matrix: a power series, halved and squared.</summary>
    public static double[][] Rotation(double[] r)
    {
        const int Halvings = 8;
        var k = Math.Pow(2, -Halvings);
        double[][] w = [[0, -r[2] * k, r[1] * k], [r[2] * k, 0, -r[0] * k], [-r[1] * k, r[0] * k, 0]];
        double[][] sum = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
        var term = sum;
        for (var i = 1; i < 14; i++)
        {
            term = [.. Multiply(term, w).Select(row => row.Select(v => v / i).ToArray())];
            sum = [.. sum.Select((row, y) => row.Select((v, x) => v + term[y][x]).ToArray())];
        }

        for (var i = 0; i < Halvings; i++)
            sum = Multiply(sum, sum);
        return sum;
    }

    public static double[] Apply(double[][] m, double[] v) => [Dot(m[0], v), Dot(m[1], v), Dot(m[2], v)];

    private static double[][] Multiply(double[][] a, double[][] b) => [.. a.Select(row => Enumerable.Range(0, 3).Select(x => (row[0] * b[0][x]) + (row[1] * b[1][x]) + (row[2] * b[2][x])).ToArray())];
}
