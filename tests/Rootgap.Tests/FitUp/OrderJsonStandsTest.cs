using System.Buffers;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.FitUp;

/// <summary>
/// What a checker of the shop does with a printed order of work and nothing of the program's own statics: he adds up the parts, hangs them up by their centres, and sees
/// whether what the step stands on makes the weight and its moments, before and after, with every part a tenth heavier or lighter.
/// </summary>
[Trait("pace", "slow")]
public class OrderJsonStandsTest
{
    private static readonly Gen<Packet> Drawings = Gens.Sketches.Select(s => s.Packet()).Where(p => p.IsBuildable && p.Fabrication.Spools.Any(s => s.Joints.Count is > 0 and < 12));

    [Fact]
    public void Whatever_stands_is_held_by_what_the_order_says() => Drawings.Holds(packet =>
    {
        var faults = Faults(packet);
        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }, iter: 60);

    /// <summary>A part as the checker has it.</summary>
    private sealed record Part(string Id, double? Mass, double[] Centre, bool IsPipe, double[] From, double[] To, double Outside, IReadOnlyList<(double[] At, double[] Face, double Outside)> Ends);

    private static List<string> Faults(Packet packet)
    {
        List<string> faults = [];
        var fitting = new FitJoints(packet.Fabrication);
        foreach (var spool in packet.Fabrication.Spools.Where(s => s.Joints.Count is > 0 and < 12))
        {
            var fit = fitting.OfSpool(spool);
            var steps = FitOrder.Of(fit);
            var buffer = new ArrayBufferWriter<byte>();
            using (var json = new Utf8JsonWriter(buffer))
                FitOrderJson.Write(json, [(spool, fit, steps)], true);
            using var order = JsonDocument.Parse(buffer.WrittenMemory);
            var parts = Parts(packet, spool);
            foreach (var step in order.RootElement.GetProperty("spools")[0].GetProperty("steps").EnumerateArray())
                Step(packet, fit, parts, step, (what, says) => faults.Add($"{what}: spool {spool.Name} {step.GetProperty("joint").GetString()} {says}\n    {step.GetRawText()}"));
        }

        return faults;
    }

    private static Dictionary<string, Part> Parts(Packet packet, Rootgap.Fabricating.Spool spool)
    {
        var parts = new Dictionary<string, Part>(StringComparer.Ordinal);
        foreach (var cut in spool.Cuts)
        {
            var (from, to) = (FitBench.A(cut.Reach.Start), FitBench.A(cut.Reach.End));
            var d = FitBench.A(cut.Pipe.Direction);
            parts[cut.Pipe.Id] = new(cut.Pipe.Id, cut.Mass, FitBench.Times(FitBench.Plus(from, to), 0.5), true, from, to, cut.Pipe.Outside,
                [(from, FitBench.Times(d, -1), cut.Pipe.Outside), (to, d, cut.Pipe.Outside)]);
        }

        foreach (var c in spool.Components.Where(c => !c.IsLoose))
            parts[c.Id] = new(c.Id, packet.Fabrication.Masses.TryGetValue(c.Id, out var mass) ? mass.Kg : null, Centre(c), false, [], [], c.Outside, [.. c.Ports.Select(p => (FitBench.A(p.At), FitBench.A(p.Face), p.Outside))]);
        return parts;
    }

    // Of a bent tube by Pappus: on the line from the bend's centre through its middle, sin(t/2)/(t/2) (R² + (ro² + ri²)/4)/R from it. Other solids' centres are held elsewhere.
    private static double[] Centre(Component c)
    {
        if (c is not Bent { Radius: not null } || c.Ports.Count != 2)
            return FitBench.A(c.Centre);
        var (a, b) = (FitBench.A(c.Ports[0].Face), FitBench.A(c.Ports[1].Face));
        var turn = Math.PI - Math.Acos(FitBench.Dot(a, b));
        // The faces' directions out of it add up to a vector that looks from the bend's centre inward: away from the back.
        var inward = FitBench.Plus(a, b);
        inward = FitBench.Times(inward, 1 / FitBench.Norm(inward));
        var corner = FitBench.A(c.WorkPoint);
        var radius = c.Ports[0].At.To(c.WorkPoint) / Math.Tan(turn / 2);
        var centre = FitBench.Plus(corner, FitBench.Times(inward, radius / Math.Cos(turn / 2)));
        var (ro, ri) = (c.Outside / 2, c.Ports[0].Bore / 2);
        var r = Math.Sin(turn / 2) / (turn / 2) * ((radius * radius) + (((ro * ro) + (ri * ri)) / 4)) / radius;
        return FitBench.Plus(centre, FitBench.Times(inward, -r));
    }

    private static double[] V(JsonElement e) => [e.GetProperty("east").GetDouble(), e.GetProperty("north").GetDouble(), e.GetProperty("up").GetDouble()];

    private static string[] Strings(JsonElement e, string name) => e.TryGetProperty(name, out var list) ? [.. list.EnumerateArray().Select(t => t.GetString()!)] : [];

    private static double? Number(JsonElement e, string name) => e.TryGetProperty(name, out var v) ? v.GetDouble() : null;

    private sealed record Stand(string Kind, Part Part, double[] At, double? Before, double? After, double? MomentBefore, double? MomentAfter);

    private static void Step(Packet packet, FitSpool fit, Dictionary<string, Part> parts, JsonElement step, Action<string, string> fault)
    {
        var (heldSide, broughtSide) = (step.GetProperty("held assembly"), step.GetProperty("brought assembly"));
        List<Part> held = [.. Strings(heldSide, "parts").Select(id => parts[id])], brought = [.. Strings(broughtSide, "parts").Select(id => parts[id])];
        List<Part> both = [.. held, .. brought];
        foreach (var (side, of) in new[] { (heldSide, held), (broughtSide, brought) })
        {
            var (mass, centre) = Sum(of);
            if (Math.Abs(mass - side.GetProperty("mass").GetDouble()) > 0.001 * mass)
                fault("mass", $"{mass}");
            if (mass > 0 && FitBench.Norm(FitBench.Less(centre, V(side.GetProperty("centre")))) > 1.5)
                fault("centre", $"{string.Join(' ', centre)}");
            if (!of.Where(p => p.Mass is null).Select(p => p.Id).SequenceEqual(Strings(side, "unknown"), StringComparer.Ordinal))
                fault("unknown", "");
        }

        var up = V(step.GetProperty("up"));
        List<Stand> stands = [.. step.GetProperty("stands").EnumerateArray().Select(s => new Stand(s.TryGetProperty("kind", out var k) ? k.GetString()! : "", parts[s.GetProperty("part").GetString()!],
            V(s.GetProperty("at")), Number(s, "before"), Number(s, "after"), Number(s, "moment before"), Number(s, "moment after")))];
        if (stands.Count == 0)
        {
            fault("nothing", "it stands on nothing");
            return;
        }

        var (isHeldKnown, isKnown) = (held.TrueForAll(p => p.Mass is not null), both.TrueForAll(p => p.Mass is not null));
        foreach (var s in stands)
        {
            if (isKnown != s.After.HasValue)
                fault("after", $"{s.Kind} {s.Part.Id} after {s.After}");
            var isThere = held.Contains(s.Part) && s.Kind is not ("tie-down" or "third" or "tie-back");
            if (isThere && isHeldKnown != s.Before.HasValue)
                fault("before", $"{s.Kind} {s.Part.Id} before {s.Before}");
        }

        // A weld or an end nearer than it may be.
        foreach (var s in stands.Where(s => s.Kind is "" or "third" && s.Part.IsPipe))
            Clear(packet, s, both, fault);
        if (stands[0].Kind is "")
            OnStands(step, stands, held, both, up, isHeldKnown, isKnown, fault);
        else if (stands[0].Kind == "base")
            OnEnd(fit, stands, held, both, up, fault);
        else
            Clamp(step, stands, held, both, up, isHeldKnown, isKnown, fault);
    }

    private static (double Mass, double[] Centre) Sum(IEnumerable<Part> parts)
    {
        var (mass, moment) = (0.0, new double[3]);
        foreach (var p in parts.Where(p => p.Mass > 0))
            (mass, moment) = (mass + p.Mass!.Value, FitBench.Plus(moment, FitBench.Times(p.Centre, p.Mass!.Value)));
        return (mass, mass > 0 ? FitBench.Times(moment, 1 / mass) : moment);
    }

    private static void Clear(Packet packet, Stand s, List<Part> both, Action<string, string> fault)
    {
        var (from, to) = (FitBench.Norm(FitBench.Less(s.At, s.Part.From)), FitBench.Norm(FitBench.Less(s.At, s.Part.To)));
        var length = FitBench.Norm(FitBench.Less(s.Part.To, s.Part.From));
        if (Math.Abs(from + to - length) > 0.01)
            fault("off", $"{s.Part.Id}: not on its axis");
        var clear = length < 400 && s.Kind.Length == 0 ? Math.Min(100, length / 4) : 100;
        if (Math.Min(from, to) < clear - 0.01)
            fault("end", $"{s.Part.Id}: {Math.Min(from, to)} from its end, {length} long");
        var direction = FitBench.Times(FitBench.Less(s.Part.To, s.Part.From), 1 / length);
        foreach (var weld in packet.Fabrication.Route.Joints.Where(j => j.IsWeld && j.Between.Count == 2 && j.Between.Contains(s.Part.Id) && j.Between.All(id => both.Exists(p => p.Id == id))))
        {
            var away = Math.Abs(FitBench.Dot(FitBench.Less(s.At, FitBench.A(weld.At)), direction));
            var branch = weld.Kind == JointKind.Branch ? Beside(weld) / 2 : 0;
            if (away < clear + branch - 3.3)
                fault("weld", $"{s.Part.Id}: {away} from {weld.Id} ({weld.Kind}, {string.Join(" to ", weld.Between)}, at {weld.At}; pipe {string.Join(" ", s.Part.From)} to {string.Join(" ", s.Part.To)})");
        }

        double Beside(Joint weld) => both.Single(p => p.Id != s.Part.Id && weld.Between.Contains(p.Id)) is { } other && weld.At.To(new Point(s.Part.From[0], s.Part.From[1], s.Part.From[2])) > 60
            && weld.At.To(new Point(s.Part.To[0], s.Part.To[1], s.Part.To[2])) > 60 ? other.Outside : 0;
    }

    private static void OnStands(JsonElement step, List<Stand> stands, List<Part> held, List<Part> both, double[] up, bool isHeldKnown, bool isKnown, Action<string, string> fault)
    {
        var two = stands.Where(s => s.Kind.Length == 0).ToList();
        var rest = stands.Where(s => s.Kind.Length > 0).ToList();
        if (two.Count != 2 || rest.Count > 1 || !two.TrueForAll(s => held.Contains(s.Part)))
        {
            fault("stands", "not two under the held assembly");
            return;
        }

        var along = FitBench.Less(two[1].At, two[0].At);
        var apart = FitBench.Norm(along);
        along = FitBench.Times(along, 1 / apart);
        var longer = two.Max(s => FitBench.Norm(FitBench.Less(s.Part.To, s.Part.From)));
        if (apart < Math.Max(300, longer / 2) - 0.01)
            fault("apart", $"{apart}, piece {longer}");
        if (Math.Abs(FitBench.Dot(along, up)) > 0.002)
            fault("level", "the stands' line is not level");
        var side = FitBench.Cross(along, up);
        var third = rest.Find(s => s.Kind == "third");
        var tie = rest.Find(s => s.Kind == "tie-down");
        var share = third is null ? 0.2 : 0.1;
        foreach (var (when, of, load, known) in new (string, List<Part>, Func<Stand, double?>, bool)[] { ("before", held, s => s.Before, isHeldKnown), ("after", both, s => s.After, isKnown) })
        {
            if (!known)
                continue;
            var there = stands.Where(s => load(s) is not null).ToList();
            var (mass, centre) = Sum(of);
            double Arm(double[] at, double[] way) => FitBench.Dot(FitBench.Less(at, two[0].At), way);
            double Signed(Stand s) => load(s)!.Value * (s.Kind == "tie-down" ? -1 : 1);
            if (Math.Abs(there.Sum(Signed) - mass) > 0.005 * mass)
                fault("force", $"{when} {there.Sum(Signed)} of {mass}");
            if (Math.Abs(there.Sum(s => Signed(s) * Arm(s.At, along)) - (mass * Arm(centre, along))) > 0.002 * mass * apart)
                fault("moment", when);
            var isOff = third is not null && load(third) is not null && Math.Abs(Arm(third.At, side)) >= 1;
            if (isOff && Math.Abs((load(third!)!.Value * Arm(third!.At, side)) - (mass * Arm(centre, side))) > 0.5 * mass)
                fault("moment across", when);
            var isThree = third is not null && load(third) is not null;
            foreach (var s in there.Where(s => s.Kind != "tie-down"))
            {
                if (load(s) < (isThree ? share : 0.2) * mass * 0.9999)
                    fault("share", $"{when} {load(s)} of {mass} on {s.Part.Id}");
            }

            // A tenth on every part, each to the worse side.
            double[] Response(Part p)
            {
                var (x, y, force) = (Arm(p.Centre, along), Arm(p.Centre, side), 0.0);
                if (isOff)
                    force = y / Arm(third!.At, side);
                var second = (x - (force * (isOff ? Arm(third!.At, along) : 0))) / apart;
                return [1 - force - second, second, force];
            }

            double[] least = [load(two[0])!.Value, load(two[1])!.Value, isOff ? load(third!)!.Value : 1];
            foreach (var p in of.Where(p => p.Mass > 0))
            {
                var r = Response(p);
                for (var i = 0; i < 3; i++)
                    least[i] -= 0.1 * p.Mass!.Value * Math.Abs(r[i]);
            }

            if (least.Min() < -0.001 * mass)
                fault("spread", $"{when} {string.Join(' ', least)}");
            if (third is null && tie is null && step.TryGetProperty("roll", out var roll) && Math.Abs(Math.Abs(Arm(centre, side)) - roll.GetProperty(when).GetDouble()) > 0.5)
                fault("roll", when);
        }

        if (!step.TryGetProperty("roll", out _) && (third is null || Math.Abs(FitBench.Dot(FitBench.Less(third.At, two[0].At), side)) < 1))
            fault("roll left out", "");
        // Nothing within 50 mm of the floor; a raised face stands up to 7 mm before the plate whose rim hangs lowest.
        var floor = FitBench.Dot(two[0].At, up) - (two[0].Part.Outside / 2) - step.GetProperty("stand height").GetDouble();
        foreach (var p in both)
        {
            foreach (var end in p.Ends)
            {
                var lean = FitBench.Dot(end.Face, up);
                if (FitBench.Dot(end.At, up) - (end.Outside / 2 * Math.Sqrt(Math.Max(0, 1 - (lean * lean)))) < floor + 43)
                    fault("floor", string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{p.Id} at {string.Join(" ", end.At)} looks {string.Join(" ", end.Face)} wide {end.Outside}, floor {floor}"));
            }
        }

        if (step.GetProperty("stand height").GetDouble() is < 900 or > 1250)
            fault("stand height", "");
    }

    private static void OnEnd(FitSpool fit, List<Stand> stands, List<Part> held, List<Part> both, double[] up, Action<string, string> fault)
    {
        var foot = stands[0];
        var end = fit.Parts.Single(p => p.Id == foot.Part.Id).Ends.MinBy(e => FitBench.Norm(FitBench.Less(FitBench.A(e.At), foot.At)))!;
        var tie = stands.Find(s => s.Kind == "tie-back");
        if (held.Exists(p => p.IsPipe && FitBench.Norm(FitBench.Less(p.To, p.From)) > 1200.01))
            fault("tall", "");
        foreach (var p in both.SelectMany(p => p.Ends))
        {
            var lean = FitBench.Dot(p.Face, up);
            if (FitBench.Dot(FitBench.Less(p.At, foot.At), up) - (p.Outside / 2 * Math.Sqrt(Math.Max(0, 1 - (lean * lean)))) < -1)
                fault("plate", "something reaches below the plate");
        }

        foreach (var (when, of) in new[] { ("before", held), ("after", both) })
        {
            var (mass, centre) = Sum(of);
            if (mass == 0)
                continue;
            var off = FitBench.Less(centre, foot.At);
            var high = FitBench.Dot(off, up);
            var beside = FitBench.Norm(FitBench.Less(off, FitBench.Times(up, high)));
            if (beside > end.Base / 3 + 0.01)
                fault("tips", $"{when} {beside} of {end.Base}");
            if (tie is null && (beside > (end.Base / 6) + 0.01 || high > (3 * end.Base) + 0.01))
                fault("free", $"{when} {beside} high {high} of {end.Base}");
            if (tie is not null && high > FitBench.Dot(FitBench.Less(tie.At, foot.At), up) + 0.01 && when == "after")
                fault("tie", "lower than the centre");
        }
    }

    private static void Clamp(JsonElement step, List<Stand> stands, List<Part> held, List<Part> both, double[] up, bool isHeldKnown, bool isKnown, Action<string, string> fault)
    {
        var clamp = stands[0];
        foreach (var (when, of, kg, moment, known) in new[] { ("before", held, clamp.Before, clamp.MomentBefore, isHeldKnown), ("after", both, clamp.After, clamp.MomentAfter, isKnown) })
        {
            if (!known)
                continue;
            var (mass, centre) = Sum(of);
            var arm = FitBench.Less(centre, clamp.At);
            arm = FitBench.Less(arm, FitBench.Times(up, FitBench.Dot(arm, up)));
            if (Math.Abs(kg!.Value - mass) > 0.005 * mass || Math.Abs(moment!.Value - (9.81 * mass * FitBench.Norm(arm) / 1000)) > (0.01 * moment.Value) + (9.81 * mass * 1.5 / 1000))
                fault("clamp", when);
        }

        // Over what a bench holds, with pipe long enough to lie on stands: the order says so aloud.
        if (Sum(both).Mass > 25 && held.Exists(p => p.IsPipe && FitBench.Norm(FitBench.Less(p.To, p.From)) >= 1200) && Strings(step, "cautions").Length == 0)
            fault("long clamp", "nothing is said of what holds it");
    }
}
