using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>`rootgap job`: the records of a job as a whole. Each command tells in plain words what it did.</summary>
internal static class JobCommand
{
    private static readonly Option<string?> Store = new("--store") { Description = "The records lie in PostgreSQL: \"Host=server;Database=shop;Username=shop\". Default: in the folder." };
    private static readonly Option<string?> Name = new("--job") { Description = "The job's name in the database, where no folder says which it is." };

    public static Command Make()
    {
        var folder = new Argument<string?>("FOLDER") { Description = "The job's folder. Default: this one.", Arity = ArgumentArity.ZeroOrOne };
        var into = new Option<string>("--out") { Description = "The file to write, ending in .db by custom.", Required = true };
        var backup = new Command("backup", "Writes all records of a job, with every version of its drawings, into one file. They are as at one moment, also while the job is served.\n\nExample: rootgap job backup samples/hatchery --out hatchery.db") { folder, into, Store, Name };
        backup.SetAction(r => Safely(() => BackupAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetRequiredValue(into))));

        var from = new Argument<string>("BACKUP") { Description = "A file that `rootgap job backup` wrote, or a copy of a records.db." };
        var anew = new Option<bool>("--anew") { Description = "Put the folder's present records aside (they stay there as records-aside-N.db) and have the backup's alone." };
        var restore = new Command("restore", "Puts back what a backup has: facts that the job has lost are added, nothing is taken away. Tablets notice and send what they hold beyond it.\n\nExample: rootgap job restore hatchery.db samples/hatchery") { from, folder, anew, Store };
        restore.SetAction(r => Safely(() => RestoreAsync(r.GetRequiredValue(from), r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(anew))));

        var rescue = new Command("rescue", "Saves every fact that can still be read from a damaged records.db into a new one, and says which are lost. The damaged file stays beside it.") { folder };
        rescue.SetAction(r => Safely(() => RescueAsync(r.GetValue(folder) ?? ".")));

        var list = new Command("list", "The jobs of a folder or a database, with their ids and how many facts they have.") { folder, Store };
        list.SetAction(r => Safely(() => ListAsync(r.GetValue(folder) ?? ".", r.GetValue(Store))));

        var renew = new Option<bool>("--renew") { Description = "Make a new one: all devices that had the old one are shut out within seconds." };
        var token = new Command("token", "The token that devices of the shop's network show.") { folder, renew, Store, Name };
        token.SetAction(r => Safely(() => TokenAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetValue(renew))));

        var called = new Option<string>("--name") { Description = "The person's name, as it stands on what they sign.", Required = true };
        var stamp = new Option<string?>("--stamp") { Description = "Their stamp." };
        var role = new Option<string?>("--role") { Description = "The shop's own word: fitter, welder, foreman." };
        var may = new Option<string>("--may") { Description = "What they may sign, with commas: fit, weld, examine, draw, people.", DefaultValueFactory = _ => "fit" };
        var code = new Option<string?>("--code") { Description = "Their own code, 4 to 12 figures, which they show before they sign what others rely on." };
        var person = new Command("person", "Names somebody of the job with what they may sign, or changes that. From the first person on, everything is signed.\n\nExample: rootgap job person samples/hatchery --name Dee --role inspector --may examine,people --code 4711") { folder, called, stamp, role, may, code, Store, Name };
        person.SetAction(r => Safely(() => PersonAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetRequiredValue(called), r.GetValue(stamp), r.GetValue(role) ?? "", r.GetRequiredValue(may), r.GetValue(code))));

        var badgeInto = new Option<string>("--out") { Description = "The file to write: an SVG picture to print, of the size of a card.", Required = true };
        var badge = new Command("badge", "Makes a badge for somebody of the job: scanned with the tablet's camera, it shows who is there as their code does. The one before is void.\n\nExample: rootgap job badge samples/hatchery --name Dee --out dee.svg") { folder, called, badgeInto, Store, Name };
        badge.SetAction(r => Safely(() => BadgeAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetRequiredValue(called), r.GetRequiredValue(badgeInto))));

        var key = new Option<string?>("--key") { Description = "Let in a program, a script or a scanner, in place of a device: write its key to this file, for `rootgap record --key FILE`. Whoever has the file signs with it: keep it as a key is kept.", HelpName = "FILE" };
        var known = new Option<string?>("--name") { Description = "What that program is called, as its signatures say it: scanner at the saw." };
        var enrol = new Command("enrol", "Makes a code that lets one device in, for ten minutes. The device makes its own key, and signs with it. With --key, lets a program in at once.\n\nExample: rootgap job enrol samples/hatchery --key scanner.json --name \"scanner at the saw\"") { folder, key, known, Store, Name };
        enrol.SetAction(r => Safely(() => EnrolAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetValue(key), r.GetValue(known))));

        var verify = new Command("verify", "Looks at every signature of the job's facts anew. Exit code 2 where one is not the device's own.") { folder, Store, Name };
        verify.SetAction(r => Safely(() => VerifyAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name))));

        var papersInto = new Option<string?>("--out") { Description = "A new folder to write them into, each under its name." };
        var papers = new Command("papers", "The pictures and papers that facts speak of: which there are, and which are lacking (still on a tablet, or lost). Exit code 2 where some are lacking.\n\nExample: rootgap job papers samples/hatchery --out pictures") { folder, papersInto, Store, Name };
        papers.SetAction(r => Safely(() => PapersAsync(r.GetValue(folder) ?? ".", r.GetValue(Store), r.GetValue(Name), r.GetValue(papersInto))));

        return new Command("job", "The records of a job as a whole: back up, put back, save from damage.\n\nExit codes: 0 done, 2 a signature is wrong or a paper is lacking, 3 a file could not be read or written, 64 wrong usage, 69 the folder is served or the store cannot be had.") { backup, restore, rescue, list, papers, token, person, badge, enrol, verify };
    }

    private static async Task<int> BackupAsync(string folder, string? store, string? name, string into)
    {
        if (File.Exists(into))
            return ServeCommand.Refuse(ServeCommand.Usage, $"{into} is there already, and a backup is never written over.", "Give the file another name.");
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        var target = Path.GetFullPath(into);
        var beside = $"{target}.{Guid.NewGuid():N}.part";
        try
        {
            long facts;
            await using (var copy = await Archive.OpenFileAsync(beside))
                facts = await copy.TakeInAsync(place.Archive, place.Job);
            File.Move(beside, target);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{facts} facts are in {into}. Keep it on another disk."));
            return ServeCommand.Done;
        }
        finally
        {
            foreach (var left in new[] { beside, beside + "-wal", beside + "-shm" })
                File.Delete(left);
        }
    }

    private static async Task<int> RestoreAsync(string backup, string folder, string? store, bool isAnew)
    {
        if (!File.Exists(backup))
            return ServeCommand.Refuse(ServeCommand.Unreadable, $"{backup}: there is no such file.", "Name a file that `rootgap job backup` wrote.");
        if (!Directory.Exists(folder))
            return ServeCommand.Refuse(ServeCommand.Unreadable, $"{folder}: there is no such folder.", "Make the job's folder first: mkdir " + folder);
        var own = Directory.CreateDirectory(JobPlace.OwnOf(Path.GetFullPath(folder))).FullName;
        using var held = store is null ? FolderLock.Take(own) : null;
        // Read from a copy: opening a store brings it forward, and a backup stays as it is.
        var copied = Path.Combine(own, $".rootgap-{Guid.NewGuid():N}.tmp");
        var beside = Path.Combine(own, $".rootgap-{Guid.NewGuid():N}.tmp");
        try
        {
            File.Copy(backup, copied);
            File.SetAttributes(copied, FileAttributes.Normal);
            await using var from = await Archive.OpenFileAsync(copied);
            var jobs = await from.JobsAsync();
            if (jobs.Count != 1)
                return ServeCommand.Refuse(ServeCommand.Unreadable, $"{backup} holds {jobs.Count} jobs, and a backup holds one.", "Name a file that `rootgap job backup` wrote.");
            if (JobPlace.NotedIn(own) is { } noted && noted != jobs[0].Id)
                return ServeCommand.Refuse(ServeCommand.Unreadable, $"{backup} is of another job than {folder}.", "Name the folder of the backup's job, or an empty folder.");
            if (store is null)
                RecordsFile.Finish(own);
            var records = JobPlace.RecordsOf(Path.GetFullPath(folder));
            var isNew = store is null && (isAnew || !File.Exists(records));
            long added;
            await using (var to = store is not null ? await Archive.OpenServerAsync(store) : await Archive.OpenFileAsync(isNew ? beside : records))
            {
                if (store is null && !isNew && await to.JobsAsync() is [var there] && there.Id != jobs[0].Id)
                    return ServeCommand.Refuse(ServeCommand.Unreadable, $"The records in {folder} are of another job than {backup}.", "Say --anew to put them aside, or name another folder.");
                added = await to.TakeInAsync(from, jobs[0].Id);
            }

            ServedJob.Note(own, jobs[0].Id);
            if (isNew)
                RecordsFile.Put(own, beside);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{added} facts were put back. What tablets hold beyond them comes when they are next in the network."));
            return ServeCommand.Done;
        }
        finally
        {
            foreach (var left in new[] { copied, beside }.SelectMany(f => new[] { f, f + "-wal", f + "-shm" }))
                File.Delete(left);
        }
    }

    private static async Task<int> RescueAsync(string folder)
    {
        var full = Path.GetFullPath(folder);
        var records = JobPlace.RecordsOf(full);
        if (!File.Exists(records) && !RecordsFile.IsBegun(JobPlace.OwnOf(full)))
            return ServeCommand.Refuse(ServeCommand.Unreadable, $"{records}: there is no such file.", "Name the job's folder.");
        using var held = FolderLock.Take(JobPlace.OwnOf(full));
        RecordsFile.Finish(JobPlace.OwnOf(full));
        var beside = Path.Combine(JobPlace.OwnOf(full), $".rootgap-{Guid.NewGuid():N}.tmp");
        try
        {
            var rescued = await Rescue.SaveAsync(records, beside, JobPlace.NotedIn(JobPlace.OwnOf(full)));
            ServedJob.Note(JobPlace.OwnOf(full), rescued.Job);
            var aside = RecordsFile.Put(JobPlace.OwnOf(full), beside);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{rescued.Saved} facts were saved, {rescued.Lost.Count} are lost{(rescued.Lost.Count > 0 ? $" (numbers {string.Join(", ", rescued.Lost.Take(20))}{(rescued.Lost.Count > 20 ? ", ..." : "")})" : "")}."));
            if (rescued.Lacking is { Count: > 0 } lacking)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{(lacking.Count == 1 ? "1 picture or paper is" : $"{lacking.Count} pictures and papers are")} lacking: {string.Join(", ", lacking.Take(20).Select(a => a.Name))}{(lacking.Count > 20 ? ", ..." : "")}."));
            Console.WriteLine($"The damaged file is {aside}. Add what a backup has: `rootgap job restore BACKUP {folder}`. Tablets send what they hold.");
            return ServeCommand.Done;
        }
        finally
        {
            foreach (var left in new[] { beside, beside + "-wal", beside + "-shm" })
                File.Delete(left);
        }
    }

    private static async Task<int> ListAsync(string folder, string? store)
    {
        await using var archive = store is null ? await Archive.OpenFileAsync(JobPlace.RecordsIn(folder)) : await Archive.OpenServerAsync(store);
        foreach (var job in await archive.JobsAsync())
        {
            var head = await (await archive.OpenJobAsync(job.Id)).HeadAsync();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{job.Id}  {head.Seq} facts  {job.Name}"));
        }

        return ServeCommand.Done;
    }

    private static async Task<int> TokenAsync(string folder, string? store, string? name, bool isRenewed)
    {
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        var token = store is not null && name is not null ? new JobToken(await place.Archive.OpenJobAsync(place.Job)) : new JobToken(Path.GetFullPath(folder));
        Console.WriteLine(isRenewed ? await token.RenewAsync() : await token.NowAsync());
        return ServeCommand.Done;
    }

    private static async Task<int> PersonAsync(string folder, string? store, string? name, string called, string? stamp, string role, string may, string? code)
    {
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        var facts = await place.Archive.OpenJobAsync(place.Job);
        using var people = new JobPeople(facts, TimeProvider.System);
        await people.LearnAsync();
        var rights = JsonSerializer.Serialize(may.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
        var written = JsonSerializer.Serialize(new
        {
            id = Guid.CreateVersion7(), fact = "person", who = called.Trim(), when = DateTimeOffset.UtcNow, person = people.Roster.Named(called.Trim())?.Id ?? Guid.CreateVersion7().ToString(), name = called.Trim(), stamp, role, may = JsonSerializer.Deserialize<JsonElement>(rights),
        });
        var (fact, wrong) = FactJson.Read(written);
        if (fact is not PersonNamed person)
            return ServeCommand.Refuse(ServeCommand.Usage, wrong!, "Say, for example: --name Dee --role inspector --may examine,people");
        if (code is not null && PersonCodes.WhyNotCode(code) is { } poor)
            return ServeCommand.Refuse(ServeCommand.Usage, poor, "Take another one.");
        if (!people.Roster.IsOn && people.Roster.WhyNot(person, place.Job) is { } why)
            return ServeCommand.Refuse(ServeCommand.Usage, why, "Say --may fit,people or the like.");
        await facts.KeepAsync([person], DateTimeOffset.UtcNow);
        if (code is not null)
            await people.Codes.SetAsync(person.Person, code);
        Console.WriteLine($"{person.Name} may sign: {(person.May.Count > 0 ? string.Join(", ", person.May.Select(Roster.WordOf)) : "nothing")}.");
        return ServeCommand.Done;
    }

    private static async Task<int> BadgeAsync(string folder, string? store, string? name, string called, string into)
    {
        if (File.Exists(into))
            return ServeCommand.Refuse(ServeCommand.Usage, $"{into} is there already, and nothing is written over.", "Give the file another name.");
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        using var people = new JobPeople(await place.Archive.OpenJobAsync(place.Job), TimeProvider.System);
        await people.LearnAsync();
        if (people.Roster.Named(called.Trim()) is not { } person)
            return ServeCommand.Refuse(ServeCommand.Usage, $"The job has nobody called \"{called}\".", $"Name them first: rootgap job person {folder} --name \"{called}\" --may fit");
        JobFolder.Replace(Path.GetFullPath(into), System.Text.Encoding.UTF8.GetBytes(QrText.Badge(await people.Codes.NewBadgeAsync(person.Id), person.Name, person.Entry.Role)));
        Console.WriteLine($"The badge of {person.Name} is {into}. Whoever has it can show to be {person.Name} on a device that was let in; make a new one when it is lost.");
        return ServeCommand.Done;
    }

    private static async Task<int> EnrolAsync(string folder, string? store, string? name, string? key, string? known)
    {
        if (key is not null && string.IsNullOrWhiteSpace(known))
            return ServeCommand.Refuse(ServeCommand.Usage, "A program that signs has a name, as it stands on what it signs.", "Say --name \"scanner at the saw\".");
        if (key is not null && File.Exists(key))
            return ServeCommand.Refuse(ServeCommand.Usage, $"{key} is there already, and nothing is written over.", "Give the file another name.");
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        using var people = new JobPeople(await place.Archive.OpenJobAsync(place.Job), TimeProvider.System);
        if (key is not null)
        {
            var (own, shown) = ProgramKey.New();
            var (device, why) = await people.EnrolAsync(await people.NewDeviceCodeAsync("the server"), known!, shown);
            if (device is null)
                return ServeCommand.Refuse(ServeCommand.Usage, why!, "Say --name with what the program is called.");
            new ProgramKey(place.Job, device.Device, device.Name, own).Write(key);
            Console.WriteLine($"{device.Name} is let in, and its key is {key}. Whoever has the file signs with it; when it is lost, shut the device out on the page People.");
            return ServeCommand.Done;
        }

        Console.WriteLine($"Open the app on the device, go to Settings, Let this device in, and write: {await people.NewDeviceCodeAsync("the server")}");
        Console.WriteLine("It is good for one device and for ten minutes.");
        return ServeCommand.Done;
    }

    private static async Task<int> VerifyAsync(string folder, string? store, string? name)
    {
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        var facts = await place.Archive.OpenJobAsync(place.Job);
        using var people = new JobPeople(facts, TimeProvider.System);
        await people.LearnAsync();
        var (right, unsigned, wrong, after) = (0, 0, 0, 0L);
        FactPage page;
        do
        {
            page = await facts.ReadAsync(after);
            foreach (var kept in page.Facts)
            {
                if (FactJson.Read(kept.Json).Fact is not { Signed: { } signed } fact)
                {
                    unsigned++;
                }
                else if (signed.Job == place.Job && people.Roster.Devices.TryGetValue(signed.Device, out var device) && ProgramKey.IsOwn(fact, device.Entry.Key))
                {
                    right++;
                }
                else
                {
                    wrong++;
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kept.Seq}  {fact.Id}  {fact.Kind} by {fact.Who}: the signature is not that of a device of this job, or the fact was changed"));
                }
            }

            after = page.Next;
        }
        while (page.More);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{right} signatures are right, {wrong} are wrong, {unsigned} facts are not signed."));
        return wrong > 0 ? 2 : ServeCommand.Done;
    }

    private static async Task<int> PapersAsync(string folder, string? store, string? name, string? into)
    {
        if (into is not null && (File.Exists(into) || Directory.Exists(into)))
            return ServeCommand.Refuse(ServeCommand.Usage, $"{into} is there already, and nothing is written over.", "Name a new folder.");
        await using var place = await JobPlace.OpenAsync(folder, store, name);
        var contents = (await place.Archive.OpenJobAsync(place.Job)).Attachments;
        var spoken = (await place.FactsAsync()).SelectMany(f => f.Attached.Select(a => (Fact: f, Attached: a))).DistinctBy(a => a.Attached.Sha256).ToList();
        var lacking = 0;
        var beside = into is null ? "" : $"{Path.GetFullPath(into)}.{Guid.NewGuid():N}.part";
        try
        {
            var taken = new HashSet<string>(StringComparer.OrdinalIgnoreCase);
            foreach (var (fact, attached) in spoken)
            {
                var content = await contents.ReadAsync(attached.Sha256);
                lacking += content is null ? 1 : 0;
                var file = content is null ? "lacking" : NameOf(attached, content, taken);
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{attached.Sha256[..12]}  {attached.Bytes,8}  {file}  {fact.Kind} by {fact.Who}, {fact.When:yyyy-MM-dd HH:mm}Z{(content is null ? $": {attached.Name}" : "")}"));
                if (into is not null && content is not null)
                    await File.WriteAllBytesAsync(Path.Combine(Directory.CreateDirectory(beside).FullName, file), content);
            }

            // All of them, or no folder.
            if (Directory.Exists(beside))
                Directory.Move(beside, Path.GetFullPath(into!));
        }
        finally
        {
            if (Directory.Exists(beside))
                Directory.Delete(beside, recursive: true);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{spoken.Count - lacking} are here, {lacking} are lacking."));
        return lacking > 0 ? 2 : ServeCommand.Done;
    }

    // What somebody called it is no path: its plain letters stay, and the ending says what it is.
    private static string NameOf(Attachment attached, byte[] content, HashSet<string> taken)
    {
        var plain = new string([.. Path.GetFileNameWithoutExtension(attached.Name).Select(c => char.IsLetterOrDigit(c) || c is ' ' or '-' or '_' ? c : '-').Take(60)]).Trim(' ', '-');
        var ending = Attachment.TypeOf(content) switch { "image/png" => ".png", "image/jpeg" => ".jpg", "image/webp" => ".webp", "application/pdf" => ".pdf", _ => ".bin" };
        var name = (plain.Length > 0 ? plain : "paper") + ending;
        return taken.Add(name) ? name : $"{(plain.Length > 0 ? plain : "paper")} {attached.Sha256[..12]}{ending}";
    }

    private static async Task<int> Safely(Func<Task<int>> work)
    {
        try
        {
            return await work();
        }
        catch (StoreException e)
        {
            return ServeCommand.Refuse(ServeCommand.Unavailable, e.Message, e.Remedy);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return ServeCommand.Refuse(ServeCommand.Unreadable, e.Message, "See whether the folder and the file are named rightly, whether you may read and write there, and whether the disk is full.");
        }
    }
}
