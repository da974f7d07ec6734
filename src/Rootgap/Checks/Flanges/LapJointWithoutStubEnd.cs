using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class LapJointWithoutStubEnd : FlangeRule
{
    public override string Name => "lap-joint-without-stub-end";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A lap-joint flange, and no stub end of its size in the material list.";
    public override string Why => "A lap-joint flange turns loose on a stub end, which is welded to the pipe (ASME B16.9): one is of no use without the other.";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Stub is not null && drawing.Materials.Count > 0 && !drawing.Materials.Any(m => m.Words.Ware == Ware.StubEnd && (m.Size == flange.Size || m.Size.IsNone))
            ? Found(flange.Source, "to", $"This lap-joint flange NPS {flange.Size} needs a stub end, and the list has none.", "Add the stub end to the material list.", "The flange has nothing to bear on.")
            : null;
}
