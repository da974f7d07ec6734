using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class HolesFromAlongPipe : FlangeRule
{
    public override string Name => "holes-from-along-pipe";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The line that the bolt holes straddle is named along the pipe.";
    public override string Why => "The line lies in the face, square to the pipe (geometry).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.HoleLine is null && flange.Orientation.From is not null
            ? Found(flange.Source, "holes from", "This direction runs along the pipe: it draws no line on the flange's face.", "Name a direction that lies in the face.")
            : null;
}
