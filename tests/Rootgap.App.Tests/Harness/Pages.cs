namespace Rootgap.App.Tests.Harness;

/// <summary>A page of the app, with a word that stands on it only when it has worked something out.</summary>
public sealed record AppPage(string Name, string Path, string Says);

/// <summary>Every page of the app, on the demo job's first drawing.</summary>
public static class Pages
{
    public const string Drawing = "chilled-supply.yaml";

    public static IReadOnlyList<AppPage> All { get; } =
    [
        new("job", "", "CHW-201"),
        new("settings", "settings", "entries"),
    ];
}
