using System.CommandLine;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums sample</c>: how many welds are examined, and how many more after rejects.</summary>
internal static class SampleSums
{
    private static readonly Option<string[]> Welds = new("--welds") { Description = "Butt welds of each welder in the lot: one figure a welder.", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string?> Share = new("--share") { Description = "Of each welder's welds, in percent: by the code or the service.", Required = true };
    private static readonly Option<string[]> Rejected = new("--rejected") { Description = "Rejected, of one welder: of those drawn for the share, then of those that these asked for, then of those that the second asked for.", AllowMultipleArgumentsPerToken = true };

    public static Command Create() => SumsAsked.With(
        new Command("sample", "How many welds of each welder are examined, and how many more each reject asks for. What the code in force and the inspector decide goes before.\n\nExamples:\n  rootgap sums sample --share 5 --welds 100 37 4\n  rootgap sums sample --share 5 --welds 100 --rejected 1 1 0")
        {
            Welds, Share, Rejected,
        }, Of);

    private static SumsAnswer? Of(SumsAsked asked)
    {
        var answer = new SumsAnswer("sample");
        var (welds, rejected, share) = (asked.Wholes(Welds, 1, 1_000_000), asked.Wholes(Rejected, 0, 1_000_000), asked.Of(Share, Quantity.Number));
        if (share is > 100)
            asked.Refuse("--share is in percent, at most 100.");
        if (welds.Count == 0)
            asked.Refuse("Give --welds, the butt welds of each welder.");
        if (rejected.Count > 0 && welds.Count > 1)
            asked.Refuse("--rejected is of one welder's welds: give one figure of --welds with it.");
        if (rejected.Count > Sampling.Steps + 1)
            asked.Refuse("--rejected: at most three figures. A reject in the third step asks for all that are left.");
        if (asked.IsRefused)
            return null;
        answer.Given.Add(Sum.Given("share, %", share!.Value, Quantity.Number));
        var drawn = welds.Select(n => Sampling.CountOf(share.Value, n)).ToList();
        for (var i = 0; i < welds.Count; i++)
        {
            var whose = welds.Count == 1 ? "" : $" of welder {i + 1}";
            answer.Given.Add(Sum.Given("welds" + whose, welds[i], Quantity.Number));
            answer.Figures.Add(new("drawn" + whose, drawn[i], Quantity.Number, "share × welds, rounded up, at least 1", Sampling.ShareSource));
        }

        if (welds.Count > 1)
            answer.Figures.Add(new("drawn of all welders", drawn.Sum(), Quantity.Number, "all of them", ""));
        answer.Says.Add("Of a welder with shop and field welds one of each at least is drawn. A repair that is rejected again is repaired till it passes, and asks for no more.");
        return rejected.Count > 0 ? More(asked, answer, welds[0], drawn[0], rejected) : answer;
    }

    private static SumsAnswer? More(SumsAsked asked, SumsAnswer answer, int welds, int drawn, IReadOnlyList<int> rejected)
    {
        var (step, examined) = (drawn, drawn);
        for (var i = 0; i < rejected.Count; i++)
        {
            if (rejected[i] > step)
                return asked.Refused($"--rejected: {rejected[i]} rejected of {step} that were examined in step {i + 1}.");
            answer.Given.Add(Sum.Given($"rejected in step {i + 1}", rejected[i], Quantity.Number));
            step = Sampling.More(i, rejected[i], welds - examined);
            examined += step;
            answer.Figures.Add(new($"more after step {i + 1}", step, Quantity.Number, i < Sampling.Steps ? $"{Sampling.MoreForEach} × rejected, no more than are left" : "all that are left, where one is rejected", Sampling.Source));
        }

        answer.Figures.Add(new("examined in all", examined, Quantity.Number, "drawn + more", ""));
        answer.Says.Add(rejected[^1] == 0 && step == 0
            ? "None rejected in the last step: what it stands for is accepted, and the rejected welds are repaired and examined again."
            : rejected.Count > Sampling.Steps ? "A reject in the third step: all that this sampling stands for is examined, and repaired or replaced as needed." : "Examine these next and say what was rejected of them.");
        return answer;
    }
}
