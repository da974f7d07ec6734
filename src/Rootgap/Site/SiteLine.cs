using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site;

/// <summary>A fabricated drawing as it is put together at site: what moves as one, the faces that meet, and the joints made there. All places as drawn.</summary>
public sealed class SiteLine
{
    internal SiteLine(Fabrication fabrication, IReadOnlyList<SiteBody> bodies, IReadOnlyList<SiteJoint> joints)
    {
        (Fabrication, Bodies, Joints) = (fabrication, bodies, joints);
        Ends = [.. joints.SelectMany(j => new[] { j.First, j.Second })];
    }

    public static SiteLine Of(Fabrication fabrication) => new SiteLineMaking(fabrication).Make();

    public Fabrication Fabrication { get; }

    /// <summary>The spools in the packet's order, then the things outside in the order of their joints.</summary>
    public IReadOnlyList<SiteBody> Bodies { get; }

    /// <summary>The joints whose two sides are different bodies, in line order.</summary>
    public IReadOnlyList<SiteJoint> Joints { get; }

    /// <summary>First and second side of each joint, in the joints' order.</summary>
    public IReadOnlyList<SiteEnd> Ends { get; }

    /// <summary>The final-fit welds, where the line closes.</summary>
    public IEnumerable<SiteJoint> FinalFits => Joints.Where(j => j.IsFinalFit);

    /// <summary>The joint with a name such as W15; null where no such joint is made at site.</summary>
    public SiteJoint? JointOf(string name) => Joints.FirstOrDefault(j => j.Id.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The body with a name such as <c>spool 3</c> or <c>B1 of other</c>; null where there is none.</summary>
    public SiteBody? BodyOf(string name) => Bodies.FirstOrDefault(b => b.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The end with a name such as <c>W11 of 3</c>; null where there is none.</summary>
    public SiteEnd? EndOf(string name) => Ends.FirstOrDefault(e => e.Name.Equals(name, StringComparison.OrdinalIgnoreCase));

    /// <summary>What stands at an end, as people call it: a piece of pipe by its mark, another part by its id.</summary>
    public string NameOf(SiteEnd end) => end.Part.Length == 0 ? "outside" : Fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == end.Part)?.Piece ?? end.Part;
}

/// <summary>What moves as one: a spool with the loose valves that go with it, or a thing outside the drawing that an end mates with.</summary>
/// <param name="Index">Its place in <see cref="SiteLine.Bodies"/>.</param>
/// <param name="Name"><c>spool 3</c>, or the outer end's name: <c>B1 of other</c>.</param>
/// <param name="Spool">Null for what is outside the drawing: that does not move.</param>
/// <param name="Parts">Ids of its components and pipes, loose ones that go with it too; empty outside.</param>
/// <param name="Reference">Mean of the centres of its ends as drawn, final-fit extra left out: poses are told about it.</param>
public sealed record SiteBody(int Index, string Name, Spool? Spool, IReadOnlyList<string> Parts, Point Reference)
{
    public bool IsOutside => Spool is null;
}

/// <summary>A body's face at a joint made at site, as drawn.</summary>
/// <param name="Index">Its place in <see cref="SiteLine.Ends"/>.</param>
/// <param name="Name">Joint and spool: <c>W11 of 3</c>, <c>B6 of other</c>.</param>
/// <param name="Part">Id of the part whose face it is; empty outside.</param>
/// <param name="Face">f: centre of the face as drawn: contact face, or plane of the land tips.</param>
/// <param name="Normal">n: unit, out of the body.</param>
/// <param name="Extra">Final-fit extra that the pipe carries here, mm: it ends so far beyond <paramref name="Face"/>.</param>
/// <param name="Inside">d: inside diameter, mm.</param>
/// <param name="Holes">Bolt holes; null where there are none, or nobody can name their line.</param>
/// <param name="Straight">Straight pipe behind the end; null where there is none.</param>
public sealed record SiteEnd(
    int Index, string Name, string Joint, SiteBody Body, string Part, bool IsFirst, Point Face, Vector Normal, double Extra, double Inside, FitHoles? Holes, StraightPipe? Straight)
{
    /// <summary>In a fitter's words: <c>W11, spool 3</c>, <c>B6, outside</c>.</summary>
    public string Words => $"{Joint}, {(Body.IsOutside ? "outside" : Body.Name)}";
}

/// <summary>Straight pipe in line behind an end, right at it or behind its welded flange.</summary>
/// <param name="From">Where it begins, mm back from the face as drawn.</param>
/// <param name="To">Where it ends, likewise.</param>
/// <param name="Outside">Outside diameter, mm.</param>
public sealed record StraightPipe(double From, double To, double Outside);

/// <summary>A joint made at site.</summary>
/// <param name="Joint">As the route has it.</param>
/// <param name="Axes">Its centre and clock as drawn.</param>
/// <param name="Gap">g: from the first face to the second along the line, mm; below nothing where a pipe stands in a socket.</param>
/// <param name="Outside">D: outside diameter of both sides, mm; of the flanges at a bolted joint.</param>
/// <param name="Bolting">Holes and bolts; null at a weld.</param>
/// <param name="Long">The side that carries the final-fit extra; null where there is none.</param>
public sealed record SiteJoint(Joint Joint, JointAxes Axes, double Gap, double Outside, Bolting? Bolting, SiteEnd First, SiteEnd Second, SiteEnd? Long)
{
    public string Id => Joint.Id;

    public bool IsBolted => Joint.Kind == JointKind.Bolted;

    /// <summary>Made last, with extra pipe to be cut to what is measured.</summary>
    public bool IsFinalFit => Joint.Place == Drawings.WeldPlace.FinalFit && !IsBolted;

    /// <summary>How far the pipe with the extra reaches into the other side's place until it is cut, mm; 0 where nothing is left on.</summary>
    public double LeftOn => Math.Max(0, (Long?.Extra ?? 0) - Math.Max(0, Gap));

    /// <summary>The two ends that meet.</summary>
    public IEnumerable<SiteEnd> Sides => [First, Second];

    /// <summary>The other side of the joint.</summary>
    public SiteEnd Across(SiteEnd end) => end.IsFirst ? Second : First;
}

/// <summary>Bolt holes of a joint.</summary>
/// <param name="Circle">Bolt circle diameter, mm.</param>
/// <param name="Play">Hole less bolt, mm, 3 at most (ASME B31.3 335.1.1).</param>
public sealed record Bolting(int Count, double Circle, double Play);
