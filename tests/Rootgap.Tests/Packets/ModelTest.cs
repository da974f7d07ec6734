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
        foreach (var component in fabrication.Route.Components)
        {
            var node = Assert.Single(model.LogicalNodes, n => n.Name.StartsWith(component.Id + " ", StringComparison.Ordinal));
            var positions = node.Mesh.Primitives.Single().GetVertexAccessor("POSITION").AsVector3Array();
            foreach (var port in component.Ports)
            {
                // glTF: metres, y up (glTF 2.0, 3.4). Each end lies within the box of its part.
                var at = new Vector3((float)(port.At.X / 1000), (float)(port.At.Z / 1000), (float)(-port.At.Y / 1000));
                var (low, high) = (positions.Aggregate(Vector3.Min), positions.Aggregate(Vector3.Max));
                const float Slack = 0.002f;
                Assert.True(at.X >= low.X - Slack && at.X <= high.X + Slack && at.Y >= low.Y - Slack && at.Y <= high.Y + Slack && at.Z >= low.Z - Slack && at.Z <= high.Z + Slack, $"{component.Id} is not at its end {port.At}");
            }
        }

        Assert.All(fabrication.Cuts.Where(c => c.Length > 0), c => Assert.Contains(model.LogicalNodes, n => n.Name == $"pipe {c.Piece}"));
    }
}
