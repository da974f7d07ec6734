namespace Rootgap.Sheets;

/// <summary>Whom a page is for, in the order in which pages are bound.</summary>
public enum Reader
{
    /// <summary>Whoever has the whole: the cover, and pages that belong to nobody alone.</summary>
    All,
    Foreman,
    Saw,
    Store,
    Fitter,
    Inspector,
    Site,
}

/// <summary>What readers are called, and which pages each of them takes.</summary>
public static class Readers
{
    /// <summary>Words by which a reader asks for his pages; welder and inspector share a register.</summary>
    public static readonly IReadOnlyList<(string Word, Reader Reader)> Words =
    [
        ("foreman", Reader.Foreman), ("saw", Reader.Saw), ("store", Reader.Store), ("fitter", Reader.Fitter),
        ("welder", Reader.Inspector), ("inspector", Reader.Inspector), ("site", Reader.Site),
    ];

    /// <summary>The words on the tab of a page.</summary>
    public static string Tab(this Reader reader) => reader switch
    {
        Reader.All => "ALL",
        Reader.Foreman => "FOREMAN, SITE",
        Reader.Saw => "SAW",
        Reader.Store => "STORE",
        Reader.Fitter => "FITTER",
        Reader.Inspector => "WELDER, INSPECTOR",
        Reader.Site => "SITE",
        _ => throw new ArgumentOutOfRangeException(nameof(reader)),
    };

    /// <summary>Whether a page for one reader goes to another too: isometrics hang in the foreman's cabin and at the site, the cover in the foreman's.</summary>
    public static bool Takes(this Reader who, Reader page) => who == Reader.All || who == page || (who, page) is (Reader.Site, Reader.Foreman) or (Reader.Foreman, Reader.All);
}
