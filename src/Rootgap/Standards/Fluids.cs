namespace Rootgap.Standards;

/// <summary>What is known of fluids: which metals they attack (the table <c>fluids</c>), and when steam condenses.</summary>
public static class Fluids
{
    /// <summary>A metal from its P-number on, and the temperature from which the fluid attacks it or cracks its welds, C.</summary>
    /// <param name="PNumber">Of ASME BPVC Section IX.</param>
    /// <param name="ByStressRelief">Whether stress relief of the welds is the answer; else the metal itself is.</param>
    public sealed record Limit(string PNumber, double Celsius, bool ByStressRelief, string Source);

    /// <summary>The limits of a fluid by the words in which a drawing names it; none where the table does not know it.</summary>
    public static IEnumerable<Limit> LimitsOf(string fluid) => StandardTable.Rows("fluids").Where(r => r.Attribute is "stress relief from" or "attacks from" && Names(r.Item, fluid))
        .Select(r => new Limit(r.Class, r.Figure, r.Attribute == "stress relief from", r.Source));

    /// <summary>A word for a material, as in bronze, that the fluid spoils and that a text names; null where it names none.</summary>
    public static string? SpoiledBy(string fluid, string text) => StandardTable.Rows("fluids").Where(r => r.Attribute == "spoils" && Names(r.Item, fluid))
        .SelectMany(r => r.Class.Split('/')).FirstOrDefault(w => Words(text).Contains(w, StringComparer.OrdinalIgnoreCase));

    private static bool Names(string words, string fluid) => Array.Exists(words.Split('/'), w => w.Contains(' ', StringComparison.Ordinal)
        ? fluid.Contains(w, StringComparison.OrdinalIgnoreCase) : Words(fluid).Contains(w, StringComparer.OrdinalIgnoreCase));

    private static string[] Words(string text) => text.Split([' ', ',', ';', '/', '(', ')', '-'], StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Above it there is no boiling: the critical pressure of water, bar above vacuum (IAPWS).</summary>
    public const double CriticalBar = 220.64;

    /// <summary>Temperature at which water boils and steam condenses, C: IAPWS-IF97, equation 31 with table 34.</summary>
    /// <param name="bar">Above vacuum, bar; from 0.00611 to 220.64.</param>
    public static double SteamCondenses(double bar)
    {
        double[] n = [0, 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3];
        var b = Math.Pow(bar / 10, 0.25);
        var e = (b * b) + (n[3] * b) + n[6];
        var f = (n[1] * b * b) + (n[4] * b) + n[7];
        var g = (n[2] * b * b) + (n[5] * b) + n[8];
        var d = 2 * g / (-f - Math.Sqrt((f * f) - (4 * e * g)));
        var sum = n[10] + d;
        return ((sum - Math.Sqrt((sum * sum) - (4 * (n[9] + (n[10] * d))))) / 2) - 273.15;
    }
}
