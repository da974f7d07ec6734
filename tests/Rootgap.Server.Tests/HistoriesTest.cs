using System.Globalization;
using System.Net;
using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>
/// Random histories on five devices that are offline half the time, with a store put back from yesterday in the middle, or begun anew: in the end all have the same facts, all that was ever
/// entered is among them, and the record that they amount to is the same for everybody. <c>ROOTGAP_HISTORIES=100</c> for as many.
/// </summary>
public class HistoriesTest
{
    private static readonly int Histories = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_HISTORIES"), CultureInfo.InvariantCulture, out var n) ? n : 4;

    /// <summary>A device that does what the app does: keeps, sends, fetches, and compares where the store is not the one it read.</summary>
    private sealed class Tablet(string name, Random random)
    {
        private readonly HashSet<string> unsent = new(StringComparer.Ordinal);
        private long cursor;
        private string digest = "";
        private string store = "";

        public Dictionary<string, Fact> Facts { get; } = new(StringComparer.Ordinal);

        public bool IsOnline { get; set; }

        public void Enter(HashSet<string> entered)
        {
            var (id, when) = (Tests.Facts.NewId(), Tests.Facts.Noon.AddMinutes(random.Next(600)));
            var record = JobRecord.Of(Facts.Values);
            var drawing = new DrawingRef("D-1", random.Next(2) == 0 ? "1" : "2");
            var path = $"w{random.Next(3)}.yaml";
            var fact = random.Next(6) switch
            {
                0 => FileSaved.OfText(id, name, when, path, $"drawing: W\n# {id}\n", record.Files.TryGetValue(path, out var file) ? [.. random.Next(2) == 0 ? file.Heads.Select(h => h.Id) : file.Latest is { } latest ? [latest.Id] : []] : []),
                1 when Facts.Count > 0 => new Withdrawn(id, name, when, Facts.Values.ElementAt(random.Next(Facts.Count)).Id, "no"),
                2 => new JointStep(id, name, when, drawing, "W3", Step.Fitted),
                // A clock from another age, before the store first said no to such.
                _ => (Fact)new PieceCut(id, name, when, drawing, $"{random.Next(4)}-A", $"H {random.Next(9)}"),
            };
            Facts[fact.Id] = fact;
            unsent.Add(fact.Id);
            entered.Add(fact.Id);
        }

        public async Task Sync(Served server)
        {
            var kept = (await server.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("store").GetString()!;
            await Send(server);
            while (true)
            {
                var (status, body) = store.Length > 0 && store != kept ? (HttpStatusCode.Conflict, default) : await server.Send(HttpMethod.Get, $"/api/facts?after={cursor}&digest={digest}");
                if (status == HttpStatusCode.Conflict)
                {
                    await Compare(server, kept);
                    continue;
                }

                Assert.Equal(HttpStatusCode.OK, status);
                foreach (var fact in body.GetProperty("facts").EnumerateArray())
                    Take(fact);
                (cursor, digest, store) = (body.GetProperty("next").GetInt64(), body.GetProperty("digest").GetString()!, kept);
                if (!body.GetProperty("more").GetBoolean())
                    return;
            }
        }

        private async Task Send(Served server)
        {
            foreach (var batch in unsent.Chunk(7).ToList())
            {
                var (_, body) = await server.Post(batch.Select(id => Facts[id]));
                Assert.Empty(body.GetProperty("refused").EnumerateArray());
                unsent.ExceptWith(batch);
            }
        }

        private async Task Compare(Served server, string kept)
        {
            var there = new Dictionary<string, KeptAt>(StringComparer.Ordinal);
            var body = (await server.Send(HttpMethod.Get, "/api/facts/ids")).Body;
            foreach (var row in body.GetProperty("ids").EnumerateArray())
                there[row[2].GetString()!] = new(row[0].GetInt64(), row[1].GetDateTimeOffset());
            foreach (var fact in Facts.Values.ToList())
            {
                if (there.TryGetValue(fact.Id, out var at))
                {
                    Facts[fact.Id] = fact with { Kept = at };
                    unsent.Remove(fact.Id);
                }
                else
                {
                    Facts[fact.Id] = fact with { Kept = null };
                    unsent.Add(fact.Id);
                }
            }

            var ids = there.Keys.Except(Facts.Keys, StringComparer.Ordinal).ToList();
            foreach (var fact in (await server.Send(HttpMethod.Post, "/api/facts/some", JsonSerializer.Serialize(new { ids }))).Body.GetProperty("facts").EnumerateArray())
                Take(fact);
            (cursor, digest, store) = (body.GetProperty("next").GetInt64(), body.GetProperty("digest").GetString()!, kept);
            await Send(server);
        }

        private void Take(JsonElement fact)
        {
            var read = FactJson.Read(fact.GetProperty("fact")).Fact!;
            Facts[read.Id] = read with { Kept = new(fact.GetProperty("seq").GetInt64(), fact.GetProperty("kept").GetDateTimeOffset()) };
        }
    }

    [Fact]
    public async Task In_the_end_all_agree_and_nothing_that_was_entered_is_gone()
    {
        for (var history = 0; history < Histories; history++)
        {
            var random = new Random(history);
            using var job = new JobOnDisk();
            using var other = new JobOnDisk();
            var server = await Served.Of(job);
            var tablets = Enumerable.Range(0, 5).Select(i => new Tablet($"T{i}", random)).ToList();
            var entered = new HashSet<string>(StringComparer.Ordinal);
            const int Steps = 160;
            for (var step = 0; step < Steps; step++)
            {
                var tablet = tablets[random.Next(5)];
                tablet.IsOnline = random.Next(4) > 0 ? tablet.IsOnline : !tablet.IsOnline;
                if (random.Next(3) > 0)
                    tablet.Enter(entered);
                if (tablet.IsOnline)
                    await tablet.Sync(server);
                if (step == Steps / 4)
                {
                    Assert.Equal(0, (await ServerProgram.Command($"job backup {job.Path} --out {other.At("yesterday.db")}")).Code);
                }
                else if (step == Steps / 2)
                {
                    await server.DisposeAsync();
                    if (history % 2 == 0)
                    {
                        Assert.Equal(0, (await ServerProgram.Command($"job restore {other.At("yesterday.db")} {job.Path} --anew")).Code);
                        server = await Served.Of(job);
                    }
                    else
                    {
                        foreach (var file in Directory.GetFiles(job.At(".rootgap"), "records.db*"))
                            File.Delete(file);
                        server = await Served.Of(new Serving { Folder = job.Path, Name = "job", Port = 0, IsAnew = true });
                    }
                }
            }

            for (var round = 0; round < 2; round++)
            {
                foreach (var tablet in tablets)
                    await tablet.Sync(server);
            }

            var kept = (await server.All()).Select(f => f.Fact.Id).ToHashSet(StringComparer.Ordinal);
            Assert.Empty(entered.Except(kept, StringComparer.Ordinal));
            var record = Told(tablets[0]);
            foreach (var tablet in tablets)
            {
                Assert.Equal(kept.Order(StringComparer.Ordinal), tablet.Facts.Keys.Order(StringComparer.Ordinal));
                Assert.Equal(record, Told(tablet));
            }

            await server.DisposeAsync();
        }
    }

    // What a record says, as far as people see it: what counts, in its order, and the heads of every file.
    private static string Told(Tablet tablet)
    {
        var record = JobRecord.Of(tablet.Facts.Values);
        return string.Join('\n', record.Facts.Select(e => $"{e.Fact.Id} {e.Counts}").Concat(record.Files.Values.OrderBy(f => f.Path, StringComparer.Ordinal).Select(f => $"{f.Path}: {string.Join(' ', f.Heads.Select(h => h.Id))}")));
    }
}
