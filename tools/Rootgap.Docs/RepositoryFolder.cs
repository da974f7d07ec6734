namespace Rootgap.Docs;

/// <summary>Finds the repository from the folder in which the tool was started.</summary>
internal static class RepositoryFolder
{
    public static string? Find()
    {
        for (var folder = new DirectoryInfo(Directory.GetCurrentDirectory()); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Rootgap.slnx")))
                return folder.FullName;
        }

        return null;
    }

    /// <summary>The pages in docs/rules, as paths from the root.</summary>
    public static IEnumerable<string> RulePages(string root)
    {
        var folder = Path.Combine(root, "docs", "rules");
        return Directory.Exists(folder) ? Directory.EnumerateFiles(folder, "*.md").Select(f => "docs/rules/" + Path.GetFileName(f)).Order(StringComparer.Ordinal) : [];
    }
}
