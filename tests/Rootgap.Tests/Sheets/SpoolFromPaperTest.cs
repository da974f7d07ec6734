using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;
using Rootgap.Tests.Sheets.Isometrics;

namespace Rootgap.Tests.Sheets;

/// <summary>
/// A spool is built from its sheet alone, by its words and numbers, and then held against the geometry of the engine: every part's place and turn is determined.
/// </summary>
[Trait("pace", "slow")]
public class SpoolFromPaperTest(ITestOutputHelper output)
{
    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    private static int Drawings => int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_DRAWINGS"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 6;

    [Theory]
    [MemberData(nameof(Names))]
    public void Each_spool_of_the_samples_is_built_from_its_sheet_alone(string name) => Build(name, SampleFile.All.Single(s => s.Name == name).Packet());

    [Fact]
    public void The_spools_of_random_drawings_are_built_from_their_sheets_alone()
    {
        for (var seed = 1; seed <= Drawings; seed++)
        {
            var bytes = new byte[1200];
            new Random(seed).NextBytes(bytes);
            Build(string.Create(CultureInfo.InvariantCulture, $"seed {seed}"), SketchMaking.Of(new Choices(bytes), seed % 5 == 0 ? 40 : 10).Packet());
        }
    }

    // Every kind whose turn must be said that no sample has: a return on a slope, an eccentric reducer and a branch off the axis on a skew leg.
    [Theory]
    [InlineData("mm", "{go: north, by: 1500, fall: 1:50, to: elbow}", "{go: {east: 1}, by: return, to: elbow}", "{go: south, by: 2000, rise: 1:50, to: flange}")]
    [InlineData("mm", "{go: {north: 600, east: 350, up: 410}, to: outlet, name: V1, size: 1, branch: up}", "{go: {north: 600, east: 350, up: 410}, to: reducer, size: 4, kind: eccentric, flat: top}", "{go: {north: 600, east: 350, up: 410}, to: flange}")]
    [InlineData("in", "{go: north, by: 60, to: elbow}", "{go: {east: 30, up: 17}, to: elbow}", "{go: up, by: 48, to: flange, holes: 10}")]
    public void A_spool_that_stands_askew_is_built_from_its_sheet_alone(string units, params string[] legs) =>
        Build(string.Join(' ', legs), Given.Run(units, "size: 6, schedule: 40, class: 150", units == "mm" ? "root gap: 3, final fit extra: 100" : "root gap: 0.125", "flange", legs));

    private void Build(string name, Packet packet)
    {
        var f = packet.Fabrication;
        foreach (var spool in f.Spools.Where(s => s.Cuts.Count + s.Components.Count is > 0 and <= SpoolSheet.MostDrawn && s.Cuts.All(c => c.Length > 0)))
        {
            var isInches = packet.Drawing.Units == Units.Inches;
            var sides = SpoolSheet.Of(packet.ToJob(isInches ? Paper.Letter : Paper.A4), new Rootgap.FitUp.FitJoints(f), spool).Select(p => new SheetReader(SvgWriter.Write(p.Numbered(8, 88)))).ToList();
            var paper = new SpoolPaper(sides, isInches);
            var hand = spool.Components.ToDictionary(c => c.Id, c => InHand(f, spool, c), StringComparer.Ordinal);
            var built = new SpoolFromPaper(paper, hand, spool.Cuts.ToDictionary(c => c.Piece, c => c.Pipe.Outside, StringComparer.Ordinal));
            var from = spool.Components.FirstOrDefault(c => c.Ports.Count > 1) ?? (spool.Cuts.Count == 0 ? spool.Components[0] : null);
            var placed = from is not null ? built.Build(from.Id, Ends(from)[0].At) : built.Build(spool.Cuts[0].Piece, spool.Cuts[0].Pipe.Start);
            var limit = (isInches ? 2.2 : 0.6) + (spool.Box.Length * 1.2e-4);
            double worst = 0;
            void Near(string mark, Point wished, Point found)
            {
                worst = Math.Max(worst, wished.To(found));
                Assert.True(wished.To(found) < limit, string.Create(CultureInfo.InvariantCulture, $"{name}, spool {spool.Name}: {mark} is {wished.To(found):0.00} mm off: {found - wished} | {paper.Rows.First(r => r.Mark == mark).How}"));
            }

            void Along(string mark, Vector wished, Vector found, double degrees) =>
                Assert.True(wished.AngleTo(found) < degrees * Math.PI / 180, string.Create(CultureInfo.InvariantCulture, $"{name}, spool {spool.Name}: {mark} is turned by {wished.AngleTo(found) * 180 / Math.PI:0.00}° | {paper.Rows.First(r => r.Mark == mark).How}"));
            foreach (var c in spool.Components)
            {
                Assert.True(placed.TryGetValue(c.Id, out var found), $"{name}, spool {spool.Name}: the sheet does not say where {c.Id} stands");
                foreach (var (wished, had) in Ends(c).Zip(found.Ends))
                {
                    Near(c.Id, wished.At, had.At);
                    Along(c.Id, wished.Face, had.Face, 0.06);
                }

                if (c is not Flange { Holes: { } holes } || BoltCircle.Of((Flange)c) is null)
                    continue;
                foreach (var way in holes.Ways)
                    Along(c.Id, way, found.Holes.MinBy(h => h.AngleTo(way)), 0.12);
            }

            foreach (var cut in spool.Cuts)
            {
                Assert.True(placed.TryGetValue(cut.Piece, out var found), $"{name}, spool {spool.Name}: the sheet does not say where {cut.Piece} stands");
                var isTurned = cut.Pipe.AtEnd.Kind == EndKind.SetOn;
                Near(cut.Piece, isTurned ? cut.Pipe.End : cut.Pipe.Start, found.Ends[0].At);
                Near(cut.Piece, isTurned ? cut.Pipe.Start : cut.Pipe.End, found.Ends[1].At);
            }

            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}, spool {spool.Name}: {placed.Count} parts and pieces, at most {worst:0.00} mm off"));
        }
    }

    private static IReadOnlyList<Port> Ends(Component c) => c switch
    {
        Flange flange => [flange.Ports.First(p => p.Name != PortName.Face), flange.Contact],
        Outlet outlet => [outlet.Foot, outlet.Branch],
        Tee tee => [tee.RunIn, tee.RunOut, tee.Branch],
        _ => c.Ports,
    };

    // The part in a frame of its own: turned and moved at random, so that nothing of where it stands comes with it.
    private static PartInHand InHand(Fabricating.Fabrication f, Spool spool, Component c)
    {
        var random = new Random(c.Id.GetHashCode(StringComparison.Ordinal));
        Vector Some() => new Vector(random.NextDouble() - 0.5, random.NextDouble() - 0.5, random.NextDouble() - 0.5).Unit;
        var x = Some();
        var y = Some().SquareTo(x).Unit;
        var z = x.Cross(y);
        Vector Turned(Vector v) => (x * v.X) + (y * v.Y) + (z * v.Z);
        var ends = Ends(c);
        return new(c switch { Flange => HandKind.Flange, ReturnBend => HandKind.Return, Bent => HandKind.Bent, Tee => HandKind.Tee, Outlet => HandKind.Outlet, Reducer { IsEccentric: true } => HandKind.Eccentric, _ => HandKind.Round },
            [.. ends.Select(p => (Point.Origin + Turned(p.At - ends[0].At), Turned(p.Face)))], [.. ends.Select(p => Depth(f, spool, c, p))],
            c is Reducer { IsEccentric: true } reducer ? Turned(reducer.Flat) : default, c is Flange { Holes.Bolts.Count: var count } ? count : 0);
    }

    /// <summary>How far the bottom of a socket is behind its mouth, or how far one part's end goes into another's: what a scale put into it shows.</summary>
    private static double? Depth(Fabricating.Fabrication f, Spool spool, Component c, Port port)
    {
        const double PulledBack = 1.6; // common practice: 1/16 in off the bottom, read from the sheet again by who builds
        if (spool.Joints.Where(j => j.Between.Contains(c.Id, StringComparer.Ordinal)).MinBy(j => j.At.To(port.At)) is not { } joint || joint.Kind == JointKind.Butt)
            return null;
        var id = joint.Between.First(b => b != c.Id);
        if (f.Route.PipeOf(id) is { } pipe)
        {
            var end = pipe.Start.To(port.At) < pipe.End.To(port.At) ? pipe.Start : pipe.End;
            return (port.At - end).Dot(port.Face) + (f.Units == Units.Inches ? 25.4 / 16 : PulledBack);
        }

        var other = f.Route.Components.First(o => o.Id == id).Ports.MinBy(p => p.At.To(port.At));
        return (port.At - other.At).Dot(port.Face);
    }
}
