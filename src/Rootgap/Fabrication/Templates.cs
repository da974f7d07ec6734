using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Fabricating;

/// <summary>The templates that a drawing needs: for each stub-in, each cut elbow and each mitred bend.</summary>
public static class Templates
{
    public static IEnumerable<Template> Of(Fabrication f)
    {
        foreach (var cut in f.Cuts)
        {
            foreach (var saddle in Saddles(f, cut))
                yield return saddle;
        }

        foreach (var c in f.Route.Components)
        {
            if (c is MadeBend { IsMitred: true } mitred)
            {
                yield return Template.Mitre(string.Create(CultureInfo.InvariantCulture, $"{c.Id}: {c.Name}, NPS {c.Size}, each cut {Angles.ToDegrees(mitred.Cut):0.##}° from square"), c.Outside, mitred.Cut, PiecesOf(mitred, f.Units));
            }

        }

        // Elbows that are cut alike have one template.
        foreach (var alike in f.Route.Components.OfType<Bent>().Where(b => b is { IsCut: true, Radius: not null }).GroupBy(b => (b.Name, b.Size, b.Outside, b.Radius, Turn: Math.Round(b.Turn, 6))))
        {
            var c = alike.First();
            yield return Template.CutElbow(
                string.Create(CultureInfo.InvariantCulture, $"{string.Join(", ", alike.Select(b => b.Id))}: {c.Name} NPS {c.Size} cut to {Angles.ToDegrees(c.Turn):0.##}°"), c.Outside, c.Radius!.Value, c.Turn);
        }
    }

    private static string PiecesOf(MadeBend bend, Units units)
    {
        var (end, middle) = (bend.Piece(isEnd: true), bend.Piece(isEnd: false));
        return LengthText.Say(units, $"Pieces along heel, middle and throat, before the gaps: 2 ends {end.Heel:len}, {end.Middle:len}, {end.Throat:len}; {bend.Cuts - 1} between {middle.Heel:len}, {middle.Middle:len}, {middle.Throat:len}. Laid heel to throat they come out of one pipe.");
    }

    /// <summary>The saddles of a branch piece set on its header, or on two; none where it does not lie on it.</summary>
    public static IEnumerable<Template> Saddles(Fabrication f, Cut cut)
    {
        foreach (var isStart in (bool[])[true, false])
        {
            if (Saddle(f, cut, isStart) is { } saddle)
                yield return saddle;
        }
    }

    private static Template? Saddle(Fabrication f, Cut cut, bool isStart)
    {
        if (HeaderOf(f.Route, cut.Pipe, isStart) is not { } header)
            return null;
        var lean = LeanOf(header.Direction, Outward(cut.Pipe, isStart));
        // Its cut would run on for metres (along the header, for ever): the desk check stops it.
        if (Math.Sin(lean) < Math.Sin(Lean.Flattest))
            return null;
        var contact = cut.Pipe.Inside / 2;
        var headerOutside = Outside(f, header.Size);
        if (!Template.Fits(headerOutside / 2, contact, 0))
            return null;
        var (stands, weld) = (OnHeader(f.Route, cut.Pipe, isStart), WeldOf(f, cut, header.Name));
        var under = PieceUnder(f, cut, weld);
        // Of two saddles on one piece each bears its weld.
        var at = cut.Saddles is (not null, not null) && weld is not null ? $" at {weld.Id}" : "";
        var template = Template.BranchEnd(string.Create(CultureInfo.InvariantCulture, $"Piece {cut.Piece}{at}: NPS {cut.Pipe.Size} set on NPS {header.Size}{(stands.IsSquare ? "" : string.Create(CultureInfo.InvariantCulture, $" at {stands.Degrees:0.##}°"))}"), headerOutside, cut.Pipe.Outside, contact, lean, 0, f.Units,
            stands.Along(f.Route.Drawing.Shop.BranchRootGap), under is null ? "the header" : $"{under.Piece}, where the spool sheet sets {cut.Piece} on it",
            under is not null && EndOf(f.Route, under.Pipe, isStart: false) is { } ahead && EndOf(f.Route, under.Pipe, isStart: true) is { } behind ? (ahead, behind) : null);
        return f.Route.Pads.FirstOrDefault(p => p is { Width: not null, Branch: { } branch } && branch == header.Name) is { } pad ? template.With(pad) : template;
    }

    // The weld of a branch piece on the branch of that name: of two the one that lies there.
    private static Joint? WeldOf(Fabrication f, Cut branch, string name) =>
        f.Route.Joints.Where(j => j.Kind == JointKind.Branch && j.Between.Contains(branch.Pipe.Id))
            .MinBy(j => j.At.To(NameOf(f.Route, branch.Pipe, isStart: true) == name ? branch.Pipe.Start : branch.Pipe.End));

    // The piece that a branch piece is set on.
    private static Cut? PieceUnder(Fabrication f, Cut branch, Joint? weld) =>
        weld is null ? null : f.Cuts.FirstOrDefault(c => c.Pipe.Id != branch.Pipe.Id && weld.Between.Contains(c.Pipe.Id));

    // The joint at an end of a pipe; null where it is open.
    private static string? EndOf(Route route, PipePiece pipe, bool isStart) =>
        route.Joints.Where(j => j.Kind != JointKind.Branch && j.Between.Contains(pipe.Id) && (j.At.To(pipe.Start) <= j.At.To(pipe.End)) == isStart).MinBy(j => j.At.To(isStart ? pipe.Start : pipe.End))?.Id;

    /// <summary>How a branch piece stands on its header; null where it is set on none, or leans so flat that nothing can be said of its end.</summary>
    /// <returns>Outside radius of the header, mm, and the angle between the two axes, radians.</returns>
    internal static (double Header, double Lean)? SetOn(Route route, PipePiece pipe)
    {
        var isStart = pipe.AtStart.Kind == EndKind.SetOn;
        return HeaderOf(route, pipe, isStart) is var (_, size, direction) && LeanOf(direction, Outward(pipe, isStart)) is var lean && Math.Sin(lean) >= Math.Sin(Lean.Flattest) ? (Standards.Pipes.Outside(size, route.Drawing.Units) / 2, lean) : null;
    }

    /// <summary>How a pipe leans on the header that one of its ends is set on; square where it is set on none.</summary>
    internal static Lean OnHeader(Route route, PipePiece pipe, bool isStart) =>
        HeaderOf(route, pipe, isStart) is var (_, _, direction) ? Lean.Of(direction, Outward(pipe, isStart)) : Lean.Square;

    /// <summary>How an end of a pipe is cut to lie on its header; null where it is set on none.</summary>
    internal static SaddleEnd? SaddleOf(Route route, PipePiece pipe, bool isStart)
    {
        if (HeaderOf(route, pipe, isStart) is not { } header)
            return null;
        var radius = Standards.Pipes.Outside(header.Size, route.Drawing.Units) / 2;
        var (outward, along) = (Outward(pipe, isStart), header.Direction.SquareTo(pipe.Direction));
        return new(along.Length > Tolerance.Turn ? along.Unit : outward.AnySquare(), radius, Math.Min(pipe.Inside / 2, radius), OnHeader(route, pipe, isStart));
    }

    // From the header into the pipe.
    private static Vector Outward(PipePiece pipe, bool isStart) => isStart ? pipe.Direction : -pipe.Direction;

    private static double LeanOf(Vector header, Vector branch)
    {
        var lean = header.AngleTo(branch);
        return Math.Abs(lean - (Math.PI / 2)) < Tolerance.Turn ? Math.PI / 2 : lean;
    }

    /// <summary>Name of the branch that an end of a pipe is; null where it is set on nothing.</summary>
    private static string? NameOf(Route route, PipePiece pipe, bool isStart)
    {
        var run = route.Runs[pipe.Run].Run;
        return isStart ? pipe.AtStart.Kind == EndKind.SetOn ? run.Start.From : null : pipe.AtEnd.Kind == EndKind.SetOn && run.Legs[^1].To is TieInPoint tie ? tie.With : null;
    }

    private static (string Name, NominalSize Size, Vector Direction)? HeaderOf(Route route, PipePiece pipe, bool isStart)
    {
        if (NameOf(route, pipe, isStart) is not { } name)
            return null;
        foreach (var host in route.Runs)
        {
            for (var i = 0; i < host.Run.Legs.Count; i++)
            {
                if (host.Run.Legs[i].To.Name == name)
                    return (name, host.Sizes[i], host.Directions[i]);
            }
        }

        return null;
    }

    private static double Outside(Fabrication f, NominalSize size) => Standards.Pipes.Outside(size, f.Route.Drawing.Units);
}
