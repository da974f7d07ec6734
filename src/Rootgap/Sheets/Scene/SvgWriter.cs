using System.Collections.Immutable;
using System.Text;

namespace Rootgap.Sheets;

/// <summary>A scene as one self-contained SVG file in millimetres, text as text, with the marks' ids and classes, and with a title, a description and a role for who has it read aloud (WAI-ARIA Graphics Module 1.0).</summary>
public static class SvgWriter
{
    /// <summary>The file as text, without an XML declaration, so that it can also stand inside a page of HTML.</summary>
    public static string Write(Scene scene) => Encoding.UTF8.GetString(Page(scene).Written);

    /// <summary>The scene as a part of a page of HTML: it takes the width it is given, its ink is the page's own (<c>currentColor</c>, <c>--sheet</c> for
    /// white and <c>--sheet-accent</c> for the accent), marks state the row they were drawn from as <c>data-row</c>, and strokes of one kind that follow each other are one path.</summary>
    public static string ForScreen(Scene scene) => Encoding.UTF8.GetString(Screen(scene).Written);

    /// <summary>The file as UTF-8.</summary>
    public static void Write(Scene scene, Stream stream) => stream.Write(Page(scene).Written);

    private static Utf8Text Page(Scene scene)
    {
        var svg = new Utf8Text();
        var (w, h) = (scene.Paper.Width, scene.Paper.Height);
        svg.Add("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"").Add(w).Add("mm\" height=\"").Add(h).Add("mm\"");
        svg.Add(" lang=\"en\" xml:lang=\"en\" role=\"graphics-document document\"");
        Begin(svg, scene);
        if (scene.Description.Length > 0)
            svg.Add("<desc>").AddEscaped(Wrapping.Printable(scene.Description)).Add("</desc>\n");
        svg.Add("<rect class=\"paper\" width=\"").Add(w).Add("\" height=\"").Add(h).Add("\" fill=\"#ffffff\"/>\n");
        return Marks(svg, scene, isScreen: false);
    }

    private static Utf8Text Screen(Scene scene)
    {
        var svg = new Utf8Text();
        svg.Add("<svg xmlns=\"http://www.w3.org/2000/svg\"");
        Begin(svg, scene);
        return Marks(svg, scene, isScreen: true);
    }

    private static void Begin(Utf8Text svg, Scene scene)
    {
        svg.Add(" viewBox=\"0 0 ").Add(scene.Paper.Width).Add(' ').Add(scene.Paper.Height)
            .Add("\" xml:space=\"preserve\" fill=\"none\" stroke-linecap=\"round\" stroke-linejoin=\"round\" font-family=\"'DejaVu Sans Condensed', 'DejaVu Sans', sans-serif\"")
            .Add(" font-stretch=\"condensed\" style=\"font-kerning:none;font-variant-ligatures:none\">\n");
        if (scene.Title.Length > 0)
            svg.Add("<title>").AddEscaped(Wrapping.Printable(scene.Title)).Add("</title>\n");
    }

    private static Utf8Text Marks(Utf8Text svg, Scene scene, bool isScreen)
    {
        var page = new SvgPage(svg, isScreen);
        page.DrawAll(scene.Marks);
        return svg.Add("</svg>\n");
    }

    private sealed class SvgPage(Utf8Text svg, bool isScreen) : IBackEnd
    {
        /// <summary>A browser shows a hundredth of a millimetre at most.</summary>
        private readonly int decimals = isScreen ? 2 : 3;

        public void DrawAll(ImmutableArray<Mark> marks)
        {
            for (var i = 0; i < marks.Length; i++)
            {
                if (!isScreen || marks[i] is not Stroke first)
                {
                    marks[i].DrawOn(this);
                    continue;
                }

                var from = i;
                while (i + 1 < marks.Length && marks[i + 1] is Stroke next && next.Style == first.Style && next.Id is null && next.Class is null && next.Row == first.Row)
                    i++;
                Begin(first);
                for (var k = from; k <= i; k++)
                    Data(((Stroke)marks[k]).Shape);
                End(first.Style);
            }
        }

        public void Draw(Stroke stroke)
        {
            Begin(stroke);
            Data(stroke.Shape);
            End(stroke.Style);
        }

        private void Begin(Stroke stroke) => Open("path", stroke).Add(" d=\"");

        private void End(LineStyle style)
        {
            svg.Add("\" stroke=\"").Add(Colour(style.Ink)).Add("\" stroke-width=\"").Add(style.Width);
            if (!style.Pattern.IsEmpty)
            {
                svg.Add("\" stroke-dasharray=\"");
                foreach (var length in style.Pattern)
                    svg.Add(length).Add(' ');
            }
            svg.Add("\"/>\n");
        }

        public void Draw(Fill fill)
        {
            Open("path", fill).Add(" d=\"");
            Data(fill.Shape);
            svg.Add("\" fill=\"").Add(Colour(fill.Ink)).Add("\"/>\n");
        }

        public void Draw(Text text)
        {
            Open("text", text);
            if (text.Turn == 0)
                svg.Add(" x=\"").Add(text.At.X).Add("\" y=\"").Add(text.At.Y);
            else
                svg.Add(" transform=\"translate(").Add(text.At).Add(") rotate(").Add(Measure.Angles.ToDegrees(text.Turn), 4).Add(')');
            // The length is for machines without the font: theirs is then stretched to the room it was given.
            svg.Add("\" font-size=\"").Add(text.Style.Em).Add("\" textLength=\"").Add(text.Width).Add("\" lengthAdjust=\"spacingAndGlyphs\"");
            if (text.Style.Bold)
                svg.Add(" font-weight=\"bold\"");
            if (text.Anchor != Anchor.Start)
                svg.Add(text.Anchor == Anchor.Middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"");
            svg.Add(" fill=\"").Add(Colour(text.Style.Ink)).Add("\">").AddEscaped(text.Content).Add("</text>\n");
        }

        public void Draw(Group group)
        {
            Open("g", group);
            var p = group.Placement;
            if (p != Placement.None)
            {
                svg.Add(" transform=\"matrix(").Add(p.A, 6).Add(' ').Add(p.B, 6).Add(' ').Add(p.C, 6).Add(' ').Add(p.D, 6)
                    .Add(' ').Add(p.E).Add(' ').Add(p.F).Add(")\"");
            }
            svg.Add(">\n");
            DrawAll(group.Marks);
            svg.Add("</g>\n");
        }

        private string Colour(Ink ink) => !isScreen ? ink.ToString()
            : ink == Ink.Black ? "currentColor"
            : ink == Ink.White ? "var(--sheet, #ffffff)"
            : ink == Ink.Accent ? "var(--sheet-accent, #b33000)"
            : ink.ToString();

        private Utf8Text Open(string element, Mark mark)
        {
            svg.Add('<').Add(element);
            if (mark.Id is { } id)
                svg.Add(" id=\"").AddEscaped(Wrapping.Printable(id)).Add('"');
            if (mark.Class is { } name)
                svg.Add(" class=\"").AddEscaped(Wrapping.Printable(name)).Add('"');
            if (isScreen && mark.Row is { } row)
                svg.Add(" data-row=\"").AddEscaped(Wrapping.Printable(row)).Add('"');
            return svg;
        }

        private void Data(Shape shape)
        {
            foreach (var s in shape.Segments)
            {
                switch (s.Step)
                {
                    case Step.Move: svg.Add('M').Add(s.To, decimals); break;
                    case Step.Line: svg.Add('L').Add(s.To, decimals); break;
                    case Step.Curve: svg.Add('C').Add(s.Control1, decimals).Add(' ').Add(s.Control2, decimals).Add(' ').Add(s.To, decimals); break;
                    default: svg.Add('Z'); break;
                }
            }
        }
    }
}
