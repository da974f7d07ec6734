using System.Globalization;
using Rootgap.Mutations;

// Breaks the engine in small ways, one at a time, and sees whether a test fails. What no test notices is listed: there a test is missing, or the change means nothing.
// All changes stand in one build, each behind a switch, so that one build serves them all.
const string Usage = """
    Usage: dotnet run --project tools/Rootgap.Mutations -c Release -- [--folders Routes,FitUp] [--count 70] [--seed 1] [--list FILE] [--work FOLDER] [--tests quick]
    --folders  the folders of src/Rootgap that are changed; Routes,Fabrication,FitUp,Cutting,Checks,Sheets where not given
    --count    how many changes are drawn, shared evenly among the folders
    --seed     which ones
    --list     changes written down instead of drawn: a line each, FILE, expression and what stands in its place, with tabs between
    --work     where the copy of the repository goes; a temporary folder where not given
    --tests    quick leaves the slow tests out: what they alone would see is said to survive
    """;
string Option(string name, string otherwise) => Array.IndexOf(args, name) is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : otherwise;
string[] known = ["--folders", "--count", "--seed", "--list", "--work", "--tests"];
if (args.Length % 2 != 0 || args.Where((_, i) => i % 2 == 0).Any(a => !known.Contains(a, StringComparer.Ordinal))
    || !int.TryParse(Option("--count", "70"), NumberStyles.None, CultureInfo.InvariantCulture, out var count) || !int.TryParse(Option("--seed", "1"), NumberStyles.None, CultureInfo.InvariantCulture, out var seed))
{
    Console.Error.WriteLine(Usage);
    return 64;
}

var root = Path.GetFullPath(".");
if (!File.Exists(Path.Combine(root, "Rootgap.slnx")))
{
    Console.Error.WriteLine("Rootgap.slnx is not here: run this in the repository's own folder.");
    return 3;
}

var folders = Option("--folders", "Routes,Fabrication,FitUp,Cutting,Checks,Sheets").Split(',');
var list = Option("--list", "");
var trial = new Trial(root, Option("--work", Path.Combine(Path.GetTempPath(), "rootgap-mutations")), Option("--tests", "") == "quick");
var mutations = list.Length > 0
    ? File.ReadLines(list).Where(l => l.Length > 0 && l[0] != '#').Select(l => l.Split('\t')).Select(p => Mutation.Named(p[0], File.ReadAllText(Path.Combine(root, p[0])), p[1], p[2])).ToList()
    : Draw();
mutations = trial.Build(mutations);
for (var i = 0; i < mutations.Count; i++)
    Console.WriteLine($"         {i + 1} {mutations[i]}");
var slowest = trial.Whole();
Console.WriteLine($"{mutations.Count} changes; unchanged, the tests pass in {slowest.TotalSeconds:0} s.");
var survivors = mutations.ToList();
for (var turn = 0; turn < trial.Turns; turn++)
{
    Console.WriteLine($"turn {turn + 1}: {survivors.Count} changes are left");
    foreach (var one in survivors.ToList())
    {
        var number = mutations.IndexOf(one) + 1;
        var killer = trial.Killer(number, one, slowest, turn);
        Console.WriteLine($"{(killer is null ? "left    " : "killed  ")} {number} {one}{(killer is null ? "" : $"   [{killer}]")}");
        if (killer is not null)
            survivors.Remove(one);
    }
}

foreach (var one in survivors)
    Console.WriteLine($"SURVIVES {mutations.IndexOf(one) + 1} {one}");
Console.WriteLine($"{mutations.Count - survivors.Count} of {mutations.Count} killed");
foreach (var folder in mutations.GroupBy(m => m.File.Split('/')[2], StringComparer.Ordinal))
    Console.WriteLine($"  {folder.Key}: {folder.Count(m => !survivors.Contains(m))} of {folder.Count()}");
return survivors.Count == 0 ? 0 : 1;

List<Mutation> Draw()
{
    var chance = new Random(seed);
    var drawn = new List<Mutation>();
    foreach (var folder in folders)
    {
        var all = Directory.EnumerateFiles(Path.Combine(root, "src", "Rootgap", folder), "*.cs", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .SelectMany(f => Mutation.Of(Path.GetRelativePath(root, f).Replace('\\', '/'), File.ReadAllText(f))).ToArray();
        chance.Shuffle(all);
        var share = (count + folders.Length - 1) / folders.Length;
        foreach (var one in all)
        {
            // No two in one place: a change inside another could not be built beside it.
            if (share > 0 && !drawn.Exists(d => d.File == one.File && (d.Line == one.Line || d.Span.OverlapsWith(one.Span))))
            {
                drawn.Add(one);
                share--;
            }
        }
    }

    return drawn;
}
