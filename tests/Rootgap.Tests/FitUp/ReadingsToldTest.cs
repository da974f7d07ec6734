using Rootgap.FitUp;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.FitUp;

/// <summary>What files of readings say and what is said of them, the good and the bad, word for word: <c>Told/readings.txt</c> for joints, <c>Told/final.txt</c> for the final check.</summary>
public class ReadingsToldTest
{
    private static readonly Rootgap.Fabricating.Fabrication Line = SampleFile.Clean.Single(s => s.Name == "chilled-supply").Packet().Fabrication;

    private static readonly FitJoints Fitting = new(Line);

    [Fact]
    public void Each_file_of_a_joint_is_read_as_it_was_accepted() => Accepted.Told("readings", text =>
    {
        var (sets, errors) = FitReadings.ReadAll(text, "r.yaml");
        return errors.Select(Accepted.Line).Concat(sets.SelectMany(Said));
    });

    private static IEnumerable<string> Said(FitReadings set)
    {
        yield return Text($"  {set.Joint} {set.SetUp} mark {set.Mark} held {set.Held} welded {set.IsWelded}{(set.Error is { } e ? " error " + string.Join(' ', Enumerable.Range(0, 6).Select(i => Text($"{e[i]:0.#####}"))) : "")}");
        foreach (var entry in set.Entries)
            yield return Text($"  {entry.Where.Line}:{entry.Where.Column} {entry.Taken.Reading.Text} {entry.Taken.Value:0.#####} ± {entry.Taken.Spread:0.#####}");
        // At each weld of a kind of its own: what of it cannot be read there.
        foreach (var weld in Fitting.Welds.DistinctBy(w => Fitting.Of(w).Weld.ToString() + Fitting.Of(w).New.Kind))
        {
            var card = FitWork.Alone(Fitting, weld, Fitting.Of(weld), SetUps.Usual(Fitting, Fitting.Of(weld)), null);
            foreach (var entry in set.Entries)
            {
                if (FitReadings.Wrong(entry.Taken, card.Standing) is var (message, remedy))
                    yield return $"  at {weld.Id}: {message} {remedy}";
            }
        }
    }

    [Fact]
    public void Each_file_of_a_final_check_is_read_as_it_was_accepted() => Accepted.Told("final", text =>
    {
        if (FinalReadings.Read(text, "r.yaml") is not { } read)
            return ["  no file of a final check"];
        var (taken, errors) = read.Of(FinalCheck.Welded(Fitting.OfSpool(Line.Spools.First(s => s.Name == read.Spool))));
        return errors.Select(Accepted.Line).Append(Text($"  spool {read.Spool} base {read.Base} tacked {read.IsTacked}")).Concat(taken.Select(t => Text($"  {t.Reading.Text} {t.Value:0.#####} ± {t.Sd:0.#####}")));
    });

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
