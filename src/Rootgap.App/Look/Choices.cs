using Rootgap.Measure;

namespace Rootgap.App.Look;

/// <summary>What the person at this browser chose: units shown, light, name. Kept in the browser; not part of the job.</summary>
public sealed class Choices(PageScript page)
{
    public event Action? Changed;

    /// <summary>How lengths are shown, at any time; files and facts keep theirs.</summary>
    public Units Units => Chosen ?? Drawn;

    /// <summary>What the person chose; null: as the drawing has it.</summary>
    public Units? Chosen { get; private set; }

    /// <summary>The units of the drawing that is open; millimetres where none is.</summary>
    public Units Drawn { get; set; }

    /// <summary>"light", "dark", or empty: as the machine has it.</summary>
    public string Light { get; private set; } = "";

    /// <summary>Who works here; stands on every fact. Empty until told.</summary>
    public string Who { get; private set; } = "";

    private TimeSpan fromUtc;

    public async Task OpenAsync()
    {
        fromUtc = TimeSpan.FromMinutes(await page.MinutesFromUtc());
        Chosen = await page.Setting("units") switch { "in" => Units.Inches, "mm" => Units.Millimetres, _ => null };
        Light = await page.Setting("light") ?? "";
        Who = await page.Setting("who") ?? "";
        Changed?.Invoke();
    }

    /// <summary>From what is shown now to the other; back to the drawing's own is no choice any more.</summary>
    public Task OtherUnits()
    {
        var other = Units == Units.Inches ? Units.Millimetres : Units.Inches;
        return ShowIn(other == Drawn ? null : other);
    }

    /// <summary>Shows lengths so; null: as each drawing has them.</summary>
    public Task ShowIn(Units? units)
    {
        Chosen = units;
        Changed?.Invoke();
        return page.Keep("units", units switch { Units.Inches => "in", Units.Millimetres => "mm", _ => "" });
    }

    public Task OtherLight() => SetLight(Light switch { "" => "dark", "dark" => "light", _ => "" });

    public Task SetLight(string light)
    {
        Light = light;
        Changed?.Invoke();
        return page.SetLight(light);
    }

    public Task SetWho(string who)
    {
        Who = who.Trim();
        Changed?.Invoke();
        return page.Keep("who", Who);
    }

    /// <summary>A length, mm, as this person reads it: one decimal in millimetres, sixteenths in feet and inches.</summary>
    public string Length(double mm) => Units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 1);

    /// <summary>A time of day here, with its day: 25 Nov, 15:04.</summary>
    public string When(DateTimeOffset when) => when.ToOffset(fromUtc).ToString("d MMM yyyy, HH:mm", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>The moment that a clock on the wall here says.</summary>
    public DateTimeOffset Moment(DateTime wall) => new DateTimeOffset(DateTime.SpecifyKind(wall, DateTimeKind.Unspecified), fromUtc).ToUniversalTime();

    /// <summary>A day here: Saturday 28 November.</summary>
    public string Day(DateTimeOffset when) => when.ToOffset(fromUtc).ToString("dddd d MMMM", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A time of day here: 10:41.</summary>
    public string Clock(DateTimeOffset when) => when.ToOffset(fromUtc).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>The same with its unit.</summary>
    public string LengthWithUnit(double mm) => Units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Millimetres(mm, 1) + " mm";
}
