using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli.Tests;

/// <summary>Entries of the command line on a job whose people sign what they enter.</summary>
public class SignedRecordTest
{
    private static readonly string Jo = Guid.NewGuid().ToString();
    private static readonly string Ines = Guid.NewGuid().ToString();
    private static readonly string Scanner = Guid.NewGuid().ToString();

    private static async Task<(Shop Shop, ProgramKey Key)> Job()
    {
        var cancel = TestContext.Current.CancellationToken;
        var shop = new Shop();
        shop.Write(Path.Combine("job", "a.yaml"), Shop.Drawing("T-1"));
        var (own, shown) = ProgramKey.New();
        var now = DateTimeOffset.UtcNow;
        await shop.Keep("job", new PersonNamed(Shop.Id(1), "server", now, Jo, "Jo", "K1", "welder", [Right.Fit, Right.Weld]), new PersonNamed(Shop.Id(2), "server", now, Ines, "Ines", null, "inspector", [Right.Examine, Right.People]), new DeviceEnrolled(Shop.Id(3), "server", now, Scanner, "scanner", shown));
        await using var place = await JobPlace.OpenAsync(shop.At("job"), null, null);
        await new PersonCodes(await place.Archive.OpenJobAsync(place.Job, cancel), TimeProvider.System).SetAsync(Ines, "4711");
        var key = new ProgramKey(place.Job, Scanner, "scanner", own);
        key.Write(shop.At("scanner.json"));
        return (shop, key);
    }

    [Fact]
    public async Task With_a_key_that_was_let_in_an_entry_is_signed_for_whoever_made_it_and_within_what_they_may()
    {
        var (shop, key) = await Job();
        using var _ = shop;
        var without = shop.Run("record", "job", "welded", "W1", "welder=K1", "--who", "Jo");
        Assert.Equal(2, without.Exit);
        Assert.Contains("rootgap job enrol FOLDER --key", without.Error, StringComparison.Ordinal);

        Assert.Equal(0, shop.Run("record", "job", "welded", "W1", "welder=K1", "--who", "jo", "--key", "scanner.json").Exit);
        foreach (var (arguments, told) in new[]
        {
            ("examined W1 method=visual accepted=yes --who Jo --code 4711", "No code was set"),
            ("examined W1 method=visual accepted=yes --who Ines", "--code"),
            ("examined W1 method=visual accepted=yes --who Ines --code 4712", "not the code"),
            ("welded W1 welder=K1 --who Ines", "Ines may sign"),
            ("welded W1 welder=K1 --who Nobody", "nobody called \"Nobody\""),
        })
        {
            var call = shop.Run(["record", "job", .. arguments.Split(' '), "--key", "scanner.json"]);
            Assert.Equal(2, call.Exit);
            Assert.Contains(told, call.Error, StringComparison.Ordinal);
        }

        Assert.Equal(0, shop.Run("record", "job", "examined", "W1", "method=visual", "accepted=yes", "--who", "Ines", "--code", "4711", "--key", "scanner.json").Exit);

        await using var place = await JobPlace.OpenAsync(shop.At("job"), null, null);
        var facts = await place.FactsAsync();
        var roster = Roster.Of(facts);
        var entered = facts.Where(f => f is JointStep or Examined).ToList();
        Assert.Equal(["Jo", "Ines"], entered.Select(f => f.Who));
        Assert.Equal([null, "code"], entered.Select(f => f.Signed!.Proof));
        Assert.All(entered, f => Assert.True(ProgramKey.IsOwn(f, roster.Devices[Scanner].Entry.Key)));
        Assert.False(ProgramKey.IsOwn((JointStep)entered[0] with { Welder = "K9" }, roster.Devices[Scanner].Entry.Key));
        Assert.Equal(key.Job, entered[0].Signed!.Job);
    }

    [Fact]
    public async Task Lists_and_facts_of_files_go_through_the_same_door()
    {
        var (shop, key) = await Job();
        using var _ = shop;
        shop.Write("c.csv", "heat,certificate,size\nH1,C-1,8\n");
        Assert.Equal(2, shop.Run("certificates", "job", "c.csv", "--who", "Jo").Exit);
        Assert.Equal(0, shop.Run("certificates", "job", "c.csv", "--who", "Jo", "--key", "scanner.json").Exit);

        const string Fact = """{"id":"5f0f2a52-8f2b-4a3c-9d2d-3f1f6f2a9b01","fact":"joint-step","who":"Jo","when":"2026-02-01T10:00:00Z","drawing":"T-1","revision":"0","joint":"W1","step":"welded","welder":"K1"}""";
        // Signed with a key that is not the device's.
        var stranger = new ProgramKey(key.Job, Scanner, "scanner", ProgramKey.New().Key);
        var jo = new Person(new PersonNamed(Shop.Id(1), "server", DateTimeOffset.UtcNow, Jo, "Jo", null, "", [Right.Weld]), null);
        shop.Write("forged.json", FactJson.Text(stranger.Sign(FactJson.Read(Fact).Fact!, jo, isProven: false)));
        Assert.Equal(2, shop.Run("record", "job", "--facts", "forged.json", "--key", "scanner.json").Exit);
        shop.Write("f.json", Fact);
        Assert.Equal(2, shop.Run("record", "job", "--facts", "f.json").Exit);
        Assert.Contains("1 facts kept", shop.Run("record", "job", "--facts", "f.json", "--key", "scanner.json").Out, StringComparison.Ordinal);
        // Kept once: what is there is not signed again.
        Assert.Contains("0 facts kept, 1 were", shop.Run("record", "job", "--facts", "f.json").Out, StringComparison.Ordinal);
    }
}
