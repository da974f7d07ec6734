using Rootgap.Fabricating;

namespace Rootgap.Records;

/// <summary>How far a spool has come.</summary>
public enum SpoolState
{
    NotBegun,

    /// <summary>A piece is cut.</summary>
    Cutting,

    /// <summary>All pieces are cut, or somebody is at a joint.</summary>
    Fitting,

    /// <summary>All joints are tacked at least.</summary>
    Tacked,

    /// <summary>All joints are welded at least.</summary>
    Welded,

    /// <summary>All joints are checked.</summary>
    Checked,
}

/// <summary>Where a spool stands.</summary>
/// <param name="PiecesCut">Of the spool's pieces.</param>
/// <param name="JointsAt">How many of the spool's joints, the welds of its supports among them, have come to each step, or farther.</param>
/// <param name="Marked">Facts of earlier versions about this spool's pieces, parts and joints, by time, that do not count until somebody has looked.</param>
public sealed record SpoolStanding(Spool Spool, SpoolState State, int PiecesCut, IReadOnlyDictionary<Step, int> JointsAt, IReadOnlyList<Marked> Marked);

/// <summary>The states of a drawing's spools, from what was done.</summary>
public static class SpoolStates
{
    /// <summary>In the order of the spools.</summary>
    public static IReadOnlyList<SpoolStanding> Of(Fabrication fabrication, DrawingRecord record) => [.. fabrication.Spools.Select(s => Of(s, record))];

    private static SpoolStanding Of(Spool spool, DrawingRecord record)
    {
        var cut = spool.Cuts.Count(c => c.IsCut && record.CutOf(c.Piece) is not null);
        var joints = spool.Joints.Concat(spool.Attachments).ToList();
        var steps = joints.Select(j => record.StepOf(j.Id)).ToList();
        var at = Enum.GetValues<Step>().ToDictionary(s => s, s => steps.Count(t => s <= t));
        var begun = steps.Exists(s => s is not null) || joints.Exists(j => DrawingRecord.Counting(record.Readings[j.Id]).Any());
        var state = All(Step.Checked) ? SpoolState.Checked
            : All(Step.Welded) ? SpoolState.Welded
            : All(Step.Tacked) ? SpoolState.Tacked
            : begun || (cut > 0 && cut == spool.Cuts.Count(c => c.IsCut)) ? SpoolState.Fitting
            : cut > 0 ? SpoolState.Cutting
            : SpoolState.NotBegun;
        var names = spool.Cuts.Select(c => c.Piece).Concat(spool.Components.Select(c => c.Id)).Concat(joints.Select(j => j.Id)).ToHashSet(StringComparer.OrdinalIgnoreCase);
        return new(spool, state, cut, at, [.. record.Marked.Where(m => m.Now is { } now && names.Contains(now))]);

        bool All(Step step) => joints.Count > 0 && at[step] == joints.Count;
    }
}
