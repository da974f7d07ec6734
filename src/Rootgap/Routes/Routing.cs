using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>Places a drawing in space.</summary>
public static class Routing
{
    /// <summary>The route of a drawing; what cannot be placed as drawn is placed as near as may be and is a finding.</summary>
    public static Route Of(Drawing drawing)
    {
        var findings = new List<Finding>();
        var book = new Catalogue(drawing, findings);
        var placed = new Placing(drawing, book, findings).All();
        var parts = new PartNumbers(placed);
        var pipes = PipeLaying.Lay(drawing, placed, parts, book, findings);
        return new Route
        {
            Drawing = drawing,
            Components = parts.Components,
            Pipes = pipes.Pieces,
            Joints = pipes.Joints,
            Supports = pipes.Supports,
            Pads = pipes.Pads,
            Seams = pipes.Seams,
            Runs = [.. placed.Select(p => new RunLine(p.Run, p.Points, p.Directions, p.Distances, p.Sizes))],
            Findings = [.. findings.OrderBy(f => f.Where.Line).ThenBy(f => f.Where.Column)],
        };
    }
}

/// <summary>One run, placed: station 0 stands at its start, station i + 1 at the end of leg i.</summary>
internal sealed record PlacedRun(
    int Index, Run Run, Station[] Stations, Point[] Points, Vector[] Directions, double[] Distances, NominalSize[] Sizes, bool[] HasNoPipe)
{
    /// <summary>Index of the run and station from whose branch this one starts; -1 where it has a start of its own.</summary>
    public (int Run, int Station) From { get; init; } = (-1, -1);

    /// <summary>Run and station at whose branch this run ends; -1 where it does not.</summary>
    public (int Run, int Station) TiesTo { get; init; } = (-1, -1);

    /// <summary>Direction of the branch at a station: as drawn, or for a tee entered by its branch opposite to the next leg.</summary>
    public Vector BranchDirection(int station) => Stations[station].Point switch
    {
        TeePoint { EnterBranch: false, Branch: { } b } => b.Unit,
        TeePoint => station < Directions.Length ? -Directions[station] : Directions[^1].AnySquare(),
        OutletPoint o => o.Branch.Unit,
        StubInPoint b => b.Branch.Unit,
        _ => Vector.Zero,
    };
}

/// <summary>Works out the stations and work points of all runs, those first from which others start.</summary>
internal sealed class Placing(Drawing drawing, Catalogue book, List<Finding> findings)
{
    /// <summary>A stated place this near to the drawn one, mm, may be a survey's rather than a slip: what stands outside is seldom farther off (common practice).</summary>
    private const double SurveyedWithin = 100;

    /// <summary>How near a drawn distance must come to fitting on fitting for there to be no pipe, mm.</summary>
    private const double MadeUp = 0.5;

    private readonly PlacedRun?[] placed = new PlacedRun?[drawing.Runs.Count];
    private readonly PlacedRun?[] stationed = new PlacedRun?[drawing.Runs.Count];
    private readonly StationMaking making = new(drawing, book, findings);

    public PlacedRun[] All()
    {
        for (var i = 0; i < placed.Length; i++)
            Place(i);
        var all = placed.Select(p => p!).ToArray();
        for (var i = 0; i < all.Length; i++)
        {
            if (all[i].TiesTo.Run >= 0)
                CheckTieIn(all, all[i]);
        }

        return all;
    }

    /// <summary>A run with its work points in place.</summary>
    private PlacedRun Place(int index)
    {
        if (placed[index] is { } done)
            return done;
        var host = drawing.Runs[index].Start.From is { } name ? Place(Named(name).Run) : null;
        var run = Stationed(index);
        var (legs, points) = (run.Run.Legs, run.Points);
        points[0] = host is null ? run.Run.Start.At ?? Point.Origin : host.Points[run.From.Station];
        for (var i = 0; i < legs.Count; i++)
        {
            // A nipple goes as far into the part that the run ties into as into any other; pipe is cut for it.
            var end = legs[i] is { Nipple: not null, To: TieInPoint } ? Stationed(run.TiesTo.Run).Stations[run.TiesTo.Station].Branch ?? run.Stations[i + 1].In : run.Stations[i + 1].In;
            (run.Distances[i], run.HasNoPipe[i]) = Measure(legs[i], run.Stations[i].Out, end);
            points[i + 1] = points[i] + (run.Directions[i] * run.Distances[i]) + run.Stations[i + 1].Step;
            CheckStated(legs[i], points[i + 1]);
        }

        return placed[index] = run;
    }

    /// <summary>A run with its stations made up, its points and distances not yet in place: what stands where a run ties in is known before it is known where that is.</summary>
    private PlacedRun Stationed(int index)
    {
        if (stationed[index] is { } done)
            return done;
        var run = drawing.Runs[index];
        var legs = run.Legs;
        var directions = legs.Select(l => l.Direction).ToArray();
        var stations = new Station[legs.Count + 1];
        var from = (Run: -1, Station: -1);
        var size = run.Line.Size;
        if (run.Start.From is { } name)
        {
            from = Named(name);
            var host = Stationed(from.Run);
            var station = host.Stations[from.Station];
            CheckLeaving(run, host, from.Station, directions[0]);
            size = station.BranchSize;
            if (run.Source.Has("size") && run.Line.Size != size)
                Stop("size-changes-without-reducer", run.Source, "size", $"This run is said to be NPS {run.Line.Size}, but \"{name}\" gives NPS {size}.", "Mend one of the two sizes, or put a reducer on the run.");
            stations[0] = new Station
            {
                Point = station.Point,
                Line = run.Line,
                Source = run.Start.Source,
                In = new(EndKind.Free, []),
                Out = station.Branch ?? new(EndKind.Free, []),
                OutSize = size,
            };
        }
        else
        {
            stations[0] = making.Of(new(run.Start.Ends!, run.Line with { Size = size }, size, directions[0], directions[0], IsStart: true, run.Start.Source, run.Start.Item));
        }

        var sizes = new NominalSize[legs.Count];
        for (var i = 0; i < legs.Count; i++)
        {
            var leg = legs[i];
            if (leg.StatesSize is { } stated && stated != size)
            {
                Stop("size-changes-without-reducer", leg.Source, "size", $"The line is NPS {size} up to here, and this leg is said to be NPS {stated}.", leg.To is TeePoint ? "A tee has the size of its line: write `branch size:` for that of its branch." : "Put a reducer at the end of the leg before, or mend the size.");
                if (leg.To is not TeePoint)
                    size = stated;
            }

            sizes[i] = size;
            var next = i + 1 < legs.Count ? directions[i + 1] : (Vector?)null;
            CheckStraight(leg, directions[i], next);
            stations[i + 1] = making.Of(new(leg.To, leg.Line with { Size = size }, size, directions[i], next, IsStart: false, leg.Source, leg.Item)
            {
                BehindReturn = IsReturn(legs, i + 1) ? directions[i + 2] : null,
                ReturnBefore = IsReturn(legs, i) ? stations[i] : null,
            });
            size = stations[i + 1].OutSize;
        }

        var tie = legs is [.., { To: TieInPoint t }] ? Named(t.With) : (-1, -1);
        return stationed[index] = new(index, run, stations, new Point[legs.Count + 1], directions, new double[legs.Count], sizes, new bool[legs.Count]) { From = from, TiesTo = tie };
    }

    /// <summary>Whether a leg is the middle of a return bend; in a drawing that is half written, one that has no other end yet is none.</summary>
    private static bool IsReturn(IReadOnlyList<Leg> legs, int i) =>
        i > 0 && i + 1 < legs.Count && legs[i].IsReturn && legs[i].To is ElbowPoint { Bend: null } && legs[i - 1].To is ElbowPoint { Bend: null };

    private (int Run, int Station) Named(string name)
    {
        for (var r = 0; r < drawing.Runs.Count; r++)
        {
            for (var l = 0; l < drawing.Runs[r].Legs.Count; l++)
            {
                if (drawing.Runs[r].Legs[l].To.Name == name)
                    return (r, l + 1);
            }
        }

        throw new InvalidOperationException("The reader lets only known names through.");
    }

    private void Stop(string rule, SourceRow row, string key, string message, string remedy) =>
        findings.Add(new(rule, Severity.Stop, row.Path, row[key], message, remedy));

    /// <summary>The leg's distance, and whether fitting stands on fitting so that there is no pipe.</summary>
    private (double Distance, bool HasNoPipe) Measure(Leg leg, PipeEnd a, PipeEnd b)
    {
        var shop = drawing.Shop;
        var gap = shop.MakeUpGapIgnored || !a.IsButt || !b.IsButt || leg.IsReturn ? 0 : shop.RootGap;
        if (leg.Nipple is { } nipple)
            return (WithNipple(leg, a, b, nipple), false);
        if (a.Takes(b) || b.Takes(a))
            return (IntoEachOther(leg, a, b), true);
        if (a.IsMale || b.IsMale)
        {
            Stop("male-end-without-fitting", leg.Source, "to", $"A {Says(a.IsMale ? b : a)} meets a {Says(a.IsMale ? a : b)} here: neither goes into the other.", a.IsMale && b.IsMale || !leg.MakeUp ? "Put a coupling between them, or mend the ends." : "Mend the ends of one of the two.");
            return (leg.Distance ?? a.Distance + b.Distance, true);
        }

        if (leg.MakeUp)
        {
            if (!a.IsButt || !b.IsButt)
            {
                Stop("no-make-up-without-pipe", leg.Source, "by", $"A {Says(a, b)} cannot stand directly on the next fitting: it needs pipe.", "Write a distance that leaves room for a nipple.");
            }

            return (a.Distance + b.Distance + gap, true);
        }

        var distance = leg.Distance!.Value;
        if (a.Kind != EndKind.Butt || b.Kind != EndKind.Butt)
            return (distance, false);
        var left = distance - a.Distance - b.Distance;
        if (Math.Abs(left - gap) <= MadeUp)
            return (distance, true);
        if (Math.Abs(left) > MadeUp)
            return (distance, false);
        findings.Add(new("makeup-gap-left-out", Severity.Note, leg.Source.Path, leg.Source["by"],
            LengthText.Say(drawing.Units, $"{distance:len} is the sum of the two take-offs with no room for the root gap of {gap:small}."),
            "Ask which is meant: with the gap write `by: makeup`; without it set the shop's `makeup gap: ignored`."));
        return (distance, true);
    }

    /// <summary>The leg's distance with a nipple in it.</summary>
    private double WithNipple(Leg leg, PipeEnd a, PipeEnd b, double nipple)
    {
        var needed = a.Distance + b.Distance + a.Gap(drawing.Shop.RootGap) + b.Gap(drawing.Shop.RootGap) + nipple;
        if (a.IsMale || b.IsMale)
            Stop("male-end-without-fitting", leg.Source, "nipple", "A nipple cannot be joined to a fitting's own male end.", "Put a coupling between them.");
        if (leg.MakeUp)
            return needed;
        var distance = leg.Distance!.Value;
        if (Math.Abs(distance - needed) > Tolerance.Closing)
        {
            Stop("nipple-length", leg.Source, "nipple", LengthText.Say(drawing.Units, $"With this nipple the leg is {needed:len} long, and {distance:len} is drawn."),
                "Write `by: makeup` where the nipple sets the distance, or order the nipple that fits.");
        }

        return distance;
    }

    /// <summary>The distance where one fitting's own end goes into the other fitting.</summary>
    private double IntoEachOther(Leg leg, PipeEnd a, PipeEnd b)
    {
        var needed = a.Distance + b.Distance;
        if (leg.Distance is { } drawn && Math.Abs(drawn - needed) > Tolerance.Closing)
        {
            Stop("male-end-without-fitting", leg.Source, "by", LengthText.Say(drawing.Units, $"The one goes straight into the other, and so the leg is {needed:len} long; {drawn:len} is drawn."),
                "Write `by: makeup`, or put a coupling and pipe between them.");
        }

        return needed;
    }

    private static string Says(PipeEnd end) => end.Kind switch
    {
        EndKind.PlainMale => "plain male end",
        EndKind.ThreadedMale => "male thread",
        EndKind.Butt or EndKind.ButtHalfGap => "butt end",
        EndKind.Socket => "socket",
        EndKind.Threaded => "thread",
        _ => Says(end, end),
    };

    private static string Says(PipeEnd a, PipeEnd b) => (a.IsButt ? b : a).Kind switch
    {
        EndKind.Socket => "socket",
        EndKind.Threaded => "threaded end",
        EndKind.SlipOn => "slip-on flange",
        EndKind.SetOn => "set-on branch",
        _ => "free end",
    };

    private void CheckStraight(Leg leg, Vector direction, Vector? next)
    {
        if (next is not { } n)
            return;
        if (leg.To is TeePoint { EnterBranch: true })
        {
            var offSquare = Math.Abs(direction.AngleTo(n) - (Math.PI / 2));
            if (offSquare > Tolerance.Turn && offSquare <= Slope.Slight && (Slope.IsSlight(direction) || Slope.IsSlight(n)))
                Sloped(leg.Source, "to", offSquare, "Set the tee square to one of the two lines, and take the slope up in the welds.");
            else if (offSquare > Tolerance.Turn)
                Stop("branch-not-square", leg.Source, "to", "A tee entered by its branch turns the line square: the next leg does not leave square to this one.", "Mend the direction of the next leg.");
            return;
        }

        CheckBranch(leg, direction);
        if (leg.To is ElbowPoint || direction.AngleTo(n) < Tolerance.Turn)
            return;
        if (direction.AngleTo(n) >= Math.PI - Tolerance.Turn)
        {
            Stop("turns-back-on-itself", leg.Source, "to", "The next leg goes straight back along this one.", "Mend the direction of this leg or the next.");
            return;
        }

        Stop("turn-without-elbow", leg.Source, "to",
            string.Create(CultureInfo.InvariantCulture, $"The next leg turns by {Angles.ToDegrees(direction.AngleTo(n)):0.##} degrees, and {Words.A(leg.To.Word)} goes straight on."),
            IsOneLine(direction, n) ? "The two legs go the same way in plan, and only their slopes differ: give both the same slope, or put an elbow here." : "Put an elbow here, or mend the direction of one of the two legs.");
    }

    /// <summary>Whether two legs go on in one direction in plan, both level or nearly so.</summary>
    private static bool IsOneLine(Vector a, Vector b) =>
        Math.Abs(a.Z) < Slope.Slight && Math.Abs(b.Z) < Slope.Slight && a.SquareTo(Vector.Up).AngleTo(b.SquareTo(Vector.Up)) < Tolerance.Turn;

    private void CheckBranch(Leg leg, Vector direction)
    {
        var branch = leg.To switch { TeePoint { Branch: { } b } => b, OutletPoint o => o.Branch, StubInPoint s => s.Branch, _ => Vector.Zero };
        if (branch == Vector.Zero)
            return;
        var off = Math.Abs(direction.AngleTo(branch) - (Math.PI / 2));
        if (leg.To is TeePoint { Lateral: not null } && off < NearlySquare)
        {
            Stop("branch-not-square", leg.Source, "branch", string.Create(CultureInfo.InvariantCulture, $"The branch of this lateral makes {Angles.ToDegrees(direction.AngleTo(branch)):0.##} degrees with its run."), "Give the direction in which it leans, or write a `tee`.");
            return;
        }

        if (off <= Tolerance.Turn)
            return;
        if (off <= Slope.Slight && (leg.Slope != 0 || Slope.IsSlight(direction)))
        {
            Sloped(leg.Source, "branch", off, "Set the branch square to the run or upright, as the drawing wants it.");
            return;
        }

        if (off >= (Math.PI / 2) - (leg.To is TeePoint { Lateral: null } ? Tolerance.Turn : Lean.Flattest))
        {
            Stop("branch-along-header", leg.Source, "branch", $"This branch points along its own header: {Words.A(leg.To.Word)} leaves it at the side.", "Give the side on which the branch leaves.");
            return;
        }

        var makes = string.Create(CultureInfo.InvariantCulture, $"This branch makes {Angles.ToDegrees(direction.AngleTo(branch)):0.##} degrees with its run");
        if (leg.To is TeePoint { Lateral: null })
            Stop("branch-not-square", leg.Source, "branch", $"{makes}; {Words.A(leg.To.Word)} makes 90.", "Give a branch direction square to the run, or write a `lateral`.");
        else if (off < NearlySquare)
            findings.Add(new("branch-not-square", Severity.Warn, leg.Source.Path, leg.Source["branch"], $"{makes}, which is nearly square.", "Look whether it is meant to lean."));
        else if (off > UsualLean)
            findings.Add(new("branch-not-square", Severity.Warn, leg.Source.Path, leg.Source["branch"], $"{makes}: flatter than the 45 degrees down to which ASME B31.3 304.3.3 has a rule for its reinforcement.", "Ask the engineer how it is reinforced."));
    }

    /// <summary>A branch that leans less than this off square is mostly a slip, radians (common practice: laterals lean by 30 degrees and more).</summary>
    private const double NearlySquare = 20 * Math.PI / 180;

    /// <summary>ASME B31.3 304.3.3 reinforces branches by its rule down to 45 degrees.</summary>
    private const double UsualLean = (Math.PI / 4) + Tolerance.Turn;

    private void Sloped(SourceRow row, string key, double off, string remedy) => findings.Add(new("branch-on-slope", Severity.Note, row.Path, row[key],
        string.Create(CultureInfo.InvariantCulture, $"With the slope, branch and run stand {Angles.ToDegrees(off):0.##} degrees off square or off their axis here."), remedy));

    private void CheckLeaving(Run run, PlacedRun host, int station, Vector direction)
    {
        var branch = host.BranchDirection(station);
        var off = branch.AngleTo(direction);
        if (off <= Tolerance.Turn || branch == Vector.Zero)
            return;
        if (off <= Slope.Slight && Slope.IsSlight(direction))
        {
            Sloped(run.Legs[0].Source, run.Legs[0].Slope > 0 ? "rise" : "fall", off, "Roll the fitting about the header by as much, or take the slope up in the first weld.");
            return;
        }

        Stop("run-leaves-wrong-way", run.Legs[0].Source, "go",
            string.Create(CultureInfo.InvariantCulture, $"This run leaves \"{run.Start.From}\" {Angles.ToDegrees(off):0.##} degrees away from where its free end points."),
            "Mend the direction of this leg, or of the branch.");
    }

    private void CheckStated(Leg leg, Point found)
    {
        if (leg.At is not { } stated)
            return;
        CheckClosing(leg, "at", found - stated, "the drawing says this work point stands");
    }

    private void CheckTieIn(PlacedRun[] all, PlacedRun run)
    {
        var host = all[run.TiesTo.Run];
        var leg = run.Run.Legs[^1];
        CheckClosing(leg, "with", run.Points[^1] - host.Points[run.TiesTo.Station], $"\"{((TieInPoint)leg.To).With}\" stands");
        var off = (-host.BranchDirection(run.TiesTo.Station)).AngleTo(run.Directions[^1]);
        if (off > Tolerance.Turn && off <= Slope.Slight && Slope.IsSlight(run.Directions[^1]))
            Sloped(leg.Source, leg.Slope > 0 ? "rise" : "fall", off, "Roll the fitting about the header by as much, or take the slope up in the last weld.");
        else if (off > Tolerance.Turn)
            Stop("run-leaves-wrong-way", leg.Source, "go", string.Create(CultureInfo.InvariantCulture, $"This leg comes to the branch {Angles.ToDegrees(off):0.##} degrees away from its axis."), "Mend the direction of this leg, or of the branch.");
        if (run.Sizes[^1] != host.Stations[run.TiesTo.Station].BranchSize)
            Stop("size-changes-without-reducer", leg.Source, "with", $"The run comes with NPS {run.Sizes[^1]}, and the branch is NPS {host.Stations[run.TiesTo.Station].BranchSize}.", "Put a reducer on the run, or mend a size.");
    }

    private void CheckClosing(Leg leg, string key, Vector error, string what)
    {
        if (error.Length <= Tolerance.Closing)
            return;
        var parts = new List<string>();
        foreach (var (mm, plus, minus) in new[] { (error.X, "east", "west"), (error.Y, "north", "south"), (error.Z, "up", "down") })
        {
            if (Math.Abs(mm) > 0.05)
                parts.Add(LengthText.Say(drawing.Units, $"{Math.Abs(mm):len} {(mm > 0 ? plus : minus)}"));
        }

        var onlyUp = Math.Abs(error.X) <= Tolerance.Closing && Math.Abs(error.Y) <= Tolerance.Closing;
        Stop(onlyUp ? "elevation-does-not-close" : "does-not-close", leg.Source, key, $"The legs end {string.Join(", ", parts)} of where {what}.", "Read the figures on this way against the drawing before any steel is cut."
            + (leg.At is not null && error.Length < SurveyedWithin ? " Or, where the place is surveyed as it stands: `rootgap close --begin FILE` offers it as a reading of a survey, and the final fit takes it up." : ""));
    }
}
