using System.Runtime.CompilerServices;

namespace Rootgap.App.Tests.Harness;

/// <summary>Where the repository's own files are.</summary>
public static class Repository
{
    public static string Root { get; } = Find();

    public static string At(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", ".."));
}
