using System.Globalization;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Records;

/// <summary>Reads one fact, key by key; stops at the first thing that is wrong and says what.</summary>
internal sealed partial class FactReader(JsonElement element) : FactKeys(element)
{
    private const int MostReadings = 200;

    private static readonly DrawingRef NoDrawing = new("", "");

    public Fact? Fact()
    {
        try
        {
            return Any();
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair, or bytes that are no UTF-8: JSON allows the one and lets the other pass until it is read.
            return Fail("", "holds signs that are no text. Write it as UTF-8.");
        }
    }

    private Fact? Any()
    {
        if (Element.ValueKind != JsonValueKind.Object)
            return Fail("", "is not a fact: a fact is an object with id, fact, who and when.");
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var property in Element.EnumerateObject())
        {
            if (!seen.Add(property.Name))
                return Fail(property.Name, "is written twice.");
        }

        var id = Id("id");
        var kind = Word("fact");
        var who = Word("who");
        var when = When();
        if (Wrong is not null)
            return null;
        var fact = Of(kind, id, who, when);
        if (Wrong is not null || fact is null)
            return fact;
        if (Signed() is { } signed)
            fact = fact with { Signed = signed };
        if (fact is DrawingFact about && Deviation() is { } deviation)
            fact = about with { Deviation = deviation };
        if (Attached() is { Count: > 0 } attached)
            fact = fact with { Attached = attached };
        if (Wrong is not null || fact is UnknownFact)
            return Wrong is null ? fact : null;
        List<(string, string)> more = [.. Element.EnumerateObject().Where(p => !IsKnown(p.Name)).Select(p => (p.Name, p.Value.GetRawText()))];
        return more.Count > 0 ? fact with { More = more } : fact;
    }

    private Fact? Of(string kind, string id, string who, DateTimeOffset when)
    {
        switch (kind)
        {
            case "file":
                return File(id, who, when);
            case "piece-cut":
                return new PieceCut(id, who, when, Drawing(), Word("piece"), MaybeWord("heat"), Length()) { IsSpoiled = MaybeYes("spoiled"), From = From(), Versions = Ids("version"), Note = Note() };
            case "bar":
                return new BarNoted(id, who, when, Path("stock"), Word("bar")) { IsOut = MaybeYes("out"), Heat = MaybeWord("heat"), Note = Note() };
            case "heat":
                return new HeatNoted(id, who, when, Drawing(), Word("component"), Word("heat")) { Versions = Ids("version"), Note = Note() };
            case "readings":
                return new ReadingsTaken(id, who, when, Drawing(), Word("joint"), SetUp(), MaybeWord("held") ?? "", Number("mark"), Readings()) { Versions = Ids("version"), First = MaybeId("first"), IsWelded = IsWelded(), Note = Note() };
            case "joint-step":
                return new JointStep(id, who, when, Drawing(), Word("joint"), Step())
                {
                    Welder = MaybeWord("welder"),
                    Passes = Passes(),
                    Procedure = MaybeWord("procedure"),
                    Filler = MaybeWord("filler"),
                    Preheat = MaybeNumber("preheat", -100, 1000, "no temperature in °C"),
                    IsField = Place(),
                    Weld = Weld(),
                    Versions = Ids("version"),
                    Note = Note(),
                };
            case "revision-taken":
                return new RevisionTaken(id, who, when, Drawing()) { Versions = Ids("version"), Note = Note() };
            case "looked-at":
                return new LookedAt(id, who, when, Drawing(), Id("of"), YesNo("holds"), Word("as")) { Versions = Ids("version"), Note = Note() };
            case "spool-reading":
                return new SpoolRead(id, who, when, Drawing(), Word("spool"), Word("base"), Text("row", LongestNote, needed: true) ?? "") { IsTacked = MaybeYes("tacked"), Versions = Ids("version"), Note = Note() };
            case "survey-reading":
                return new SurveyRead(id, who, when, Drawing(), Text("row", LongestNote, needed: true) ?? "") { Versions = Ids("version"), Note = Note() };
            case "survey-set":
                return new SurveySet(id, who, when, Drawing(), Text("head", LongestNote, needed: true) ?? "") { Versions = Ids("version"), Note = Note() };
            case "as-built":
                return new EndAsBuilt(id, who, when, Drawing(), Word("end"), Six("off"), Six("sd")) { Versions = Ids("version"), Note = Note() };
            case "erection":
                return new ErectionDone(id, who, when, Drawing(), Word("step")) { Versions = Ids("version"), Note = Note() };
            case "withdrawn":
                return new Withdrawn(id, who, when, Id("withdraws"), Text("why", LongestNote, needed: false) ?? "");
            case "person":
                return new PersonNamed(id, who, when, Id("person"), Word("name"), MaybeWord("stamp"), MaybeWord("role") ?? "", Rights());
            case "device":
                return new DeviceEnrolled(id, who, when, Id("device"), Word("name"), Key());
            case "revoked":
                return new Revoked(id, who, when, Id("revokes"), Text("why", LongestNote, needed: false) ?? "");
            default:
                return OfPapers(kind, id, who, when) ?? (Wrong is null ? new UnknownFact(id, who, when, kind, Element.GetRawText()) : null);
        }
    }

    private Signature? Signed()
    {
        if (Get("signed") is not { ValueKind: not JsonValueKind.Null } signed)
            return null;
        if (signed.ValueKind != JsonValueKind.Object || signed.EnumerateObject().Any(p => p.Value.ValueKind != JsonValueKind.String || p.Name is not ("job" or "device" or "person" or "proof" or "value")))
        {
            Fail("signed", "is no signature: it has job, device, person and value, and proof where that was asked.");
            return null;
        }

        string Part(string key) => signed.TryGetProperty(key, out var part) ? part.GetString()! : "";
        var proof = signed.TryGetProperty("proof", out var shown) ? shown.GetString() : null;
        if (proof is not (null or "code"))
            Fail("signed.proof", "is not code.");
        return new(Id("signed", signed, "job"), Id("signed", signed, "device"), Id("signed", signed, "person"), proof, Part("value"));
    }

    private List<Attachment> Attached()
    {
        List<Attachment> attached = [];
        if (Get("attached") is not { ValueKind: not JsonValueKind.Null } list)
            return attached;
        if (list.ValueKind != JsonValueKind.Array || Attachment.MostOfOne < list.GetArrayLength())
        {
            Fail("attached", string.Create(CultureInfo.InvariantCulture, $"is no list of at most {Attachment.MostOfOne} pictures and papers."));
            return attached;
        }

        foreach (var item in list.EnumerateArray())
        {
            if (item.ValueKind != JsonValueKind.Object || item.EnumerateObject().Any(p => p.Name is not ("sha256" or "name" or "bytes")))
            {
                Fail("attached", "holds something that is not {\"sha256\": \"...\", \"name\": \"certificate.pdf\", \"bytes\": 81234}.");
                break;
            }

            var inner = new FactReader(item);
            var one = new Attachment(inner.Word("sha256"), inner.Word("name"), inner.Number("bytes") is { } n && n == Math.Floor(n) && n is >= 1 and <= Attachment.Largest ? (int)n : 0);
            if (inner.Wrong is null && !Attachment.IsDigest(one.Sha256))
                inner.Fail("sha256", "is no SHA-256 in lower case: 64 of 0-9 and a-f.");
            else if (one.Bytes == 0)
                inner.Fail("bytes", string.Create(CultureInfo.InvariantCulture, $"is no length from 1 to {Attachment.Largest} (2 MB)."));
            if (inner.Wrong is not null)
                Fail("attached", inner.Wrong);
            else if (attached.Exists(a => a.Sha256 == one.Sha256))
                Fail("attached", "names the same content twice.");
            attached.Add(one);
        }

        return attached;
    }

    private List<Right> Rights()
    {
        List<Right> rights = [];
        if (Get("may") is not { ValueKind: JsonValueKind.Array } list)
        {
            Fail("may", "is no list of what the person may sign: fit, weld, examine, draw, people.");
            return rights;
        }

        foreach (var item in list.EnumerateArray())
        {
            var word = item.ValueKind == JsonValueKind.String ? item.GetString() : null;
            var right = Enum.GetValues<Right>().Where(r => FactJson.WordOf(r) == word).Select(r => (Right?)r).FirstOrDefault();
            if (right is null)
                Fail("may", $"holds \"{word}\", which is not one of fit, weld, examine, draw, people.");
            else if (!rights.Contains(right.Value))
                rights.Add(right.Value);
        }

        return rights;
    }

    // SubjectPublicKeyInfo of a key on P-256 has 91 bytes.
    private string Key()
    {
        var key = Text("key", LongestWord, needed: true) ?? "";
        if (Wrong is null && !(Convert.TryFromBase64String(key, new byte[200], out var length) && length == 91))
            Fail("key", "is no public key on P-256 in base64.");
        return key;
    }

    private FileSaved? File(string id, string who, DateTimeOffset when)
    {
        var path = Word("path");
        if (Wrong is null && JobPath.WhyNot(path) is { } why)
            Fail("path", $"\"{path}\": {why}");
        var removed = Get("removed") is { } r && r.ValueKind == JsonValueKind.True;
        byte[]? content = null;
        if (Get("text") is { } text)
        {
            if (text.ValueKind == JsonValueKind.String)
                content = FactText.Bytes(text.GetString()!);
            else
                Fail("text", "is no text.");
        }

        if (Get("base64") is { } bytes)
        {
            if (content is not null)
                Fail("base64", "stands beside text: a file has one content.");
            else if (bytes.ValueKind != JsonValueKind.String || !bytes.TryGetBytesFromBase64(out content))
                Fail("base64", "is no base64.");
        }

        if (Wrong is null && removed != content is null)
            Fail("text", removed ? "stands beside removed: a file that is taken away has no content." : "is missing: write text, base64, or removed: true.");
        if (FileSaved.Largest < content?.Length)
            Fail("path", string.Create(CultureInfo.InvariantCulture, $"\"{path}\" has {content.Length} bytes; a file of a job has at most {FileSaved.Largest} (4 MB)."));
        var bases = Bases(id);
        return Wrong is null ? new(id, who, when, path, content, bases) : null;
    }

    private string[] Bases(string self)
    {
        var ids = Ids("base");
        if (ids.Contains(self))
            Fail("base", "is the version itself.");
        return ids;
    }

    private PoseError Six(string key)
    {
        Span<double> six = stackalloc double[6];
        if (Get(key) is not { ValueKind: JsonValueKind.Object } given)
        {
            Fail(key, "is missing: write {x, y, z, rx, ry, rz}, mm and degrees.");
            return PoseError.None;
        }

        for (var i = 0; i < 6; i++)
        {
            if (!given.TryGetProperty(PoseError.Names[i], out var value) || value.ValueKind != JsonValueKind.Number || !value.TryGetDouble(out six[i]) || !(Math.Abs(six[i]) < 1e6))
            {
                Fail($"{key}.{PoseError.Names[i]}", "is no number.");
                return PoseError.None;
            }

            six[i] = i < 3 ? six[i] : Angles.ToRadians(six[i]);
        }

        return PoseError.From(six);
    }

    // Of a stock file; empty where there is none.
    private string Path(string key)
    {
        var path = Text(key, LongestWord, needed: true) ?? "";
        if (Wrong is null && path.Length > 0 && JobPath.WhyNot(path) is { } why)
            Fail(key, $"\"{path}\": {why}");
        return path;
    }

    private CutFrom? From()
    {
        switch (Get("from"))
        {
            case null or { ValueKind: JsonValueKind.Null }:
                return null;
            case { ValueKind: JsonValueKind.Object } given:
                // Read as a fact is, key by key; what a later version writes into it is not known here, and a bar that is half known is none.
                var inner = new FactReader(given);
                var from = new CutFrom(inner.Path("stock"), inner.Word("bar"), inner.Number("to") ?? -1);
                if (inner.Wrong is null && from.To is not (>= 0 and <= 1e6))
                    inner.Fail("to", "is no place on a bar, in mm.");
                if (inner.Wrong is not null)
                    Fail("from", inner.Wrong);
                return from;
            default:
                Fail("from", "does not say which bar: write {\"stock\": \"rack.yaml\", \"bar\": \"R1#2\", \"to\": 1146.4}.");
                return null;
        }
    }

    private DrawingRef Drawing()
    {
        var number = Word("drawing");
        var revision = Text("revision", LongestWord, needed: true);
        return Wrong is null ? new(number, revision!) : NoDrawing;
    }

    private double? Length()
    {
        var length = Number("length");
        if (length is <= 0 or > 1e6)
            Fail("length", "is no length of a piece, in mm.");
        return length;
    }

    private Step Step()
    {
        var word = Word("step");
        foreach (var step in Enum.GetValues<Step>())
        {
            if (FactJson.WordOf(step) == word)
                return step;
        }

        Fail("step", $"\"{word}\" is not one of fitted, tacked, welded, checked.");
        return default;
    }

    private string SetUp()
    {
        var word = Word("set-up");
        if (Wrong is null && FitUp.SetUp.Parse(word) is null)
            Fail("set-up", $"\"{word}\" is not one of on end, level, rolled, or rolled with degrees such as rolled 270.");
        return word;
    }

    // As a readings file has it; facts from before it was noted do not say it.
    private bool IsWelded()
    {
        var word = MaybeWord("state");
        if (word is not (null or "tacked" or "welded"))
            Fail("state", $"\"{word}\" is not one of tacked, welded.");
        return word == "welded";
    }

    private List<Taken> Readings()
    {
        List<Taken> taken = [];
        if (Get("readings") is not { ValueKind: JsonValueKind.Array } list)
        {
            Fail("readings", "is no list of readings such as {\"read\": \"tape\", \"at\": 3, \"mm\": 612.5}.");
            return taken;
        }

        if (MostReadings < list.GetArrayLength())
            Fail("readings", "are more than anybody takes at one joint.");
        var i = 0;
        foreach (var item in list.EnumerateArray())
        {
            if (Wrong is null && One(item, string.Create(CultureInfo.InvariantCulture, $"readings[{i++}]")) is { } one)
                taken.Add(one);
        }

        return taken;
    }

    private Taken? One(JsonElement item, string where)
    {
        if (item.ValueKind != JsonValueKind.Object || !item.TryGetProperty("read", out var word) || word.ValueKind != JsonValueKind.String)
        {
            Fail(where, "does not say what was read.");
            return null;
        }

        double? Value(string key)
        {
            if (!item.TryGetProperty(key, out var value))
                return null;
            if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number) && Math.Abs(number) < 1e6)
                return number;
            Fail($"{where}.{key}", "is not a number such as 612.5.");
            return null;
        }

        var name = word.GetString()!;
        int? at = Value("at") is { } position && position == (int)position && (name is "gap" or "hi-lo" ? position is >= 1 and <= 12 : StandingJoint.Clock.Contains((int)position)) ? (int)position : null;
        if (at is null && item.TryGetProperty("at", out _))
            Fail($"{where}.at", name is "gap" or "hi-lo" ? "is not an hour of the clock: 1 to 12." : "is not a clock position: 12, 3, 6 or 9.");
        var reading = FitReadings.Find(name, at, Value("station"), item.TryGetProperty("across", out _) ? "across" : "along");
        if (reading is null)
        {
            Fail(where, $"\"{name}\" is not a reading, or its at or station is missing.");
            return null;
        }

        var key = FactJson.UnitOf(reading);
        if (Value(key) is not { } read)
        {
            Fail($"{where}.{key}", "is missing: it holds what was read.");
            return null;
        }

        var sd = Value("sd");
        if (sd is <= 0)
            Fail($"{where}.sd", "is a spread and greater than 0.");
        return reading.IsAngle ? new(reading, Angles.ToRadians(read), sd is { } s ? Angles.ToRadians(s) : null) : new(reading, read, sd);
    }
}
