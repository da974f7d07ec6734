using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>A page whose number is not known yet: its content, and the block that will bear the number.</summary>
public sealed record Page(Paper Paper, TitleBlock Block, ImmutableArray<Mark> Marks)
{
    public ImmutableArray<Bookmark> Bookmarks { get; init; } = [];

    /// <summary>On a page that stands for others which the program failed to draw: what it said; empty on every other page.</summary>
    public string Fault { get; init; } = "";

    /// <summary>A page drawn by hand in the room that the title block leaves.</summary>
    public static Page Draw(Paper paper, TitleBlock block, Action<Canvas, Box> draw)
    {
        var canvas = new Canvas();
        draw(canvas, block.Content(paper));
        return new(paper, block, canvas.Marks) { Bookmarks = [new(block.Title)] };
    }

    /// <summary>The page without its number, for who does not know it yet.</summary>
    public Scene Unnumbered()
    {
        var canvas = new Canvas();
        Block.Draw(canvas, Paper);
        return new(Paper, [.. canvas.Marks, .. Marks]) { Title = Block.Name, Description = Block.Description, Bookmarks = Bookmarks };
    }

    /// <summary>What is laid over <see cref="Unnumbered"/> when the number is known.</summary>
    public ImmutableArray<Mark> Number(int sheet, int of)
    {
        var canvas = new Canvas();
        Block.Number(canvas, Paper, sheet, of);
        return canvas.Marks;
    }

    /// <summary>The page with its number on it.</summary>
    public Scene Numbered(int sheet, int of)
    {
        var canvas = new Canvas();
        Block.Draw(canvas, Paper, sheet, of);
        return new(Paper, [.. canvas.Marks, .. Marks]) { Title = Block.Name, Description = Block.Description, Bookmarks = Bookmarks };
    }
}

/// <summary>Pages of several kinds as one document, numbered through.</summary>
public sealed record Booklet(string Title, ImmutableArray<Page> Pages)
{
    public Booklet(string title, IEnumerable<Page> pages)
        : this(title, [.. pages])
    {
    }

    /// <summary>The pages with their numbers, one after the other as they are asked for.</summary>
    public IEnumerable<Scene> Scenes() => Pages.Select((page, i) => page.Numbered(i + 1, Pages.Length));

    /// <summary>The pages as a part of a longer file: the title is in the outline, and the pages' own entries are below it.</summary>
    public IEnumerable<Scene> Section() => Scenes().Select((scene, i) => scene with
    {
        Bookmarks = [.. i == 0 ? [new Bookmark(Title)] : Array.Empty<Bookmark>(), .. scene.Bookmarks.Select(b => b with { Level = b.Level + 1 })],
    });

    /// <summary>The document as a PDF file of its own.</summary>
    public void WritePdf(Stream stream) => PdfWriter.Write(stream, Title, Scenes());
}
