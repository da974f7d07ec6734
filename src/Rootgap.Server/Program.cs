using System.CommandLine;
using Rootgap.Server;

var folder = new Argument<string?>("FOLDER") { Description = "The job's folder: drawings, lists, rack. Default: this one.", Arity = ArgumentArity.ZeroOrOne };
var demo = new Option<bool>("--demo") { Description = "Copy the demo job to ./demo, if it is not there yet, and serve that." };
var port = new Option<int>("--port") { Description = "The port to listen on.", DefaultValueFactory = _ => 5080 };
var shop = new Option<bool>("--shop-network") { Description = "Listen for other devices too, not for this machine alone. They need the token in the printed address." };
var store = new Option<string?>("--store") { Description = "Keep the records in PostgreSQL: \"Host=server;Database=shop;Username=shop\", where there may be many jobs and many servers. Default: a file in the folder, .rootgap/records.db." };
var job = new Option<string?>("--job") { Description = "The job's name. Default: the folder's." };
var many = new Option<string?>("--jobs") { Description = "Serve many jobs: each folder in this one is a job's. Without a folder, and with --store: all jobs of the database, their files too.", Arity = ArgumentArity.ZeroOrOne };
var anew = new Option<bool>("--anew") { Description = "Begin the records anew where those of a folder that was served before are lost." };
var host = new Option<string[]>("--host") { Description = "A name by which this server is called besides its machine's own; may be given several times." };
var proxy = new Option<bool>("--behind-proxy") { Description = "All calls come through a load balancer or proxy, and nothing else can reach this server." };
var certificate = new Option<string?>("--certificate") { Description = "A certificate (PEM) for https, which tablets need to work offline. With --key." };
var key = new Option<string?>("--key") { Description = "The key of the certificate (PEM)." };
var serve = new Command(
    "serve",
    "Serves the app and a job's folder to this machine, or to the shop's network.\n\nExample: rootgap serve --demo\n\n"
    + "Exit codes: 0 stopped with Ctrl+C, 3 the folder or the certificate could not be read, 64 wrong usage, 69 the port, the folder or the store cannot be had.")
{
    folder, demo, port, shop, store, job, many, anew, host, proxy, certificate, key,
};
serve.SetAction(r => ServeCommand.RunAsync(new(
    r.GetValue(folder), r.GetValue(demo), r.GetValue(port), r.GetValue(shop), r.GetValue(store), r.GetValue(job), r.GetValue(certificate), r.GetValue(key))
{
    Jobs = (r.GetResult(many) is not null, r.GetValue(many)),
    IsAnew = r.GetValue(anew),
    Hosts = r.GetValue(host) ?? [],
    IsBehindProxy = r.GetValue(proxy),
}));
var root = new RootCommand("The app and the records of jobs.") { serve, JobCommand.Make() };
var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    Console.Error.WriteLine($"Say `rootgap {(args is ["job", ..] ? "job" : "serve")} --help` for how it is used.");
    return ServeCommand.Usage;
}

return await parsed.InvokeAsync();

/// <summary>Named so that tests find the program.</summary>
public partial class Program;
