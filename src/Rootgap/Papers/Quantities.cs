using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>What one weld takes. Planning figures.</summary>
/// <param name="Metal">Null where it is not reckoned: the groove of an outlet is its maker's.</param>
/// <param name="Filler">What is bought for it.</param>
/// <param name="HoursPerInch">Published hours for a diameter-inch; null where there is none for the wall.</param>
public sealed record WeldQuantity(Joint Joint, WeldMetal? Metal, Filler Filler, StandardRow? HoursPerInch)
{
    /// <summary>Of the pipe there: the filler is chosen for it. Empty where nothing says it.</summary>
    public string Material { get; init; } = "";

    public bool IsShop => Joint.Place == WeldPlace.Shop;

    /// <summary>Weld metal, kg.</summary>
    public double? Mass => Metal?.Mass;

    /// <summary>kg.</summary>
    public double? ToBuy => Mass is { } mass ? Filler.ToBuy(mass) : null;

    /// <summary>Of a butt weld; others are counted, not added up.</summary>
    public double DiameterInches => Joint.Kind == JointKind.Butt ? Joint.Size.Inches : 0;

    /// <summary>To a tenth, as it is printed and added up: a planning figure is no nearer.</summary>
    public double? Hours => HoursPerInch is { } row && Joint.Kind == JointKind.Butt ? LengthText.Rounded(row.Figure * Joint.Size.Inches, 1) : null;
}

/// <summary>The welds of a drawing added up.</summary>
public sealed record Quantities(IReadOnlyList<WeldQuantity> Welds)
{
    public const string Says = "Planning figures: the welding procedure says the joint's shape, and the shop's own use is the better measure. Hours are published ones of manual arc welds (cut, fit, weld) for a diameter-inch; where a wall has no published figure, none stands.";

    public static Quantities Of(Fabrication f)
    {
        var shop = f.Route.Drawing.Shop;
        return new([.. f.Route.Joints.Where(j => j.IsWeld).Concat(f.Route.Seams).Select(j =>
        {
            var outside = Pipes.Outside(j.Size, f.Units) / 2;
            var metal = j.Wall <= 0 || outside <= j.Wall ? null : j.Kind switch
            {
                JointKind.Butt => WeldMetal.Butt(Groove.Usual(j.Wall, j.Gap), outside - j.Wall, shop.Welding.Cap, shop.Welding.Root),
                JointKind.Socket => WeldMetal.Socket(j.Wall, outside),
                JointKind.Fillet => WeldMetal.SlipOn(j.Wall, outside),
                JointKind.Branch => SetOn(f, j),
                _ => null,
            };
            var material = j.Between.Select(f.Route.PartOf).OfType<Part>().FirstOrDefault()?.Line.Material ?? "";
            return new WeldQuantity(j, metal is null ? null : metal with { Density = Metals.Density(material) }, shop.Welding.Of(j.Place), j.Kind == JointKind.Butt ? Filler.HoursPerInch(j.Wall) : null) { Material = material };
        })]);
    }

    // The branch's own pipe, of all that meets there the one whose set-on end is nearest.
    private static WeldMetal? SetOn(Fabrication f, Joint joint)
    {
        var branch = joint.Between.Select(id => f.Cuts.FirstOrDefault(c => c.Pipe.Id == id)).OfType<Cut>()
            .Select(c => (Cut: c, On: Templates.SetOn(f.Route, c.Pipe))).Where(c => c.On is not null && c.Cut.Pipe.Size == joint.Size)
            .OrderBy(c => Math.Min(c.Cut.Reach.Start.To(joint.At), c.Cut.Reach.End.To(joint.At))).FirstOrDefault();
        return branch.On is var (header, lean) ? WeldMetal.SetOn(joint.Wall, joint.Gap, branch.Cut.Pipe.Inside / 2, header, lean) : null;
    }

    /// <summary>Welds of a kind in the shop or at site: how many, and their nominal inches.</summary>
    public (int Count, double Inches) Of(JointKind kind, bool shop)
    {
        var welds = Welds.Where(w => w.Joint.Kind == kind && w.IsShop == shop).ToList();
        return (welds.Count, welds.Sum(w => w.Joint.Size.Inches));
    }

    /// <summary>What is bought: by process and by the metal that is welded, kg of metal and kg to buy.</summary>
    public IEnumerable<(Filler Filler, string Material, double Metal, double ToBuy)> ToBuy =>
        Welds.Where(w => w.Mass is not null).GroupBy(w => (w.Filler, w.Material)).Select(g => (g.Key.Filler, g.Key.Material, g.Sum(w => w.Mass!.Value), g.Sum(w => w.ToBuy!.Value)));
}
