using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>A piece of pipe or a part of a line with its heat.</summary>
/// <param name="Part">Mark of the piece, or id of the component.</param>
/// <param name="What">In words: pipe, elbow 90 LR.</param>
/// <param name="Heat">Null where nobody noted it.</param>
/// <param name="Certificates">Those of its heat.</param>
public sealed record HeatUse(LineDone Line, string Part, string What, NominalSize Size, string Schedule, string Material, string Spool, string? Heat, IReadOnlyList<CertificateNoted> Certificates);

/// <summary>Which heats are in which spool, where a heat went, and what the certificates say against it.</summary>
public static class Heats
{
    /// <summary>The heat of a pipe or a component, by its id; with the mark by which people know it.</summary>
    public static (string Part, string? Heat) HeatOf(this LineDone line, string id)
    {
        if (line.Fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == id) is { } cut)
            return (cut.Piece, line.Done.HeatOfPiece(cut.Piece));
        return (id, line.Done.HeatOf(id)?.Heat);
    }

    /// <summary>Certificates by their heat; of one heat with the same number the last one counts.</summary>
    public static ILookup<string, CertificateNoted> Certificates(JobRecord job) =>
        job.Facts.Where(e => e.Counts).Select(e => e.Fact).OfType<CertificateNoted>()
            .GroupBy(c => (Heat: Key(c.Heat), Number: Key(c.Number))).Select(g => g.Last()).ToLookup(c => Key(c.Heat), StringComparer.Ordinal);

    /// <summary>Every piece and part of a line that has a heat of its own: gaskets and studs have none.</summary>
    public static IEnumerable<HeatUse> Of(LineDone line, ILookup<string, CertificateNoted> certificates)
    {
        foreach (var cut in line.Fabrication.Cuts)
            yield return Use(cut.Piece, "pipe", cut.Pipe.Size, cut.Pipe.Line.Schedule.Name, cut.Pipe.Line.Material, cut.Pipe.Id, line.Done.HeatOfPiece(cut.Piece));
        foreach (var component in line.Fabrication.Route.Components.Where(c => c is not Gasket))
        {
            var heat = line.Done.HeatOf(component.Id)?.Heat.Trim();
            yield return Use(component.Id, component.Name, component.Size, component.IsBySchedule && component.Line.Ends == FittingEnds.Butt ? component.Line.Schedule.Name : "", component.Item?.Material ?? "", component.Id, heat is { Length: > 0 } ? heat : null);
        }

        HeatUse Use(string part, string what, NominalSize size, string schedule, string material, string id, string? heat) =>
            new(line, part, what, size, schedule, material, line.Fabrication.SpoolOf.GetValueOrDefault(id, ""), heat, heat is null ? [] : [.. certificates[Key(heat)]]);
    }

    /// <summary>Where a certificate says another size, schedule or material than the part has that bears its heat.</summary>
    public static IEnumerable<Finding> Against(IEnumerable<HeatUse> uses)
    {
        foreach (var use in uses)
        {
            if (use.Certificates.Count == 0)
                continue;
            // A heat may be rolled to several sizes, each with its certificate: one that agrees is enough.
            var against = use.Certificates.Select(c => (c, Why: WhyNot(use, c))).ToList();
            if (against.Exists(a => a.Why.Count == 0))
                continue;
            var (certificate, why) = against[0];
            yield return new("heat-contradicts-certificate", Severity.Warn, $"{use.Line.Number} {use.Part}", default,
                $"{use.Part} of {use.Line.Number} bears heat {use.Heat}, and its certificate {certificate.Number} says {string.Join(", ", why)}.",
                "Look at the stamp on the steel and at the certificate. If the heat was read wrong, enter it anew; if the part is another one, it must not go on before somebody who may has decided.");
        }
    }

    private static List<string> WhyNot(HeatUse use, CertificateNoted certificate)
    {
        List<string> why = [];
        if (certificate.Size is { Length: > 0 } size && NominalSize.TryParse(size, out var said) && said != use.Size)
            why.Add($"NPS {said} where the part is NPS {use.Size}");
        if (certificate.Schedule is { Length: > 0 } schedule && use.Schedule.Length > 0 && !SameWord(schedule, use.Schedule))
            why.Add($"schedule {schedule} where the part is schedule {use.Schedule}");
        if (certificate.Material is { Length: > 0 } material && use.Material.Length > 0 && !SameMaterial(material, use.Material))
            why.Add($"{material} where the part is {use.Material}");
        return why;
    }

    // A106-B, ASTM A106 Gr. B, SA-106 grade B: letters and figures tell, not the way of writing.
    private static bool SameMaterial(string one, string other)
    {
        var (a, b) = (Plain(one), Plain(other));
        return a == b || a.Contains(b, StringComparison.Ordinal) || b.Contains(a, StringComparison.Ordinal);

        static string Plain(string text)
        {
            var plain = text.ToUpperInvariant().Replace("ASTM", "", StringComparison.Ordinal).Replace("ASME", "", StringComparison.Ordinal).Replace("GRADE", "", StringComparison.Ordinal).Replace("GR", "", StringComparison.Ordinal);
            plain = string.Concat(plain.Where(char.IsAsciiLetterOrDigit));
            return plain.StartsWith("SA", StringComparison.Ordinal) ? plain[1..] : plain;
        }
    }

    private static bool SameWord(string one, string other) => Key(one).TrimStart('S', 'C', 'H', ' ', '.').Equals(Key(other), StringComparison.Ordinal) || Key(one) == Key(other);

    private static string Key(string text) => text.Trim().ToUpperInvariant();
}
