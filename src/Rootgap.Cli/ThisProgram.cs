using System.Reflection;

namespace Rootgap.Cli;

internal static class ThisProgram
{
    /// <summary>The version that stands on sheets and in packets.</summary>
    public static string Version { get; } = typeof(ThisProgram).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "0";
}
