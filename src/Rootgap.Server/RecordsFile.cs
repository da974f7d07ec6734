using System.Globalization;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// Puts other records into the place of a folder's: first the new ones lie there whole under a name of their own, then the old ones go aside, then the new ones take their
/// place. Who is stopped on the way is finished by whoever has the folder next.
/// </summary>
internal static class RecordsFile
{
    private const string New = "records-new.db";

    /// <summary>Whether new records lie there that are not in their place yet.</summary>
    public static bool IsBegun(string own) => File.Exists(Path.Combine(own, New));

    /// <summary>Puts new records, which are whole and closed, into the place of those that are there.</summary>
    /// <returns>Where those lie now; null where there were none.</returns>
    public static string? Put(string own, string records)
    {
        File.Move(records, Path.Combine(own, New), overwrite: true);
        return Finish(own);
    }

    /// <summary>Finishes what somebody began; the folder is held by whoever calls.</summary>
    public static string? Finish(string own)
    {
        if (!IsBegun(own))
            return null;
        var records = Path.Combine(own, Path.GetFileName(JobPlace.RecordsOf(own)));
        var aside = PutAside(records);
        File.Move(Path.Combine(own, New), records);
        return aside;
    }

    // The records with what SQLite keeps beside them; where they lie now. The database goes last: until then it is known which number they have.
    private static string? PutAside(string records)
    {
        if (!File.Exists(records))
            return null;
        var n = 1;
        string At(string suffix) => Path.Combine(Path.GetDirectoryName(records)!, string.Create(CultureInfo.InvariantCulture, $"records-aside-{n}.db{suffix}"));
        while (File.Exists(At("")))
            n++;
        foreach (var suffix in new[] { "-wal", "-shm", "" })
        {
            if (File.Exists(records + suffix))
                File.Move(records + suffix, At(suffix), overwrite: true);
        }

        return At("");
    }
}
