using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server.Tests;

/// <summary>Who signs: devices that were let in, for people of the job, within what they may. A hostile client among them gets nowhere.</summary>
public class SigningTest
{
    private const string Token = "0123456789abcdef0123456789abcdef01234567";

    /// <summary>A device with its key, as a browser has one: .NET's own ECDSA stands for the browser's.</summary>
    private sealed class Pen(Served server, string token) : IDisposable
    {
        private readonly ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

        public string Device { get; private set; } = Facts.NewId();

        public string Public => Convert.ToBase64String(key.ExportSubjectPublicKeyInfo());

        public async Task<(HttpStatusCode Status, JsonElement Body)> Enrol(string code, string name = "Tablet at stand 2")
        {
            var answer = await server.Send(HttpMethod.Post, "/api/enrol", JsonSerializer.Serialize(new { code, name, key = Public }));
            if (answer.Status == HttpStatusCode.OK)
                Device = answer.Body.GetProperty("device").GetString()!;
            return answer;
        }

        public Fact Sign(Fact fact, string person, string? proof = null, string? job = null)
        {
            var signed = fact with { Signed = new(job ?? server.Job.Id, Device, person, proof, "") };
            return signed with { Signed = signed.Signed! with { Value = Value(signed) } };
        }

        public string Ask(string who, string person, string? proof, params (string, string)[] more)
        {
            var (id, now, signed) = (Facts.NewId(), DateTimeOffset.UtcNow, new Signature(server.Job.Id, Device, person, proof, ""));
            return FactJson.Text(FactJson.Ask(id, who, now, signed with { Value = Value(FactJson.Ask(id, who, now, signed, more)) }, more));
        }

        private string Value(Fact fact) => Convert.ToBase64String(key.SignData(FactJson.SignedBytes(fact), HashAlgorithmName.SHA256, DSASignatureFormat.IeeeP1363FixedFieldConcatenation));

        public async Task<string?> Send(Fact fact)
        {
            var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", $"{{\"facts\":[{FactJson.Text(fact)}]}}", token);
            Assert.Equal(HttpStatusCode.OK, status);
            return body.GetProperty("refused") is var refused && refused.GetArrayLength() > 0 ? refused[0].GetProperty("why").GetString() : null;
        }

        public void Dispose() => key.Dispose();
    }

    private sealed record Shop(JobOnDisk Job, Served Server, Pen Office, string Foreman, string Fitter) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            Office.Dispose();
            await Server.DisposeAsync();
            Job.Dispose();
        }

        public PieceCut Cut(string who = "Bo", string piece = "1-A") => new(Facts.NewId(), who, Facts.Noon, new("D-1", "2"), piece, "A1234");

        public JointStep Step(Step step, string who) => new(Facts.NewId(), who, Facts.Noon, new("D-1", "2"), "W3", step);
    }

    private static async Task<string> Code(JobOnDisk job)
    {
        var (code, said) = await ServerProgram.Command($"job enrol {job.Path}");
        Assert.Equal(0, code);
        return said.Split("write: ")[1][..6];
    }

    // A shop with a foreman, a fitter and an office computer that is let in.
    private static async Task<Shop> Begin()
    {
        var job = new JobOnDisk();
        var server = await Served.Of(job, Token);
        foreach (var person in new[] { "--name Ann --role foreman --may fit,weld,draw,people --code 4711", "--name Bo --role fitter --stamp 9 --may fit" })
            Assert.Equal(0, (await ServerProgram.Command($"job person {job.Path} {person}")).Code);
        var office = new Pen(server, Token);
        Assert.Equal(HttpStatusCode.OK, (await office.Enrol(await Code(job))).Status);
        var roster = Roster.Of((await server.All(Token)).Select(f => f.Fact));
        return new(job, server, office, roster.Named("Ann")!.Id, roster.Named("Bo")!.Id);
    }

    [Fact]
    public async Task A_program_is_let_in_with_a_key_of_its_own_that_only_its_owner_can_read()
    {
        var folder = Directory.CreateTempSubdirectory("rootgap-").FullName;
        try
        {
            var key = Path.Combine(folder, "scanner.json");
            await using (await JobPlace.BeginAsync(folder))
            {
                // Begun, and let go again.
            }

            Assert.Equal(0, (await ServerProgram.Command($"job person {folder} --name Jo --may fit,people")).Code);
            Assert.Equal(64, (await ServerProgram.Command($"job enrol {folder} --key {key}")).Code);
            Assert.Equal(0, (await ServerProgram.Command($"job enrol {folder} --key {key} --name scanner")).Code);
            Assert.Equal(64, (await ServerProgram.Command($"job enrol {folder} --key {key} --name scanner")).Code);
            var own = ProgramKey.Read(key);
            if (!OperatingSystem.IsWindows())
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(key));
            await using var place = await JobPlace.OpenAsync(folder, null, null);
            var roster = Roster.Of(await place.FactsAsync());
            Assert.Equal("scanner", Assert.Single(roster.Devices.Values).Name);
            var signed = own.Sign(new NoteTaken(Guid.NewGuid().ToString("D"), "Jo", DateTimeOffset.UtcNow, new("T-1", "0"), "") { Note = "arc strike" }, roster.Named("Jo")!, isProven: false);
            Assert.Null(roster.WhyNot(signed, place.Job));
            Assert.True(ProgramKey.IsOwn(signed, roster.Devices[own.Device].Entry.Key));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task What_a_person_signs_on_a_device_that_was_let_in_is_kept_and_can_be_verified_later()
    {
        await using var shop = await Begin();
        Assert.Null(await shop.Office.Send(shop.Office.Sign(shop.Cut(), shop.Fitter)));
        var kept = (await shop.Server.All(Token)).Select(f => f.Fact).OfType<PieceCut>().Single();
        Assert.True(ProgramKey.IsOwn(kept, shop.Office.Public));
        var (code, said) = await ServerProgram.Command($"job verify {shop.Job.Path}");
        Assert.Equal(0, code);
        Assert.Contains("1 signatures are right, 0 are wrong", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_forged_changed_or_borrowed_signature_is_refused_with_the_reason()
    {
        await using var shop = await Begin();
        using var stranger = new Pen(shop.Server, Token);
        var fact = (PieceCut)shop.Office.Sign(shop.Cut(), shop.Fitter);
        var cases = new (string Told, Fact Fact)[]
        {
            ("Nobody signed it", shop.Cut()),
            ("changed", fact with { Piece = "1-B" }),
            ("changed", fact with { Note = "as drawn" }),
            ("changed", (PieceCut)shop.Office.Sign(shop.Cut("Ann"), shop.Foreman) with { Signed = fact.Signed! with { Person = shop.Foreman } }),
            ("never let in", stranger.Sign(shop.Cut(), shop.Fitter)),
            ("changed", stranger.Sign(shop.Cut(), shop.Fitter) is var forged ? forged with { Signed = forged.Signed! with { Device = shop.Office.Device } } : null!),
            ("nobody of this job", shop.Office.Sign(shop.Cut(), Facts.NewId())),
            ("It says Ann, and Bo signed it", shop.Office.Sign(shop.Cut("Ann"), shop.Fitter)),
            ("for another job", shop.Office.Sign(shop.Cut(), shop.Fitter, job: Facts.NewId())),
            // The same signature under another id, so that it would count twice.
            ("changed", fact with { Id = Facts.NewId() } is var again ? (Fact)new PieceCut(Facts.NewId(), "Bo", Facts.Noon, fact.Drawing, fact.Piece, fact.Heat) { Signed = again.Signed } : null!),
            ("drawings is for Ann", shop.Office.Sign(FileSaved.OfText(Facts.NewId(), "Bo", Facts.Noon, "a.yaml", "x"), shop.Fitter)),
            ("let in with a code", new DeviceEnrolled(Facts.NewId(), "Bo", Facts.Noon, Facts.NewId(), "mine", stranger.Public)),
            ("people is for Ann", shop.Office.Sign(new PersonNamed(Facts.NewId(), "Bo", Facts.Noon, shop.Fitter, "Bo", null, "", [Right.People]), shop.Fitter, "code")),
            ("must show by code", shop.Office.Sign(new PersonNamed(Facts.NewId(), "Ann", Facts.Noon, shop.Fitter, "Bo", null, "", [Right.Weld]), shop.Foreman)),
        };
        for (var i = 0; i < cases.Length; i++)
        {
            var why = await shop.Office.Send(cases[i].Fact);
            Assert.True(why?.Contains(cases[i].Told, StringComparison.Ordinal) == true, string.Create(CultureInfo.InvariantCulture, $"case {i}: {why ?? "it was taken"}"));
        }

        Assert.Empty((await shop.Server.All(Token)).Select(f => f.Fact).OfType<PieceCut>());
    }

    [Fact]
    public async Task A_fact_sent_again_counts_once_and_one_written_in_another_way_is_the_same()
    {
        await using var shop = await Begin();
        var fact = shop.Office.Sign(new PieceCut(Facts.NewId(), "Bo", Facts.Noon, new("D-1", "2"), "1-A", "A1", 1175.5), shop.Fitter);
        Assert.Null(await shop.Office.Send(fact));
        var other = FactJson.Text(fact).Replace("1175.5", "1.1755e3", StringComparison.Ordinal);
        var (_, body) = await shop.Server.Send(HttpMethod.Post, "/api/facts", $"{{\"facts\":[{other}]}}", Token);
        Assert.Single(Facts.Ids(body, "already"));
        Assert.Single((await shop.Server.All(Token)).Select(f => f.Fact).OfType<PieceCut>());
    }

    [Fact]
    public async Task Each_signs_within_what_they_may_and_what_others_rely_on_needs_their_code()
    {
        await using var shop = await Begin();
        Assert.Null(await shop.Office.Send(shop.Office.Sign(shop.Step(Step.Tacked, "Bo"), shop.Fitter)));
        Assert.Contains("welds is for Ann", await shop.Office.Send(shop.Office.Sign(shop.Step(Step.Welded, "Bo"), shop.Fitter)), StringComparison.Ordinal);
        Assert.Null(await shop.Office.Send(shop.Office.Sign(shop.Step(Step.Welded, "Ann"), shop.Foreman)));
        Assert.Contains("examination is for nobody yet", await shop.Office.Send(shop.Office.Sign(shop.Step(Step.Checked, "Ann"), shop.Foreman, "code")), StringComparison.Ordinal);
        var dee = Facts.NewId();
        Assert.Null(await shop.Office.Send(shop.Office.Sign(new PersonNamed(Facts.NewId(), "Ann", Facts.Noon, dee, "Dee", null, "inspector", [Right.Examine]), shop.Foreman, "code")));
        Assert.Contains("must show by code", await shop.Office.Send(shop.Office.Sign(shop.Step(Step.Checked, "Dee"), dee)), StringComparison.Ordinal);
        var seen = shop.Office.Sign(shop.Step(Step.Checked, "Dee"), dee, "code");
        Assert.Null(await shop.Office.Send(seen));
        // Taking back an examination is an examiner's.
        Assert.Contains("examination is for Dee", await shop.Office.Send(shop.Office.Sign(new Withdrawn(Facts.NewId(), "Bo", Facts.Noon, seen.Id, "no"), shop.Fitter)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task From_when_a_device_or_a_person_is_revoked_nothing_they_sign_is_taken_and_what_was_kept_stays()
    {
        await using var shop = await Begin();
        using var tablet = new Pen(shop.Server, Token);
        await tablet.Enrol(await Code(shop.Job));
        Assert.Null(await tablet.Send(tablet.Sign(shop.Cut(), shop.Fitter)));
        Assert.Null(await shop.Office.Send(shop.Office.Sign(new Revoked(Facts.NewId(), "Ann", Facts.Noon, tablet.Device, "left on the bus"), shop.Foreman, "code")));
        // Dated before it was lost: nobody can tell.
        Assert.Contains("shut out by Ann: left on the bus", await tablet.Send(tablet.Sign(shop.Cut(piece: "1-B"), shop.Fitter)), StringComparison.Ordinal);
        Assert.Null(await shop.Office.Send(shop.Office.Sign(new Revoked(Facts.NewId(), "Ann", Facts.Noon, shop.Fitter, "left the shop"), shop.Foreman, "code")));
        Assert.Contains("taken off by Ann", await shop.Office.Send(shop.Office.Sign(shop.Cut(), shop.Fitter)), StringComparison.Ordinal);
        Assert.Single((await shop.Server.All(Token)).Select(f => f.Fact).OfType<PieceCut>());
        // The last who may say who is here cannot give that away.
        Assert.Contains("Allow it to somebody else first", await shop.Office.Send(shop.Office.Sign(new PersonNamed(Facts.NewId(), "Ann", Facts.Noon, shop.Foreman, "Ann", null, "", [Right.Fit]), shop.Foreman, "code")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_lets_in_one_device_and_guessing_voids_it()
    {
        await using var shop = await Begin();
        var code = await Code(shop.Job);
        using var one = new Pen(shop.Server, Token);
        using var two = new Pen(shop.Server, Token);
        Assert.Equal(HttpStatusCode.OK, (await one.Enrol(code[..3] + " " + code[3..].ToLowerInvariant())).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await two.Enrol(code)).Status);
        var next = await Code(shop.Job);
        var slowed = false;
        for (var i = 0; i < 20 && !slowed; i++)
            slowed = (await two.Enrol(string.Create(CultureInfo.InvariantCulture, $"AAAA{i:d2}"))).Status == HttpStatusCode.TooManyRequests;
        Assert.True(slowed);
        // From many addresses at once the pause does not help; the code is void after twenty wrong ones.
        for (var i = 0; i < 25; i++)
            await shop.Server.Job.People.EnrolAsync(string.Create(CultureInfo.InvariantCulture, $"BBBB{i:d2}"), "x", two.Public);
        Assert.Null((await shop.Server.Job.People.EnrolAsync(next, "x", two.Public)).Device);
    }

    [Fact]
    public async Task A_persons_code_is_asked_ever_more_slowly_and_lies_nowhere_readable()
    {
        await using var shop = await Begin();
        Task<(HttpStatusCode Status, JsonElement Body)> Show(string code) => shop.Server.Send(HttpMethod.Post, "/api/people/proof", JsonSerializer.Serialize(new { person = shop.Foreman, code }), Token);
        Assert.Equal(HttpStatusCode.OK, (await Show("4711")).Status);
        for (var i = 0; i < 5; i++)
            Assert.Equal(HttpStatusCode.Forbidden, (await Show("1234")).Status);
        var (status, body) = await Show("4711");
        Assert.Equal(HttpStatusCode.Forbidden, status);
        Assert.Contains("Wait till", body.GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain("4711", string.Concat((await shop.Server.All(Token)).Select(f => FactJson.Text(f.Fact))), StringComparison.Ordinal);
        Assert.DoesNotContain("4711", await shop.Server.Job.Store.SecretAsync("code:" + shop.Foreman, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_badge_shows_who_is_there_until_a_new_one_is_made_and_is_nobody_elses()
    {
        await using var shop = await Begin();
        async Task<string?> Shown(string person, string badge)
        {
            var (status, body) = await shop.Server.Send(HttpMethod.Post, "/api/people/proof", JsonSerializer.Serialize(new { person, code = badge }), Token);
            return status == HttpStatusCode.OK ? null : body.GetProperty("error").GetString();
        }

        var badge = await shop.Server.Job.People.Codes.NewBadgeAsync(shop.Fitter);
        Assert.Null(await Shown(shop.Fitter, badge));
        Assert.Equal("That is somebody else's badge.", await Shown(shop.Foreman, badge));
        Assert.NotNull(await Shown(shop.Foreman, badge.Replace(shop.Fitter, shop.Foreman, StringComparison.Ordinal)));
        Assert.NotNull(await Shown(shop.Fitter, badge[..^1] + (badge[^1] == 'A' ? 'B' : 'A')));
        var next = await shop.Server.Job.People.Codes.NewBadgeAsync(shop.Fitter);
        Assert.Equal("This badge is void: a new one was made.", await Shown(shop.Fitter, badge));
        Assert.Null(await Shown(shop.Fitter, next));
        // The code is still a code.
        Assert.Null(await Shown(shop.Foreman, "4711"));
        // Who asks for one must be somebody who may name people, and show it.
        using var stranger = new Pen(shop.Server, Token);
        Assert.Equal(HttpStatusCode.Forbidden, (await shop.Server.Send(HttpMethod.Post, "/api/people/badge", shop.Office.Ask("Bo", shop.Fitter, "code", ("person", shop.Fitter)), Token)).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await shop.Server.Send(HttpMethod.Post, "/api/people/badge", stranger.Ask("Ann", shop.Foreman, "code", ("person", shop.Fitter)), Token)).Status);
        Assert.Equal(HttpStatusCode.OK, (await shop.Server.Send(HttpMethod.Post, "/api/people/badge", shop.Office.Ask("Ann", shop.Foreman, "code", ("person", shop.Fitter)), Token)).Status);
        Assert.Equal("This badge is void: a new one was made.", await Shown(shop.Fitter, next));
        // Nowhere readable.
        Assert.DoesNotContain(next, System.Text.Encoding.Latin1.GetString(await File.ReadAllBytesAsync(shop.Job.At(".rootgap/records.db"), TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_asked_once_cannot_be_asked_again_by_who_listened()
    {
        await using var shop = await Begin();
        var ask = shop.Office.Ask("Ann", shop.Foreman, "code", ("ask", "device-code"));
        Assert.Equal(HttpStatusCode.OK, (await shop.Server.Send(HttpMethod.Post, "/api/people/device-code", ask, Token)).Status);
        foreach (var address in new[] { "device-code", "badge", "code" })
        {
            var (status, body) = await shop.Server.Send(HttpMethod.Post, "/api/people/" + address, ask, Token);
            Assert.Equal(HttpStatusCode.Forbidden, status);
            Assert.Contains("asked before", body.GetProperty("error").GetString(), StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.OK, (await shop.Server.Send(HttpMethod.Post, "/api/people/device-code", shop.Office.Ask("Ann", shop.Foreman, "code", ("ask", "device-code")), Token)).Status);
    }

    [Fact]
    public async Task Another_picture_under_a_signed_entry_is_seen()
    {
        await using var shop = await Begin();
        var attached = new Attachment(new string('a', 64), "weld.png", 900);
        var fact = shop.Office.Sign(shop.Cut() with { Attached = [attached] }, shop.Fitter);
        Assert.Contains("changed", await shop.Office.Send(fact with { Attached = [attached with { Sha256 = new string('b', 64) }] }), StringComparison.Ordinal);
        Assert.Contains("changed", await shop.Office.Send(fact with { Attached = [] }), StringComparison.Ordinal);
        Assert.Null(await shop.Office.Send(fact));
    }

    [Fact]
    public async Task Only_who_may_say_who_is_here_gets_a_code_for_a_device()
    {
        await using var shop = await Begin();
        async Task<HttpStatusCode> Asked(string ask) => (await shop.Server.Send(HttpMethod.Post, "/api/people/device-code", ask, Token)).Status;
        Assert.Equal(HttpStatusCode.OK, await Asked(shop.Office.Ask("Ann", shop.Foreman, "code", ("ask", "device-code"))));
        Assert.Equal(HttpStatusCode.Forbidden, await Asked(shop.Office.Ask("Ann", shop.Foreman, null, ("ask", "device-code"))));
        Assert.Equal(HttpStatusCode.Forbidden, await Asked(shop.Office.Ask("Bo", shop.Fitter, "code", ("ask", "device-code"))));
        Assert.Equal(HttpStatusCode.Forbidden, await Asked(FactJson.Text(FactJson.Ask(Facts.NewId(), "Ann", DateTimeOffset.UtcNow, null))));
    }

    [Fact]
    public async Task Without_people_all_works_as_before_and_the_first_must_be_able_to_name_others()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        Assert.Single(Facts.Ids((await server.Post(Facts.Cut())).Body, "kept"));
        Assert.Equal(64, (await ServerProgram.Command($"job person {job.Path} --name Bo --may fit")).Code);
        Assert.Equal(64, (await ServerProgram.Command($"job person {job.Path} --name Bo --may people --code 1111")).Code);
        Assert.Single(Facts.Ids((await server.Post(Facts.Cut())).Body, "kept"));
    }

    [Fact]
    public async Task In_the_shop_nobody_makes_themselves_the_first_person_from_another_device()
    {
        using var job = new JobOnDisk();
        // Behind a proxy every call comes from elsewhere.
        await using var server = await Served.Of(new Serving { Folder = job.Path, Name = "job", Port = 0, IsBehindProxy = true });
        var (_, body) = await server.Post(new PersonNamed(Facts.NewId(), "Eve", Facts.Noon, Facts.NewId(), "Eve", null, "", [Right.People]));
        Assert.Contains("named at the server", body.GetProperty("refused")[0].GetProperty("why").GetString(), StringComparison.Ordinal);
    }
}
