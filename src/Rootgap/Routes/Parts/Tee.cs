using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A tee: butt-welding by ASME B16.9, or forged by ASME B16.11.</summary>
public sealed record Tee : Component
{
    /// <summary>A seamless tee's body against its two tubes: the wall is thicker about the crotch (published factor, pipingengineer.org).</summary>
    private const double CrotchShare = 1.363;

    /// <summary>Its body where it is forged; null for a butt-welding tee.</summary>
    public ForgedBody? Forged { get; init; }

    /// <summary>Outside diameter and wall of the branch, mm.</summary>
    public double BranchOutside { get; init; }

    public double BranchWall { get; init; }

    public Port RunIn => Of(PortName.RunIn);

    public Port RunOut => Of(PortName.RunOut);

    public Port Branch => Of(PortName.Branch);

    /// <summary>A lateral: its branch leans.</summary>
    private LateralSheet? Lateral => (Drawn as TeePoint)?.Lateral;

    public override string Word => "tee";

    public override string Name => Forged?.Table.Item ?? (Lateral is null ? Size2.IsNone ? "tee" : "reducing tee" : Size2.IsNone ? "lateral" : "reducing lateral");

    public override Ware Ware => Ware.Tee;

    public override string RatingClass => Forged is null ? "" : Line.FittingClass;

    public override bool IsBySchedule => true;

    public override bool IsTwoWalled => true;

    public override bool ShowsClock => true;

    public override bool LiesAlongLine => false;

    public override IEnumerable<(Point From, Point To)> MiddleLines => Ports.Select(p => (p.At, WorkPoint));

    public override MadeTo MadeTo => MadeTo.CentreToEnd;

    public override IsometricSign Sign => IsometricSign.Tee;

    public override IReadOnlyList<Solid> Bodies => Outside <= 0
        ? []
        : [.. Arm(RunIn.At, RunOut.At, Outside), .. Arm(WorkPoint, Branch.At, BranchOutside).Select(b => b with { IsSetOn = true })];

    private static IEnumerable<Solid> Arm(Point from, Point to, double outside) => from.To(to) > Tolerance.Noise ? [Solid.Cylinder(from, to, outside / 2)] : [];

    private double RunLength => RunIn.At.To(RunOut.At);

    /// <summary>Its branch from the outside of its run to its end, mm.</summary>
    private double BranchLength => Math.Max(0, Branch.At.To(WorkPoint) - Lean.Of(RunOut.Face, Branch.Face).Along(Outside / 2));

    private double BranchPerLength => Pipes.MassPerLength(BranchOutside, BranchWall, Density);

    public override double Path => RunLength + BranchLength;

    public override Mass? Mass => Lateral is { Mass: { } stated } ? new(stated, Origin.Drawing) : Forged?.MassOf(this, Density) ?? new(CrotchShare * ((PerLength * RunLength) + (BranchPerLength * BranchLength)), TwoTubes);

    private static readonly Origin TwoTubes = new Origin.Rule("geometry: two tubes and the crotch");

    /// <summary>Of its two tubes: the run from end to end, the branch from the run's outside to its end.</summary>
    public override Point Centre
    {
        get
        {
            var (run, branch) = (PerLength * RunLength, BranchPerLength * BranchLength);
            var middle = RunIn.At.Toward(RunOut.At, 0.5);
            return run + branch > 0 ? middle.Toward(Branch.At - (Branch.Face * (BranchLength / 2)), branch / (run + branch)) : middle;
        }
    }

    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Line.Ends) || words.IsLateral != (Lateral is not null);

    internal override int? Fits(MaterialItem row) =>
        row.Size2 != Size2 || row.Words.IsLateral != (Lateral is not null) ? null : ItemSearch.Ends(row, Line.Ends) + ItemSearch.ForgedClass(row, this, Line.Ends) + ItemSearch.Schedule(row, this);

    internal static Station Station(StationMaking make, Situation s, TeePoint p)
    {
        var runSize = p.EnterBranch ? p.RunSize ?? s.Size : s.Size;
        var branchSize = p.EnterBranch ? s.Size : p.BranchSize ?? s.Size;
        if (p.EnterBranch && p.BranchSize is { } said && said != s.Size)
            make.Stop(s, "size-changes-without-reducer", "branch size", $"The line comes in at NPS {s.Size}, and the branch of this tee is said to be NPS {said}.", "Write the run's size as `size:`; the branch has the size of the line that comes in.");
        if (branchSize > runSize)
            make.Stop(s, "branch-larger-than-run", "branch size", $"The branch of this tee is NPS {branchSize}, larger than its run, NPS {runSize}.", "Turn the tee, or put the reducer on the run.");
        var reducing = branchSize != runSize;
        var small = reducing ? branchSize : default;
        var isButt = s.Line.Ends == FittingEnds.Butt || p.Lateral is not null;
        var table = s.Line.Ends == FittingEnds.Socket ? Standards.Forged.SocketTee : Standards.Forged.ThreadedTee;
        var (branchOutside, branchWall) = make.Tube(s, branchSize, s.Line.Ends == FittingEnds.Butt);
        var tee = make.Sized(s, new Tee
        {
            Size = runSize, Size2 = small, Line = s.Line, Drawn = p, Source = s.Source, BranchOutside = branchOutside, BranchWall = branchWall, Forged = isButt ? null : ForgedBody.Of(make, table, s with { Size = runSize }),
        });
        var item = make.Item(s, tee, out var stated);
        if (p.Lateral is { } sheet)
            return LateralStation(s, p, sheet, tee, branchSize, item, stated);
        PipeEnd run, branch;
        double runFace, branchFace;
        if (isButt)
        {
            var (c, m) = reducing ? (ButtWeld.ReducingTeeRun, ButtWeld.ReducingTeeBranch) : (ButtWeld.TeeRun, ButtWeld.TeeBranch);
            run = new(EndKind.Butt, [make.Measured(item, make.Book.Term(s.Source, "tee take-off, run", c, runSize, small))]);
            branch = new(EndKind.Butt, [make.Measured(item, make.Book.Term(s.Source, "tee take-off, branch", m, runSize, small))]);
            (runFace, branchFace) = (run.Distance, branch.Distance);
        }
        else
        {
            // ASME B16.11: a reducing tee has the dimensions of its largest end.
            (run, runFace) = ForgedBody.End(make, s, table, item, runSize);
            (branch, branchFace) = (run, runFace);
        }

        PartEnd Run(PortName name, Way way) => new(name, way, runFace, tee.Outside, tee.Inside);
        PartEnd Side(Way way) => new(PortName.Branch, way, branchFace, branchOutside, Math.Max(0, branchOutside - (2 * branchWall)));
        return Routes.Station.Plain(s, EndKind.Butt) with
        {
            In = p.EnterBranch ? branch : run,
            InPart = 0,
            Out = run,
            OutPart = 0,
            Branch = p.EnterBranch ? run : branch,
            BranchPart = 0,
            OutSize = runSize,
            BranchSize = p.EnterBranch ? runSize : branchSize,
            // The ends stand in the order of the line: what is left for another run comes last, and each knows by its name what it is.
            Parts =
            [
                tee with
                {
                    Ways = p.EnterBranch
                        ? [Side(Way.In), Run(PortName.RunOut, Way.Out), Run(PortName.RunIn, Way.Branch)]
                        : [Run(PortName.RunIn, Way.In), Run(PortName.RunOut, Way.Out), Side(Way.Branch)],
                },
            ],
            Items = [item],
            IsItemStated = stated,
        };
    }

    /// <summary>A lateral by its maker's sheet: the run is longer on the side to which the branch leans.</summary>
    private static Station LateralStation(Situation s, TeePoint p, LateralSheet sheet, Tee lateral, NominalSize branchSize, MaterialItem? item, bool stated)
    {
        static PipeEnd End(string what, double mm) => new(EndKind.Butt, [new(what, -mm, Origin.Drawing)]);
        var leansOn = s.Direction.Dot(p.Branch!.Value) > 0;
        var (back, on) = (End(leansOn ? "lateral, short end" : "lateral, long end", leansOn ? sheet.ShortEnd : sheet.LongEnd), End(leansOn ? "lateral, long end" : "lateral, short end", leansOn ? sheet.LongEnd : sheet.ShortEnd));
        var branch = End("lateral, branch end", sheet.BranchEnd);
        return Routes.Station.Plain(s, EndKind.Butt) with
        {
            In = back,
            InPart = 0,
            Out = on,
            OutPart = 0,
            Branch = branch,
            BranchPart = 0,
            BranchSize = branchSize,
            Parts =
            [
                lateral with
                {
                    Ways =
                    [
                        new(PortName.RunIn, Way.In, back.Distance, lateral.Outside, lateral.Inside), new(PortName.RunOut, Way.Out, on.Distance, lateral.Outside, lateral.Inside),
                        new(PortName.Branch, Way.Branch, branch.Distance, lateral.BranchOutside, Math.Max(0, lateral.BranchOutside - (2 * lateral.BranchWall))),
                    ],
                },
            ],
            Items = [item],
            IsItemStated = stated,
        };
    }
}
