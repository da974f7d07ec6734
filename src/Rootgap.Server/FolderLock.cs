using System.Globalization;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// Keeps a second program off a job's folder: two servers would each take the other's writing for a stranger's. The lock is the operating system's, on an open file,
/// so that it is gone with the program however that ends.
/// </summary>
internal sealed class FolderLock : IDisposable
{
    private readonly FileStream held;

    private FolderLock(FileStream held) => this.held = held;

    /// <param name="own">The program's own folder in the job's.</param>
    /// <exception cref="StoreException">Another program has it.</exception>
    public static FolderLock Take(string own)
    {
        var holder = Path.Combine(own, "held-by");
        try
        {
            var open = new FileStream(Path.Combine(own, "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            try
            {
                File.WriteAllText(holder, string.Create(CultureInfo.InvariantCulture, $"process {Environment.ProcessId} on {Environment.MachineName}, since {DateTimeOffset.UtcNow:yyyy-MM-dd HH:mm}Z"));
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // Only a help to whoever looks for it.
            }

            return new(open);
        }
        catch (IOException e) when (e is not (DirectoryNotFoundException or FileNotFoundException))
        {
            var who = File.Exists(holder) ? File.ReadAllText(holder) : "another program";
            throw new StoreException(StoreTrouble.InUse, $"The folder {Path.GetDirectoryName(own)} is served already: {who}.", "Use that one, or stop it first. Two servers on one folder would take each other's writing for a stranger's.", e);
        }
    }

    public void Dispose() => held.Dispose();
}
