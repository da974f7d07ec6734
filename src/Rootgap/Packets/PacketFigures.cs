using System.Text.Json;
using Rootgap.Measure;

namespace Rootgap.Packets;

/// <summary>How figures, places and words are written in <c>packet.json</c>.</summary>
internal static class PacketFigures
{
    /// <summary>Lengths, masses and angles to 0.0001; directions to a nano-radian, since they may be drawn out over metres.</summary>
    private const int Decimals = 4;

    public const int DirectionDecimals = 9;

    private static readonly JsonEncodedText East = JsonEncodedText.Encode("east");
    private static readonly JsonEncodedText North = JsonEncodedText.Encode("north");
    private static readonly JsonEncodedText Up = JsonEncodedText.Encode("up");
    public static readonly JsonEncodedText Face = JsonEncodedText.Encode("face");

    public static void Ids(this Utf8JsonWriter json, string name, IEnumerable<string> ids)
    {
        json.WriteStartArray(name);
        foreach (var id in ids)
            json.WriteStringValue(id);
        json.WriteEndArray();
    }

    public static void Coordinates(this Utf8JsonWriter json, Vector v, int decimals = Decimals)
    {
        json.WritePropertyName(East);
        json.Number(v.X, decimals);
        json.WritePropertyName(North);
        json.Number(v.Y, decimals);
        json.WritePropertyName(Up);
        json.Number(v.Z, decimals);
    }

    public static void Number(this Utf8JsonWriter json, string name, double value)
    {
        json.WritePropertyName(name);
        json.Number(value);
    }

    /// <summary>A number to so many decimals, written as digits: finding the shortest form of a double takes longer than all else here.</summary>
    public static void Number(this Utf8JsonWriter json, double value, int decimals = Decimals)
    {
        var scaled = Math.Round(value * (decimals == Decimals ? 1e4 : 1e9), MidpointRounding.AwayFromZero);
        if (!(Math.Abs(scaled) < 1e18))
        {
            json.WriteNumberValue(value);
            return;
        }

        Span<byte> digits = stackalloc byte[24];
        var number = (ulong)Math.Abs((long)scaled);
        var at = digits.Length;
        var isFraction = false;
        for (var place = 0; place <= decimals || number > 0; place++)
        {
            var digit = (byte)('0' + (number % 10));
            number /= 10;
            if (place == decimals && isFraction)
                digits[--at] = (byte)'.';
            isFraction |= digit != '0';
            if (place >= decimals || isFraction)
                digits[--at] = digit;
        }

        if (scaled < 0)
            digits[--at] = (byte)'-';
        json.WriteRawValue(digits[at..], skipInputValidation: true);
    }

    public static void Text(this Utf8JsonWriter json, string name, string value)
    {
        if (value.Length > 0)
            json.WriteString(name, value);
    }
}
