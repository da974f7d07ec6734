namespace Rootgap.Drawings;

/// <summary>Legs that somebody keeps to use again, such as a pump's suction or a control set: a drawing below the key <c>of</c>, so that no job takes the file for a drawing.</summary>
/// <param name="Name">As whoever made it calls it.</param>
/// <param name="Of">Its legs, as the first run of a drawing; the runs that leave them follow.</param>
public sealed record Template(string Name, DrawingText Of)
{
    /// <summary>Folder of a job in which templates are kept.</summary>
    public const string Folder = "templates/";

    private const string Begins = "template: ", Below = "of:";

    /// <summary>Path in the job: the name in letters, digits and hyphens.</summary>
    public static string PathOf(string name)
    {
        var plain = string.Concat(name.Trim().ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')).Trim('-');
        return Folder + (plain.Length > 0 ? plain : "template") + ".yaml";
    }

    /// <summary>The file's text.</summary>
    public string Written() => $"{Begins}{YamlWriting.Word(Name.Trim(), inFlow: false)}\n{Below}\n{string.Concat(Of.Text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n').Select(l => l.Length > 0 ? $"  {l}\n" : "\n"))}";

    /// <summary>A template's file; null where it is none.</summary>
    public static Template? Read(string text, string path)
    {
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        var below = Array.IndexOf(lines, Below);
        if (below < 1 || !lines[0].StartsWith(Begins, StringComparison.Ordinal))
            return null;
        var of = DrawingText.Of(string.Join('\n', lines.Skip(below + 1).Select(l => l.StartsWith("  ", StringComparison.Ordinal) ? l[2..] : l)), path);
        return of.IsYaml && of.Runs.Count > 0 ? new(lines[0][Begins.Length..].Trim().Trim('"', '\''), of) : null;
    }
}
