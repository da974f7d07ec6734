using System.Text;
using QRCoder;

namespace Rootgap.Server;

/// <summary>A QR code as text: two rows of modules in each line of half blocks, with the light margin that readers need.</summary>
internal static class QrText
{
    /// <param name="isInColour">Whether black and white can be asked for; else dark modules are blanks, for light writing on a dark screen.</param>
    public static string Of(string content, bool isInColour)
    {
        using var data = QRCodeGenerator.GenerateQrCode(content, QRCodeGenerator.ECCLevel.M);
        // The matrix has its margin of four modules.
        var rows = data.ModuleMatrix;
        var text = new StringBuilder();
        for (var y = 0; y < rows.Count; y += 2)
        {
            if (isInColour)
                text.Append("\u001b[97;40m");
            for (var x = 0; x < rows.Count; x++)
            {
                var (above, below) = (rows[y][x], y + 1 < rows.Count && rows[y + 1][x]);
                text.Append((above, below) switch
                {
                    (false, false) => '█',
                    (false, true) => '▀',
                    (true, false) => '▄',
                    _ => ' ',
                });
            }

            text.Append(isInColour ? "\u001b[0m\n" : "\n");
        }

        return text.ToString();
    }

    /// <summary>The same as a picture for a page, black on white as cameras want it.</summary>
    public static string Svg(string content)
    {
        using var data = QRCodeGenerator.GenerateQrCode(content, QRCodeGenerator.ECCLevel.M);
        var rows = data.ModuleMatrix;
        var path = new StringBuilder();
        for (var y = 0; y < rows.Count; y++)
        {
            for (var x = 0; x < rows.Count; x++)
            {
                if (rows[y][x])
                    path.Append(System.Globalization.CultureInfo.InvariantCulture, $"M{x} {y}h1v1h-1z");
            }
        }

        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {rows.Count} {rows.Count}\" role=\"img\" aria-label=\"Code to scan\"><path fill=\"#fff\" d=\"M0 0h{rows.Count}v{rows.Count}H0z\"/><path fill=\"#000\" d=\"{path}\"/></svg>");
    }

    /// <summary>A badge to print, of the size of a card (ISO/IEC 7810 ID-1, 85.60 x 53.98 mm).</summary>
    public static string Badge(string content, string name, string role)
    {
        var code = Svg(content).Replace("<svg ", "<svg x=\"44\" y=\"8\" width=\"38\" height=\"38\" ", StringComparison.Ordinal);
        string Line(double y, double size, string text) => text.Length == 0 ? ""
            : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"<text x=\"5\" y=\"{y}\" font-size=\"{size}\"{(text.Length * size * 0.6 > 37 ? " textLength=\"37\" lengthAdjust=\"spacingAndGlyphs\"" : "")}>{System.Net.WebUtility.HtmlEncode(text)}</text>");
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"85.6mm\" height=\"53.98mm\" viewBox=\"0 0 85.6 53.98\" font-family=\"sans-serif\">"
            + "<rect x=\"0.5\" y=\"0.5\" width=\"84.6\" height=\"52.98\" rx=\"3\" fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.3\"/>"
            + $"{Line(20, 6, name)}{Line(28, 4, role)}{Line(49, 3, "shows who is here, on the job's tablets")}{code}</svg>";
    }
}
