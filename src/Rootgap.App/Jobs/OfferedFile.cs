namespace Rootgap.App.Jobs;

/// <summary>A file that somebody brings, of a name that the job has with another content.</summary>
public sealed record OfferedFile(string Path, byte[] Content, byte[] Before);

/// <summary>What becomes of it.</summary>
public enum FileAnswer
{
    /// <summary>It is the next version of the file that is there.</summary>
    NewVersion,

    /// <summary>Both stay, each with a name of its own.</summary>
    Beside,

    Leave,
}
