using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>What the office says of the line as a whole against what is drawn.</summary>
internal sealed partial class LineDataContradicts : Rule
{
    public override string Name => "line-data-contradicts";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line number begins with a size that no run has, or differs from the drawing's number by the order of three figures and more; the service and the test name two packs or two test pressures; the line number holds another pipe class than the service; or the code is no ASME B31 section's number, or one of another kind of line; or the fluid is more than 100 % of something, or chilled where title or temperature say hot. Notes: the line number differs from the drawing's by one figure, by the order of two or by its letters alone; a figure in the line number that may be its size is not the line's, or only a branch's; title and fluid name two different fluids (a warning where the title begins with the one that it names), or the one a liquid and the other a gas; the temperature is in the other system of units than the pressure and the drawing; letters at the end of the line number speak of insulation or tracing, and the line data of none or of the other kind.";
    public override string Why => "The line number, the test pack and the code come from the line list. Where the drawing says otherwise, one of the two was copied from another line (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication) => [.. OfSize(fabrication), .. OfNumber(fabrication), .. OfFluid(fabrication), .. OfTest(fabrication), .. OfCode(fabrication)];

    /// <summary>The size in the line number against those drawn.</summary>
    private IEnumerable<Finding> OfSize(Fabrication fabrication)
    {
        var (drawing, service) = (fabrication.Route.Drawing, fabrication.Route.Drawing.Service);
        if (SizeFirst().Match(service.LineNumber) is { Success: true } match && NominalSize.TryParse(match.Groups["size"].Value, out var size) && !fabrication.Route.Runs.SelectMany(r => r.Sizes).Contains(size))
            yield return Found(service.Source, "line number", $"Line {service.LineNumber} is NPS {size} by its number, and nothing of that size is drawn.", "Look in the line list which of the two is right.");
        else if (SizeBeforeLetters().Match(service.LineNumber) is { Success: true } lead && (NominalSize.TryParse(lead.Groups["size"].Value, out var first) || NominalSize.TryParse("DN" + lead.Groups["size"].Value, out first)) && !fabrication.Route.Runs.SelectMany(r => r.Sizes).Any(s => s == first || s.Dn.ToString(CultureInfo.InvariantCulture) == lead.Groups["size"].Value))
            yield return Found(service.Source, "line number", $"If the {lead.Groups["size"].Value} of line {service.LineNumber} is its size, nothing of NPS {first} is drawn.", "Look in the line list which of the two is right.", severity: service.LineNumber.Count(c => c == '-') >= 2 ? null : Severity.Note);
        else if (SizeFirst().Match(service.LineNumber) is { Success: true } whole && NominalSize.TryParse(whole.Groups["size"].Value, out var main) && main != drawing.Line.Size && !drawing.Line.Size.IsNone && drawing.Runs[0].Legs.All(l => l.StatesSize is null) && fabrication.Route.Runs[0].Sizes.All(s => s != main))
            yield return Found(service.Source, "line number", $"Line {service.LineNumber} is NPS {main} by its number, and only branches of the drawing are.", "Look in the line list which of the two is right.", severity: Severity.Note);
        else if (SizeFirst().Match(service.LineNumber) is { Success: false } && SizeBeforeLetters().Match(service.LineNumber) is { Success: true } ahead && NominalSize.TryParse(ahead.Groups["size"].Value, out var leads) && !drawing.Line.Size.IsNone && leads != drawing.Line.Size && drawing.Line.Size.Dn.ToString(CultureInfo.InvariantCulture) != ahead.Groups["size"].Value && service.LineNumber.Count(c => c == '-') >= 2 && fabrication.Route.Runs[0].Sizes[0] == drawing.Line.Size)
            yield return Found(service.Source, "line number", $"If the {ahead.Groups["size"].Value} of line {service.LineNumber} is its size, the line is drawn in another: NPS {drawing.Line.Size}.", "Look in the line list which of the two is right.", severity: Severity.Note);
        else if (SizeFirst().Match(service.LineNumber) is { Success: false } && SizeWithin(service.LineNumber, drawing) is { } within)
            yield return Found(service.Source, "line number", $"If the {within} of line {service.LineNumber} is its size, the line is drawn in another: NPS {drawing.Line.Size}.", "Look in the line list which of the two is right.", severity: Severity.Note);
    }

    /// <summary>The class, the letters and the figures of the line number against the line data and the drawing's number.</summary>
    private IEnumerable<Finding> OfNumber(Fabrication fabrication)
    {
        var (drawing, service) = (fabrication.Route.Drawing, fabrication.Route.Drawing.Service);
        if (OtherClass(service.LineNumber, service.PipeClass) is { } other)
            yield return Found(service.Source, "line number", $"Line {service.LineNumber} is of class {other} by its number, and the drawing is of pipe class {service.PipeClass}.", "Look in the line list which of the two is right.", "The line is built of another class's pipe and fittings.");
        if (AgainstTail(service) is var (key, message))
            yield return Found(service.Source, key, message, "Look in the line list which of the two is right.", severity: Severity.Note);
        if (TurnedPart(drawing.Number, service.LineNumber) is var (ofDrawing, ofLine))
            yield return Found(service.Source, "line number", $"The line number {service.LineNumber} has {ofLine}, and the drawing's, {drawing.Number}, has {ofDrawing}: the same figures in another order.", "Look in the line list which of the two is right.");
        else if (Marks().Matches(drawing.Number).SelectMany(n => Marks().Matches(service.LineNumber).Select(l => (Drawn: n, Line: l))).FirstOrDefault(p => IsSlip(p.Drawn, p.Line) && !IsInOtherOrder(drawing.Number, p.Drawn, p.Line)) is { Line: not null } slip)
            yield return Found(service.Source, "line number", $"The line is {slip.Line.Value}, and the drawing is numbered {slip.Drawn.Value}.", "Look in the line list which of the two is right.",
                severity: slip.Drawn.Groups["number"].Length > 2 && slip.Drawn.Groups["number"].Value != slip.Line.Groups["number"].Value && IsTurned(slip.Drawn.Groups["number"].Value, slip.Line.Groups["number"].Value) ? null : Severity.Note);
    }

    /// <summary>The fluid and its figures against the title and one another.</summary>
    private IEnumerable<Finding> OfFluid(Fabrication fabrication)
    {
        var (drawing, service) = (fabrication.Route.Drawing, fabrication.Route.Drawing.Service);
        var (titled, carried) = (LineData.FluidsIn(drawing.Title), LineData.FluidsIn(service.Fluid));
        if (titled.Count > 0 && carried.Count > 0 && !titled.Overlaps(carried))
            yield return Found(service.Source, "fluid", $"The line carries {service.Fluid}, and the title is \"{drawing.Title}\".", "Look whether the fluid was copied from another drawing.", severity: IsOwnFluid(drawing.Title, titled) ? null : Severity.Note);
        if (AgainstWarmth(drawing.Title, service) is { } warmth)
            yield return Found(service.Source, "fluid", warmth, "Look whether the fluid was copied from another drawing.");
        if (Share().Match(service.Fluid) is { Success: true } share && double.TryParse(share.Groups["share"].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var percent) && percent > 100)
            yield return Found(service.Source, "fluid", $"The fluid is \"{service.Fluid}\": nothing is more than 100 % of a mixture.", "Look whether a digit slipped.");
        if (States(drawing.Title) is var (ofTitle, titleIsGas) && States(service.Fluid) is var (ofFluid, fluidIsGas) && titleIsGas != fluidIsGas)
            yield return Found(service.Source, "fluid", $"The title says {ofTitle}, and the fluid {ofFluid}.", "Look whether the fluid was copied from another drawing.", severity: Severity.Note);
        if (IsMetric(service.DesignTemperature) is { } warm && (IsMetric(service.DesignPressure) ?? IsMetric(service.TestPressure)) is { } pressed && warm != pressed && warm != (fabrication.Units == Units.Millimetres))
            yield return Found(service.Source, "design temperature", $"The design temperature is {service.DesignTemperature}, the pressure {(service.DesignPressure.Length > 0 ? service.DesignPressure : service.TestPressure)}: of two systems of units.", "Look whether C or F was meant.", severity: Severity.Note);
    }

    /// <summary>The service's test against the test pack.</summary>
    private IEnumerable<Finding> OfTest(Fabrication fabrication)
    {
        var (drawing, service) = (fabrication.Route.Drawing, fabrication.Route.Drawing.Service);
        if (service.TestPackage.Length > 0 && drawing.Test.Pack.Length > 0 && !service.TestPackage.Equals(drawing.Test.Pack, StringComparison.OrdinalIgnoreCase))
            yield return Found(drawing.Test.Source, "pack", $"The service names test package {service.TestPackage}, and the test pack {drawing.Test.Pack}.", "Look in the test package index which of the two is right.");
        if (ServiceFigures.Bar(service.TestPressure) is { } asked && ServiceFigures.Bar(drawing.Test.Pressure) is { } tested && Math.Abs(asked - tested) > SamePressure * Math.Max(asked, tested))
            yield return Found(drawing.Test.Source, "pressure", $"The service asks for a test pressure of {service.TestPressure}, and the test for {drawing.Test.Pressure}.", "Ask the engineer which of the two is right.", "The line is tested with too little, or with more than it may bear.");
    }

    /// <summary>The code against those there are, and against what the line carries.</summary>
    private IEnumerable<Finding> OfCode(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        var section = Section().Match(service.Code);
        var of = section.Success ? LineData.Section(section.Groups["number"].Value) : null;
        if (of is not null && LineData.FluidsIn(service.Fluid).Overlaps(of.DoesNotCarry))
            yield return Found(service.Source, "code", $"{service.Code} is the code of {of.Title}, and the line carries {service.Fluid}.", "Ask the engineer which section is meant.");
        if (Code().Match(service.Code) is { Success: true })
            yield return Found(service.Source, "code", $"There is no code {service.Code}: the pressure piping codes are ASME B31.1, B31.3 and so on.", "Look whether digits changed places.");
        else if (section.Success && of is null)
            yield return Found(service.Source, "code", $"There is no code {service.Code}: the pressure piping codes are ASME B31.1, B31.3 and so on.", "Look whether a digit slipped.");
    }

    /// <summary>A part of the line number built of letters and digits as the pipe class is, where the class itself is not in it; null where there is none.</summary>
    private static string? OtherClass(string lineNumber, string pipeClass)
    {
        if (pipeClass.Length < 2 || !pipeClass.Any(char.IsDigit) || !pipeClass.Any(char.IsLetter) || lineNumber.Contains(pipeClass, StringComparison.OrdinalIgnoreCase))
            return null;
        return lineNumber.Split('-', '/', ' ', '_').FirstOrDefault(part => part.Length == pipeClass.Length && part.Zip(pipeClass).All(c => char.IsDigit(c.First) == char.IsDigit(c.Second) && char.IsLetter(c.First) == char.IsLetter(c.Second)));
    }

    /// <summary>What the letters behind the last dash of a line number say of insulation and tracing (common practice; offices differ, so it is no more than a note), against the line data; null where they agree or nothing is said.</summary>
    private static (string Key, string Message)? AgainstTail(Service service)
    {
        var (isBare, isHot, isCold) = (service.Insulation.StartsWith("no", StringComparison.OrdinalIgnoreCase), service.Insulation.Contains("hot", StringComparison.OrdinalIgnoreCase), service.Insulation.Contains("cold", StringComparison.OrdinalIgnoreCase));
        var isUntraced = service.Tracing.StartsWith("no", StringComparison.OrdinalIgnoreCase) || (service.Tracing.Length == 0 && service.Insulation.Length > 0);
        return LineData.EndOf(service.LineNumber) switch
        {
            "hot insulation" when isBare || isCold => ("insulation", $"Line {service.LineNumber} is insulated against loss of heat by the end of its number, and its insulation is {service.Insulation}."),
            "cold insulation" when isBare || isHot => ("insulation", $"Line {service.LineNumber} is insulated for the cold by the end of its number, and its insulation is {service.Insulation}."),
            "tracing" or "steam tracing" or "electric tracing" when isUntraced => ("tracing", $"Line {service.LineNumber} is traced by the end of its number, and {(service.Tracing.Length > 0 ? $"its tracing is {service.Tracing}" : "its line data name no tracing")}."),
            "steam tracing" when service.Tracing.Contains("electric", StringComparison.OrdinalIgnoreCase) => ("tracing", $"Line {service.LineNumber} is traced with steam by the end of its number, and its tracing is {service.Tracing}."),
            "electric tracing" when service.Tracing.Contains("steam", StringComparison.OrdinalIgnoreCase) => ("tracing", $"Line {service.LineNumber} is traced with electricity by the end of its number, and its tracing is {service.Tracing}."),
            _ => null,
        };
    }

    /// <summary>The one part of a line number, between two dashes, that can be read as a nominal size and is not the line's; null where there is none, or where one of several is the line's.</summary>
    private static string? SizeWithin(string lineNumber, Drawing drawing)
    {
        var sizes = lineNumber.Split('-').Skip(1).SkipLast(1).Select(p => p.Trim('"', ' ')).Where(p => p.Length is > 0 and < 5 && p[0] != '0' && p.All(char.IsAsciiDigit))
            .Select(p => (Text: p, Size: NominalSize.TryParse(p, out var nps) || NominalSize.TryParse("DN" + p, out nps) ? nps : default)).Where(p => !p.Size.IsNone).ToList();
        if (lineNumber.Contains("DN" + drawing.Line.Size.Dn.ToString(CultureInfo.InvariantCulture), StringComparison.OrdinalIgnoreCase))
            return null;
        return sizes is [var one] && !drawing.Line.Size.IsNone && one.Size != drawing.Line.Size && drawing.Line.Size.Dn.ToString(CultureInfo.InvariantCulture) != one.Text && drawing.Runs[0].Legs[0].StatesSize is null ? one.Text : null;
    }

    /// <summary>Whether a title begins with the one fluid that it names, "Nitrogen, header to ...": an "air cooler" further on is no fluid, and "buffer gas" may be any.</summary>
    private static bool IsOwnFluid(string title, IEnumerable<string> titled) =>
        titled.Where(w => w is not ("gas" or "air" or "acid" or "oil")).ToList() is [var own] && title.Split([' ', ',', '-', '/'], StringSplitOptions.RemoveEmptyEntries).Take(2).Contains(own, StringComparer.OrdinalIgnoreCase);

    /// <summary>A chilled or cold fluid where the title says hot, or the other way round, or a chilled one that is designed for heat; null where they agree.</summary>
    private static string? AgainstWarmth(string title, Service service)
    {
        var (carried, titled) = (Warmth(service.Fluid), Warmth(title));
        return carried is var (word, isHot) && titled is var (other, titleIsHot) && isHot != titleIsHot ? $"The line carries {service.Fluid}, and the title says {other}."
            : carried is var (cold, hot) && !hot && cold is "chilled" && ServiceFigures.Celsius(service.DesignTemperature) is > MostChilled ? $"The line carries {service.Fluid}, and its design temperature is {service.DesignTemperature}."
            : null;
    }

    /// <summary>Chilled water is made at 5 to 7 C, and its line is tested and flushed warmer, but never so warm, C (common practice).</summary>
    private const double MostChilled = 90;

    private static (string Word, bool IsHot)? Warmth(string text)
    {
        var words = text.ToLowerInvariant().Split([' ', ',', '-', '/', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
        // "Hot water cooler": what cools is no cold fluid.
        var (cold, hot) = (Array.Find(words, w => w is "chilled" or "cold"), Array.Find(words, w => w is "hot"));
        return (cold, hot) switch { ({ } word, null) => (word, false), (null, { } word) => (word, true), _ => null };
    }

    /// <summary>Whether a text speaks of a liquid or of a gas, and by which word; null where it says neither, or both.</summary>
    private static (string Word, bool IsGas)? States(string text)
    {
        var words = text.ToLowerInvariant().Split([' ', ',', '-', '/', '(', ')'], StringSplitOptions.RemoveEmptyEntries);
        var (liquid, gas) = (Array.Find(words, w => w == "liquid"), Array.Find(words, w => w is "gas" or "gaseous" or "vapour" or "vapor"));
        return (liquid, gas) switch { ({ } word, null) => (word, false), (null, { } word) => (word, true), _ => null };
    }

    /// <summary>Whether a figure of the service is metric by its unit; null where it has none of the two systems.</summary>
    private static bool? IsMetric(string figure) => Unit().Match(figure).Groups["unit"].Value.ToLowerInvariant() switch { "c" or "bar" or "mbar" or "kpa" or "mpa" => true, "f" or "psi" or "psig" => false, _ => null };

    [GeneratedRegex("\\d\\s*(?:°|deg)?\\s*(?<unit>[A-Za-z]+)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Unit();

    [GeneratedRegex("(?<share>\\d+(?:\\.\\d+)?)\\s*%", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Share();

    /// <summary>Two figures of one pressure differ by no more than the rounding of its unit.</summary>
    private const double SamePressure = 0.01;

    [GeneratedRegex("^(?:ASME |ANSI )?B ?31\\.(?<number>\\d+)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Section();

    /// <summary>Figures that stand alone between two dashes, three and more, in another order in the drawing's number than in the line's, where the two share the part before their figures; null where there are none.</summary>
    private static (string Drawing, string Line)? TurnedPart(string drawing, string line)
    {
        var (a, b) = (drawing.Split('-', ' ', '/'), line.Split('-', ' ', '/'));
        if (!a.Any(x => x.Length > 1 && x.All(char.IsLetter) && b.Contains(x, StringComparer.OrdinalIgnoreCase)))
            return null;
        foreach (var x in a.Where(x => x.Length > 2 && x.All(char.IsAsciiDigit) && !b.Contains(x, StringComparer.Ordinal)))
        {
            if (Array.Find(b, y => y.All(char.IsAsciiDigit) && y != x && IsTurned(x, y)) is { } y && !a.Contains(y, StringComparer.Ordinal))
                return (x, y);
        }

        return null;
    }

    private static bool IsTurned(string a, string b) => a.Length == b.Length && a.Order().SequenceEqual(b.Order());

    /// <summary>The same letters before numbers, in which one figure differs or the figures stand in another order; or the same number behind other letters.</summary>
    private static bool IsSlip(Match drawn, Match line)
    {
        var (a, b) = (drawn.Groups["number"].Value, line.Groups["number"].Value);
        if (!drawn.Groups["letters"].Value.Equals(line.Groups["letters"].Value, StringComparison.OrdinalIgnoreCase))
            return a == b && a.Length > 2;
        if (a.Length != b.Length)
            return false;
        // Two figures are a sheet's or a unit's as often as not: only turned ones are a slip.
        if (a.Length == 2)
            return a != b && IsTurned(a, b);
        var differ = Enumerable.Range(0, a.Length).Count(i => a[i] != b[i]);
        return differ == 1 || (differ > 1 && IsTurned(a, b));
    }

    /// <summary>Whether the letters differ because the parts stand in another order: the drawing's number has the line's letters elsewhere.</summary>
    private static bool IsInOtherOrder(string drawing, Match drawn, Match line) =>
        !drawn.Groups["letters"].Value.Equals(line.Groups["letters"].Value, StringComparison.OrdinalIgnoreCase) && drawing.Split('-', '/', ' ', '_').Contains(line.Groups["letters"].Value, StringComparer.OrdinalIgnoreCase);

    /// <summary>Letters of a fluid and the number of a line: BFW-611.</summary>
    [GeneratedRegex("""(?<![A-Za-z0-9])(?:(?<letters>[A-Za-z]{1,4})-?|(?<letters>[A-Za-z]{1,4}\d)-)(?<number>\d{2,5})(?!\d)""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Marks();

    /// <summary>A size before inch marks: 6"-CHW-201.</summary>
    [GeneratedRegex("""^\s*(?<size>\d+(?:[- ]\d/\d)?|\d/\d)\s*(?:"|''|in\b)""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex SizeFirst();

    /// <summary>A size, or the number of an area, before letters: 6-CHW-201.</summary>
    [GeneratedRegex("""^\s*(?<size>\d{1,2}(?:-\d/\d)?|\d/\d)-[A-Za-z]""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex SizeBeforeLetters();

    /// <summary>B, two digits that are not 31, a point and a number.</summary>
    [GeneratedRegex("^(?:ASME |ANSI )?B ?(?!31\\.)\\d\\d\\.\\d+$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Code();
}
