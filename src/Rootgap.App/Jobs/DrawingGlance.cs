using System.Text.Json.Serialization;
using Rootgap.Records;

namespace Rootgap.App.Jobs;

/// <summary>A spool as the first page shows it.</summary>
/// <param name="Joints">How many joints it has; then how many have come to each step, or farther.</param>
/// <param name="ToCut">Marks of pieces that are not cut.</param>
/// <param name="ToFit">Ids of joints that are not tacked.</param>
/// <param name="IsErected">It stands at site.</param>
public sealed record SpoolGlance(string Name, SpoolState State, int Pieces, int Joints, int Tacked, int Welded, int Checked, string[] ToCut, string[] ToFit, string[] ToWeld, string[] ToLookAt, bool IsErected)
{
    /// <summary>0 on paper, 1 cut, 2 welded: how heavily it is drawn.</summary>
    [JsonIgnore]
    public int Weight => State >= SpoolState.Welded ? 2 : Pieces > 0 && ToCut.Length == 0 ? 1 : 0;
}

/// <summary>A spool's strokes in the small picture.</summary>
/// <param name="D">As the path of an SVG.</param>
public sealed record GlanceStrokes(string Spool, string D);

/// <summary>What the first page says of a drawing: worked out once for each content, and kept in the browser.</summary>
/// <param name="Key">Of what it was made: version, files beside it, what was done, and the program.</param>
/// <param name="Beside">The files beside it that its reading asked for, also those that the job has not.</param>
/// <param name="Errors">Rows that cannot be read.</param>
/// <param name="Waiting">Entries that wait for this revision to be taken to the shop.</param>
/// <param name="ToLookAt">Entries of an earlier version that somebody has to look at.</param>
/// <param name="Names">Ids of joints and marks of pieces, with a blank round each: what Find looks through.</param>
public sealed record DrawingGlance(string Path, string Key, string[] Beside, string Revision, int Errors, int Stops, int Looks, string FirstStop, int Waiting, int ToLookAt, bool IsTorn, int Welds, int Welded, int Fitted,
    SpoolGlance[] Spools, GlanceStrokes[] Sketch, string Names)
{
    /// <summary>Why nothing of it may be made, all that holds it; none where nothing does.</summary>
    [JsonIgnore]
    public IEnumerable<string> Reasons
    {
        get
        {
            if (Waiting > 0)
                yield return $"revision {Revision} is not taken to the shop yet";
            if (IsTorn)
                yield return "two people changed it: somebody must say which holds";
            if (Errors > 0)
                yield return Errors == 1 ? "one row cannot be read" : $"{Errors} rows cannot be read";
            if (Stops > 0)
                yield return $"{Stops} {(Stops == 1 ? "stop" : "stops")}: {FirstStop}";
        }
    }

    /// <summary>What holds it first; null where nothing does.</summary>
    [JsonIgnore]
    public string? Held => Reasons.FirstOrDefault();

    [JsonIgnore]
    public bool IsDone => Spools.Length > 0 && Spools.All(s => s.State == SpoolState.Checked && s.IsErected);

    [JsonIgnore]
    public bool IsBegun => Spools.Any(s => s.State != SpoolState.NotBegun);

    /// <summary>What can be made of it now: nothing where it is held.</summary>
    [JsonIgnore]
    public IEnumerable<WorkGlance> Work
    {
        get
        {
            if (Held is not null)
                yield break;
            foreach (var spool in Spools)
            {
                if (spool.ToCut.Length > 0)
                    yield return new(WorkKind.Cut, this, spool, spool.ToCut);
                else if (spool.ToFit.Length > 0)
                    yield return new(WorkKind.Fit, this, spool, spool.ToFit);
                if (spool.ToWeld.Length > 0)
                    yield return new(WorkKind.Weld, this, spool, spool.ToWeld);
                if (spool.ToLookAt.Length > 0)
                    yield return new(WorkKind.LookAt, this, spool, spool.ToLookAt);
                if (spool.State == SpoolState.Checked && !spool.IsErected)
                    yield return new(WorkKind.Send, this, spool, [spool.Name]);
            }
        }
    }
}

/// <summary>How it is kept in the browser: read without reflection, since a job has hundreds of them and the first page waits for all.</summary>
[JsonSourceGenerationOptions(GenerationMode = JsonSourceGenerationMode.Metadata)]
[JsonSerializable(typeof(DrawingGlance[]))]
[JsonSerializable(typeof(DrawingGlance))]
internal sealed partial class DrawingGlanceJson : JsonSerializerContext;

/// <summary>What can be done with a spool.</summary>
public enum WorkKind
{
    Fit,
    Cut,
    Weld,
    LookAt,
    Send,
}

/// <summary>Work that can be done now.</summary>
/// <param name="Of">Pieces, joints or spools.</param>
public sealed record WorkGlance(WorkKind Kind, DrawingGlance Drawing, SpoolGlance Spool, string[] Of);
