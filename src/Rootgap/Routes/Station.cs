using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>A bolted joint inside a station: the two parts (second -1: not in this drawing) and where its gasket is.</summary>
internal readonly record struct Bolting(int First, int Second, Way Way, double Along, double Gasket, double ExtraGrip, bool SharesStuds, bool ByOthers);

/// <summary>All that stands at one work point, before it is placed.</summary>
internal sealed record Station
{
    public required WorkPoint Point { get; init; }
    public required Line Line { get; init; }
    public required SourceRow Source { get; init; }

    /// <summary>How the incoming leg's pipe ends here, and on which part (-1 for none).</summary>
    public required PipeEnd In { get; init; }

    public int InPart { get; init; } = -1;

    public required PipeEnd Out { get; init; }

    public int OutPart { get; init; } = -1;

    /// <summary>How a branch run's pipe begins here; null where no run can start.</summary>
    public PipeEnd? Branch { get; init; }

    public int BranchPart { get; init; } = -1;

    public NominalSize InSize { get; init; }

    /// <summary>Size of the line from here on, and of the branch.</summary>
    public NominalSize OutSize { get; init; }

    public NominalSize BranchSize { get; init; }

    /// <summary>In line order.</summary>
    public IReadOnlyList<Component> Parts { get; init; } = [];

    public IReadOnlyList<Bolting> Boltings { get; init; } = [];

    /// <summary>The second half of a return bend: its part stands at the station before.</summary>
    public bool EndsReturn { get; init; }

    /// <summary>Step of the centreline across an eccentric reducer, mm, toward its flat side.</summary>
    public Vector Step { get; init; }

    /// <summary>Items: the first part's stated row, and all rows found.</summary>
    public IReadOnlyList<MaterialItem?> Items { get; init; } = [];

    public bool IsItemStated { get; init; }

    /// <summary>Index of the part of which the leg's <c>item</c> speaks: the valve and not its flanges, the flange and not its gasket; all parts of its kind go with it.</summary>
    public int Named { get; init; }

    /// <summary>A station where nothing stands: both legs end in the same way.</summary>
    public static Station Plain(Situation s, EndKind kind) => new()
    {
        Point = s.Point,
        Line = s.Line,
        Source = s.Source,
        In = new(kind, []),
        Out = new(kind, []),
        InSize = s.Size,
        OutSize = s.Size,
    };
}
