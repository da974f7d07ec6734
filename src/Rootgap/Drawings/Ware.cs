using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What a component or a row of the material list is.</summary>
public enum Ware
{
    Pipe,
    Elbow,
    Return,
    Tee,
    Reducer,
    Outlet,
    Flange,
    StubEnd,
    Gasket,
    StudBolt,
    Valve,
    InLineItem,
    Cap,
    Coupling,
    HalfCoupling,
    Union,
    Swage,
    Nipple,
    Plug,
    Pad,
    Support,
    Other,
}

/// <summary>What the words of a material-list row say; a part that the words leave open is null.</summary>
public sealed record WareWords(
    Ware Ware, int? Angle, ElbowRadius? Radius, FlangeKind? Flange, Facing? Facing, ValveKind? Valve, FittingEnds? Ends, bool? IsEccentric)
{
    /// <summary>A blind flange, which takes no pipe.</summary>
    public bool IsBlind { get; init; }

    /// <summary>Clamped between two flanges, or with flanges of its own; null where the words leave it open.</summary>
    public bool? IsWafer { get; init; }

    /// <summary>A lateral, whose branch leans.</summary>
    public bool IsLateral { get; init; }

    /// <summary>Whether the words name other ends than these: a list that says nothing means butt-welding ends or leaves them open.</summary>
    public bool EndsDiffer(FittingEnds drawn) => Ends is { } listed && listed != drawn;

    /// <summary>Reads free words such as <c>elbow 90 LR</c>, <c>flange WN RF</c>, <c>gasket spiral wound</c>, <c>valve gate flanged</c>.</summary>
    public static WareWords Of(string what)
    {
        // What is written with a hyphen or in two words is one.
        var words = what.ToUpperInvariant().Replace("HALF-", "HALF ", StringComparison.Ordinal).Replace("NON RETURN", "NON-RETURN", StringComparison.Ordinal).Split([' ', ',', ';', '/', '(', ')', '°'], StringSplitOptions.RemoveEmptyEntries);
        bool Has(params ReadOnlySpan<string> any)
        {
            foreach (var word in any)
            {
                if (words.Contains(word))
                    return true;
            }

            return false;
        }

        var ware = Has("STUB") && Has("END", "ENDS") ? Ware.StubEnd
            : Has("GASKET", "GASKETS", "RING") ? Ware.Gasket
            : Has("STUD", "STUDS", "BOLT", "BOLTS", "STUDBOLT", "STUDBOLTS") ? Ware.StudBolt
            : Has("VALVE", "VALVES", "NRV") || (Has("CHECK") && Has("SWING", "LIFT", "WAFER")) ? Ware.Valve
            : Has("FLANGE", "FLANGES") ? Ware.Flange
            : Has("RETURN", "RETURNS") || (Has("BEND", "BENDS", "ELBOW", "ELBOWS", "ELL") && Has("180")) ? Ware.Return
            : Has("ELBOW", "ELBOWS", "ELL", "BEND") ? Ware.Elbow
            : Has("TEE", "TEES", "LATERAL", "LATERALS", "WYE") ? Ware.Tee
            : Has("REDUCER", "REDUCERS") ? Ware.Reducer
            : Has("OUTLET", "OUTLETS") ? Ware.Outlet
            : Has("CAP", "CAPS") ? Ware.Cap
            : Has("COUPLING", "COUPLINGS") ? Has("HALF") ? Ware.HalfCoupling : Ware.Coupling
            : Has("UNION", "UNIONS") ? Ware.Union
            : Has("SWAGE", "SWAGES", "SWAGED") ? Ware.Swage
            : Has("NIPPLE", "NIPPLES") ? Ware.Nipple
            : Has("PLUG", "PLUGS") ? Ware.Plug
            : Has("PAD", "PADS") ? Ware.Pad
            : Has("STRAINER", "METER", "FLOWMETER", "ORIFICE", "SPACER", "SPECTACLE", "EXPANSION", "BELLOWS", "INSTRUMENT") ? Ware.InLineItem
            : Has("BLIND", "BLINDS") ? Ware.Flange
            : Has("SUPPORT", "SUPPORTS", "SHOE", "SHOES", "GUIDE", "GUIDES", "ANCHOR", "ANCHORS", "HANGER", "HANGERS", "TRUNNION", "TRUNNIONS", "LUG", "LUGS", "CLAMP", "CLAMPS") ? Ware.Support
            : Has("PIPE", "PIPES", "TUBE") ? Ware.Pipe
            : Ware.Other;
        return new(
            ware,
            Has("90") ? 90 : Has("45") ? 45 : null,
            Has("SR", "SHORT") ? ElbowRadius.Short : Has("3D") ? ElbowRadius.ThreeD : Has("5D") ? ElbowRadius.FiveD : Has("LR", "LONG") ? ElbowRadius.Long : null,
            Has("WN", "WELD-NECK") ? FlangeKind.WeldNeck : Has("SO", "SLIP-ON") ? FlangeKind.SlipOn : Has("SW") ? FlangeKind.SocketWeld : Has("TH", "THD", "THREADED") ? FlangeKind.Threaded : Has("LJ", "LAP") ? FlangeKind.LapJoint : null,
            Has("RTJ") ? Drawings.Facing.RingJoint : Has("FF") ? Drawings.Facing.Flat : Has("RF") ? Drawings.Facing.Raised : null,
            Has("GATE") ? ValveKind.Gate : Has("GLOBE") ? ValveKind.Globe : Has("CHECK", "NON-RETURN", "NRV") ? ValveKind.Check : Has("BALL") ? ValveKind.Ball : Has("BUTTERFLY") ? ValveKind.Butterfly : null,
            Has("SW", "SOCKET") ? FittingEnds.Socket : Has("TH", "THD", "THREADED") ? FittingEnds.Threaded : Has("BW", "BUTT") ? FittingEnds.Butt : Has("FLANGED") ? FittingEnds.Flanged : null,
            Has("ECCENTRIC", "ECC") ? true : Has("CONCENTRIC", "CONC") ? false : null)
        {
            IsWafer = Has("WAFER", "LUG", "LUGGED") ? true : Has("FLANGED") ? false : null,
            IsLateral = Has("LATERAL", "LATERALS", "WYE"),
            IsBlind = Has("BLIND", "BLINDS", "BLANK", "BL"),
        };
    }
}
