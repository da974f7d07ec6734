namespace Rootgap.Drawings;

/// <summary>The drawing file's words for values that sheets and packets repeat.</summary>
public static class Words
{
    public static string Of(WeldPlace place) => DrawingShape.Welds[(int)place];

    public static string Of(FlangeKind kind) => DrawingShape.FlangeKinds[(int)kind];

    public static string Of(Facing facing) => DrawingShape.Facings[(int)facing];

    public static string Of(ValveKind kind) => DrawingShape.ValveKinds[(int)kind];
}
