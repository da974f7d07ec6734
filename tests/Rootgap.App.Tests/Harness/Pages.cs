using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.App.Tests.Harness;

/// <summary>A page of the app, with a word that stands on it only when it has worked something out.</summary>
public sealed record AppPage(string Name, string Path, string Says);

/// <summary>Every page of the app, on the demo job's first drawing.</summary>
public static class Pages
{
    /// <summary>The demo's first drawing, by name.</summary>
    public const string Drawing = "chilled-supply.yaml";

    /// <summary>A sample of the demo job as the engine works it out on this machine.</summary>
    public static Packet Sample(string file = Drawing) => Packet.Of(DrawingReader.Read(Text(file), file, beside => File.ReadAllBytes(Repository.At("samples", "hatchery", beside))).Drawing!);

    public static string Text(string file) => File.ReadAllText(Repository.At("samples", "hatchery", file));

    /// <summary>Its first spool, and a weld of that spool that has readings.</summary>
    public static string Spool { get; } = Sample().Fabrication.Spools[0].Name;

    public static string Weld { get; } = Sample().Fabrication.Spools[0].Joints.First(j => j.IsWeld).Id;

    public static string Fit => $"fit/{Weld}/{Drawing}";

    public static IReadOnlyList<AppPage> All { get; } =
    [
        new("job", "", "still on paper"),
        new("drawing", "drawing/" + Drawing, "Drawing only"),
        new("materials", "materials/" + Drawing, "CHW-201"),
        new("spools", "spools/" + Drawing, "Pieces cut"),
        new("spool", $"spool/{Spool}/{Drawing}", "Pieces to cut"),
        new("fit", Fit, "What to read"),
        new("final", $"final/{Spool}/{Drawing}", "What it says"),
        new("split", "split/" + Drawing, "Tap a place"),
        new("forecast", "forecast/" + Drawing, "extra 100"),
        new("order", "order/" + Drawing, "Should be"),
        new("survey", "survey/" + Drawing, "Read next"),
        new("changes", "changes/" + Drawing, "touched"),
        new("versions", "versions/" + Drawing, "first written"),
        new("cutting", "cutting", "pieces of"),
        new("packet", "packet", "CHW-201"),
        new("settings", "settings", "entries"),
        new("waiting", "waiting", "Nothing waits"),
        new("people", "people", "Nobody is named yet"),
        new("enrol", "enrol", "Write the code"),
        new("jobs", "jobs", "Of the shop"),
    ];
}
