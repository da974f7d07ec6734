using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Papers;

/// <summary>Cautions that hang on what a line carries and is made of. They name the danger and refer to the site's procedure; they replace none (common practice).</summary>
public static class Hazards
{
    private static readonly (string[] Words, string Says)[] Fluids =
    [
        (["oxygen", "o2", "lox"], "Oxygen: oil, grease and dust burn in it. Every part is cleaned, seen clean and capped by the site's procedure for oxygen service; clean gloves, clean tools, no oil on threads or gaskets."),
        (["peroxide"], "Peroxide: it breaks up, and burns, on dirt, rust and copper. Cleaned and made passive by the site's procedure."),
        (["chlorine"], "Chlorine: poisonous; it eats wet steel and burns with oil. Cleaned, degreased and dried by the site's procedure."),
        (["hydrogen"], "Hydrogen: it leaks through the smallest way and burns unseen. Clean, dry and purged by the site's procedure."),
        (["h2s", "sour", "sulphide", "sulfide"], "Hydrogen sulphide: poisonous, and it dulls the sense of smell. Gas meter and breathing set by the site's procedure; hardness of welds by the code."),
        (["ammonia"], "Ammonia: poisonous, it burns eyes and lungs; no copper in it. Clean and dry by the site's procedure."),
        (["hydrofluoric", "hf"], "Hydrofluoric acid: a drop on the skin can kill. The site's procedure and its first aid before anybody opens anything."),
        (["acid", "sulphuric", "sulfuric", "nitric", "hydrochloric"], "Acid: it burns skin and eyes. Drained, flushed and proven by the site's procedure before it is opened."),
        (["caustic", "lye", "hydroxide"], "Caustic: it burns skin and eyes. Drained, flushed and proven by the site's procedure before it is opened."),
        (["methane", "propane", "butane", "lpg", "lng", "petrol", "gasoline", "naphtha", "diesel", "kerosene", "fuel", "gas oil", "crude"], "It burns: isolated, gas-free and tested by the site's permit before hot work; no spark where it may leak."),
        (["natural gas"], "It burns: isolated, gas-free and tested by the site's permit before hot work; no spark where it may leak."),
        (["nitrogen", "argon", "carbon dioxide", "co2"], "It takes the place of air without a smell: oxygen is read before anybody puts his head in."),
        (["steam", "condensate"], "Steam scalds: isolated, drained and cold by the site's permit before it is opened."),
        (["benzene", "cyanide", "phosgene", "toxic", "lethal"], "Poisonous: breathing sets and meters by the site's procedure before anything is opened."),
    ];

    /// <summary>At welds of stainless steel and other metals that are purged.</summary>
    public const string Purge = "Purged welds: oxygen is read before the arc and while welding; dams are counted in and counted out; nobody goes in, and no head either: the gas takes the place of air.";

    /// <summary>P-numbers that are welded with gas behind the root: austenitic, duplex, nickel, titanium (common practice).</summary>
    private static readonly string[] Purged = ["8", "10H", "10I", "41", "42", "43", "44", "45", "51", "52"];

    /// <summary>What is to be said of the fluid; empty where its name tells of no danger that is known here.</summary>
    public static IReadOnlyList<string> Of(Service service)
    {
        var fluid = $" {string.Join(' ', service.Fluid.ToLowerInvariant().Split([' ', ',', '.', ';', '(', ')', '/', '-'], StringSplitOptions.RemoveEmptyEntries))} ";
        return [.. Fluids.Where(f => f.Words.Any(w => fluid.Contains($" {w} ", StringComparison.Ordinal))).Select(f => f.Says).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Welds that are made with purge gas behind the root, of those given.</summary>
    public static IReadOnlyList<Joint> PurgedOf(Route route, IEnumerable<Joint> joints) =>
        [.. joints.Where(j => j.IsWeld && j.Kind != JointKind.Socket && j.Between.Select(route.PartOf).OfType<Part>().Any(p => Metals.PNumber(p.Material) is { } number && Purged.Contains(number)))];

    /// <summary>The purge caution with the welds it is about; null where there are none.</summary>
    public static string? PurgeAt(Route route, IEnumerable<Joint> joints) =>
        PurgedOf(route, joints) is { Count: > 0 } purged ? $"{string.Join(", ", purged.Take(12).Select(j => j.Id))}{(purged.Count > 12 ? " and others" : "")}: {Purge}" : null;
}
