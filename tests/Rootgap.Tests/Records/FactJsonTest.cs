using System.Text.Json;
using Rootgap.Records;
using static Rootgap.Tests.Records.FactGens;

namespace Rootgap.Tests.Records;

public class FactJsonTest
{
    private const string Cut = """{"id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b01","fact":"piece-cut","who":"Jo","when":"2026-11-25T15:00:00.000Z","drawing":"CHW-118-01","revision":"2","piece":"1-A","heat":"A1234"}""";

    [Fact]
    public void Every_fact_comes_back_as_it_was_written() => One(1, 5).Holds(fact =>
    {
        var written = FactJson.Text(fact);
        var (read, wrong) = FactJson.Read(written);
        Assert.Null(wrong);
        Assert.IsType(fact.GetType(), read);
        Assert.Equal(written, FactJson.Text(read!));
        if (fact is FileSaved file)
            Assert.Equal(file.Content, ((FileSaved)read!).Content);
    }, iter: 3000);

    [Fact]
    public void The_written_form_is_the_one_that_was_agreed_on()
    {
        var fact = Assert.IsType<PieceCut>(FactJson.Read(Cut).Fact);
        Assert.Equal(new DrawingRef("CHW-118-01", "2"), fact.Drawing);
        Assert.Equal(Cut, FactJson.Text(fact));
    }

    [Fact]
    public void A_kind_of_a_later_version_is_passed_on_in_full()
    {
        const string Later = """{"id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b01","fact":"hung","who":"Jo","when":"2026-11-25T15:00:00Z","at":{"x":1.50,"y":[1e3,null,"\u00e9"]}}""";
        var fact = Assert.IsType<UnknownFact>(FactJson.Read(Later).Fact);
        Assert.True(FactJson.Same(Later, FactJson.Text(fact)));
    }

    [Fact]
    public void A_key_of_a_later_version_is_passed_on()
    {
        var written = Cut.Replace("}", ""","saw":{"no":2},"bar":null}""", StringComparison.Ordinal);
        Assert.True(FactJson.Same(written, FactJson.Text(FactJson.Read(written).Fact!)));
    }

    [Fact]
    public void Files_that_are_no_text_come_back_byte_for_byte()
    {
        byte[] workbook = [.. "PK\u0003\u0004"u8, 0xff, 0xfe, 0x00, 0x80];
        var read = Assert.IsType<FileSaved>(FactJson.Read(FactJson.Text(new FileSaved(Id(1), "Jo", Noon, "list.xlsx", workbook, []))).Fact);
        Assert.Equal(workbook, read.Content);
    }

    [Theory]
    [InlineData("\uFEFFdrawing: a\r\n")]
    [InlineData("")]
    [InlineData("tab\t, nul \0, é, 𝄞\n")]
    public void Text_comes_back_byte_for_byte(string text) =>
        Assert.Equal(text, Assert.IsType<FileSaved>(FactJson.Read(FactJson.Text(FileSaved.OfText(Id(1), "Jo", Noon, "a.yaml", text))).Fact).Text);

    [Theory]
    [InlineData("{\"id\":\n  oops}", "line 2, column 3")]
    [InlineData("[]", "not a fact")]
    [InlineData("{}", "id is missing")]
    [InlineData("""{"id":"x","fact":"heat","who":"Jo","when":"2026-11-25T15:00:00Z"}""", "id is not a UUID")]
    [InlineData("""{"id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b01","id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b02","fact":"heat","who":"Jo","when":"2026-11-25T15:00:00Z"}""", "id is written twice")]
    [InlineData("""{"id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b01","fact":"heat","who":"\ud800","when":"2026-11-25T15:00:00Z"}""", "no text")]
    public void Bad_json_is_told_with_its_place(string json, string told) => Assert.Contains(told, FactJson.Read(json).Wrong, StringComparison.Ordinal);

    [Theory]
    [InlineData("when", "\"yesterday\"", "when \"yesterday\" is not a time")]
    [InlineData("when", "\"2026-11-25T15:00:00\"", "is not a time")]
    [InlineData("who", "\" \"", "who is empty")]
    [InlineData("piece", "7", "piece is not text")]
    [InlineData("piece", null, "piece is missing")]
    [InlineData("revision", null, "revision is missing")]
    [InlineData("length", "-3", "length is no length")]
    [InlineData("length", "1e999", "length is not a number")]
    public void A_wrong_value_is_told_with_its_key(string key, string? value, string told) => Assert.Contains(told, FactJson.Read(With(Cut, key, value)).Wrong, StringComparison.Ordinal);

    private const string Sha = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";

    [Theory]
    [InlineData("7", "attached is no list")]
    [InlineData("[7]", "holds something that is not")]
    [InlineData("[{\"sha256\":\"E3B0\",\"name\":\"a\",\"bytes\":1}]", "sha256 is no SHA-256")]
    [InlineData("[{\"sha256\":\"" + Sha + "\",\"bytes\":1}]", "name is missing")]
    [InlineData("[{\"sha256\":\"" + Sha + "\",\"name\":\"a\",\"bytes\":2097153}]", "bytes is no length from 1 to 2097152")]
    [InlineData("[{\"sha256\":\"" + Sha + "\",\"name\":\"a\",\"bytes\":1.5}]", "bytes is no length")]
    [InlineData("[{\"sha256\":\"" + Sha + "\",\"name\":\"a\",\"bytes\":1},{\"sha256\":\"" + Sha + "\",\"name\":\"b\",\"bytes\":1}]", "twice")]
    public void What_is_wrong_with_an_attachment_is_told(string attached, string told) => Assert.Contains(told, FactJson.Read(With(Cut, "attached", attached)).Wrong, StringComparison.Ordinal);

    [Fact]
    public void A_kind_of_a_later_version_says_what_is_attached_to_it()
    {
        var fact = FactJson.Read(With(Cut.Replace("piece-cut", "hung", StringComparison.Ordinal), "attached", "[{\"sha256\":\"" + Sha + "\",\"name\":\"crane.jpg\",\"bytes\":812}]")).Fact!;
        Assert.IsType<UnknownFact>(fact);
        Assert.Equal(new Attachment(Sha, "crane.jpg", 812), Assert.Single(fact.Attached));
    }

    // NIST FIPS 180-2, the examples' digests: "" and "abc".
    [Theory]
    [InlineData("", Sha)]
    [InlineData("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    public void A_content_is_named_by_its_sha256(string content, string digest) => Assert.Equal(digest, Attachment.Of("a", System.Text.Encoding.ASCII.GetBytes(content)).Sha256);

    private const string Readings = """{"id":"5f0f2a528f2b4a3c9d2d3f1f6f2a9b01","fact":"readings","who":"Jo","when":"2026-11-25T15:00:00Z","drawing":"D","revision":"","joint":"W3","set-up":"on end","held":"P1","readings":[]}""";

    [Theory]
    [InlineData("""[{"read":"tape","at":3,"mm":612.5},{"read":"tape","at":4,"mm":1}]""", "readings[1].at")]
    [InlineData("""[{"read":"sniff"}]""", "readings[0] \"sniff\" is not a reading")]
    [InlineData("""[{"read":"tape","at":3}]""", "readings[0].mm is missing")]
    [InlineData("""[{"read":"holes","mm":3}]""", "readings[0].deg is missing")]
    [InlineData("""[{"read":"tape","at":3,"mm":"x"}]""", "readings[0].mm")]
    public void A_wrong_reading_is_told_with_its_number(string readings, string told) => Assert.Contains(told, FactJson.Read(With(Readings, "readings", readings)).Wrong, StringComparison.Ordinal);

    private static string With(string json, string key, string? value)
    {
        var node = System.Text.Json.Nodes.JsonNode.Parse(json)!.AsObject();
        node.Remove(key);
        var text = node.ToJsonString();
        return value is null ? text : $"{text[..^1]},\"{key}\":{value}}}";
    }

    [Fact]
    public void No_damage_to_a_fact_makes_reading_fail() => Gen.Select(One(1, 3), Gen.Int[0, 400], Gen.Char.AlphaNumeric, Gen.Int[0, 3]).Holds((fact, at, sign, cut) =>
    {
        var text = FactJson.Text(fact);
        at %= text.Length;
        var damaged = text[..at] + sign + text[Math.Min(text.Length, at + cut)..];
        var (read, wrong) = FactJson.Read(damaged);
        return read is null != wrong is null;
    }, iter: 5000);

    // Names from OWASP, "Path Traversal", and Microsoft, "Naming Files, Paths, and Namespaces".
    [Theory]
    [InlineData("../secret.yaml")]
    [InlineData("a/../../secret.yaml")]
    [InlineData("..\\secret.yaml")]
    [InlineData("/etc/passwd.yaml")]
    [InlineData("C:\\a.yaml")]
    [InlineData("C:a.yaml")]
    [InlineData("\\\\server\\share\\a.yaml")]
    [InlineData("a.yaml\0.png")]
    [InlineData("a\0.yaml")]
    [InlineData("....//a.yaml")]
    [InlineData("./a.yaml")]
    [InlineData("a//b.yaml")]
    [InlineData(".rootgap/records.yaml")]
    [InlineData(".hidden.yaml")]
    [InlineData("con.yaml")]
    [InlineData("sub/NUL.csv")]
    [InlineData("COM1.tar.yaml")]
    [InlineData("lpt².yaml")]
    [InlineData("a.yaml.")]
    [InlineData("a.yaml ")]
    [InlineData("sub /a.yaml")]
    [InlineData("sub./a.yaml")]
    [InlineData("a.exe")]
    [InlineData("a")]
    [InlineData("")]
    [InlineData("a.yaml/")]
    [InlineData("a.yaml::$DATA")]
    [InlineData("\u202Elmay.a.yaml")]
    [InlineData("a\n.yaml")]
    public void A_name_that_leads_out_or_means_something_else_elsewhere_is_refused(string path)
    {
        Assert.NotNull(JobPath.WhyNot(path));
        Assert.Contains("path", FactJson.Read(FactJson.Text(FileSaved.OfText(Id(1), "Jo", Noon, path, "a"))).Wrong, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("chilled-supply.yaml")]
    [InlineData("area 2/Línea 4.YML")]
    [InlineData("lists/4\u2033 drain.csv")]
    [InlineData("console.yaml")]
    [InlineData("a..b.xlsx")]
    public void An_ordinary_name_is_taken(string path) => Assert.Null(JobPath.WhyNot(path));

    [Fact]
    public void A_file_over_four_megabytes_is_refused_with_the_limit() =>
        Assert.Contains("4 MB", FactJson.Read(FactJson.Text(FileSaved.OfText(Id(1), "Jo", Noon, "a.yaml", new string('a', FileSaved.Largest + 1)))).Wrong, StringComparison.Ordinal);
}
