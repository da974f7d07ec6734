using System.Collections.Concurrent;
using System.Net;

namespace Rootgap.Server;

/// <summary>Slows down who guesses: after some wrong tries from one device each further one costs a longer pause.</summary>
internal sealed class FailedTries(TimeProvider clock)
{
    private const int Free = 10;
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(10);

    private readonly ConcurrentDictionary<IPAddress, (int Wrong, DateTimeOffset Until)> known = new();

    /// <summary>How long a device must wait before its next try is looked at; null where it need not.</summary>
    public TimeSpan? PauseOf(IPAddress? device) =>
        device is not null && known.TryGetValue(device, out var tries) && clock.GetUtcNow() < tries.Until ? tries.Until - clock.GetUtcNow() : null;

    public void Note(IPAddress? device, bool isRight)
    {
        if (device is null)
            return;
        if (isRight)
        {
            known.TryRemove(device, out _);
            return;
        }

        // So that a swarm of addresses fills no memory: those whose pause is over are forgotten.
        if (known.Count > 10_000)
        {
            foreach (var (other, tries) in known)
            {
                if (tries.Until < clock.GetUtcNow())
                    known.TryRemove(other, out _);
            }
        }

        known.AddOrUpdate(device, _ => (1, DateTimeOffset.MinValue), (_, tries) => (tries.Wrong + 1, tries.Wrong + 1 <= Free ? DateTimeOffset.MinValue
            : clock.GetUtcNow() + TimeSpan.FromSeconds(Math.Min(Longest.TotalSeconds, Math.Pow(2, Math.Min(20, tries.Wrong + 1 - Free))))));
    }
}
