using System.CommandLine;

namespace Rootgap.Cli.Commands;

/// <summary>Where the records of a drawing's job are: what was entered in the app.</summary>
internal sealed class RecordsOption
{
    private readonly Option<string?> folder;
    private readonly Option<string?> store = new("--store") { Description = "The job's records lie in PostgreSQL: \"Host=server;Database=shop;Username=shop\". Default: in the folder." };
    private readonly Option<bool> without;

    /// <param name="what">What of them counts.</param>
    /// <param name="withoutThem">What is done without them.</param>
    public RecordsOption(string what, string withoutThem)
    {
        folder = new("--records") { Description = $"The job's folder, for what was entered in the app: {what}. Default: the one that the drawings lie in, where it was served.", HelpName = "DIR" };
        without = new("--without-records") { Description = withoutThem };
    }

    /// <param name="Folder">The job's folder; null for the one that the drawing lies in.</param>
    /// <param name="Store">The database; null where the records are in the folder.</param>
    /// <param name="IsWithout">Nothing of it counts.</param>
    public sealed record Wanted(string? Folder, string? Store, bool IsWithout);

    public void AddTo(Command command)
    {
        command.Add(folder);
        command.Add(store);
        command.Add(without);
        command.Validators.Add(r =>
        {
            if (r.GetResult(without) is not null && (r.GetResult(folder) ?? r.GetResult(store)) is not null)
                r.AddError("Give either --records or --without-records, not both.");
        });
    }

    public Wanted Of(ParseResult result) => new(result.GetValue(folder), result.GetValue(store), result.GetValue(without));
}
