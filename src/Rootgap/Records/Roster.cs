namespace Rootgap.Records;

/// <summary>Somebody of the job.</summary>
/// <param name="Entry">The fact that counts for them.</param>
/// <param name="Gone">What revoked them; null where nothing did.</param>
public sealed record Person(PersonNamed Entry, Revoked? Gone)
{
    public string Id => Entry.Person;

    public string Name => Entry.Name;

    public bool May(Right right) => Gone is null && Entry.May.Contains(right);
}

/// <summary>A device of the job.</summary>
public sealed record Device(DeviceEnrolled Entry, Revoked? Gone)
{
    public string Id => Entry.Device;

    public string Name => Entry.Name;
}

/// <summary>
/// Who may sign what on a job, by the facts about people and devices in the order in which they were kept. A job without people asks for no signature.
/// Whether a signature is the device's own is for whoever has the means: see <see cref="FactJson.SignedBytes"/>.
/// </summary>
public sealed record Roster
{
    public static readonly Roster Empty = Of([]);

    /// <summary>Words of the facts that a roster is made from.</summary>
    public static readonly IReadOnlyList<string> Kinds = ["person", "device", "revoked"];

    public required IReadOnlyDictionary<string, Person> People { get; init; }

    public required IReadOnlyDictionary<string, Device> Devices { get; init; }

    /// <summary>Whether signatures are asked for: there is somebody.</summary>
    public bool IsOn => People.Count > 0;

    /// <param name="facts">In the order in which they were kept; others than about people and devices are passed over.</param>
    public static Roster Of(IEnumerable<Fact> facts)
    {
        var people = new Dictionary<string, Person>(StringComparer.Ordinal);
        var devices = new Dictionary<string, Device>(StringComparer.Ordinal);
        foreach (var fact in facts)
        {
            switch (fact)
            {
                // Who left may be named again: that is coming back.
                case PersonNamed named:
                    people[named.Person] = new(named, null);
                    break;
                // A device's key is never another: a lost device that is found makes a new one.
                case DeviceEnrolled enrolled:
                    devices.TryAdd(enrolled.Device, new(enrolled, null));
                    break;
                case Revoked revoked when people.TryGetValue(revoked.Of, out var person):
                    people[revoked.Of] = person with { Gone = person.Gone ?? revoked };
                    break;
                case Revoked revoked when devices.TryGetValue(revoked.Of, out var device):
                    devices[revoked.Of] = device with { Gone = device.Gone ?? revoked };
                    break;
            }
        }

        return new() { People = people, Devices = devices };
    }

    /// <summary>A person who is here by name; null where nobody of that name is.</summary>
    public Person? Named(string name) => People.Values.FirstOrDefault(p => p.Gone is null && string.Equals(p.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>What must be allowed to whoever signs a fact.</summary>
    /// <param name="withdrawn">Where the fact is a withdrawal, what it withdraws.</param>
    public static Right Needed(Fact fact, Fact? withdrawn = null) => fact switch
    {
        FileSaved or RevisionTaken => Right.Draw,
        JointStep { Step: Step.Welded } => Right.Weld,
        JointStep { Step: Step.Checked } or FitUpSeen or Examined or WeldsDrawn or HeatTreated or Tested or Released => Right.Examine,
        PersonNamed or DeviceEnrolled or Revoked => Right.People,
        Withdrawn when withdrawn is not null and not Withdrawn => Needed(withdrawn),
        _ => Right.Fit,
    };

    /// <summary>Whether the person must prove to be here, on this device, now: what others rely on, and who may sign at all.</summary>
    public static bool NeedsProof(Right right) => right is Right.Examine or Right.People;

    /// <summary>
    /// Why a fact would not be taken now, in words for whoever signed it; null where it would be, if its signature is the device's own. A fact's signature is looked at by
    /// what counts now: what was signed before a device was lost and arrives after is asked about again, since nobody can tell when it was made.
    /// </summary>
    public string? WhyNot(Fact fact, string job, Fact? withdrawn = null)
    {
        if (!IsOn)
            return fact is PersonNamed first && !first.May.Contains(Right.People) ? "The first person of a job must be allowed to say who is here (people), or nobody ever could." : null;
        if (fact is DeviceEnrolled)
            return "A device is let in with a code, on the page People.";
        if (fact.Signed is not { } signed)
            return "Nobody signed it, and this job has people who sign. Let this device in on the page People.";
        if (signed.Job != job)
            return "It was signed for another job. Enter it anew here.";
        if (!Devices.TryGetValue(signed.Device, out var device))
            return "The device that signed it was never let in. Let it in on the page People.";
        if (device.Gone is { } lost)
            return $"{device.Name} was shut out by {lost.Who}: {lost.Why}. Enter it anew on another device.";
        if (!People.TryGetValue(signed.Person, out var person))
            return "Whoever signed it is nobody of this job.";
        if (person.Gone is { } left)
            return $"{person.Name} was taken off by {left.Who}: {left.Why}.";
        if (fact.Who != person.Name)
            return $"It says {fact.Who}, and {person.Name} signed it.";
        var right = Needed(fact, withdrawn);
        if (!person.May(right))
        {
            var who = People.Values.Where(p => p.May(right)).Select(p => p.Name).Order(StringComparer.Ordinal).ToList();
            return $"{person.Name} may sign {Words(person.Entry.May)}; {WordOf(right)} is for {(who.Count > 0 ? string.Join(", ", who) : "nobody yet")}.";
        }

        if (NeedsProof(right) && signed.Proof is null)
            return $"{person.Name} must show by code to be here before this counts.";
        if (fact is PersonNamed named && named.Person == person.Id && !named.May.Contains(Right.People) && People.Values.Count(p => p.May(Right.People)) == 1)
            return $"{person.Name} is the only one who may say who is here. Allow it to somebody else first.";
        return null;
    }

    /// <summary>A right in the shop's words.</summary>
    public static string WordOf(Right right) => right switch
    {
        Right.Fit => "fit-up",
        Right.Weld => "welds",
        Right.Examine => "examination",
        Right.Draw => "drawings",
        _ => "people",
    };

    private static string Words(IReadOnlyList<Right> rights) => rights.Count == 0 ? "nothing" : string.Join(", ", rights.Select(WordOf));
}
