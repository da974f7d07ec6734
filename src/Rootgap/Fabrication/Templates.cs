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
            if (Saddle(f, cut) is { } saddle)
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

    /// <summary>The saddle of a branch piece set on its header; null where the piece has none or does not lie on it.</summary>
    public static Template? Saddle(Fabrication f, Cut cut)
    {
        if (HeaderOf(f.Route, cut.Pipe) is not { } header)
            return null;
        var lean = LeanOf(header.Direction, cut.Pipe);
        // Its cut would run on for metres (along the header, for ever): the desk check stops it.
        if (Math.Sin(lean) < Math.Sin(Lean.Flattest))
            return null;
        var contact = cut.Pipe.Inside / 2;
        var headerOutside = Outside(f, header.Size);
        var pad = f.Route.Pads.FirstOrDefault(p => p is { Width: not null, Branch: { } branch } && branch == NameOf(f.Route, cut.Pipe));
        return !Template.Fits(headerOutside / 2, contact, 0) ? null
            : pad is not null ? Of().With(pad) : Of();

        Template Of() => Template.BranchEnd(string.Create(CultureInfo.InvariantCulture, $"Piece {cut.Piece}: NPS {cut.Pipe.Size} set on NPS {header.Size}{(cut.Lean.IsSquare ? "" : string.Create(CultureInfo.InvariantCulture, $" at {cut.Lean.Degrees:0.##}°"))}"), headerOutside, cut.Pipe.Outside, contact, lean, 0, f.Units,
            cut.Lean.Along(f.Route.Drawing.Shop.BranchRootGap), PieceUnder(f, cut) is { } under ? $"{under}, where the spool sheet sets {cut.Piece} on it" : "the header");
    }

    // The mark of the pipe that a branch piece is set on.
    private static string? PieceUnder(Fabrication f, Cut branch) =>
        f.Route.Joints.FirstOrDefault(j => j.Kind == JointKind.Branch && j.Between.Contains(branch.Pipe.Id)) is { } weld
            ? f.Cuts.FirstOrDefault(c => c.Pipe.Id != branch.Pipe.Id && weld.Between.Contains(c.Pipe.Id))?.Piece : null;

    /// <summary>How a branch piece stands on its header; null where it is set on none, or leans so flat that nothing can be said of its end.</summary>
    /// <returns>Outside radius of the header, mm, and the angle between the two axes, radians.</returns>
    internal static (double Header, double Lean)? SetOn(Route route, PipePiece pipe) =>
        HeaderOf(route, pipe) is var (size, direction) && LeanOf(direction, pipe) is var lean && Math.Sin(lean) >= Math.Sin(Lean.Flattest) ? (Standards.Pipes.Outside(size, route.Drawing.Units) / 2, lean) : null;

    /// <summary>How a pipe leans on the header that it is set on; square where it is set on none.</summary>
    internal static Lean OnHeader(Route route, PipePiece pipe) =>
        HeaderOf(route, pipe) is var (_, direction) ? Lean.Of(direction, pipe.AtStart.Kind == EndKind.SetOn ? pipe.Direction : -pipe.Direction) : Lean.Square;

    /// <summary>What the pipe must be longer than its sum for a set-on end, mm: its sides, or the heel of one that leans, reach farther down than where its middle line meets the header's outside (see <see cref="Template.Meeting"/>).</summary>
    internal static double SaddleDepth(Route route, PipePiece pipe, Lean lean)
    {
        if (HeaderOf(route, pipe) is not { } header)
            return 0;
        var a = Standards.Pipes.Outside(header.Size, route.Drawing.Units) / 2;
        var b = Math.Min(pipe.Inside / 2, a);
        var level = Math.Sqrt((a * a) - (b * b));
        if (lean.IsSquare)
            return a - level;
        // Of a + b that meet at an angle the least distance lies at the heel, or where the curve turns beside it: there it is the square branch's level.
        var (sin, cos) = (Math.Sin(lean.Radians), Math.Abs(Math.Cos(lean.Radians)));
        var deepest = b > 0 && level * cos / sin < b ? level : (a - (b * cos)) / sin;
        return lean.Along(a) - deepest;
    }

    private static double LeanOf(Vector header, PipePiece pipe)
    {
        var lean = header.AngleTo(pipe.AtStart.Kind == EndKind.SetOn ? pipe.Direction : -pipe.Direction);
        return Math.Abs(lean - (Math.PI / 2)) < Tolerance.Turn ? Math.PI / 2 : lean;
    }

    /// <summary>Name of the branch that a pipe is; null where it is set on nothing.</summary>
    private static string? NameOf(Route route, PipePiece pipe)
    {
        var run = route.Runs[pipe.Run].Run;
        return pipe.AtStart.Kind == EndKind.SetOn ? run.Start.From : pipe.AtEnd.Kind == EndKind.SetOn && run.Legs[^1].To is TieInPoint tie ? tie.With : null;
    }

    private static (NominalSize Size, Vector Direction)? HeaderOf(Route route, PipePiece pipe)
    {
        if (NameOf(route, pipe) is not { } name)
            return null;
        foreach (var host in route.Runs)
        {
            for (var i = 0; i < host.Run.Legs.Count; i++)
            {
                if (host.Run.Legs[i].To.Name == name)
                    return (host.Sizes[i], host.Directions[i]);
            }
        }

        return null;
    }

    private static double Outside(Fabrication f, NominalSize size) => Standards.Pipes.Outside(size, f.Route.Drawing.Units);
}
