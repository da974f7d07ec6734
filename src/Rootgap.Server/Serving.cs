namespace Rootgap.Server;

/// <summary>What is served, and to whom.</summary>
public sealed record Serving
{
    /// <summary>The largest body of a request, bytes.</summary>
    public const int LargestBody = 16 << 20;

    /// <summary>The job's folder: drawings, lists, rack.</summary>
    public required string Folder { get; init; }

    /// <summary>The job's name.</summary>
    public required string Name { get; init; }

    /// <summary>0 takes any that is free.</summary>
    public int Port { get; init; } = 5080;

    /// <summary>What whoever is not at this machine must show; null where only this machine is served.</summary>
    public string? Token { get; init; }

    /// <summary>A PostgreSQL connection string; null for a file in the folder.</summary>
    public string? Store { get; init; }

    /// <summary>A certificate and its key, PEM files; null for plain HTTP.</summary>
    public (string Certificate, string Key)? Tls { get; init; }

    public bool IsForShop => Token is not null;

    /// <summary>Where the program keeps what is its own: the store, the token.</summary>
    public string Own => Path.Combine(Folder, ".rootgap");
}
