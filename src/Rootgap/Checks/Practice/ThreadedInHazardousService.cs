using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Threads in a line that carries something dangerous.</summary>
internal sealed class ThreadedInHazardousService : Rule
{
    private static readonly string[] Dangerous =
        ["acid", "ammonia", "benzene", "butane", "caustic", "chlorine", "diesel", "ethane", "ethanol", "fuel", "gasoline", "hydrocarbon", "hydrogen", "LPG", "methane", "methanol", "natural gas", "oxygen", "petrol", "phenol", "propane", "sour", "toluene"];

    public override string Name => "threaded-in-hazardous-service";
    public override Severity Severity => Severity.Note;
    public override string Says => "The line carries a fluid that burns, poisons or feeds fire, and has threaded joints.";
    public override string Why => "Threads leak with time and vibration; codes limit them in severe service (ASME B31.3 314: the engineer decides).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var fluid = route.Drawing.Service.Fluid;
        if (fluid.Length == 0 || Array.Find(Dangerous, d => fluid.Contains(d, StringComparison.OrdinalIgnoreCase)) is null)
            yield break;
        var count = 0;
        Joint? first = null;
        foreach (var joint in route.Joints)
        {
            if (joint.Kind == JointKind.Threaded)
                (first, count) = (first ?? joint, count + 1);
        }

        if (first is not null)
            yield return Found(first.Source, "to", Say($"{count} threaded joint{(count == 1 ? "" : "s")} in a line that carries {fluid}, {first.Id} first."), "Ask the engineer whether threads are allowed here, or whether they are seal-welded.");
    }
}
