using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>How a branch or an elbow is turned about the pipe on which it is set.</summary>
/// <param name="Part">Id of the component, or mark of the piece that is set on.</param>
/// <param name="Looking">The way one looks along the pipe, unit vector.</param>
/// <param name="From">The line from which the turn is counted, unit vector square to the pipe.</param>
/// <param name="Roll">Radians, clockwise for who looks along, from -pi to pi.</param>
/// <param name="Outside">Outside diameter of the pipe round which it is measured, mm.</param>
internal sealed record PartTurn(string Part, string What, Vector Looking, Vector From, double Roll, double Outside)
{
    /// <summary>Along the outside of the pipe from the line, mm.</summary>
    public double Round => Math.Abs(Roll) * Outside / 2;

    /// <summary>The elbow before on the same pipe and the angle between both planes, radians from 0 to pi/2; null where there is none.</summary>
    public (string Part, double Angle)? AgainstLast { get; init; }

    public static IReadOnlyList<PartTurn> Of(Fabrication f, Spool spool)
    {
        var units = f.Route.Drawing.Units;
        var turns = new List<PartTurn>();
        foreach (var c in spool.Components)
        {
            if (c is Bent { Turn: > Tolerance.Turn } bent)
                turns.Add(One(c.Id, Wording.Of(c), -bent.In.Face, bent.Side, c.Outside) with { AgainstLast = Against(spool, bent) });
            else if (c is Tee tee)
                turns.Add(One(c.Id, $"branch of {Wording.Of(c)}", -tee.RunIn.Face, tee.Branch.Face, c.Outside));
            else if (c is Outlet { Leg: >= 0 } outlet)
                turns.Add(One(c.Id, Wording.Of(c), f.Route.Runs[c.Run].Directions[c.Leg], outlet.Branch.Face, Pipes.Outside(c.Size2, units)));
        }

        foreach (var cut in spool.Cuts)
        {
            foreach (var joint in spool.Joints)
            {
                if (joint.Kind != JointKind.Branch || joint.Between is not [var header, var branch] || (branch != cut.Pipe.Id && header != cut.Pipe.Id))
                    continue;
                var other = f.Route.PipeOf(branch == cut.Pipe.Id ? header : branch);
                // The header is the one that goes through; the branch is the one that is set on.
                if (other is null || (cut.Pipe.AtStart.Kind != EndKind.SetOn && cut.Pipe.AtEnd.Kind != EndKind.SetOn))
                    continue;
                var outward = cut.Pipe.AtStart.Kind == EndKind.SetOn ? cut.Pipe.Direction : -cut.Pipe.Direction;
                turns.Add(One(cut.Piece, "set on", other.Direction, outward, other.Outside));
            }
        }

        return turns;
    }

    private static PartTurn One(string part, string what, Vector along, Vector outward, double outside)
    {
        var from = (Math.Abs(along.Z) > 0.98 ? Vector.North : Vector.Up).SquareTo(along).Unit;
        var side = outward.SquareTo(along).Unit;
        return new(part, what, along, from, Math.Atan2(from.Cross(side).Dot(along), from.Dot(side)), outside);
    }

    private static (string, double)? Against(Spool spool, Bent elbow)
    {
        var before = spool.Components.OfType<Bent>().FirstOrDefault(c => c.Run == elbow.Run && c.Leg == elbow.Leg - (c is ReturnBend ? 2 : 1));
        if (before is null)
            return null;
        var along = -elbow.In.Face;
        var (a, b) = ((before is ReturnBend ? before.Side : before.In.Face).SquareTo(along), elbow.Side.SquareTo(along));
        if (a.Length < 1e-3 || b.Length < 1e-3)
            return null;
        var angle = a.AngleTo(b);
        return (before.Id, Math.Min(angle, Math.PI - angle));
    }
}
