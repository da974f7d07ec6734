namespace Rootgap.Findings;

/// <summary>A fault of the program itself, told beside everything else: it costs the rule, the sheet or the drawing it stands in, and nothing more.</summary>
public static class ProgramFault
{
    /// <summary>The rule's name under which it is told.</summary>
    public const string Rule = "fault-in-program";

    /// <summary>Whether an exception is a fault of ours that can be walled in: not a file's, not somebody's wish to stop, not the machine's end.</summary>
    public static bool IsOne(Exception e) =>
        e is not (OperationCanceledException or OutOfMemoryException or InsufficientExecutionStackException or IOException or UnauthorizedAccessException);

    /// <summary>What an exception says, in one line.</summary>
    public static string Words(Exception e) => $"{e.GetType().Name}: {e.Message.ReplaceLineEndings(" ")}";

    /// <param name="what">What could not be done, as the start of a sentence: "The cut list could not be drawn".</param>
    /// <param name="words">What the exception said: <see cref="Words"/>.</param>
    /// <param name="byHand">What the reader can do in the program's place.</param>
    /// <param name="at">Path of the row, where one is meant.</param>
    public static Finding Of(string what, string words, string byHand, RowPath at = default, Place where = default, Severity severity = Severity.Stop) =>
        new(Rule, severity, at, where, $"{what}: a fault in the program, not in the drawing ({words}).", $"{byHand} Send the drawing file with this message to whoever looks after the program.");
}
