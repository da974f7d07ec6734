using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>An end of a spool that a tape can be held to: the middle of a flange's face, of a pipe's end or of a fitting's end.</summary>
/// <param name="Name">The joint at it, or the part where there is none.</param>
/// <param name="Says">What it is, in words.</param>
/// <param name="At">As it will be when the spool is built in, mm.</param>
/// <param name="Face">Unit vector out of the spool.</param>
/// <param name="Extra">What stands beyond it in the shop, mm: final-fit extra, and what its field weld will draw in.</param>
/// <param name="Part">Id of the component or pipe whose end it is.</param>
internal sealed record SpoolEnd(string Name, string Part, string Says, Point At, Vector Face, double Extra)
{
    /// <summary>Where the tape is held in the shop, with all that stands beyond.</summary>
    public Point InShop => At + (Face * Extra);

    /// <summary>How it is cut to lie on a header; null where it is square.</summary>
    public SaddleEnd? Saddle { get; init; }

    /// <summary>The place that reaches farthest: of a saddle its sides, or its heel.</summary>
    public Point Farthest => InShop + (Face * (Saddle?.Deepest ?? 0));

    /// <summary>Whether it ends there, so that a tape can be held to it: the middle line of a saddle that leans ends where there is no steel.</summary>
    public bool IsEndAt(Point at) => Farthest.To(at) < 0.05 || (Saddle is null or { Lean.IsSquare: true } && (At.To(at) < 0.05 || InShop.To(at) < 0.05));

    public static IReadOnlyList<SpoolEnd> Of(Fabrication f, Spool spool)
    {
        var ends = new List<SpoolEnd>();
        var joints = spool.Joints.Concat(spool.Ends).ToList();
        foreach (var c in spool.Components)
        {
            if (c is Flange flange)
            {
                Add(joints.FirstOrDefault(j => j.Kind == JointKind.Bolted && j.Between.Contains(c.Id, StringComparer.Ordinal))?.Id ?? c.Id, c.Id, $"face of flange {c.Id}", flange.Contact.At, flange.Contact.Face, 0);
                continue;
            }

            var closed = c.Ports.Select(p => p.At).ToList();
            foreach (var port in c.Ports)
            {
                // A port is an end where no shop joint of this spool stands nearest to it.
                var joint = joints.Where(j => j.Between.Contains(c.Id, StringComparer.Ordinal) && closed.MinBy(at => at.To(j.At)) == port.At).MinBy(j => j.At.To(port.At));
                if (joint is null || IsEnd(joint))
                    Add(joint?.Id ?? c.Id, c.Id, joint is null ? $"end of {c.Id}, {Wording.Of(c)}" : $"end of {c.Id}, {Wording.Of(c)}, at {joint.Id}", port.At, port.Face, 0);
            }

            if (c is Cap cap)
                Add(c.Id, c.Id, $"crown of cap {c.Id}", c.WorkPoint, -cap.Rim.Face, 0);
        }

        foreach (var cut in spool.Cuts)
        {
            var pipe = cut.Pipe;
            PipeEnd(cut, pipe.Start, cut.Reach.Start, -pipe.Direction, pipe.AtStart, cut.SaddlesAsCut.Start);
            PipeEnd(cut, pipe.End, cut.Reach.End, pipe.Direction, pipe.AtEnd, cut.SaddlesAsCut.End);
        }

        return ends;

        // A weld to what is not in this drawing is an end too, even where it is made in the shop.
        bool IsEnd(Joint joint) => !spool.Joints.Contains(joint) || joint.Between.Count == 1;

        void Add(string name, string part, string says, Point at, Vector face, double extra, SaddleEnd? saddle = null) => ends.Add(new(name, part, says, at, face, extra) { Saddle = saddle });

        void PipeEnd(Cut cut, Point at, Point inShop, Vector face, PipeEnd kind, SaddleEnd? saddle)
        {
            var other = at == cut.Pipe.Start ? cut.Pipe.End : cut.Pipe.Start;
            var joint = joints.Where(j => j.Between.Contains(cut.Pipe.Id, StringComparer.Ordinal) && j.At.To(at) <= j.At.To(other) && (kind.Kind == EndKind.SetOn || j.Kind != JointKind.Branch)).MinBy(j => j.At.To(at));
            if (kind.Kind == EndKind.Free || joint is null)
                Add(cut.Piece, cut.Pipe.Id, $"open end of {cut.Piece}", at, face, at.To(inShop));
            else if (IsEnd(joint))
                Add(joint.Id, cut.Pipe.Id, $"end of {cut.Piece} at {joint.Id}", at, face, at.To(inShop), saddle);
        }
    }

    /// <summary>Linear tolerance of fabrication, mm, end to end, not adding up: the shop's own, or that of the largest size.</summary>
    internal static (double Mm, string Source) ToleranceOf(Fabrication f, Spool spool)
    {
        if (f.Route.Drawing.Shop.LinearTolerance is { } own)
            return (own, "the shop's own rule");
        var sizes = spool.Cuts.Select(c => c.Pipe.Size).Concat(spool.Components.Select(c => c.Size)).ToList();
        var limit = FitTolerance.Length(sizes.Count == 0 ? 0 : sizes.Max(s => s.Inches));
        return (limit.Value, Wording.Source(limit.Source).Split(": ")[0]);
    }
}
