namespace Rootgap.Sheets;

/// <summary>The drawing commands of one PDF page (ISO 32000-1, 8 and 9). The page's own millimetres are the unit; the first command turns them into points.</summary>
internal sealed class PdfPage(Utf8Text content, PdfFont regular, PdfFont bold) : IBackEnd
{
    private const double PointsPerMillimetre = 72 / 25.4;

    // What the reader of the file has been told so far; saved and restored with its own state.
    private State _state = new(null, null);

    public void Start(Paper paper)
    {
        _state = new(null, null);
        content.Clear();
        content.Add(PointsPerMillimetre, 8).Add(" 0 0 ").Add(-PointsPerMillimetre, 8).Add(" 0 ").Add(paper.Height * PointsPerMillimetre).Add(" cm\n1 J 1 j\n");
    }

    /// <summary>What follows stands on the page before, in the same millimetres.</summary>
    public void GoOn()
    {
        _state = new(null, null);
        content.Clear();
    }

    public void Draw(Stroke stroke)
    {
        Use(stroke.Style);
        Path(stroke.Shape);
        content.Add("S\n");
    }

    public void Draw(Fill fill)
    {
        Use(fill.Ink);
        Path(fill.Shape);
        content.Add("f\n");
    }

    public void Draw(Text text)
    {
        var style = text.Style;
        Use(style.Ink);
        var (sin, cos) = Math.SinCos(text.Turn);
        var start = text.At.Polar(-text.Lead, text.Turn);
        // Letters stand upright although y runs down: the second axis is turned over.
        content.Add(style.Bold ? "BT /B " : "BT /R ").Add(style.Em).Add(" Tf ")
            .Add(cos, 6).Add(' ').Add(sin, 6).Add(' ').Add(sin, 6).Add(' ').Add(-cos, 6).Add(' ').Add(start).Add(" Tm <");
        var font = style.Bold ? bold : regular;
        foreach (var rune in text.Content.EnumerateRunes())
            content.AddHex(font.Use(rune));
        content.Add("> Tj ET\n");
    }

    public void Draw(Group group)
    {
        var p = group.Placement;
        var moved = p != Placement.None;
        var outside = _state;
        if (moved)
        {
            content.Add("q ").Add(p.A, 6).Add(' ').Add(p.B, 6).Add(' ').Add(p.C, 6).Add(' ').Add(p.D, 6)
                .Add(' ').Add(p.E).Add(' ').Add(p.F).Add(" cm\n");
        }
        foreach (var mark in group.Marks)
            mark.DrawOn(this);
        if (moved)
        {
            content.Add("Q\n");
            _state = outside;
        }
    }

    private void Use(LineStyle style)
    {
        if (_state.Line == style)
            return;
        Colour(style.Ink);
        content.Add(" RG ").Add(style.Width).Add(" w [");
        foreach (var length in style.Pattern)
            content.Add(length).Add(' ');
        content.Add("] 0 d\n");
        _state = _state with { Line = style };
    }

    private void Use(Ink ink)
    {
        if (_state.Ink == ink)
            return;
        Colour(ink);
        content.Add(" rg\n");
        _state = _state with { Ink = ink };
    }

    private void Colour(Ink ink) => content.Add(ink.Red / 255.0).Add(' ').Add(ink.Green / 255.0).Add(' ').Add(ink.Blue / 255.0);

    private void Path(Shape shape)
    {
        foreach (var s in shape.Segments)
        {
            switch (s.Step)
            {
                case Step.Move: content.Add(s.To).Add(" m "); break;
                case Step.Line: content.Add(s.To).Add(" l "); break;
                case Step.Curve: content.Add(s.Control1).Add(' ').Add(s.Control2).Add(' ').Add(s.To).Add(" c "); break;
                default: content.Add("h "); break;
            }
        }
    }

    private sealed record State(LineStyle? Line, Ink? Ink);
}
