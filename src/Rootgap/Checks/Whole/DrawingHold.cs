using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class DrawingHold : Rule
{
    private static readonly string[] Marks = ["ON HOLD", "TBC", "TBD", "TO BE CONFIRMED", "TO BE DETERMINED"];

    public override string Name => "drawing-hold";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A note, the title or a row of the list puts something on hold; a warning where a heat is still to be confirmed.";
    public override string Why => "What is on hold or still to be confirmed must not be cut (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (Mark(drawing.Title) is { } whole)
            yield return Found(drawing.Source, "title", $"The title says \"{whole}\".", "Get the hold lifted in writing before cutting, or accept this with the reason.", "It is cut, and the held figure changes.");
        foreach (var item in drawing.Materials)
        {
            if (Mark(item.What) is { } held || (item.Source.Text("note") is { } said && Mark(said) is { } it && (held = it) is not null))
                yield return Found(item.Source, "note", $"Item {item.Item}, {item.What}, is marked \"{held}\".", "Get the hold lifted in writing before it is bought or cut, or accept this with the reason.", "It is cut, and the held row changes.");
            if (Mark(item.Heat) is { } open)
                yield return Found(item.Source, "heat", $"The heat of item {item.Item}, {item.What}, is \"{open}\".", "Read it from the marking before the piece is cut.", "The piece cannot be traced.", Severity.Warn);
        }

        foreach (var run in drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.Source.Text("note") is { } note && Mark(note) is { } mark)
                    yield return Found(leg.Source, "note", $"The note of this leg says \"{mark}\".", "Get the hold lifted in writing before cutting, or accept this with the reason.", "It is cut, and the held figure changes.");
            }
        }
    }

    private static string? Mark(string text)
    {
        foreach (var mark in Marks)
        {
            if (HasWord(text, mark, StringComparison.OrdinalIgnoreCase))
                return mark.ToLowerInvariant();
        }

        // A draughtsman's HOLD is in capitals; "hold" in a sentence is an ordinary word.
        // A hold point is an inspection, and no hold.
        return HasWord(text, "HOLD", StringComparison.Ordinal) && !HasWord(text, "HOLD POINT", StringComparison.OrdinalIgnoreCase) ? "HOLD" : null;
    }

    private static bool HasWord(string text, string word, StringComparison how)
    {
        for (var at = text.IndexOf(word, how); at >= 0; at = text.IndexOf(word, at + 1, how))
        {
            var end = at + word.Length;
            if ((at == 0 || !char.IsLetterOrDigit(text[at - 1])) && (end == text.Length || !char.IsLetterOrDigit(text[end])))
                return true;
        }

        return false;
    }
}
