using System.Globalization;
using Rootgap.Bench.Cutting;

if (args is ["cutting-sets", var folder, .. var rest])
{
    PublishedSets.Run(folder, rest.Length > 0 ? double.Parse(rest[0], CultureInfo.InvariantCulture) : 10, rest.Length > 1 ? rest[1] : null, rest.Length > 2);
    return 0;
}

if (args is ["jobs", var cuts, var jobs, var seconds]) { ShopJobs.Run(int.Parse(cuts, CultureInfo.InvariantCulture), int.Parse(jobs, CultureInfo.InvariantCulture), double.Parse(seconds, CultureInfo.InvariantCulture)); return 0; }

if (args is ["fuzz", var a, var b]) { Fuzz.Run(int.Parse(a), int.Parse(b)); return 0; }

Console.Error.WriteLine("usage: cutting-sets FOLDER [SECONDS [SET [verbose]]]");
return 64;
