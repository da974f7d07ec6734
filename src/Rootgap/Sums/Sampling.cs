namespace Rootgap.Sums;

/// <summary>How many of a welder's welds are examined, and how many more each reject asks for (progressive sampling). The code in force and the inspector decide.</summary>
public static class Sampling
{
    /// <summary>So many more of the same kind and the same welder's does a reject ask for.</summary>
    public const int MoreForEach = 2;

    /// <summary>Steps in which rejects ask for more welds; a reject among the last of these asks for all that the sampling stands for.</summary>
    public const int Steps = 2;

    public const string ShareSource = "each welder's work, the share rounded up, at least one: ASME B31.3 341.4.1 asks for the work of each welder";
    public const string Source = "ASME B31.3 341.3.4, progressive sampling";

    /// <summary>So many of n welds are drawn at least: the share in percent, rounded up, and at least one.</summary>
    public static int CountOf(double share, int n) => n == 0 ? 0 : Math.Clamp((int)Math.Ceiling((share * n / 100) - 1e-9), 1, n);

    /// <summary>So many more are examined for rejects in one step.</summary>
    /// <param name="step">0 for the share, 1 for what its rejects asked for, 2 for what the rejects of these asked for.</param>
    /// <param name="left">Welds that are not drawn yet.</param>
    public static int More(int step, int rejected, int left) => rejected == 0 ? 0 : step >= Steps ? left : Math.Min(left, MoreForEach * rejected);
}
