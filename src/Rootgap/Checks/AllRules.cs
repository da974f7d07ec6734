namespace Rootgap.Checks;

/// <summary>The list of rules, one line each.</summary>
internal static class AllRules
{
    public static readonly IReadOnlyList<Rule> List =
    [
        new LegTooShort(),
        new PipeShort(),
        new PieceLongerThanStock(),
    ];
}
