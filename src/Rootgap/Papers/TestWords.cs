using System.Globalization;
using Rootgap.Drawings;
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

    /// <summary>A pressure that something must not go over, rounded down; a whole psi, or a hundredth of a bar.</summary>
    private static string AtMost(Units units, double bar) => Rounded(units, bar, Math.Floor);

    /// <summary>A pressure that must be reached, rounded up.</summary>
    private static string AtLeast(Units units, double bar) => Rounded(units, bar, Math.Ceiling);

    private static string Rounded(Units units, double bar, Func<double, double> way)
    {
        var step = units == Units.Inches ? 1 : 0.01;
        // What is a whole step but for the noise of the sum stays one.
        return $"{LengthText.Millimetres(way(LengthText.Rounded(Amount.In(Quantity.Pressure, bar, units) / step, 6)) * step, units == Units.Inches ? 0 : 2)} {Unit(units)}";
    }

    /// <summary>The temperature of the cold rating (ASME B16.5: 38 degrees C, or 100 degrees F).</summary>
    public static string Cold(Units units) => units == Units.Inches ? "100 °F" : "38 °C";

    public static string Unit(Units units) => Amount.Unit(Quantity.Pressure, units);

    /// <summary>An elevation as the drawing writes it.</summary>
    public static string Up(Units units, double mm) => (mm >= 0 ? "+" : "") + (units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.WholeMillimetres(mm));

    public static string Volume(Units units, double mm3)
    {
        var text = LengthText.Millimetres(Amount.In(Quantity.Volume, mm3, units), 1);
        return $"{(mm3 > 0 && text == "0.0" ? "under 0.1" : text)} {Amount.Unit(Quantity.Volume, units)}";
    }

    public static string Of(TestLimit limit) => limit switch
    {
        { Out: { } gone } => $"{limit.Joint}, {(limit.Kind == LimitKind.Blind ? $"blind class {limit.Class}" : "cap or plug")} NPS {limit.Size} where {gone.Id} is out{(limit.IsWeldedIn ? ": it is WELDED IN, ask how it comes out" : "")}",
        { Kind: LimitKind.Blind } => $"{(limit.Joint.Length > 0 ? limit.Joint + ", b" : limit.Part is { } part ? part.Id + ", b" : "B")}lind class {limit.Class} NPS {limit.Size}",
        { Kind: LimitKind.Cap, Part: Component part } => $"{part.Id} {part.Name}, open end: cap, plug or stopper NPS {limit.Size}",
        { Kind: LimitKind.Cap } => $"open end: cap, plug or stopper NPS {limit.Size}",
        { Kind: LimitKind.WeldedCap } => $"{Named(limit)}, welded cap NPS {limit.Size}: stays",
        { Kind: LimitKind.Screwed } => $"{Named(limit)} NPS {limit.Size}, the line's own: stays",
        { Kind: LimitKind.OwnBlind } => $"{limit.Joint}, the line's own blind class {limit.Class} NPS {limit.Size}: stays",
        _ => $"{(limit.Joint.Length > 0 ? limit.Joint + ", e" : "E")}xisting or next line NPS {limit.Size}: where it is held off, the test engineer says",
    };

    private static string Named(TestLimit limit) => limit.Part switch { Cap { Line.Ends: not FittingEnds.Threaded } cap => cap.Id, { } part => $"{part.Id} {part.Name}", null => "cap" };

    /// <summary>How a limit lets air or water out.</summary>
    private static string Open(TestLimit limit) => limit.Kind switch
    {
        LimitKind.Screwed => $"limit {limit.Name}: {(limit.Part is Plug ? "plug" : "cap")} {limit.Part?.Id} unscrewed",
        LimitKind.Blind => $"limit {limit.Name}, a tap in its blind",
        _ => $"limit {limit.Name}",
    };

    /// <summary>Bolts and gasket of a blind.</summary>
    public static string Bolts(TestLimit limit, Units units) => limit.Kind is not (LimitKind.Blind or LimitKind.OwnBlind) ? "" : limit.Bolting is not { } b ? "by others"
        : $"{(b.Pattern is { } p ? $"{p.Count} × {p.Bolt}{(limit.Kind == LimitKind.Blind ? ", longer by the blind" : "")}" : "")}; gasket {LengthText.Say(units, $"{b.Joint.Gap:gap}")}".TrimStart(';', ' ');

    /// <summary>A valve, or what else stays in the line, and what is done with it.</summary>
    public static string Of(Component valve, TestPack pack) => valve switch
    {
        Valve { Kind: Drawings.ValveKind.Check } v when pack.Fabrication.Route.Drawing.Runs[v.Run].FlowsAlong is null => $"{v.Id} {v.Name}: the drawing does not say the flow: each side is filled, vented and drained by itself",
        Valve { Kind: Drawings.ValveKind.Check } v => $"{v.Id} {v.Name}: lets it through with the flow only: fill from before it, vent and drain both sides",
        Valve => $"{valve.Id} {valve.Name}: open, handle tied",
        _ when valve.Name.Contains("spectacle", StringComparison.OrdinalIgnoreCase) || valve.Name.Contains("blind", StringComparison.OrdinalIgnoreCase) => $"{valve.Id} {valve.Name}: OPEN side in, seen, or it parts what is tested",
        _ when valve.Name.Contains("spacer", StringComparison.OrdinalIgnoreCase) => $"{valve.Id} {valve.Name}: stays in",
        _ => $"{valve.Id} {valve.Name}: not marked out: it stays in only where the test engineer says that it bears the test",
    };

    /// <summary>High and low places in a line each; of those where no more than a cup stays, one line.</summary>
    public static IEnumerable<string> Pockets(TestPack pack, Units units)
    {
        foreach (var pocket in pack.Pockets.Where(p => p.Limit is not null || !p.IsServed).OrderByDescending(p => p.IsHigh).ThenByDescending(p => p.Stays))
            yield return Of(pocket, pack, units);
        foreach (var some in pack.Pockets.Where(p => p.Limit is null && p.IsServed).GroupBy(p => p.IsHigh).OrderByDescending(g => g.Key))
            yield return $"{(some.Key ? "High" : "Low")}, a cup of {(some.Key ? "air" : "water")} at the most stays: {string.Join("; ", some.Select(p => $"{In(p, pack)} EL {Up(units, p.Height)}"))}.";
    }

    private static string In(BorePocket pocket, TestPack pack) =>
        pack.Fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == pocket.Part.Id) is { } cut ? $"pipe {cut.Piece}" : $"{pocket.Part.Id} {pocket.Part.Name}";

    public static string Of(BorePocket pocket, TestPack pack, Units units)
    {
        var height = $"{In(pocket, pack)}, {(pocket.IsHigh ? "top" : "bottom")} of the bore at EL {Up(units, pocket.Height)}, NPS {pocket.Size}";
        return (pocket.IsHigh, pocket.Limit) switch
        {
            (true, { } limit) => $"High: {height}: vent at {Open(limit)}{(limit.Kind == LimitKind.Blind ? " at the top" : "")}.",
            (false, { } limit) => $"Low: {height}: drain at {Open(limit)}{(limit.Kind == LimitKind.Blind ? " at the bottom" : "")}.",
            (true, null) when pocket.IsServed => $"High: {height}: a cup of air stays ({Volume(units, pocket.Stays)}).",
            (false, null) when pocket.IsServed => $"Low: {height}: a cup of water stays ({Volume(units, pocket.Stays)}).",
            (true, null) => $"High: {height}: NO OUTLET: {Volume(units, pocket.Stays)} of air stay; ask for a vent, or crack a joint as the test engineer says.",
            (false, null) => $"Low: {height}: NO OUTLET: {Volume(units, pocket.Stays)} stay wet{(pocket.Opened is { } b ? $"; drain by opening {b.Joint.Id}, its gasket renewed" : "; ask for a drain, or blow it out as the test engineer says")}.",
        };
    }

    /// <summary>What the pressure is held against; nothing is waved through.</summary>
    public static IEnumerable<(string What, string Says)> Held(TestPack pack, Units units)
    {
        foreach (var apart in pack.Apart)
            yield return ("NOT ONE TEST AS DRAWN", apart);
        if (pack.Least is { } least)
        {
            var rule = pack.IsAir ? "1.1 × design" : pack.Asked.StressRatio is { } r ? string.Create(CultureInfo.InvariantCulture, $"1.5 × design × {r:0.###}") : "1.5 × design";
            yield return ($"{Medium(pack)} not less than {rule}", $"{AtLeast(units, least)}{(pack.Pressure is { } p ? p >= least - 0.05 ? ": reached where it is asked" : ": NOT REACHED" : "")}{(pack.IsAir || pack.Asked.StressRatio is not null ? "" : "; more where the design is hotter than the test: the engineer's stress ratio")}");
        }
        else
        {
            yield return ("design pressure", "not given: not checked");
        }

        if (pack.Weakest is var (flange, rating, most))
        {
            var worst = pack.Heads.Max(h => h.Bar);
            yield return ($"class {flange.Line.Class}, rating at {Cold(units)}; 1.5 × it, rounded up", $"{AtMost(units, rating)}; {AtMost(units, most)}{(worst is { } w ? w > most + 1e-6 ? ": GONE OVER: ask the engineer" : ": not gone over" : "")}");
        }

        foreach (var unknown in pack.NotChecked)
            yield return ($"{unknown}, rating", "not in the tables here: not checked");
        if (pack.IsAir && pack.Pressure is { } test)
            yield return ("relief set no more than", $"{AtMost(units, PressureTest.Relief(test))} (over the test by the lesser of {AtMost(units, PressureTest.MostRelief)} and 10 %)");
    }

    /// <summary>What stands on every test sheet (common practice).</summary>
    public static IEnumerable<string> Cautions(TestPack pack)
    {
        if (pack.IsAir && pack.Pressure is { } bar)
        {
            var energy = PressureTest.StoredEnergy(bar, pack.PackVolume);
            var units = pack.Fabrication.Units;
            yield return $"PRESSED GAS IS STORED ENERGY: {Energy(energy, units)}, as {Some(Quantity.Mass, energy / PressureTest.Tnt, units)} of TNT ({PressureTest.Step(energy, units)}). It is let go at once where something fails. Only by the engineer's written word, with a relief device, nobody inside the distance that he sets.";
        }

        yield return "Keep clear while pressure rises; nobody in line with a blind, a cap or a plug. Let it down and prove it down before anything is touched.";
        if (pack.Out.Count > 0)
            yield return $"{string.Join(", ", pack.Out.Select(c => c.Id))} {(pack.Out.Count == 1 ? "is" : "are")} out: each end left open is closed and counted, and each side is filled, vented, gauged, pressed and let down by itself. Where a make-up piece stands in its place its two limits fall away, both sides are one, and nothing vents or drains there.";
        yield return "Test blinds are counted in and counted out: the count stands on this sheet.";
        yield return "Never pull flanges together by their bolts to close a limit.";
        if (!pack.IsAir)
            yield return "Vents open before filling and before draining: a draining line pulls vacuum. Not for gas: that has a sheet of its own.";
        if (pack.Limits.Any(l => l.Kind == LimitKind.Existing))
            yield return "Existing line: isolated, drained and gas-free by the site's permit; a closed valve alone is no limit.";
        foreach (var fluid in Hazards.Of(pack.Fabrication.Route.Drawing.Service))
            yield return fluid;
    }

    /// <summary>The energy of a pressed gas, to two figures.</summary>
    public static string Energy(double joules, Units units) => Some(Quantity.Energy, joules, units);

    private static string Some(Quantity quantity, double amount, Units units) => $"{Amount.Figures(Amount.In(quantity, amount, units), 2)} {Amount.Unit(quantity, units)}";

    private static string Names(IEnumerable<TestLimit> limits) => string.Join(", ", limits.Select(l => l.Name).Distinct());

    private static string Limits(List<TestLimit> limits) => $"limit{(limits.Count == 1 ? "" : "s")} {Names(limits)}";

    /// <summary>How one bore is filled.</summary>
    private static string Filling(TestPack pack, TestBore bore)
    {
        var vents = bore.Vents.Where(v => !bore.Fills.Contains(v)).ToList();
        var full = vents.Count > 0 ? $"vent{(vents.Count == 1 ? "" : "s")} open at {Limits(vents)}; " : bore.Fills.Count > 0 && bore.Vents.Count > 0 ? "no vent but where it is filled: two taps there; " : "no limit vents it: as the test engineer says; ";
        var fill = bore.Fills.Count == 0 ? "NO LIMIT FILLS IT: as the test engineer says" : $"fill at limit {string.Join(", then at ", bore.Fills.Select(l => l.Name))}{(vents.Count > 0 ? $" till water runs full at {Names(vents)}" : "")}";
        var dry = bore.Fills.Count > 0 && bore.Dry > 0 ? $"; NOT FILLED FROM THERE: {Volume(pack.Fabrication.Units, bore.Dry)} before a check valve: ask" : "";
        return full + fill + dry;
    }

    /// <summary>The steps of the test, to tick and to sign.</summary>
    public static IEnumerable<string> Steps(TestPack pack)
    {
        var units = pack.Fabrication.Units;
        var put = pack.Limits.Where(l => l.IsForTest).ToList();
        var count = put.Count == 0 ? "no blind or cap" : string.Create(CultureInfo.InvariantCulture, $"{put.Count} {(put.Count == 1 ? "blind or cap" : "blinds and caps")} ({Limits(put)})");
        var own = pack.Limits.Where(l => l.Kind is LimitKind.Screwed or LimitKind.OwnBlind).ToList();
        var hold = pack.Asked.Hold.Length > 0 ? pack.Asked.Hold : "____ min";
        var gauge = pack.Heads[1].Bar is { } g ? $" {Bar(units, g)} {Unit(units)}" : " ____";
        yield return "Welds accepted, supports on, A items of the punch list done";
        yield return $"{count} in and counted{(own.Count > 0 ? $"; the line's own at {Limits(own)} tight" : "")}; gauges calibrated, two of them{(pack.Bores.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $" on each of the {pack.Bores.Count} sides") : "")}; {(pack.Out.Count > 0 ? $"{string.Join(", ", pack.Out.Select(c => c.Id))} out" : "nothing taken out")}";
        if (pack.IsAir)
        {
            var least = Bar(units, FirstGas(units)) + " " + Unit(units);
            var first = pack.Pressure is { } test && test / 2 < FirstGas(units) ? AtMost(units, test / 2) : least;
            yield return "Relief device set and seen; area cleared to the engineer's distance ____";
            yield return $"First to {first}, look and listen from the distance (the lesser of half the test pressure and {least}: B31.3 345.5.5, from memory)";
            yield return $"In steps as the engineer says to{gauge} at the gauge; hold {hold}";
            yield return "Down to the design pressure before anybody comes near; look at every joint";
            yield return $"Let down, proven down; {count} out and counted";
        }
        else
        {
            var water = $"Water as asked{(pack.Fabrication.Route.Pipes.Any(p => Standards.Metals.PNumber(p.Material) is "8" or "10H") ? ", its chlorides read: stainless steel" : "")}";
            foreach (var (bore, i) in pack.Bores.Select((b, i) => (b, i)))
                yield return i == 0 && pack.Bores.Count == 1 ? $"{water}; {Filling(pack, bore)}" : $"{(i == 0 ? water + "; side" : "Side")} of {Limits([.. bore.Limits])}: {Filling(pack, bore)}";
            yield return "Raise to half, look from a distance";
            yield return $"Test pressure at the gauge{gauge}; hold {hold} (B31.3 345.2.2: 10 minutes at least)";
            yield return "Lower as the engineer says, look at every joint";
            var drains = pack.Bores.SelectMany(b => b.Drains).ToList();
            var opened = pack.Pockets.Where(p => !p.IsServed && !p.IsHigh).Select(p => p.Opened?.Joint.Id).OfType<string>().Distinct().ToList();
            yield return $"Vents open, then {(drains.Count > 0 ? $"drain at {Limits(drains)}" : "drain as the test engineer says")}{(opened.Count > 0 ? $"; open {string.Join(", ", opened)}" : "")}; {count} out and counted";
        }

        yield return pack.Opened.Count > 0 ? $"New gaskets at {string.Join(", ", pack.Opened.Select(b => b.Joint.Id))}; bolted up by the bolting sheets" : "No bolted joint was opened";
    }

    /// <summary>First step of a gas test at the most, bar: 170 kPa, or 25 psi (ASME B31.3 345.5.5, from memory).</summary>
    private static double FirstGas(Units units) => units == Units.Inches && Amount.TryParse("25 psi", Quantity.Pressure, null, out var psi) ? psi : 1.7;
}
