using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Studs of two grades on one line.</summary>
internal sealed class StudGradesMixed : Rule
{
    public override string Name => "stud-grades-mixed";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The studs listed for one line are of two grades, one row against all others; a note where there are but two rows, neither of A307.";
    public override string Why => "A line has one bolting specification; a row with another grade is mostly a row copied from another list, and the wrong stud rusts or yields (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var studs = fabrication.Materials.Where(r => r is { Item: { Words.Ware: Ware.StudBolt, Material.Length: > 0 }, UsedBy.Count: > 0 }).ToList();
        var lines = studs.SelectMany(r => r.UsedBy.Select(Joint).Where(m => m.Length > 0)).Distinct(StringComparer.OrdinalIgnoreCase).Count();
        if (studs.Count < 2 || lines > 1)
            yield break;
        var grades = studs.GroupBy(r => Metals.Plain(r.Item!.Material)).OrderByDescending(g => g.Count()).ToList();
        if (grades.Count != 2 || grades[1].Count() != 1)
            yield break;
        // Which of two is wrong the grade may say: machine bolts of low strength are hardly the line's.
        var (odd, others) = grades[0].Count() == 1 && grades[0].Key.StartsWith("A307", StringComparison.Ordinal) ? (grades[0].First().Item!, grades[1]) : (grades[1].First().Item!, grades[0]);
        yield return Found(odd.Source, "material", $"Item {odd.Item}, {odd.What}, is of {odd.Material}; the other studs of this line are of {others.First().Item!.Material}.", "See the bolting of the line's specification.", "The wrong stud rusts, or yields when it is tightened.",
            studs.Count == 2 && !grades.Any(g => g.Key.StartsWith("A307", StringComparison.Ordinal)) ? Severity.Note : null);

        string Joint(string id) => fabrication.Bolting.FirstOrDefault(b => b.Joint.Id == id)?.Joint is { } joint ? fabrication.Route.PartOf(joint.Between[0])?.Line.Material ?? "" : "";
    }
}
