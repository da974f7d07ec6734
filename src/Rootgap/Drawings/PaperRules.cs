using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Drawings;

/// <summary>The pressure test as the drawing asks for it. The pressure and its hold are the test engineer's.</summary>
public sealed record TestRules
{
    /// <summary>Name of the test pack; empty where none is given.</summary>
    public string Pack { get; init; } = "";

    /// <summary>As written under the test, or beside the line data's test package or pressure: water, air or nitrogen; null where the drawing does not say.</summary>
    public string? MediumWritten { get; init; }

    public TestMedium Medium => MediumWritten is "air" or "nitrogen" ? TestMedium.Air : TestMedium.Water;

    /// <summary>As written, with its unit; empty where the service's test pressure holds.</summary>
    public string Pressure { get; init; } = "";

    /// <summary>Height at which the pressure is asked, mm; null where none is given.</summary>
    public double? At { get; init; }

    /// <summary>Height of the gauge, mm; null where none is given.</summary>
    public double? Gauge { get; init; }

    /// <summary>Allowable stress at the test against that at the design temperature; null where the engineer gives none.</summary>
    public double? StressRatio { get; init; }

    public string Hold { get; init; } = "";

    public SourceRow Source { get; init; } = SourceRow.None;
}

/// <summary>A place where a sling is made fast.</summary>
/// <param name="Piece">Mark of the piece: <c>3-B</c>.</param>
/// <param name="At">From the end of the piece where it starts, mm.</param>
/// <param name="Sling">Length of the sling from the hook, mm; null where the drawing does not say.</param>
public sealed record LiftRow(string Piece, double At, double? Sling, SourceRow Source);

/// <summary>Figures for the weld metal and what is bought for it.</summary>
public sealed record WeldingFigures
{
    /// <summary>In the shop; null: not given, and reckoned as for stick electrodes.</summary>
    public string? Process { get; init; }

    /// <summary>At site; null: as in the shop.</summary>
    public string? FieldProcess { get; init; }

    /// <summary>Length of the stick electrodes, mm; null: the published figure for all lengths.</summary>
    public double? Electrode { get; init; }

    /// <summary>Of the stubs that are thrown away, mm.</summary>
    public double Stub { get; init; } = 50;

    /// <summary>Weld metal against filler bought by the shop's own use; null: published figures.</summary>
    public double? Efficiency { get; init; }

    public double Cap { get; init; } = WeldMetal.UsualCap;

    public double Root { get; init; } = WeldMetal.UsualRoot;

    /// <summary>What is bought, in the shop or at site.</summary>
    public Filler Of(WeldPlace place)
    {
        var given = place == WeldPlace.Shop ? Process : FieldProcess ?? Process;
        var process = given ?? Filler.Stick;
        var filler = Efficiency is { } own ? new(process, own, "the shop's own use")
            : process == Filler.Stick && Electrode is { } length ? Filler.Sticks(length, Stub)
            : Filler.Of(process)!;
        // Who says how long his electrodes are has said what he welds with.
        return filler with { IsAssumed = given is null && Electrode is null };
    }
}
