using System.Text.Json;
using System.Text.RegularExpressions;
using Rootgap.App.Tests.Harness;
using Rootgap.Checks;

namespace Rootgap.App.Tests;

/// <summary>The docs' pages in the app: opened at what is asked about, found by words, and there with the network gone.</summary>
public class HelpTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    [Fact]
    public async Task Every_page_of_the_help_leads_only_to_pages_and_places_that_are_there_and_each_rule_has_one()
    {
        var server = await Serve();
        using var http = new HttpClient();
        var pages = JsonSerializer.Deserialize<HelpText[]>(await http.GetStringAsync(new Uri(server.Address, "js/help.json"), TestContext.Current.CancellationToken), JsonSerializerOptions.Web)!.ToDictionary(p => p.Name, p => p.Html);
        Assert.All(DeskCheck.Rules, r => Assert.Contains("rules/" + r.Name, pages.Keys));
        foreach (var (name, html) in pages)
        {
            foreach (Match link in Regex.Matches(html, "href=\"([^\"]*)\""))
            {
                var parts = link.Groups[1].Value.Split('#');
                Assert.True(parts[0].StartsWith("help/", StringComparison.Ordinal) && pages.ContainsKey(parts[0][5..]), $"{name} leads to {link.Groups[1].Value}, which is no page.");
                if (parts.Length > 1)
                    Assert.Contains($"id=\"{parts[1]}\"", pages[parts[0][5..]], StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task Each_page_of_the_app_has_its_help_and_the_way_back()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open();
        foreach (var at in (string[])["", "work", "cutting", "packet", "people", "settings", "drawing/" + Pages.Drawing, "materials/" + Pages.Drawing, $"spool/{Pages.Spool}/{Pages.Drawing}", "split/" + Pages.Drawing, "forecast/" + Pages.Drawing, "order/" + Pages.Drawing, "survey/" + Pages.Drawing, "versions/" + Pages.Drawing])
        {
            await tablet.Turn(at);
            await page.Locator("#to-help").ClickAsync();
            await Assertions.Expect(page.Locator(".help article h1")).ToBeVisibleAsync(new() { Timeout = 30_000 });
            await page.Locator("#help-back").ClickAsync();
            await page.WaitForFunctionAsync("at => location.pathname === '/' + at", at);
        }
    }

    [Fact]
    public async Task A_finding_leads_to_its_page_and_a_word_finds_others_with_the_network_gone()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await tablet.HasLater("js/help.json");
        await tablet.Context.SetOfflineAsync(true);
        var row = page.Locator(".write-row:has(.finding)").First;
        await row.ScrollIntoViewIfNeededAsync();
        await row.Locator("input").First.ClickAsync();
        var why = row.Locator(".finding .about").First;
        var rule = await row.Locator(".finding").First.GetAttributeAsync("data-rule");
        await why.ClickAsync();
        await Assertions.Expect(page.Locator(".help article h1")).ToHaveTextAsync(Plain(rule!));
        await page.Locator("#find-help").FillAsync("branch template");
        await Assertions.Expect(page.Locator("#found-help li").First).ToBeVisibleAsync();
        await page.Locator("#find-help").FillAsync("no-such-word-anywhere");
        await Assertions.Expect(page.Locator(".help h1")).ToContainTextAsync("Nothing in the help has");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".help article h1")).ToHaveTextAsync(Plain(rule!), new() { Timeout = 60_000 });

        // In a tab of its own there is nothing to go back to: the job's first page it is.
        page = await tablet.Open("help/app");
        await Assertions.Expect(page.Locator(".help article h1")).ToBeVisibleAsync();
        await page.Locator("#help-back").ClickAsync();
        await page.WaitForFunctionAsync("() => location.pathname === '/'");
    }

    /// <summary>A rule's name in plain words: the file's own word is none of them.</summary>
    private static string Plain(string rule)
    {
        var words = rule.Replace("final-fit", "final~fit", StringComparison.Ordinal).Replace("stub-in", "stub~in", StringComparison.Ordinal).Replace("tie-in", "tie~in", StringComparison.Ordinal).Replace('-', ' ').Replace('~', '-');
        return char.ToUpperInvariant(words[0]) + words[1..];
    }

    private sealed record HelpText(string Name, string Title, string Html);
}
