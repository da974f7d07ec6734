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

    /// <summary>It is another job's, or of a later version.</summary>
    NotOurs,

    /// <summary>Another program has it for itself.</summary>
    InUse,

    /// <summary>A job that had records here has none.</summary>
    Missing,

    /// <summary>It is no store, or its file is damaged.</summary>
    Damaged,
}

/// <summary>A store could not do what was asked. What it kept before is untouched; of what was asked nothing was kept.</summary>
public sealed class StoreException(StoreTrouble kind, string message, string remedy, Exception? inner = null) : Exception(message, inner)
{
    public StoreTrouble Kind { get; } = kind;

    public string Remedy { get; } = remedy;
}
