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
            foreach (var joint in spool.Joints)
            {
                if (joint is not { Kind: JointKind.Butt, Between: [var a, var b] } || !IsStuck(spool, joint, a, b, limit))
                    continue;
                first ??= joint;
                count++;
            }

            if (first is not null)
            {
                yield return Found(first.Source, "to", Say($"{count} of {spool.Joints.Count} shop welds of spool {spool.Name}, {first.Id} first, cannot be rolled: both sides swing more than {limit:0}."),
                    "Weld these last, in position; or make one of them a field weld.");
            }
        }
    }

    private static bool IsStuck(Spool spool, Joint joint, string a, string b, double limit)
    {
        var parted = new Parted(spool.Joints, j => j != joint && j is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted });
        var (one, other) = (parted.GroupOf(a), parted.GroupOf(b));
        if (one == other)
            return false;
        double swingOne = 0, swingOther = 0;
        void Take(string id, Point at)
        {
            var swing = (at - joint.At).SquareTo(joint.Axis).Length;
            if (parted.GroupOf(id) == one)
                swingOne = Math.Max(swingOne, swing);
            else
                swingOther = Math.Max(swingOther, swing);
        }

        foreach (var cut in spool.Cuts)
        {
            Take(cut.Pipe.Id, cut.Pipe.Start);
            Take(cut.Pipe.Id, cut.Pipe.End);
        }

        foreach (var component in spool.Components)
        {
            foreach (var port in component.Ports)
                Take(component.Id, port.At);
        }

        return swingOne > limit && swingOther > limit;
    }
}
