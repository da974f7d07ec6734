using System.CommandLine;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli;

/// <summary>Something was not kept, since on the job people sign what they enter.</summary>
internal sealed class NotSignedException(string message) : Exception(message);

/// <summary>How a command signs what it enters where people of the job sign: by a key that was let in as a device is, for whoever is named, with their code where that is asked.</summary>
/// <param name="KeyFile">The file that `rootgap job enrol --key` wrote; null where none was named.</param>
/// <param name="Code">Code or badge of whoever enters; null where none was given.</param>
internal sealed record Signing(string? KeyFile, string? Code)
{
    private const string KeyVariable = "ROOTGAP_KEY";
    private const string CodeVariable = "ROOTGAP_CODE";

    public static readonly Option<string?> KeyOption = new("--key") { Description = $"Where people sign what they enter: the key of this program, made once by `rootgap job enrol FOLDER --key FILE`. Default: what {KeyVariable} names.", HelpName = "FILE" };
    public static readonly Option<string?> CodeOption = new("--code") { Description = $"The code of whoever enters it, for what others rely on (examination, test, release). Default: what {CodeVariable} holds, which no list of programs shows." };

    public static Signing Of(ParseResult r) => new(r.GetValue(KeyOption) ?? Environment.GetEnvironmentVariable(KeyVariable), r.GetValue(CodeOption) ?? Environment.GetEnvironmentVariable(CodeVariable));

    /// <summary>The facts as the job takes them: signed here where nobody signed them and the job asks for it; each looked at as the server does with what devices bring.</summary>
    /// <exception cref="NotSignedException">One of them is not taken.</exception>
    public async Task<IReadOnlyList<Fact>> SignedAsync(IReadOnlyList<Fact> facts, JobPlace place, FactStore store)
    {
        var there = await place.FactsAsync();
        var roster = Roster.Of(there);
        if (!roster.IsOn)
            return facts;
        var known = there.ToDictionary(f => f.Id, StringComparer.OrdinalIgnoreCase);
        ProgramKey? key = null;
        var proven = new Dictionary<string, string?>(StringComparer.Ordinal);
        List<Fact> signed = [];
        foreach (var fact in facts)
        {
            // A script that runs twice brings without its signature what was signed the first time.
            if (known.TryGetValue(fact.Id, out var before))
            {
                signed.Add(fact.Signed is null && FactJson.Text(before with { Signed = null, Who = fact.Who }) == FactJson.Text(fact) ? before : fact);
                continue;
            }

            var taken = fact;
            var withdrawn = fact is Withdrawn w ? known.GetValueOrDefault(w.Fact) : null;
            if (fact.Signed is null)
            {
                key ??= Key(place.Job);
                if (roster.Named(fact.Who.Trim()) is not { } person)
                    throw new NotSignedException($"The job has nobody called \"{fact.Who}\". It has: {string.Join(", ", roster.People.Values.Where(p => p.Gone is null).Select(p => p.Name).Order(StringComparer.Ordinal))}.");
                var isAsked = Roster.NeedsProof(Roster.Needed(fact, withdrawn));
                if (isAsked && Code is null)
                    throw new NotSignedException($"{person.Name} must show by code to be here before this counts: give it with --code, or in {CodeVariable}.");
                if (isAsked && !proven.ContainsKey(person.Id))
                    proven[person.Id] = await new PersonCodes(store, TimeProvider.System).WhyNotProvenAsync(person.Id, Code!);
                if (isAsked && proven[person.Id] is { } wrong)
                    throw new NotSignedException($"{person.Name}: {wrong}");
                taken = key.Sign(fact, person, isAsked);
            }

            var why = roster.WhyNot(taken, place.Job, withdrawn);
            if (why is null && !(roster.Devices.TryGetValue(taken.Signed!.Device, out var device) && ProgramKey.IsOwn(taken, device.Entry.Key)))
                why = "The signature is not the device's own, or what it signed was changed.";
            if (why is not null)
                throw new NotSignedException(facts.Count == 1 ? why : $"{fact.Id}: {why}");
            signed.Add(taken);
        }

        return signed;
    }

    private ProgramKey Key(string job)
    {
        if (KeyFile is null)
            throw new NotSignedException("On this job people sign what they enter, with a device that was let in, and this program was given no key. Let it in once, at the server: rootgap job enrol FOLDER --key scanner.json --name \"scanner at the saw\". Then say --key scanner.json each time. Or enter it in the app.");
        try
        {
            var key = ProgramKey.Read(KeyFile);
            return key.Job == job ? key : throw new NotSignedException($"{KeyFile} is a key of another job. Let this program into this one: rootgap job enrol FOLDER --key FILE --name NAME");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            throw new NotSignedException($"{KeyFile}: {e.Message} Name the file that `rootgap job enrol FOLDER --key FILE` wrote.");
        }
    }
}
