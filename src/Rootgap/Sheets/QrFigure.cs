using QRCoder;

namespace Rootgap.Sheets;

/// <summary>A QR code on paper, with the light margin that readers need (ISO/IEC 18004: four modules).</summary>
public static class QrFigure
{
    /// <param name="content">What it says.</param>
    /// <param name="side">Its side with the margin, mm.</param>
    public static Figure Of(string content, double side)
    {
        using var data = QRCodeGenerator.GenerateQrCode(content, QRCodeGenerator.ECCLevel.M);
        var rows = data.ModuleMatrix; // the margin is in it
        var module = side / rows.Count;
        var canvas = new Canvas();
        for (var y = 0; y < rows.Count; y++)
        {
            for (var x = 0; x < rows.Count; x++)
            {
                // Dark modules side by side are one bar: fewer marks, and no hairlines between them.
                var from = x;
                while (x < rows.Count && rows[y][x])
                    x++;
                if (from < x)
                    canvas.Fill(Shape.Rectangle(new Box(from * module, y * module, (x - from) * module, module)));
            }
        }

        return canvas.ToFigure(side, side);
    }
}
