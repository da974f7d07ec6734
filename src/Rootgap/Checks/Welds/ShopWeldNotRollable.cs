using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Shop welds about which neither side of the spool can be turned.</summary>
internal sealed class ShopWeldNotRollable : Rule
{
    public override string Name => "shop-weld-not-rollable";
    public override Severity Severity => Severity.Note;
    public override string Says => "About some shop butt welds both sides of the spool swing wider than half the shop's envelope height.";
    public override string Why => "Such a weld is made in position instead of rolled under the torch, and takes longer: plan the order of welding so that it comes last (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var limit = route.Drawing.Shop.EnvelopeHeight / 2;
        foreach (var spool in fabrication.Spools)
        {
            // A spool that is small as a whole swings no wider.
            var box = spool.Box;
            if (spool.Joints.Count < 2 || (box.X <= limit && box.Y <= limit) || (box.Y <= limit && box.Z <= limit) || (box.X <= limit && box.Z <= limit))
                continue;
            var count = 0;
            Joint? first = null;
            var steel = new Steel(spool);
            foreach (var joint in spool.Joints)
            {
                if (joint is not { Kind: JointKind.Butt, Between: [var a, var b] } || !steel.IsStuck(joint, a, b, limit))
                    continue;
                first ??= joint;
                count++;
            }

            if (first is not null)
            {
                yield return Found(first.Source, "to", Say(fabrication.Units, $"{count} of {spool.Joints.Count} shop welds of spool {spool.Name}, {first.Id} first, cannot be rolled: both sides swing more than {limit:len0}."),
                    "Weld these last, in position; or make one of them a field weld.");
            }
        }
    }

    /// <summary>The parts of a spool by number, with what hangs on what: a spool of thousands of welds is gone through once for each of them.</summary>
    private sealed class Steel
    {
        private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);
        private readonly List<List<(int Other, Joint Weld)>> neighbours = [];
        private readonly List<(int Part, Point At)> ends = [];

        public Steel(Spool spool)
        {
            foreach (var joint in spool.Joints)
            {
                if (joint is not { Between: [var a, var b], Place: WeldPlace.Shop, Kind: not JointKind.Bolted })
                    continue;
                neighbours[Number(a)].Add((Number(b), joint));
                neighbours[Number(b)].Add((Number(a), joint));
            }

            foreach (var cut in spool.Cuts)
            {
                ends.Add((Number(cut.Pipe.Id), cut.Pipe.Start));
                ends.Add((Number(cut.Pipe.Id), cut.Pipe.End));
            }

            foreach (var component in spool.Components)
            {
                foreach (var port in component.Ports)
                    ends.Add((Number(component.Id), port.At));
            }
        }

        /// <summary>Whether both sides of a weld swing wider than the limit when the spool is turned about it.</summary>
        public bool IsStuck(Joint joint, string a, string b, double limit)
        {
            var side = new bool[neighbours.Count + 2];
            var open = new Stack<int>([Number(a)]);
            var goal = Number(b);
            side[Number(a)] = true;
            while (open.TryPop(out var part))
            {
                foreach (var (other, weld) in neighbours[part])
                {
                    if (weld == joint || side[other])
                        continue;
                    // Joined the other way round as well: there are no two sides.
                    if (other == goal)
                        return false;
                    side[other] = true;
                    open.Push(other);
                }
            }

            var (one, rest) = (false, false);
            foreach (var (part, at) in ends)
            {
                if (side[part] ? one : rest)
                    continue;
                if ((at - joint.At).SquareTo(joint.Axis).Length <= limit)
                    continue;
                (one, rest) = side[part] ? (true, rest) : (one, true);
                if (one && rest)
                    return true;
            }

            return false;
        }

        private int Number(string part)
        {
            if (numbers.TryGetValue(part, out var number))
                return number;
            neighbours.Add([]);
            return numbers[part] = neighbours.Count - 1;
        }
    }
}
