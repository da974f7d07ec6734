using Rootgap.App.Look;

namespace Rootgap.App.Help;

/// <summary>Addresses of the help's pages, which are those of the docs: below the app's own.</summary>
public static class HelpAddress
{
    /// <summary>The page that help begins with.</summary>
    public const string BeginName = "app";

    /// <summary>Address of the page that help begins with.</summary>
    public const string Begin = "help/" + BeginName;

    /// <summary>All that the desk check looks for.</summary>
    public const string Rules = "help/rules";

    /// <summary>A page by its name in the docs: <c>fit-up</c>, <c>rules/gap-unusual</c>.</summary>
    public static string Page(string name) => "help/" + name;

    /// <summary>What a finding of the desk check is about.</summary>
    public static string Rule(string rule) => "help/rules/" + rule;

    /// <summary>What is told of the page that somebody stands on.</summary>
    public static string Of(PagePlace place) => "help/" + place.Address.Split('/')[0] switch
    {
        "drawing" => "app-drawing",
        "materials" => "app-materials",
        "spools" or "spool" or "changes" => "app-shop",
        "fit" => "fit-up#the-readings",
        "final" => "fit-up#the-final-check-of-a-spool",
        "split" => "split",
        "forecast" => "forecast",
        "order" => "erection",
        "survey" => "closing",
        "cutting" => "cutting",
        "packet" => "app-packet",
        "work" => "app-records",
        "people" or "enrol" or "signature" => "app-people",
        _ => "app",
    };
}
