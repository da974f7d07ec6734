using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Two rows that a part could be, and the drawing does not say which.</summary>
internal sealed class ItemAmbiguous : Rule
{
    public override string Name => "item-ambiguous";
    public override Severity Severity => Severity.Note;
    public override string Says => "Two rows of the material list are alike in kind, size and rating, and the drawing does not state the item.";
    public override string Why => "The program takes the first; heats and materials may then be put to the wrong part (common practice: state `item:` where the list has two).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var rows = fabrication.Materials;
        for (var i = 1; i < rows.Count; i++)
        {
            if (rows[i].Item is not { } item || item.Words.Ware is Ware.Other or Ware.Support)
                continue;
            for (var j = 0; j < i; j++)
            {
                if (rows[j] is not { Item: { } first } || !(rows[j].IsGuess || rows[i].IsGuess) || !Alike.Are(first, item))
                    continue;
                yield return Found(item.Source, "item", Say($"Items {first.Item} and {item.Item} are both {item.What}{(item.Size.IsNone ? "" : " NPS " + item.Size)}: which is which was guessed."), "State `item:` on the legs.");
                break;
            }
        }
    }
}
