using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>One page, ready to be written: what is drawn on which paper, in order, later marks over earlier ones.</summary>
public sealed record Scene(Paper Paper, ImmutableArray<Mark> Marks)
{
    /// <summary>What the page is, for a file that holds only this page.</summary>
    public string Title { get; init; } = "";

    /// <summary>Who carries the page, of what it is and in which unit it speaks; for who cannot see it.</summary>
    public string Description { get; init; } = "";

    /// <summary>Entries of the document's outline that lead to this page.</summary>
    public ImmutableArray<Bookmark> Bookmarks { get; init; } = [];
}

/// <summary>An entry of the outline: level 1 is a section; <paramref name="Y"/> is where on the page it leads, mm from the top.</summary>
public sealed record Bookmark(string Title, int Level = 1, double Y = 0);

/// <summary>A drawing with its own coordinates from its upper left corner, to be placed on a page. Millimetres.</summary>
public sealed record Figure(ImmutableArray<Mark> Marks, double Width, double Height)
{
    /// <summary>The figure as a mark, its corner at a place, scaled by <paramref name="scale"/>.</summary>
    public Group At(Spot corner, double scale = 1) => new(Marks, Placement.Scale(scale).Then(Placement.Move(corner.X, corner.Y)));
}

/// <summary>Something drawn. Its id and class go into SVG, so that the app can find and colour it.</summary>
public abstract record Mark
{
    private protected Mark()
    {
    }

    public string? Id { get; init; }

    public string? Class { get; init; }

    /// <summary>Path of the row of a file that it was drawn from; SVG for the screen states it.</summary>
    public string? Row { get; init; }

    /// <summary>Has the page draw this mark.</summary>
    public abstract void DrawOn(IBackEnd page);
}

/// <summary>A line along a shape.</summary>
public sealed record Stroke(Shape Shape, LineStyle Style) : Mark
{
    public override void DrawOn(IBackEnd page) => page.Draw(this);
}

/// <summary>A shape filled (a part that runs the other way round is a hole).</summary>
public sealed record Fill(Shape Shape, Ink Ink) : Mark
{
    public override void DrawOn(IBackEnd page) => page.Draw(this);
}

/// <summary>One line of text with its baseline at a place, turned by an angle in radians from right towards down.</summary>
public sealed record Text(string Content, Spot At, TextStyle Style, Anchor Anchor = Anchor.Start, double Turn = 0) : Mark
{
    /// <summary>What is written. Line breaks and tabs become spaces; signs that no output can carry become U+FFFD.</summary>
    public string Content { get; init; } = Wrapping.Printable(Content);

    /// <summary>Width, mm.</summary>
    public double Width => Style.Width(Content);

    /// <summary>From the place back to where the text begins, mm along the baseline.</summary>
    public double Lead => Anchor switch { Anchor.Middle => Width / 2, Anchor.End => Width, _ => 0 };

    /// <summary>The room an unturned text takes: full width, from its highest to its lowest sign.</summary>
    public Box Box => new(At.X - Lead, At.Y - Style.Ascent, Width, Style.Ascent + Style.Descent);

    public override void DrawOn(IBackEnd page) => page.Draw(this);
}

/// <summary>Marks that belong together, placed as one.</summary>
public sealed record Group(ImmutableArray<Mark> Marks, Placement Placement) : Mark
{
    public override void DrawOn(IBackEnd page) => page.Draw(this);
}

/// <summary>What SVG, PDF and pictures have in common: a page that takes each kind of mark.</summary>
public interface IBackEnd
{
    void Draw(Stroke stroke);
    void Draw(Fill fill);
    void Draw(Text text);
    void Draw(Group group);
}
