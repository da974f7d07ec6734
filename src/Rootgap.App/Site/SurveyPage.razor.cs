using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Packets;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.App.Site;

/// <summary>
/// The survey of a line, reading by reading: each is a fact as soon as it is kept, and the page says at once what it did to the closing. What is typed and
/// not yet kept stays in the browser.
/// </summary>
public sealed partial class SurveyPage
{
    private const int Offered = 5;

    private Signing? signing;
    private SiteLine? line;
    private Packet? lineOf;
    private RecordedSurvey? recorded;
    private LineClosing? closing;
    private IReadOnlyList<Finding> wrongs = [];
    private IReadOnlyList<NextReading> nexts = [];
    private string saidOf = "";
    private IReadOnlyList<double> closureSd = [];
    private IReadOnlyList<string> say = [];
    private List<Entry<SurveyRead>> entries = [];
    private Dictionary<SiteReading, string> typed = [];
    private string weld = "";
    private string picture = "";
    private string told = "";
    private string worked = "";

    private Survey Survey => recorded?.Reading.Survey ?? new();

    /// <summary>The conditions as they were said last.</summary>
    private string Head => SurveyText.Head(Survey);

    private Closure? Closure => closing?.Closures.FirstOrDefault(c => c.Joint.Id == weld);

    private string Piece => Closure is { } c ? line!.NameOf(c.Joint.Long!) : "";

    private string Title => Closure is not { } c ? "Survey and closing" : c.Closes ? $"{c.Joint.Id} closes"
        : c.Length == Verdict.DoesNotClose || c.Angle == Verdict.DoesNotClose || c.Offset == Verdict.DoesNotClose ? $"{c.Joint.Id} does not close" : $"{c.Joint.Id} is not known yet";

    protected override void Look()
    {
        base.Look();
        if (Open?.Packet is not { } packet)
        {
            line = null;
            return;
        }

        if (!ReferenceEquals(lineOf, packet))
            (lineOf, line, worked) = (packet, SiteLine.Of(packet.Fabrication), "");
        entries = [.. Done.Facts.Where(e => e.Fact is SurveyRead).Select(e => new Entry<SurveyRead>((SurveyRead)e.Fact, e.Withdrawals))];
        var counting = DrawingRecord.Counting(Done.Facts).ToList();
        // The record changes for much that is no survey: the adjustment is made anew only for what it is made of, and in which units it is told.
        var key = Choices.Units + string.Join('\n', counting.Where(f => f is SurveyRead or SurveySet or EndAsBuilt).Select(f => f.Id));
        if (key == worked && closing is not null)
            return;
        worked = key;
        recorded = RecordedSurvey.Of(line!, counting);
        var (found, errors) = LineClosing.Of(line!, recorded.Reading.Survey);
        wrongs = [.. recorded.Reading.Errors, .. errors];
        closing = found;
        if (closing is not null && closing.Closures.All(c => c.Joint.Id != weld))
            weld = closing.Closures.MaxBy(c => c.Doubt)?.Joint.Id ?? "";
        Show();
    }

    private void Show()
    {
        if (Closure is not { } now)
        {
            (nexts, saidOf, say, picture) = ([], "", [], "");
            return;
        }

        closureSd = now.Sd;
        picture = SvgWriter.Write(OpeningPicture.Scene(line!, now.Joint, now, Choices.Units));
        // A page that opens has all at once and nothing jumps; after a reading the figures stand first, and what was said before gives way when it is worked out anew.
        if (saidOf == weld)
        {
            _ = InvokeAsync(() => SayLater(now));
            return;
        }

        saidOf = weld;
        Say(now);
        Propose(now);
    }

    private void Say(Closure now) => say = new ClosingWords(Choices.Units).Say(closing!, now);

    /// <summary>The readings that would tell most.</summary>
    private void Propose(Closure now) => nexts = new ReadingSearch(closing!.Adjustment, now).Top(Offered);

    private async Task SayLater(Closure now)
    {
        foreach (var work in (Action<Closure>[])[Say, Propose])
        {
            await Task.Delay(1);
            if (!ReferenceEquals(Closure, now))
                return;
            work(now);
            StateHasChanged();
        }
    }

    private void Choose(string joint)
    {
        (weld, told) = (joint, "");
        Show();
    }

    private string Typed(SiteReading reading) => typed.GetValueOrDefault(reading, "");

    private void Type(SiteReading reading, ChangeEventArgs e) => typed[reading] = (string?)e.Value ?? "";

    private Task Key(KeyboardEventArgs e, SiteReading reading) => e.Key == "Enter" ? Keep(reading) : Task.CompletedTask;

    private async Task Keep(SiteReading reading)
    {
        var text = Typed(reading).Trim().Replace(',', '.');
        double value;
        if (reading.IsAngle ? !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) : !LengthText.TryParse(text, Choices.Units, out value))
        {
            told = text.Length == 0 ? "" : $"\"{text}\" is no reading: write a number such as {(reading.IsAngle ? "0.15" : Choices.Units == Units.Inches ? "6'-11 or 83 1/16" : "2108")}.";
            return;
        }

        await KeepRow(ReadingText.Line(reading, reading.IsAngle ? Angles.ToRadians(value) : value));
        typed.Remove(reading);
    }

    /// <summary>Keeps a row as a fact, unless it can be none; says what it did.</summary>
    private async Task KeepRow(string row)
    {
        var trial = RecordedSurvey.Of(line!, [new SurveyRead("", "", LocalJob.Now, Drawing, row)]);
        if (trial.Reading.Errors is [var wrong, ..])
        {
            told = wrong.Message + " " + wrong.Remedy;
            return;
        }

        var before = Closure?.Sd;
        if (!await signing!.Keep(() => new SurveyRead(LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, row)))
            return;
        Look();
        if (before is not null && Closure is { } now)
            told = $"Kept. {char.ToUpperInvariant(Tells(before, now.Sd)[0])}{Tells(before, now.Sd)[1..]}.";
        StateHasChanged();
    }

    private async Task KeepHead(string head)
    {
        await signing!.Keep(() => new SurveySet(LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, head));
        Look();
        StateHasChanged();
    }

    /// <summary>What the adjustment makes of a reading.</summary>
    private string Judged(SurveyRead fact)
    {
        if (recorded is null || closing is null)
            return "";
        var entry = recorded.Rows.TakeWhile(r => r.Id != fact.Id).Count();
        var judged = closing.Adjustment.Readings.Where(r => r.Taken.Entry == entry).ToList();
        if (judged.Count == 0)
            return "";
        if (judged.Find(r => r.IsQuestioned) is { } bad)
            return $"– read again: {Off(bad)} off the others";
        return judged.TrueForAll(r => r.IsUnchecked) ? "– nothing checks it: read it twice" : $"– {Off(judged.MaxBy(r => Math.Abs(r.Standardised))!)} off";
    }

    private string Off(Adjusted reading) => reading.Taken.Reading.IsAngle ? Degrees(reading.Residual) : Off(reading.Residual);

    private string Tells(IReadOnlyList<double> before, IReadOnlyList<double> after) => SurveySheets.Tells(before, after, Choices.Units);

    private Task SaveSheets() => Save("closing", ClosingSheets.Of(Packet.ToJob(Paper.A4), closing!, new ClosingWords(Packet.Drawing.Units).Say(closing!)));

    private async Task SaveAsBuilt()
    {
        var pages = AsBuiltSheets.Of(Packet.ToJob(Paper.A4), closing!.Adjustment);
        if (pages.Count > 0)
            await Save("as built", pages);
        else
            told = "Nothing of the line is known better than drawn yet: an isometric as built needs readings that place a face, or a spool that was measured.";
    }

    private async Task Save(string what, IReadOnlyList<Page> pages)
    {
        using var pdf = new MemoryStream();
        new Booklet($"{Drawing.Number} {what}", pages).WritePdf(pdf);
        await Page.Save($"{what} {Drawing.Number}.pdf".Replace(' ', '-'), "application/pdf", pdf.ToArray());
    }

    /// <summary>Each end that the readings say something of is kept as it was built: the next survey and the next closing reckon with it.</summary>
    private async Task KeepAsBuilt()
    {
        var built = line!.Ends.Where(closing!.Adjustment.IsMeasured).Select(e => (e.Name, Six: closing.Adjustment.AsBuilt(e))).Where(e => e.Six is not null).ToList();
        foreach (var (name, six) in built)
        {
            if (!await signing!.Keep(() => new EndAsBuilt(LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, name, six!.Value.Off, six.Value.Sd)))
                return;
        }

        told = built.Count == 0 ? "The readings say nothing new of the spools' own ends." : $"Kept as built: {string.Join(", ", built.Select(b => b.Name))}.";
    }

    private string SafetyWords(Closure now)
    {
        var words = "Before the cut: read 4 of the 16 again; both sides held; the machine's flange free of pull. Hot work by the site's permit, bevel and gap by the procedure.";
        return now.Joint.Sides.Any(e => e.Body.IsOutside) && !now.Joint.IsBolted ? $"{Cautions.ExistingLine} {words}" : words;
    }

    /// <summary>A cut as it is set out with a rule.</summary>
    private string Cut(double mm) => LengthText.Say(Choices.Units, $"{mm:cut}");

    /// <summary>What is out of its place, or a limit of it.</summary>
    private string Off(double mm) => LengthText.Say(Choices.Units, $"{mm:off}");

    private static string Degrees(double radians) => string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(radians):0.00}°");
}
