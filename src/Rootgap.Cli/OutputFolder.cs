using System.Globalization;
using System.Runtime.InteropServices;

namespace Rootgap.Cli;

/// <summary>
/// A folder into which a command writes a set of files: beside the old ones first, and in their place only when all are whole. Whatever comes between,
/// a full disk, Ctrl-C or a pulled plug, the old set stands entire or the new one does. Two commands at once on one folder: the second is told to wait.
/// </summary>
/// <remarks>
/// What is being written lies in a folder of its own inside, with a lock that the system takes away with the process. A list of names there says that the set
/// is whole: who finds it without its process finishes what that one had begun.
/// </remarks>
internal sealed class OutputFolder : IDisposable
{
    private const string Own = ".rootgap-writing";
    private const int LongestName = 120;

    private static volatile bool isStopping;

    private readonly Lock turn = new();
    private readonly string given;
    private readonly string folder;
    private readonly string beside;
    private readonly bool isNew;
    private readonly FileStream held;
    private readonly List<PosixSignalRegistration> signals = [];
    private readonly List<string> names = [];
    private readonly HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);
    private bool isDone;

    /// <exception cref="IOException">Nothing can be written there, or another command is just doing so.</exception>
    public OutputFolder(string folder)
    {
        given = folder;
        this.folder = Path.GetFullPath(folder);
        isNew = !Directory.Exists(this.folder);
        beside = Path.Combine(this.folder, Own);
        Directory.CreateDirectory(beside);
        try
        {
            held = new(Path.Combine(beside, "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e)
        {
            throw new IOException($"Another rootgap is writing in {folder} just now. Wait until it is done, or give another folder.", e);
        }

        FinishLeftOver();
        foreach (var signal in new[] { PosixSignal.SIGINT, PosixSignal.SIGTERM, PosixSignal.SIGHUP, PosixSignal.SIGQUIT })
            signals.Add(PosixSignalRegistration.Create(signal, Stop));
    }

    /// <summary>Whether the program was told to stop and is putting things in order for that.</summary>
    public static bool IsStopping => isStopping;

    private string List => Path.Combine(beside, "whole");

    /// <summary>A new file of the set, open for writing.</summary>
    /// <param name="name">Its name in the folder.</param>
    public FileStream Create(string name)
    {
        lock (turn)
        {
            if (!isDone)
            {
                taken.Add(name);
                names.Add(name);
                return File.Create(Path.Combine(beside, "new." + name));
            }
        }

        // Stopped, and cleared up: the one who did that ends the program, and nothing new is begun.
        Thread.Sleep(Timeout.Infinite);
        throw new IOException($"The command was stopped while it was writing in {given}.");
    }

    /// <summary>Writes a file of the set.</summary>
    public void Write(string name, ReadOnlySpan<byte> content)
    {
        using var file = Create(name);
        file.Write(content);
    }

    /// <summary>A name that no other file of the set has, made from what may hold any signs: two drawings of one number do not write over each other.</summary>
    /// <param name="what">Number of a drawing, or whatever tells the file from others.</param>
    /// <param name="ending">With its dot.</param>
    public string Free(string what, string ending)
    {
        var name = string.Concat(what.Select(c => char.IsLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '_'));
        name = name.Length > LongestName ? name[..LongestName] : name;
        var free = name + ending;
        for (var i = 2; !taken.Add(free); i++)
            free = string.Create(CultureInfo.InvariantCulture, $"{name}-{i}{ending}");
        return free;
    }

    /// <summary>Where a file of the set will lie, as it is told to people.</summary>
    public string PathOf(string name) => Path.Combine(given, name);

    /// <summary>The set is whole: it takes the place of the old one.</summary>
    /// <exception cref="IOException">A file cannot be put in its place; the old set stands as it was.</exception>
    public void Commit()
    {
        lock (turn)
        {
            if (isDone)
                return;
            if (names.Find(n => Directory.Exists(Path.Combine(folder, n))) is { } inTheWay)
                throw new IOException($"{PathOf(inTheWay)} is a folder, and a file of that name is to be written.");
            File.WriteAllLines(List + ".new", names);
            File.Move(List + ".new", List, overwrite: true);
            var moved = new List<string>();
            try
            {
                foreach (var name in names)
                {
                    moved.Add(name);
                    if (File.Exists(Path.Combine(folder, name)))
                        File.Move(Path.Combine(folder, name), Path.Combine(beside, "old." + name), overwrite: true);
                    File.Move(Path.Combine(beside, "new." + name), Path.Combine(folder, name), overwrite: true);
                }
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                File.Delete(List);
                foreach (var name in moved)
                    PutBack(name);
                throw;
            }

            CleanUp();
        }
    }

    /// <summary>Where the set was not committed, nothing of it is left.</summary>
    public void Dispose()
    {
        lock (turn)
        {
            foreach (var signal in signals)
                signal.Dispose();
            if (!isDone)
                CleanUp();
        }
    }

    private void PutBack(string name)
    {
        var (old, now) = (Path.Combine(beside, "old." + name), Path.Combine(folder, name));
        if (File.Exists(old))
            File.Move(old, now, overwrite: true);
        else if (!File.Exists(Path.Combine(beside, "new." + name)))
            File.Delete(now);
    }

    /// <summary>A set that was whole when its process ended is put in its place; what was half is thrown away.</summary>
    private void FinishLeftOver()
    {
        if (File.Exists(List))
        {
            foreach (var name in File.ReadAllLines(List))
            {
                var left = Path.Combine(beside, "new." + name);
                if (File.Exists(left) && Path.GetFileName(name) == name)
                    File.Move(left, Path.Combine(folder, name), overwrite: true);
            }

            File.Delete(List);
        }

        foreach (var file in Directory.EnumerateFiles(beside).Where(f => Path.GetFileName(f) != "lock"))
            File.Delete(file);
    }

    private void CleanUp()
    {
        isDone = true;
        try
        {
            held.Dispose();
            Directory.Delete(beside, recursive: true);
            if (isNew && !Directory.EnumerateFileSystemEntries(folder).Any())
                Directory.Delete(folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What is left is thrown away by the next command that writes here.
        }
    }

    private void Stop(PosixSignalContext context)
    {
        context.Cancel = true;
        isStopping = true;
        lock (turn)
        {
            var wasDone = isDone;
            if (!isDone)
                CleanUp();
            Console.Error.WriteLine(wasDone ? $"Stopped, after {given} was written." : $"Stopped. Nothing in {given} is changed.");
        }

        Environment.Exit(ExitCode.Stopped);
    }
}
