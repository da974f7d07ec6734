using System.Buffers.Binary;
using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>The outline of a glyph as closed shapes in font units, y upwards: for pictures, where no reader draws the font for us.</summary>
/// <remarks>OpenType specification, table glyf.</remarks>
internal static class GlyphOutline
{
    public static ImmutableArray<Segment> Of(FontFace face, ushort glyph)
    {
        var segments = ImmutableArray.CreateBuilder<Segment>();
        Add(face, glyph, Placement.None, segments);
        return segments.ToImmutable();
    }

    private static void Add(FontFace face, ushort glyph, Placement placement, ImmutableArray<Segment>.Builder into)
    {
        var data = face.Outline(glyph);
        if (data.Length < 10)
            return;
        var contours = I16(data, 0);
        if (contours >= 0)
            AddContours(data, contours, placement, into);
        else
            AddParts(face, data, placement, into);
    }

    // Both fonts place their parts by an offset, never by matching points.
    private static void AddParts(FontFace face, ReadOnlySpan<byte> data, Placement placement, ImmutableArray<Segment>.Builder into)
    {
        const int words = 0x1, scale = 0x8, more = 0x20, twoScales = 0x40, matrix = 0x80;
        for (int at = 10, flags = more; (flags & more) != 0;)
        {
            flags = I16(data, at);
            var part = (ushort)I16(data, at + 2);
            at += 4;
            var (dx, dy) = (flags & words) != 0 ? (I16(data, at), I16(data, at + 2)) : ((sbyte)data[at], (sbyte)data[at + 1]);
            at += (flags & words) != 0 ? 4 : 2;
            var (a, b, c, d) = (1.0, 0.0, 0.0, 1.0);
            if ((flags & scale) != 0)
            {
                a = d = Fraction(data, at);
                at += 2;
            }
            else if ((flags & twoScales) != 0)
            {
                (a, d) = (Fraction(data, at), Fraction(data, at + 2));
                at += 4;
            }
            else if ((flags & matrix) != 0)
            {
                (a, b, c, d) = (Fraction(data, at), Fraction(data, at + 2), Fraction(data, at + 4), Fraction(data, at + 6));
                at += 8;
            }
            Add(face, part, new Placement(a, b, c, d, dx, dy).Then(placement), into);
        }
    }

    private static void AddContours(ReadOnlySpan<byte> data, int contours, Placement placement, ImmutableArray<Segment>.Builder into)
    {
        var count = (ushort)I16(data, 10 + (2 * (contours - 1))) + 1;
        var at = 10 + (2 * contours);
        at += 2 + I16(data, at); // the hinting program
        var flags = new byte[count];
        const int onCurve = 0x1, xShort = 0x2, yShort = 0x4, repeat = 0x8, xSame = 0x10, ySame = 0x20;
        for (var i = 0; i < count; i++)
        {
            flags[i] = data[at++];
            if ((flags[i] & repeat) == 0)
                continue;
            for (int n = data[at++]; n > 0; n--, i++)
                flags[i + 1] = flags[i];
        }
        var xs = Coordinates(data, ref at, flags, xShort, xSame);
        var ys = Coordinates(data, ref at, flags, yShort, ySame);
        var first = 0;
        for (var c = 0; c < contours; c++)
        {
            var last = (ushort)I16(data, 10 + (2 * c));
            var points = new (Spot At, bool On)[last - first + 1];
            for (var i = 0; i < points.Length; i++)
                points[i] = (placement.Of(new(xs[first + i], ys[first + i])), (flags[first + i] & onCurve) != 0);
            AddContour(points, into);
            first = last + 1;
        }
    }

    private static int[] Coordinates(ReadOnlySpan<byte> data, ref int at, byte[] flags, int small, int same)
    {
        var values = new int[flags.Length];
        var value = 0;
        for (var i = 0; i < flags.Length; i++)
        {
            if ((flags[i] & small) != 0)
                value += (flags[i] & same) != 0 ? data[at++] : -data[at++];
            else if ((flags[i] & same) == 0)
            {
                value += I16(data, at);
                at += 2;
            }
            values[i] = value;
        }
        return values;
    }

    // Points off the curve are control points of quadratic curves; between two of them lies a point on it.
    private static void AddContour((Spot At, bool On)[] points, ImmutableArray<Segment>.Builder into)
    {
        if (points.Length < 2)
            return;
        var start = points[0].On ? points[0].At : points[^1].On ? points[^1].At : points[0].At.Toward(points[^1].At, 0.5);
        into.Add(new(Step.Move, start));
        var here = start;
        var control = default(Spot?);
        foreach (var (at, on) in points)
        {
            if (control is { } c)
                Curve(c, on ? at : c.Toward(at, 0.5));
            else if (on && at != here)
                Line(at);
            control = on ? null : at;
        }
        if (control is { } left)
            Curve(left, start);
        into.Add(new(Step.Close, start));

        void Line(Spot to)
        {
            into.Add(new(Step.Line, to));
            here = to;
        }

        void Curve(Spot c, Spot to)
        {
            into.Add(new(Step.Curve, to, here.Toward(c, 2.0 / 3), to.Toward(c, 2.0 / 3)));
            here = to;
        }
    }

    private static short I16(ReadOnlySpan<byte> data, int at) => BinaryPrimitives.ReadInt16BigEndian(data[at..]);

    private static double Fraction(ReadOnlySpan<byte> data, int at) => I16(data, at) / 16384.0;
}
