using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;

namespace Rootgap.Docs;

/// <summary>A work of others that goes out with the program.</summary>
internal sealed record ShippedWork(string Name, string Version, bool IsPackage);

/// <summary>Makes licences.txt: what goes out with the program, whose it is, and under which licence. The works are those of the lock files, their notices those that lie in the packages.</summary>
internal static class Licences
{
    public const string Path = "licences.txt";

    /// <summary>Used while building, or a part of .NET itself in the version of whoever builds: named with .NET.</summary>
    private static readonly string[] BuildOnly = ["Meziantou.Analyzer", "Microsoft.AspNetCore.App.Internal.Assets", "Microsoft.AspNetCore.Components.Analyzers", "Microsoft.CodeAnalysis.BannedApiAnalyzers", "Microsoft.NET.ILLink.Tasks", "Microsoft.NET.Sdk.WebAssembly.Pack"];

    /// <summary>Works of third parties that go out inside a module, with the file of its licence there.</summary>
    private static readonly (string Of, string What, string File)[] PartsOfModules =
    [
        ("pdfjs-dist", "JBIG2 decoder", "wasm/LICENSE_JBIG2"),
        ("pdfjs-dist", "JPEG 2000 decoder", "wasm/LICENSE_OPENJPEG"),
        ("pdfjs-dist", "symbol fonts", "standard_fonts/LICENSE_FOXIT"),
    ];

    private const string Rule = "\n--------------------------------------------------------------------------------\n\n";

    /// <summary>What the lock files of the program's parts name, in order of name.</summary>
    public static IReadOnlyList<ShippedWork> Works(string root)
    {
        var works = new SortedDictionary<string, ShippedWork>(StringComparer.OrdinalIgnoreCase);
        foreach (var file in Directory.EnumerateFiles(System.IO.Path.Combine(root, "src"), "packages.lock.json", SearchOption.AllDirectories).Where(f => !f.Contains("node_modules", StringComparison.Ordinal)))
        {
            using var json = JsonDocument.Parse(File.ReadAllBytes(file));
            foreach (var package in json.RootElement.GetProperty("dependencies").EnumerateObject().SelectMany(f => f.Value.EnumerateObject()))
            {
                if (package.Value.TryGetProperty("resolved", out var version) && !BuildOnly.Contains(package.Name, StringComparer.OrdinalIgnoreCase))
                    works[$"{package.Name} {version.GetString()}"] = new(package.Name, version.GetString()!, IsPackage: true);
            }
        }

        using var npm = JsonDocument.Parse(File.ReadAllBytes(System.IO.Path.Combine(root, "src", "Rootgap.App", "package-lock.json")));
        foreach (var module in npm.RootElement.GetProperty("packages").EnumerateObject().Where(m => m.Name.Length > 0 && !m.Value.TryGetProperty("dev", out _) && !m.Value.TryGetProperty("optional", out _)))
        {
            var name = module.Name[(module.Name.LastIndexOf("node_modules/", StringComparison.Ordinal) + "node_modules/".Length)..];
            works[name] = new(name, module.Value.GetProperty("version").GetString()!, IsPackage: false);
        }

        return [.. works.Values];
    }

    /// <summary>The line that names a work in the file.</summary>
    public static string Title(ShippedWork work) => $"{work.Name} {work.Version}";

    /// <summary>The whole file.</summary>
    /// <param name="packages">Where the packages lie that a restore has fetched.</param>
    /// <exception cref="IOException">A package, or the licence of one, is not there: restore and build first.</exception>
    public static string Text(string root, string packages)
    {
        var text = new StringBuilder("Rootgap goes out with these works of others, each under its own licence. Its own is in the file LICENSE.\nMade by tools/Rootgap.Docs; the licences' words and the notices follow the list.\n");
        var used = new SortedSet<string>(StringComparer.Ordinal);
        var notices = new List<(string Of, string Words)>();
        foreach (var work in Works(root))
        {
            var (licence, copyright) = work.IsPackage ? Package(packages, work, notices) : Module(root, work, notices);
            used.Add(licence);
            text.Append(CultureInfo.InvariantCulture, $"\n{Title(work)}\n    {copyright}\n    licence: {licence}\n");
        }

        text.Append("\n.NET, its runtime and libraries\n    Copyright (c) .NET Foundation and Contributors\n    licence: MIT\n");
        text.Append("\nDejaVu Sans Condensed 2.37, with fewer signs\n    Copyright (c) 2003 by Bitstream, Inc.; Copyright (c) 2006 by Tavmjong Bah; DejaVu changes are in the public domain\n    licence: DejaVu Fonts\n");
        foreach (var licence in used)
            text.Append(Rule).Append(CultureInfo.InvariantCulture, $"Licence {licence}\n\n").Append(Words(root, licence));
        text.Append(Rule).Append("Licence DejaVu Fonts\n\n").Append(Plain(File.ReadAllText(System.IO.Path.Combine(root, "src", "Rootgap", "Sheets", "Fonts", "LICENSE"))));
        foreach (var (of, words) in notices)
            text.Append(Rule).Append(CultureInfo.InvariantCulture, $"Notices of {of}\n\n").Append(words);
        return text.ToString();
    }

    private static (string Licence, string Copyright) Package(string packages, ShippedWork work, List<(string Of, string Words)> notices)
    {
        var folder = System.IO.Path.Combine(packages, work.Name.ToLowerInvariant(), work.Version);
        var file = Directory.Exists(folder) ? Directory.EnumerateFiles(folder, "*.nuspec").FirstOrDefault() : null;
        var metadata = XDocument.Load(file ?? throw new IOException($"{folder} is not there: run `dotnet restore` first.")).Descendants().First(e => e.Name.LocalName == "metadata");
        string Value(string name) => metadata.Elements().FirstOrDefault(e => e.Name.LocalName == name)?.Value.ReplaceLineEndings(" ").Trim() ?? "";
        foreach (var notice in Directory.EnumerateFiles(folder).Where(f => System.IO.Path.GetFileName(f).StartsWith("THIRD-PARTY-NOTICES", StringComparison.OrdinalIgnoreCase)).Select(f => Plain(File.ReadAllText(f))))
        {
            if (!notices.Contains((".NET", notice)))
                notices.Add((".NET", notice));
        }

        var copyright = Value("copyright");
        return (Value("license"), copyright.Contains("opyright", StringComparison.Ordinal) || copyright.StartsWith('©') ? copyright : $"Copyright (c) {(copyright.Length > 0 ? copyright : Value("authors"))}");
    }

    private static (string Licence, string Copyright) Module(string root, ShippedWork work, List<(string Of, string Words)> notices)
    {
        var folder = System.IO.Path.Combine(root, "src", "Rootgap.App", "node_modules", work.Name);
        if (!Directory.Exists(folder))
            throw new IOException($"{folder} is not there: build the app first.");
        using var about = JsonDocument.Parse(File.ReadAllBytes(System.IO.Path.Combine(folder, "package.json")));
        foreach (var part in PartsOfModules.Where(p => p.Of == work.Name))
            notices.Add(($"{work.Name}: {part.What}", Plain(File.ReadAllText(System.IO.Path.Combine([folder, .. part.File.Split('/')])))));
        // Most say whose they are in their licence; where that is the bare licence, the works of it that go out do.
        var says = (string[])[System.IO.Path.Combine(folder, "LICENSE"), .. Directory.EnumerateFiles(folder, "LICENSE_" + work.Name.Split('-')[0].ToUpperInvariant() + "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
        return (about.RootElement.GetProperty("license").GetString()!, says.SelectMany(File.ReadLines).First(l => l.StartsWith("Copyright", StringComparison.Ordinal)).Trim());
    }

    private static string Words(string root, string licence)
    {
        var file = System.IO.Path.Combine(root, "tools", "Rootgap.Docs", "Licences", licence + ".txt");
        return File.Exists(file) ? Plain(File.ReadAllText(file)) : throw new IOException($"There are no words for the licence {licence}: write them to {file}.");
    }

    private static string Plain(string text) => text.TrimStart('\ufeff').ReplaceLineEndings("\n").Trim('\n') + "\n";
}
