using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>The words of the papers.</summary>
public static class PaperWords
{
    public static string Of(ExaminationMethod method) => FactJson.WordOf(method);

    public static string Of(Step step) => FactJson.WordOf(step);

    public static string Of(Pass pass) => FactJson.WordOf(pass);

    public static string Of(TestMedium medium) => FactJson.WordOf(medium);

    public static string Of(WeldState state) => state switch
    {
        WeldState.NotBegun => "not begun",
        WeldState.CutOut => "cut out",
        _ => state.ToString().ToLowerInvariant(),
    };

    public static string Of(JointKind kind) => kind switch { JointKind.Fillet => "slip-on", JointKind.Threaded => "thread", _ => kind.ToString().ToLowerInvariant() };

    /// <summary>Method of examination by its word or its usual letters (VT, PT, MT, RT, UT: ASME V); null where it is none.</summary>
    public static ExaminationMethod? Method(string word) => word.Trim().ToUpperInvariant() switch
    {
        "VT" or "VISUAL" => ExaminationMethod.Visual,
        "PT" or "PENETRANT" => ExaminationMethod.Penetrant,
        "MT" or "MAGNETIC" => ExaminationMethod.Magnetic,
        "RT" or "RADIOGRAPHY" => ExaminationMethod.Radiography,
        "UT" or "ULTRASONIC" => ExaminationMethod.Ultrasonic,
        "HARDNESS" => ExaminationMethod.Hardness,
        "PMI" or "ALLOY CHECK" or "ALLOY" => ExaminationMethod.AlloyCheck,
        "OTHER" => ExaminationMethod.Other,
        _ => null,
    };
}
