using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Independent;

/// <summary>
/// Drawings thrown at random and what a second program, written from the drawing format alone (tools/oracle, Python), worked out for them:
/// work points, ends, cut lengths, joints in their order, the parting into spools, materials. All within 0.01 mm.
/// </summary>
public class IndependentAnswersTest
{
    private const double Within = 0.01;

    private static readonly JsonElement Drawings = Read("drawings.json");
    private static readonly JsonElement Kept = Read("answers.json");

    /// <summary>Stops that are right here: the lists are drawn short, and what is thrown at random runs through itself.</summary>
    private static readonly string[] Expected =
        ["quantity-short", "pipe-listed-short", "stud-number", "runs-through-another", "branch-on-fitting", "piece-longer-than-stock"];

    public static TheoryData<string> Answered => [.. Kept.GetProperty("answers").EnumerateObject().Select(p => p.Name)];

    public static TheoryData<string> Refused => [.. Kept.GetProperty("refused").EnumerateObject().Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Answered))]
    public void The_packet_is_what_the_second_program_worked_out(string name)
    {
        var mine = Kept.GetProperty("answers").GetProperty(name);
        var packet = PacketOf(name);
        Points(mine, packet);
        var same = Cuts(mine, packet);
        Components(mine, packet, same);
        Joints(mine, packet, same);
        Spools(mine, packet, same);
        Materials(mine, packet);
        Assert.DoesNotContain(packet.GetProperty("findings").EnumerateArray(), f => Text(f, "severity") == "stop" && !Expected.Contains(Text(f, "rule")));
    }

    /// <summary>The second program could not build these: a pipe shorter than nothing, a fitting that no standard has. The packet says so too.</summary>
    [Theory]
    [MemberData(nameof(Refused))]
    public void What_the_second_program_cannot_build_is_not_buildable(string name) =>
        Assert.True(Reading(name) is not { Drawing: { } drawing } || !Packet.Of(drawing).IsBuildable, Text(Kept.GetProperty("refused"), name));

    private static void Points(JsonElement mine, JsonElement packet)
    {
        var runs = packet.GetProperty("runs").EnumerateArray().ToDictionary(r => Text(r, "run"), r => r.GetProperty("points"), StringComparer.Ordinal);
        foreach (var run in mine.GetProperty("points").EnumerateObject())
        {
            var theirs = runs[run.Name].EnumerateArray().Select(Place).ToList();
            Assert.Equal(run.Value.GetArrayLength(), theirs.Count);
            foreach (var (a, b) in run.Value.EnumerateArray().Select(Row).Zip(theirs))
                Assert.True(Far(a, b) <= Within, $"work point of {run.Name}: {Says(a)}, not {Says(b)}");
        }
    }

    /// <summary>Lengths, and which of the packet's pipes is which of the answer's.</summary>
    private static Dictionary<string, string> Cuts(JsonElement mine, JsonElement packet)
    {
        var same = new Dictionary<string, string>(StringComparer.Ordinal);
        var theirs = packet.GetProperty("cuts").EnumerateArray().ToDictionary(c => (Text(c, "run"), c.GetProperty("leg").GetInt32()));
        var all = mine.GetProperty("cuts").EnumerateArray().ToList();
        Assert.Equal(all.Count, theirs.Count);
        foreach (var (cut, i) in all.Select((c, i) => (c, i)))
        {
            var key = (Text(cut, "run"), cut.GetProperty("leg").GetInt32());
            Assert.True(theirs.TryGetValue(key, out var their), $"{key} has a pipe");
            Assert.Equal(Text(cut, "size"), Text(their, "size"));
            Assert.True(Math.Abs(Number(cut, "length") - Number(their, "length")) <= Within, $"{key}: {Number(cut, "length")}, not {Number(their, "length")}");
            Assert.True(Math.Abs(Number(cut, "extra") - Number(their, "extra")) <= Within, $"{key}: extra {Number(cut, "extra")}, not {Number(their, "extra")}");
            var sum = their.GetProperty("sum").EnumerateArray().Sum(s => Number(s, "mm"));
            Assert.True(Math.Abs(sum - Number(their, "length")) <= Within, $"{key}: its sum is {sum}, not {Number(their, "length")}");
            same[$"P{i}"] = Text(their, "id");
        }

        return same;
    }

    private static void Components(JsonElement mine, JsonElement packet, Dictionary<string, string> same)
    {
        var left = packet.GetProperty("components").EnumerateArray().ToList();
        foreach (var (c, i) in mine.GetProperty("components").EnumerateArray().Select((c, i) => (c, i)))
        {
            var near = left.Where(x => Text(x, "kind") == Text(c, "kind") && Text(x, "run") == Text(c, "run") && Leg(x) == Leg(c)).ToList();
            Assert.True(near.Count > 0, $"{Text(c, "kind")} of {Text(c, "run")} leg {Leg(c)} is in the packet");
            var their = near.MinBy(x => Apart(c, x));
            Assert.True(Apart(c, their) <= Within, $"{Text(c, "kind")} of {Text(c, "run")} leg {Leg(c)}: its ends are off by {Apart(c, their):0.###}");
            Assert.Equal(Text(c, "size"), Text(their, "size"));
            left.Remove(their);
            same[$"C{i}"] = Text(their, "id");
        }

        Assert.Empty(left);
    }

    /// <summary>The farthest that an end of the answer's component is from the packet's nearest, faces counted at arm's length of a millimetre.</summary>
    private static double Apart(JsonElement mine, JsonElement theirs) =>
        mine.GetProperty("ports").EnumerateArray().Select(p => p.EnumerateArray().Select(Row).ToArray())
            .Max(p => theirs.GetProperty("ports").EnumerateArray().Min(y => Far(p[0], Place(y)) + Far(p[1], Place(y.GetProperty("face")))));

    private static void Joints(JsonElement mine, JsonElement packet, Dictionary<string, string> same)
    {
        static string Joint(JsonElement j, IEnumerable<string> between) =>
            $"{Text(j, "kind")} {Text(j, "place")} {Text(j, "size")} {string.Join('+', between.Order(StringComparer.Ordinal))}";
        var all = mine.GetProperty("joints").EnumerateArray().ToList();
        var theirs = packet.GetProperty("joints").EnumerateArray().ToList();
        Assert.Equal(all.Select(j => Joint(j, Names(j, "between").Select(b => same[b]))), theirs.Select(j => Joint(j, Names(j, "between"))), StringComparer.Ordinal);
        foreach (var (a, b) in all.Zip(theirs))
        {
            if (a.GetProperty("at").ValueKind == JsonValueKind.Array)
                Assert.True(Far(Row(a.GetProperty("at")), Place(b.GetProperty("at"))) <= Within, $"{Text(b, "joint")}: {Says(Row(a.GetProperty("at")))}, not {Says(Place(b.GetProperty("at")))}");
        }

        var (welds, bolted) = (0, 0);
        foreach (var joint in theirs)
            Assert.Equal(Text(joint, "kind") == "bolted" ? $"B{++bolted}" : $"W{++welds}", Text(joint, "joint"));
    }

    private static void Spools(JsonElement mine, JsonElement packet, Dictionary<string, string> same)
    {
        var pieces = packet.GetProperty("cuts").EnumerateArray().ToDictionary(c => Text(c, "piece"), c => Text(c, "id"), StringComparer.Ordinal);
        var theirs = packet.GetProperty("spools").EnumerateArray()
            .Select(s => string.Join(' ', Names(s, "pieces").Select(p => pieces[p]).Concat(Names(s, "components")).Order(StringComparer.Ordinal)));
        var all = mine.GetProperty("spools").EnumerateArray().Select(g => string.Join(' ', g.EnumerateArray().Select(x => same[x.GetString()!]).Order(StringComparer.Ordinal)));
        Assert.Equal(all.Order(StringComparer.Ordinal), theirs.Order(StringComparer.Ordinal), StringComparer.Ordinal);
        foreach (var named in mine.GetProperty("names").EnumerateObject())
        {
            var place = named.Name.Split('/');
            Assert.Contains(packet.GetProperty("components").EnumerateArray(),
                c => Text(c, "run") == place[0] && $"{Leg(c)}" == place[1] && c.TryGetProperty("spool", out var s) && s.GetString() == named.Value.GetString());
        }
    }

    private static void Materials(JsonElement mine, JsonElement packet)
    {
        Assert.Equal(mine.GetProperty("studs").GetInt32(), packet.GetProperty("bolting").EnumerateArray().Sum(b => b.GetProperty("count").GetInt32()));
        if (mine.GetProperty("needed").ValueKind == JsonValueKind.Null)
            return;
        var theirs = packet.GetProperty("materials").EnumerateArray().Where(m => m.TryGetProperty("item", out _)).ToDictionary(m => $"{m.GetProperty("item").GetInt32()}", m => Number(m, "needed"), StringComparer.Ordinal);
        // The second program adds up the lengths of the sums; what the saw leaves on besides for a saddle, mm, comes out of the same bar.
        var saddles = packet.GetProperty("cuts").EnumerateArray().Where(c => c.TryGetProperty("saddle", out _) && c.TryGetProperty("item", out _)).ToLookup(c => $"{c.GetProperty("item").GetInt32()}", c => Number(c, "saddle"), StringComparer.Ordinal);
        foreach (var item in mine.GetProperty("needed").EnumerateObject())
            Assert.True(Math.Abs(item.Value.GetDouble() + (saddles[item.Name].Sum() / 1000) - theirs[item.Name]) <= 1e-4, $"item {item.Name}: {item.Value}, not {theirs[item.Name]}");
        Assert.All(packet.GetProperty("materials").EnumerateArray(), m => Assert.True(m.TryGetProperty("item", out _), $"{Text(m, "what")} is needed and not on the list"));
    }

    private static JsonElement PacketOf(string name)
    {
        var reading = Reading(name);
        Assert.True(reading.Drawing is not null, string.Join('\n', reading.Errors.Select(e => e.Message)));
        using var written = new MemoryStream();
        using (var json = new Utf8JsonWriter(written))
        {
            PacketJson.Begin(json, "test");
            PacketJson.Write(json, Packet.Of(reading.Drawing!));
            PacketJson.End(json);
        }

        return JsonDocument.Parse(written.ToArray()).RootElement.GetProperty("drawings")[0];
    }

    private static DrawingReading Reading(string name)
    {
        var drawing = Drawings.GetProperty(name);
        return DrawingReader.Read(Text(drawing, "text"), name, file => drawing.GetProperty("beside").TryGetProperty(file, out var body) ? Encoding.UTF8.GetBytes(body.GetString()!) : null);
    }

    private static JsonElement Read(string file) =>
        JsonDocument.Parse(File.ReadAllText(Repository.At("tests", "Rootgap.Tests", "Independent", file))).RootElement;

    private static string Text(JsonElement of, string key) => of.GetProperty(key).GetString()!;

    private static double Number(JsonElement of, string key) => of.GetProperty(key).GetDouble();

    private static IEnumerable<string> Names(JsonElement of, string key) => of.GetProperty(key).EnumerateArray().Select(x => x.GetString()!);

    /// <summary>-1 for what stands at the start of a run.</summary>
    private static int Leg(JsonElement c) => c.TryGetProperty("leg", out var leg) && leg.ValueKind == JsonValueKind.Number ? leg.GetInt32() : -1;

    private static double[] Place(JsonElement p) => [Number(p, "east"), Number(p, "north"), Number(p, "up")];

    private static double[] Row(JsonElement p) => [.. p.EnumerateArray().Select(x => x.GetDouble())];

    private static double Far(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Sum());

    private static string Says(double[] p) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"({p[0]:0.###}, {p[1]:0.###}, {p[2]:0.###})");
}
