using System.Text;

namespace Rootgap.Records;

/// <summary>Bytes that are text: UTF-8 that comes back the same, byte for byte.</summary>
internal static class FactText
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    public static string? Of(byte[] content)
    {
        try
        {
            return Strict.GetString(content);
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }

    public static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);
}
