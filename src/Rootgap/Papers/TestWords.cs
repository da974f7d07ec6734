using System.Globalization;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>What is said of a test, for paper and screen.</summary>
public static class TestWords
{
    public static string Name(TestPack pack) => pack.Asked.Pack.Length > 0 ? pack.Asked.Pack : "Test of " + string.Join(", ", pack.Numbers);

    public static string Medium(TestPack pack) => pack.Asked.MediumWritten ?? "water";

    public static string Bar(Units units, double? bar) => bar is { } value ? LengthText.Millimetres(Amount.In(Quantity.Pressure, value, units), units == Units.Inches ? 0 : 2) : "";

    public static string Unit(Units units) => Amount.Unit(Quantity.Pressure, units);

    /// <summary>An elevation as the drawing writes it.</summary>
    public static string Up(Units units, double mm) => (mm >= 0 ? "+" : "") + (units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.WholeMillimetres(mm));

    public static string Volume(Units units, double mm3) => $"{LengthText.Millimetres(Amount.In(Quantity.Volume, mm3, units), 1)} {Amount.Unit(Quantity.Volume, units)}";

    public static string Of(TestLimit limit) => limit.Kind switch
    {
        LimitKind.Blind => $"{(limit.Joint.Length > 0 ? limit.Joint + ", b" : "B")}lind class {limit.Class} NPS {limit.Size}",
        LimitKind.Cap => $"{(limit.Joint.Length > 0 ? limit.Joint + ", c" : "C")}ap, plug or stopper NPS {limit.Size}",
        LimitKind.WeldedCap => $"welded cap NPS {limit.Size}: stays",
        _ => $"{(limit.Joint.Length > 0 ? limit.Joint + ", e" : "E")}xisting or next line NPS {limit.Size}: where it is held off, the test engineer says",
    };

    /// <summary>Bolts and gasket of a blind.</summary>
    public static string Bolts(TestLimit limit, Units units) => limit.Kind != LimitKind.Blind ? "" : limit.Bolting is not { } b ? "by others"
        : $"{(b.Pattern is { } p ? $"{p.Count} × {p.Bolt}, longer by the blind" : "")}; gasket {LengthText.Say(units, $"{b.Joint.Gap:gap}")}".TrimStart(';', ' ');

    /// <summary>A valve and what is done with it.</summary>
    public static string Of(Component valve, TestPack pack) => valve switch
    {
        Valve { Kind: Drawings.ValveKind.Check } v when pack.Fabrication.Route.Drawing.Runs[v.Run].FlowsAlong is null => $"{v.Id} {v.Name}: the drawing does not say the flow; fill from the side that opens it",
        Valve { Kind: Drawings.ValveKind.Check } v => $"{v.Id} {v.Name}: lets it through with the flow only: fill from before it, drain both sides",
        _ => $"{valve.Id} {valve.Name}: open, handle tied",
    };

    public static string Of(BorePocket pocket, TestPack pack, Units units)
    {
        var height = $"{(pocket.IsHigh ? "top" : "bottom")} of the bore at EL {Up(units, pocket.Height)}, NPS {pocket.Size}";
        return (pocket.IsHigh, pocket.Limit) switch
        {
            (true, { } limit) => $"High: {height}: vent at limit {limit.Name}, at the top of its {(limit.Kind == LimitKind.Blind ? "blind" : "cap")}.",
            (false, { } limit) => $"Low: {height}: drain at limit {limit.Name}.",
            (true, null) when pocket.IsServed => $"High: {height}: a cup of air stays ({Volume(units, pocket.Stays)}).",
            (false, null) when pocket.IsServed => $"Low: {height}: a cup of water stays ({Volume(units, pocket.Stays)}).",
            (true, null) => $"High: {height}: NO OUTLET: {Volume(units, pocket.Stays)} of air stay{(pack.IsAir ? "" : "; ask for a vent, or crack a joint as the test engineer says")}.",
            (false, null) => $"Low: {height}: NO OUTLET: {Volume(units, pocket.Stays)} stay wet{(pocket.Opened is { } b ? $"; drain by opening {b.Joint.Id}, its gasket renewed" : "; ask for a drain, or blow it out as the test engineer says")}.",
        };
    }

    /// <summary>What the pressure is held against; nothing is waved through.</summary>
    public static IEnumerable<(string What, string Says)> Held(TestPack pack, Units units)
    {
        var unit = Unit(units);
        foreach (var apart in pack.Apart)
            yield return ("NOT ONE TEST AS DRAWN", apart);
        string Bar(double bar) => $"{TestWords.Bar(units, bar)} {unit}";
        if (pack.Least is { } least)
        {
            var rule = pack.IsAir ? "1.1 × design" : pack.Asked.StressRatio is { } r ? string.Create(CultureInfo.InvariantCulture, $"1.5 × design × {r:0.###}") : "1.5 × design";
            yield return ($"{Medium(pack)} not less than {rule}", $"{Bar(least)}{(pack.Pressure is { } p ? p >= least - 0.05 ? ": reached where it is asked" : ": NOT REACHED" : "")}{(pack.IsAir || pack.Asked.StressRatio is not null ? "" : "; more where the design is hotter than the test: the engineer's stress ratio")}");
        }
        else
        {
            yield return ("design pressure", "not given: not checked");
        }

        if (pack.Weakest is var (flange, rating, most))
        {
            var worst = pack.Heads.Max(h => h.Bar);
            yield return ($"class {flange.Line.Class}, rating at 38 °C; 1.5 × it, rounded up", $"{Bar(rating)}; {Bar(most)}{(worst is { } w ? w > most + 1e-6 ? ": GONE OVER: ask the engineer" : ": not gone over" : "")}");
        }

        foreach (var unknown in pack.NotChecked)
            yield return ($"{unknown}, rating", "not in the tables here: not checked");
        if (pack.IsAir && pack.Pressure is { } test)
            yield return ("relief set no more than", $"{Bar(PressureTest.Relief(test))} (over the test by the lesser of {Bar(PressureTest.MostRelief)} and 10 %)");
    }

    /// <summary>What stands on every test sheet (common practice).</summary>
    public static IEnumerable<string> Cautions(TestPack pack)
    {
        if (pack.IsAir && pack.Pressure is { } bar)
        {
            var energy = PressureTest.StoredEnergy(bar, pack.PackVolume);
            var units = pack.Fabrication.Units;
            yield return string.Create(CultureInfo.InvariantCulture, $"PRESSED GAS IS STORED ENERGY: {Amount.Say(Quantity.Energy, energy, units)}, as {Amount.Say(Quantity.Mass, energy / PressureTest.Tnt, units)} of TNT ({PressureTest.Step(energy)}). It is let go at once where something fails. Only by the engineer's written word, with a relief device, nobody inside the distance that he sets.");
        }

        yield return "Keep clear while pressure rises; nobody in line with a blind, a cap or a plug. Let it down and prove it down before anything is touched.";
        yield return "Test blinds are counted in and counted out: the count stands on this sheet.";
        yield return "Never pull flanges together by their bolts to close a limit.";
        if (!pack.IsAir)
            yield return "Vents open before filling and before draining: a draining line pulls vacuum. Not for gas: that has a sheet of its own.";
        if (pack.Limits.Any(l => l.Kind == LimitKind.Existing))
            yield return "Existing line: isolated, drained and gas-free by the site's permit; a closed valve alone is no limit.";
        foreach (var fluid in Hazards.Of(pack.Fabrication.Route.Drawing.Service))
            yield return fluid;
    }

    /// <summary>The steps of the test, to tick and to sign.</summary>
    public static IEnumerable<string> Steps(TestPack pack)
    {
        var units = pack.Fabrication.Units;
        var blinds = pack.Limits.Count(l => l.Opens);
        var count = string.Create(CultureInfo.InvariantCulture, $"{blinds} {(blinds == 1 ? "blind or cap" : "blinds and caps")}");
        var hold = pack.Asked.Hold.Length > 0 ? pack.Asked.Hold : "____ min";
        var gauge = pack.Heads[1].Bar is { } g ? $" {Bar(units, g)} {Unit(units)}" : " ____";
        yield return "Welds accepted, supports on, A items of the punch list done";
        yield return $"{count} in and counted; gauges calibrated, two of them; {(pack.Out.Count > 0 ? $"{string.Join(", ", pack.Out.Select(c => c.Id))} out" : "nothing taken out")}";
        if (pack.IsAir)
        {
            yield return "Relief device set and seen; area cleared to the engineer's distance ____";
            yield return "First to the lesser of half the test pressure and 1.7 bar (25 psi), look and listen from the distance (B31.3 345.5.5, from memory)";
            yield return $"In steps as the engineer says to{gauge} at the gauge; hold {hold}";
            yield return "Down to the design pressure before anybody comes near; look at every joint";
            yield return $"Let down, proven down; {count} out and counted";
        }
        else
        {
            yield return "Water as asked (chlorides at stainless steel); vents open, fill from the lowest limit till every vent runs full";
            yield return "Raise to half, look from a distance";
            yield return $"Test pressure at the gauge{gauge}; hold {hold} (B31.3 345.2.2: 10 minutes at least)";
            yield return "Lower as the engineer says, look at every joint";
            yield return $"Vents open, drain; {count} out and counted";
        }

        yield return pack.Opened.Count > 0 ? $"New gaskets at {string.Join(", ", pack.Opened.Select(b => b.Joint.Id))}; bolted up by the bolting sheets" : "No bolted joint was opened";
    }
}
