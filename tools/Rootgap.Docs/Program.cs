using Rootgap.Docs;

// Writes what is made from the code: the schema and the reference pages. With --check nothing is written,
// and the exit code is 1 where a file differs from what the code says. With --licences it writes licences.txt, after a build.
var isCheck = args is ["--check"];
var isLicences = args is ["--licences"];
if (args.Length > 0 && !isCheck && !isLicences)
{
    Console.Error.WriteLine("Usage: dotnet run --project tools/Rootgap.Docs [-- --check | --licences]");
    return 64;
}

var root = RepositoryFolder.Find();
if (root is null)
{
    Console.Error.WriteLine("Rootgap.slnx was not found here or above: run this inside the repository.");
    return 3;
}

if (isLicences)
{
    var packages = Environment.GetEnvironmentVariable("NUGET_PACKAGES") ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
    File.WriteAllText(Path.Combine(root, Licences.Path), Licences.Text(root, packages));
    Console.WriteLine($"{Licences.Path} written");
    return 0;
}

var stale = 0;
foreach (var file in GeneratedFile.All())
{
    var path = Path.Combine(root, file.Path);
    if (File.Exists(path) && File.ReadAllText(path) == file.Text)
        continue;
    stale++;
    Console.WriteLine(isCheck ? $"{file.Path} is stale" : $"{file.Path} written");
    if (isCheck)
        continue;
    Directory.CreateDirectory(Path.GetDirectoryName(path)!);
    File.WriteAllText(path, file.Text);
}

foreach (var path in RepositoryFolder.RulePages(root).Where(p => !GeneratedFile.RulePages().Contains(p)))
{
    stale++;
    Console.WriteLine(isCheck ? $"{path} is about a rule that is gone" : $"{path} removed");
    if (!isCheck)
        File.Delete(Path.Combine(root, path));
}

if (stale == 0)
    Console.WriteLine("Schema and reference pages are fresh.");
else if (isCheck)
    Console.WriteLine("Run `dotnet run --project tools/Rootgap.Docs` and commit what it writes.");
return isCheck && stale > 0 ? 1 : 0;
