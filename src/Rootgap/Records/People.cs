namespace Rootgap.Records;

/// <summary>Who signed a fact, on which device, and the device's own signature. It stands in the fact, and covers all of it.</summary>
/// <param name="Job">The job it was signed for: taken into another, it is no signature.</param>
/// <param name="Device">Id of the device, whose key never leaves it.</param>
/// <param name="Person">Id of the person.</param>
/// <param name="Proof">How the person proved to be here, where that was asked: <c>code</c>; null where not.</param>
/// <param name="Value">ECDSA over P-256 with SHA-256 of <see cref="FactJson.SignedBytes"/>, r and s of 32 bytes each, as base64 (FIPS 186-5; W3C, Web Cryptography API).</param>
public sealed record Signature(string Job, string Device, string Person, string? Proof, string Value);

/// <summary>What a person may sign.</summary>
public enum Right
{
    /// <summary>Pieces cut, heats, readings, joints fitted and tacked.</summary>
    Fit,

    /// <summary>Joints welded.</summary>
    Weld,

    /// <summary>Joints checked, fit-ups seen, examinations, heat treatment, tests, releases: what others rely on.</summary>
    Examine,

    /// <summary>Drawings, lists and racks.</summary>
    Draw,

    /// <summary>Who is here, which device, who is gone.</summary>
    People,
}

/// <summary>Somebody of the job, with what they may sign. The last fact of a person counts.</summary>
/// <param name="Person">The person's id.</param>
/// <param name="Name">As it stands on what they sign.</param>
/// <param name="Stamp">Their stamp; null where they have none.</param>
/// <param name="Role">The shop's own word: fitter, welder, foreman; empty where none was given.</param>
/// <param name="May">What they may sign.</param>
public sealed record PersonNamed(string Id, string Who, DateTimeOffset When, string Person, string Name, string? Stamp, string Role, IReadOnlyList<Right> May) : Fact(Id, Who, When)
{
    public override string Kind => "person";
}

/// <summary>A device that made its own key and may sign with it.</summary>
/// <param name="Device">The device's id.</param>
/// <param name="Name">What it is called: tablet at stand 4.</param>
/// <param name="Key">Its public key: SubjectPublicKeyInfo (RFC 5280), base64.</param>
public sealed record DeviceEnrolled(string Id, string Who, DateTimeOffset When, string Device, string Name, string Key) : Fact(Id, Who, When)
{
    public override string Kind => "device";
}

/// <summary>A person who left or a device that was lost: from when this is kept, nothing that they sign is taken.</summary>
/// <param name="Of">Id of the person or the device.</param>
public sealed record Revoked(string Id, string Who, DateTimeOffset When, string Of, string Why) : Fact(Id, Who, When)
{
    public override string Kind => "revoked";
}
