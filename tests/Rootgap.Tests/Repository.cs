using System.Runtime.CompilerServices;

namespace Rootgap.Tests;

/// <summary>Where the repository's own files are, for tests that read samples, schema and docs.</summary>
public static class Repository
{
    public static string Root { get; } = Find();

    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", ".."));
}
