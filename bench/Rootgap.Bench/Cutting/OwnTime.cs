using System.Diagnostics;

namespace Rootgap.Bench.Cutting;

/// <summary>The time this process has worked, not the time that has passed: on a machine that others use, too, figures stay comparable.</summary>
internal sealed class OwnTime : TimeProvider
{
    public static readonly OwnTime Clock = new();

    private static readonly Process Self = Process.GetCurrentProcess();

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp()
    {
        Self.Refresh();
        return Self.TotalProcessorTime.Ticks;
    }
}
