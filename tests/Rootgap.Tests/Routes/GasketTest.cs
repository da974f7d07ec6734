using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Tests.Routes;

/// <summary>Which gasket goes to which face. Rings in ring-joint grooves: ASME B16.20. Full-face between flat faces, none of them inside the bolts of a raised face alone: ASME B16.21, common practice.</summary>
public class GasketTest
{
    [Theory]
    [InlineData("GASKET SPIRAL WOUND SS316/GRAPHITE", Facing.Raised, true)]
    [InlineData("GASKET SPIRAL WOUND SS316/GRAPHITE", Facing.Flat, false)]
    [InlineData("GASKET FIBRE SHEET 2 MM", Facing.Raised, true)]
    [InlineData("GASKET FIBRE SHEET 2 MM", Facing.Flat, true)]
    [InlineData("GASKET EPDM FULL FACE", Facing.Raised, false)]
    [InlineData("GASKET EPDM FULL FACE", Facing.Flat, true)]
    [InlineData("GASKET RTJ OVAL R-45", Facing.RingJoint, true)]
    [InlineData("GASKET RTJ OVAL R-45", Facing.Raised, false)]
    [InlineData("GASKET FIBRE SHEET 2 MM", Facing.RingJoint, false)]
    public void Each_kind_goes_to_its_own_face(string what, Facing facing, bool goes) => Assert.Equal(goes, Gasket.GoesWith(what, "", facing));

    [Fact]
    public void Words_that_do_not_say_the_kind_say_nothing_of_the_face() =>
        Assert.All(Enum.GetValues<Facing>(), facing => Assert.Null(Gasket.GoesWith("GASKET NPS 6 CLASS 150", "", facing)));
}
