namespace Rootgap.Server;

/// <summary>What is served, and to whom.</summary>
public sealed record Serving
{
    /// <summary>The largest body of a request, bytes: facts, many at a time.</summary>
    public const int LargestBody = 16 << 20;

    /// <summary>The largest list of names or ids, bytes.</summary>
    public const int LargestList = 1 << 20;

    /// <summary>The largest asking for a code or a device, bytes: it may come from anybody.</summary>
    public const int LargestAsking = 64 << 10;

    /// <summary>The job's folder: drawings, lists, rack. Null where jobs come from below <see cref="Jobs"/>, or from the database alone.</summary>
    public string? Folder { get; init; }

    /// <summary>A folder in which each folder is a job's; null where there is one job, or where jobs come from the database alone.</summary>
    public string? Jobs { get; init; }

    /// <summary>The job's name, where there is one.</summary>
    public string Name { get; init; } = "";

    /// <summary>0 takes any that is free.</summary>
    public int Port { get; init; } = 5080;

    /// <summary>Whether other devices than this machine are served too. Each must show its job's token, or be enrolled.</summary>
    public bool IsForShop { get; init; }

    /// <summary>A PostgreSQL connection string; null for a file in each folder.</summary>
    public string? Store { get; init; }

    /// <summary>Whether records may be begun anew for a folder that had some: see <see cref="ServedJob"/>.</summary>
    public bool IsAnew { get; init; }

    /// <summary>Names by which this server may be called besides its machine's own: that of a load balancer, of a certificate.</summary>
    public IReadOnlyList<string> Hosts { get; init; } = [];

    /// <summary>Whether all calls come through a load balancer or proxy: then one device is not told from another by its connections.</summary>
    public bool IsBehindProxy { get; init; }

    /// <summary>How long a connection may say nothing, or less than a modem would, before it is closed; three times that between two calls.</summary>
    public TimeSpan Patience { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>A certificate and its key, PEM files; null for plain HTTP.</summary>
    public (string Certificate, string Key)? Tls { get; init; }
}
