using System.Globalization;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>Text of a file under way, as UTF-8. Numbers are written the same in SVG and PDF: in thousandths, without idle zeros.</summary>
internal sealed class Utf8Text
{
    private byte[] _bytes = new byte[16384];

    public int Length { get; private set; }

    public ReadOnlySpan<byte> Written => _bytes.AsSpan(0, Length);

    public void Clear() => Length = 0;

    public Utf8Text Add(string text)
    {
        Room(Encoding.UTF8.GetMaxByteCount(text.Length));
        Length += Encoding.UTF8.GetBytes(text, _bytes.AsSpan(Length));
        return this;
    }

    public Utf8Text Add(char ascii)
    {
        Room(1);
        _bytes[Length++] = (byte)ascii;
        return this;
    }

    public Utf8Text Add(int number)
    {
        Room(11);
        number.TryFormat(_bytes.AsSpan(Length), out var written, default, CultureInfo.InvariantCulture);
        Length += written;
        return this;
    }

    public Utf8Text AddHex(ushort number)
    {
        Room(4);
        number.TryFormat(_bytes.AsSpan(Length), out var written, "X4", CultureInfo.InvariantCulture);
        Length += written;
        return this;
    }

    /// <summary>A number to a thousandth (mm: a micrometre), or finer.</summary>
    public Utf8Text Add(double number, int decimals = 3)
    {
        if (!double.IsFinite(number) || Math.Abs(number) > 1e9)
            throw new ArgumentOutOfRangeException(nameof(number), number, "A place on a sheet must be a finite number of millimetres.");
        var one = 1L;
        for (var i = 0; i < decimals; i++)
            one *= 10;
        var units = (long)Math.Round(number * one, MidpointRounding.AwayFromZero);
        Room(24);
        if (units < 0)
        {
            _bytes[Length++] = (byte)'-';
            units = -units;
        }
        var (whole, part) = Math.DivRem(units, one);
        whole.TryFormat(_bytes.AsSpan(Length), out var written, default, CultureInfo.InvariantCulture);
        Length += written;
        if (part == 0)
            return this;
        _bytes[Length++] = (byte)'.';
        while (part > 0)
        {
            one /= 10;
            _bytes[Length++] = (byte)('0' + (part / one));
            part %= one;
        }
        return this;
    }

    public Utf8Text Add(Spot p, int decimals = 3) => Add(p.X, decimals).Add(' ').Add(p.Y, decimals);

    /// <summary>Text inside an XML element or a quoted attribute.</summary>
    public Utf8Text AddEscaped(string text)
    {
        var from = 0;
        for (var i = 0; i <= text.Length; i++)
        {
            var escape = i == text.Length ? "" : text[i] switch { '&' => "&amp;", '<' => "&lt;", '>' => "&gt;", '"' => "&quot;", _ => null };
            if (escape is null)
                continue;
            Add(from == 0 && i == text.Length ? text : text[from..i]).Add(escape);
            from = i + 1;
        }
        return this;
    }

    private void Room(int count)
    {
        if (Length + count > _bytes.Length)
            Array.Resize(ref _bytes, Math.Max(_bytes.Length * 2, Length + count));
    }
}
