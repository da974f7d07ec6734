using System.Globalization;
using BenchmarkDotNet.Running;
using Rootgap.Bench.Cutting;
using Rootgap.Bench.Packets;

if (args is ["cutting-sets", var folder, .. var rest])
{
    PublishedSets.Run(folder, rest.Length > 0 ? double.Parse(rest[0], CultureInfo.InvariantCulture) : 10, rest.Length > 1 ? rest[1] : null, rest.Length > 2);
    return 0;
}

if (args is ["packets", .. var options])
{
    BenchmarkSwitcher.FromTypes([typeof(PacketBench)]).Run(["--filter", "*", .. options]);
    return 0;
}

if (args is ["fuzz", var a, var b]) { Fuzz.Run(int.Parse(a, CultureInfo.InvariantCulture), int.Parse(b, CultureInfo.InvariantCulture)); return 0; }

Console.Error.WriteLine("usage: packets [BenchmarkDotNet options], or cutting-sets FOLDER [SECONDS [SET [verbose]]]");
return 64;
