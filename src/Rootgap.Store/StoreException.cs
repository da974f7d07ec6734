namespace Rootgap.Store;

/// <summary>What kind of trouble a store has.</summary>
public enum StoreTrouble
{
    /// <summary>No room on its disk.</summary>
    Full,

    /// <summary>It can be read but not written.</summary>
    ReadOnly,

    /// <summary>It does not answer.</summary>
    Unreachable,

    /// <summary>It is another job's, of a later version, or no store.</summary>
    NotOurs,
}

/// <summary>A store could not do what was asked. What it kept before is untouched; of what was asked nothing was kept.</summary>
public sealed class StoreException(StoreTrouble kind, string message, string remedy, Exception? inner = null) : Exception(message, inner)
{
    public StoreTrouble Kind { get; } = kind;

    public string Remedy { get; } = remedy;
}
