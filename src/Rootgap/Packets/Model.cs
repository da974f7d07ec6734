using System.Numerics;
using System.Text.Json.Nodes;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Vector = Rootgap.Measure.Vector;
using Rootgap.Routes;
using Rootgap.Standards;
using SharpGLTF.Memory;
using SharpGLTF.Schema2;

namespace Rootgap.Packets;

/// <summary>The drawing as a glTF 2.0 model: true size in metres, one named node a component or pipe, coloured by spool; loose parts are grey.</summary>
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
        var left = new List<string>();
        missing = left;
        var materials = new Dictionary<string, Material>(StringComparer.Ordinal);
        foreach (var cut in f.Cuts)
        {
            var pipe = cut.Pipe;
            if (pipe.Outside <= 0 || (pipe.End - pipe.Start).Dot(pipe.Direction) <= 0)
                continue;
            var solid = new Solid().Turned(pipe.Start, pipe.Direction, (0, pipe.Outside / 2), (pipe.Start.To(pipe.End), pipe.Outside / 2));
            Add($"pipe {cut.Piece}", solid, cut.Spool, pipe.Id, pipe.Item);
        }

        foreach (var c in f.Route.Components)
        {
            if (ShapeOr(c) is { Triangles.Count: > 0 } solid)
                Add($"{c.Id} {c.Name}", solid, f.SpoolOf.GetValueOrDefault(c.Id, ""), c.Id, c.Item);
        }

        return root.WriteGLB().ToArray();

        Solid? ShapeOr(Component c)
        {
            try
            {
                return Shape(c, f.Route.Drawing.Units);
            }
            catch (Exception e) when (Findings.ProgramFault.IsOne(e))
            {
                left.Add($"{c.Id} {c.Name}");
                return null;
            }
        }

        void Add(string name, Solid solid, string spool, string id, MaterialItem? item)
        {
            // A part that turns straight back on itself has no middle: its surface is nowhere.
            if (!solid.Positions.TrueForAll(IsSomewhere) || !solid.Normals.TrueForAll(IsSomewhere))
            {
                left.Add(name);
                return;
            }

            var node = scene.CreateNode(name);
            node.Mesh = Mesh(root, name, solid, MaterialOf(spool));
            var extras = new JsonObject { ["component"] = id };
            if (spool.Length > 0)
                extras["spool"] = spool;
            if (item is not null)
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

    private static bool IsSomewhere(Vector3 v) => float.IsFinite(v.X) && float.IsFinite(v.Y) && float.IsFinite(v.Z);

    private static Mesh Mesh(ModelRoot root, string name, Solid solid, Material material)
    {
        var mesh = root.CreateMesh(name);
        var primitive = mesh.CreatePrimitive();
        primitive.Material = material;
        primitive.SetVertexAccessor("POSITION", Accessor(root, solid.Positions, BufferMode.ARRAY_BUFFER));
        primitive.SetVertexAccessor("NORMAL", Accessor(root, solid.Normals, BufferMode.ARRAY_BUFFER));
        var view = root.CreateBufferView(solid.Triangles.Count * 4, 0, BufferMode.ELEMENT_ARRAY_BUFFER);
        var indices = new IntegerArray(view.Content);
        for (var i = 0; i < solid.Triangles.Count; i++)
            indices[i] = (uint)solid.Triangles[i];
        var accessor = root.CreateAccessor();
        accessor.SetIndexData(view, 0, solid.Triangles.Count, IndexEncodingType.UNSIGNED_INT);
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

    /// <summary>The outer shape of a component from the standards' dimensions; valves as two bells and a stem.</summary>
    private static Solid? Shape(Component c, Units units)
    {
        double Radius(NominalSize size) => (Pipes.OutsideDiameter(size)?.In(units) ?? 0) / 2;
        var r = Radius(c.Size);
        if (r <= 0)
            return null;
        var solid = new Solid();
        var first = c.Ports[0];
        switch (c.Ware)
        {
            case Ware.Elbow when c is { Radius: { } radius, Turn: { } turn } && turn > Tolerance.Turn:
                var tangent = Math.Max(0, first.At.To(c.WorkPoint) - (radius * Math.Tan(Math.Min(turn, 2.9) / 2)));
                var into = -first.Face;
                var side = c.Ports[1].Face.SquareTo(into).Unit;
                return solid.Bend(first.At + (into * tangent), into, side, radius, turn, r);
            case Ware.Elbow or Ware.Tee:
                foreach (var port in c.Ports)
                    solid.Turned(c.WorkPoint, port.Face, (0, PortRadius(c, port, r, Radius)), (port.At.To(c.WorkPoint), PortRadius(c, port, r, Radius)));
                return solid;
            case Ware.Reducer:
                var isShrinking = c.Drawn is ReducerPoint p && p.Size != c.Size;
                var (from, to) = isShrinking ? (r, Radius(c.Size2)) : (Radius(c.Size2), r);
                return solid.Cone(first.At, c.Ports[1].At, -first.Face, from, to);
            case Ware.Flange:
                return Flange(c, r, units);
            case Ware.Valve:
                return Valve(c, r, units);
            case Ware.Gasket:
                return solid.Turned(first.At, (c.Ports[1].At - first.At).Unit, (0, r * 1.25), (first.At.To(c.Ports[1].At), r * 1.25));
            case Ware.Cap:
                var length = first.At.To(c.WorkPoint);
                return solid.Turned(first.At, -first.Face, (0, r), (length * 0.45, r), (length * 0.75, r * 0.85), (length * 0.93, r * 0.5), (length, 0));
            case Ware.Outlet:
                var height = first.At.To(c.Ports[1].At);
                return solid.Turned(first.At, -first.Face, (-r * 0.2, r * 1.5), (height * 0.7, r * 1.2), (height, r));
            default:
                return null;
        }
    }

    private static double PortRadius(Component c, Port port, double r, Func<NominalSize, double> radius) =>
        c is { Ware: Ware.Tee, Size2.IsNone: false } && IsBranch(c, port) ? radius(c.Size2) : r;

    /// <summary>The branch of a tee is the port square to the two others.</summary>
    private static bool IsBranch(Component c, Port port) => c.Ports.All(o => o == port || Math.Abs(o.Face.Dot(port.Face)) < 0.5);

    private static Solid Flange(Component c, double r, Units units)
    {
        double Value(string item, string attribute, double otherwise) => StandardTable.Find("flanges", item, attribute, c.Size, @class: c.Line.Class)?.In(units) ?? otherwise;
        // The port that looks away from the pipe is the contact face: for an end flange the one at the work point.
        var (a, b) = (c.Ports[0], c.Ports[1]);
        var face = IsContactFace(c, a) ? a : b;
        var weld = face == a ? b : a;
        var length = face.At.To(weld.At);
        var outside = Value("flange", "outside diameter", r * 3) / 2;
        var thickness = Math.Min(Value(c.Name, "thickness", length / 2), length);
        var hub = Value(c.Name, "hub diameter", r * 2.4) / 2;
        var raised = Math.Min(Value("flange", "raised face height", 0), thickness / 2);
        var raisedRadius = Value("flange", "raised face diameter", outside * 2) / 2;
        return new Solid().Turned(face.At, -face.Face, (0, raisedRadius), (raised, raisedRadius), (raised, outside), (thickness, outside), (thickness, hub), (length, r));
    }

    /// <summary>A contact face has no hub behind it: it looks at a gasket or at the work point of an end flange.</summary>
    private static bool IsContactFace(Component c, Port port)
    {
        var toWorkPoint = c.WorkPoint - port.At;
        return toWorkPoint.Length < Tolerance.Noise || toWorkPoint.Dot(port.Face) > 0;
    }

    private static Solid Valve(Component c, double r, Units units)
    {
        var (a, b) = (c.Ports[0], c.Ports[1]);
        var axis = -a.Face;
        var length = a.At.To(b.At);
        var drawn = (ValvePoint)c.Drawn;
        var isFlanged = drawn.Ends == FittingEnds.Flanged;
        var rim = isFlanged ? (StandardTable.Find("flanges", "flange", "outside diameter", c.Size, @class: c.Line.Class)?.In(units) ?? (r * 3)) / 2 : r * 1.3;
        var solid = new Solid();
        if (drawn.Kind == ValveKind.Butterfly)
        {
            solid.Turned(a.At, axis, (0, r * 1.4), (length, r * 1.4));
        }
        else
        {
            var lip = Math.Min(length * 0.12, r);
            solid.Turned(a.At, axis, (0, rim), (lip, rim), (lip, r * 1.1), (length * 0.35, r * 1.1), (length * 0.5, r * 1.35), (length * 0.65, r * 1.1), (length - lip, r * 1.1), (length - lip, rim), (length, rim));
        }

        if (drawn.Kind == ValveKind.Check)
            return solid;
        var stem = (drawn.Stem ?? Vector.Up).SquareTo(axis);
        stem = stem.Length > 0.1 ? stem.Unit : axis.AnySquare();
        return solid.Turned(c.WorkPoint, stem, (0, r * 0.5), (r * 2.2, r * 0.5), (r * 2.2, r * 0.15), (r * 3.4, r * 0.15), (r * 3.4, r * 1.1), (r * 3.6, r * 1.1));
    }
}
