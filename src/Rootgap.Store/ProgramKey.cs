using System.Security.Cryptography;
using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>The key of a program that signs as a device does: a script, a scanner. It lies in a file that only its owner can read.</summary>
/// <param name="Job">The job it was let into.</param>
/// <param name="Device">Its id there.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Key">The private key: PKCS #8 (RFC 5208), base64.</param>
public sealed record ProgramKey(string Job, string Device, string Name, string Key)
{
    private static readonly JsonSerializerOptions Writing = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    /// <summary>A new key on P-256: what a device keeps, and its public key as SubjectPublicKeyInfo (RFC 5280), base64.</summary>
    public static (string Key, string Public) New()
    {
        using var own = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return (Convert.ToBase64String(own.ExportPkcs8PrivateKey()), Convert.ToBase64String(own.ExportSubjectPublicKeyInfo()));
    }

    /// <summary>Whether a fact's signature was made with a key.</summary>
    /// <param name="key">SubjectPublicKeyInfo, base64.</param>
    public static bool IsOwn(Fact fact, string key)
    {
        try
        {
            using var own = ECDsa.Create();
            own.ImportSubjectPublicKeyInfo(Convert.FromBase64String(key), out _);
            return own.VerifyData(FactJson.SignedBytes(fact), Convert.FromBase64String(fact.Signed!.Value), HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation);
        }
        catch (Exception e) when (e is CryptographicException or FormatException)
        {
            return false;
        }
    }

    /// <summary>A fact signed for somebody of the job.</summary>
    /// <param name="isProven">They have shown by their code to be here.</param>
    /// <exception cref="InvalidDataException">What the file has is no key.</exception>
    public Fact Sign(Fact fact, Person person, bool isProven)
    {
        var said = fact with { Who = person.Name, Signed = new(Job, Device, person.Id, isProven ? "code" : null, "") };
        try
        {
            using var own = ECDsa.Create();
            own.ImportPkcs8PrivateKey(Convert.FromBase64String(Key), out _);
            return said with { Signed = said.Signed with { Value = Convert.ToBase64String(own.SignData(FactJson.SignedBytes(said), HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation)) } };
        }
        catch (Exception e) when (e is CryptographicException or FormatException)
        {
            throw new InvalidDataException("It holds no key.", e);
        }
    }

    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="InvalidDataException">It is no key.</exception>
    public static ProgramKey Read(string file)
    {
        try
        {
            return JsonSerializer.Deserialize<ProgramKey>(File.ReadAllText(file), Writing) is { Job.Length: > 0, Device.Length: > 0, Key.Length: > 0 } key ? key : throw new InvalidDataException("It holds no key.");
        }
        catch (JsonException e)
        {
            throw new InvalidDataException("It holds no key.", e);
        }
    }

    /// <summary>Writes it where no file is; only its owner can read it where the system knows owners.</summary>
    /// <exception cref="IOException">There is a file, or it cannot be written.</exception>
    public void Write(string file)
    {
        var how = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            how.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using var to = new FileStream(file, how);
        JsonSerializer.Serialize(to, this, Writing);
    }
}
