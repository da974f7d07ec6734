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

/// <summary>Where a spool stands, by the facts of the drawing's revision.</summary>
/// <param name="PiecesCut">Of the spool's pieces.</param>
/// <param name="JointsAt">How many of the spool's joints have come to each step, or farther.</param>
/// <param name="OfOtherRevisions">Facts about this spool's pieces, parts and joints that were made on another revision, by time: they do not count until somebody has looked and entered them anew.</param>
public sealed record SpoolStanding(Spool Spool, SpoolState State, int PiecesCut, IReadOnlyDictionary<Step, int> JointsAt, IReadOnlyList<DrawingFact> OfOtherRevisions);

/// <summary>The states of a drawing's spools, from what was done.</summary>
public static class SpoolStates
{
    /// <summary>In the order of the spools.</summary>
    public static IReadOnlyList<SpoolStanding> Of(Fabrication fabrication, JobRecord record)
    {
        var drawing = fabrication.Route.Drawing;
        return [.. fabrication.Spools.Select(s => Of(s, record.Drawing(drawing.Number), drawing.Revision))];
    }

    private static SpoolStanding Of(Spool spool, DrawingRecord record, string revision)
    {
        var cut = spool.Cuts.Count(c => record.CutOf(c.Piece, revision) is not null);
        var steps = spool.Joints.Select(j => record.StepOf(j.Id, revision)).ToList();
        var at = Enum.GetValues<Step>().ToDictionary(s => s, s => steps.Count(t => s <= t));
        var begun = steps.Exists(s => s is not null) || spool.Joints.Any(j => DrawingRecord.Counting(record.Readings[j.Id], revision).Any());
        var state = All(Step.Checked) ? SpoolState.Checked
            : All(Step.Welded) ? SpoolState.Welded
            : All(Step.Tacked) ? SpoolState.Tacked
            : begun || (cut > 0 && cut == spool.Cuts.Count) ? SpoolState.Fitting
            : cut > 0 ? SpoolState.Cutting
            : SpoolState.NotBegun;
        return new(spool, state, cut, at, [.. Others().OrderBy(f => f, Fact.Order)]);

        bool All(Step step) => spool.Joints.Count > 0 && at[step] == spool.Joints.Count;

        IEnumerable<DrawingFact> Others() =>
            spool.Cuts.SelectMany(c => Other(record.Pieces[c.Piece]))
                .Concat(spool.Components.SelectMany(c => Other(record.Heats[c.Id])))
                .Concat(spool.Joints.SelectMany(j => Other(record.Readings[j.Id]).Concat(Other(record.Steps[j.Id]))));

        IEnumerable<DrawingFact> Other<T>(IEnumerable<Entry<T>> entries)
            where T : DrawingFact => entries.Where(e => e.Counts && e.Fact.Drawing.Revision != revision).Select(e => (DrawingFact)e.Fact);
    }
}
