using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ItemClass : ItemRule
{
    public override string Name => "class-mismatch";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A flange, gasket, valve or forged fitting is listed in another class than the drawing gives.";
    public override string Why => "Flanges of two classes have other bolt circles and do not bolt together (ASME B16.5); forged fittings of another class have other lengths (ASME B16.11), valves of another class other walls (ASME B16.34).";
    protected override string Key => "class";
    protected override string Otherwise => "What comes does not bolt together, or is too weak or too long.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (item.Class.Length == 0)
            return null;
        var drawn = use.Part.RatingClass.Length == 0 ? "" : use.Part.RatingClass == use.Part.Line.Class ? use.Line.Class : use.Line.FittingClass;
        // What is welded or screwed in has no class of the line: of its own it has what its leg says.
        if (use.Part is InLineItem { Ends: FittingEnds.Socket or FittingEnds.Threaded or FittingEnds.Butt } && use.Source.Has("class"))
            drawn = use.Line.Class;
        // A class that nobody says is the default, and no word of the drawing's.
        if (drawn == use.Line.FittingClass && FittingClassUnsaid.Is(use.Part, use.Source, route))
            return null;
        return drawn.Length > 0 && !Same(item.Class, drawn) ? $"class {item.Class} listed, {drawn} drawn" : null;
    }

    /// <summary>Some gaskets are listed for two classes at once: 300/600.</summary>
    private static bool Same(string listed, string drawn)
    {
        var wanted = Number(drawn);
        foreach (var part in listed.AsSpan().SplitAny('/', ',', '-'))
        {
            if (Number(listed.AsSpan()[part]).SequenceEqual(wanted))
                return true;
        }

        return false;
    }

    private static ReadOnlySpan<char> Number(ReadOnlySpan<char> text) => text.Trim("CLASclas.# LBlb");
}
