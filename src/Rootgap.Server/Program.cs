using System.CommandLine;
using Rootgap.Server;

var folder = new Argument<string?>("FOLDER") { Description = "The job's folder: drawings, lists, rack. Default: this one.", Arity = ArgumentArity.ZeroOrOne };
var demo = new Option<bool>("--demo") { Description = "Copy the demo job to ./demo, if it is not there yet, and serve that." };
var port = new Option<int>("--port") { Description = "The port to listen on.", DefaultValueFactory = _ => 5080 };
var shop = new Option<bool>("--shop-network") { Description = "Listen for other devices too, not for this machine alone. They need the token in the printed address." };
var store = new Option<string?>("--store") { Description = "Keep the records in PostgreSQL: \"Host=server;Database=hatchery;Username=shop\". Default: a file in the folder, .rootgap/records.db." };
var job = new Option<string?>("--job") { Description = "The job's name. Default: the folder's." };
var certificate = new Option<string?>("--certificate") { Description = "A certificate (PEM) for https, which tablets need to work offline. With --key." };
var key = new Option<string?>("--key") { Description = "The key of the certificate (PEM)." };
var root = new RootCommand(
    "Serves the app and a job's folder to this machine, or to the shop's network.\n\nExample: rootgap serve --demo\n\n"
    + "Exit codes: 0 stopped with Ctrl+C, 3 the folder or the certificate could not be read, 64 wrong usage, 69 the port or the store cannot be had.")
{
    folder, demo, port, shop, store, job, certificate, key,
};
var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    Console.Error.WriteLine("Say `rootgap serve --help` for how it is used.");
    return ServeCommand.Usage;
}

root.SetAction(r => ServeCommand.RunAsync(new(
    r.GetValue(folder), r.GetValue(demo), r.GetValue(port), r.GetValue(shop), r.GetValue(store), r.GetValue(job), r.GetValue(certificate), r.GetValue(key))));
return await root.Parse(args).InvokeAsync();

/// <summary>Named so that tests find the program.</summary>
public partial class Program;
