using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Sheets;

namespace Rootgap.Packets;

/// <summary>All that the shop gets for one drawing.</summary>
public sealed record Packet
{
    private IReadOnlyList<Finding>? findings;
    private Checks.CheckUnderWay? check;

    public required Drawing Drawing { get; init; }

    public required Fabrication Fabrication { get; init; }

    /// <summary>What the desk check finds, looked for when it is first asked: in the order of the file; accepted ones carry their reason.</summary>
    public IReadOnlyList<Finding> Findings
    {
        get
        {
            while (findings is null)
                LookOn();
            return findings;
        }
        init => findings = value;
    }

    /// <summary>Whether no finding stops fabrication. Where one does, every sheet says NOT FOR FABRICATION.</summary>
    public bool IsBuildable => !Findings.Any(f => f.Severity == Severity.Stop && f.AcceptedBecause is null);

    /// <summary>The worst of the findings that are not accepted; null where there is none.</summary>
    public Severity? Worst => Findings.Where(f => f.AcceptedBecause is null).Select(f => (Severity?)f.Severity).Max();

    /// <summary>What the sheets are made from.</summary>
    public ShopJob ToJob(Paper paper) => new(Fabrication, Findings, IsBuildable, paper);

    /// <summary>As <see cref="Of"/>; where the program fails over this drawing, null and what is to be told of it.</summary>
    public static Packet? TryOf(Drawing drawing, out Finding? fault)
    {
        try
        {
            fault = null;
            return Of(drawing);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            fault = Unchecked(drawing, e);
            return null;
        }
    }

    public static Packet Of(Drawing drawing) => new() { Drawing = drawing, Fabrication = Spooling.Of(Routing.Of(drawing)) };

    /// <summary>Looks for the findings a rule at a time, as a page does that must not stand still: until it says that there is nothing more to look for, after which they are there.</summary>
    /// <returns>Whether there is more to look for.</returns>
    public bool LookOn()
    {
        if (findings is not null)
            return false;
        try
        {
            check ??= new(Fabrication, Checks.DeskCheck.Rules);
            if (check.Step())
                return true;
            findings = check.Findings;
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            findings = [Unchecked(Drawing, e)];
        }

        check = null;
        return false;
    }

    private static Finding Unchecked(Drawing drawing, Exception e) =>
        ProgramFault.Of("This drawing could not be worked out", ProgramFault.Words(e), "Nothing is made from it; the other drawings are not touched by this.", drawing.Source.Path, drawing.Source["drawing"]);
}
