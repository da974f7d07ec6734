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
}
