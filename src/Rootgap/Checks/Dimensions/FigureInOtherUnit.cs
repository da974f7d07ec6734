using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class FigureInOtherUnit : FigureOffBy
{
    public override string Name => "figure-in-other-unit";
    public override string Says => "A leg 25.4 times too long or too short, by the pipe listed or by the other legs.";
    public override string Why => "Inches read as millimetres, or the other way round, are 25.4 times off (common practice).";
    protected override double Times => LengthText.Inch;
    protected override string Slip => "millimetres for inches, 25.4 times";
}
