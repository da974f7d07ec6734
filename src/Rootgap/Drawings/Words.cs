namespace Rootgap.Drawings;

/// <summary>The drawing file's words for values that sheets and packets repeat.</summary>
public static class Words
{
    /// <summary>A word with its article: a tee, an outlet.</summary>
    /// <param name="word">One thing in words; not the name of several.</param>
    /// <param name="capital">It begins a sentence.</param>
    public static string A(string word, bool capital = false) => (capital ? "A" : "a") + (word.Length > 0 && "aeiou".Contains(word[0], StringComparison.OrdinalIgnoreCase) ? "n " : " ") + word;

    public static string Of(WeldPlace place) => FileWords.Welds[(int)place];

    public static string Of(FlangeKind kind) => FileWords.FlangeKinds[(int)kind];

    public static string Of(Facing facing) => FileWords.Facings[(int)facing];

    public static string Of(ValveKind kind) => FileWords.ValveKinds[(int)kind];
}
