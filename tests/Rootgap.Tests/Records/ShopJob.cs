using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Tests.Records;

/// <summary>A job as it grows in a shop: files are saved, things are done on them, a minute apart.</summary>
internal sealed class ShopJob
{
    public const string File = "line.yaml";

    private readonly List<Rootgap.Records.Fact> facts = [];
    private readonly Following following = new();
    private int next;

    public ShopJob(string text) => Save(text);

    public string NextId => FactGens.Id(++next);

    public DateTimeOffset Now => FactGens.Noon.AddMinutes(next);

    public JobRecord Record => JobRecord.Of(facts);

    public T Add<T>(T fact)
        where T : Rootgap.Records.Fact
    {
        facts.Add(fact);
        return fact;
    }

    public void Save(string text, string path = File) => Add(FileSaved.OfText(NextId, "Jo", Now, path, text, Heads(path)));

    public void Remove(string path) => Add(new FileSaved(NextId, "Jo", Now, path, null, Heads(path)));

    private string[] Heads(string path) => Record.Files.TryGetValue(path, out var file) ? [.. file.Heads.Select(h => h.Id)] : [];

    public string[] Versions(string path = File) => [.. Record.Files.Values.Where(f => f.Path == path || f.Path == "shop.yaml").OrderBy(f => f.Path != path).Select(f => f.Latest!.Id)];

    public Rootgap.Fabricating.Fabrication Made(string path = File)
    {
        var reading = DrawingReader.Read(Record.Files[path].Latest!.Text!, path, named => Record.Files.GetValueOrDefault(named)?.Latest?.Content);
        Assert.NotNull(reading.Drawing);
        return Spooling.Of(Routing.Of(reading.Drawing));
    }

    public DrawingRef Drawing(string path = File) => Made(path).Route.Drawing is var d ? new(d.Number, d.Revision) : default;

    public DrawingRecord Done(string path = File) => following.Of(Record, path, Made(path), Versions(path));

    public PieceCut Cut(string piece, string? heat = null) => Add(new PieceCut(NextId, "Jo", Now, Drawing(), piece, heat) { Versions = Versions() });

    public HeatNoted Heat(string component, string heat) => Add(new HeatNoted(NextId, "Jo", Now, Drawing(), component, heat) { Versions = Versions() });

    public JointStep Step(string joint, Step step) => Add(new JointStep(NextId, "Jo", Now, Drawing(), joint, step) { Versions = Versions() });

    public void Look(Rootgap.Records.Fact at, string now, bool holds, string who = "Bo") => Add(new LookedAt(NextId, who, Now, Drawing(), at.Id, holds, now) { Versions = Versions() });

    public void Take(string who) => Add(new RevisionTaken(NextId, who, Now, Drawing()) { Versions = Versions() });
}
