using System.Buffers;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.FitUp;

/// <summary>
/// A small program of its own (plain arrays, matrices, its own statics) that takes random spools through the JSON of their order of work and holds every step
/// against the drawing's parts: who is held, what hangs together, ends that are closed, and targets with errors kept before.
/// </summary>
[Trait("pace", "slow")]
public class SpoolsJudgedTest
{
    private static readonly Gen<Packet> Drawings = Gens.Sketches.Select(s => s.Packet()).Where(p => p.IsBuildable && p.Fabrication.Spools.Any(s => s.Joints.Count is > 0 and < 8));

    private static JsonElement Json(Action<Utf8JsonWriter> write)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            write(json);
        return JsonDocument.Parse(buffer.WrittenMemory).RootElement;
    }

    private static double[] V(JsonElement e) => [e.GetProperty("east").GetDouble(), e.GetProperty("north").GetDouble(), e.GetProperty("up").GetDouble()];

    private static string[] Strings(JsonElement e, string name) => e.TryGetProperty(name, out var list) ? [.. list.EnumerateArray().Select(t => t.GetString()!)] : [];

    private static IEnumerable<(FitSpool Spool, IReadOnlyList<FitStep> Steps, JsonElement Order)> Orders(Packet packet)
    {
        var fitting = new FitJoints(packet.Fabrication);
        foreach (var spool in packet.Fabrication.Spools.Where(s => s.Joints.Count is > 0 and < 8))
        {
            var fit = fitting.OfSpool(spool);
            var steps = FitOrder.Of(fit);
            // What is only screwed together has nothing to fit.
            if (steps.Count == 0)
                continue;
            yield return (fit, steps, Json(j => FitOrderJson.Write(j, [(spool, fit, steps)], true)).GetProperty("spools")[0]);
        }
    }

    [Fact]
    public void Each_step_joins_what_hangs_together_and_holds_the_right_side() => Drawings.Holds(packet =>
    {
        foreach (var (fit, _, order) in Orders(packet))
        {
            var group = fit.Spool.Components.Select(c => c.Id).Concat(fit.Spool.Cuts.Select(c => c.Pipe.Id)).ToDictionary(id => id, id => (HashSet<string>)[id], StringComparer.Ordinal);
            foreach (var threaded in fit.Spool.Joints.Where(j => j.Kind == JointKind.Threaded))
                Join(group, threaded.Between);
            HashSet<string>? last = null;
            foreach (var step in order.GetProperty("steps").EnumerateArray())
            {
                var name = step.GetProperty("joint").GetString();
                var weld = fit.Spool.Joints.Single(j => j.Id == name);
                var (held, brought) = (step.GetProperty("held assembly"), step.GetProperty("brought assembly"));
                var (one, other) = (group[weld.Between[0]], group[weld.Between[1]]);
                Assert.Equal(brought.GetProperty("mass").GetDouble(), step.GetProperty("lift").GetDouble(), 1e-6);
                if (one != other)
                {
                    var isFirst = HoldsFirst(packet, weld, one, other, last);
                    Assert.True(group[step.GetProperty("held").GetString()!] == (isFirst ? one : other), $"{name}: held {step.GetProperty("held")}");
                    Assert.True((isFirst ? one : other).SetEquals(Strings(held, "parts")), name);
                    Assert.True((isFirst ? other : one).SetEquals(Strings(brought, "parts")), name);
                }

                foreach (var side in new[] { held, brought })
                    Assert.Equal(Strings(side, "parts").Sum(id => MassOf(packet, id) ?? 0), side.GetProperty("mass").GetDouble(), 0.01);
                Join(group, weld.Between);
                last = group[weld.Between[0]];
            }

            // The last step makes the whole spool, whose mass and centre another part of the program reckons.
            var end = order.GetProperty("steps").EnumerateArray().Last();
            var (h, b) = (end.GetProperty("held assembly"), end.GetProperty("brought assembly"));
            var mass = h.GetProperty("mass").GetDouble() + b.GetProperty("mass").GetDouble();
            if (fit.Spool.Joints.Count != fit.Welds.Count || Strings(h, "parts").Length + Strings(b, "parts").Length != fit.Parts.Count || !h.TryGetProperty("centre", out var hc))
                continue;
            Assert.Equal(fit.Spool.Mass, mass, 0.01 * mass);
            var bc = b.TryGetProperty("centre", out var c) ? V(c) : V(hc);
            for (var i = 0; i < 3; i++)
            {
                var at = ((h.GetProperty("mass").GetDouble() * V(hc)[i]) + (b.GetProperty("mass").GetDouble() * bc[i])) / mass;
                Assert.Equal(i switch { 0 => fit.Spool.CentreOfMass.X, 1 => fit.Spool.CentreOfMass.Y, _ => fit.Spool.CentreOfMass.Z }, at, Math.Max(2, 0.01 * fit.Spool.Box.Length));
            }
        }
    }, iter: 60);

    private static void Join(Dictionary<string, HashSet<string>> group, IReadOnlyList<string> between)
    {
        HashSet<string> all = [.. between.SelectMany(id => group[id])];
        foreach (var id in all)
            group[id] = all;
    }

    private static double? MassOf(Packet packet, string id) =>
        packet.Fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == id) is { } cut ? cut.Mass : packet.Fabrication.Masses.TryGetValue(id, out var m) ? m.Kg : null;

    private static bool HoldsFirst(Packet packet, Joint weld, HashSet<string> one, HashSet<string> other, HashSet<string>? last)
    {
        if (weld.Kind == JointKind.Branch)
        {
            // The header is the pipe that the weld is far from the ends of.
            double Near(string id) => packet.Fabrication.Route.PipeOf(id) is { } p ? Math.Min(p.Start.To(weld.At), p.End.To(weld.At)) : -1;
            return Near(weld.Between[0]) > Near(weld.Between[1]);
        }

        double Kg(HashSet<string> side) => side.Sum(id => MassOf(packet, id) ?? 0);
        bool Pipe(HashSet<string> side) => side.Any(id => id[0] == 'P');
        if (Pipe(one) && !Pipe(other) && Kg(other) <= 2 * Kg(one))
            return true;
        if (Pipe(other) && !Pipe(one) && Kg(one) <= 2 * Kg(other))
            return false;
        if (last == one && Kg(other) <= 1.25 * Kg(one))
            return true;
        if (last == other && Kg(one) <= 1.25 * Kg(other))
            return false;
        return Math.Abs(Kg(one) - Kg(other)) <= 0.01 * Math.Max(Kg(one), Kg(other)) || Kg(one) > Kg(other);
    }

    [Fact]
    public void Nothing_is_read_at_the_far_side_where_every_end_is_closed() => Drawings.Holds(packet =>
    {
        foreach (var (fit, _, order) in Orders(packet))
        {
            foreach (var step in order.GetProperty("steps").EnumerateArray())
            {
                var (held, brought) = (Strings(step.GetProperty("held assembly"), "parts"), Strings(step.GetProperty("brought assembly"), "parts"));
                var there = held.Concat(brought).ToHashSet(StringComparer.Ordinal);
                // An end is closed where a joint between parts that are there lies at it (within its gap, or a socket's depth).
                bool IsClosed(Part part, Port port) => packet.Fabrication.Route.Joints.Any(j =>
                    j.Kind != JointKind.Bolted && j.Between.Contains(part.Id) && j.Between.Count == 2 && j.Between.All(there.Contains) && part.Ports.MinBy(p => p.At.To(j.At)) == port && !(j.Kind == JointKind.Branch && part is PipePiece && port.At.To(j.At) > 60));
                var free = brought.Select(id => packet.Fabrication.Route.PartOf(id)!).Where(p => p is not Cap).SelectMany(p => p.Ports.Where(port => !IsClosed(p, port)));
                if (free.Any())
                    continue;
                Assert.False(Strings(step, "reads").Any(r => r.StartsWith("tape", StringComparison.Ordinal) || r.StartsWith("face level", StringComparison.Ordinal)
                    || r.StartsWith("plumb", StringComparison.Ordinal) || r.StartsWith("scale", StringComparison.Ordinal) || r == "holes"), $"{step.GetProperty("joint")}");
            }
        }
    }, iter: 60);

    [Fact]
    public void Targets_stand_where_the_errors_kept_before_have_moved_things()
    {
        Gen.Select(Drawings, Gen.Double[-1, 1].Array[48]).Holds((packet, random) =>
    {
        foreach (var (fit, steps, _) in Orders(packet))
        {
            var errors = steps.Select((s, k) => (s.Weld.Id, E: Enumerable.Range(0, 6).Select(i => random[((k * 6) + i) % 48] * (i < 3 ? 3 : Angles.ToRadians(1.5))).ToArray())).ToDictionary(t => t.Id, t => t.E, StringComparer.Ordinal);
            var cards = FitWork.Cards(fit, steps, id => new(null, PoseError.From(errors[id]), null));
            var motion = fit.Parts.ToDictionary(p => p.Id, _ => PlainMotion.One, StringComparer.Ordinal);
            for (var n = 0; n < steps.Count; n++)
            {
                var (step, answer) = (steps[n], Json(j => FitJson.Write(j, cards[n], null, [])));
                if (step.Joint.IsRing)
                    continue;
                var (held, brought) = (step.Joint.Held, step.Joint.New);
                // As drawn: the weld's middle from the two ends that meet, its axis out of the held one.
                var (from, to) = (EndAt(held.Of, step.Weld), EndAt(brought.Of, step.Weld));
                var seen = motion[step.SetUp.Base].Back();
                var h = seen.After(motion[held.Id]);
                // In a socket or a slip-on the pipe's end counts, which is set by a mark: its place is taken from the answer.
                var isBranch = step.Weld.Kind == JointKind.Branch;
                var isButt = step.Weld.Kind == JointKind.Butt || isBranch;
                var frame = answer.GetProperty("frame");
                // A branch looks into its header with its own end; the middle of its gap lies half of it before that.
                var a = isBranch ? h.Turn(FitBench.Times(FitBench.A(to.Face), -1)) : isButt ? h.Turn(FitBench.A(from.Face)) : V(frame.GetProperty("z"));
                var c = isBranch ? h.Of(FitBench.Plus(FitBench.A(to.At), FitBench.Times(FitBench.A(to.Face), step.Weld.Gap / 2)))
                    : isButt ? h.Of(FitBench.Times(FitBench.Plus(FitBench.A(from.At), FitBench.A(to.At)), 0.5)) : V(frame.GetProperty("centre"));
                var up = V(frame.GetProperty("up"));
                if (isButt)
                    Assert.True(FitBench.Norm(FitBench.Less(c, V(frame.GetProperty("centre")))) < 0.01, $"{step.Weld.Id}: centre");
                double[] Flat(double[] v, double[] along) => FitBench.Less(v, FitBench.Times(along, FitBench.Dot(v, along)));
                double[] Unit(double[] v) => FitBench.Times(v, 1 / FitBench.Norm(v));
                var twelve = Flat(up, a);
                if (FitBench.Norm(twelve) < Math.Sin(5 * Math.PI / 180))
                    twelve = FitBench.Norm(Flat([0, 1, 0], a)) > Math.Sin(5 * Math.PI / 180) ? Flat([0, 1, 0], a) : Flat([0, 0, 1], a);
                twelve = Unit(twelve);
                var three = FitBench.Cross(a, twelve);
                // The brought assembly as one, so that the new part lies to the held one as drawn.
                var all = motion[held.Id].After(motion[brought.Id].Back());
                var placed = step.Joint.Brought.Parts.ToDictionary(p => p.Id, p => all.After(motion[p.Id]), StringComparer.Ordinal);
                if (isButt && frame.TryGetProperty("end", out var endName))
                {
                    var end = packet.Fabrication.Route.PartOf(endName.GetString()!)!;
                    var place = seen.After(placed[end.Id]);
                    var port = end.Ports.MinBy(p => FitBench.Norm(FitBench.Less(place.Of(FitBench.A(AsCut(packet, end, p))), V(frame.GetProperty("face")))));
                    var (f, normal) = (place.Of(FitBench.A(AsCut(packet, end, port))), place.Turn(FitBench.A(port.Face)));
                    Assert.True(FitBench.Norm(FitBench.Less(f, V(frame.GetProperty("face")))) < 0.01, $"{step.Weld.Id}: face");
                    var way = Way(packet, step, brought.Of, to, end, port);
                    var into = seen.After(placed[brought.Id]);
                    double[] Carried(double[] q)
                    {
                        var t = into.Back().Turn(q);
                        foreach (var (goesIn, goesOut) in way)
                        {
                            var axis = FitBench.Cross(goesIn, goesOut);
                            if (FitBench.Norm(axis) > 1e-9)
                                t = PlainMotion.About([0, 0, 0], FitBench.Times(Unit(axis), Math.Atan2(FitBench.Norm(axis), FitBench.Dot(goesIn, goesOut))), [0, 0, 0]).Turn(t);
                        }

                        return Unit(Flat(into.Turn(t), normal));
                    }

                    double[] Lip(double[] q) => FitBench.Plus(f, FitBench.Times(Carried(q), port.Outside / 2));
                    // The side to which the new part turns; 12 o'clock where it leads straight on.
                    var bend = Flat(into.Turn(way[0].Out), a);
                    var isBent = FitBench.Norm(bend) > 1e-3;
                    var along = isBent ? Unit(bend) : twelve;
                    var across = isBent ? FitBench.Cross(a, along) : three;
                    if (isBent && (Math.Abs(FitBench.Dot(across, three)) > 1e-6 ? FitBench.Dot(across, three) : FitBench.Dot(across, twelve)) < 0)
                        across = FitBench.Times(across, -1);
                    double Slope(double[] v) => Angles.ToDegrees(Math.Asin(Math.Clamp(FitBench.Dot(Unit(v), up), -1, 1)));
                    // A butt weld's marks lie back on the pipe, a branch's along the header to either side.
                    double[] Mark(int at) => isBranch
                        ? FitBench.Plus(FitBench.Less(c, FitBench.Times(a, frame.GetProperty("gap").GetDouble() / 2)), FitBench.Times(Q(at), answer.GetProperty("mark").GetDouble()))
                        : FitBench.Plus(FitBench.Less(c, FitBench.Times(a, (frame.GetProperty("gap").GetDouble() / 2) + answer.GetProperty("mark").GetDouble())), FitBench.Times(Q(at), frame.GetProperty("outside").GetDouble() / 2));
                    double[] Q(int at) => at switch { 12 => twelve, 3 => three, 6 => FitBench.Times(twelve, -1), _ => FitBench.Times(three, -1) };
                    foreach (var target in answer.GetProperty("targets").EnumerateArray())
                    {
                        var at = target.TryGetProperty("at", out var clock) ? clock.GetInt32() : 0;
                        var read = target.GetProperty("read").GetString()!;
                        double Says(string key) => target.GetProperty(key).GetDouble();
                        switch (read)
                        {
                            case "tape":
                                Assert.Equal(FitBench.Norm(FitBench.Less(Lip(Q(at)), Mark(at))), Says("mm"), 0.05);
                                break;
                            case "plumb":
                                Assert.Equal(FitBench.Norm(Flat(FitBench.Less(Lip(Q(at)), Mark(at)), up)), Says("mm"), 0.05);
                                break;
                            case "height" when step.SetUp.StandHeight > 0:
                                var stand = step.SetUp.Stands[0];
                                var floor = FitBench.Less(FitBench.A(stand.At), FitBench.Times(up, step.SetUp.StandHeight + (fit.Parts.Single(p => p.Id == stand.Part).Outside / 2)));
                                Assert.Equal(FitBench.Dot(FitBench.Less(at > 0 ? Lip(Q(at)) : f, floor), up), Says("mm"), 0.05);
                                break;
                            case "face level":
                                Assert.Equal(Slope(Carried(target.TryGetProperty("along", out _) ? along : across)), Says(target.TryGetProperty("along", out _) ? "along" : "across"), 0.01);
                                break;
                            // Behind a held elbow the station counts along another pipe.
                            case "scale to pipe" when isBent:
                                var back = FitBench.Less(c, FitBench.Times(a, Says("station")));
                                Assert.Equal((FitBench.Dot(FitBench.Less(f, back), normal) / FitBench.Dot(along, normal)) - (frame.GetProperty("outside").GetDouble() / 2), Says("mm"), 0.05);
                                break;
                            case "holes":
                                var holes = fit.Parts.Single(p => p.Id == end.Id).Holes!;
                                Assert.Equal(Slope(FitBench.HoleLine(holes.Count, place.Turn(FitBench.A(holes.Between)), normal, up, Carried(three), Carried(twelve))), Says("deg"), 0.01);
                                break;
                            default:
                                continue;
                        }

                        Checked.AddOrUpdate(isBranch ? "branch " + read : read, 1, (_, k) => k + 1);
                    }
                }

                // The joint's own error, in its axes as it stands, moves all that was brought.
                var e = errors[step.Weld.Id];
                var world = motion[step.SetUp.Base];
                double[] Sum(int i) => world.Turn(FitBench.Plus(FitBench.Plus(FitBench.Times(three, e[i]), FitBench.Times(twelve, e[i + 1])), FitBench.Times(a, e[i + 2])));
                var moved = PlainMotion.About(world.Of(c), Sum(3), Sum(0));
                foreach (var (id, m) in placed)
                    motion[id] = moved.After(m);
            }
        }
    }, iter: 80);
        // Every kind of reading came along.
        Assert.All(["tape", "plumb", "height", "face level", "scale to pipe", "holes", "branch"], kind => Assert.True(Checked.Keys.Any(k => k.StartsWith(kind, StringComparison.Ordinal)), kind + " among " + string.Join(", ", Checked)));
    }


    private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, int> Checked = new(StringComparer.Ordinal);

    private static Port EndAt(Part part, Joint weld) => part.Ports.MinBy(p => p.At.To(weld.At));

    private static Point AsCut(Packet packet, Part part, Port port) => packet.Fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == part.Id) is { } cut
        ? (port.At.To(cut.Pipe.Start) < port.At.To(cut.Pipe.End) ? cut.Reach.Start : cut.Reach.End) : port.At;

    // The parts from the new one to the one whose end is read, each with the directions in which the way comes in and goes out.
    private static List<(double[] In, double[] Out)> Way(Packet packet, FitStep step, Part first, Port entry, Part end, Port exit)
    {
        var ids = step.Joint.Brought.Parts.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        var queue = new Queue<(Part Part, double[] In, List<(double[], double[])> Way)>([(first, FitBench.Times(FitBench.A(entry.Face), -1), [])]);
        var seen = new HashSet<string>(StringComparer.Ordinal) { first.Id };
        while (queue.TryDequeue(out var here))
        {
            if (here.Part.Id == end.Id)
                return [.. here.Way, (here.In, FitBench.A(exit.Face))];
            foreach (var joint in packet.Fabrication.Route.Joints.Where(j => j != step.Weld && j.Kind != JointKind.Bolted && j.Between.Contains(here.Part.Id)))
            {
                foreach (var other in joint.Between.Where(id => ids.Contains(id) && seen.Add(id)))
                {
                    var next = packet.Fabrication.Route.PartOf(other)!;
                    bool IsHeader(Part p) => joint.Kind == JointKind.Branch && p is PipePiece && p.Ports.Min(x => x.At.To(joint.At)) > 60;
                    var goesIn = IsHeader(next) ? FitBench.A(EndAt(here.Part, joint).Face) : FitBench.Times(FitBench.A(EndAt(next, joint).Face), -1);
                    var goesOut = IsHeader(here.Part) ? goesIn : FitBench.A(EndAt(here.Part, joint).Face);
                    queue.Enqueue((next, goesIn, [.. here.Way, (here.In, goesOut)]));
                }
            }
        }

        throw new InvalidOperationException("no way to the end");
    }
}
