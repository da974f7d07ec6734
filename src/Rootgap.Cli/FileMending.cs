using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.Cli;

/// <summary>How far `check --fix` goes.</summary>
internal enum MendingReach
{
    None,

    /// <summary>The drawing and its shop file.</summary>
    Drawing,

    /// <summary>The material list too: it says what was bought, and is not changed unasked.</summary>
    List,
}

/// <summary>Writes the changes that findings offer into their files, each with a copy of the old file beside it. Nothing that is evidence of a mistake is written over: what another finding doubts, and what somebody has to decide, is left and told.</summary>
internal static class FileMending
{
    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>A file as it was and as it is written.</summary>
    public sealed record Written(string File, string Copy, byte[] Before, IReadOnlyList<Change> Made);

    /// <summary>A list of another kind than text, and the copy of it that has the changes.</summary>
    public sealed record Offered(string File, string Copy, IReadOnlyList<Change> Made);

    /// <summary>Makes the changes of a drawing's findings; those of a shop or material file beside it too. What is accepted stays.</summary>
    /// <param name="already">What was written before in this run: its copies are the old files, and no more are made.</param>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static List<Written> Mend(DrawingFile drawing, IReadOnlyList<Finding> findings, MendingReach reach, IReadOnlyList<Written> already)
    {
        var written = new List<Written>();
        foreach (var changes in findings.Where(f => f.Change is not null && WhyLeft(f, findings, reach) is null).Select(f => f.Change!).GroupBy(c => PathOf(drawing, c.At.File), StringComparer.Ordinal))
        {
            var before = File.ReadAllBytes(changes.Key);
            var hasMark = before.AsSpan().StartsWith(Encoding.UTF8.Preamble);
            string text;
            try
            {
                text = Strict.GetString(hasMark ? before.AsSpan(3) : before);
            }
            catch (DecoderFallbackException)
            {
                // Not UTF-8: what is not understood is not written back.
                continue;
            }

            var (mended, made) = Mending.Apply(text, changes);
            if (made.Count == 0)
                continue;
            var first = already.FirstOrDefault(w => w.File == changes.Key);
            var copy = first?.Copy ?? Free(changes.Key + ".old", "");
            if (first is null)
                File.Copy(changes.Key, copy);
            Write(changes.Key, hasMark ? [.. Encoding.UTF8.Preamble, .. Strict.GetBytes(mended)] : Strict.GetBytes(mended));
            written.Add(new(changes.Key, copy, first?.Before ?? before, made));
        }

        return written;
    }

    /// <summary>Writes another text into a file and keeps the old one beside it, whose name is returned; a byte order mark stays.</summary>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static string Keep(string file, string text)
    {
        var before = File.ReadAllBytes(file);
        var copy = Free(file + ".old", "");
        File.Copy(file, copy);
        Write(file, before.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? [.. Encoding.UTF8.Preamble, .. Strict.GetBytes(text.TrimStart('\uFEFF'))] : Strict.GetBytes(text));
        return copy;
    }

    /// <summary>Changed copies of lists that are kept as sheets. The list itself stays: the copy has its first sheet's rows and not its looks.</summary>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static List<Offered> OfferSheets(DrawingFile drawing, IReadOnlyList<Finding> findings)
    {
        var offered = new List<Offered>();
        foreach (var changes in findings.Where(f => f.InSheet is not null && WhyLeft(f, findings, MendingReach.List) is null).Select(f => f.InSheet!).GroupBy(c => PathOf(drawing, c.At.File), StringComparer.Ordinal))
        {
            var ending = Path.GetExtension(changes.Key);
            var copy = Free(Path.ChangeExtension(changes.Key, null) + ".changed", ending);
            var content = SheetCopy.With(changes.Key, File.ReadAllBytes(changes.Key), changes);
            Write(copy, content);
            offered.Add(new(changes.Key, copy, [.. changes]));
        }

        return offered;
    }

    /// <summary>Remedies that were not written, each with the reason.</summary>
    public static IEnumerable<(Change Change, string Why)> Left(IReadOnlyList<Finding> findings, MendingReach reach) =>
        from f in findings
        let change = f.Change ?? (reach == MendingReach.List ? null : f.InSheet)
        where change is not null && f.AcceptedBecause is null
        let why = WhyLeft(f, findings, reach)
        where why is not null
        select (change, why);

    /// <summary>Puts everything back as it was.</summary>
    public static void TakeBack(IReadOnlyList<Written> written)
    {
        foreach (var one in written)
        {
            if (!File.Exists(one.Copy))
                continue;
            Write(one.File, one.Before);
            File.Delete(one.Copy);
        }
    }

    /// <summary>Why a remedy is left to a person; null where it may be written.</summary>
    private static string? WhyLeft(Finding finding, IReadOnlyList<Finding> all, MendingReach reach)
    {
        if (finding.AcceptedBecause is not null)
            return "it is accepted";
        if ((finding.Change ?? finding.InSheet) is { IsJudgement: true })
            return "somebody wrote it, so somebody decides";
        // A row that is doubted from two sides: nobody knows which of them is wrong. While a file cannot be read, each error is a slip of its own.
        var other = all.FirstOrDefault(f => f.At == finding.At && f.Rule != finding.Rule && f is { AcceptedBecause: null, Severity: >= Severity.Warn } && !IsOfReading(f));
        if (other is not null && !IsOfReading(finding))
            return $"{other.Rule} doubts the same row";
        return reach < MendingReach.List && finding.At.Group == "materials" && !IsOfReading(finding)
            ? "the list says what was bought; `--fix list` changes it"
            : null;
    }

    /// <summary>An error of reading: a slip of the pen, mended by its own.</summary>
    public static bool IsOfReading(Finding finding) => finding.Rule is "unknown-key" or "unknown-word" or "unknown-name" or "wrong-type" or "missing-key" or "key-does-not-fit" or "impossible-value";

    private static void Write(string file, byte[] bytes) => OutputFile.Write(file, to => to.Write(bytes));

    private static string Free(string name, string ending)
    {
        var free = name + ending;
        for (var i = 2; File.Exists(free); i++)
            free = string.Create(CultureInfo.InvariantCulture, $"{name}{i}{ending}");
        return free;
    }

    private static string PathOf(DrawingFile drawing, string file) =>
        file == drawing.Name ? file : Path.Combine(Path.GetDirectoryName(Path.GetFullPath(drawing.Name))!, file);
}
