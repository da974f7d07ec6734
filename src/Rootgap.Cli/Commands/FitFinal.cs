using System.Globalization;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Site;
using Rootgap.Site.Surveys;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap fit DRAWING --final SPOOL</c>: what can be read of a spool from end to end, and where its ends are by what was read.</summary>
internal static class FitFinal
{
    /// <param name="readings">Files: of the spool itself (<c>spool:</c>), and of its joints as made.</param>
    /// <param name="done">What was entered in the app: it counts where no file says otherwise.</param>
    public static int Run(string drawing, string name, string[] readings, Packet packet, FitJoints fitting, DrawingRecord? done, FindingPrinter printer, bool asJson, bool isKept)
    {
        if (packet.Fabrication.Spools.FirstOrDefault(s => s.Name.Equals(name, StringComparison.OrdinalIgnoreCase)) is not { } spool)
            return Refuse(ExitCode.Usage, $"There is no spool {name}. The spools are: {string.Join(", ", packet.Fabrication.Spools.Select(s => s.Name))}.");
        var fit = fitting.OfSpool(spool);
        var onRecord = new SpoolAsMade(fit, done ?? DrawingRecord.Nothing(new(packet.Drawing.Number, packet.Drawing.Revision)));
        var steps = onRecord.Steps;
        FinalReadings? own = null;
        List<FitReadings> joints = [];
        foreach (var file in readings)
        {
            if (ReadingsFile.Text(file, printer) is not { } text)
                return ExitCode.Unreadable;
            if (FinalReadings.Read(text, file) is { } final)
            {
                if (!final.Spool.Equals(spool.Name, StringComparison.OrdinalIgnoreCase))
                    return Refuse(ExitCode.Usage, $"{file}: these readings were taken of spool {final.Spool}, not of {spool.Name}.");
                own = final;
                continue;
            }

            var (sets, errors) = FitReadings.ReadAll(text, file);
            if (errors.Count > 0)
            {
                printer.Print(errors);
                return ExitCode.Unreadable;
            }

            joints.AddRange(sets);
        }

        JointAsMade? Made(string id) => FitReadings.Made(joints, id) ?? onRecord.Joint(id, steps);
        List<SpoolRead> kept = own is null && done is not null ? [.. done.SpoolReadings[spool.Name].Where(e => e.Counts).Select(e => e.As)] : [];
        var from = own?.Base is { Length: > 0 } named ? named : null;
        var (welded, tacked) = (FinalCheck.Welded(fit, from), FinalCheck.Tacked(fit, steps, from, Made));
        var check = own is { IsTacked: true } || (own is null && onRecord.IsTacked(kept)) ? tacked : welded;
        IReadOnlyList<EndTaken>? taken = null;
        if (own is not null)
        {
            (taken, var errors) = own.Of(check);
            if (errors.Count > 0)
            {
                printer.Print(errors);
                return ExitCode.Unreadable;
            }
        }
        else if (SpoolGoneOver.Of(check, kept, onRecord.DrewIn) is { Count: > 0 } read)
        {
            taken = [.. read.Select(k => k.Taken)];
        }

        var left = EndLeft.Of(check, steps, Made);
        var found = taken is null ? null : check.Judge(taken);
        var words = new FinalWords(new(packet.Drawing.Units, id => Sheets.Wording.NameOf(packet.Fabrication, id)));
        IReadOnlyList<string> say = found is null ? [] : words.Say(check, found);
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            FinalJson.Write(json, check, check.IsWelded ? tacked : null, left, found, say);
        }
        else
        {
            Print(check, check.IsWelded ? tacked : null, taken, left, found, say, words);
            if (found is not null && check.IsWelded)
                PrintAsBuilt(packet, found);
        }

        // What was read from the record is on record.
        if (own is not null && taken is { Count: > 0 } && isKept)
            ReadingsFile.Keep(drawing, $"spool-{spool.Name}", FinalReadings.Entry(check, taken, found!, say, packet.Drawing.Number, packet.Drawing.Revision, DateTimeOffset.Now));
        return !packet.IsBuildable ? ExitCode.Stop : found is { } f && f.Verdict != Verdict.Within ? ExitCode.Warn : ExitCode.Done;
    }

    private static void Print(FinalCheck check, FinalCheck? tacked, IReadOnlyList<EndTaken>? taken, IReadOnlyList<EndLeft> left, FinalFound? found, IReadOnlyList<string> say, FinalWords words)
    {
        var to = Console.Out;
        to.WriteLine($"spool {check.Spool.Spool.Name}: final check, {FinalWords.State(check)}");
        to.WriteLine("  " + words.SetBy(check));
        to.WriteLine();
        var hasTacked = tacked is not null && check.Targets.Any(t => Math.Abs(tacked.Of(t.Reading).Value - t.Value) > 1e-6);
        to.WriteLine($"  {"reading",-40}{"should be",14}{(hasTacked ? $"{"tacked",14}" : "")}{"allowed",12}{(taken is null ? "" : $"{"read",14}")}   seen with");
        foreach (var t in check.Targets)
        {
            var r = t.Reading;
            var read = taken?.FirstOrDefault(x => x.Reading.Equals(r));
            var what = FinalWords.Of(r, check);
            to.WriteLine($"  {what,-40}{words.Show(r, t.Value),14}{(hasTacked ? $"{words.Show(r, tacked!.Of(r).Value),14}" : "")}{"±" + words.ShowSmall(r, t.Allow),12}{(taken is null ? "" : $"{(read is null ? "" : words.Show(r, read.Value)),14}")}   {r.SeenWith}{(r.Plus.Length > 0 ? "; " + r.Plus : "")}");
        }

        foreach (var end in check.Ends.Where(e => e != check.Base))
        {
            var limits = check.Limits[end.Name];
            to.WriteLine($"  limits of {words.Words.NameOf(end.Part.Id)}: {words.Words.Small(limits.Gap.Value)} any way ({limits.Gap.Source}); face {string.Create(CultureInfo.InvariantCulture, $"{Measure.Angles.ToDegrees(limits.Tilt.Value):0.00}°")} ({limits.Tilt.Source})");
        }

        foreach (var line in words.Say(check, left))
            to.WriteLine("  " + line);
        if (found is null)
            return;
        to.WriteLine();
        foreach (var end in found.Ends)
        {
            to.WriteLine($"  {end.End.Called}: {Remedy.Of(end.Verdict)}");
            for (var i = 0; i < 6; i++)
            {
                var (value, sd) = (FitRecord.Shown(end.Error[i], i), FitRecord.Shown(end.Sd[i], i));
                if (i == 5 && end.End.Holes is null)
                    continue;
                to.WriteLine(end.Unseen.Contains(i) ? $"    {FinalWords.Components[i],-32} not seen by these readings"
                    : $"    {FinalWords.Components[i],-32}{(i < 3 ? words.Words.Signed(value) : string.Create(CultureInfo.InvariantCulture, $"{value + 0.0:0.00}°")),10} ± {(i < 3 ? words.Words.Small(sd) : string.Create(CultureInfo.InvariantCulture, $"{sd:0.00}°"))}");
            }
        }

        to.WriteLine();
        foreach (var line in say)
            to.WriteLine("  " + line);
    }

    /// <summary>What the site reckons with in place of the drawing.</summary>
    private static void PrintAsBuilt(Packet packet, FinalFound found)
    {
        var built = FinalAsBuilt.Of(SiteLine.Of(packet.Fabrication), found);
        if (built.Count == 0)
            return;
        Console.Out.WriteLine();
        Console.Out.WriteLine("  For a survey file, so that split, forecast and close reckon with this spool as it is:");
        Console.Out.WriteLine();
        Console.Out.Write(SurveyText.AsBuilt(built));
    }

    private static int Refuse(int code, string message)
    {
        Console.Error.WriteLine(message);
        return code;
    }
}
