using System.Numerics;
using Rootgap.Drawings;
using Rootgap.Packets;
using SharpGLTF.Schema2;
using SharpGLTF.Validation;

namespace Rootgap.Tests.PacketFiles;

/// <summary>The glTF model, read back by the library with its strict validation against the glTF 2.0 specification.</summary>
public class ModelTest
{
    public static TheoryData<string> Samples => [.. Directory.GetFiles(Repository.At("samples"), "*.yaml", SearchOption.AllDirectories)
        .Where(f => File.ReadLines(f).Any(l => l.StartsWith("drawing:", StringComparison.Ordinal)) && !DrawingHead.IsOfSurvey(File.ReadAllText(f))).Select(f => Path.GetRelativePath(Repository.Root, f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Each_sample_is_a_valid_model_with_every_part_in_its_place(string sample)
    {
        var path = Repository.At(sample);
        var reading = DrawingReader.Read(File.ReadAllText(path), path, name => File.Exists(Path.Combine(Path.GetDirectoryName(path)!, name)) ? File.ReadAllBytes(Path.Combine(Path.GetDirectoryName(path)!, name)) : null);
        var fabrication = Packet.Of(reading.Drawing!).Fabrication;
        var model = ModelRoot.ParseGLB(Model.Glb(fabrication), new ReadSettings { Validation = ValidationMode.Strict });
        var origin = model.LogicalNodes.Single(n => n.Name == fabrication.Route.Drawing.Number).Extras!["origin"]!;
        float Of(string way) => (float)origin[way]!.GetValue<double>() / 1000;
        foreach (var component in fabrication.Route.Components)
        {
            var node = Assert.Single(model.LogicalNodes, n => n.Name.StartsWith(component.Id + " ", StringComparison.Ordinal));
            var positions = node.Mesh.Primitives.Single().GetVertexAccessor("POSITION").AsVector3Array();
            foreach (var port in component.Ports)
            {
                // glTF: metres, y up (glTF 2.0, 3.4). Each end lies within the box of its part.
                var at = new Vector3((float)(port.At.X / 1000) - Of("east"), (float)(port.At.Z / 1000) - Of("up"), (float)(-port.At.Y / 1000) + Of("north"));
                var (low, high) = (positions.Aggregate(Vector3.Min), positions.Aggregate(Vector3.Max));
                const float Slack = 0.002f;
                Assert.True(at.X >= low.X - Slack && at.X <= high.X + Slack && at.Y >= low.Y - Slack && at.Y <= high.Y + Slack && at.Z >= low.Z - Slack && at.Z <= high.Z + Slack, $"{component.Id} is not at its end {port.At}");
            }
        }

        foreach (var spool in fabrication.Spools)
        {
            var node = Assert.Single(model.LogicalNodes, n => n.Name == $"spool {spool.Name}");
            var inside = node.VisualChildren.Select(n => n.Name).ToList();
            Assert.All(spool.Components, c => Assert.Contains(inside, n => n.StartsWith(c.Id + " ", StringComparison.Ordinal)));
            Assert.All(spool.Joints, j => Assert.Contains(j.Id, inside));
        }

        Assert.All(fabrication.Route.Joints, j => Assert.Single(model.LogicalNodes, n => n.Name == j.Id));
        Assert.All(fabrication.Cuts.Where(c => c.Length > 0), c => Assert.Contains(model.LogicalNodes, n => n.Name == $"pipe {c.Piece}"));
    }

    // Single precision has 24 bits: at 5 km it steps by half a millimetre. The plant's coordinates are not in the corners, but in the root.
    [Fact]
    public void A_drawing_far_from_the_plants_origin_has_the_same_shape_as_near_it()
    {
        static List<Vector3> Corners(string at)
        {
            var packet = Given.Packet("""
                drawing: F-1
                units: mm
                line: {size: 6, schedule: 40, class: 150}
                runs:
                  - run: main
                    start: {to: flange, at: AT}
                    legs:
                      - {go: north, by: 1500.25, to: elbow}
                      - {go: up, by: 900, to: flange}
                """.Replace("AT", at, StringComparison.Ordinal));
            var model = ModelRoot.ParseGLB(Model.Glb(packet.Fabrication));
            return [.. model.LogicalNodes.Where(n => n.Mesh is not null).SelectMany(n => n.Mesh.Primitives.Single().GetVertexAccessor("POSITION").AsVector3Array())];
        }

        foreach (var (near, far) in Corners("{east: 0, north: 0, up: 0}").Zip(Corners("{east: 5000000, north: -3000000, up: 12000}")))
            Assert.True(Vector3.Distance(near, far) < 2e-6f, $"{near} and {far}");
    }
}
