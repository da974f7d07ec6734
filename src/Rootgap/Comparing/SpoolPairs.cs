namespace Rootgap.Comparing;

/// <summary>Finds the spools of one drawing in the other: each is where most of its parts are now, as well as it can be had for all of them together.</summary>
internal static class SpoolPairs
{
    public static List<SpoolChange> Of(Steel before, Steel after, SteelMap map, SteelTurns turns, IReadOnlyList<PieceChange> pieces, List<PartChange> parts)
    {
        var (old, @new) = (before.Made.Spools, after.Made.Spools);
        var shared = new int[@new.Count, old.Count];
        var (oldIndex, newIndex) = (Index(old), Index(@new));
        foreach (var o in before.Parts)
        {
            if (map.Of(o) is { } n && before.Made.SpoolOf.TryGetValue(o.Id, out var was) && after.Made.SpoolOf.TryGetValue(n.Id, out var now))
                shared[newIndex[now], oldIndex[was]]++;
        }

        // One column more for each: a spool that shares nothing with any is a new one.
        var columns = Assignment.Of(@new.Count, old.Count + @new.Count, (n, o) => o >= old.Count ? 0 : shared[n, o] == 0 ? 1 : -shared[n, o] - (@new[n].Name == old[o].Name ? 0.5 : 0));
        List<SpoolChange> changes = [];
        for (var n = 0; n < @new.Count; n++)
            changes.Add(columns[n] < old.Count ? new(old[columns[n]].Name, @new[n].Name, Why(old[columns[n]], @new[n].Name)) : new(null, @new[n].Name, []));
        changes.AddRange(old.Where((_, o) => !columns.Contains(o)).Select(o => new SpoolChange(o.Name, null, [])));
        return changes;

        static Dictionary<string, int> Index(IReadOnlyList<Fabricating.Spool> spools) => spools.Select((s, i) => (s.Name, i)).ToDictionary(s => s.Name, s => s.i, StringComparer.Ordinal);

        List<string> Why(Fabricating.Spool spool, string name)
        {
            var why = new List<string>();
            foreach (var piece in pieces)
            {
                var (wasHere, isHere) = (piece.Old?.Spool == spool.Name, piece.New?.Spool == name);
                if (wasHere && !isHere)
                    why.Add(piece.New is null ? $"{piece.Old!.Piece} is gone" : $"{piece.Old!.Piece} goes to spool {piece.New.Spool}{Called(piece)}");
                else if (!wasHere && isHere)
                    why.Add(piece.Old is null ? $"{piece.New!.Piece} is new" : $"{piece.Old.Piece} comes from spool {piece.Old.Spool}{Called(piece)}");
                else if (wasHere && !piece.IsSame)
                    why.Add($"{piece.New!.Piece} is cut differently");
            }

            why.AddRange(parts.Where(p => p.OldSpools.Contains(spool.Name, StringComparer.Ordinal) || p.NewSpools.Contains(name, StringComparer.Ordinal)).Select(p => $"{p.Says.Name} {p.Says.Kind}").Distinct(StringComparer.Ordinal));
            var own = spool.Components.Select(c => c.Id).Concat(spool.Cuts.Select(c => c.Pipe.Id)).Select(before.Of);
            // A turned part is told by its joint, unless nothing tells it.
            if (turns.Of(own) is { } turned && (why.Count == 0 || turned == SteelTurns.OtherHand))
                why.Insert(0, turned);
            return why;
        }

        static string Called(PieceChange piece) => piece.Old!.Piece == piece.New!.Piece ? "" : $" as {piece.New.Piece}";
    }
}
