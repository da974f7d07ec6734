using System.Text.Json;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.PacketFiles;

/// <summary>The log against what the published schema of SARIF 2.1.0 (OASIS, errata 01) requires of each object.</summary>
public class SarifLogTest
{
    private static readonly string[] Levels = ["none", "note", "warning", "error"];
    private static readonly string[] SuppressionKinds = ["inSource", "external"];

    private static JsonElement Log(params (string File, IReadOnlyList<Finding> Findings)[] drawings)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            SarifLog.Begin(json, "1.2.3");
            foreach (var (file, findings) in drawings)
                SarifLog.Write(json, file, findings);
            SarifLog.End(json);
        }

        return JsonDocument.Parse(stream.ToArray()).RootElement.Clone();
    }

    private static JsonElement Some() => Log(
        ("a b/x.yaml", Desk.Packet(Desk.Drawing(
            """
            {go: up, by: 1450, to: elbow, end: field}
            {go: north, by: 461.2, to: elbow}
            {go: up, by: 280, to: flange, end: final-fit}
            """, "accept: [{rule: no-final-fit, why: it is measured}, {rule: field-weld-in-upright-pipe, why: there is a platform}]\nshop: {final fit extra: 0}")).Findings),
        ("c.yaml", DrawingReader.Read("drawing: 1\nlime: {size: 6}", "c.yaml").Errors));

    private static List<JsonElement> Results(JsonElement log) => [.. log.GetProperty("runs")[0].GetProperty("results").EnumerateArray()];

    [Fact]
    public void The_log_its_run_and_its_tool_have_what_the_schema_requires()
    {
        var log = Some();
        Assert.Equal("2.1.0", log.GetProperty("version").GetString());
        Assert.Equal("https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json", log.GetProperty("$schema").GetString());
        var run = Assert.Single(log.GetProperty("runs").EnumerateArray());
        Assert.Equal("utf16CodeUnits", run.GetProperty("columnKind").GetString());
        var driver = run.GetProperty("tool").GetProperty("driver");
        Assert.Equal(("rootgap", "1.2.3"), (driver.GetProperty("name").GetString(), driver.GetProperty("version").GetString()));
    }

    [Fact]
    public void Every_rule_is_described_once_with_its_level_and_help()
    {
        var rules = Some().GetProperty("runs")[0].GetProperty("tool").GetProperty("driver").GetProperty("rules").EnumerateArray().ToList();
        Assert.Equal(DeskCheck.Rules.Select(r => r.Name), rules.Select(r => r.GetProperty("id").GetString()));
        Assert.All(rules, r =>
        {
            Assert.Contains(r.GetProperty("defaultConfiguration").GetProperty("level").GetString(), Levels);
            foreach (var text in new[] { "shortDescription", "fullDescription", "help" })
                Assert.NotEmpty(r.GetProperty(text).GetProperty("text").GetString()!);
        });
    }

    [Fact]
    public void Every_result_has_a_message_a_level_its_rule_and_a_region_that_counts_from_one()
    {
        var log = Some();
        var rules = log.GetProperty("runs")[0].GetProperty("tool").GetProperty("driver").GetProperty("rules");
        Assert.NotEmpty(Results(log));
        Assert.All(Results(log), r =>
        {
            Assert.NotEmpty(r.GetProperty("message").GetProperty("text").GetString()!);
            Assert.Contains(r.GetProperty("level").GetString(), Levels);
            if (r.TryGetProperty("ruleIndex", out var index))
                Assert.Equal(r.GetProperty("ruleId").GetString(), rules[index.GetInt32()].GetProperty("id").GetString());
            var place = Assert.Single(r.GetProperty("locations").EnumerateArray()).GetProperty("physicalLocation");
            Assert.True(Uri.TryCreate(place.GetProperty("artifactLocation").GetProperty("uri").GetString(), UriKind.Relative, out _));
            var region = place.GetProperty("region");
            Assert.True(region.GetProperty("startLine").GetInt32() >= 1 && region.GetProperty("startColumn").GetInt32() >= 1);
            Assert.True(region.GetProperty("endColumn").GetInt32() >= region.GetProperty("startColumn").GetInt32());
            Assert.All(r.GetProperty("suppressions").EnumerateArray(), s => Assert.Contains(s.GetProperty("kind").GetString(), SuppressionKinds));
        });
    }

    [Fact]
    public void An_accepted_finding_is_suppressed_in_the_source_with_its_reason_and_no_other_is()
    {
        var suppressed = Results(Some()).Where(r => r.GetProperty("suppressions").GetArrayLength() > 0).ToList();
        Assert.All(suppressed, r => Assert.Equal("field-weld-in-upright-pipe", r.GetProperty("ruleId").GetString()));
        Assert.Equal("there is a platform", suppressed[0].GetProperty("suppressions")[0].GetProperty("justification").GetString());
    }

    [Fact]
    public void Levels_follow_severities()
    {
        var levels = Results(Some()).ToLookup(r => r.GetProperty("ruleId").GetString(), r => r.GetProperty("level").GetString());
        Assert.All(levels["service-incomplete"], l => Assert.Equal("note", l));
        Assert.All(levels["final-fit-without-extra"], l => Assert.Equal("warning", l));
        Assert.All(levels["leg-too-short-for-fittings"], l => Assert.Equal("error", l));
        Assert.All(levels["unknown-key"], l => Assert.Equal("error", l));
    }

    // SARIF 2.1.0 3.57: the region that goes and the text that comes.
    [Fact]
    public void A_mechanical_remedy_is_a_fix_with_its_region_and_text()
    {
        var result = Results(Some()).Single(r => r.GetProperty("ruleId").GetString() == "makeup-written-as-figure");
        var replacement = result.GetProperty("fixes")[0].GetProperty("artifactChanges")[0].GetProperty("replacements")[0];
        Assert.Equal("makeup", replacement.GetProperty("insertedContent").GetProperty("text").GetString());
        Assert.Equal("461.2".Length, replacement.GetProperty("deletedRegion").GetProperty("endColumn").GetInt32() - replacement.GetProperty("deletedRegion").GetProperty("startColumn").GetInt32());
    }

    [Fact]
    public void The_same_findings_give_the_same_log() => Assert.Equal(Some().GetRawText(), Some().GetRawText());

    [Fact]
    public void A_blank_in_a_files_name_is_written_as_a_uri_wants_it()
    {
        var log = Log(("a b/x.yaml", [new("some-rule", Severity.Note, "", new("a b/x.yaml", 1, 1, 2), "m", "r")]));
        Assert.Equal("a%20b/x.yaml", Results(log).Single().GetProperty("locations")[0].GetProperty("physicalLocation").GetProperty("artifactLocation").GetProperty("uri").GetString());
    }
}
