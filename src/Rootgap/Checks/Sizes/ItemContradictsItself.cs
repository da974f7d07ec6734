using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

internal sealed class ItemContradictsItself : Rule
{
    private static readonly string[] Classes = ["150", "300", "400", "600", "900", "1500", "2500"];

    public override string Name => "item-contradicts-itself";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The words of a material row name another class or schedule than its column.";
    public override string Why => "The purchaser reads one of the two (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var item in fabrication.Route.Drawing.Materials)
        {
            if (item.Class.Length == 0 && item.Schedule.Length == 0)
                continue;
            var words = item.What.Split([' ', ',', ';', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
            for (var i = 0; i < words.Length; i++)
            {
                var word = words[i];
                var number = word.TrimEnd('#');
                if (Array.IndexOf(Classes, number) >= 0 && Array.IndexOf(Classes, item.Class) >= 0 && number != item.Class && IsAfter(words, i, "class", "cl", "cl."))
                    yield return Found(item.Source, "class", FormattableString.Invariant($"Item {item.Item} is \"{item.What}\", and its class column says {item.Class}."), "Mend one of the two.", "The other one is ordered.");
                if (item.Schedule.Length > 0 && Pipes.ScheduleName(word) is { } said && Pipes.ScheduleName(item.Schedule) is { } column && said != column && IsAfter(words, i, "sch", "sch.", "schedule"))
                    yield return Found(item.Source, "schedule", FormattableString.Invariant($"Item {item.Item} is \"{item.What}\", and its schedule column says {item.Schedule}."), "Mend one of the two.", "The other one is ordered.");
            }
        }
    }

    /// <summary>A bare number in the words may be anything: it counts after its own word, or with its sign.</summary>
    private static bool IsAfter(string[] words, int i, params ReadOnlySpan<string> names)
    {
        if (words[i].EndsWith('#'))
            return true;
        foreach (var name in names)
        {
            if (i > 0 && words[i - 1].Equals(name, StringComparison.OrdinalIgnoreCase))
                return true;
        }

        return false;
    }
}
