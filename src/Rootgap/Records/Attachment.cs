using System.Globalization;
using System.Security.Cryptography;

namespace Rootgap.Records;

/// <summary>A picture or a paper that a fact speaks of. The fact holds this; the content is kept apart, once, under its digest, and the fact's signature covers it through that.</summary>
/// <param name="Sha256">SHA-256 of the content: 64 hexadecimal digits in lower case.</param>
/// <param name="Name">As whoever attached it calls it; only to be shown.</param>
/// <param name="Bytes">Length of the content: 1 to <see cref="Largest"/>.</param>
public sealed record Attachment(string Sha256, string Name, int Bytes)
{
    /// <summary>Largest content, bytes.</summary>
    public const int Largest = 2 << 20;

    /// <summary>So many a fact may have.</summary>
    public const int MostOfOne = 20;

    private static readonly (string Type, byte[] Begins, int At)[] Kinds =
    [
        // RFC 2046 and the formats' own specifications: PNG 5.2, JFIF (ITU-T T.871) 10.1, WebP container, ISO 32000-1 7.5.2.
        ("image/png", [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], 0),
        ("image/jpeg", [0xFF, 0xD8, 0xFF], 0),
        ("image/webp", "WEBP"u8.ToArray(), 8),
        ("application/pdf", "%PDF-"u8.ToArray(), 0),
    ];

    /// <summary>What a content is by how it begins: image/png, image/jpeg, image/webp or application/pdf; null where it is none of these. Nobody's word is taken for it.</summary>
    public static string? TypeOf(ReadOnlySpan<byte> content)
    {
        foreach (var (type, begins, at) in Kinds)
        {
            if (content.Length >= at + begins.Length && content.Slice(at, begins.Length).SequenceEqual(begins))
                return type;
        }

        return null;
    }

    /// <summary>Why a content cannot be attached, with what to do; null where it can.</summary>
    public static string? WhyNot(ReadOnlySpan<byte> content) =>
        content.Length == 0 ? "It is empty."
        : Largest < content.Length ? string.Create(CultureInfo.InvariantCulture, $"It has {content.Length} bytes; a picture or paper has at most {Largest} (2 MB). Make it smaller.")
        : TypeOf(content) is null ? "It is no picture (JPEG, PNG, WebP) and no PDF. Save it as one of these."
        : null;

    /// <summary>What a fact says of a content that is attached to it.</summary>
    public static Attachment Of(string name, ReadOnlySpan<byte> content) => new(DigestOf(content), name, content.Length);

    public static string DigestOf(ReadOnlySpan<byte> content) => Convert.ToHexStringLower(SHA256.HashData(content));

    /// <summary>Whether this is the written form of a digest.</summary>
    public static bool IsDigest(string? text) => text is { Length: 64 } && text.All(c => c is (>= '0' and <= '9') or (>= 'a' and <= 'f'));
}
