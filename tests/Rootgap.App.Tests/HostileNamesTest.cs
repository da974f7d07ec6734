using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Whatever people call things, no page takes it for more than a name (OWASP, cross-site scripting: element, attribute, address and template contexts).</summary>
public class HostileNamesTest(Chromium chromium) : BrowserTest(chromium)
{
    private const string Markup = "<img src=x onerror=hit('img')>";
    private const string Script = "</script><script>hit('script')</script>";
    private const string Attribute = "\"' autofocus onfocus=hit('attribute') x=\"";
    private const string Address = "javascript:hit('address')";

    // What ran would say so here; what only stands in the page as an element would run on another day.
    private const string Taken = """
        () => [
          ...(window.taken ?? []),
          ...[...document.querySelectorAll('*')].flatMap(e => [...e.attributes].filter(a => /hit\(/.test(a.value) && (/^on/.test(a.name) || (/^(href|src|action|formaction|xlink:href)$/.test(a.name) && /^\s*javascript:/i.test(a.value)))).map(a => e.outerHTML.slice(0, 120))),
          ...[...document.querySelectorAll('script')].filter(s => /hit\(/.test(s.textContent)).map(s => s.outerHTML.slice(0, 120)),
          ...[...document.querySelectorAll('img[src=x]')].map(i => i.outerHTML),
        ]
        """;

    [Fact]
    public async Task No_name_title_heat_note_or_reading_becomes_more_than_words_on_any_page()
    {
        var server = await Serve();
        static string Yaml(string text) => $"'{text.Replace("'", "''", StringComparison.Ordinal)}'";
        var number = "CHW-201" + Markup;
        await server.Write(Pages.Drawing, Pages.Text(Pages.Drawing)
            .Replace("drawing: CHW-201", "drawing: " + Yaml(number), StringComparison.Ordinal)
            .Replace("title: Chilled water, pump P-21 discharge to heat exchanger E-4 and rearing hall", "title: " + Yaml(Script), StringComparison.Ordinal)
            .Replace("fluid: chilled fresh water", "fluid: " + Yaml(Attribute), StringComparison.Ordinal)
            .Replace("run: discharge", "run: " + Yaml(Markup), StringComparison.Ordinal));
        object Fact(string kind, params (string Key, object Value)[] more)
        {
            var fact = new Dictionary<string, object>(StringComparer.Ordinal)
            {
                ["id"] = Guid.NewGuid().ToString(), ["fact"] = kind, ["who"] = "Jo" + Markup, ["when"] = "2026-11-25T12:00:00Z", ["drawing"] = number, ["revision"] = "2", ["note"] = Script,
            };
            foreach (var (key, value) in more)
                fact[key] = value;
            return fact;
        }

        var cut = Guid.NewGuid().ToString();
        await server.Post(
        [
            Fact("piece-cut", ("id", cut), ("piece", "1-A"), ("heat", Attribute)),
            Fact("piece-cut", ("piece", "1-A" + Markup), ("heat", Script)),
            Fact("heat", ("component", "C1"), ("heat", Markup)),
            Fact("joint-step", ("joint", Pages.Weld), ("step", "welded"), ("welder", Attribute), ("procedure", Script), ("attached", new[] { new { sha256 = new string('a', 64), name = Markup, bytes = 900 } })),
            Fact("readings", ("joint", Pages.Weld), ("set-up", "level"), ("held", Markup), ("readings", new[] { new { read = "gap", at = 12, mm = 3 } })),
            Fact("spool-reading", ("spool", Pages.Spool), ("base", Markup), ("row", "{read: tape, from: " + Script + ", to: C5 12, mm: 2}")),
            Fact("survey-reading", ("row", "{tape: " + Markup + "}")),
            Fact("survey-set", ("head", "survey: " + Yaml(Markup))),
            Fact("erection", ("step", "spool " + Pages.Spool), ("who", Script)),
            Fact("hung", ("by", Markup)),
            Fact("bar", ("stock", "rack.yaml"), ("bar", Markup), ("heat", Script), ("out", true)),
            Fact("withdrawn", ("withdraws", cut), ("why", Script)),
            Fact("file", ("path", "it's a 'name' & more.yaml"), ("text", "drawing: " + Yaml(Address) + "\ntitle: " + Yaml(Markup) + "\nruns: " + Yaml(Script) + "\n")),
        ]);
        await JobServer.Command("person", server.Folder, "--name", "Ann" + Markup, "--role", Script, "--stamp", "1" + Address, "--may", "fit,people");

        var tablet = await NewTablet(server, who: "Ann" + Markup);
        await tablet.Context.AddInitScriptAsync("window.taken = []; window.hit = what => window.taken.push(what);");
        var page = await tablet.Open();
        await page.GetByText(number).First.WaitForAsync();
        foreach (var place in Pages.All.Select(p => p.Path).Append("signature/" + cut).Append("drawing/it's%20a%20'name'%20&%20more.yaml").Append("spool/" + Uri.EscapeDataString(Markup) + "/" + Pages.Drawing))
        {
            await tablet.Turn(place);
            // What is drawn and worked out afterwards stands too.
            await Task.Delay(300, TestContext.Current.CancellationToken);
            Assert.Empty(await page.EvaluateAsync<string[]>(Taken));
        }

        // The names are there, as they are written.
        await tablet.Go("spools/" + Pages.Drawing);
        Assert.Empty(await page.EvaluateAsync<string[]>(Taken));
        await page.GetByText(number).First.WaitForAsync();
        await tablet.Turn("people");
        await page.GetByText("Ann" + Markup).First.WaitForAsync();
    }
}
