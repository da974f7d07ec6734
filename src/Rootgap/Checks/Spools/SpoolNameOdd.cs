using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A spool's name whose letters are turned, or one of them another.</summary>
internal sealed class SpoolNameOdd : Rule
{
    /// <summary>So many others must agree.</summary>
    private const int Others = 2;

    public override string Name => "spool-name-odd";
    public override Severity Severity => Severity.Warn;
    public override string Says => "All spools of the drawing but one have names that begin alike, and that one begins with the same letters and figures in another order, or with one of them changed; a note where one spool is named with a number and all others are numbered along the line.";
    public override string Why => "Pieces and tags are marked with the name, and the spool is sought under the office's (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var names = NamedPart.AllOf(fabrication.Route).DistinctBy(n => n.Name).Select(n => (n.Name, n.Row, Stem: Stem(n.Name))).ToList();
        if (names is [{ Name: var number, Row: var row }] && number.All(char.IsAsciiDigit) && fabrication.Spools.Count > Others)
            yield return Found(row, "spool", $"This part alone names its spool, {number}, and all others are numbered along the line.", "Look whether the number is meant; name the others, too, or leave it out.", "The spools' numbers move by it.", Severity.Note);
        var groups = names.GroupBy(n => n.Stem, StringComparer.OrdinalIgnoreCase).OrderByDescending(g => g.Count()).ToList();
        if (groups is not [var most, var few] || few.Count() != 1 || most.Count() < Others || !IsSlip(most.Key.ToUpperInvariant(), few.Key.ToUpperInvariant()))
            yield break;
        var odd = few.First();
        yield return Found(odd.Row, "spool", $"This spool is named \"{odd.Name}\", and the other{(most.Count() == 1 ? " is" : "s are")} {string.Join(", ", most.Take(3).Select(n => $"\"{n.Name}\""))}{(most.Count() > 3 ? " and so on" : "")}.", "Look whether letters or figures were turned or misread.", "The spool is marked with a name that nobody seeks.");
    }

    /// <summary>A name before its last figure or letter: SP of SP-1, CA-220 of CA-220-A.</summary>
    private static string Stem(string name) => name.LastIndexOfAny(['-', '_', '/', '.', ' ']) is > 0 and var at ? name[..at] : name.TrimEnd("0123456789".ToCharArray());

    /// <summary>Of two letters at least: single ones tell areas or sheets apart.</summary>
    private static bool IsSlip(string usual, string odd) =>
        usual.Length > 1 && usual.Length == odd.Length && (usual.Order().SequenceEqual(odd.Order()) || usual.Zip(odd).Count(p => p.First != p.Second) == 1);
}
