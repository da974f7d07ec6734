using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>The way on which an end of a part lies, seen from the work point.</summary>
internal enum Way
{
    /// <summary>Back along the leg that comes in.</summary>
    In,

    /// <summary>Forth along the leg that goes out.</summary>
    Out,

    Branch,
}

/// <summary>An end of a part: so far from the work point along a way, looking away from the work point (1) or back to it (-1).</summary>
internal readonly record struct PartEnd(Way Way, double Along, int Looks = 1);

/// <summary>A part of a station: one component before it is placed.</summary>
internal sealed record Part(Ware Ware, string Name, NominalSize Size, params PartEnd[] Ends)
{
    public NominalSize Size2 { get; init; }
    public bool IsLoose { get; init; }
    public double? Turn { get; init; }
    public double? Radius { get; init; }
    public bool IsCut { get; init; }
    public bool HasHoles { get; init; }

    /// <summary>How it takes the pipe, where it is not as the line's fittings do.</summary>
    public FittingEnds? Joins { get; init; }
}

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
    public IReadOnlyList<Part> Parts { get; init; } = [];

    public IReadOnlyList<Bolting> Boltings { get; init; } = [];

    /// <summary>Step of the centreline across an eccentric reducer, mm, toward its flat side.</summary>
    public Vector Step { get; init; }

    /// <summary>Items: the first part's stated row, and all rows found.</summary>
    public IReadOnlyList<MaterialItem?> Items { get; init; } = [];

    public bool IsItemStated { get; init; }
}
