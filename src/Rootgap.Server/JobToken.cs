using System.Security.Cryptography;
using System.Text;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// The token of a job: made once, so that tablets that were let in stay in over a restart. It lies in the job's folder, or in the database where there is no folder. Renewed, or
/// taken away, it shuts out all that had it, within moments and without a restart.
/// </summary>
internal sealed class JobToken
{
    private static readonly TimeSpan Fresh = TimeSpan.FromSeconds(2);

    private readonly string? file;
    private readonly FactStore? store;
    private (string Token, long At)? known;

    public JobToken(string folder) => file = Path.Combine(JobPlace.OwnOf(folder), "token");

    public JobToken(FactStore store) => this.store = store;

    /// <summary>The token as it is now.</summary>
    public async Task<string> NowAsync()
    {
        if (known is var (token, at) && Environment.TickCount64 - at < Fresh.TotalMilliseconds)
            return token;
        var now = file is not null ? InFile(file, isNew: false) : (await store!.ChangeSecretAsync("token", before => before ?? New()))!;
        known = (now, Environment.TickCount64);
        return now;
    }

    /// <summary>Makes a new one in the place of the old.</summary>
    public async Task<string> RenewAsync()
    {
        known = null;
        return file is not null ? InFile(file, isNew: true) : (await store!.ChangeSecretAsync("token", _ => New()))!;
    }

    public async Task<bool> IsAsync(string shown)
    {
        var now = await NowAsync();
        // Hashed, so that neither the time nor the length tells how near a guess was.
        return CryptographicOperations.FixedTimeEquals(SHA256.HashData(Encoding.UTF8.GetBytes(shown)), SHA256.HashData(Encoding.UTF8.GetBytes(now)));
    }

    private static string New() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(20));

    private static string InFile(string file, bool isNew)
    {
        if (!isNew && File.Exists(file) && File.ReadAllText(file).Trim() is { Length: >= 32 } known)
            return known;
        var token = New();
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        var beside = file + "-new";
        File.Delete(beside);
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        using (var writer = new StreamWriter(beside, options))
            writer.Write(token);
        File.Move(beside, file, overwrite: true);
        return token;
    }
}
