using System.Numerics;
using System.Text.Json.Nodes;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using SharpGLTF.Memory;
using SharpGLTF.Schema2;

namespace Rootgap.Packets;

/// <summary>
/// The drawing as a glTF 2.0 model: true size in metres about the place where its first run starts, which the root node states in the plant's millimetres. A named node a spool, in it
/// one a part and one a joint made in the shop; parts of no spool and joints made at site have nodes of their own. Coloured by spool; loose parts are grey.
/// </summary>
public static class Model
{
    /// <summary>Colours that can be told apart side by side, also in grey (our own; red, green, blue from 0 to 1).</summary>
    private static readonly Vector3[] SpoolColours =
    [
        new(0.70f, 0.26f, 0.12f), new(0.20f, 0.42f, 0.58f), new(0.55f, 0.55f, 0.18f), new(0.42f, 0.28f, 0.50f),
        new(0.85f, 0.62f, 0.28f), new(0.16f, 0.48f, 0.38f), new(0.58f, 0.40f, 0.32f), new(0.35f, 0.60f, 0.72f),
    ];

    private static readonly Vector3 Loose = new(0.55f, 0.55f, 0.55f);

    /// <summary>Writes the model as one binary file (.glb).</summary>
    public static byte[] Glb(Fabrication f) => Glb(f, isBuildable: true, out _);

    /// <summary>Writes the model as one binary file (.glb).</summary>
    /// <param name="isBuildable">Where false, the scene says NOT FOR FABRICATION, as every sheet does.</param>
    /// <param name="missing">Names of parts that could not be shaped as they are drawn, and are not in the model.</param>
    public static byte[] Glb(Fabrication f, bool isBuildable, out IReadOnlyList<string> missing)
    {
        var root = ModelRoot.CreateModel();
        root.Asset.Generator = "Rootgap";
        var scene = root.UseScene(f.Route.Drawing.Number);
        scene.Name = f.Route.Drawing.Number;
        if (!isBuildable)
            scene.Extras = new JsonObject { ["notice"] = "NOT FOR FABRICATION" };
        var origin = Origin(f);
        var drawing = scene.CreateNode(f.Route.Drawing.Number);
        drawing.Extras = new JsonObject { ["origin"] = new JsonObject { ["east"] = origin.X, ["north"] = origin.Y, ["up"] = origin.Z }, ["unit"] = "mm" };
        var spools = f.Spools.ToDictionary(s => s.Name, s => drawing.CreateNode($"spool {s.Name}"), StringComparer.Ordinal);
        foreach (var (name, node) in spools)
            node.Extras = new JsonObject { ["spool"] = name };
        Node? loose = null, site = null;
        var left = new List<string>();
        missing = left;
        var materials = new Dictionary<string, Material>(StringComparer.Ordinal);
        foreach (var cut in f.Cuts)
            Add($"pipe {cut.Piece}", cut.Pipe, cut.Spool);

        foreach (var c in f.Route.Components)
            Add($"{c.Id} {c.Name}", c, f.SpoolOf.GetValueOrDefault(c.Id, ""));

        foreach (var s in f.Route.Supports)
            Add($"{s.Tag} {s.Name}", s, s.IsOfSpool ? f.SpoolOf.GetValueOrDefault(s.Pipe, "") : "");

        foreach (var joint in f.Route.Joints)
        {
            var spool = joint is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted } ? f.SpoolOf.GetValueOrDefault(joint.Between[0], "") : "";
            var node = (spools.GetValueOrDefault(spool) ?? (site ??= drawing.CreateNode("joints at site"))).CreateNode(joint.Id);
            node.LocalTransform = Matrix4x4.CreateTranslation(Surface.Place(joint.At, origin));
            node.Extras = new JsonObject { ["joint"] = joint.Id, ["kind"] = PacketParts.WordOf(joint.Kind), ["place"] = Words.Of(joint.Place) };
        }

        return root.WriteGLB().ToArray();

        void Add(string name, Part part, string spool)
        {
            if (SurfaceOf(part, origin) is not { } surface)
            {
                left.Add(name);
                return;
            }

            if (surface.Triangles.Count == 0)
                return;
            var node = (spools.GetValueOrDefault(spool) ?? (loose ??= drawing.CreateNode("loose parts"))).CreateNode(name);
            node.Mesh = Mesh(root, name, surface, MaterialOf(spool));
            var extras = new JsonObject { ["component"] = part.Id };
            if (spool.Length > 0)
                extras["spool"] = spool;
            if (part.Item is { } item)
                extras["item"] = item.Item;
            node.Extras = extras;
        }

        Material MaterialOf(string spool)
        {
            if (materials.TryGetValue(spool, out var known))
                return known;
            var index = f.Spools.TakeWhile(s => s.Name != spool).Count();
            var colour = spool.Length == 0 ? Loose : SpoolColours[index % SpoolColours.Length];
            var material = root.CreateMaterial(spool.Length == 0 ? "loose" : $"spool {spool}");
            material.InitializePBRMetallicRoughness();
            var paint = material.FindChannel("BaseColor")!.Value;
            paint.Color = new Vector4(colour, 1);
            var metal = material.FindChannel("MetallicRoughness")!.Value;
            metal.SetFactor("MetallicFactor", 0.1f);
            metal.SetFactor("RoughnessFactor", 0.7f);
            return materials[spool] = material;
        }
    }

    // To the millimetre, so that it can be written and read without loss.
    private static Point Origin(Fabrication f) => f.Route.Runs is [{ Points: [var first, ..] }, ..] ? new(Math.Round(first.X), Math.Round(first.Y), Math.Round(first.Z)) : Point.Origin;

    /// <summary>The surface of a part; null where it has none as it is drawn: an elbow that turns straight back has no middle.</summary>
    private static Surface? SurfaceOf(Part part, Point origin)
    {
        try
        {
            var surface = Surface.Of(part.Picture, origin);
            return surface.Positions.TrueForAll(IsSomewhere) && surface.Normals.TrueForAll(IsSomewhere) ? surface : null;
        }
        catch (Exception e) when (Findings.ProgramFault.IsOne(e))
        {
            return null;
        }
    }

    private static bool IsSomewhere(Vector3 v) => float.IsFinite(v.X) && float.IsFinite(v.Y) && float.IsFinite(v.Z);

    private static Mesh Mesh(ModelRoot root, string name, Surface surface, Material material)
    {
        var mesh = root.CreateMesh(name);
        var primitive = mesh.CreatePrimitive();
        primitive.Material = material;
        primitive.SetVertexAccessor("POSITION", Accessor(root, surface.Positions, BufferMode.ARRAY_BUFFER));
        primitive.SetVertexAccessor("NORMAL", Accessor(root, surface.Normals, BufferMode.ARRAY_BUFFER));
        var view = root.CreateBufferView(surface.Triangles.Count * 4, 0, BufferMode.ELEMENT_ARRAY_BUFFER);
        var indices = new IntegerArray(view.Content);
        for (var i = 0; i < surface.Triangles.Count; i++)
            indices[i] = (uint)surface.Triangles[i];
        var accessor = root.CreateAccessor();
        accessor.SetIndexData(view, 0, surface.Triangles.Count, IndexEncodingType.UNSIGNED_INT);
        primitive.SetIndexAccessor(accessor);
        return mesh;
    }

    private static Accessor Accessor(ModelRoot root, List<Vector3> values, BufferMode mode)
    {
        var view = root.CreateBufferView(values.Count * 12, 0, mode);
        var array = new Vector3Array(view.Content);
        for (var i = 0; i < values.Count; i++)
            array[i] = values[i];
        var accessor = root.CreateAccessor();
        accessor.SetData(view, 0, values.Count, new AttributeFormat(DimensionType.VEC3, EncodingType.FLOAT));
        return accessor;
    }
}
