namespace Rootgap.Papers;

/// <summary>
/// The generator by which welds are drawn: SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA 2014; constants of
/// Stafford's variant 13, as in Java's SplittableRandom). Sixty-four bits of state, begun with the seed; anybody can repeat a draw with a few lines of code.
/// </summary>
public sealed class DrawByChance(ulong state)
{
    private ulong state = state;

    /// <summary>The generator of a round of a lot's draws.</summary>
    public static DrawByChance Of(uint seed, int round) => new(seed + ((ulong)round << 32));

    /// <summary>The next 64 bits.</summary>
    public ulong Next()
    {
        unchecked
        {
            state += 0x9e3779b97f4a7c15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
            z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
            return z ^ (z >> 31);
        }
    }

    /// <summary>From 0 to below 1: the upper 53 bits of the next 64.</summary>
    public double NextShare() => (Next() >> 11) * (1.0 / (1UL << 53));

    /// <summary>One of so many, from 0.</summary>
    public int Among(int count) => Math.Min(count - 1, (int)(NextShare() * count));
}
