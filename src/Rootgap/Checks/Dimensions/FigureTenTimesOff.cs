namespace Rootgap.Checks;

internal sealed class FigureTenTimesOff : FigureOffBy
{
    public override string Name => "figure-ten-times-off";
    public override string Says => "A leg ten times too long or too short, by the pipe listed or by the other legs.";
    public override string Why => "A nought too many or too few is the commonest slip of the pen (common practice).";
    protected override double Times => 10;
    protected override string Slip => "ten times";
}
