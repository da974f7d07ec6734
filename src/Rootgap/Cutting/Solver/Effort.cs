namespace Rootgap.Cutting.Solver;

/// <summary>How long the search may go on: a time limit read from a clock that the caller gives, and a stop signal.</summary>
internal sealed class Effort
{
    private readonly TimeProvider? clock;
    private readonly long start;
    private readonly TimeSpan limit;
    private readonly CancellationToken stop;

    public Effort(TimeProvider? clock, TimeSpan limit, CancellationToken stop)
    {
        this.clock = clock;
        this.limit = limit;
        this.stop = stop;
        start = clock?.GetTimestamp() ?? 0;
    }

    /// <summary>No limit but the work itself.</summary>
    public static Effort Unlimited { get; } = new(null, TimeSpan.MaxValue, CancellationToken.None);

    /// <summary>None: only what costs nothing.</summary>
    public static Effort None { get; } = new(null, TimeSpan.Zero, new CancellationToken(canceled: true));

    public bool HasClock => clock is not null;

    public TimeSpan Elapsed => clock is null ? TimeSpan.Zero : clock.GetElapsedTime(start);

    public TimeSpan Left => clock is null ? TimeSpan.MaxValue : limit - Elapsed;

    public bool Spent => stop.IsCancellationRequested || (clock is not null && limit <= Elapsed);

    /// <summary>A part of what is left, at most <paramref name="share"/> of it.</summary>
    public Effort Part(double share) =>
        clock is null ? this : new Effort(clock, TimeSpan.FromTicks((long)(Math.Max(0, Left.Ticks) * share)), stop);
}
