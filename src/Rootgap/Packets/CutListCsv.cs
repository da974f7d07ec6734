using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Packets;

/// <summary>One row of the cut list as a sheet: what a saw operator and a spreadsheet need.</summary>
public sealed record CutRow(
    string Drawing, string Revision, string Piece, string Spool, int? Item, string Size, string Schedule, string Material, double LengthMm, string LengthFeet, double ExtraMm, double SaddleMm,
    string StartEnd, string FinishEnd, double MassKg, string Sum)
{
    public static IEnumerable<CutRow> Of(Packet packet) => packet.Fabrication.Cuts.Where(c => c.IsCut).Select(c => new CutRow(
        packet.Drawing.Number, packet.Drawing.Revision, c.Piece, c.Spool, c.Pipe.Item?.Item, c.Pipe.Size.ToString(), c.Pipe.Line.Schedule.ToString(), c.Pipe.Line.Material,
        LengthText.Rounded(c.Length, 2), LengthText.FeetInches(c.Length), LengthText.Rounded(c.Extra, 2), LengthText.Rounded(c.Saddle, 2), c.AtStart.Says, c.AtEnd.Says, LengthText.Rounded(c.Mass, 2), SumText(c)));

    /// <summary>The sum as one line, to be checked with a pencil.</summary>
    public static string SumText(Cut cut)
    {
        var text = new StringBuilder();
        foreach (var term in cut.Sum)
        {
            if (text.Length > 0)
                text.Append(term.Mm < 0 ? " - " : " + ");
            text.Append(LengthText.Millimetres(text.Length > 0 ? Math.Abs(term.Mm) : term.Mm, 2)).Append(" (").Append(term.What).Append(')');
        }

        return text.Append(CultureInfo.InvariantCulture, $" = {LengthText.Millimetres(cut.Length, 2)}").ToString();
    }
}

/// <summary>Writes the cut list as CSV and XLSX.</summary>
public static class CutListFiles
{
    public const string CsvHeader = "drawing,revision,piece,spool,item,size,schedule,material,length mm,length ft-in,extra mm,saddle mm besides,start end,finish end,mass kg,sum";

    /// <summary>Rows that a workbook's sheet holds, its heading aside.</summary>
    public const int MostXlsxRows = 1_048_575;

    public static string Csv(CutRow r) => string.Join(',', new[]
    {
        r.Drawing, r.Revision, r.Piece, r.Spool, r.Item?.ToString(CultureInfo.InvariantCulture) ?? "", r.Size, r.Schedule, r.Material,
        r.LengthMm.ToString("0.##", CultureInfo.InvariantCulture), r.LengthFeet, r.ExtraMm.ToString("0.##", CultureInfo.InvariantCulture), r.SaddleMm.ToString("0.##", CultureInfo.InvariantCulture), r.StartEnd, r.FinishEnd,
        r.MassKg.ToString("0.##", CultureInfo.InvariantCulture), r.Sum,
    }.Select(CsvText.Cell));

    /// <summary>The rows as an XLSX workbook; they are taken one by one. The same rows give the same bytes.</summary>
    public static void Xlsx(Stream stream, IEnumerable<CutRow> rows) => Workbook.Write(stream, ("cut list",
        rows.Select(r => new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            ["drawing"] = r.Drawing,
            ["revision"] = r.Revision,
            ["piece"] = r.Piece,
            ["spool"] = r.Spool,
            ["item"] = r.Item,
            ["size"] = r.Size,
            ["schedule"] = r.Schedule,
            ["material"] = r.Material,
            ["length mm"] = r.LengthMm,
            ["length ft-in"] = r.LengthFeet,
            ["extra mm"] = r.ExtraMm,
            ["saddle mm besides"] = r.SaddleMm,
            ["start end"] = r.StartEnd,
            ["finish end"] = r.FinishEnd,
            ["mass kg"] = r.MassKg,
            ["sum"] = r.Sum,
        })));
}
