using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Cli;

/// <summary>What every command's exit code says; the gravest of many drawings wins.</summary>
internal static class ExitCode
{
    public const int Done = 0;
    public const int Warn = 1;
    public const int Stop = 2;
    public const int Unreadable = 3;
    public const int Usage = 64;

    /// <summary>The program itself failed where no wall holds it (sysexits.h: an internal software error).</summary>
    public const int Fault = 70;

    /// <summary>Told to stop: 128 and the signal's number, as shells have it.</summary>
    public const int Stopped = 130;

    public static int Of(Packet packet) => packet.Worst switch
    {
        Severity.Stop => Stop,
        Severity.Warn => Warn,
        _ => Done,
    };
}
