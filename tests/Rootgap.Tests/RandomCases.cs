using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace Rootgap.Tests;

/// <summary>
/// Laws that hold for whatever a generator gives. In the suite few cases are tried, ROOTGAP_TIMES=20 tries twenty times as many. A case that breaks a law is
/// printed with its seed; a line in seeds.csv keeps it, and it is tried first from then on.
/// </summary>
public static partial class RandomCases
{
    private static readonly long Factor = long.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_TIMES"), NumberStyles.None, CultureInfo.InvariantCulture, out var factor) ? Math.Max(1, factor) : 1;

    private static readonly ILookup<string, string> Kept = File.ReadLines(Repository.At("tests", "Rootgap.Tests", "seeds.csv"))
        .Skip(1).Select(l => l.Split(',')).ToLookup(l => l[0], l => l[1], StringComparer.Ordinal);

    /// <summary>How many cases a test goes through that counts over many: so many in the suite, ROOTGAP_TIMES times as many where that is set.</summary>
    public static int Many(int cases) => checked((int)(cases * Factor));

    /// <summary>The law holds for every case.</summary>
    /// <param name="iter">Cases that are tried in the suite.</param>
    /// <param name="threads">1 for a law that changes something of the thread; all cores otherwise.</param>
    /// <param name="test">The test's name, under which its seeds are kept.</param>
    public static void Holds<T>(this Gen<T> cases, Action<T> law, long iter = 100, int threads = -1, Func<T, string>? print = null, [CallerMemberName] string test = "", [CallerFilePath] string file = "")
    {
        var name = $"{Path.GetFileNameWithoutExtension(file)}.{test}";
        foreach (var seed in Kept[name])
            cases.Sample(law, seed: seed, iter: 1, threads: 1, print: print);
        try
        {
            cases.Sample(law, iter: iter * Factor, threads: threads, print: print);
        }
        catch (CsCheckException e) when (Seed().Match(e.Message) is { Success: true } seed)
        {
            throw new CsCheckException($"Mend the fault, and keep the case: add the line \"{name},{seed.Groups["seed"].Value}\" to tests/Rootgap.Tests/seeds.csv.\n{e.Message}", e);
        }
    }

    public static void Holds<T>(this Gen<T> cases, Func<T, bool> law, long iter = 100, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => { Assert.True(law(x)); }, iter, test: test, file: file);

    public static void Holds<T1, T2, T3>(this Gen<(T1, T2, T3)> cases, Func<T1, T2, T3, bool> law, long iter = 100, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => { Assert.True(law(x.Item1, x.Item2, x.Item3)); }, iter, test: test, file: file);

    public static void Holds<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> cases, Func<T1, T2, T3, T4, bool> law, long iter = 100, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => { Assert.True(law(x.Item1, x.Item2, x.Item3, x.Item4)); }, iter, test: test, file: file);

    public static void Holds<T1, T2>(this Gen<(T1, T2)> cases, Action<T1, T2> law, long iter = 100, int threads = -1, Func<(T1, T2), string>? print = null, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => law(x.Item1, x.Item2), iter, threads, print, test, file);

    public static void Holds<T1, T2, T3>(this Gen<(T1, T2, T3)> cases, Action<T1, T2, T3> law, long iter = 100, int threads = -1, Func<(T1, T2, T3), string>? print = null, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => law(x.Item1, x.Item2, x.Item3), iter, threads, print, test, file);

    public static void Holds<T1, T2, T3, T4>(this Gen<(T1, T2, T3, T4)> cases, Action<T1, T2, T3, T4> law, long iter = 100, int threads = -1, Func<(T1, T2, T3, T4), string>? print = null, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => law(x.Item1, x.Item2, x.Item3, x.Item4), iter, threads, print, test, file);

    public static void Holds<T1, T2, T3, T4, T5>(this Gen<(T1, T2, T3, T4, T5)> cases, Action<T1, T2, T3, T4, T5> law, long iter = 100, int threads = -1, Func<(T1, T2, T3, T4, T5), string>? print = null, [CallerMemberName] string test = "", [CallerFilePath] string file = "") =>
        cases.Holds(x => law(x.Item1, x.Item2, x.Item3, x.Item4, x.Item5), iter, threads, print, test, file);

    [GeneratedRegex("Set seed: \"(?<seed>[^\"]+)\"", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Seed();
}
