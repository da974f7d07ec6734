namespace Rootgap.Sheets;

/// <summary>A colour on paper. Its default is black.</summary>
public readonly record struct Ink(byte Red, byte Green, byte Blue)
{
    public static readonly Ink Black;
    public static readonly Ink White = new(255, 255, 255);

    /// <summary>For hidden and reference lines; dark enough for a worn printer.</summary>
    public static readonly Ink Grey = new(0x6A, 0x6A, 0x6A);

    /// <summary>For what matters: a dark orange-red, printed as a dark grey (6.6 : 1 on white) where there is no colour.</summary>
    public static readonly Ink Accent = new(0xB3, 0x30, 0x00);

    /// <summary>#rrggbb</summary>
    public override string ToString() => this == Black ? "#000000" : this == White ? "#ffffff" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"#{Red:x2}{Green:x2}{Blue:x2}");
}

/// <summary>How a line is broken.</summary>
public enum Dash
{
    Solid,
    /// <summary>3 mm on, 1.5 mm off.</summary>
    Dashed,
    /// <summary>Dots 1.2 mm apart.</summary>
    Dotted,
    /// <summary>Centreline: 6 mm, gap, 0.6 mm, gap.</summary>
    Chain,
}

/// <summary>How a line is drawn: width in mm, with round ends and corners.</summary>
/// <remarks>Widths after ISO 128-2: each the next wider by the square root of two.</remarks>
public sealed record LineStyle(double Width, Dash Dash = Dash.Solid, Ink Ink = default)
{
    /// <summary>0.25 mm: dimension lines, leaders, rules between rows.</summary>
    public static readonly LineStyle Thin = new(0.25);
    /// <summary>0.35 mm: outlines, boxes.</summary>
    public static readonly LineStyle Medium = new(0.35);
    /// <summary>0.7 mm: pipe, frames, rules under headings.</summary>
    public static readonly LineStyle Thick = new(0.7);
    /// <summary>0.7 mm in the accent colour.</summary>
    public static readonly LineStyle Accent = new(0.7, Dash.Solid, Ink.Accent);

    /// <summary>Lengths on and off in turn, mm; empty for an unbroken line. Round ends add the line's width to what is drawn.</summary>
    public ReadOnlySpan<double> Pattern => Dash switch
    {
        Dash.Dashed => [3, 1.5],
        Dash.Dotted => [0.01, 1.2],
        Dash.Chain => [6, 1.2, 0.6, 1.2],
        _ => [],
    };
}

/// <summary>Which end of a text stands at its place.</summary>
public enum Anchor
{
    Start,
    Middle,
    End,
}

/// <summary>How text is set. <paramref name="Height"/> is the height of a capital letter, mm, as lettering on drawings is measured (ISO 3098).</summary>
public sealed record TextStyle(double Height, bool Bold = false, Ink Ink = default)
{
    /// <summary>2.5 mm: labels, notes, dense tables; nothing is set smaller by choice.</summary>
    public static readonly TextStyle Small = new(2.5);
    /// <summary>3.5 mm: what is read at arm's length.</summary>
    public static readonly TextStyle Body = new(3.5);
    public static readonly TextStyle Strong = new(3.5, Bold: true);
    /// <summary>5 mm bold.</summary>
    public static readonly TextStyle Heading = new(5, Bold: true);
    /// <summary>7 mm bold.</summary>
    public static readonly TextStyle Title = new(7, Bold: true);

    /// <summary>The typeface it is set in.</summary>
    public FontFace Face => Bold ? FontFace.Bold : FontFace.Regular;

    /// <summary>The font's size, mm, to a thousandth: what the files state.</summary>
    public double Em => Math.Round(Height / Face.CapHeight, 3);

    /// <summary>How far the text reaches above its baseline, accents included, mm.</summary>
    public double Ascent => Em * Face.Ascent;

    /// <summary>How far the text reaches below its baseline, mm.</summary>
    public double Descent => Em * Face.Descent;

    /// <summary>From baseline to baseline, mm.</summary>
    public double Pitch => Em * 1.2;

    /// <summary>Width of a text on one line, mm, the same in every output.</summary>
    public double Width(ReadOnlySpan<char> text) => Face.Advance(text) * Em;

    /// <summary>The text in lines no wider than <paramref name="width"/> mm. Breaks at spaces; a word that is too long is broken after a sign, or else anywhere.</summary>
    public IReadOnlyList<string> Wrap(string text, double width) => Wrapping.Lines(text, width, this);

    /// <summary>This style, smaller where the text would be wider than <paramref name="width"/> mm.</summary>
    public TextStyle Fitting(ReadOnlySpan<char> text, double width)
    {
        var natural = Width(text);
        return natural <= width ? this : this with { Height = Math.Floor(Height * width / natural * 100) / 100 };
    }
}
