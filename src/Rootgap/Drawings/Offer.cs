namespace Rootgap.Drawings;

/// <summary>How a field is filled in.</summary>
public enum OfferKind
{
    /// <summary>One of the six words, or a vector typed <c>east 600 up 600</c>.</summary>
    Direction,

    Length,

    /// <summary>Several lengths, with commas.</summary>
    Lengths,

    /// <summary>A length, or the word <c>makeup</c>.</summary>
    By,

    /// <summary>One of the offered words, and nothing else.</summary>
    Choice,

    /// <summary>A nominal size; two of them in a material list.</summary>
    Size,

    Schedule,
    Text,
    Whole,
    Number,

    /// <summary>Degrees.</summary>
    Angle,

    YesNo,

    /// <summary><c>1:100</c>.</summary>
    Slope,

    /// <summary>Coordinates, typed <c>east 0 north 0 up 900</c>.</summary>
    Place,

    /// <summary><c>straddle</c>, <c>on-centre</c> or an angle.</summary>
    Holes,

    /// <summary>A count, or a length with its unit.</summary>
    Quantity,

    /// <summary>Name of a file beside the drawing.</summary>
    File,
}

/// <summary>What a field of a row may hold: only what fits there.</summary>
/// <param name="Key">The key in the file.</param>
/// <param name="Says">The sentence that explains it.</param>
/// <param name="Words">What fits, the usual first; for every kind but <see cref="OfferKind.Choice"/> and <see cref="OfferKind.YesNo"/> something else may be typed as well.</param>
/// <param name="IsRequired">The row is not whole without it.</param>
/// <param name="Default">What holds where nothing is written; null where nothing does.</param>
public sealed record Offer(string Key, string Says, OfferKind Kind, IReadOnlyList<string> Words, bool IsRequired, string? Default);
