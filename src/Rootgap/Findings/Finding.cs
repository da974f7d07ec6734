namespace Rootgap.Findings;

/// <summary>How much a finding weighs: a note informs, a warning wants a look, a stop means that the drawing can't be built as drawn.</summary>
public enum Severity
{
    Note,
    Warn,
    Stop,
}

/// <summary>A stretch of a source file: line and columns count from 1; <see cref="EndColumn"/> is one past the last character.</summary>
/// <remarks>The default value, line 0, means "nowhere in particular".</remarks>
public readonly record struct Place(string File, int Line, int Column, int EndColumn)
{
    public bool IsKnown => Line > 0;
}

/// <summary>A mechanical remedy: one stretch of one line to be replaced. Applying it changes nothing else in the file.</summary>
/// <param name="At">What is replaced; an empty stretch inserts.</param>
/// <param name="NewText">What stands there afterwards.</param>
/// <param name="Says">What the change does, as a foreman would say it.</param>
public sealed record Change(Place At, string NewText, string Says)
{
    /// <summary>What is replaced is a whole entry, <c>key: value</c>: the comma or the line that holds it goes too.</summary>
    public bool TakesOutEntry { get; init; }

    /// <summary>It takes away or overrules something that somebody wrote: offered to a person who looks, and never written unasked.</summary>
    public bool IsJudgement { get; init; }
}

/// <summary>Something that a person should know about a drawing, beside the row that causes it.</summary>
/// <param name="Rule">Words with hyphens; also the name of its page in the docs.</param>
/// <param name="At">The row that it speaks of.</param>
/// <param name="Message">What is wrong, with figures.</param>
/// <param name="Remedy">What to do.</param>
public sealed record Finding(string Rule, Severity Severity, RowPath At, Place Where, string Message, string Remedy)
{
    /// <summary>What follows if nobody notices; empty where the message says it.</summary>
    public string Otherwise { get; init; } = "";

    /// <summary>The remedy as a change to the file, where it is mechanical.</summary>
    public Change? Change { get; init; }

    /// <summary>As <see cref="Change"/> where the row stands in a list that is no text: line and column are the cell's row and column, from 1.</summary>
    public Change? InSheet { get; init; }

    /// <summary>The reason with which the drawing accepts this finding; null where it does not.</summary>
    public string? AcceptedBecause { get; init; }
}
