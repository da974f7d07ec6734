namespace Rootgap.Standards;

/// <summary>Where a figure comes from. A closed family; words are made where it is printed.</summary>
public abstract record Origin
{
    private Origin()
    {
    }

    /// <summary>The drawing says it.</summary>
    public static readonly Origin Drawing = new Drawn();

    /// <summary>A rule of the shop, its own or the default.</summary>
    public static readonly Origin ShopRule = new Shop();

    /// <summary>Common practice of the trade; no standard gives it.</summary>
    public static readonly Origin CommonPractice = new Practice();

    /// <summary>The standard has no such size: the figure is 0, and a finding says so.</summary>
    public static readonly Origin NotInTheStandard = new Missing();

    /// <summary>Nobody gives it: the figure is 0, and a finding says so.</summary>
    public static readonly Origin NotKnown = new Unknown();

    /// <summary>The drawing says it.</summary>
    public sealed record Drawn : Origin;

    /// <summary>A rule of the shop.</summary>
    public sealed record Shop : Origin;

    /// <summary>Common practice.</summary>
    public sealed record Practice : Origin;

    /// <summary>Not in the standard.</summary>
    public sealed record Missing : Origin;

    /// <summary>Not known.</summary>
    public sealed record Unknown : Origin;

    /// <summary>Measured by the shop on the real part.</summary>
    /// <param name="On">The part in a word: fitting, valve.</param>
    /// <param name="Item">Its item of the material list.</param>
    /// <param name="InTable">What the table has in its place, mm; null where no table has it.</param>
    public sealed record Measured(string On, int Item, double? InTable) : Origin;

    /// <summary>A row of a standard's table, which says how it was checked.</summary>
    public sealed record Table(StandardRow Row) : Origin;

    /// <summary>A table's figure that nobody has held against a book.</summary>
    public bool IsFromMemory => this is Table { Row.IsFromMemory: true };

    /// <summary>Follows from a definition or a sum, said in words.</summary>
    public sealed record Rule(string Says) : Origin;
}
