using System.Globalization;
using BenchmarkDotNet.Running;
using Rootgap.Bench.Cutting;
using Rootgap.Bench.Live;
using Rootgap.Bench.Packets;
using Rootgap.Bench.Records;
using Rootgap.Bench.Site;
using Rootgap.Cutting;

if (args is ["cutting-sets", var folder, .. var rest])
{
    PublishedSets.Run(folder, rest.Length > 0 ? double.Parse(rest[0], CultureInfo.InvariantCulture) : 10, rest.Length > 1 ? rest[1] : null, rest.Length > 2);
    return 0;
}

if (args is ["cutting-jobs", var cuts, var jobs, var seconds, .. var how])
{
    ShopJobs.Run(int.Parse(cuts, CultureInfo.InvariantCulture), int.Parse(jobs, CultureInfo.InvariantCulture), double.Parse(seconds, CultureInfo.InvariantCulture),
        how.Contains("fixed"), how.Contains("rack") ? CuttingAim.Rack : CuttingAim.Cost);
    return 0;
}

if (args is ["cutting-open", var n, var many, var limit, .. var which])
{
    OpenSolver.Run(int.Parse(n, CultureInfo.InvariantCulture), int.Parse(many, CultureInfo.InvariantCulture), double.Parse(limit, CultureInfo.InvariantCulture), which.Contains("fixed"));
    return 0;
}

if (args is ["cutting-limited", var tasks, var each])
{
    ShopJobs.RunLimited(int.Parse(tasks, CultureInfo.InvariantCulture), double.Parse(each, CultureInfo.InvariantCulture));
    return 0;
}

if (args is ["packets", .. var options])
{
    BenchmarkSwitcher.FromTypes([typeof(PacketBench)]).Run(["--filter", "*", .. options]);
    return 0;
}

if (args is ["whole-packet", var rounds])
{
    WholePacket.Run(int.Parse(rounds, CultureInfo.InvariantCulture));
    return 0;
}

if (args is ["closing", .. var asked])
{
    BenchmarkSwitcher.FromTypes([typeof(ClosingBench)]).Run(["--filter", "*", .. asked]);
    return 0;
}

if (args is ["live", .. var chosen])
{
    BenchmarkSwitcher.FromTypes([typeof(LiveBench)]).Run(["--filter", "*", .. chosen]);
    return 0;
}

if (args is ["site", .. var planned])
{
    BenchmarkSwitcher.FromTypes([typeof(SitePlanningBench)]).Run(["--filter", "*", .. planned]);
    return 0;
}

if (args is ["records", var drawings, var facts])
{
    await BigJob.Run(int.Parse(drawings, CultureInfo.InvariantCulture), int.Parse(facts, CultureInfo.InvariantCulture));
    return 0;
}

if (args is ["browser"])
{
    await KeystrokeInBrowser.Run();
    return 0;
}

if (args is ["first-page", var listed])
{
    await FirstPage.Run(int.Parse(listed, CultureInfo.InvariantCulture));
    return 0;
}

Console.Error.WriteLine("usage: packets, live, site or closing [BenchmarkDotNet options], or whole-packet ROUNDS, or browser, or first-page DRAWINGS, or records DRAWINGS FACTS, or cutting-sets FOLDER [SECONDS [SET [verbose]]], cutting-jobs CUTS JOBS SECONDS [fixed] [rack], cutting-open CUTS JOBS SECONDS [fixed], or cutting-limited TASKS SECONDS");
return 64;
